package mains

import (
	"math"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/part"
)

func (m *Circuit) striking(e *circuit.Element, p *part.Part, across bool) {
	if !p.Is(part.Glows) || across || m.Pick != Danger {
		return // below its striking voltage it is not there
	}
	r := 1e3
	if v, ok := p.Value("resistor"); ok {
		r = math.Max(v.Low, r)
	}
	m.wire(e.Name, e.A, e.B, r)
}

// unknownFarads stands for a capacitor of which nothing is known, where much
// is dangerous: next to a short at mains frequency.
const UnknownFarads = 10e-6

func (m *Circuit) capacitor(e *circuit.Element, p *part.Part, across bool) {
	c := e.C
	if p.Is(part.Filters) {
		c = circuit.Anything()
		if leak, ok := p.Value("leakage"); ok && (e.A == p.Full("case") || e.B == p.Full("case")) {
			// The label's leakage is at the label's volts; a filter that does not
			// state them is for the region's nominal.
			volts := m.Bench.Sheet.Region.Nominal
			if v, ok := p.Value("voltage"); ok {
				volts = v.Low
			}
			c = circuit.Interval{High: leak.High / (2 * math.Pi * m.Bench.Sheet.Region.Frequency.Low * volts)}
		}
	}
	known := c.High > 0 && !math.IsInf(c.High, 1)
	switch {
	case m.Pick == Clearing:
	case m.Pick == Least:
		m.farad(e.Name, e.A, e.B, c.Low)
	case known:
		m.farad(e.Name, e.A, e.B, c.High)
	case !across:
		m.farad(e.Name, e.A, e.B, UnknownFarads)
	}
}

// unknownLoad stands for a resistor of which nothing is known, in Ω, where it
// lies across the line: it takes more than any radio does, and is no short.
const unknownLoad = 10

// overWinding tells whether an element lies across windings alone.
func (m *Circuit) overWinding(x *circuit.Element) bool {
	return m.Bench.Circuit(m.State).Reach([]string{x.A}, func(e *circuit.Element) bool {
		return e.Name != x.Name && (bench.Contacts(e) || e.Law == circuit.Winding)
	}).Has(x.B)
}

func (m *Circuit) resistance(e *circuit.Element, p *part.Part, across bool) {
	r := m.ohm(e.R.Low, e.R.High)
	if hot, known := warm(e, p); m.Lasting && known {
		r = hot
	}
	switch {
	case p == nil: // a cord whose third conductor resists
	case p.Is(part.Filters):
		r = m.ohm(m.Source.Filter.Low, m.Source.Filter.High)
		if v, read := m.ohms[e.Name]; read {
			r = m.ohm(v.Low, v.High*copperHot)
		}
	case e.R.Low == 0 && math.IsInf(e.R.High, 1):
		if m.Pick != Danger {
			return
		}
		switch {
		case across:
			r = unknownLoad
		case m.overWinding(e):
			return // as a short it would only pull the volts down
		}
	}
	if math.IsInf(r, 1) {
		return
	}
	m.wire(e.Name, e.A, e.B, r)
}

// warm is the resistance of a heater at its rating; end to end, or the two
// halves side by side, whichever lets through more.
func warm(e *circuit.Element, p *part.Part) (float64, bool) {
	if e.Law != circuit.Heater || p == nil || e.Name != p.Name+" heater" {
		return 0, false // a tapped heater is left cold
	}
	volts, amps, ok := p.HeaterRating()
	return volts.Low / amps.High, ok
}
