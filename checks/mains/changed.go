package mains

import (
	"math"
	"math/cmplx"

	"firstvolt/checks/circuit"
	"firstvolt/checks/handbook"
)

// Change is what is otherwise than in the sound circuit.
type Change struct {
	Branches  []circuit.Branch
	Without   []string // wires and contacts that are parted
	Exchanged bool     // the receptacle is wired the other way round
}

// Warm is the circuit with a change in it, lamps as warm as it makes them.
func (m *Circuit) Warm(by Change) (*circuit.Solved, *Circuit, error) {
	solved, m, err := m.With(by)
	if err != nil || len(m.Lamps) == 0 {
		return solved, m, err
	}
	return m.Warmed(solved)
}

// With is the circuit with a change in it, lamps as cold as can be.
func (m *Circuit) With(by Change) (*circuit.Solved, *Circuit, error) {
	if len(by.Without) > 0 || by.Exchanged {
		s := m.Setup
		s.without = by.Without
		s.Exchange = s.Exchange != by.Exchanged
		var err error
		if m, err = m.Circuit(s); err != nil {
			return nil, nil, err
		}
	}
	var branches []circuit.Branch
	for _, b := range by.Branches {
		if b.In == "" || m.Has(b.In) { // what an end leaves out is open there
			branches = append(branches, b)
		}
	}
	if len(branches) == 0 {
		return m.Solved, m, nil
	}
	solved, err := m.Solved.With(branches...)
	return solved, m, err
}

// Warmed lets the lamps come to the resistance that they have at the volts
// across them, from cold, and never beyond it.
func (m *Circuit) Warmed(s *circuit.Solved) (*circuit.Solved, *Circuit, error) {
	added := make([]float64, len(m.Lamps))
	law := handbook.Lamp()
	for range 4 {
		var branches []circuit.Branch
		for i, l := range m.Lamps {
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

// Alternatives are m and, at the dangerous end, m with its isolating transformer the
// other way round, where it has one, and with the insulation that nobody read
// perfect: broken down it may short what would else be found.
func (m *Circuit) Alternatives() ([]*Circuit, error) {
	ways := []*Circuit{m}
	if m.Pick != Danger {
		return ways, nil
	}
	isolated := len(m.Bench.Sheet.Links("isolating-transformer")) > 0
	for perfect := range 1 << m.unread() {
		for _, far := range []bool{false, true} {
			if far && !isolated || !far && perfect == 0 {
				continue
			}
			s := m.Setup
			s.far, s.perfect = far, perfect
			other, err := m.Circuit(s)
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
func (r *Chain) unread() int {
	n := 0
	for _, t := range r.Metals {
		if t.First && t.Beside && !t.Read {
			n++
		}
	}
	return min(n, unreadBits)
}
