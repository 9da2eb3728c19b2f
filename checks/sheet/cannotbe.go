package sheet

import (
	"fmt"

	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
)

// pastPower is how often a winding's own watts may be those of the whole set: a
// spare transformer may be much too large, but not as large as this (common
// practice); more is a slip of the pen.
const pastPower = 10

// loads refuses a winding that is said to give many times what the set takes.
func (r *reader) loads() {
	for _, p := range r.s.Parts {
		most, known := p.Value("power")
		for _, w := range []func() (quantity.Range, bool){
			func() (quantity.Range, bool) { return r.s.Nameplate("power") },
			func() (quantity.Range, bool) {
				v, ok := r.s.Nameplate("voltage")
				i, has := r.s.Nameplate("current")
				return v.Mul(i, quantity.Power), ok && has
			},
		} {
			if x, ok := w(); ok && (!known || x.High > most.High) {
				most, known = x, true
			}
		}
		for _, w := range p.Windings {
			load := w.Node.Get("load")
			amperes, ok := part.ValueOf(load)
			volts, has := w.Volts()
			if gives := volts.Mul(amperes, quantity.Power); known && ok && has && gives.Low > pastPower*most.High {
				r.bad(load.At(), fmt.Sprintf("%s.%s cannot give %s: that is %s, and the set takes %s", p.Name, w.Name, amperes, quantity.Format(gives.Low, quantity.Power), quantity.Format(most.High, quantity.Power)),
					"write its amperes as the label or diagram has them, and the watts of nameplate and transformer")
			}
		}
	}
}

// pastCeiling refuses a bound above what the meter can show.
func (r *reader) pastCeiling(rd *Reading) {
	if rd.With == nil || !rd.With.HasCeiling || rd.With.Ceiling.Dim != valueDim[rd.Kind] {
		return
	}
	for _, s := range rd.Shown {
		if top := rd.With.Ceiling.High; s.Over && !(s.Value.Low <= top) {
			r.bad(s.At, fmt.Sprintf("%s cannot show that: it ends at %s", rd.With.Name, quantity.Format(top, valueDim[rd.Kind])),
				"write OL as a meter does, or over "+quantity.Format(top, valueDim[rd.Kind])+", and its ceiling as its data have it")
		}
	}
}
