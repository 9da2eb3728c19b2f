package mistakes

import (
	"fmt"
	"slices"
	"strings"

	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
)

// draft is a sheet with every run laid out as single wires between named
// terminals, so that one wire can be altered without touching another. Item i
// of its wiring is wire i of the sheet.
type draft struct {
	root *strict.Node
	s    *sheet.Sheet
	kept *kept
}

// kept is what of a draft's wiring was found once.
type kept struct {
	copper    nets
	sides     map[string]side
	terminals []string
	marks     map[string]mark
	class     map[string]uint64   // of terminals; the parts alone decide it
	past      map[string][]string // likewise
	bothWays  *bool
}

func newKept() *kept { return &kept{class: map[string]uint64{}, past: map[string][]string{}} }

func newDraft(root *strict.Node, s *sheet.Sheet) draft {
	d := draft{root.Clone(), s, newKept()}
	if !s.HasWiring() {
		return d
	}
	list := strict.ListNode()
	for _, w := range s.Wires {
		list.Items = append(list.Items, wireNode(w.A, w.B, w))
	}
	d.root.Set("wiring", list)
	return d
}

// wireNode is the run of one wire from a to b, with everything else as w has it.
func wireNode(a, b string, w *sheet.Wire) *strict.Node {
	n := strict.MapNode(strict.Pair("run", strict.TextNode(a+" -> "+b)))
	if w == nil {
		return n
	}
	for _, e := range []struct{ key, word string }{
		{"color", w.Color}, {"size", w.Size}, {"joint", w.Joint}, {"slack", w.Slack}, {"changed", w.Changed},
	} {
		if e.word != "" {
			n.Set(e.key, strict.TextNode(e.word))
		}
	}
	return n
}

// edit makes copies of the draft's tree as f alters them.
func (d draft) edit(f func(root *strict.Node)) func() *strict.Node {
	return func() *strict.Node {
		c := d.root.Clone()
		f(c)
		return c
	}
}

// tree is the draft's tree with these wires.
func (d draft) tree(wires []*sheet.Wire) func() *strict.Node {
	return d.edit(func(root *strict.Node) {
		list := strict.ListNode()
		for _, w := range wires {
			list.Items = append(list.Items, wireNode(w.A, w.B, w))
		}
		root.Set("wiring", list)
	})
}

// ends gives the wires with their ends altered by f; one whose ends would meet
// is left out.
func (d draft) ends(f func(wire int, end string) string) []*sheet.Wire {
	var out []*sheet.Wire
	for i, w := range d.s.Wires {
		if a, b := f(i, w.A), f(i, w.B); a != b {
			n := *w
			n.A, n.B = a, b
			out = append(out, &n)
		}
	}
	return out
}

// swapped is a function for ends: every terminal of the map lies where it says.
func swapped(turn map[string]string) func(int, string) string {
	return func(_ int, end string) string {
		if to, ok := turn[end]; ok {
			return to
		}
		return end
	}
}

// exchanged has everything that hung on x hang on y, and the other way round.
func (d draft) exchanged(x, y string) []*sheet.Wire {
	return d.ends(swapped(map[string]string{x: y, y: x}))
}

// cut leaves wire i out.
func (d draft) cut(i int) []*sheet.Wire { return slices.Delete(slices.Clone(d.s.Wires), i, i+1) }

// joined adds a wire from a to b.
func (d draft) joined(a, b string) []*sheet.Wire {
	return append(slices.Clone(d.s.Wires), &sheet.Wire{A: a, B: b})
}

// moved lands one end of wire i elsewhere.
func (d draft) moved(i int, from, to string) []*sheet.Wire {
	done := false
	return d.ends(func(wire int, end string) string {
		if wire == i && end == from && !done {
			done = true
			return to
		}
		return end
	})
}

// with sets a value under a path of keys, which must be there but for the last.
func (d draft) with(value string, path ...string) func() *strict.Node {
	return d.edit(func(root *strict.Node) { at(root, path[:len(path)-1]).Set(path[len(path)-1], strict.TextNode(value)) })
}

// less takes the key at the end of the path away.
func (d draft) less(path ...string) func() *strict.Node {
	return d.edit(func(root *strict.Node) { at(root, path[:len(path)-1]).Delete(path[len(path)-1]) })
}

func at(n *strict.Node, path []string) *strict.Node {
	for _, key := range path {
		n = n.Get(key)
	}
	return n
}

func (d draft) partOf(terminal string) *part.Part {
	name, _, _ := strings.Cut(terminal, ".")
	return d.s.Part(name)
}

func (d draft) parts(kinds ...string) []*part.Part {
	var out []*part.Part
	for _, p := range d.s.Parts {
		if slices.Contains(kinds, p.Kind.Name) {
			out = append(out, p)
		}
	}
	return out
}

func (d draft) wireName(i int) string {
	return fmt.Sprintf("%s -> %s", d.s.Wires[i].A, d.s.Wires[i].B)
}

func (d draft) bothWays() bool {
	if d.kept.bothWays == nil {
		fits := d.fitsBothWays()
		d.kept.bothWays = &fits
	}
	return *d.kept.bothWays
}

func (d draft) fitsBothWays() bool {
	fits := d.s.Plug.Fits == "both-ways"
	for _, l := range d.s.Upstream {
		if (l.Kind == "adaptor" || l.Kind == "autotransformer") && l.Word("fits") != "one-way" {
			fits = true
		}
	}
	if d.s.Supply().Word("system") == "two-line" {
		return true
	}
	switch cord := d.s.Cord(); {
	case cord.Word("inlet-fits") == "both-ways", cord.Word("inlet") == "iec-60320-c8":
		fits = true
	}
	return fits
}
