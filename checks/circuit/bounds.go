package circuit

import (
	"fmt"
	"math"
)

// Revalued is a circuit of the same elements between the same terminals with
// other values: elements has as many, in the same order, each joining what it
// joined. What is a Wire must stay one. It costs next to nothing beside New.
func (c *Circuit) Revalued(elements []Element) *Circuit {
	if len(elements) != len(c.elements) {
		return New(elements, c.terminals...)
	}
	again := *c
	again.elements = elements
	return &again
}

// Bounds is the R of Resistance alone, by the same two solutions, with the
// resistances given (Ω, one for each element, in the order of the circuit) in
// the place of the elements' own; nil leaves them as they are. It asks nothing
// of the elements' names.
func (c *Circuit) Bounds(plus, minus []string, ohms []Interval) (Interval, error) {
	unknown := Interval{math.NaN(), math.NaN()}
	if ohms != nil && len(ohms) != len(c.elements) {
		return unknown, fmt.Errorf("resistance: %d resistances for %d elements", len(ohms), len(c.elements))
	}
	of := func(i int) Interval {
		if ohms == nil {
			return c.elements[i].R
		}
		return ohms[i]
	}
	for i := range c.elements {
		if r := of(i); !r.valid() {
			return unknown, fmt.Errorf("resistance: %s: from %g to %g is not a range", c.elements[i].Name, r.Low, r.High)
		}
	}
	p, m, err := c.probes(plus, minus)
	if err != nil {
		return unknown, fmt.Errorf("resistance: %w", err)
	}
	if overlap(p, m) {
		return Interval{}, nil
	}
	end := func(pick func(Interval) float64) func(int) float64 {
		return func(i int) float64 {
			r := of(i)
			if leftOut(c.elements[i].Conducts, r) {
				return math.Inf(1)
			}
			return pick(r)
		}
	}
	low, _, err := c.lowEnd(p, m, end(func(r Interval) float64 { return r.Low }))
	if err != nil {
		return unknown, fmt.Errorf("resistance: %w", err)
	}
	high, _, err := c.solve(p, m, end(func(r Interval) float64 { return r.High }))
	if err != nil {
		return unknown, fmt.Errorf("resistance: %w", err)
	}
	return Interval{min(low, high), high}, nil
}
