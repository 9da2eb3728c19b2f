// Package mains builds and solves the mains circuit: service, bench chain, cord,
// set, and the person who touches it. It knows no faults: a Change is what is
// otherwise in a circuit, whoever asks for it and why.
package mains

import (
	"fmt"
	"math"
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/handbook"
	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
)

// Pick is which end of what is not known exactly a question takes.
type Pick uint8

const (
	Danger   Pick = iota // most current through a person: highest supply, no reactance, cold copper
	Least                // least current through a person: what is there for certain
	Clearing             // least current through a fuse: lowest supply, longest wires, warm copper
)

// Setup is one state of the whole chain from service to set.
type Setup struct {
	State       bench.State
	set         []Stand // how switches and selectors stand
	Arrangement Arrangement
	Exchange    bool // of hot and neutral at the receptacle
	Limiter     bool // the series lamps are in the circuit
	// far: behind an isolating transformer the neutral side is the one that its
	// phasing and capacitance endanger more; else the hot side.
	far     bool
	perfect int  // of the metals whose insulation nobody read, by bits: taken as perfect, not as broken down
	Surge   bool // the way back is the shortest: most current through a fuse
	Lasting bool // heaters are as warm as their own current makes them
	Pick    Pick
	without []string // wires and contacts that are parted
}

// Terminals of the supply; with a space in them, so that no sheet has them.
const (
	Earth   = "the earth"
	neutral = "service neutral"
	ground  = "service ground"
)

// Elements of the supply that faults part.
const (
	LineWire    = "line conductor"
	NeutralWire = "neutral conductor"
	GroundWire  = "protective conductor"
	CordHot     = "cord hot" // where a plug fuse is
)

// copperHot is by how much copper gains from 20 °C to 75 °C: 1 + 0.00393 × 55.
const copperHot = 1.216

// Chain is all from the service to the set: what is the same in every setup of it.
type Chain struct {
	Bench    *bench.Bench
	Source   handbook.Source
	Hertz    float64
	Earthing string // tn, tt, it, none; unknown where neither sheet nor region says
	Metals   []Metal
	ohms     map[string]circuit.Interval // of winding sections, as read
	circuits map[string]*Circuit         // of the position at
	at       string
	scratch  []circuit.Element // of circuit
	Person   Network
	// Terminals are those that every circuit has, whether anything joins them
	// or not.
	Terminals []string
}

type chainKey struct{}

// Of is the chain of a bench, made once. Where the sheet leaves the system of
// earthing open it is that on the first.
func Of(b *bench.Bench) *Chain {
	return b.Keep(chainKey{}, func() any {
		r := &Chain{Bench: b, Source: handbook.MainsSource(), Hertz: b.Sheet.Region.Frequency.High, circuits: map[string]*Circuit{}}
		r.Earthing = b.Earthings()[0]
		r.Person = newNetwork(r.Hertz)
		r.ohms = b.WindingOhms()
		r.Metals = metalsOf(b)
		r.Terminals = r.allTerminals()
		return r
	}).(*Chain)
}

// Circuit is the circuit of one setup, solved.
type Circuit struct {
	*Chain
	Setup
	Elements []circuit.Element
	Lamps    []lampAt
	Fuses    []string // elements of the set's fuses that are in
	Hot      []string // a terminal of each net that the live conductor reaches by contacts, chokes and the like
	cold     []string // the same of the other conductor
	coldEnd  string   // its opposite on the other conductor
	HotEnd   string   // where what is spread over the mains side is placed
	// crossed: what is live arrives at the neutral of the set's plug.
	crossed bool
	AnyLamp bool // a series lamp may have any watts up to those taken
	Solved  *circuit.Solved
	kept    map[any]any // see Keep
	// What several faults ask, once one has: what the live conductor reaches past
	// no fuse, what the ground does, and the terminals that anything joins.
	unfused, grounded *circuit.Reach
	joined            map[string]bool
	// assumed says what the circuit takes for values that nobody gave.
	Assumed []string
}

