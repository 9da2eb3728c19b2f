package mains

import (
	"fmt"
	"math"
	"math/cmplx"
	"slices"

	"firstvolt/checks/circuit"
	"firstvolt/checks/handbook"
	"firstvolt/checks/sheet"
)

// conductors are the three conductors at one place of the chain.
type conductors struct{ line, neutral, ground string }

// supply puts the service, the receptacle circuit, the bench chain and the
// cord into the circuit.
func (m *Circuit) supply() {
	volts := m.volts()
	s := m.Source
	at := conductors{"receptacle hot", "receptacle neutral", "receptacle ground"}
	pins := [2]string{at.line, at.neutral} // of the line conductor and of neutral
	emf := [2]complex128{complex(volts, 0), 0}
	if m.crossed = m.Exchange; m.Exchange {
		pins[0], pins[1] = pins[1], pins[0]
	}
	if m.Bench.System() == "two-line" {
		// Two of three lines, star to earth: more to earth than half each.
		emf = [2]complex128{cmplx.Rect(volts/math.Sqrt(3), 0), cmplx.Rect(volts/math.Sqrt(3), 2*math.Pi/3)}
	}
	// The longest wire back, in neutral or the protective conductor, puts most
	// on what hangs on it.
	live := m.ohm(s.Conductor.Low, s.Conductor.High*copperHot)
	other := m.neutral(s.Conductor.Low, s.Conductor.High*copperHot)
	if m.Bench.System() == "two-line" {
		other = live
	}
	back := m.back(s.Conductor.Low, s.Conductor.High*copperHot)
	m.Elements = append(m.Elements,
		circuit.Element{Name: LineWire, A: pins[0], B: neutral, Conducts: circuit.Conducting, R: circuit.Exactly(live), EMF: emf[0]},
		circuit.Element{Name: NeutralWire, A: pins[1], B: neutral, Conducts: circuit.Conducting, R: circuit.Exactly(other), EMF: emf[1]},
		circuit.Element{Name: GroundWire, A: at.ground, B: ground, Conducts: circuit.Conducting, R: circuit.Exactly(back)})
	m.bond()
	at = m.chain(at)
	m.cord(at)
}

// bond joins neutral, ground and earth as the earthing system has it. Unknown
// earthing takes the system that endangers more.
func (m *Circuit) bond() {
	s := m.Source
	switch m.Earthing {
	case "tn":
		m.wire("bond", ground, neutral, 0)
		m.wire("earth of the service", neutral, Earth, 0)
	case "none": // the ground pin hangs on nothing
		m.wire("earth of the service", neutral, Earth, 0)
	case "it":
		m.wire("electrode", ground, Earth, s.Installation.High)
		m.wire("earth of the service", neutral, Earth, s.Impedance.Low)
	default:
		r := s.Installation.High
		if m.Pick == Least {
			r = s.Installation.Low
		}
		m.wire("electrode", ground, Earth, r)
		m.wire("earth of the service", neutral, Earth, m.ohm(s.Service.Low, s.Service.High))
	}
}

// chain leads the conductors through the units on the bench.
func (m *Circuit) chain(at conductors) conductors {
	for _, l := range m.Bench.Sheet.Upstream {
		name := func(what string) string { return fmt.Sprintf("upstream %d %s", l.Number, what) }
		at = m.turn(at, l.Number)
		if !m.passesGround(l) {
			at.ground = name("ground")
		}
		switch l.Kind {
		case "isolating-transformer":
			at = m.isolator(l, at, name)
		case "autotransformer":
			at = m.stepped(l, at, name)
		case "variac":
			if m.Pick == Danger { // it may be turned down, and passes no less then
				at = m.tapped(m.Bench.Boost(l), at, name)
			}
		case "lamp-box":
			if m.Limiter {
				at = m.lamp(l, at, name)
			}
		}
	}
	if !m.Bench.Sheet.UpstreamKnown && slices.Contains(m.Arrangement.Stands, stand{0, "earth", "stopped"}) {
		at.ground = "upstream ground" // of whatever stands there
	}
	return m.turn(at, atPlug)
}

// turn exchanges the line conductors at a place that is turned.
func (m *Circuit) turn(at conductors, place int) conductors {
	if m.Arrangement.turns(place) {
		at.line, at.neutral = at.neutral, at.line
		m.crossed = !m.crossed
	}
	return at
}

// passesGround tells whether a unit passes the ground on. Of one that does not
// say the way does; where no way is asked for, what goes least.
func (m *Circuit) passesGround(l *sheet.Link) bool {
	said := m.passes(l)
	for _, s := range m.Arrangement.Stands {
		if said == "" && s.key == "earth" {
			return s.word != "stopped"
		}
	}
	return said == "through"
}

// magnetising is what the windings of bench units take for themselves, in H:
// next to nothing, and enough for their volts to be known without a load.
const magnetising = 1e3

// coil is a winding of a bench unit.
func (m *Circuit) coil(name, core, a, b string, turns, ohms, lm float64) {
	m.Elements = append(m.Elements, circuit.Element{Name: name, A: a, B: b, Conducts: circuit.Conducting, Law: circuit.Winding, Core: core,
		R: circuit.Exactly(ohms), Turns: circuit.Exactly(turns), Lm: circuit.Exactly(lm)})
}

