package ratings

import (
	"fmt"
	"math"
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
)

var outletLoads = bench.EachPart(figure.Def{
	Name: "outlet-load-share", Of: part.Named(part.Feeds), Unit: quantity.Number,
	Says: "what set and outlets draw together, divided by the least that cord, fuse and switch ahead of the outlet may carry.",
}, func(b *bench.Bench, p *part.Part) figure.Figure {
	in := running(b)
	carry, basis, needs := ampacity(b)
	needs = slices.Concat(in.needs, needs)
	trace := []string{fmt.Sprintf("cord carries %s", carry)}
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
		return figure.Lacking(needs...)
	}
	f := figure.Over(in.span(), carry)
	f.Trace, f.From = append(trace, f.Trace...), []figure.Basis{basis}
	return in.explains(onCord(b, f, carry))
})

// ahead lists the fuses and switches that carry the outlet's current: without
// them a line conductor no longer reaches it.
func ahead(b *bench.Bench, p *part.Part) []*part.Part {
	var out []*part.Part
	lines := b.Lines()
	for _, q := range b.Parts(part.Fuses | part.Switches) {
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
