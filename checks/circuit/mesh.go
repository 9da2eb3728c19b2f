package circuit

import (
	"errors"
	"math"
)

// mesh is a network of conductances between numbered nodes.
//
// It is solved by taking out one node after another: a node with conductances
// g1, g2, … to its neighbours is replaced by gi·gj/Σg between each pair of
// them. That is Gaussian elimination written so that nothing is ever
// subtracted: sums, products and quotients of positive numbers lose about one
// unit in the last place each, whatever the spread of the values. Milliohms
// beside teraohms therefore cost no digits, and no pivot has to be chosen for
// accuracy; the next node is the one with fewest neighbours, to keep it quick.
type mesh struct {
	near [][]link // by node
}

type link struct {
	node int32
	g    float64 // siemens
}

func newMesh(nodes int) *mesh { return &mesh{make([][]link, nodes)} }

// add puts conductance g between two nodes; of one node with itself it is
// nothing.
func (m *mesh) add(i, j int32, g float64) {
	if i != j {
		m.half(i, j, g)
		m.half(j, i, g)
	}
}

func (m *mesh) half(i, j int32, g float64) {
	for k := range m.near[i] {
		if m.near[i][k].node == j {
			m.near[i][k].g += g
			return
		}
	}
	m.near[i] = append(m.near[i], link{j, g})
}

// drop takes the link from i to j out.
func (m *mesh) drop(i, j int32) {
	for k, l := range m.near[i] {
		if l.node == j {
			m.near[i] = append(m.near[i][:k], m.near[i][k+1:]...)
			return
		}
	}
}

var errSpread = errors.New("the resistances are too far apart or too extreme to be solved")

// solve holds plus at 1 V and minus at 0 V and gives the resistance between
// them (Ω, +Inf where nothing joins them) and the potential of every node
// (0 to 1 V; 0 V where nothing joins it to a probe and any would do). It uses
// the mesh up. plus and minus differ.
func (m *mesh) solve(plus, minus int32) (ohms float64, volts []float64, err error) {
	n := len(m.near)
	volts = make([]float64, n)
	volts[plus] = 1

	// Only what is joined to a probe is solved; the rest would be singular.
	inner := m.joinedTo(plus, minus)[2:]
	place := make([]int32, n) // scratch: 1 + where a node stands in the list being added to
	for left := len(inner); left > 0; left-- {
		best := 0
		for k := 1; k < left; k++ {
			if len(m.near[inner[k]]) < len(m.near[inner[best]]) {
				best = k
			}
		}
		inner[best], inner[left-1] = inner[left-1], inner[best]
		m.takeOut(inner[left-1], place)
	}

	g := 0.0
	for _, l := range m.near[plus] {
		g += l.g // the only node left is minus
	}
	switch {
	case g == 0 && len(m.near[plus]) == 0:
		ohms = math.Inf(1)
	// Beyond these bounds a number may have run out of its range on the way;
	// what ran out within them was too small to count.
	case !(g > 1e-200 && g < 1e200):
		return 0, nil, errSpread
	default:
		ohms = 1 / g
	}
	// Put the nodes back, last taken out first: each is the mean of its then
	// neighbours, weighted by conductance.
	for _, k := range inner {
		sum, v := 0.0, 0.0
		for _, l := range m.near[k] {
			sum += l.g
		}
		for _, l := range m.near[k] {
			v += l.g / sum * volts[l.node]
		}
		if math.IsNaN(v) {
			return 0, nil, errSpread
		}
		volts[k] = min(v, 1)
	}
	return ohms, volts, nil
}

// joinedTo lists the given nodes, and behind them all that links join to them.
func (m *mesh) joinedTo(nodes ...int32) []int32 {
	live := make([]bool, len(m.near))
	for _, n := range nodes {
		live[n] = true
	}
	for at := 0; at < len(nodes); at++ {
		for _, l := range m.near[nodes[at]] {
			if !live[l.node] {
				live[l.node] = true
				nodes = append(nodes, l.node)
			}
		}
	}
	return nodes
}

// takeOut replaces node k by conductances between its neighbours. It leaves
// the links of k in place, to put it back by.
func (m *mesh) takeOut(k int32, place []int32) {
	sum := 0.0
	for _, l := range m.near[k] {
		sum += l.g
		m.drop(l.node, k)
	}
	for a, from := range m.near[k] {
		list := m.near[from.node]
		for at, l := range list {
			place[l.node] = int32(at + 1)
		}
		for b, to := range m.near[k] {
			if a == b {
				continue
			}
			// The larger first, so that both directions round alike.
			g := max(from.g, to.g) / sum * min(from.g, to.g)
			if at := place[to.node]; at > 0 {
				list[at-1].g += g
			} else {
				list = append(list, link{to.node, g})
			}
		}
		for _, l := range list {
			place[l.node] = 0
		}
		m.near[from.node] = list
	}
}
