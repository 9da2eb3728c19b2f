package ratings

import (
	"math"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
)

var switchVolts = bench.EachPart(figure.Def{
	Name: "switch-volts-over-supply", Of: part.Named(part.Switches), Unit: quantity.Number,
	Says: "voltage that the switch is rated for, divided by the nominal voltage that a conductor may have to the other or to earth.",
}, markedToEarth)

// switchOver compares the rating of each switch with a current.
func switchOver(name, says string, through func(*bench.Bench, *part.Part) draw) bench.Check {
	return bench.EachPart(figure.Def{Name: name, Of: part.Named(part.Switches), Unit: quantity.Number, Says: says}, func(b *bench.Bench, p *part.Part) figure.Figure {
		rating, ok := p.Value("rating")
		in := through(b, p)
		if !ok {
			in.needs = append([]figure.Need{lacks(p, "rating", "read it off the switch or its data")}, in.needs...)
		}
		if len(in.needs) > 0 {
			return figure.Lacking(in.needs...)
		}
		f := in.explains(figure.Over(rating, in.span()))
		f.At = p.Node.Get("rating").At()
		return f
	})
}

var switchAmps = switchOver("switch-amps-over-running", "current that the switch is rated for, divided by the running current.",
	func(b *bench.Bench, p *part.Part) draw {
		if d, ok := branchDraw(b, p); ok {
			return d
		}
		return running(b)
	})

var switchFuse = switchOver("switch-amps-over-fuse", "current that the switch is rated for, divided by the set's largest mains fuse.",
	func(b *bench.Bench, _ *part.Part) draw {
		rating, needs := largestFuse(b)
		return draw{least: rating, most: rating, needs: needs}
	})

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
