package circuit

import (
	"fmt"
	"math"
	"sync"
)

// layout says which terminals are one net, which nets hang together, and which
// unknown stands for what.
//
// Unknowns are the volts of each net but one of every island, the current of
// every path, and the volts per turn of every core. Currents are unknowns of
// their own so that no small impedance need ever be stamped as a large
// admittance, beside which a leak would lose its digits, and no current taken
// from the difference of two nearly equal volts.
type layout struct {
	net     []int32 // by terminal: the one that stands for its net
	island  []int32 // by terminal: the one that stands for all that arms join
	node    []int32 // by terminal: its unknown; -1 where its net is the zero of its island
	current []int32 // by arm; -1 where it is no path
	core    []int32 // by core; -1 where no winding conducts
	size    int
}

func (m *model) layout() layout {
	n := len(m.c.terminals)
	nets, islands := newSets(n), newSets(n)
	for _, a := range m.arms {
		if a.way == merged {
			nets.join(a.a, a.b)
		}
		if a.way != absent {
			islands.join(a.a, a.b)
		}
	}
	l := layout{
		net: nets, island: islands, node: make([]int32, n),
		current: make([]int32, len(m.arms)), core: make([]int32, len(m.cores)),
	}
	ends := make([]int, n)
	for _, a := range m.arms {
		if a.way == path {
			ends[nets.of(a.a)]++
			ends[nets.of(a.b)]++
		}
	}
	// The zero of an island is its busiest net: most things are near it.
	zero := make([]int32, n)
	for t := range zero {
		zero[t] = -1
	}
	for t := range nets {
		at, i := nets.of(int32(t)), islands.of(int32(t))
		if zero[i] < 0 || ends[at] > ends[zero[i]] {
			zero[i] = at
		}
	}
	next := int32(0)
	number := func() int32 { next++; return next - 1 }
	for t := range l.node {
		if l.node[t] = -1; int(nets[t]) == t && zero[islands[t]] != int32(t) {
			l.node[t] = number()
		}
	}
	for t := range l.node {
		l.node[t] = l.node[nets[t]]
	}
	for k := range l.core {
		l.core[k] = -1
	}
	for i, a := range m.arms {
		if l.current[i] = -1; a.way != path {
			continue
		}
		l.current[i] = number()
		if a.core >= 0 && l.core[a.core] < 0 {
			l.core[a.core] = number()
		}
	}
	l.size = int(next)
	return l
}

// system is a model made ready for any right side. It does not change but for
// the columns it remembers.
type system struct {
	*model
	layout
	scale   []float64 // of each unknown and its equation, powers of two
	factors *factors
	zero    []complex128 // the solution with the sources of the model

	mu      sync.Mutex
	columns map[column][]complex128
	byName  map[string]int32
}

// column names a right side of 1: current drawn from net from and put into
// net to (-1: from or into the zero of the island), or a volt in series in an
// arm (from is -2, to the arm).
type column struct{ from, to int32 }

const inSeries = -2

// hopeless is the condition beyond which refinement cannot be relied on.
const hopeless = 1e14

func (m *model) system() (*system, error) {
	s := &system{model: m, layout: m.layout(), columns: map[column][]complex128{}, byName: map[string]int32{}}
	for i, a := range m.arms {
		if a.way == path && a.z == 0 && a.core < 0 && s.net[a.a] == s.net[a.b] {
			return nil, fmt.Errorf("%s: a source without impedance is shorted: %w", a.name, ErrSingular)
		}
		if _, known := s.byName[a.name]; !known {
			s.byName[a.name] = int32(i)
		}
	}
	s.setScale()
	matrix := s.matrix()
	norm := matrix.norm()
	var err error
	if s.factors, err = matrix.factor(); err != nil {
		return nil, err
	}
	if condition := norm * s.factors.inverseNorm(); !(condition <= hopeless) {
		return nil, fmt.Errorf("condition %.0e: %w", condition, ErrSingular)
	}
	right := make([]complex128, s.size)
	for i, a := range m.arms {
		if at := s.current[i]; at >= 0 {
			right[at] = a.emf
		}
	}
	if s.zero, err = s.solve(right); err != nil {
		return nil, err
	}
	return s, nil
}

