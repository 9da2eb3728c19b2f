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

// capacitorVolts takes the smaller mark of two in series. The mark of a
// capacitor without class is one for direct voltage and says nothing here.
func capacitorVolts(b *bench.Bench) []figure.Figure {
	at := places(b)
	var out []figure.Figure
	for _, p := range b.Parts("capacitor", "electrolytic") {
		f := capacitorMark(b, p, p)
		if second := at[p].second; second != nil && f.Known() {
			if g := capacitorMark(b, second, p); !g.Known() || g.Range.Low < f.Range.Low {
				f = g
			}
		}
		out = append(out, f)
	}
	return out
}

func capacitorMark(b *bench.Bench, p, of *part.Part) figure.Figure {
	if p.Word("class") == "" {
		return figure.NotKnown(capacitorVoltsDef, b.Of(of), lacks(p, "class", "the voltage beside its X or Y mark; without one the mark is for DC"))
	}
	f := markedOver(b, capacitorVoltsDef, p)
	f.Of = b.Of(of)
	return f
}
