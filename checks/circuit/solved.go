package circuit

import (
	"errors"
	"fmt"
	"math/cmplx"
	"slices"
	"strings"
	"sync"
)

// Solved is a circuit at one frequency with its volts and currents: as AC
// found it, or with changes. It may be asked by several goroutines at once.
// Volts and currents are rms where sources are; an answer that comes with an
// error is not a number, so that no comparison holds for it.
type Solved struct {
	origin *system // as AC made it; every change starts there
	sys    *system // what the answers come from: origin, or solved afresh
	added  []Branch
	arms   []int32 // of each added, its arm in a fresh sys; -1: in series, or none
	small  *update // the change on top of sys; nil where there is none

	once  sync.Once
	all   []edge // what edges lists
	alone []bool // by edge: no loop leads through it
}

// ErrFloating is the error of a question across parts of the circuit that
// nothing joins: no voltage is determined between them. It is also the error
// of asking for the current in an added branch that alone joins two parts, for
// that nothing would flow is a statement about what was left out of the
// circuit, more than about the circuit.
var ErrFloating = errors.New("nothing joins the two sides, no voltage between them is determined")

// ErrDivided is the error of asking for a current that divides over parallel
// ways of exactly 0 Ω.
var ErrDivided = errors.New("the current divides over parallel ways without resistance, how is not determined")

// unknown is the value of one unknown.
func (s *Solved) unknown(i int32) complex128 {
	if i < 0 {
		return 0
	}
	x := s.sys.zero[i]
	if s.small != nil {
		for k, c := range s.small.columns {
			x += s.small.amount[k] * c.at(i)
		}
	}
	return x
}

// volts is the potential of a terminal against whatever is the zero of all
// that hangs together with it.
func (s *Solved) volts(t int32) complex128 {
	v := s.unknown(s.sys.node[t])
	if s.small != nil {
		v += s.small.shift(s.sys.island[t])
	}
	return v
}

// islandOf stands for all that hangs together with a terminal.
func (s *Solved) islandOf(t int32) int32 {
	i := s.sys.island[t]
	if s.small != nil {
		i = s.small.islands[i]
	}
	return i
}

// pair is two terminals as numbers; it is an error not to know one.
func (s *Solved) pair(a, b string) (int32, int32, error) {
	i, hasA := s.sys.c.number[a]
	j, hasB := s.sys.c.number[b]
	switch {
	case !hasA:
		return 0, 0, fmt.Errorf("no terminal %q", a)
	case !hasB:
		return 0, 0, fmt.Errorf("no terminal %q", b)
	}
	return i, j, nil
}

// Voltage is the voltage of a against b.
func (s *Solved) Voltage(a, b string) (complex128, error) {
	i, j, err := s.pair(a, b)
	if err != nil {
		return cmplx.NaN(), err
	}
	if s.islandOf(i) != s.islandOf(j) {
		return cmplx.NaN(), fmt.Errorf("%s, %s: %w", a, b, ErrFloating)
	}
	if s.sys.net[i] == s.sys.net[j] {
		return 0, nil
	}
	return s.volts(i) - s.volts(j), nil
}

// Current is the current through an element, from its A to its B. Through one
// that lies in no loop it is exactly 0.
func (s *Solved) Current(element string) (complex128, error) {
	i, known := s.sys.byName[element]
	if !known {
		return cmplx.NaN(), fmt.Errorf("no element %q", element)
	}
	return s.through(i)
}

// Added is the current through the branch of that number among all that With
// has added, in their order and counted from 0; from its A to its B, or
// through the element it is in series with.
func (s *Solved) Added(i int) (complex128, error) {
	if i < 0 || i >= len(s.added) {
		return cmplx.NaN(), fmt.Errorf("no branch %d was added", i)
	}
	b := s.added[i]
	switch {
	case b.In != "":
		return s.Current(b.In)
	case cmplx.IsInf(b.Z):
		return 0, nil
	case s.bridges()[s.edgeOf(i)]:
		return cmplx.NaN(), fmt.Errorf("%s, %s: %w", b.A, b.B, ErrFloating)
	case s.small == nil:
		return s.through(s.arms[i])
	}
	if at := s.small.place[i]; at >= 0 {
		return s.small.amount[at], nil
	}
	return cmplx.NaN(), fmt.Errorf("%s, %s: %w", b.A, b.B, ErrDivided) // 0 Ω within one net
}

// edgeOf is which of edges an added branch between terminals is.
func (s *Solved) edgeOf(i int) int {
	if s.small == nil {
		return int(s.arms[i])
	}
	return len(s.sys.arms) + i
}

