package ratings

import (
	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
)

// prospective is taken where the region states no short-circuit current: what
// a fuse of high breaking capacity is made for, and what one of low breaking
// capacity is held too small for.
var prospective = quantity.Exact(1500, quantity.Current)

var prospectiveBasis = figure.Basis{Status: figure.CommonPractice, Source: "a receptacle circuit is taken to drive up to 1500 A, the breaking capacity asked of a primary fuse; the 35 A of a glass fuse of low breaking capacity can be below it"}

var fuseBreaking = bench.EachPart(figure.Def{
	Name: "breaking-over-prospective", Of: part.Named(part.Fuses), Unit: quantity.Number,
	Says: "current that the fuse can interrupt, divided by the short-circuit current at the receptacle.",
}, func(b *bench.Bench, p *part.Part) figure.Figure {
	most, from := prospective, prospectiveBasis
	if p := b.Sheet.Region.Prospective; p != nil {
		most, from = *p, b.Sheet.Region.From["prospective"]
	}
	amps, basis, need := breaks(b, p)
	if need != nil {
		return figure.Lacking(*need)
	}
	f := figure.Over(amps, quantity.Exact(most.High, quantity.Current))
	f.From = []figure.Basis{from}
	if basis.Source != "" {
		f.From = append(f.From, basis)
	}
	return f
})

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
