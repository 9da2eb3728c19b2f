package mains

import (
	"errors"
	"math/cmplx"
	"slices"

	"firstvolt/checks/circuit"
)

// Hand is what a person finds who holds metal and stands on the earth, or
// holds other metal.
type Hand struct {
	Other string // the earth or other metal
	Volts float64
	Amps  float64
}

// Touch is the worst that a person finds on a piece of metal.
func (m *Circuit) Touch(s *circuit.Solved, terminal string) (Hand, error) {
	worst := Hand{Other: Earth}
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
		h := Hand{other, cmplx.Abs(v), m.Person.Current(v, z)}
		if !(h.Amps >= 0) {
			return worst, circuit.ErrSingular
		}
		if h.Amps > worst.Amps {
			worst = h
		}
	}
	return worst, nil
}

// partners are what a person may touch besides the metal.
func (m *Circuit) partners(terminal string) []string {
	out := []string{Earth}
	state, turned := closed, len(m.State.Turned) > 0
	if turned { // what hangs together as mated on the sheet may not do so now
		state = m.State
	}
	for _, t := range m.Metals {
		if t.Touched && (t.First || turned) && t.Terminal != terminal && !m.Bench.Circuit(state).SameNet(t.Terminal, terminal) {
			out = append(out, t.Terminal)
		}
	}
	return out
}

// HasMetal tells whether the set has the piece of metal.
func (r *Chain) HasMetal(terminal string) bool {
	return slices.ContainsFunc(r.Metals, func(x Metal) bool { return x.Terminal == terminal })
}
