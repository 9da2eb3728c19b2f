package faults

import (
	"fmt"
	"math"
	"math/cmplx"

	"firstvolt/checks/circuit"
	"firstvolt/checks/handbook"
	"firstvolt/checks/sheet"
)

// conductors are the three conductors at one place of the chain.
type conductors struct{ line, neutral, ground string }

// supply puts the service, the receptacle circuit, the bench chain and the
// cord into the circuit.
func (m *model) supply() {
	receptacle, atSet := m.volts()
	s := m.source
	at := conductors{"receptacle hot", "receptacle neutral", "receptacle ground"}
	pins := [2]string{at.line, at.neutral} // of the line conductor and of neutral
	emf := [2]complex128{complex(atSet, 0), 0}
	if m.exchange {
		pins[0], pins[1] = pins[1], pins[0]
		// Behind a step-down unit both conductors then stand up from earth.
		emf = [2]complex128{complex(receptacle, 0), complex(receptacle-atSet, 0)}
	}
	if m.b.System() == "two-line" {
		// Two of three lines, star to earth: more to earth than half each.
		emf = [2]complex128{cmplx.Rect(atSet/math.Sqrt(3), 0), cmplx.Rect(atSet/math.Sqrt(3), 2*math.Pi/3)}
	}
	// The longest wire in the protective conductor puts most on the chassis.
	live := m.ohm(s.Conductor.Low, s.Conductor.High*copperHot)
	protective := s.Conductor.High * copperHot
	if m.end == least {
		protective = s.Conductor.Low
	}
	m.es = append(m.es,
		circuit.Element{Name: lineWire, A: pins[0], B: neutral, Conducts: circuit.Conducting, R: circuit.Exactly(live), EMF: emf[0]},
		circuit.Element{Name: neutralWire, A: pins[1], B: neutral, Conducts: circuit.Conducting, R: circuit.Exactly(live), EMF: emf[1]},
		circuit.Element{Name: groundWire, A: at.ground, B: ground, Conducts: circuit.Conducting, R: circuit.Exactly(protective)})
	m.bond()
	at = m.chain(at)
	m.cord(at)
}

// bond joins neutral, ground and earth as the earthing system has it. Unknown
// earthing takes the system that endangers more.
func (m *model) bond() {
	s := m.source
	switch m.earthing {
	case "tn", "none":
		m.wire("bond", ground, neutral, 0)
		m.wire("earth of the service", neutral, earth, 0)
	case "it":
		m.wire("electrode", ground, earth, s.Installation.High)
		m.wire("earth of the service", neutral, earth, s.Impedance.Low)
	default:
		r := s.Installation.High
		if m.end == least {
			r = s.Installation.Low
		}
		m.wire("electrode", ground, earth, r)
		m.wire("earth of the service", neutral, earth, m.ohm(s.Service.Low, s.Service.High))
	}
}

// chain leads the conductors through the units on the bench.
func (m *model) chain(at conductors) conductors {
	for _, l := range m.b.Sheet.Upstream {
		name := func(what string) string { return fmt.Sprintf("upstream %d %s", l.Number, what) }
		if !m.passesGround(l) {
			at.ground = name("ground")
		}
		switch l.Kind {
		case "isolating-transformer":
			at = m.isolator(l, at, name)
		case "lamp-box":
			if m.limiter {
				at = m.lamp(l, at, name)
			}
		}
	}
	return at
}

// passesGround tells whether a unit passes the ground on; one that does not
// say takes the end asked for.
func (m *model) passesGround(l *sheet.Link) bool {
	switch w := l.Word("earth"); {
	case l.Kind == "gfci" || l.Kind == "rcd" || w == "through":
		return true
	case w == "broken" || w == "stopped":
		return false
	}
	return m.end == least
}

func (m *model) isolator(l *sheet.Link, at conductors, name func(string) string) conductors {
	_, volts := m.volts()
	out := conductors{name("hot"), name("neutral"), at.ground}
	emf := complex(volts, 0)
	if m.exchange {
		emf = -emf
	}
	m.es = append(m.es, circuit.Element{Name: name("output"), A: out.line, B: out.neutral, Conducts: circuit.Conducting,
		R: circuit.Exactly(m.source.Conductor.High), EMF: emf})
	if c := m.source.Isolator; m.end == danger {
		m.farad(name("capacitance"), at.line, out.line, c.High)
	} else {
		m.farad(name("capacitance"), at.line, out.line, c.High/1e6) // next to none, and still the same potential
	}
	if w := l.Word("secondary"); w == "bonded" || w != "floating" && m.end == danger {
		m.wire(name("tie"), out.neutral, neutral, 0)
	}
	return out
}

// lamp puts the series lamp into its pole, cold: whoever asks warms it.
func (m *model) lamp(l *sheet.Link, at conductors, name func(string) string) conductors {
	watts, okW := l.Value("lamp")
	volts, okV := l.Value("voltage")
	nominal := m.b.Sheet.Region.Nominal
	if !okW || !(watts.High > 0) {
		return at // what limits nothing for certain
	}
	v := nominal
	if okV && volts.Low > 0 {
		v = volts.Low
	}
	lamp := lampAt{name("lamp"), watts.High, v}
	cold := handbook.Lamp().ColdResistance(lamp.watts, lamp.volts)
	switch l.Word("pole") {
	case "hot":
		m.wire(lamp.element, at.line, name("hot"), cold)
		at.line = name("hot")
	case "neutral":
		m.wire(lamp.element, at.neutral, name("neutral"), cold)
		at.neutral = name("neutral")
	default:
		return at
	}
	m.lamps = append(m.lamps, lamp)
	return at
}

// cord joins the last receptacle of the chain to the set.
func (m *model) cord(at conductors) {
	r, known := m.b.CordConductor()
	low, high := r.Low, r.High*copperHot
	if !known {
		low, high = 0, m.source.Conductor.High
	}
	m.wire(cordHot, at.line, sheet.PlugHot, m.ohm(low, high))
	m.wire("cord neutral", at.neutral, sheet.PlugNeutral, m.ohm(low, high))
	if m.b.Grounded() {
		g := high
		if m.end == least {
			g = low
		}
		m.wire("cord ground", at.ground, sheet.PlugGround, g)
	}
}
