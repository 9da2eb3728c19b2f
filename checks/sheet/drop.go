package sheet

import (
	"fmt"
	"math"
	"slices"

	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
	"firstvolt/checks/strict"
)

// Drop is a resistance told by the volts that a known current drops. The volts
// are read inside the clips that carry the current, so that no lead is in them.
type Drop struct {
	Current    quantity.Range
	HasCurrent bool
	FedBy      *Instrument // what read the current
	Shown      Display     // volts
}

// drop reads what makes a drop a resistance. Instruments that cannot measure
// what they are named for are an error: the two stand the wrong way round.
func (r *reader) drop(rd *Reading, n *strict.Node) {
	d := &Drop{FedBy: r.instrument(n.Get("fed-by"))}
	d.Current, d.HasCurrent = part.ValueOf(n.Get("current"))
	for _, role := range []struct {
		key, measure, meter string
		in                  *Instrument
	}{{"with", "voltage", "the meter that read the volts", rd.With}, {"fed-by", "current", "what read the current", d.FedBy}} {
		if role.in != nil && len(role.in.Measures) > 0 && !slices.Contains(role.in.Measures, role.measure) {
			r.bad(n.Get(role.key).At(), fmt.Sprintf("%s does not measure %s", role.in.Name, role.measure), "name "+role.meter+", described with measures: "+role.measure)
		}
	}
	rd.Kind, rd.Drop = "resistance", d
	if len(rd.Shown) == 0 {
		return
	}
	d.Shown = rd.Shown[0].Display
	ohms := d.Shown.Value.Div(d.Current, quantity.Resistance)
	rd.Shown[0].Display = Display{Value: ohms, OL: d.Shown.OL, Over: d.Shown.Over}
}

// proves tells whether the current is known, and not by the meter of the volts:
// one unit that shows both shows the volts at its own terminals, leads and all.
func (d *Drop) proves(with *Instrument) (bool, string) {
	switch ok, why := d.FedBy.proves("current"); {
	case !d.HasCurrent:
		return false, "the current that was passed is not known"
	case d.FedBy == nil:
		return false, "what read the current is not named (fed-by)"
	case d.FedBy == with:
		return false, fmt.Sprintf("%s read both; the volts are read by a second meter, its probes inside the clips", with.Name)
	case !ok:
		return false, why
	}
	return true, ""
}

// ohms are the true volts over the true current.
func (d *Drop) ohms(volts quantity.Range) quantity.Range {
	amps := d.FedBy.AccuracyOf("current").around(d.Current)
	if c := d.FedBy.Ceiling; d.FedBy.HasCeiling && c.Dim == quantity.Current && d.Current.Low > c.High {
		amps.Low = 0 // more than it can show
	}
	r := quantity.Range{Low: volts.Low / amps.High, High: math.Inf(1), Dim: quantity.Resistance}
	if amps.Low > 0 {
		r.High = volts.High / amps.Low
	}
	return r
}
