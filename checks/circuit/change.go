package circuit

import (
	"errors"
	"fmt"
	"math/cmplx"
	"slices"
)

// Branch is a change: an impedance with a source, between two terminals or in
// the line of an element.
//
//	a short:             {A: "x", B: "y"}
//	a person, a leak:    {A: "x", B: "y", Z: 2000}
//	an element taken out {In: "F1", Z: cmplx.Inf()}
//	a worse joint:       {In: "bond", Z: 10}
//	a source doubled:    {In: "service", E: its EMF once more}
type Branch struct {
	A, B string     // terminals of the circuit
	In   string     // or the element to stand in series with
	Z    complex128 // Ω; 0 is a dead short, cmplx.Inf() no connection at all
	E    complex128 // V rms in series, A above B; of In, as the element's own EMF
}

// With is the circuit with branches added to those it has already. What was
// solved before stays as it is.
//
// A change is worked out from the one factorisation of AC: each branch needs
// the answer to a unit current or volt at its place, found once and kept, and
// a small system of the branches' own. Where that would cost too many digits,
// or the change parts what hung together, the changed circuit is solved
// afresh; no answer comes from an update that could not be trusted. A current
// of an update is good to 1e-9 of itself, or to what the last digit of the
// volts at its ends (some 1e-14 of them) would drive: nothing in a person,
// something between two ends of a bond.
//
// It is an error to name what the circuit does not know, and ErrSingular to
// make a circuit that has no answer.
func (s *Solved) With(branches ...Branch) (*Solved, error) {
	all := append(append([]Branch(nil), s.added...), branches...)
	m := s.origin
	for i, b := range branches {
		if err := m.check(b); err != nil {
			return nil, fmt.Errorf("branch %d: %w", len(s.added)+i, err)
		}
	}
	if u := m.update(all); u != nil {
		return &Solved{origin: m, sys: m, added: all, small: u}, nil
	}
	fresh, err := m.fresh(all)
	if err != nil {
		return nil, fmt.Errorf("changed: %w", err)
	}
	return fresh, nil
}

// Changes lists the branches that were added to what AC solved, in their order.
func (s *Solved) Changes() []Branch { return slices.Clone(s.added) }

// check tells what is wrong with a branch in itself.
func (m *model) check(b Branch) error {
	switch {
	case cmplx.IsNaN(b.Z) || !finite(b.E):
		return fmt.Errorf("%g Ω and %g V are not numbers", b.Z, b.E)
	case !cmplx.IsInf(b.Z) && size(b.Z) >= extreme || size(b.E) >= extreme:
		return fmt.Errorf("%g Ω and %g V are too extreme to be solved", b.Z, b.E)
	case b.In != "" && (b.A != "" || b.B != ""):
		return errors.New("it is either between terminals or in the line of an element")
	case b.In != "":
		if m.c.Element(b.In) == nil {
			return fmt.Errorf("no element %q", b.In)
		}
		return nil
	}
	for _, t := range []string{b.A, b.B} {
		if !m.c.Has(t) {
			return fmt.Errorf("no terminal %q", t)
		}
	}
	return nil
}

// fresh solves the changed circuit from nothing.
func (s *system) fresh(all []Branch) (*Solved, error) {
	m := &model{c: s.c, arms: append([]arm(nil), s.arms...), cores: s.cores}
	at := make([]int32, len(all))
	for i, b := range all {
		if at[i] = -1; b.In != "" {
			a := &m.arms[s.byName[b.In]]
			switch {
			case a.way == absent:
			case cmplx.IsInf(b.Z):
				a.way = absent
			default:
				a.z += b.Z
				a.emf += b.E
				if a.core >= 0 {
					continue // a path, whatever its impedance
				}
				var err error
				if *a, err = a.settled(); err != nil {
					return nil, err
				}
			}
			continue
		}
		a := arm{name: fmt.Sprintf("branch %d", i), a: s.c.number[b.A], b: s.c.number[b.B], z: b.Z, emf: b.E, core: -1}
		if cmplx.IsInf(b.Z) {
			a.way = absent
		} else {
			var err error
			if a, err = a.settled(); err != nil {
				return nil, err
			}
		}
		at[i] = int32(len(m.arms))
		m.arms = append(m.arms, a)
	}
	sys, err := m.system()
	if err != nil {
		return nil, err
	}
	return &Solved{origin: s, sys: sys, added: all, arms: at}, nil
}

// Impedance is what a current into a and out of b meets with every source
// dead: the volts between them for one ampere.
func (s *Solved) Impedance(a, b string) (complex128, error) {
	i, j, err := s.pair(a, b)
	switch {
	case err != nil:
		return cmplx.NaN(), err
	case s.islandOf(i) != s.islandOf(j):
		return cmplx.NaN(), fmt.Errorf("%s, %s: %w", a, b, ErrFloating)
	case s.sys.net[i] == s.sys.net[j]:
		return 0, nil
	}
	drawn, err := s.sys.between(i, j)
	if err != nil {
		return cmplx.NaN(), fmt.Errorf("%s, %s: %w", a, b, err)
	}
	z := -s.sys.drop(drawn.at, i, j)
	if s.small == nil {
		return z, nil
	}
	answer := s.small.answer(drawn.at, false, i, j)
	if answer == nil {
		return cmplx.NaN(), fmt.Errorf("%s, %s: %w", a, b, ErrSingular)
	}
	bulk := size(z)
	for k, c := range s.small.columns {
		part := answer[k] * s.sys.drop(c.at, i, j)
		z -= part
		bulk += size(part)
	}
	z += answer.shift(s.small, s.sys.island[j]) - answer.shift(s.small, s.sys.island[i])
	if size(z) >= lost*bulk {
		return z, nil
	}
	fresh, err := s.origin.fresh(s.added)
	if err != nil {
		return cmplx.NaN(), fmt.Errorf("%s, %s: %w", a, b, err)
	}
	return fresh.Impedance(a, b)
}