// lampAt is a series lamp: element, watts and volts.
type lampAt struct {
	element      string
	watts, volts float64
}

// Circuit makes and solves the circuit of a setup once.
func (r *Chain) Circuit(s Setup) (*Circuit, error) {
	// Of a position that was left nothing is kept: it may be one of a thousand.
	if at := fmt.Sprint(s.set, s.Arrangement.Mated, s.Limiter); at != r.at {
		r.at = at
		clear(r.circuits)
	}
	key := fmt.Sprintf("%v|%t%v%t%d %t%t%d|%s", s.Arrangement.Stands, s.Exchange, s.Arrangement.Turned, s.far, s.perfect, s.Surge, s.Lasting, s.Pick, s.without)
	if m, ok := r.circuits[key]; ok {
		return m, nil
	}
	m := &Circuit{Chain: r, kept: map[any]any{}, Setup: s, Elements: r.scratch[:0]}
	m.supply()
	m.set()
	m.spread()
	r.scratch, m.Elements = m.Elements, slices.Clone(m.Elements)
	c := circuit.New(m.Elements, r.Terminals...)
	var err error
	if m.Solved, err = c.AC(r.Hertz, circuit.AtLow); err != nil {
		return nil, fmt.Errorf("%s, %s: %w", s.Position().Switches(), s.Position().Orientation(), err)
	}
	r.circuits[key] = m
	return m, nil
}

// Keep makes once what depends on nothing but the circuit; it goes with it.
func (m *Circuit) Keep(key any, make func() any) any {
	if _, ok := m.kept[key]; !ok {
		m.kept[key] = make()
	}
	return m.kept[key]
}

// allTerminals are those that may be asked about, whether anything joins them
// or not.
func (r *Chain) allTerminals() []string {
	all := []string{Earth, sheet.PlugHot, sheet.PlugNeutral, sheet.PlugGround}
	for _, t := range r.Metals {
		all = append(all, t.Terminal)
	}
	for _, p := range r.Bench.Sheet.Parts {
		for _, t := range p.Terminals() {
			all = append(all, p.Full(t))
		}
	}
	return slices.Clip(all)
}

// by takes the end of a range that the question asks for: low is the
// dangerous one of a resistance in the way of a person's current.
func (m *Circuit) ohm(low, high float64) float64 {
	if m.Pick == Danger {
		return low
	}
	return high
}

// back takes the dangerous end of a resistance in the way back from metal: of
// the protective conductor, and of neutral where a live chassis hangs on it.
func (m *Circuit) back(low, high float64) float64 {
	if m.Pick == Least || m.Surge {
		return low
	}
	return high
}

// neutral is the resistance of the other conductor than hot: in a live set it is
// a way back from metal, in any other in the way of a fault current.
func (m *Circuit) neutral(low, high float64) float64 {
	if m.LiveMetal() {
		return m.back(low, high)
	}
	return m.ohm(low, high)
}

// LiveMetal tells a set in which something that conducts joins metal to a line
// conductor.
func (r *Chain) LiveMetal() bool {
	return slices.ContainsFunc(r.Metals, func(t Metal) bool { return t.live })
}

// wire joins a and b by r Ω, 0 being a wire.
func (m *Circuit) wire(name, a, b string, r float64) {
	e := circuit.Element{Name: name, A: a, B: b, Conducts: circuit.Conducting, R: circuit.Exactly(r)}
	if r == 0 {
		e.Conducts = circuit.Wire
	}
	m.Elements = append(m.Elements, e)
}

func (m *Circuit) farad(name, a, b string, c float64) {
	if c > 0 {
		m.Elements = append(m.Elements, circuit.Element{Name: name, A: a, B: b, Conducts: circuit.Bridging, R: circuit.Anything(), C: circuit.Exactly(c)})
	}
}

