package faults

import (
	"errors"
	"fmt"
	"math"
	"math/cmplx"
	"slices"

	"firstvolt/checks/circuit"
	"firstvolt/checks/handbook"
)

// changed is the circuit of m with a fault in it, lamps as warm as it makes
// them.
func (m *model) changed(f fault, more ...circuit.Branch) (*circuit.Solved, *model, error) {
	solved, m, err := m.with(f, more...)
	if err != nil || len(m.lamps) == 0 {
		return solved, m, err
	}
	return m.warmed(solved)
}

// ways are m and, at the dangerous end, m with its isolating transformer the
// other way round, where it has one, and with the insulation that nobody read
// perfect: broken down it may short what would else be found.
func (m *model) ways() ([]*model, error) {
	ways := []*model{m}
	if m.end != danger {
		return ways, nil
	}
	isolated := len(m.b.Sheet.Links("isolating-transformer")) > 0
	for perfect := range 1 << m.unread() {
		for _, far := range []bool{false, true} {
			if far && !isolated || !far && perfect == 0 {
				continue
			}
			s := m.setup
			s.far, s.perfect = far, perfect
			other, err := m.room.model(s)
			if err != nil {
				return nil, err
			}
			ways = append(ways, other)
		}
	}
	return ways, nil
}

// unreadBits is how many metals whose insulation nobody read are taken one by one;
// any more of them are all one or all the other with the last of these.
const unreadBits = 3

// unread is in how many bits of perfect the insulation that nobody read is.
func (r *room) unread() int {
	n := 0
	for _, t := range r.metals {
		if t.first && t.beside && !t.read {
			n++
		}
	}
	return min(n, unreadBits)
}

// found is what a person finds on metal, and the circuit that it is found in.
type found struct {
	hand
	solved *circuit.Solved
	at     *model
}

// worst is what a person finds on metal with a fault, lamps as warm as it makes
// them, in whichever of the ways endangers that person most.
func (m *model) worst(f fault, terminal string) (found, error) { return m.find(f, terminal, -1) }

// find is worst where a person gets more than enough; else lamps are left cold,
// which never is less.
func (m *model) find(f fault, terminal string, enough float64) (found, error) {
	m, err := m.warmedFor(f)
	if err != nil {
		return found{}, err
	}
	ways, err := m.ways()
	if err != nil {
		return found{}, err
	}
	var most found
	for _, way := range ways {
		x, err := way.findOne(f, terminal, enough)
		if err != nil {
			return found{}, err
		}
		if most.at == nil || x.amps > most.amps {
			most = x
		}
	}
	return most, nil
}

func (m *model) findOne(f fault, terminal string, enough float64) (found, error) {
	solved, at, err := m.with(f)
	if err != nil {
		return found{}, err
	}
	h, err := m.touch(solved, terminal)
	if err == nil && h.amps > enough && len(at.lamps) > 0 {
		if solved, at, err = at.warmed(solved); err == nil {
			h, err = m.touch(solved, terminal)
		}
	}
	if err != nil {
		return found{}, fmt.Errorf("%s: %w", f, err)
	}
	return found{h, solved, at}, nil
}

// with is the circuit of m with a fault in it, lamps as cold as can be.
func (m *model) with(f fault, more ...circuit.Branch) (*circuit.Solved, *model, error) {
	if len(f.without) > 0 || f.exchange() {
		s := m.setup
		s.without = f.without
		s.exchange = s.exchange != f.exchange()
		var err error
		if m, err = m.room.model(s); err != nil {
			return nil, nil, err
		}
	}
	solved := m.solved
	var branches []circuit.Branch
	for _, b := range append(slices.Clone(f.branches), more...) {
		if b.In == "" || m.has(b.In) { // what an end leaves out is open there
			branches = append(branches, b)
		}
	}
	if len(branches) > 0 {
		var err error
		if solved, err = solved.With(branches...); err != nil {
			return nil, nil, fmt.Errorf("%s: %w", f, err)
		}
	}
	return solved, m, nil
}

// warmed lets the lamps come to the resistance that they have at the volts
// across them, from cold, and never beyond it.
func (m *model) warmed(s *circuit.Solved) (*circuit.Solved, *model, error) {
	added := make([]float64, len(m.lamps))
	law := handbook.Lamp()
	for range 4 {
		var branches []circuit.Branch
		for i, l := range m.lamps {
			amps, err := s.Current(l.element)
			if err != nil {
				return nil, nil, err
			}
			cold := law.ColdResistance(l.watts, l.volts)
			v := cmplx.Abs(amps) * (cold + added[i])
			ohms := cold
			if i := law.Current(l.watts, l.volts, v).High; i > 0 && v > 0 {
				ohms = math.Max(cold, v/i)
			}
			if more := ohms - cold - added[i]; more > 0 {
				branches = append(branches, circuit.Branch{In: l.element, Z: complex(more, 0)})
				added[i] += more
			}
		}
		if len(branches) == 0 {
			break
		}
		var err error
		if s, err = s.With(branches...); err != nil {
			return nil, nil, err
		}
	}
	return s, m, nil
}

// hand is what a person finds who holds metal and stands on the earth, or
// holds other metal.
type hand struct {
	other string // the earth or other metal
	volts float64
	amps  float64
}

// touch is the worst that a person finds on a piece of metal.
func (m *model) touch(s *circuit.Solved, terminal string) (hand, error) {
	worst := hand{other: earth}
	for _, other := range m.partners(terminal) {
		v, err := s.Voltage(terminal, other)
		if errors.Is(err, circuit.ErrFloating) {
			// Even by stray capacitance nothing joins it to the supply: what
			// the live end hangs on is parted, and all behind it is dead.
			continue
		}
		if err != nil {
			return worst, err
		}
		z, err := s.Impedance(terminal, other)
		if err != nil {
			return worst, err
		}
		h := hand{other, cmplx.Abs(v), m.person.current(v, z)}
		if !(h.amps >= 0) {
			return worst, circuit.ErrSingular
		}
		if h.amps > worst.amps {
			worst = h
		}
	}
	return worst, nil
}

// partners are what a person may touch besides the metal.
func (m *model) partners(terminal string) []string {
	out := []string{earth}
	state, turned := closed, len(m.state.Turned) > 0
	if turned { // what hangs together as mated on the sheet may not do so now
		state = m.state
	}
	for _, t := range m.metals {
		if t.touched && (t.first || turned) && t.terminal != terminal && !m.b.Circuit(state).SameNet(t.terminal, terminal) {
			out = append(out, t.terminal)
		}
	}
	return out
}