// isolator is an isolating transformer of one to one. How it is phased, and at
// which ends its capacitance lies, nobody says: at worst this drives twice the
// supply through who holds the far side.
func (m *Circuit) isolator(l *sheet.Link, at conductors, name func(string) string) conductors {
	out := conductors{name("hot"), name("neutral"), at.ground}
	from, to, beside := out.line, out.neutral, out.neutral
	if m.far {
		from, to, beside = to, from, out.line
	}
	m.coil(name("input"), name("core"), at.line, at.neutral, 1, 0, magnetising)
	m.coil(name("output"), name("core"), from, to, 1, m.Source.Conductor.High, 0)
	live := at.line
	if m.crossed {
		live = at.neutral
	}
	if c := m.Source.Isolator; m.Pick == Danger {
		m.farad(name("capacitance"), live, beside, c.High)
	} else {
		m.farad(name("capacitance"), live, beside, c.High/1e6) // next to none, and still the same potential
	}
	if m.said(l, "secondary") == "bonded" {
		m.wire(name("tie"), out.neutral, neutral, 0)
		m.crossed = false // which of them is live begins anew
	}
	return out
}

// stepped is a step-down or step-up unit: one winding with a tap, so that its
// output hangs on its input. Its neutral runs through.
func (m *Circuit) stepped(l *sheet.Link, at conductors, name func(string) string) conductors {
	v, ok := l.Value("ratio")
	ratio := v.Low
	if m.Pick == Danger {
		ratio = v.High
	}
	if !ok || !(ratio > 0) {
		return at // what rests on an unknown ratio is not known: SupplyNeed
	}
	return m.tapped(ratio, at, name)
}

// tapped is the one winding of such a unit, or of a variac set above its input.
func (m *Circuit) tapped(ratio float64, at conductors, name func(string) string) conductors {
	if ratio == 1 {
		return at
	}
	out, ohms := name("hot"), m.ohm(0.001, m.Source.Conductor.High)
	if ratio < 1 {
		m.coil(name("output"), name("core"), out, at.neutral, ratio, ohms, magnetising)
		m.coil(name("rest"), name("core"), at.line, out, 1-ratio, ohms, 0)
	} else {
		m.coil(name("input"), name("core"), at.line, at.neutral, 1, ohms, magnetising)
		m.coil(name("rest"), name("core"), out, at.line, ratio-1, ohms, 0)
	}
	at.line = out
	return at
}

// mostWatts is the largest tungsten lamp that fits a household holder (common
// practice): one of unknown watts has no more.
const mostWatts = 300

// lamp puts the series lamp into its pole, cold: whoever asks warms it. In the
// live conductor the one that limits least endangers most, in the other the one
// that limits most, for it lifts what hangs on neutral.
func (m *Circuit) lamp(l *sheet.Link, at conductors, name func(string) string) conductors {
	watts, okW := l.Value("lamp")
	volts, okV := l.Value("voltage")
	okW, okV = okW && watts.Low > 0, okV && volts.Low > 0
	pole := &at.line
	switch m.said(l, "pole") {
	case "neutral":
		pole = &at.neutral
	case "hot":
	default:
		return at
	}
	live := (pole == &at.line) != m.crossed
	out := name("pole")
	switch {
	case okW:
	case m.Pick != Danger: // what limits nothing for certain
		return at
	case live:
		watts.High, m.AnyLamp = mostWatts, true
	}
	if m.Pick == Danger && !live && !(okW && okV) {
		*pole = out // next to parted
		return at
	}
	lamp := lampAt{name("lamp"), watts.High, m.Bench.Sheet.Region.Nominal}
	if okV {
		lamp.volts = volts.Low
	}
	if live != (m.Pick == Danger) {
		lamp.watts = watts.Low
		if okV {
			lamp.volts = volts.High
		}
	}
	m.wire(lamp.element, *pole, out, handbook.Lamp().ColdResistance(lamp.watts, lamp.volts))
	*pole = out
	m.Lamps = append(m.Lamps, lamp)
	return at
}

// cord joins the last receptacle of the chain to the set.
func (m *Circuit) cord(at conductors) {
	r, known := m.Bench.CordConductor()
	low, high := r.Low, r.High*copperHot
	if !known {
		low, high = 0, m.Source.Conductor.High
	}
	live, other := m.ohm(low, high), m.neutral(low, high)
	if m.crossed {
		live, other = other, live
	}
	hotPin, neutralPin := sheet.PlugHot, sheet.PlugNeutral
	if m.Arrangement.turns(atInlet) {
		hotPin, neutralPin = neutralPin, hotPin
		m.crossed = !m.crossed
	}
	m.wire(CordHot, at.line, hotPin, live)
	m.wire("cord neutral", at.neutral, neutralPin, other)
	if m.Bench.Grounded() {
		m.wire("cord ground", at.ground, sheet.PlugGround, m.back(low, high))
	}
}
