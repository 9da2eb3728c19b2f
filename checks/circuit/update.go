package circuit

import (
	"math/cmplx"
	"slices"
)

// update is a change to a system that keeps its factorisation: the solution
// with the change is the old one plus an amount of each branch's column, with
// amounts such that every branch obeys its own law (Woodbury's formula, told
// in volts and currents). The amount of a branch between terminals is its
// current, of one in series the volts across it.
//
// Islands that branches join shift against each other until no net current
// enters any of them; the shifts are unknowns beside the amounts.
type update struct {
	sys     *system
	added   []Branch
	place   []int32 // by added: its column; -1 where it changes nothing
	opened  []int32 // arms taken out of line altogether
	columns []response
	branch  []int32       // by column: which of added
	islands sets          // by island of sys: what the branches make of them, fully compressed
	offset  map[int32]int // by island of sys: where its shift is; the rest have none
	matrix  [][]complex128
	order   []int // of the rows of matrix, by elimination
	amount  answer
}

// answer is the amounts of the columns, then the shifts.
type answer []complex128

func (a answer) shift(u *update, island int32) complex128 {
	if k, moved := u.offset[island]; moved {
		return a[k]
	}
	return 0
}

func (u *update) shift(island int32) complex128 { return u.amount.shift(u, island) }

// response is the answer of every unknown to a unit at one branch: a column of
// the inverse, or the difference of two.
type response struct{ plus, minus []complex128 }

func (s response) at(i int32) complex128 {
	var x complex128
	if i >= 0 && s.plus != nil {
		x = s.plus[i]
	}
	if i >= 0 && s.minus != nil {
		x -= s.minus[i]
	}
	return x
}

// bulk is the size of what at adds up.
func (s response) bulk(i int32) float64 {
	return size(response{plus: s.plus}.at(i)) + size(response{minus: s.minus}.at(i))
}

// remembered solves the right side of a column once.
func (s *system) remembered(c column, right func([]complex128)) ([]complex128, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if x, known := s.columns[c]; known {
		return x, nil
	}
	b := make([]complex128, s.size)
	right(b)
	x, err := s.solve(b)
	if err == nil {
		s.columns[c] = x
	}
	return x, err
}

// between answers to 1 A through a branch from terminal a to b: drawn from a,
// put into b. The columns of single nets serve every pair, unless too much is
// lost in their difference, far from the zero of the island.
func (s *system) between(a, b int32) (response, error) {
	n, m := s.net[a], s.net[b]
	if n == m {
		return response{}, nil
	}
	alone := func(n int32) ([]complex128, error) {
		if s.node[n] < 0 {
			return nil, nil
		}
		return s.remembered(column{-1, n}, func(b []complex128) { b[s.node[n]] = 1 })
	}
	minus, err := alone(n)
	if err != nil {
		return response{}, err
	}
	plus, err := alone(m)
	if err != nil {
		return response{}, err
	}
	const tooNear = 1e-3
	both := response{plus, minus}
	if i, j := s.node[n], s.node[m]; i < 0 || j < 0 || s.island[a] != s.island[b] ||
		size(both.at(i)-both.at(j)) >= tooNear*(both.bulk(i)+both.bulk(j)) {
		return both, nil
	}
	if n > m { // one column for both directions
		x, err := s.between(b, a)
		return response{x.minus, x.plus}, err
	}
	x, err := s.remembered(column{n, m}, func(b []complex128) { b[s.node[n]], b[s.node[m]] = -1, 1 })
	return response{plus: x}, err
}

// series answers to 1 V in the line of an arm that is a path.
func (s *system) series(arm int32) (response, error) {
	x, err := s.remembered(column{inSeries, arm}, func(b []complex128) { b[s.current[arm]] = 1 })
	return response{plus: x}, err
}

// drop is the voltage between two terminals in a solution, islands unshifted.
func (s *system) drop(at func(int32) complex128, a, b int32) complex128 {
	return at(s.node[a]) - at(s.node[b])
}

