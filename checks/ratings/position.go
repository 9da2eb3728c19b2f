package ratings

import (
	"fmt"
	"math"
	"strconv"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
)

// Volts that a position may be named by: supplies there are or have been.
const leastSupply, mostSupply = 80, 300

// positionOff turns every selector that is named by volts through its
// positions and compares the name with what the line then finds: a primary
// turned round, or the leads of a tap that is not in use exchanged, shows in
// the positions that nobody has turned to yet.
var positionOff = bench.EachPrimary(figure.Def{
	Name: "position-off-its-name", Of: []string{"winding"}, Unit: quantity.Number,
	Says: "how far the volts that a selector position makes of the winding lie from those it is named by, as a share of these.",
}, func(b *bench.Bench, w bench.PartWinding) figure.Figure {
	if _, all := b.Combinations(bench.ClosedState(), true); !all {
		return figure.Lacking(everyPositionNeed)
	}
	f := figure.Amount(quantity.Exact(0, quantity.Number))
	worse := func(made, volts float64, note string) {
		if off := math.Abs(made-volts) / volts; off > f.Range.High {
			f.Range, f.Note = quantity.Exact(off, quantity.Number), note
			f.Trace = []string{fmt.Sprintf("|%.4g V − %g V| ÷ %g V = %.3g", made, volts, volts, off)}
		}
	}
	for _, st := range inUse(b) {
		for _, sel := range b.Parts(part.Selects) {
			name, volts := namedVolts(sel, st)
			if !(volts > 0) {
				continue
			}
			fed := feeds(b, st)
			if len(fed) == 0 {
				worse(0, volts, fmt.Sprintf("position %s of %s feeds nothing", name, sel.Name))
			}
			for _, fd := range fed {
				if made := fd.volts() / fd.share; fd.has(w) {
					worse(made, volts, fmt.Sprintf("position %s of %s makes %.4g V of it", name, sel.Name, made))
				}
			}
		}
	}
	return f
})

// namedVolts is the supply that the position of a selector is named by, 0
// where its name is no such number.
func namedVolts(p *part.Part, st bench.State) (name string, volts float64) {
	name = p.Word("set")
	if pos, ok := st.Position[p.Name]; ok {
		name = pos
	}
	v, err := strconv.ParseFloat(name, 64)
	if err != nil || !(v >= leastSupply && v <= mostSupply) {
		return name, 0
	}
	return name, v
}
