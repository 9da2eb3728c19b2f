package circuit

import (
	"errors"
	"fmt"
	"math"
)

// Point is one value out of each range of an element, for one solution.
type Point struct {
	R      float64    // Ω; +Inf where nothing conducts and C alone is left
	L      float64    // H in series with R; of a winding: leakage
	C      float64    // F beside R and L
	EMF    complex128 // V rms in series with R and L, A above B
	Turns  float64    // of a winding, relative to the others on its core
	Lm, Rm float64    // H and Ω of the core seen from this winding; 0 or +Inf: none given here
}

// AtLow takes every value of an element at its low end. What an ohmmeter sees
// as open conducts nothing here either, and keeps its C: a Bridging element
// whose R says nothing, a OneWay always, so that whoever knows how it conducts
// must say so.
func AtLow(e *Element) Point {
	return Point{atLow(e), e.L.Low, e.C.Low, e.EMF, e.Turns.Low, e.Lm.Low, e.Rm.Low}
}

// AtHigh is AtLow for the high end. An R of which nothing is known conducts
// nothing.
func AtHigh(e *Element) Point {
	return Point{atHigh(e), e.L.High, e.C.High, e.EMF, e.Turns.High, e.Lm.High, e.Rm.High}
}

// AC solves the circuit at one frequency (Hz), with the values that pick
// takes out of the ranges: AtLow, AtHigh, or what is dangerous for the
// question asked. At 0 Hz every L is a short and every C open, and a winding
// on a core is refused.
//
// An element is R and L in series with its EMF, and C beside the three. What
// comes to exactly 0 Ω (and up to 1e-30 Ω) without EMF is merged into a net
// and never stamped. Windings that name one Core are ideally coupled beyond
// their own R and L: volts as turns, A of each at the same end, and currents
// times turns add up to what the core takes for itself, Lm and Rm of the one
// winding that gives them. Without Lm the core takes nothing. A winding alone
// on its core is an inductor and must give Lm; a winding whose volts are not
// known is an error, never one of zero turns.
//
// No reference is asked for: each part of the circuit that nothing but
// windings joins to the rest is solved relative to itself, and a voltage
// across two such parts is ErrFloating. A circuit without an answer that could
// be trusted is ErrSingular.
func (c *Circuit) AC(freq float64, pick func(*Element) Point) (*Solved, error) {
	s, err := c.ac(freq, pick)
	if err != nil {
		return nil, fmt.Errorf("at %g Hz: %w", freq, err)
	}
	return s, nil
}

func (c *Circuit) ac(freq float64, pick func(*Element) Point) (*Solved, error) {
	if err := c.Check(); err != nil {
		return nil, err
	}
	m, err := c.model(freq, pick)
	if err != nil {
		return nil, err
	}
	sys, err := m.system()
	if err != nil {
		return nil, err
	}
	return &Solved{origin: sys, sys: sys}, nil
}

// way is what an arm is to the solver.
type way uint8

const (
	path   way = iota // its current is an unknown
	merged            // 0 Ω without a source: part of a net
	absent            // conducts nothing
)

// arm is an element, or a branch added later, reduced to an impedance and a
// source in series: V(a) − V(b) = emf + z·I + turns·(volts of a turn).
type arm struct {
	name   string
	a, b   int32 // terminals
	way    way
	z, emf complex128
	core   int32 // -1: none
	turns  float64
}

// core is what joins windings: what it takes for itself is y times the volts
// of one turn.
type core struct {
	name     string
	y        complex128
	windings int  // that conduct
	given    bool // Lm was
}

// model is the circuit at one frequency with values chosen. The first arms are
// the elements in their order.
type model struct {
	c     *Circuit
	arms  []arm
	cores []core
}

