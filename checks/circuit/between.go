package circuit

import "slices"

// Between lists, in the order of the circuit, the elements that carry current
// when the two groups of joined terminals are driven: those on some path from
// plus to minus that passes no place twice, among the wires, joints and
// conducting elements, and the OneWay elements that can conduct from plus to
// minus. It asks structure only: an element shorted by one of exactly 0 Ω
// carries nothing, one in a balanced bridge counts as if it did. Where several
// OneWay elements feed each other it may list one too many, never one too few.
// Bridging elements never count. Groups that are empty, overlap or name a terminal that
// the circuit does not know have nothing between them.
func (c *Circuit) Between(plus, minus []string) []*Element {
	p, m, err := c.probes(plus, minus)
	if err != nil || overlap(p, m) {
		return nil
	}
	use := make([]bool, len(c.elements))
	for i := range c.elements {
		e := &c.elements[i]
		use[i] = e.Conducts == OneWay || e.Conducts != Bridging && !isOpen(e.R)
	}
	for c.dropBackward(use, p, m) {
	}
	return c.pick(c.carrying(use, p, m))
}

// pick is the marked elements.
func (c *Circuit) pick(marked []bool) []*Element {
	var all []*Element
	for i, yes := range marked {
		if yes {
			all = append(all, &c.elements[i])
		}
	}
	return all
}

// dropBackward takes out of use each OneWay that cannot carry current from
// plus to minus: its A is not reached from plus, or minus is not reached from
// its B, along what is in use. It tells whether it took out any.
func (c *Circuit) dropBackward(use []bool, plus, minus []int32) bool {
	dropped := false
	for i := range c.elements {
		if !use[i] || c.elements[i].Conducts != OneWay {
			continue
		}
		a, b := c.ends[i][0], c.ends[i][1]
		if slices.Contains(minus, a) || slices.Contains(plus, b) ||
			!c.flows(use, plus, []int32{a}, append([]int32{b}, minus...)) ||
			!c.flows(use, []int32{b}, minus, append([]int32{a}, plus...)) {
			use[i], dropped = false, true
		}
	}
	return dropped
}

// flows tells whether any of to is reached from any of from along what is in
// use, OneWay elements in their direction, without entering any of barred. A
// terminal that is both wanted and barred counts as reached: the caller bars
// it for what lies behind it.
func (c *Circuit) flows(use []bool, from, to, barred []int32) bool {
	const isTarget, isBarred, seen = 1, 2, 4
	mark := make([]uint8, len(c.terminals))
	for _, t := range barred {
		mark[t] |= isBarred
	}
	for _, t := range to {
		mark[t] |= isTarget
	}
	queue := make([]int32, 0, len(c.terminals))
	enter := func(t int32) bool {
		if mark[t]&isTarget != 0 {
			return true
		}
		if mark[t]&(isBarred|seen) == 0 {
			mark[t] |= seen
			queue = append(queue, t)
		}
		return false
	}
	for _, t := range from {
		if enter(t) {
			return true
		}
	}
	for at := 0; at < len(queue); at++ {
		t := queue[at]
		for _, e := range c.edges.at(t) {
			if !use[e] || c.elements[e].Conducts == OneWay && c.ends[e][0] != t {
				continue
			}
			if enter(c.other(e, t)) {
				return true
			}
		}
	}
	return false
}

// carrying marks, of the elements in use, those that carry current between
// the groups. Elements of exactly 0 Ω are merged first to find which others
// are shorted; among themselves they are told apart on the bare terminals.
func (c *Circuit) carrying(use []bool, plus, minus []int32) []bool {
	n := len(c.terminals)
	bare, merged := newSets(n), newSets(n)
	for _, s := range []sets{bare, merged} {
		joinAll(s, plus)
		joinAll(s, minus)
	}
	for i := range c.elements {
		if use[i] && isShort(&c.elements[i]) {
			merged.join(c.ends[i][0], c.ends[i][1])
		}
	}
	var rest []int32
	for i := range c.elements {
		if use[i] && !isShort(&c.elements[i]) {
			rest = append(rest, int32(i))
		}
	}
	live := c.block(rest, merged, plus[0], minus[0])
	rest = rest[:0]
	for i := range c.elements {
		if live[i] || use[i] && isShort(&c.elements[i]) {
			rest = append(rest, int32(i))
		}
	}
	return c.block(rest, bare, plus[0], minus[0])
}

// block marks which of the given elements lie on a path from plus to minus
// that passes no node twice; terminals in one set are one node.
//
// It adds an edge from plus to minus in thought and looks for the part of the
// graph that stays joined to it whichever single node is taken out (depth
// first, with the lowest place that each branch leads back to).
func (c *Circuit) block(elements []int32, nodes sets, plus, minus int32) []bool {
	marked := make([]bool, len(c.elements))
	plus, minus = nodes.of(plus), nodes.of(minus)
	if plus == minus {
		return marked
	}
	near := listAt(len(nodes), func(edge func(at, i int32)) {
		for _, e := range elements {
			if a, b := nodes.of(c.ends[e][0]), nodes.of(c.ends[e][1]); a != b {
				edge(a, e)
				edge(b, e)
			}
		}
	})
	depth := make([]int, len(nodes)) // order of visit; 0: not visited
	depth[plus], depth[minus] = 1, 2
	count := 2
	var open []int32 // elements of parts not yet closed
	var visit func(at int32) int
	visit = func(at int32) int {
		low := depth[at]
		for _, e := range near.at(at) {
			next := nodes.of(c.ends[e][0])
			if next == at {
				next = nodes.of(c.ends[e][1])
			}
			switch {
			case depth[next] == 0:
				count++
				depth[next] = count
				mark := len(open)
				open = append(open, e)
				back := visit(next)
				if back >= depth[at] { // hangs on this node alone
					open = open[:mark]
				}
				low = min(low, back)
			case depth[next] < depth[at]:
				open = append(open, e)
				low = min(low, depth[next])
			}
		}
		return low
	}
	visit(minus)
	for _, e := range open {
		marked[e] = true
	}
	return marked
}

func joinAll(s sets, group []int32) {
	for _, t := range group[1:] {
		s.join(group[0], t)
	}
}
