package ratings

import (
	"fmt"
	"math"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/handbook"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
)

var (
	fuseOverRunningDef = &figure.Def{
		Name: "fuse-over-running", Room: "ratings", Of: []string{"fuse"}, Unit: quantity.Number,
		Says: "rating of the fuse, divided by the least current that the set runs at.",
	}
	fuseStepsDef = &figure.Def{
		Name: "fuse-steps-too-large", Room: "ratings", Of: []string{"fuse"}, Unit: quantity.Number,
		Says: "standard ratings between the one that twice the running current asks for and this fuse.",
	}
	fuseLoadDef = &figure.Def{
		Name: "fuse-load-share", Room: "ratings", Of: []string{"fuse"}, Unit: quantity.Number,
		Says: "running current, divided by what the fuse's standard has it hold for an hour.",
	}
)

// twice is the upper end of the sizing window in running currents; what it
// asks for is the next standard rating.
const twice = 2.0

// sized computes a figure of each fuse that has a rating, beside what the set
// draws.
func sized(b *bench.Bench, d *figure.Def, compute func(*part.Part, quantity.Range, draw) figure.Figure) []figure.Figure {
	in := running(b)
	var out []figure.Figure
	for _, p := range b.Parts("fuse") {
		rating, ok := p.Value("rating")
		needs := in.needs
		for _, q := range beside(b, p) { // their ratings add up to what opens the line
			r, said := q.Value("rating")
			rating, ok = rating.Add(r), ok && said
		}
		if !ok {
			needs = append([]figure.Need{lacks(p, "rating", "read it off the fuse")}, needs...)
		}
		if len(needs) > 0 {
			out = append(out, figure.NotKnown(d, b.Of(p), needs...))
			continue
		}
		f := compute(p, rating, in)
		f.Trace = append(append([]string{}, in.trace...), f.Trace...)
		f.From = append(f.From, in.from...)
		f.At = p.Node.Get("rating").At()
		out = append(out, f)
	}
	return out
}

// beside lists the other fuses that carry current past p: each joins, by wire
// and contacts, what p joins.
func beside(b *bench.Bench, p *part.Part) []*part.Part {
	c := b.Circuit(bench.State{AllClosed: true, AllOut: true})
	ends := func(q *part.Part) (x, y string) { t := q.Terminals(); return q.Full(t[0]), q.Full(t[1]) }
	x, y := ends(p)
	near, far := c.Reach([]string{x}, bench.Contacts), c.Reach([]string{y}, bench.Contacts)
	var out []*part.Part
	for _, q := range b.Parts("fuse") {
		if s, t := ends(q); q != p && (near.Has(s) && far.Has(t) || near.Has(t) && far.Has(s)) {
			out = append(out, q)
		}
	}
	return out
}

func fuseOverRunning(b *bench.Bench) []figure.Figure {
	return sized(b, fuseOverRunningDef, func(p *part.Part, rating quantity.Range, in draw) figure.Figure {
		q := rating.Div(in.least, quantity.Number)
		f := figure.Number(fuseOverRunningDef, b.Of(p), q)
		f.Trace = []string{fmt.Sprintf("%s ÷ %s = %s", rating, in.least, q)}
		return f
	})
}

// fuseSteps counts from the smallest standard rating that is at least twice
// the greatest running current up to the fuse: none if it is no larger. Where
// the standard is not known either may be meant.
func fuseSteps(b *bench.Bench) []figure.Figure {
	return sized(b, fuseStepsDef, func(p *part.Part, rating quantity.Range, in draw) figure.Figure {
		standards := []string{p.Word("standard")}
		if standards[0] == "" {
			standards = []string{"iec-60127", "ul-248-14"}
		}
		steps := quantity.Range{Low: math.Inf(1), High: math.Inf(-1), Dim: quantity.Number}
		var f figure.Figure
		for _, s := range standards {
			least, most := handbook.NextStandard(s, twice*in.most.Low), handbook.NextStandard(s, twice*in.most.High)
			if math.IsNaN(least) || math.IsNaN(most) {
				return figure.NotKnown(fuseStepsDef, b.Of(p), figure.Need{What: "a standard fuse rating of " + in.most.Scale(twice).String(), How: "no rating of " + s + " is that large: look at the nameplate power"})
			}
			steps.Low = math.Min(steps.Low, stepsAbove(s, most, rating.Low))
			steps.High = math.Max(steps.High, stepsAbove(s, least, rating.High))
			f.Trace = append(f.Trace, fmt.Sprintf("%g × %s = %s; next rating of %s: %s", twice, in.most, in.most.Scale(twice), s, quantity.Between(least, most, quantity.Current)))
			if basis, ok := handbook.SeriesBasis(s, most); ok {
				f.From = append(f.From, basis)
			}
		}
		n := figure.Number(fuseStepsDef, b.Of(p), steps)
		n.Trace, n.From = f.Trace, f.From
		return n
	})
}

// stepsAbove counts the standard ratings from top on that are below rating.
func stepsAbove(standard string, top, rating float64) float64 {
	n := 0.0
	for _, r := range handbook.FuseSeries(standard) {
		if r >= top && r < rating*(1-1e-6) {
			n++
		}
	}
	return n
}

// fuseLoad compares with what the fuse must hold: a UL fuse its rating, an IEC
// one half as much again, by the gates of their standards.
func fuseLoad(b *bench.Bench) []figure.Figure {
	return sized(b, fuseLoadDef, func(p *part.Part, rating quantity.Range, in draw) figure.Figure {
		if p.Word("standard") == "" {
			return figure.NotKnown(fuseLoadDef, b.Of(p), lacks(p, "standard", "the marks on the cap: a UL fuse opens at 1.35 times its rating within the hour, an IEC fuse holds 1.5 times"))
		}
		gates, basis, ok := handbook.FuseGates(p.Word("standard"), p.Word("speed"), p.Word("body"), rating.Low)
		hold := 0.0
		for _, g := range gates {
			if g.Min >= 3600 {
				hold = math.Max(hold, g.Multiple)
			}
		}
		if !ok {
			// A ceramic fuse below 1 A, say: no sheet tables its gates, and all
			// sheets of the standard have it hold as much.
			hold, basis, ok = handbook.FuseHold(p.Word("standard"))
		}
		if !ok || !(hold > 0) {
			return figure.NotKnown(fuseLoadDef, b.Of(p), lacks(p, "rating", "a rating that the sheets of "+p.Word("standard")+" reach"))
		}
		q := in.span().Div(rating.Scale(hold), quantity.Number)
		f := figure.Number(fuseLoadDef, b.Of(p), q)
		f.Trace = []string{fmt.Sprintf("%s ÷ (%g × %s) = %s", in.span(), hold, rating, q)}
		f.From = []figure.Basis{basis}
		return f
	})
}
