package ratings

import (
	"fmt"
	"math"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
)

var iron = bench.EachSubject(figure.Def{
	Name: "iron-on-line", Of: []string{"set"}, Present: true,
	Says: "a transformer or motor works on the line.",
}, func(b *bench.Bench, _ figure.Subject) figure.Figure {
	return figure.So(len(b.Wired().Primaries) > 0 || len(b.Parts(part.Turns)) > 0)
})

var fluxes = []bench.Check{
	flux("flux-over-nameplate", "volts for each cycle of the supply, at its stated voltage or else its highest, divided by those of the nameplate.", highestArriving),
	flux("highest-flux-over-nameplate", "volts for each cycle of the supply at its highest, divided by those of the nameplate.", highestVolts),
}

// flux takes the worse of what the nameplate and what the windings state, so
// that leaving one off never makes it better; volts picks the voltage of the
// supply.
func flux(name, says string, volts func(*bench.Bench) float64) bench.Check {
	return bench.EachSubject(figure.Def{Name: name, Of: []string{"set"}, Unit: quantity.Number, Says: says},
		func(b *bench.Bench, _ figure.Subject) figure.Figure { return fluxAt(b, volts(b)) }).OnSupply()
}

func fluxAt(b *bench.Bench, line float64) figure.Figure {
	var needs []figure.Need
	plate := func(key string) quantity.Range {
		v, ok := b.Sheet.Nameplate(key)
		if !ok || !(v.Low > 0) {
			needs = append(needs, figure.Need{What: "nameplate " + key, How: "read it off the nameplate: a transformer for one frequency saturates at a lower one"})
		}
		return v
	}
	volts, hertz := plate("voltage"), plate("frequency")
	supply := b.Sheet.Region.Frequency
	made := volts.High // lowest volts that anything is made for, as connected
	trace := append(tooLow(b), fmt.Sprintf("volts: %g V ÷ %g V = %.4g", line, made, line/made))
	for _, w := range b.Wired().Primaries {
		q, _, need := overWinding(b, w, 1)
		if need != nil {
			needs = append(needs, *need)
			continue
		}
		used := quantity.Six(1 / q.High)
		trace = append(trace, fmt.Sprintf("%s: %g V ÷ %g V = %.4g", w.Name(), line, used, line/used))
		if fit := fitting(used, line, choices(b, w)); fit > used {
			used = fit
			trace = append(trace, fmt.Sprintf("on the tap nearest to the supply: %g V ÷ %g V = %.4g", line, used, line/used))
		}
		made = math.Min(made, used)
	}
	if len(needs) > 0 {
		return figure.Lacking(needs...)
	}
	x := line / made * hertz.Low / supply.Low
	f := figure.Amount(quantity.Exact(x, quantity.Number))
	f.Trace, f.Note = append(trace, fmt.Sprintf("%.4g × %g Hz ÷ %g Hz = %.4g", line/made, hertz.Low, supply.Low, x)), unset(b)
	if hertz.Low <= supply.Low {
		f.Note = "the supply has no fewer cycles than the nameplate, so that only the volts count here"
	}
	return f
}

// fitting are the volts of the tap that counts for the flux: of a tap that
// tap-fits-supply fails, the one that belongs there, so that one slip has one
// cause.
func fitting(used, line float64, all []float64) float64 {
	if aboveBy(used, line, all) > 0 {
		return nearest(line, all)
	}
	return used
}
