package ratings

import (
	"fmt"
	"math"
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/figure"
	"firstvolt/checks/handbook"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
	"firstvolt/checks/sheet"
)

// sizedRuns are the wires with a size on the sheet: those that line current or
// the current of a fault ahead of the loads flows through, and those between
// the ground pin and metal.
type sizedRuns struct{ mains, ground []*sheet.Wire }

func runsWithSize(b *bench.Bench) sizedRuns {
	return b.Keep(kept("sized runs"), func() any { return findSized(b) }).(sizedRuns)
}

func findSized(b *bench.Bench) (out sizedRuns) {
	if !slices.ContainsFunc(b.Sheet.Wires, func(w *sheet.Wire) bool { return w.Size != "" }) {
		return out
	}
	add := func(list *[]*sheet.Wire, es []*circuit.Element, also func(*sheet.Wire) bool) {
		for _, e := range es {
			if w := bench.WireOfElement(e); w != nil && w.Size != "" && also(w) && !slices.Contains(*list, w) {
				*list = append(*list, w)
			}
		}
	}
	lines := b.Lines()
	for _, st := range switchedOn(b) {
		c := b.Circuit(st)
		near := c.Reach(lines[:], bench.Near)
		all := bridged(c)
		for i := range lines {
			for _, to := range []string{lines[1-i], sheet.PlugGround, sheet.Chassis} {
				add(&out.mains, all.Between(lines[i:i+1], []string{to}), func(w *sheet.Wire) bool { return near.Has(w.A) && near.Has(w.B) })
			}
		}
		metal := []string{sheet.Chassis}
		for _, p := range b.Parts(part.Metal) {
			metal = append(metal, p.Name)
		}
		for _, p := range b.Sheet.Parts {
			if t := p.Kind.Ground; t != "" {
				metal = append(metal, p.Full(t))
			} else if s := p.Word("shield"); s != "" {
				metal = append(metal, p.Full(s))
			}
		}
		for _, t := range metal {
			add(&out.ground, c.Between([]string{sheet.PlugGround}, []string{t}), func(w *sheet.Wire) bool {
				return c.Reach([]string{sheet.PlugGround}, bench.GroundPath).Has(w.A)
			})
		}
	}
	return out
}

// bridged is the circuit with all that may fail short in it conducting.
func bridged(c *circuit.Circuit) *circuit.Circuit {
	es := slices.Clone(c.Elements())
	for i := range es {
		if es[i].Conducts == circuit.Bridging || es[i].Conducts == circuit.OneWay {
			es[i].Conducts, es[i].Law, es[i].R = circuit.Conducting, circuit.Linear, circuit.Anything()
		}
	}
	return circuit.New(es, sheet.PlugHot, sheet.PlugNeutral, sheet.PlugGround, sheet.Chassis)
}

// runFigure is the definition of a figure of the runs of the set.
func runFigure(name, says string, present bool) figure.Def {
	return figure.Def{Name: name, Of: []string{"set"}, Present: present, Says: says}
}

var runSized = bench.EachSubject(runFigure("mains-run-sized", "a run on the mains side has a size on the sheet.", true),
	func(b *bench.Bench, _ figure.Subject) figure.Figure { return figure.So(len(runsWithSize(b).mains) > 0) })

var groundSized = bench.EachSubject(runFigure("ground-run-sized", "a run of the ground path has a size on the sheet.", true),
	func(b *bench.Bench, _ figure.Subject) figure.Figure {
		return figure.So(len(runsWithSize(b).ground) > 0)
	})

// thinnest is the figure of the run that bears least, by its share.
func thinnest(runs []*sheet.Wire, share func(*sheet.Wire) (quantity.Range, string, figure.Basis, []figure.Need)) []figure.Figure {
	if len(runs) == 0 {
		return nil
	}
	f := figure.Amount(quantity.Exact(math.Inf(-1), quantity.Number))
	var needs []figure.Need
	for _, w := range runs {
		q, trace, basis, missing := share(w)
		needs = append(needs, missing...)
		if len(missing) == 0 && q.High > f.Range.High {
			f.Range, f.Trace, f.At, f.Witness = q, []string{trace}, w.At, []string{w.A, w.B}
			f.Note = fmt.Sprintf("the run from %s to %s is %s", w.A, w.B, w.Size)
			f.From = nil
			if basis.Source != "" {
				f.From = []figure.Basis{basis}
			}
		}
	}
	if len(needs) > 0 {
		return []figure.Figure{figure.Lacking(needs...)}
	}
	return []figure.Figure{f}
}

var runFuse = bench.EachSubject(runFigure("fuse-over-run", "rating of the set's mains fuse, divided by what the thinnest sized run on the mains side may carry.", false), func(b *bench.Bench, _ figure.Subject) []figure.Figure {
	fuse, needs := largestFuse(b)
	return thinnest(runsWithSize(b).mains, func(w *sheet.Wire) (quantity.Range, string, figure.Basis, []figure.Need) {
		amps, basis, ok := handbook.Ampacity(w.Size, w.Area, 2)
		carry := quantity.Exact(amps, quantity.Current)
		if !ok {
			amps, basis, ok = handbook.AmpacityAtMost(w.Area, 2)
			carry = quantity.Range{High: amps, Dim: quantity.Current}
		}
		if !ok {
			return quantity.Range{}, "", basis, append(slices.Clone(needs), figure.Need{What: fmt.Sprintf("what %s from %s to %s may carry", w.Size, w.A, w.B), How: "wire of a size that the table of cords knows: 18 AWG, 0.75 mm² or more"})
		}
		q := fuse.Div(carry, quantity.Number)
		return q, fmt.Sprintf("%s ÷ %s = %s", fuse, carry, q), basis, needs
	})
})

var groundSize = bench.EachSubject(runFigure("cord-over-ground-run", "area of a conductor of the cord, divided by that of the thinnest sized run of the ground path.", false), func(b *bench.Bench, _ figure.Subject) []figure.Figure {
	written, area, ok := b.Sheet.ConductorSize()
	var needs []figure.Need
	if !ok {
		needs = []figure.Need{{What: "cord size", How: "read it off the jacket: 18 AWG, 0.75 mm²"}}
	}
	return thinnest(runsWithSize(b).ground, func(w *sheet.Wire) (quantity.Range, string, figure.Basis, []figure.Need) {
		q := area.Div(w.Area, quantity.Number)
		return q, fmt.Sprintf("%s ÷ %s = %s", written, w.Size, q), figure.Basis{}, needs
	})
})
