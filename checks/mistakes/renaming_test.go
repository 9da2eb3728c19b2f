package mistakes_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
)

// TestNamesAndOrderMeanNothing lays every sound sheet out anew: every part gets
// another name, every wire goes by way of a new tie, plain wires are turned
// round, the ends of every symmetrical part and the contacts of every pole
// change places, and keys, wires and readings are shuffled. The findings must
// be the same but for the names.
func TestNamesAndOrderMeanNothing(t *testing.T) {
	eachSound(t, func(t *testing.T, s *sound) {
		for seed := range uint64(3) {
			n := newNames(s.s, seed)
			j := judge(t, strict.Write(n.sheet()))
			if j.s == nil {
				t.Fatalf("seed %d: not readable: %v", seed, j.problems)
			}
			compare(t, n, s.was, j)
		}
	})
}

func compare(t *testing.T, n *names, was, is judged) {
	t.Helper()
	if was.Verdict != is.Verdict {
		t.Errorf("%s before, %s after", was.Verdict, is.Verdict)
	}
	after := is.found()
	for k, f := range was.found() {
		k.subject = n.subject(k.subject)
		g, ok := after[k]
		delete(after, k)
		switch {
		case !ok:
			t.Errorf("%s of %s: no longer asked", k.rule, k.subject)
		case g.Outcome != f.Outcome:
			t.Errorf("%s of %s: %s before, %s after: %s %v", k.rule, k.subject, f.Outcome, g.Outcome, g.Says, g.Witness)
		case fmt.Sprintf("%.5v %t", f.Figure.Range, f.Figure.Present != nil && *f.Figure.Present) != fmt.Sprintf("%.5v %t", g.Figure.Range, g.Figure.Present != nil && *g.Figure.Present):
			t.Errorf("%s of %s: %v before, %v after", k.rule, k.subject, f.Figure, g.Figure)
		}
	}
	for k, f := range after {
		t.Errorf("%s of %s: newly asked, %s", k.rule, k.subject, f.Outcome)
	}
}

// names turns a sheet into one that differs in names and order only.
type names struct {
	s    *sheet.Sheet
	rng  *rand.Rand
	part map[string]string // new names
	swap map[string]string // terminals that change places, in old names
}

func newNames(s *sheet.Sheet, seed uint64) *names {
	n := &names{s: s, rng: rand.New(rand.NewPCG(seed, 7)), part: map[string]string{}, swap: map[string]string{}}
	order := n.rng.Perm(len(s.Parts))
	for i, p := range s.Parts {
		n.part[p.Name] = fmt.Sprintf("%c%d-of-%d", 'a'+rune(order[i]%26), order[i], seed)
		ts := p.Terminals()
		switch {
		case p.Kind.Name == "switch":
			for k := 0; k+1 < len(ts); k += 2 {
				n.exchange(p.Full(ts[k]), p.Full(ts[k+1]))
			}
		case p.Kind.Swappable && len(ts) == 2 && ts[0] == "1":
			n.exchange(p.Full("1"), p.Full("2"))
		}
	}
	return n
}

func (n *names) exchange(a, b string) { n.swap[a], n.swap[b] = b, a }

// word renames PART or PART.TERMINAL.
func (n *names) word(w string) string {
	if to, ok := n.swap[w]; ok {
		w = to
	}
	name, rest, dotted := strings.Cut(w, ".")
	to, ok := n.part[name]
	switch {
	case !ok:
		return w
	case dotted:
		return to + "." + rest
	}
	return to
}

// words renames everything in a text that sep parts.
func (n *names) words(text, sep string) string {
	ws := strings.Split(text, sep)
	for i, w := range ws {
		ws[i] = n.word(strings.TrimSpace(w))
	}
	return strings.Join(ws, sep)
}

// subject renames a subject; that of a reading is its two probes.
func (n *names) subject(name string) string {
	probes := strings.Split(name, " – ")
	for i := range probes {
		probes[i] = n.words(probes[i], " + ")
	}
	return strings.Join(probes, " – ")
}

func (n *names) sheet() *strict.Node {
	root := n.s.Root.Clone()
	parts := root.Get("parts")
	for i := range parts.Entries {
		parts.Entries[i].Key = n.part[parts.Entries[i].Key]
	}
	root.Set("wiring", n.wiring(parts))
	if rs := root.Get("readings"); rs != nil {
		for _, kind := range sheet.ReadingKinds {
			if list := rs.Get(kind); list != nil {
				for _, rd := range list.Items {
					n.reading(rd)
				}
				n.rng.Shuffle(len(list.Items), func(i, j int) { list.Items[i], list.Items[j] = list.Items[j], list.Items[i] })
			}
		}
	}
	n.shuffle(root)
	return root
}

func (n *names) reading(rd *strict.Node) {
	for _, key := range []string{"across", "applied"} {
		if v := rd.Get(key); v != nil {
			v.Text = n.word(v.Text)
		}
	}
	if v := rd.Get("between"); v != nil {
		for _, item := range v.Items {
			item.Text = n.words(item.Text, " + ")
		}
	}
	if v := rd.Get("without"); v != nil {
		for _, item := range v.Items {
			item.Text = n.word(item.Text)
		}
	}
	for _, key := range []string{"switches", "fuses", "positions"} {
		if v := rd.Get(key); v != nil {
			for i := range v.Entries {
				v.Entries[i].Key = n.word(v.Entries[i].Key)
			}
		}
	}
}

// wiring takes every wire by way of a tie of its own, and turns round what has
// no joint at its end.
func (n *names) wiring(parts *strict.Node) *strict.Node {
	list := strict.ListNode()
	for i, w := range n.s.Wires {
		tie := fmt.Sprintf("zz-%d", i)
		parts.Set(tie, strict.MapNode(strict.Pair("kind", strict.TextNode("tie"))))
		for k, ends := range [][2]string{{n.word(w.A), tie}, {tie, n.word(w.B)}} {
			joint := ""
			if k == 1 {
				joint = w.Joint
			}
			if joint == "" && n.rng.IntN(2) == 0 {
				ends[0], ends[1] = ends[1], ends[0]
			}
			run := strict.MapNode(strict.Pair("run", strict.TextNode(ends[0]+" -> "+ends[1])))
			for _, e := range [][2]string{{"color", w.Color}, {"size", w.Size}, {"joint", joint}, {"slack", w.Slack}, {"changed", w.Changed}} {
				if e[1] != "" {
					run.Set(e[0], strict.TextNode(e[1]))
				}
			}
			list.Items = append(list.Items, run)
		}
	}
	n.rng.Shuffle(len(list.Items), func(i, j int) { list.Items[i], list.Items[j] = list.Items[j], list.Items[i] })
	return list
}

// shuffle puts the keys of every map into another order, but for taps, whose
// order is told by the page of the format to mean something.
func (n *names) shuffle(node *strict.Node) {
	if node == nil {
		return
	}
	n.rng.Shuffle(len(node.Entries), func(i, j int) { node.Entries[i], node.Entries[j] = node.Entries[j], node.Entries[i] })
	for _, e := range node.Entries {
		if e.Key != "taps" {
			n.shuffle(e.Value)
		}
	}
	for _, item := range slices.All(node.Items) {
		n.shuffle(item)
	}
}