func (c *Circuit) model(freq float64, pick func(*Element) Point) (*model, error) {
	if !(freq >= 0 && freq <= 1e12) {
		return nil, errors.New("this is not a frequency")
	}
	m := &model{c: c, arms: make([]arm, len(c.elements))}
	number := map[string]int32{}
	var all []error
	for i := range c.elements {
		e := &c.elements[i]
		p := pick(e)
		a, err := p.arm(2 * math.Pi * freq)
		a.name, a.a, a.b, a.core = e.Name, c.ends[i][0], c.ends[i][1], -1
		if err == nil && e.Core != "" {
			if _, known := number[e.Core]; !known {
				number[e.Core] = int32(len(m.cores))
				m.cores = append(m.cores, core{name: e.Core})
			}
			a.core = number[e.Core]
			err = m.cores[a.core].wind(&a, p, 2*math.Pi*freq)
		}
		if err != nil {
			all = append(all, fmt.Errorf("%s: %w", e.Name, err))
		}
		m.arms[i] = a
	}
	for _, k := range m.cores {
		if k.windings == 1 && !k.given && all == nil {
			all = append(all, fmt.Errorf("core %s: one winding alone, and no magnetising inductance", k.name))
		}
	}
	return m, errors.Join(all...)
}

// arm reduces R, L, C and EMF to one impedance and one source (Thévenin).
func (p Point) arm(omega float64) (arm, error) {
	switch {
	case !(p.R >= 0):
		return arm{}, fmt.Errorf("%g Ω is no resistance", p.R)
	case !(p.L >= 0 && p.L <= math.MaxFloat64):
		return arm{}, fmt.Errorf("%g H is no inductance to solve with", p.L)
	case !(p.C >= 0 && p.C <= math.MaxFloat64):
		return arm{}, fmt.Errorf("%g F is no capacitance to solve with", p.C)
	case !finite(p.EMF):
		return arm{}, fmt.Errorf("%g V is no source", p.EMF)
	}
	var a arm
	y := complex(0, omega*p.C)
	switch {
	case math.IsInf(p.R, 1) && y == 0:
		return arm{way: absent}, nil
	case math.IsInf(p.R, 1):
		a.z = 1 / y
	default:
		z := complex(p.R, omega*p.L)
		a.z, a.emf = z/(1+y*z), p.EMF/(1+y*z)
	}
	return a.settled()
}

// extreme is the Ω and V from which on a value is refused: far beyond any
// meaning, far below where numbers run out.
const extreme = 1e30

// settled looks at an impedance and says how it is to be solved.
func (a arm) settled() (arm, error) {
	if !(size(a.z) < extreme && size(a.emf) < extreme) {
		return a, fmt.Errorf("%g Ω and %g V are too extreme to be solved", a.z, a.emf)
	}
	a.way = path
	if size(a.z) <= nothing {
		a.z = 0
		if a.emf == 0 {
			a.way = merged
		}
	}
	return a, nil
}

// wind puts a winding on the core.
func (k *core) wind(a *arm, p Point, omega float64) error {
	switch {
	case omega == 0:
		return errors.New("a winding on a core passes no direct current to another")
	case !(p.Turns > 0 && p.Turns < 1e12):
		return errors.New("its volts are not known, so that it cannot be coupled")
	case p.C != 0 || p.EMF != 0:
		return errors.New("a winding has neither capacitance nor source of its own: put them beside it")
	case !(p.Lm >= 0) || !(p.Rm >= 0):
		return fmt.Errorf("%g H and %g Ω are no magnetising branch", p.Lm, p.Rm)
	}
	a.turns = p.Turns
	if a.way != absent { // an open winding still tells what the core takes
		a.way = path // of no impedance, it still is no short
		k.windings++
	}
	if p.Lm == 0 && p.Rm == 0 {
		return nil
	}
	if k.given || k.y != 0 {
		return errors.New("another winding of the core gives its magnetising branch already")
	}
	k.given = p.Lm > 0
	if p.Lm > 0 {
		k.y += 1 / complex(0, omega*p.Lm)
	}
	if p.Rm > 0 {
		k.y += complex(1/p.Rm, 0)
	}
	k.y *= complex(p.Turns*p.Turns, 0)
	if !finite(k.y) {
		return errors.New("its magnetising branch is too extreme to be solved")
	}
	return nil
}