// update works a change out, or gives nil where only a fresh solution will do.
func (s *system) update(added []Branch) *update {
	u := &update{
		sys: s, added: added, place: make([]int32, len(added)),
		islands: newSets(len(s.island)), offset: map[int32]int{},
	}
	for i, b := range added {
		if u.place[i] = -1; !u.admit(i, b) {
			return nil
		}
	}
	if u.parts() {
		return nil
	}
	for i := range u.islands {
		u.islands.of(int32(i))
	}
	for _, i := range u.branch {
		if b := added[i]; b.In == "" {
			from, to := u.ends(b)
			for _, k := range []int32{s.island[from], s.island[to]} {
				if _, known := u.offset[k]; !known && u.islands[k] != k {
					u.offset[k] = len(u.columns) + len(u.offset)
				}
			}
		}
	}
	if !u.eliminate(u.equations()) {
		return nil
	}
	u.amount = u.answer(func(i int32) complex128 {
		if i < 0 {
			return 0
		}
		return s.zero[i]
	}, true, -1, -1)
	if u.amount == nil {
		return nil
	}
	return u
}

// ends are the terminals of a branch between two.
func (u *update) ends(b Branch) (from, to int32) {
	return u.sys.c.number[b.A], u.sys.c.number[b.B]
}

// admit finds the column of a branch; false where it has none to be updated
// by.
func (u *update) admit(i int, b Branch) bool {
	var x response
	var err error
	switch s := u.sys; {
	case b.In != "":
		arm := s.byName[b.In]
		switch s.arms[arm].way {
		case absent:
			return true
		case merged:
			return false
		}
		if cmplx.IsInf(b.Z) {
			if slices.Contains(u.opened, arm) {
				return true
			}
			u.opened = append(u.opened, arm)
		}
		x, err = s.series(arm)
	case cmplx.IsInf(b.Z):
		return true
	default:
		from, to := u.ends(b)
		if s.net[from] == s.net[to] && size(b.Z) <= nothing {
			return b.E == 0 // else a shorted source
		}
		u.islands.join(s.island[from], s.island[to])
		x, err = s.between(from, to)
	}
	if err != nil {
		return false
	}
	u.place[i] = int32(len(u.columns))
	u.columns, u.branch = append(u.columns, x), append(u.branch, int32(i))
	return true
}

// parts tells whether taking arms out of line leaves something floating.
func (u *update) parts() bool {
	if len(u.opened) == 0 {
		return false
	}
	rest := newSets(len(u.sys.net))
	for i, a := range u.sys.arms {
		if a.way != absent && !slices.Contains(u.opened, int32(i)) {
			rest.join(a.a, a.b)
		}
	}
	return slices.ContainsFunc(u.opened, func(i int32) bool {
		return rest.of(u.sys.arms[i].a) != rest.of(u.sys.arms[i].b)
	})
}

// equations is one row for each column, the law of its branch, and one for
// each island with a shift, that its branches' currents add up to nothing;
// beside it the size of what was added up to make each entry.
func (u *update) equations() (a [][]complex128, bulk [][]float64) {
	n := len(u.columns) + len(u.offset)
	a, bulk = make([][]complex128, n), make([][]float64, n)
	for i := range a {
		a[i], bulk[i] = make([]complex128, n), make([]float64, n)
	}
	put := func(i, j int, v complex128, of float64) {
		a[i][j] += v
		bulk[i][j] += of
	}
	for row, i := range u.branch {
		b := u.added[i]
		if b.In != "" {
			at := u.sys.current[u.sys.byName[b.In]]
			for col, c := range u.columns {
				if cmplx.IsInf(b.Z) {
					put(row, col, c.at(at), c.bulk(at))
				} else {
					put(row, col, -b.Z*c.at(at), size(b.Z)*c.bulk(at))
				}
			}
			if !cmplx.IsInf(b.Z) {
				put(row, row, 1, 1)
			}
			continue
		}
		from, to := u.ends(b)
		x, y := u.sys.node[from], u.sys.node[to]
		for col, c := range u.columns {
			put(row, col, c.at(x)-c.at(y), c.bulk(x)+c.bulk(y))
		}
		put(row, row, -b.Z, size(b.Z))
		if u.sys.island[from] == u.sys.island[to] {
			continue
		}
		if k, moved := u.offset[u.sys.island[from]]; moved {
			put(row, k, 1, 1)
			put(k, row, 1, 1)
		}
		if k, moved := u.offset[u.sys.island[to]]; moved {
			put(row, k, -1, 1)
			put(k, row, -1, 1)
		}
	}
	return a, bulk
}

