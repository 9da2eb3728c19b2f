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
func positionOff(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	states, all := b.Combinations(bench.ClosedState(), true)
	for _, w := range b.Wired().Primaries {
		f := figure.Number(positionOffDef, ofWinding(b, w), quantity.Exact(0, quantity.Number))
		if !all {
			f = figure.NotKnown(positionOffDef, ofWinding(b, w), everyPositionNeed)
		}
		worst := 0.0
		for _, st := range states {
			for _, sel := range b.Parts("selector") {
				name, volts := namedVolts(sel, st)
				if !(volts > 0) {
					continue
				}
				fed := feeds(b, st)
				if len(fed) == 0 && all && worst < 1 {
					worst = 1
					f.Range = quantity.Exact(1, quantity.Number)
					f.Note = fmt.Sprintf("position %s of %s feeds nothing", name, sel.Name)
					f.Trace = []string{fmt.Sprintf("|0 V − %g V| ÷ %g V = 1", volts, volts)}
				}
				for _, fd := range fed {
					made := fd.volts() / fd.share
					if off := math.Abs(made-volts) / volts; fd.has(w) && all && off > worst {
						worst = off
						f.Range = quantity.Exact(off, quantity.Number)
						f.Note = fmt.Sprintf("position %s of %s makes %.4g V of it", name, sel.Name, made)
						f.Trace = []string{fmt.Sprintf("|%.4g V − %g V| ÷ %g V = %.3g", made, volts, volts, off)}
					}
				}
			}
		}
		out = append(out, f)
	}
	return out
}

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