// through is the current through an arm.
func (s *Solved) through(i int32) (complex128, error) {
	a := s.sys.arms[i]
	switch {
	case a.way == absent || s.opened(i) || s.bridges()[i]:
		return 0, nil
	case a.way == path:
		return s.unknown(s.sys.current[i]), nil
	}
	// Part of a net: what the rest of its net on the side of A takes away.
	side := newSets(len(s.sys.net))
	for k, other := range s.edges() {
		if other.short && int32(k) != i {
			side.join(other.a, other.b)
		}
	}
	if side.of(a.a) == side.of(a.b) {
		return cmplx.NaN(), fmt.Errorf("%s: %w", a.name, ErrDivided)
	}
	var sum complex128
	for k, other := range s.edges() {
		if other.short || other.open || s.bridges()[k] {
			continue
		}
		from, to := side.of(other.a) == side.of(a.a), side.of(other.b) == side.of(a.a)
		if from == to {
			continue
		}
		x := other.amount
		if k < len(s.sys.arms) {
			x = s.unknown(s.sys.current[k])
		}
		if from {
			sum -= x
		} else {
			sum += x
		}
	}
	return sum, nil
}

// opened tells whether a change has put an open end in series with an arm.
func (s *Solved) opened(i int32) bool {
	return s.small != nil && slices.Contains(s.small.opened, i)
}

// edge is an arm or an added branch to those who ask for structure only.
type edge struct {
	a, b   int32
	short  bool       // within a net
	open   bool       // no way at all
	amount complex128 // current of an added branch
}

// edges are the arms, then the added branches that are not among them.
func (s *Solved) edges() []edge {
	s.structure()
	return s.all
}

// bridges marks the edges that lie in no loop, so that nothing flows in them.
func (s *Solved) bridges() []bool {
	s.structure()
	return s.alone
}

// structure finds the edges and which of them lie in no loop, once.
func (s *Solved) structure() {
	s.once.Do(func() {
		s.all = s.listEdges()
		s.alone = inNoLoop(s.all, len(s.sys.net))
	})
}

func (s *Solved) listEdges() []edge {
	all := make([]edge, 0, len(s.sys.arms)+len(s.added))
	for i, a := range s.sys.arms {
		all = append(all, edge{a: a.a, b: a.b, short: a.way == merged, open: a.way == absent || s.opened(int32(i))})
	}
	if s.small == nil {
		return all
	}
	for i, b := range s.added {
		e := edge{open: b.In != "" || cmplx.IsInf(b.Z)}
		if !e.open {
			e.a, e.b = s.sys.c.number[b.A], s.sys.c.number[b.B]
			if at := s.small.place[i]; at >= 0 {
				e.amount = s.small.amount[at]
			} else {
				e.short = true
			}
		}
		all = append(all, e)
	}
	return all
}

// inNoLoop marks the edges whose removal parts the graph: depth first, each
// node with the lowest place that its branches lead back to.
func inNoLoop(edges []edge, nodes int) []bool {
	near := listAt(nodes, func(edge func(at, i int32)) {
		for i, e := range edges {
			if !e.open && e.a != e.b {
				edge(e.a, int32(i))
				edge(e.b, int32(i))
			}
		}
	})
	alone := make([]bool, len(edges))
	depth := make([]int, nodes) // order of visit; 0: not visited
	count := 0
	var visit func(at, via int32) int
	visit = func(at, via int32) int {
		count++
		depth[at] = count
		low := count
		for _, i := range near.at(at) {
			if i == via {
				continue
			}
			next := edges[i].a + edges[i].b - at
			if depth[next] > 0 {
				low = min(low, depth[next])
				continue
			}
			back := visit(next, i)
			alone[i] = back > depth[at]
			low = min(low, back)
		}
		return low
	}
	for t := range nodes {
		if depth[t] == 0 {
			visit(int32(t), -1)
		}
	}
	return alone
}

// Joined tells whether a voltage is determined between two terminals; one that
// the circuit does not know is joined to nothing.
func (s *Solved) Joined(a, b string) bool {
	i, j, err := s.pair(a, b)
	return err == nil && s.islandOf(i) == s.islandOf(j)
}

// Islands lists the parts of the circuit that float relative to each other,
// each with its terminals, all sorted. A terminal that nothing joins is an
// island of its own.
func (s *Solved) Islands() [][]string {
	by := map[int32][]int32{}
	for t := range s.sys.net {
		i := s.islandOf(int32(t))
		by[i] = append(by[i], int32(t))
	}
	all := make([][]string, 0, len(by))
	for _, list := range by {
		all = append(all, s.sys.c.sorted(list))
	}
	slices.SortFunc(all, func(a, b []string) int { return strings.Compare(a[0], b[0]) })
	return all
}
