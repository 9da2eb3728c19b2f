package faults

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

// end is which end of what is not known exactly a question takes.
type end uint8

const (
	danger   end = iota // most current through a person: highest supply, no reactance, cold copper
	least               // least current through a person: what is there for certain
	clearing            // least current through a fuse: lowest supply, longest wires, warm copper
)

// setup is one state of the whole chain from service to set.
type setup struct {
	state    bench.State
	set      []Stand // how switches and selectors stand
	way      way
	exchange bool // of hot and neutral at the receptacle
	limiter  bool // the series lamps are in the circuit
	// far: behind an isolating transformer the neutral side is the one that its
	// phasing and capacitance endanger more; else the hot side.
	far     bool
	perfect int  // of the metals whose insulation nobody read, by bits: taken as perfect, not as broken down
	surge   bool // the way back is the shortest: most current through a fuse
	lasting bool // heaters are as warm as their own current makes them
	end     end
	without []string // wires and contacts that are parted
}

// Terminals of the supply; with a space in them, so that no sheet has them.
const (
	earth   = "the earth"
	neutral = "service neutral"
	ground  = "service ground"
)

// Elements of the supply that faults part.
const (
	lineWire    = "line conductor"
	neutralWire = "neutral conductor"
	groundWire  = "protective conductor"
	cordHot     = "cord hot" // where a plug fuse is
)

// copperHot is by how much copper gains from 20 °C to 75 °C: 1 + 0.00393 × 55.
const copperHot = 1.216

// room is what is the same in every state of one set.
type room struct {
	b        *bench.Bench
	source   handbook.Source
	hertz    float64
	earthing string // tn, tt, it, none; unknown where neither sheet nor region says
	metals   []metal
	ohms     map[string]circuit.Interval // of winding sections, as read
	devices  devices
	models   map[string]*model // of the position at
	at       string
	scratch  []circuit.Element // of model
	person   network
	// terminals are those that every circuit has, whether anything joins them
	// or not.
	terminals []string
}

type kept struct{}

// roomsOf are the rooms of a bench, one for each system of earthing that its
// supply may have.
func roomsOf(b *bench.Bench) []*room {
	var out []*room
	for _, system := range b.Earthings() {
		out = append(out, roomOf(b.Earthed(system)))
	}
	return out
}

// roomOf is the room of a bench, made once. Where the sheet leaves the system of
// earthing open it is that on the first.
func roomOf(b *bench.Bench) *room {
	return b.Keep(kept{}, func() any { return newRoom(b) }).(*room)
}

func newRoom(b *bench.Bench) *room {
	r := &room{b: b, source: handbook.MainsSource(), hertz: b.Sheet.Region.Frequency.High, models: map[string]*model{}}
	r.earthing = b.Earthings()[0]
	r.person = newNetwork(r.hertz)
	r.ohms = b.WindingOhms()
	r.metals = metalsOf(b)
	r.devices = devicesOf(b)
	r.terminals = r.allTerminals()
	return r
}

// model is the circuit of one setup, solved.
type model struct {
	*room
	setup
	es      []circuit.Element
	lamps   []lampAt
	fuses   []string // elements of the set's fuses that are in
	hot     []string // a terminal of each net that the live conductor reaches by contacts, chokes and the like
	cold    []string // the same of the other conductor
	coldEnd string   // its opposite on the other conductor
	hotEnd  string   // where what is spread over the mains side is placed
	// crossed: what is live arrives at the neutral of the set's plug.
	crossed bool
	anyLamp bool // a series lamp may have any watts up to those taken
	solved  *circuit.Solved
	list    []fault // faults, once they were asked for
	// What several faults ask, once one has: what the live conductor reaches past
	// no fuse, what the ground does, and the terminals that anything joins.
	unfused, grounded *circuit.Reach
	joined            map[string]bool
	// assumed says what the circuit takes for values that nobody gave.
	assumed []string
}

// lampAt is a series lamp: element, watts and volts.
type lampAt struct {
	element      string
	watts, volts float64
}

// model makes and solves the circuit of a setup once.
func (r *room) model(s setup) (*model, error) {
	// Of a position that was left nothing is kept: it may be one of a thousand.
	if at := fmt.Sprint(s.set, s.way.mated, s.limiter); at != r.at {
		r.at = at
		clear(r.models)
	}
	key := fmt.Sprintf("%v|%t%v%t%d %t%t%d|%s", s.way.stands, s.exchange, s.way.turned, s.far, s.perfect, s.surge, s.lasting, s.end, s.without)
	if m, ok := r.models[key]; ok {
		return m, nil
	}
	m := &model{room: r, setup: s, es: r.scratch[:0]}
	m.supply()
	m.set()
	m.spread()
	r.scratch, m.es = m.es, slices.Clone(m.es)
	c := circuit.New(m.es, r.terminals...)
	var err error
	if m.solved, err = c.AC(r.hertz, circuit.AtLow); err != nil {
		return nil, fmt.Errorf("%s, %s: %w", s.position().Switches(), s.position().Orientation(), err)
	}
	r.models[key] = m
	return m, nil
}

