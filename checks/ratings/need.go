package ratings

import (
	"fmt"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
)

// lacks is the need for a key of a part: "F1 voltage".
func lacks(p *part.Part, key, how string) figure.Need {
	return figure.Need{What: p.Name + " " + key, How: how}
}

// nominal is the region's nominal voltage at the set, which markings are
// compared with.
func nominal(b *bench.Bench) quantity.Range {
	v, _ := b.Mains()
	return quantity.Exact(v, quantity.Voltage)
}

// overNominal is a marked voltage over the region's nominal voltage, with the
// line that a pencil can redo.
func overNominal(b *bench.Bench, v quantity.Range) (quantity.Range, string) {
	q := v.Div(nominal(b), quantity.Number)
	return q, fmt.Sprintf("%s ÷ %s = %s", v, nominal(b), q)
}

// markedOver is the figure of a part's marked voltage over the supply's.
func markedOver(b *bench.Bench, d *figure.Def, p *part.Part) figure.Figure {
	v, ok := p.Value("voltage")
	if !ok {
		return figure.NotKnown(d, b.Of(p), lacks(p, "voltage", "read it off the part"))
	}
	q, line := overNominal(b, v)
	f := figure.Number(d, b.Of(p), q)
	f.Trace = []string{line}
	f.At = p.Node.Get("voltage").At()
	return f
}
