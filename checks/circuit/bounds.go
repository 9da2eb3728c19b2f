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

// Bounds is the R of Resistance alone, by the same two solutions. It asks
// nothing of the elements' names.
func (c *Circuit) Bounds(plus, minus []string) (Interval, error) {
	unknown := Interval{math.NaN(), math.NaN()}
	for i := range c.elements {
		if e := &c.elements[i]; !e.R.valid() {
			return unknown, fmt.Errorf("resistance: %s: from %g to %g is not a range", e.Name, e.R.Low, e.R.High)
		}
	}
	p, m, err := c.probes(plus, minus)
	if err != nil {
		return unknown, fmt.Errorf("resistance: %w", err)
	}
	if overlap(p, m) {
		return Interval{}, nil
	}
	low, _, err := c.lowEnd(p, m)
	if err != nil {
		return unknown, fmt.Errorf("resistance: %w", err)
	}
	high, _, err := c.solve(p, m, func(i int) float64 { return atHigh(&c.elements[i]) })
	if err != nil {
		return unknown, fmt.Errorf("resistance: %w", err)
	}
	return Interval{min(low, high), high}, nil
}