// allTerminals are those that may be asked about, whether anything joins them
// or not.
func (r *room) allTerminals() []string {
	all := []string{earth, sheet.PlugHot, sheet.PlugNeutral, sheet.PlugGround}
	for _, t := range r.metals {
		all = append(all, t.terminal)
	}
	for _, p := range r.b.Sheet.Parts {
		for _, t := range p.Terminals() {
			all = append(all, p.Full(t))
		}
	}
	return slices.Clip(all)
}

// by takes the end of a range that the question asks for: low is the
// dangerous one of a resistance in the way of a person's current.
func (m *model) ohm(low, high float64) float64 {
	if m.end == danger {
		return low
	}
	return high
}

// back takes the dangerous end of a resistance in the way back from metal: of
// the protective conductor, and of neutral where a live chassis hangs on it.
func (m *model) back(low, high float64) float64 {
	if m.end == least || m.surge {
		return low
	}
	return high
}

// neutral is the resistance of the other conductor than hot: in a live set it is
// a way back from metal, in any other in the way of a fault current.
func (m *model) neutral(low, high float64) float64 {
	if m.liveMetal() {
		return m.back(low, high)
	}
	return m.ohm(low, high)
}

// liveMetal tells a set in which something that conducts joins metal to a line
// conductor.
func (r *room) liveMetal() bool {
	return slices.ContainsFunc(r.metals, func(t metal) bool { return t.live })
}

// wire joins a and b by r Ω, 0 being a wire.
func (m *model) wire(name, a, b string, r float64) {
	e := circuit.Element{Name: name, A: a, B: b, Conducts: circuit.Conducting, R: circuit.Exactly(r)}
	if r == 0 {
		e.Conducts = circuit.Wire
	}
	m.es = append(m.es, e)
}

func (m *model) farad(name, a, b string, c float64) {
	if c > 0 {
		m.es = append(m.es, circuit.Element{Name: name, A: a, B: b, Conducts: circuit.Bridging, R: circuit.Anything(), C: circuit.Exactly(c)})
	}
}

// volts are the supply at the receptacle, at the end asked for.
func (m *model) volts() float64 {
	region := m.b.Sheet.Region.Limits
	if v, ok := part.ValueOf(m.b.Sheet.Supply().Get("voltage")); ok {
		region = region.Hull(v)
	}
	if m.end == danger {
		return region.High
	}
	return region.Low
}

// atSet are the volts that arrive at the set, at the end asked for.
func (m *model) atSet() float64 {
	_, limits := m.b.Mains()
	if m.end == danger {
		return limits.High
	}
	return limits.Low
}

// set puts the set's own elements into the circuit.
func (m *model) set() {
	c := m.b.Circuit(m.state)
	live, other := sheet.PlugHot, sheet.PlugNeutral
	if m.crossed {
		live, other = other, live
	}
	reach := func(from string) *circuit.Reach {
		return c.Reach([]string{from}, func(e *circuit.Element) bool {
			return !slices.Contains(m.without, e.Name) && (bench.Contacts(e) || inLine(e))
		})
	}
	hot, cold := reach(live), reach(other)
	m.hot, m.cold = nets(c, hot), nets(c, cold)
	m.hotEnd, m.coldEnd = live, other
	for _, w := range m.b.Wired().Primaries {
		for _, t := range []string{w.Winding.Ends[0], w.Winding.Ends[1]} {
			if hot.Has(w.Part.Full(t)) {
				m.hotEnd = w.Part.Full(t)
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
			m.es = append(m.es, *e)
			m.es[len(m.es)-1].R = circuit.Interval{}
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

// inLine lets through what stands in line with a load and drops next to
// nothing: a choke, a thermistor, the windings of a filter.
func inLine(e *circuit.Element) bool {
	p := bench.PartOfElement(e)
	if p == nil || e.Conducts != circuit.Conducting {
		return false
	}
	switch p.Kind.Name {
	case "thermistor", "filter":
		return true
	case "choke":
		return e.R.Low < 20 // a mains choke, or one of which nobody says; no filter choke of a rail
	}
	return false
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

func (m *model) joint(e *circuit.Element, p *part.Part) {
	// Where most current is asked, a contact and a fuse have next to none.
	r := m.ohm(0.001, math.Max(e.R.High, 0.001))
	if math.IsInf(r, 1) {
		r = 0.5 // a good fuse of 0.5 A and more reads less
	}
	if p.Kind.Name == "fuse" {
		m.fuses = append(m.fuses, e.Name)
	}
	if p.Kind.Name == "connector" {
		r = 0
	}
	m.wire(e.Name, e.A, e.B, r)
}