// setScale makes every entry of the matrix 1 or less. Above 1 kΩ an arm's own
// entry is then about 1 and the choice of pivots eliminates its current (node
// analysis); below, its volts.
func (s *system) setScale() {
	const volt = 32 // 32² is about 1 kΩ
	s.scale = make([]float64, s.size)
	for i := range s.scale {
		s.scale[i] = volt
	}
	power := func(x float64) float64 { // the power of two at or below x
		_, e := math.Frexp(x)
		return math.Ldexp(1, e-1)
	}
	for i, a := range s.arms {
		if at := s.current[i]; at >= 0 {
			s.scale[at] = power(min(1.0/volt, 1/math.Sqrt(size(a.z))))
		}
	}
	most := make([]float64, len(s.cores))
	for _, a := range s.arms {
		if a.core >= 0 {
			most[a.core] = max(most[a.core], a.turns)
		}
	}
	for k, c := range s.cores {
		if at := s.core[k]; at >= 0 {
			s.scale[at] = power(min(volt/most[k], 1/math.Sqrt(size(c.y))))
		}
	}
}

// matrix is the equations, scaled: of each net the currents that leave it, of
// each path a: V(a) − V(b) − z·I − turns·(volts of a turn) = emf, of each core
// y·(volts of a turn) − Σ turns·I = 0. It is symmetric, and no two arms share
// an entry: nothing is added up, so nothing is rounded away.
func (s *system) matrix() *sparse {
	m := newSparse(s.size)
	put := func(i, j int32, v complex128) {
		if i >= 0 && j >= 0 && v != 0 {
			m.put(i, j, v*complex(s.scale[i], 0)*complex(s.scale[j], 0))
		}
	}
	both := func(i, j int32, v complex128) {
		put(i, j, v)
		put(j, i, v)
	}
	for i, a := range s.arms {
		at := s.current[i]
		if at < 0 {
			continue
		}
		if s.net[a.a] != s.net[a.b] {
			both(at, s.node[a.a], 1)
			both(at, s.node[a.b], -1)
		}
		put(at, at, -a.z)
		if a.core >= 0 {
			both(at, s.core[a.core], complex(-a.turns, 0))
		}
	}
	for k, c := range s.cores {
		put(s.core[k], s.core[k], c.y)
	}
	return m
}

// residual is what is missing from each equation, added up with twice the
// digits from the values of the arms themselves.
func (s *system) residual(right, x []complex128) []complex128 {
	sums := make([]complexSum, s.size)
	for i, v := range right {
		sums[i].add(v)
	}
	for i, a := range s.arms {
		at := s.current[i]
		if at < 0 {
			continue
		}
		if s.net[a.a] != s.net[a.b] {
			if n := s.node[a.a]; n >= 0 {
				sums[n].add(-x[at])
				sums[at].add(-x[n])
			}
			if n := s.node[a.b]; n >= 0 {
				sums[n].add(x[at])
				sums[at].add(x[n])
			}
		}
		sums[at].addProduct(a.z, x[at])
		if a.core >= 0 {
			turns, k := complex(a.turns, 0), s.core[a.core]
			sums[at].addProduct(turns, x[k])
			sums[k].addProduct(turns, x[at])
		}
	}
	for k, c := range s.cores {
		if at := s.core[k]; at >= 0 {
			sums[at].addProduct(-c.y, x[at])
		}
	}
	out := make([]complex128, s.size)
	for i := range sums {
		out[i] = sums[i].value()
	}
	return out
}

// solve answers a right side and refines the answer until the last correction
// is next to nothing, in small unknowns too: a leak beside a short.
func (s *system) solve(right []complex128) ([]complex128, error) {
	const (
		rounds  = 8
		enough  = 1e-9  // of an unknown; what is left after it is smaller by as much again
		ignored = 1e-12 // of the largest unknown: below that an unknown is as good as zero
	)
	x := make([]complex128, s.size)
	rest := right
	for range rounds {
		scaled := make([]complex128, s.size)
		for i, v := range rest {
			scaled[i] = v * complex(s.scale[i], 0)
		}
		step := s.factors.solve(scaled)
		largest, worst := 0.0, 0.0
		for i := range x {
			largest = max(largest, size(x[i])/s.scale[i])
		}
		for i := range x {
			d := step[i] * complex(s.scale[i], 0)
			if !finite(d) {
				return nil, ErrSingular
			}
			worst = max(worst, size(step[i])/(size(x[i])/s.scale[i]+ignored*largest+math.SmallestNonzeroFloat64))
			x[i] += d
		}
		if worst <= enough {
			return x, nil
		}
		rest = s.residual(right, x)
	}
	return nil, fmt.Errorf("the answer does not settle: %w", ErrSingular)
}