// volts are the supply at the receptacle, at the end asked for.
func (m *Circuit) volts() float64 {
	region := m.Bench.Sheet.Region.Limits
	if v, ok := part.ValueOf(m.Bench.Sheet.Supply().Get("voltage")); ok {
		region = region.Hull(v)
	}
	if m.Pick == Danger {
		return region.High
	}
	return region.Low
}

// AtSet are the volts that arrive at the set, at the end asked for.
func (m *Circuit) AtSet() float64 {
	_, limits := m.Bench.Mains()
	if m.Pick == Danger {
		return limits.High
	}
	return limits.Low
}

// set puts the set's own elements into the circuit.
func (m *Circuit) set() {
	c := m.Bench.Circuit(m.State)
	live, other := sheet.PlugHot, sheet.PlugNeutral
	if m.crossed {
		live, other = other, live
	}
	reach := func(from string) *circuit.Reach {
		return c.Reach([]string{from}, func(e *circuit.Element) bool {
			return !slices.Contains(m.without, e.Name) && (bench.Contacts(e) || dropsLittle(e))
		})
	}
	hot, cold := reach(live), reach(other)
	m.Hot, m.cold = nets(c, hot), nets(c, cold)
	m.HotEnd, m.coldEnd = live, other
	for _, w := range m.Bench.Wired().Primaries {
		for _, t := range []string{w.Winding.Ends[0], w.Winding.Ends[1]} {
			if hot.Has(w.Part.Full(t)) {
				m.HotEnd = w.Part.Full(t)
			}
			if cold.Has(w.Part.Full(t)) {
				m.coldEnd = w.Part.Full(t)
			}
		}
	}
	across := func(e *circuit.Element) bool {
		return hot.Has(e.A) && cold.Has(e.B) || hot.Has(e.B) && cold.Has(e.A)
	}
	es := c.Elements()
	for i := range es {
		e := &es[i]
		if slices.Contains(m.without, e.Name) {
			continue
		}
		p := bench.PartOfElement(e)
		switch {
		case e.Conducts == circuit.Wire:
			m.Elements = append(m.Elements, *e)
			m.Elements[len(m.Elements)-1].R = circuit.Interval{}
		case e.Conducts == circuit.OneWay || e.Law == circuit.ColdTube:
			// Direct current is not in this circuit.
		case e.Law == circuit.Winding:
			m.winding(*e, p)
		case e.Conducts == circuit.Joint:
			m.joint(e, p)
		case e.Law == circuit.Striking:
			m.striking(e, p, across(e))
		case e.Conducts == circuit.Bridging:
			m.capacitor(e, p, across(e))
		default:
			m.resistance(e, p, across(e))
		}
	}
}

// mostDrop is less than any choke of a rail has, in Ω, and more than one for the mains.
const mostDrop = 20

// dropsLittle lets through what stands in line with a load and drops next to
// nothing: of chokes those for the mains, and those of which nobody says.
func dropsLittle(e *circuit.Element) bool {
	return bench.InLine(e) && (!bench.PartOfElement(e).Is(part.Chokes) || e.R.Low < mostDrop)
}

// nets lists one terminal for each net that was reached.
func nets(c *circuit.Circuit, r *circuit.Reach) []string {
	var out []string
	for _, t := range r.Terminals() {
		if !slices.ContainsFunc(out, func(u string) bool { return c.SameNet(t, u) }) {
			out = append(out, t)
		}
	}
	return out
}

func (m *Circuit) joint(e *circuit.Element, p *part.Part) {
	// Where most current is asked, a contact and a fuse have next to none.
	r := m.ohm(0.001, math.Max(e.R.High, 0.001))
	if math.IsInf(r, 1) {
		r = 0.5 // a good fuse of 0.5 A and more reads less
	}
	if p.Is(part.Fuses) {
		m.Fuses = append(m.Fuses, e.Name)
	}
	if p.Is(part.Mates) {
		r = 0
	}
	m.wire(e.Name, e.A, e.B, r)
}
