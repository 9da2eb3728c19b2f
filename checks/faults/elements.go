package faults

import (
	"math"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/part"
)

func (m *model) striking(e *circuit.Element, p *part.Part, across bool) {
	if p.Kind.Name != "neon" || across || m.end != danger {
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
const unknownFarads = 10e-6

func (m *model) capacitor(e *circuit.Element, p *part.Part, across bool) {
	c := e.C
	if p.Kind.Name == "filter" {
		c = circuit.Anything()
		if leak, ok := p.Value("leakage"); ok && (e.A == p.Full("case") || e.B == p.Full("case")) {
			// The label's leakage is at the label's volts; a filter that does not
			// state them is for the region's nominal.
			volts := m.b.Sheet.Region.Nominal
			if v, ok := p.Value("voltage"); ok {
				volts = v.Low
			}
			c = circuit.Interval{High: leak.High / (2 * math.Pi * m.b.Sheet.Region.Frequency.Low * volts)}
		}
	}
	known := c.High > 0 && !math.IsInf(c.High, 1)
	switch {
	case m.end == clearing:
	case m.end == least:
		m.farad(e.Name, e.A, e.B, c.Low)
	case known:
		m.farad(e.Name, e.A, e.B, c.High)
	case !across:
		m.farad(e.Name, e.A, e.B, unknownFarads)
	}
}

// unknownLoad stands for a resistor of which nothing is known, in Ω, where it
// lies across the line: it takes more than any radio does, and is no short.
const unknownLoad = 10

// overWinding tells whether an element lies across windings alone.
func (m *model) overWinding(x *circuit.Element) bool {
	return m.b.Circuit(m.state).Reach([]string{x.A}, func(e *circuit.Element) bool {
		return e.Name != x.Name && (bench.Contacts(e) || e.Law == circuit.Winding)
	}).Has(x.B)
}

func (m *model) resistance(e *circuit.Element, p *part.Part, across bool) {
	r := m.ohm(e.R.Low, e.R.High)
	if hot, known := warm(e, p); m.lasting && known {
		r = hot
	}
	switch {
	case p == nil: // a cord whose third conductor resists
	case p.Kind.Name == "filter":
		r = m.ohm(m.source.Filter.Low, m.source.Filter.High)
		if v, read := m.ohms[e.Name]; read {
			r = m.ohm(v.Low, v.High*copperHot)
		}
	case e.R.Low == 0 && math.IsInf(e.R.High, 1):
		if m.end != danger {
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