// lost is the part of what was added up below which a sum has lost too many
// digits: of sixteen, at least ten are left.
const lost = 1e-6

// eliminate takes the equations apart, in place, rows chosen by the largest
// entry against the rest of their row, but those of islands first: their
// entries are 1, -1 and 0 and stay so, and what enters an island then is what
// leaves it, to the last digit of these currents. It keeps account of the size of what
// every entry is a sum of: a pivot far smaller than that has lost its digits,
// and false says so.
func (u *update) eliminate(a [][]complex128, bulk [][]float64) bool {
	u.matrix = a
	weight := make([]float64, len(a))
	for i, row := range a {
		u.order = append(u.order, i)
		for _, v := range row {
			weight[i] = max(weight[i], size(v))
		}
	}
	for k := range u.order {
		best := -1
		for r := k; r < len(u.order); r++ {
			i := u.order[r]
			if i >= len(u.columns) && a[i][k] != 0 {
				best = r
				break
			}
			if best < 0 || size(a[i][k])*weight[u.order[best]] > size(a[u.order[best]][k])*weight[i] {
				best = r
			}
		}
		u.order[k], u.order[best] = u.order[best], u.order[k]
		p := u.order[k]
		if !(size(a[p][k]) > 0 && size(a[p][k]) >= lost*bulk[p][k]) || !finite(a[p][k]) {
			return false
		}
		for _, i := range u.order[k+1:] {
			if a[i][k] == 0 {
				continue
			}
			by := a[i][k] / a[p][k]
			a[i][k] = by
			for j := k + 1; j < len(a); j++ {
				a[i][j] -= by * a[p][j]
				bulk[i][j] += size(by) * bulk[p][j]
			}
		}
	}
	return true
}

// answer gives the amounts for a solution without the change: with the
// branches' own sources or without, and with 1 A drawn from one terminal and
// put into another (-1: none). Nil where they are not numbers.
func (u *update) answer(before func(int32) complex128, live bool, drawn, put int32) answer {
	right := make([]complex128, len(u.matrix))
	for row, i := range u.branch {
		b := u.added[i]
		var e complex128
		if live {
			e = b.E
		}
		switch {
		case b.In == "":
			from, to := u.ends(b)
			right[row] = e - u.sys.drop(before, from, to)
		case cmplx.IsInf(b.Z):
			right[row] = -before(u.sys.current[u.sys.byName[b.In]])
		default:
			right[row] = e + b.Z*before(u.sys.current[u.sys.byName[b.In]])
		}
	}
	for island, k := range u.offset {
		if drawn >= 0 && u.sys.island[drawn] == island {
			right[k]--
		}
		if put >= 0 && u.sys.island[put] == island {
			right[k]++
		}
	}
	n := len(right)
	x := make(answer, n)
	for k, p := range u.order {
		x[k] = right[p]
		for j := range k {
			x[k] -= u.matrix[p][j] * x[j]
		}
	}
	for k := n - 1; k >= 0; k-- {
		for j := k + 1; j < n; j++ {
			x[k] -= u.matrix[u.order[k]][j] * x[j]
		}
		if x[k] /= u.matrix[u.order[k]][k]; !finite(x[k]) {
			return nil
		}
	}
	return x
}
