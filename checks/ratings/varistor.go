package ratings

import (
	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
)

var (
	varistorLineDef = &figure.Def{
		Name: "varistor-on-line", Room: "ratings", Of: []string{"varistor"}, Present: true,
		Says: "the varistor hangs on a line conductor.",
	}
	varistorAheadDef = &figure.Def{
		Name: "varistor-without-fuse", Room: "ratings", Of: []string{"varistor"}, Present: true,
		Says: "with the fuses out, the line still drives current through the varistor.",
	}
)

func varistorLine(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	for _, p := range b.Parts("varistor") {
		is := false
		for _, st := range everyPosition(b) {
			e := newEnds(b, st)
			for _, t := range p.Terminals() {
				is = is || e.hot.Has(p.Full(t)) || e.neutral.Has(p.Full(t))
			}
		}
		out = append(out, searched(b, figure.Is(varistorLineDef, b.Of(p), is)))
	}
	return out
}

// varistorAhead takes all fuses out. Across the line no fuse guards the
// varistor if both its ends are still on their conductors; from line to metal,
// if its line end is still on hot, or on either where either may be hot.
func varistorAhead(b *bench.Bench) []figure.Figure {
	states, _ := b.Combinations(bench.State{AllOut: true}, true)
	either := b.Wired().Orientation != "fixed"
	var out []figure.Figure
	for _, p := range b.Parts("varistor") {
		f := figure.Is(varistorAheadDef, b.Of(p), false)
		t := p.Terminals()
		for _, st := range states {
			e := newEnds(b, st)
			for i := range t {
				one, other := p.Full(t[i]), p.Full(t[1-i])
				across := e.hot.Has(one) && e.neutral.Has(other)
				toMetal := !e.hot.Has(other) && !e.neutral.Has(other) && (e.hot.Has(one) || either && e.neutral.Has(one))
				if (across || toMetal) && !*f.Present {
					f = figure.Is(varistorAheadDef, b.Of(p), true)
					f.Witness = bench.Trace(e.hot.Path(one))
				}
			}
		}
		out = append(out, searched(b, f))
	}
	return out
}
