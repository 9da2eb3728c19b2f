package ratings

import (
	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
)

var capacitorVoltsDef = &figure.Def{
	Name: "capacitor-volts-over-supply", Room: "ratings", Of: []string{"capacitor", "electrolytic"}, Unit: quantity.Number,
	Says: "AC voltage that the capacitor is marked for, divided by the supply's nominal voltage.",
}

// capacitorVolts takes the smaller mark of two in series. One that lies between
// line conductors alone meets what lies between these; one to metal, what a
// conductor has to earth.
func capacitorVolts(b *bench.Bench) []figure.Figure {
	at := places(b)
	var out []figure.Figure
	for _, p := range b.Parts("capacitor", "electrolytic") {
		supply := toEarth(b)
		if pl := at[p]; pl.line && !pl.chassis && !pl.accessible {
			supply = nominal(b)
		}
		f := capacitorMark(b, p, p, supply)
		if second := at[p].second; second != nil && f.Known() {
			if g := capacitorMark(b, second, p, supply); !g.Known() || g.Range.Low < f.Range.Low {
				f = g
			}
		}
		out = append(out, f)
	}
	return out
}

// capacitorMark takes the mark of a capacitor without class, which is one for
// direct voltage, where even that is too small; else it says nothing.
func capacitorMark(b *bench.Bench, p, of *part.Part, supply quantity.Range) figure.Figure {
	f := markedOver(b, capacitorVoltsDef, p, supply)
	f.Of = b.Of(of)
	if class := p.Word("class"); (class == "" || class == "none") && !tooSmall(p, supply) {
		return figure.NotKnown(capacitorVoltsDef, b.Of(of), lacks(p, "class", "the voltage beside its X or Y mark; without one the mark is for DC"))
	}
	return f
}

// tooSmall tells a part whose marked volts, of whatever kind, lie below the supply.
func tooSmall(p *part.Part, supply quantity.Range) bool {
	v, ok := p.Value("voltage")
	return ok && v.High < supply.Low
}
