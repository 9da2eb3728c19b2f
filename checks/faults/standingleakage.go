package faults

import (
	"fmt"
	"math"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/mains"
	"firstvolt/checks/quantity"
)

var standingDef = &figure.Def{Name: "standing-leakage", Room: "faults", Of: []string{"link"}, Unit: quantity.Fraction,
	Says: "standing leakage of the set, as a share of the current at which the device may open"}

// computeStanding compares what leaks with nothing at fault with the current
// below which a residual device must not open.
func computeStanding(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	r := chainOf(b)
	for i, s := range b.Subjects("link") {
		l := b.Sheet.Upstream[i]
		if l.Kind != "gfci" && l.Kind != "rcd" {
			continue
		}
		f := r.standing(s, l.Number)
		f.At = l.At
		out = append(out, f)
	}
	return out
}

func (r *chain) standing(s figure.Subject, number int) figure.Figure {
	var d residual
	for _, x := range r.devices.residuals {
		if x.number == number {
			d = x
		}
	}
	if !(d.ignores > 0) {
		return figure.NotKnown(standingDef, s, figure.Need{What: s.Name + " rating", How: "read it off the device"})
	}
	if winding := r.UncoupledWinding(); winding.Name != "" {
		return figure.NotKnown(standingDef, s, winding.Need("it hangs on the mains side"))
	}
	setups, failed := r.Setups(mains.Danger)
	if failed != nil {
		return figure.NotKnown(standingDef, s, figure.Need{What: "a circuit that can be solved: " + failed.Error()})
	}
	amps := 0.0
	for _, set := range setups {
		if set.Limiter {
			continue
		}
		m, err := r.model(set)
		if err != nil {
			return figure.NotKnown(standingDef, s, figure.Need{What: "a circuit that can be solved"})
		}
		amps = math.Max(amps, escaping(m.Solved))
	}
	f := figure.Number(standingDef, s, quantity.Between(0, twoDigits(amps/d.ignores), quantity.Fraction))
	f.Note = fmt.Sprintf("%s leak with nothing at fault; below %s it must not open", quantity.Format(amps, quantity.Current), quantity.Format(d.ignores, quantity.Current))
	f.Trace = []string{fmt.Sprintf("%s / %s", quantity.Format(amps, quantity.Current), quantity.Format(d.ignores, quantity.Current))}
	return f
}
