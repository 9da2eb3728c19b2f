package circuit

// lowEnd is the lowest resistance between the groups, and which OneWay
// elements conduct there.
//
// With every OneWay a perfect valve, the potentials are those of least
// dissipation among all that leave no valve driven forward (A above B). Any
// such potentials dissipate at least that least, so the resistance they give
// is a true lower bound, reached or not: an unlucky choice of valves costs
// sharpness, never truth. Starting from none shorted, the valve driven hardest
// is shorted until none is driven; then each is tried without, since one that
// others have made needless may now conduct backward, and what raises the
// bound is kept.
//
// The lowest resistance of each element is as told: 0 merges it, +Inf leaves it
// out.
func (c *Circuit) lowEnd(p, m []int32, ohms func(element int) float64) (float64, []bool, error) {
	shorted := make([]bool, len(c.elements))
	low, err := c.settle(p, m, shorted, ohms)
	if err != nil {
		return 0, nil, err
	}
	const rounding = 1e-12 // of two solutions of one network; each is good to some 1e-14
	for better := true; better; {
		better = false
		for i := range shorted {
			if !shorted[i] {
				continue
			}
			trial := append([]bool(nil), shorted...)
			trial[i] = false
			r, err := c.settle(p, m, trial, ohms)
			if err != nil {
				return 0, nil, err
			}
			if r > low*(1+rounding) {
				low, shorted, better = r, trial, true
			}
		}
	}
	return low, shorted, nil
}

// settle shorts the OneWay that is driven forward hardest until none is, and
// gives the resistance between the groups that is left. What floats is at 0 V
// until something drives it higher.
func (c *Circuit) settle(p, m []int32, shorted []bool, ohms func(element int) float64) (float64, error) {
	for {
		r, volts, err := c.solve(p, m, func(i int) float64 {
			if shorted[i] {
				return 0
			}
			return ohms(i)
		})
		if err != nil || r == 0 {
			return r, err
		}
		hardest, drive := -1, 0.0
		for i, e := range c.ends {
			if d := volts[e[0]] - volts[e[1]]; c.elements[i].Conducts == OneWay && d > drive {
				hardest, drive = i, d
			}
		}
		if hardest < 0 {
			return r, nil
		}
		shorted[hardest] = true
	}
}

// markTwins marks, with a valve that conducts, those that lie the same way
// beside it: one shorted leaves no drive for the other, and it is chance which
// of them that was.
func (c *Circuit) markTwins(conducts []bool) {
	nets := newSets(len(c.terminals))
	for i, e := range c.ends {
		if c.low(i) <= nothing {
			nets.join(e[0], e[1])
		}
	}
	place := func(i int) [2]int32 { return [2]int32{nets.of(c.ends[i][0]), nets.of(c.ends[i][1])} }
	found := map[[2]int32]bool{}
	for i, yes := range conducts {
		if yes {
			found[place(i)] = true
		}
	}
	for i := range conducts {
		if c.elements[i].Conducts == OneWay && found[place(i)] {
			conducts[i] = true
		}
	}
}
