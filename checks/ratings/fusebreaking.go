package ratings

import (
	"fmt"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/handbook"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
)

var fuseBreakingDef = &figure.Def{
	Name: "breaking-over-prospective", Room: "ratings", Of: []string{"fuse"}, Unit: quantity.Number,
	Says: "current that the fuse can interrupt over the short-circuit current at the receptacle.",
}

// prospective is taken where the region states no short-circuit current: what
// a fuse of high breaking capacity is made for, and what one of low breaking
// capacity is held too small for.
var prospective = quantity.Exact(1500, quantity.Current)

var prospectiveBasis = figure.Basis{Status: figure.CommonPractice, Source: "a receptacle circuit is taken to drive up to 1500 A, the breaking capacity asked of a primary fuse; the 35 A of a glass fuse of low breaking capacity can be below it"}

func fuseBreaking(b *bench.Bench) []figure.Figure {
	most, from := prospective, prospectiveBasis
	if p := b.Sheet.Region.Prospective; p != nil {
		most, from = *p, b.Sheet.Region.From["prospective"]
	}
	var out []figure.Figure
	for _, p := range b.Parts("fuse") {
		amps, basis, need := breaks(b, p)
		if need != nil {
			out = append(out, figure.NotKnown(fuseBreakingDef, b.Of(p), *need))
			continue
		}
		worst := quantity.Exact(most.High, quantity.Current)
		q := amps.Div(worst, quantity.Number)
		f := figure.Number(fuseBreakingDef, b.Of(p), q)
		f.Trace = []string{fmt.Sprintf("%s ÷ %s = %s", amps, worst, q)}
		f.From = []figure.Basis{from}
		if basis.Source != "" {
			f.From = append(f.From, basis)
		}
		out = append(out, f)
	}
	return out
}

// breaks is the current that a fuse interrupts at the nominal supply: stamped
// on it, or by its standard and body.
func breaks(b *bench.Bench, p *part.Part) (quantity.Range, figure.Basis, *figure.Need) {
	lack := func(key, how string) (quantity.Range, figure.Basis, *figure.Need) {
		n := lacks(p, key, how)
		return quantity.Range{}, figure.Basis{}, &n
	}
	marked, ok := p.Value("voltage")
	switch {
	case !ok:
		return lack("voltage", "read it off the fuse: what it interrupts depends on it")
	case marked.Low < nominal(b).High:
		return lack("voltage", "a fuse rated for the supply: what this one interrupts there, nobody states")
	}
	if amps, ok := p.Value("breaking"); ok {
		return amps, figure.Basis{}, nil
	}
	rating, ok := p.Value("rating")
	if !ok {
		return lack("rating", "read it off the fuse")
	}
	if p.Word("standard") == "" {
		return lack("standard", "the marks on its cap")
	}
	class := p.Word("breaking")
	if class == "" {
		class = p.Word("body")
	}
	low, basis, okLow := handbook.BreakingCapacity(p.Word("standard"), class, rating.Low, nominal(b).High)
	high, _, okHigh := handbook.BreakingCapacity(p.Word("standard"), class, rating.High, nominal(b).High)
	if !okLow || !okHigh {
		return lack("breaking", "amperes from its data: its standard states none for this rating and voltage")
	}
	return quantity.Between(low, high, quantity.Current), basis, nil
}
