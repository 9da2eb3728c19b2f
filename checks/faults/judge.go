package faults

import (
	"errors"
	"fmt"
	"math"
	"math/cmplx"
	"slices"

	"firstvolt/checks/circuit"
	"firstvolt/checks/handbook"
	"firstvolt/checks/sheet"
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

// worst is changed, with what a person finds on metal, in whichever way round
// an isolating transformer endangers that person more.
func (m *model) worst(f fault, terminal string) (*circuit.Solved, *model, hand, error) {
	solved, at, err := m.changed(f)
	if err != nil {
		return nil, nil, hand{}, err
	}
	h, err := m.touch(solved, terminal)
	if err != nil {
		return nil, nil, hand{}, fmt.Errorf("%s %s: %w", f.subject, f.name, err)
	}
	if round, err := m.round(); err != nil {
		return nil, nil, hand{}, err
	} else if round != nil {
		solved2, at2, h2, err := round.worst(f, terminal)
		if err != nil || h2.amps > h.amps {
			return solved2, at2, h2, err
		}
	}
	return solved, at, h, nil
}

// round is m with its isolating transformer the other way round; nil where
// there is none, or where that was done already.
func (m *model) round() (*model, error) {
	if m.far || m.end != danger || !slices.ContainsFunc(m.b.Sheet.Upstream, func(l *sheet.Link) bool { return l.Kind == "isolating-transformer" }) {
		return nil, nil
	}
	s := m.setup
	s.far = true
	return m.room.model(s)
}

// find is what a person finds on metal with a fault: with lamps cold, which
// never is less, and where that is more than enough, as warm as they get.
func (m *model) find(f fault, terminal string, enough float64) (hand, *model, error) {
	solved, at, err := m.with(f)
	if err != nil {
		return hand{}, nil, err
	}
	h, err := m.touch(solved, terminal)
	if err == nil && h.amps > enough && len(at.lamps) > 0 {
		if solved, at, err = at.warmed(solved); err != nil {
			return hand{}, nil, err
		}
		h, err = m.touch(solved, terminal)
	}
	if err != nil {
		return hand{}, nil, err
	}
	round, err := m.round()
	if err != nil || round == nil {
		return h, at, err
	}
	h2, at2, err := round.find(f, terminal, enough)
	if err != nil || h2.amps > h.amps {
		return h2, at2, err
	}
	return h, at, nil
}

// with is the circuit of m with a fault in it, lamps as cold as can be.
func (m *model) with(f fault, more ...circuit.Branch) (*circuit.Solved, *model, error) {
	if len(f.without) > 0 || f.exchange {
		s := m.setup
		s.without = f.without
		s.exchange = s.exchange != f.exchange
		var err error
		if m, err = m.room.model(s); err != nil {
			return nil, nil, err
		}
	}
	solved := m.solved
	if branches := append(append([]circuit.Branch(nil), f.branches...), more...); len(branches) > 0 {
		var err error
		if solved, err = solved.With(branches...); err != nil {
			return nil, nil, fmt.Errorf("%s %s: %w", f.subject, f.name, err)
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
func (r *room) touch(s *circuit.Solved, terminal string) (hand, error) {
	worst := hand{other: earth}
	for _, other := range r.partners(terminal) {
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
		h := hand{other, cmplx.Abs(v), r.person.current(v, z)}
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
func (r *room) partners(terminal string) []string {
	out := []string{earth}
	for _, t := range r.metals {
		if t.touched && t.first && t.terminal != terminal && !r.b.Circuit(closed).SameNet(t.terminal, terminal) {
			out = append(out, t.terminal)
		}
	}
	return out
}
