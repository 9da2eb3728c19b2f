package ratings

import (
	"fmt"
	"math"
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/handbook"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
)

// twice is the upper end of the sizing window in running currents; what it
// asks for is the next standard rating.
const twice = 2.0

// sized is a figure of each fuse that has a rating, beside what the set draws.
func sized(name, says string, value func(*bench.Bench, *part.Part, quantity.Range, draw) figure.Figure) bench.Check {
	return bench.EachPart(figure.Def{Name: name, Of: part.Named(part.Fuses), Unit: quantity.Number, Says: says}, func(b *bench.Bench, p *part.Part) figure.Figure {
		in := running(b)
		rating, ok := p.Value("rating")
		for _, q := range beside(b, p) { // their ratings add up to what opens the line
			r, said := q.Value("rating")
			rating, ok = rating.Add(r), ok && said
		}
		needs := in.needs
		if !ok {
			needs = append([]figure.Need{lacks(p, "rating", "read it off the fuse")}, needs...)
		}
		if len(needs) > 0 {
			return figure.Lacking(needs...)
		}
		f := in.explains(value(b, p, rating, in))
		f.At = p.Node.Get("rating").At()
		return f
	})
}

// beside lists the other fuses that carry current past p: each joins, by wire
// and contacts, what p joins.
func beside(b *bench.Bench, p *part.Part) []*part.Part {
	c := b.Circuit(bench.State{AllClosed: true, AllOut: true})
	ends := func(q *part.Part) (x, y string) { t := q.Terminals(); return q.Full(t[0]), q.Full(t[1]) }
	x, y := ends(p)
	near, far := c.Reach([]string{x}, bench.Contacts), c.Reach([]string{y}, bench.Contacts)
	var out []*part.Part
	for _, q := range b.Parts(part.Fuses) {
		if s, t := ends(q); q != p && (near.Has(s) && far.Has(t) || near.Has(t) && far.Has(s)) {
			out = append(out, q)
		}
	}
	return out
}

var fuseOverRunning = sized("fuse-over-running", "rating of the fuse, divided by the least current that the set runs at.",
	func(_ *bench.Bench, _ *part.Part, rating quantity.Range, in draw) figure.Figure {
		return figure.Over(rating, in.least)
	})

// thrice is the most in running currents, or in currents of the transformer, that
// a fuse may have before the next standard rating (NEC 450.3(B), 300 % below 2 A,
// recalled, not looked up).
const thrice = 3.0

// standards are those that a fuse may be of: what it says, else any.
func standards(p *part.Part) []string {
	if s := p.Word("standard"); s != "" {
		return []string{s}
	}
	return []string{"iec-60127", "ul-248-14"}
}

// standardAbove is the next standard rating above so many amperes; above the last
// of them those amperes.
func standardAbove(standard string, amps float64) float64 {
	if next := handbook.NextStandard(standard, amps); !math.IsNaN(next) {
		return next
	}
	return amps
}

// fuseAllowed holds the fuse against the least of what the set and what its
// transformers allow.
var fuseAllowed = sized("fuse-over-allowed", "rating of the fuse, divided by the largest that may stand here: the next standard rating above three times the running current, or above three times that of the transformer by its own watts, if that is less.",
	func(b *bench.Bench, p *part.Part, rating quantity.Range, in draw) figure.Figure {
		own, trace, needs, stated := transformerAmps(b)
		most := in.most.Scale(thrice)
		lines := []string{fmt.Sprintf("%g × %s = %s", thrice, in.most, most)}
		if stated && len(needs) > 0 {
			return figure.Lacking(needs...)
		}
		if stated {
			most.Low, most.High = math.Min(most.Low, thrice*own.Low), math.Min(most.High, thrice*own.High)
			lines = append(append(lines, trace...), fmt.Sprintf("%g × %s = %s", thrice, own, own.Scale(thrice)))
		}
		allowed := quantity.Range{Low: math.Inf(1), High: math.Inf(-1), Dim: quantity.Current}
		for _, s := range standards(p) {
			next := quantity.Between(standardAbove(s, most.Low), standardAbove(s, most.High), quantity.Current)
			allowed = allowed.Hull(next)
			lines = append(lines, fmt.Sprintf("next rating of %s above %s: %s", s, most, next))
		}
		f := figure.Over(rating, allowed)
		f.Trace = append(lines, f.Trace...)
		return f
	})

