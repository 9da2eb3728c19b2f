package circuit

import "math"

// lowEnd is the lowest resistance between the groups, and which OneWay
// elements conduct there.
//
// With every OneWay a perfect valve, the potentials are those of least
// dissipation among all that leave no valve driven forward (A above B). Any
// such potentials dissipate at least that least, so the resistance they give
// is a true lower bound, reached or not: an unlucky choice of valves costs
// sharpness, never truth. Starting from none shorted, valves driven forward
// are shorted until none is left, then each is tried without, and what raises
// the bound, or needs fewer valves for the same, is kept.
func (c *Circuit) lowEnd(p, m []int32) (float64, []bool, error) {
	shorted := make([]bool, len(c.elements))
	low, err := c.settle(p, m, shorted)
	if err != nil {
		return 0, nil, err
	}
	best := low            // never falls, so that rounding cannot make the search go in circles
	const rounding = 1e-12 // of two solutions of one network; each is good to some 1e-14
	for better := true; better; {
		better = false
		for i := range shorted {
			if !shorted[i] {
				continue
			}
			trial := append([]bool(nil), shorted...)
			trial[i] = false
			r, err := c.settle(p, m, trial)
			if err != nil {
				return 0, nil, err
			}
			raises := r > best*(1+rounding)
			spares := r >= best*(1-rounding) && count(trial) < count(shorted)
			if raises || spares {
				low, best, shorted, better = r, max(r, best), trial, true
			}
		}
	}
	return low, shorted, nil
}

// settle shorts every OneWay that is driven forward until none is, and gives
// the resistance between the groups that is left.
func (c *Circuit) settle(p, m []int32, shorted []bool) (float64, error) {
	for {
		r, volts, err := c.solve(p, m, func(i int) float64 {
			if shorted[i] {
				return 0
			}
			return atLow(&c.elements[i])
		})
		if err != nil || r == 0 {
			return r, err
		}
		c.raise(volts, shorted)
		more := false
		for i, e := range c.ends {
			if c.elements[i].Conducts == OneWay && !shorted[i] && volts[e[0]] > volts[e[1]] {
				shorted[i], more = true, true
			}
		}
		if !more {
			return r, nil
		}
	}
}

// raise gives the terminals that float the least potential at which no OneWay
// into them is driven forward. What floats carries no current, so that
// everything joined within it is at one potential.
func (c *Circuit) raise(volts []float64, shorted []bool) {
	islands := newSets(len(c.terminals))
	for i, e := range c.ends {
		if shorted[i] || !math.IsInf(atLow(&c.elements[i]), 1) {
			islands.join(e[0], e[1])
		}
	}
	level := make([]float64, len(volts)) // of an island that floats
	float := make([]bool, len(volts))
	for t, v := range volts {
		float[t] = v == floating
	}
	at := func(t int32) float64 {
		if float[t] {
			return level[islands.of(t)]
		}
		return volts[t]
	}
	for more := true; more; {
		more = false
		for i, e := range c.ends {
			if c.elements[i].Conducts == OneWay && float[e[1]] && at(e[0]) > at(e[1]) {
				level[islands.of(e[1])], more = at(e[0]), true
			}
		}
	}
	for t := range volts {
		volts[t] = at(int32(t))
	}
}

func count(marks []bool) int {
	n := 0
	for _, m := range marks {
		if m {
			n++
		}
	}
	return n
}
