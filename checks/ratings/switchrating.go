package ratings

import (
	"fmt"
	"math"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
)

var (
	switchVoltsDef = &figure.Def{
		Name: "switch-volts-over-supply", Room: "ratings", Of: []string{"switch"}, Unit: quantity.Number,
		Says: "voltage that the switch is rated for, divided by the nominal voltage that a conductor may have to the other or to earth.",
	}
	switchAmpsDef = &figure.Def{
		Name: "switch-amps-over-running", Room: "ratings", Of: []string{"switch"}, Unit: quantity.Number,
		Says: "current that the switch is rated for, divided by the running current.",
	}
	switchFuseDef = &figure.Def{
		Name: "switch-amps-over-fuse", Room: "ratings", Of: []string{"switch"}, Unit: quantity.Number,
		Says: "current that the switch is rated for, divided by the set's largest mains fuse.",
	}
)

func switchVolts(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	for _, p := range b.Parts("switch") {
		out = append(out, markedOver(b, switchVoltsDef, p, toEarth(b)))
	}
	return out
}

// switchOver compares the rating of each switch with a current.
func switchOver(b *bench.Bench, d *figure.Def, through func(*part.Part) draw) []figure.Figure {
	var out []figure.Figure
	for _, p := range b.Parts("switch") {
		rating, ok := p.Value("rating")
		in := through(p)
		needs, amps := in.needs, in.span()
		if !ok {
			needs = append([]figure.Need{lacks(p, "rating", "read it off the switch or its data")}, needs...)
		}
		if len(needs) > 0 {
			out = append(out, figure.NotKnown(d, b.Of(p), needs...))
			continue
		}
		q := rating.Div(amps, quantity.Number)
		f := figure.Number(d, b.Of(p), q)
		f.Trace = append(append([]string{}, in.trace...), fmt.Sprintf("%s ÷ %s = %s", rating, amps, q))
		f.From, f.At = in.from, p.Node.Get("rating").At()
		out = append(out, f)
	}
	return out
}

func switchAmps(b *bench.Bench) []figure.Figure {
	return switchOver(b, switchAmpsDef, func(p *part.Part) draw {
		if d, ok := branchDraw(b, p); ok {
			return d
		}
		return running(b)
	})
}

func switchFuse(b *bench.Bench) []figure.Figure {
	rating, needs := largestFuse(b)
	return switchOver(b, switchFuseDef, func(*part.Part) draw { return draw{least: rating, most: rating, needs: needs} })
}

// largestFuse is the rating of the largest of the set's mains fuses: whatever
// is smaller in the same line may be bridged or in the other conductor.
func largestFuse(b *bench.Bench) (quantity.Range, []figure.Need) {
	fuses := mainsFuses(b)
	if len(fuses) == 0 {
		return quantity.Unknown(quantity.Current), []figure.Need{{What: "a mains fuse in the set", How: "fit one in the hot conductor and put it on the sheet"}}
	}
	largest := quantity.Range{Dim: quantity.Current}
	var needs []figure.Need
	for _, p := range fuses {
		r, ok := p.Value("rating")
		if !ok {
			needs = append(needs, lacks(p, "rating", "read it off the fuse"))
			continue
		}
		largest.Low, largest.High = math.Max(largest.Low, r.Low), math.Max(largest.High, r.High)
	}
	return largest, needs
}