// transformerAmps is what the transformers on the line draw by their own watts
// over the volts that they are connected for; stated is false where one of them
// does not say its watts, for then nothing follows from the others.
func transformerAmps(b *bench.Bench) (amps quantity.Range, trace []string, needs []figure.Need, stated bool) {
	amps.Dim = quantity.Current
	var seen []*part.Part
	for _, w := range b.Wired().Primaries {
		if slices.Contains(seen, w.Part) {
			continue
		}
		seen = append(seen, w.Part)
		watts, ok := w.Part.Value("power")
		if !ok {
			return amps, nil, nil, false
		}
		q, _, need := overWinding(b, w, 1)
		if need != nil {
			needs = append(needs, *need)
			continue
		}
		volts := made(q).Rounded()
		i := watts.Div(volts, quantity.Current)
		amps = amps.Add(i)
		trace = append(trace, fmt.Sprintf("%s by its own watts: %s ÷ %s = %s", w.Part.Name, watts, volts, i))
	}
	return amps, trace, needs, len(seen) > 0
}

// fuseSteps counts from the smallest standard rating that is at least twice
// the greatest running current up to the fuse: none if it is no larger. Where
// the standard is not known either may be meant.
var fuseSteps = sized("fuse-steps-too-large", "standard ratings between the one that twice the running current asks for and this fuse.",
	func(_ *bench.Bench, p *part.Part, rating quantity.Range, in draw) (f figure.Figure) {
		steps := quantity.Range{Low: math.Inf(1), High: math.Inf(-1), Dim: quantity.Number}
		for _, s := range standards(p) {
			least, most := standardAbove(s, twice*in.most.Low), standardAbove(s, twice*in.most.High)
			steps.Low = math.Min(steps.Low, stepsAbove(s, most, rating.Low))
			steps.High = math.Max(steps.High, stepsAbove(s, least, rating.High))
			f.Trace = append(f.Trace, fmt.Sprintf("%g × %s = %s; next rating of %s: %s", twice, in.most, in.most.Scale(twice), s, quantity.Between(least, most, quantity.Current)))
			if basis, ok := handbook.SeriesBasis(s, most); ok {
				f.From = append(f.From, basis)
			}
		}
		f.Range = steps
		return f
	})

// stepsAbove counts the standard ratings from top on that are below rating.
func stepsAbove(standard string, top, rating float64) float64 {
	n := 0.0
	for _, r := range handbook.FuseSeries(standard) {
		if r >= top && r < rating*(1-1e-6) {
			n++
		}
	}
	if n == 0 && rating > top*(1+1e-6) {
		return 1 // above every standard rating
	}
	return n
}

// fuseLoad compares with what the fuse must hold: a UL fuse its rating, an IEC
// one half as much again, by the gates of their standards.
var fuseLoad = sized("fuse-load-share", "running current, divided by what the fuse's standard has it hold for an hour.",
	func(_ *bench.Bench, p *part.Part, rating quantity.Range, in draw) figure.Figure {
		if p.Word("standard") == "" {
			return figure.Lacking(lacks(p, "standard", "the marks on the cap: a UL fuse opens at 1.35 times its rating within the hour, an IEC fuse holds 1.5 times"))
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
			return figure.Lacking(lacks(p, "rating", "a rating that the sheets of "+p.Word("standard")+" reach"))
		}
		q := in.span().Div(rating.Scale(hold), quantity.Number)
		return figure.Figure{Range: q, From: []figure.Basis{basis},
			Trace: []string{fmt.Sprintf("%s ÷ (%g × %s) = %s", in.span(), hold, rating, q)}}
	})
