package ratings

import (
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
)

var varistorLine = bench.EachPart(figure.Def{
	Name: "varistor-on-line", Of: part.Named(part.Clamps), Present: true,
	Says: "the varistor hangs on a line conductor.",
}, func(b *bench.Bench, p *part.Part) figure.Figure {
	is := false
	for _, st := range everyPosition(b) {
		e := newEnds(b, st)
		is = is || slices.ContainsFunc(p.Terminals(), func(t string) bool { return e.hot.Has(p.Full(t)) || e.neutral.Has(p.Full(t)) })
	}
	return searched(b, is, nil)
})

// varistorAhead takes all fuses out. Across the line no fuse guards the
// varistor if both its ends are still on their conductors; from line to metal,
// if its line end is still on hot, or on either where either may be hot.
var varistorAhead = bench.EachPart(figure.Def{
	Name: "varistor-without-fuse", Of: part.Named(part.Clamps), Present: true,
	Says: "with the fuses out, the line still drives current through the varistor.",
}, func(b *bench.Bench, p *part.Part) figure.Figure {
	states, _ := b.Combinations(bench.State{AllOut: true}, true)
	either := b.Wired().Orientation != "fixed"
	t := p.Terminals()
	for _, st := range states {
		e := newEnds(b, st)
		for i := range t {
			one, other := p.Full(t[i]), p.Full(t[1-i])
			across := e.hot.Has(one) && e.neutral.Has(other)
			toMetal := !e.hot.Has(other) && !e.neutral.Has(other) && (e.hot.Has(one) || either && e.neutral.Has(one))
			if across || toMetal {
				return searched(b, true, bench.Trace(e.hot.Path(one)))
			}
		}
	}
	return searched(b, false, nil)
})
