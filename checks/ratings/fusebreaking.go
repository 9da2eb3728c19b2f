package ratings

import (
	"fmt"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
)

var fuseBreakingDef = &figure.Def{
	Name: "breaking-over-prospective", Room: "ratings", Of: []string{"fuse"}, Unit: quantity.Number,
	Says: "current that the fuse can interrupt, divided by the short-circuit current at the receptacle.",
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

// breaks is the current that a fuse interrupts at the nominal voltage that a
// conductor may have to earth, or what would say it.
func breaks(b *bench.Bench, p *part.Part) (quantity.Range, figure.Basis, *figure.Need) {
	volts := toEarth(b)
	amps, basis, lack := bench.Breaks(p, volts.High)
	if lack == "" {
		return amps, basis, nil
	}
	if need := b.ToEarthNeed(); need != nil {
		if _, _, low := bench.Breaks(p, volts.Low); low == "" {
			return amps, figure.Basis{}, need
		}
	}
	how := map[string]string{
		"voltage":  "read it off the fuse: what it interrupts depends on it",
		"rating":   "read it off the fuse",
		"standard": "the marks on its cap",
		"breaking": "amperes from its data: its standard states none for this rating and voltage",
	}[lack]
	if _, marked := p.Value("voltage"); lack == "voltage" && marked {
		how = "a fuse rated for the supply: what this one interrupts there, nobody states"
	}
	need := lacks(p, lack, how)
	return quantity.Range{}, figure.Basis{}, &need
}
