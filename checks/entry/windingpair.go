package entry

import (
	"fmt"
	"math"
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
)

var windingsDriven = &figure.Def{Name: "windings-drive-each-other", Room: "entry", Of: []string{"set"}, Present: true,
	Says: "wire or closed contacts join two windings side by side, of one transformer or of two that the line feeds, and their volts or their phase differ"}

// sideBySide is how far apart, as a share of the lower, the volts of windings
// side by side may be: some copper's drop drives some of the rated current round
// (common practice; small transformers drop 5 % and more at their load).
const sideBySide = 0.05

// computeWindingsDriven looks at every two windings that are joined at both ends
// of a stretch, of one transformer or of two that the line feeds: each is then a
// load of the other, with next to nothing but copper in the way.
func computeWindingsDriven(b *bench.Bench) figure.Figure {
	var needs []figure.Need
	for _, st := range positions(b, bench.State{}) {
		c := b.Circuit(st)
		ws := drivenWindings(b, c)
		for i, v := range ws {
			for _, w := range ws[i+1:] {
				if v.Part != w.Part && !(v.secondary() && w.secondary()) {
					continue // side by side on the line, or one feeds the other: neither drives the other
				}
				found, lacks := drive(c, v, w)
				if found != nil {
					return present(windingsDriven, b.Set(), found.witness, found.note)
				}
				needs = append(needs, lacks...)
			}
		}
	}
	if len(needs) > 0 {
		return figure.NotKnown(windingsDriven, b.Set(), needs...)
	}
	return figure.Is(windingsDriven, b.Set(), false)
}

// fedWinding is a winding, and how the line feeds its transformer; nil where the
// line does not.
type fedWinding struct {
	bench.PartWinding
	feed *lineFeed
}

// secondary tells a secondary of a transformer that the line feeds.
func (w fedWinding) secondary() bool { return w.feed != nil && w.Winding.Role != "primary" }

// lineFeed is how the line feeds a transformer: on which stretch of which winding,
// from the end that hot comes to.
type lineFeed struct {
	of       bench.PartWinding
	from, to int // places in its order; both 0 where they are not found
}

func drivenWindings(b *bench.Bench, c *circuit.Circuit) (out []fedWinding) {
	for _, p := range b.Parts(part.MainsCore) {
		feed := feedOf(b, c, p)
		for _, w := range p.Windings {
			out = append(out, fedWinding{bench.PartWinding{Part: p, Winding: w}, feed})
		}
	}
	return out
}

// feedOf finds the winding of a transformer that both line conductors come to.
func feedOf(b *bench.Bench, c *circuit.Circuit, p *part.Part) *lineFeed {
	var out *lineFeed
	lines := b.Lines()
	hot, neutral := c.Reach(lines[:1], bench.AlongLine), c.Reach(lines[1:], bench.AlongLine)
	for _, w := range b.Wired().Primaries {
		if w.Part != p {
			continue
		}
		if out == nil {
			out = &lineFeed{of: w}
		}
		at := func(r net) int {
			return slices.IndexFunc(w.Winding.Order, func(t string) bool { return r.Has(p.Full(t)) })
		}
		if from, to := at(hot), at(neutral); from >= 0 && to >= 0 && from != to {
			return &lineFeed{w, from, to}
		}
	}
	return out
}

// driven is two windings that drive each other.
type driven struct {
	witness []string
	note    string
}

// drive finds stretches of two windings with both their ends in common. The
// phase of sections of a primary is primary-sections-phased's matter.
func drive(c *circuit.Circuit, v, w fedWinding) (*driven, []figure.Need) {
	var needs []figure.Need
	for i, from := range v.Winding.Order {
		r := c.Reach([]string{v.Part.Full(from)}, bench.Contacts)
		for j := i + 1; j < len(v.Winding.Order); j++ {
			s := c.Reach([]string{v.Part.Full(v.Winding.Order[j])}, bench.Contacts)
			for k, near := range w.Winding.Order {
				for l, far := range w.Winding.Order {
					if k == l || !r.Has(w.Part.Full(near)) || !s.Has(w.Part.Full(far)) || r.Has(v.Part.Full(v.Winding.Order[j])) {
						continue
					}
					note, lacks := againstEachOther(v, w, [4]int{i, j, k, l})
					if note != "" {
						return &driven{append(path(r, w.Part.Full(near)), path(s, w.Part.Full(far))...), note}, nil
					}
					needs = append(needs, lacks...)
				}
			}
		}
	}
	return nil, needs
}

