package ratings

import (
	"fmt"
	"math"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
)

var outletDef = &figure.Def{
	Name: "outlet-load-share", Room: "ratings", Of: []string{"outlet"}, Unit: quantity.Number,
	Says: "what set and outlets draw together, divided by the least that cord, fuse and switch ahead of the outlet may carry.",
}

func outletLoads(b *bench.Bench) []figure.Figure {
	in := running(b)
	var out []figure.Figure
	for _, p := range b.Parts("outlet") {
		carry, basis, needs := ampacity(b)
		needs = append(append([]figure.Need{}, in.needs...), needs...)
		trace := append(append([]string{}, in.trace...), fmt.Sprintf("cord carries %s", carry))
		for _, q := range ahead(b, p) {
			r, ok := q.Value("rating")
			if !ok {
				needs = append(needs, lacks(q, "rating", "read it off the part"))
				continue
			}
			trace = append(trace, fmt.Sprintf("%s carries %s", q.Name, r))
			carry.Low, carry.High = math.Min(carry.Low, r.Low), math.Min(carry.High, r.High)
		}
		if len(needs) > 0 {
			out = append(out, figure.NotKnown(outletDef, b.Of(p), needs...))
			continue
		}
		q := in.span().Div(carry, quantity.Number)
		f := figure.Number(outletDef, b.Of(p), q)
		f.Trace = append(trace, fmt.Sprintf("%s ÷ %s = %s", in.span(), carry, q))
		f.From = append([]figure.Basis{basis}, in.from...)
		out = append(out, f)
	}
	return out
}

// ahead lists the fuses and switches that carry the outlet's current: without
// them a line conductor no longer reaches it.
func ahead(b *bench.Bench, p *part.Part) []*part.Part {
	var out []*part.Part
	lines := b.Lines()
	for _, q := range b.Parts("fuse", "switch") {
		st := bench.ClosedState()
		st.Without = []string{q.Name}
		with, without := b.Circuit(bench.ClosedState()), b.Circuit(st)
		for _, line := range lines {
			for _, t := range []string{"hot", "neutral"} {
				if with.Reach([]string{line}, bench.Near).Has(p.Full(t)) && !without.Reach([]string{line}, bench.Near).Has(p.Full(t)) {
					out = append(out, q)
				}
			}
		}
	}
	return out
}
