package ratings

import (
	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
)

// capacitorVolts takes the smaller mark of two in series. One that lies between
// line conductors alone meets what lies between these; one to metal, what a
// conductor has to earth.
var capacitorVolts = bench.EachPart(figure.Def{
	Name: "capacitor-volts-over-supply", Of: capacitors, Unit: quantity.Number,
	Says: "AC voltage that the capacitor is marked for, divided by the supply's nominal voltage.",
}, func(b *bench.Bench, p *part.Part) figure.Figure {
	supply, pl := toEarth(b), places(b)[p]
	if pl.line && !pl.chassis && !pl.accessible {
		supply = nominal(b)
	}
	f := capacitorMark(b, p, supply)
	if pl.second != nil && f.Known() {
		if g := capacitorMark(b, pl.second, supply); !g.Known() || g.Range.Low < f.Range.Low {
			return g
		}
	}
	return f
})

// capacitorMark takes the mark of a capacitor without class, which is one for
// direct voltage, where even that is too small; else it says nothing.
func capacitorMark(b *bench.Bench, p *part.Part, supply quantity.Range) figure.Figure {
	if class := p.Word("class"); (class == "" || class == "none") && !tooSmall(p, supply) {
		return figure.Lacking(lacks(p, "class", "the voltage beside its X or Y mark; without one the mark is for DC"))
	}
	return markedOver(b, p, supply)
}

// tooSmall tells a part whose marked volts, of whatever kind, lie below the supply.
func tooSmall(p *part.Part, supply quantity.Range) bool {
	v, ok := p.Value("voltage")
	return ok && v.High < supply.Low
}