// againstEachOther says how two stretches side by side, of v from place at[0] to
// at[1] and of w from at[2] to at[3], differ in volts or in phase; "" where they
// do not, with what would tell.
func againstEachOther(v, w fedWinding, at [4]int) (note string, needs []figure.Need) {
	a, okA := between(v.Winding, at[0], at[1])
	z, okZ := between(w.Winding, at[2], at[3])
	windings := []bench.PartWinding{v.PartWinding, w.PartWinding}
	dots := dotSign(v.Winding, at[0], at[1]) * dotSign(w.Winding, at[2], at[3])
	needs = append(voltsOf(v.PartWinding, okA), voltsOf(w.PartWinding, okZ)...)
	shareA, shareZ := a, z
	if v.Part != w.Part { // as much as each gives of the same line
		lineA, okLineA := between(v.feed.of.Winding, v.feed.from, v.feed.to)
		lineZ, okLineZ := between(w.feed.of.Winding, w.feed.from, w.feed.to)
		okLineA, okLineZ = okLineA && lineA.Low > 0, okLineZ && lineZ.Low > 0
		needs = append(append(needs, voltsOf(v.feed.of, okLineA)...), voltsOf(w.feed.of, okLineZ)...)
		windings = append(windings, v.feed.of, w.feed.of)
		dots *= dotSign(v.feed.of.Winding, v.feed.from, v.feed.to) * dotSign(w.feed.of.Winding, w.feed.from, w.feed.to)
		if len(needs) == 0 {
			shareA, shareZ = a.Div(lineA, quantity.Number), z.Div(lineZ, quantity.Number)
		}
	}
	switch {
	case len(needs) > 0:
	case math.Max(shareA.Low, shareZ.Low) > (1+sideBySide)*math.Min(shareA.High, shareZ.High):
		return fmt.Sprintf("%s on %s and %s on %s lie side by side", a, v.Name(), z, w.Name()), nil
	case math.Max(shareA.High, shareZ.High) > (1+sideBySide)*math.Min(shareA.Low, shareZ.Low):
		needs = voltsOf(v.PartWinding, false)
	}
	switch {
	case v.Winding.Role == "primary" && w.Winding.Role == "primary":
	case dots < 0:
		return fmt.Sprintf("%s and %s lie side by side against each other's phase", v.Name(), w.Name()), nil
	case dots == 0:
		for _, x := range windings {
			needs = append(needs, dotOf(x)...)
		}
	}
	return "", needs
}

// dotSign is 1 where a stretch of a winding runs from the end with the phase mark
// to the other, -1 where it runs the other way, 0 where there is no mark.
func dotSign(w *part.Winding, from, to int) int {
	switch dot := w.Node.Word("dot"); {
	case dot == "" || from == to:
		return 0
	case (dot == w.Ends[0]) == (from < to):
		return 1
	}
	return -1
}

// between is the volts of a winding between two of its terminals.
func between(w *part.Winding, i, j int) (quantity.Range, bool) {
	volts, ok := part.ValueOf(w.Node.Get("voltage"))
	if !ok {
		volts, ok = part.ValueOf(w.Node.Get("no-load"))
	}
	if !ok || w.Share == nil || !volts.Bounded() {
		return quantity.Range{}, false
	}
	return volts.Scale(math.Abs(w.Share[j] - w.Share[i])), true
}

func voltsOf(w bench.PartWinding, known bool) []figure.Need {
	if known {
		return nil
	}
	return []figure.Need{{What: w.Name() + " voltage", How: "volts of a winding that lies beside another: its label, the diagram, a low voltage fed in"}}
}

func dotOf(w bench.PartWinding) []figure.Need {
	if w.Winding.Node.Word("dot") != "" {
		return nil
	}
	return []figure.Need{{What: w.Name() + " dot", How: "which end of the winding carries the phase mark; a low voltage fed in tells"}}
}
