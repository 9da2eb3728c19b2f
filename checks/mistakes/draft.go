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
}

func newDraft(root *strict.Node, s *sheet.Sheet) draft {
	d := draft{root.Clone(), s}
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

// edit is a copy of the draft's tree for f to alter.
func (d draft) edit(f func(root *strict.Node)) *strict.Node {
	c := d.root.Clone()
	f(c)
	return c
}

// ends alters the ends of every wire by f.
func (d draft) ends(f func(wire int, end string) string) *strict.Node {
	return d.edit(func(root *strict.Node) {
		items := root.Get("wiring").Items
		kept := items[:0]
		for i, w := range d.s.Wires {
			a, b := f(i, w.A), f(i, w.B)
			if a != b {
				kept = append(kept, wireNode(a, b, w))
			}
		}
		root.Get("wiring").Items = kept
	})
}

// exchanged has everything that hung on x hang on y, and the other way round.
func (d draft) exchanged(x, y string) *strict.Node {
	return d.ends(func(_ int, end string) string {
		switch end {
		case x:
			return y
		case y:
			return x
		}
		return end
	})
}

// cut leaves wire i out.
func (d draft) cut(i int) *strict.Node {
	return d.edit(func(root *strict.Node) {
		w := root.Get("wiring")
		w.Items = slices.Delete(w.Items, i, i+1)
	})
}

// joined adds a wire from a to b.
func (d draft) joined(a, b string) *strict.Node {
	return d.edit(func(root *strict.Node) {
		w := root.Get("wiring")
		w.Items = append(w.Items, wireNode(a, b, nil))
	})
}

// moved lands one end of wire i elsewhere.
func (d draft) moved(i int, from, to string) *strict.Node {
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
func (d draft) with(value string, path ...string) *strict.Node {
	return d.edit(func(root *strict.Node) { at(root, path[:len(path)-1]).Set(path[len(path)-1], strict.TextNode(value)) })
}

// less takes the key at the end of the path away.
func (d draft) less(path ...string) *strict.Node {
	return d.edit(func(root *strict.Node) { at(root, path[:len(path)-1]).Delete(path[len(path)-1]) })
}

func at(n *strict.Node, path []string) *strict.Node {
	for _, key := range path {
		n = n.Get(key)
	}
	return n
}

// unwired tells whether cutting wire i leaves a part on no wire at all, so
// that the sheet is refused.
func (d draft) unwired(i int) bool {
	return slices.ContainsFunc([]string{d.s.Wires[i].A, d.s.Wires[i].B}, func(end string) bool {
		p := d.partOf(end)
		return p != nil && !slices.ContainsFunc(d.s.Wires, func(w *sheet.Wire) bool {
			return w != d.s.Wires[i] && (d.partOf(w.A) == p || d.partOf(w.B) == p)
		})
	})
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
