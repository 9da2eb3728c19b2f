package circuit

import (
	"errors"
	"fmt"
	"math"
	"slices"
)

// Result is the resistance that an ohmmeter would find.
type Result struct {
	// R bounds the reading in Ω. Low is +Inf where nothing joins the probes;
	// High is +Inf where nothing with a known upper bound does.
	R Interval
	// Open is set where no path conducts, known or not: High is +Inf, and Low
	// comes of insulation, or is +Inf as well.
	Open bool
	// Unknown is set where an element of unknown value lies on a conducting
	// path, so that the bounds say little: a conducting part without a known
	// upper bound, or a OneWay in its forward direction. One that only
	// insulation joins to a probe does not count.
	Unknown bool
	// Used names the elements that carry current at the low end, sorted:
	// insulation included, see Between for the nominal path.
	Used []string
}

// Resistance is the driving-point resistance between two groups of joined
// terminals; plus is the red lead of the meter. Groups that overlap are 0 Ω
// apart. Raising any resistance raises it, so that two solutions bound it:
// everything low and everything high.
//
// Exactly 0 Ω (and up to 1e-30 Ω) is merged into a net and never stamped. An R of Anything() is
// merged at the low end and left out at the high end. A Bridging element is
// left out where its R is zero or Anything(); any other R makes it a leak of
// that resistance. A OneWay may be anything from 0 Ω to open in its forward
// direction (its own R is not used) and is out backward: at the high end it is
// left out; at the low end it is a short where the red lead drives it forward.
//
// It is an error to name no terminal or one that the circuit does not know,
// to ask of a circuit that Check refuses, or of one that has no finite answer.
// With an error the bounds are not numbers.
func (c *Circuit) Resistance(plus, minus []string) (Result, error) {
	res, err := c.resistance(plus, minus)
	if err != nil {
		return Result{R: Interval{math.NaN(), math.NaN()}}, fmt.Errorf("resistance: %w", err)
	}
	return res, nil
}

func (c *Circuit) resistance(plus, minus []string) (Result, error) {
	if err := c.Check(); err != nil {
		return Result{}, err
	}
	p, m, err := c.probes(plus, minus)
	if err != nil {
		return Result{}, err
	}
	if overlap(p, m) {
		return Result{}, nil
	}
	low, forward, err := c.lowEnd(p, m, c.low)
	if err != nil {
		return Result{}, err
	}
	c.markTwins(forward)
	high, _, err := c.solve(p, m, func(i int) float64 { return atHigh(&c.elements[i]) })
	if err != nil {
		return Result{}, err
	}
	// The two ends are rounded apart from each other.
	res := Result{R: Interval{min(low, high), high}}

	use := make([]bool, len(c.elements))
	for i := range c.elements {
		use[i] = forward[i] || !math.IsInf(atLow(&c.elements[i]), 1)
	}
	for _, e := range c.pick(c.carrying(use, p, m)) {
		res.Used = append(res.Used, e.Name)
	}
	for i := range c.elements {
		use[i] = use[i] && c.elements[i].Conducts != Bridging
	}
	for _, e := range c.pick(c.carrying(use, p, m)) {
		if e.Conducts == OneWay || math.IsInf(e.R.High, 1) {
			res.Unknown = true
		}
	}
	slices.Sort(res.Used)
	res.Open = math.IsInf(high, 1) && !res.Unknown
	return res, nil
}

// probes gives the terminals of both groups their numbers.
func (c *Circuit) probes(plus, minus []string) (p, m []int32, err error) {
	var all []error
	numbers := func(names []string) []int32 {
		var list []int32
		for _, name := range names {
			t, known := c.number[name]
			if !known {
				all = append(all, fmt.Errorf("no terminal %q", name))
			}
			list = append(list, t)
		}
		return list
	}
	p, m = numbers(plus), numbers(minus)
	if len(p) == 0 || len(m) == 0 {
		all = append(all, errors.New("a probe touches nothing"))
	}
	return p, m, errors.Join(all...)
}

func overlap(p, m []int32) bool {
	return slices.ContainsFunc(p, func(t int32) bool { return slices.Contains(m, t) })
}

// isOpen tells whether no current can pass whatever the true value.
func isOpen(r Interval) bool { return math.IsInf(r.Low, 1) }

// nothing is the resistance (Ω) up to which an element is taken for exactly
// 0 Ω: far below what any meter could tell, far above where numbers run out.
const nothing = 1e-30

// isShort tells whether an element is 0 Ω at both ends of its range.
func isShort(e *Element) bool {
	return e.Conducts <= Conducting && e.R.High <= nothing
}

// leaks tells whether a Bridging element's R says something.
func leaks(r Interval) bool {
	return r.Low > 0 || r.High > 0 && !math.IsInf(r.High, 1)
}

// leftOut tells an element that no direct current passes, whatever its R: a
// OneWay always.
func leftOut(c Conduct, r Interval) bool { return c == OneWay || c == Bridging && !leaks(r) }

// atLow is the lowest resistance of e; +Inf leaves it out.
func atLow(e *Element) float64 {
	if leftOut(e.Conducts, e.R) {
		return math.Inf(1)
	}
	return e.R.Low
}

// atHigh is the highest resistance of e; +Inf leaves it out.
func atHigh(e *Element) float64 {
	if leftOut(e.Conducts, e.R) {
		return math.Inf(1)
	}
	return e.R.High
}

// low is the lowest resistance of an element by number.
func (c *Circuit) low(i int) float64 { return atLow(&c.elements[i]) }

// solve gives the resistance between the groups and the potential of every
// terminal, plus at 1 V, with the resistance of each element as told: 0 merges
// it, +Inf leaves it out.
func (c *Circuit) solve(p, m []int32, ohms func(element int) float64) (float64, []float64, error) {
	nets := newSets(len(c.terminals))
	joinAll(nets, p)
	joinAll(nets, m)
	for i, e := range c.ends {
		if ohms(i) <= nothing {
			nets.join(e[0], e[1])
		}
	}
	volts := make([]float64, len(c.terminals))
	plus, minus := nets.of(p[0]), nets.of(m[0])
	if plus == minus {
		return 0, volts, nil
	}
	network := newMesh(len(c.terminals))
	for i, e := range c.ends {
		if r := ohms(i); r > nothing && !math.IsInf(r, 1) {
			network.add(nets.of(e[0]), nets.of(e[1]), 1/r)
		}
	}
	r, v, err := network.solve(plus, minus)
	if err != nil {
		return 0, nil, err
	}
	for t := range volts {
		volts[t] = v[nets.of(int32(t))]
	}
	return r, volts, nil
}
