package circuit

import (
	"errors"
	"math/cmplx"
)

// sparse is a square complex matrix kept by rows, only what is not zero.
type sparse struct {
	rows [][]cell
}

type cell struct {
	col int32
	v   complex128
}

// usual is how many entries a row mostly has at most: there is room for them
// from the start.
const usual = 5

func newSparse(n int) *sparse {
	m, room := &sparse{make([][]cell, n)}, make([]cell, n*usual)
	for i := range m.rows {
		m.rows[i] = room[i*usual : i*usual : (i+1)*usual]
	}
	return m
}

// put sets the entry at (i, j), which must be empty.
func (m *sparse) put(i, j int32, v complex128) {
	m.rows[i] = append(m.rows[i], cell{j, v})
}

// norm is the largest sum of sizes along a row; of a symmetric matrix, along a
// column too.
func (m *sparse) norm() float64 {
	largest := 0.0
	for _, row := range m.rows {
		sum := 0.0
		for _, c := range row {
			sum += cmplx.Abs(c.v)
		}
		largest = max(largest, sum)
	}
	return largest
}

// factors is a matrix taken apart into triangles, P·A·Q = L·U, so that every
// further right side costs little.
//
// The next column is the one with fewest entries left, and in it, of the
// entries at least a tenth of the largest, the one whose row is shortest:
// partial pivoting, relaxed by that tenth for the sake of few new entries. The
// factor ten may cost a digit, which the refinement of the answer returns.
type factors struct {
	row, col []int32 // where each step's pivot stood
	pivot    []complex128
	below    [][]cell // L: per step, row and multiplier
	right    [][]cell // U: per step, the rest of the pivot's row
}

// ErrSingular is the error of a circuit that has no answer, or none that can
// be trusted: sources in conflict or shorted without any impedance between,
// resonance without loss, values too far apart for the digits of a number.
var ErrSingular = errors.New("the circuit has no answer that could be trusted")

// threshold is how much smaller than the largest of its column a pivot may be.
const threshold = 0.1

// elimination is a matrix on its way to its factors.
type elimination struct {
	*sparse
	holds            [][]int32 // by column: rows that may have an entry there
	count            []int     // by column: entries in rows still to be done
	rowDone, colDone []bool
	place            []int32 // scratch: 1 + where a column stands in the row being changed
}

func (m *sparse) elimination() *elimination {
	n := len(m.rows)
	e := &elimination{
		sparse: m, holds: make([][]int32, n), count: make([]int, n),
		rowDone: make([]bool, n), colDone: make([]bool, n), place: make([]int32, n),
	}
	entries := 0
	for _, row := range m.rows {
		for _, c := range row {
			e.count[c.col]++
		}
		entries += len(row)
	}
	const more = 3 // that a column comes to have
	room := make([]int32, entries+n*more)
	for j := range e.holds {
		size := e.count[j] + more
		e.holds[j], room = room[:0:size], room[size:]
	}
	for i, row := range m.rows {
		for _, c := range row {
			e.holds[c.col] = append(e.holds[c.col], int32(i))
		}
	}
	return e
}

// factor uses the matrix up.
func (m *sparse) factor() (*factors, error) {
	n := len(m.rows)
	f := &factors{
		row: make([]int32, 0, n), col: make([]int32, 0, n), pivot: make([]complex128, 0, n),
		below: make([][]cell, n), right: make([][]cell, n),
	}
	e := m.elimination()
	for step := range n {
		j := e.column()
		p := e.choose(j)
		if p < 0 {
			return nil, ErrSingular
		}
		pivot, right := e.takeRow(p, j)
		f.row, f.col, f.pivot = append(f.row, p), append(f.col, j), append(f.pivot, pivot)
		f.below[step], f.right[step] = e.clear(j, pivot, right), right
	}
	return f, nil
}

// column is the next column: the one with fewest entries left.
func (e *elimination) column() int32 {
	j := -1
	for k, done := range e.colDone {
		if !done && (j < 0 || e.count[k] < e.count[j]) {
			j = k
		}
	}
	return int32(j)
}

// takeRow takes row p out, and column j with it: their pivot, and the rest of
// the row.
func (e *elimination) takeRow(p, j int32) (pivot complex128, right []cell) {
	right = make([]cell, 0, len(e.rows[p])-1)
	for _, c := range e.rows[p] {
		e.count[c.col]--
		if c.col == j {
			pivot = c.v
		} else {
			right = append(right, c)
		}
	}
	e.rowDone[p], e.colDone[j] = true, true
	return pivot, right
}

// clear takes the pivot's row, each time by a multiplier, from every row that
// has an entry in column j, so that it has none, and lists the multipliers.
func (e *elimination) clear(j int32, pivot complex128, right []cell) []cell {
	below := make([]cell, 0, e.count[j])
	for _, i := range e.holds[j] {
		if e.rowDone[i] {
			continue
		}
		at := e.find(i, j)
		row := e.rows[i]
		by := row[at].v / pivot
		row[at] = row[len(row)-1]
		row = row[:len(row)-1]
		below = append(below, cell{i, by})
		for k, c := range row {
			e.place[c.col] = int32(k + 1)
		}
		for _, c := range right {
			if k := e.place[c.col]; k > 0 {
				row[k-1].v -= by * c.v
				continue
			}
			row = append(row, cell{c.col, -by * c.v})
			e.holds[c.col] = append(e.holds[c.col], i)
			e.count[c.col]++
		}
		for _, c := range row {
			e.place[c.col] = 0
		}
		e.rows[i] = row
	}
	return below
}

// choose is the row of the next pivot in column j, -1 where the column has
// nothing but zeros left.
func (e *elimination) choose(j int32) int32 {
	largest := 0.0
	for _, i := range e.holds[j] {
		if !e.rowDone[i] {
			largest = max(largest, size(e.rows[i][e.find(i, j)].v))
		}
	}
	best := int32(-1)
	if !(largest > 0) { // zeros, or not a number
		return best
	}
	for _, i := range e.holds[j] {
		if !e.rowDone[i] && (best < 0 || len(e.rows[i]) < len(e.rows[best])) &&
			size(e.rows[i][e.find(i, j)].v) >= threshold*largest {
			best = i
		}
	}
	return best
}

// find is where column j stands in row i, which has it.
func (m *sparse) find(i, j int32) int {
	for k := range m.rows[i] {
		if m.rows[i][k].col == j {
			return k
		}
	}
	panic("circuit: an entry was lost")
}

// solve gives x of A·x = b; it changes b.
func (f *factors) solve(b []complex128) []complex128 {
	for step, p := range f.row {
		if t := b[p]; t != 0 {
			for _, c := range f.below[step] {
				b[c.col] -= c.v * t // here col is the row to be changed
			}
		}
	}
	x := make([]complex128, len(b))
	for step := len(b) - 1; step >= 0; step-- {
		t := b[f.row[step]]
		for _, c := range f.right[step] {
			t -= c.v * x[c.col]
		}
		x[f.col[step]] = t / f.pivot[step]
	}
	return x
}

// inverseNorm estimates the norm of the inverse of a symmetric matrix, from
// below and seldom by more than a factor of three: it climbs to a right side
// that makes the answer large (Hager's method, Higham, Accuracy and Stability
// of Numerical Algorithms, algorithm 15.1 in its complex form).
func (f *factors) inverseNorm() float64 {
	n := len(f.pivot)
	x := make([]complex128, n)
	for i := range x {
		x[i] = complex(1/float64(n), 0)
	}
	best, last := 0.0, -1
	for range 5 {
		y := f.solve(x)
		sum := 0.0
		for i, v := range y {
			sum += cmplx.Abs(v)
			// The sign of v, conjugated: the matrix is symmetric, so that its
			// conjugate transpose is solved by conjugating before and after.
			y[i] = 1
			if v != 0 {
				y[i] = cmplx.Conj(v) / complex(cmplx.Abs(v), 0)
			}
		}
		if !(sum > best) && best > 0 {
			break
		}
		best = sum
		z := f.solve(y)
		largest := 0
		for i := range z {
			if cmplx.Abs(z[i]) > cmplx.Abs(z[largest]) {
				largest = i
			}
		}
		if largest == last || n == 0 {
			break
		}
		last = largest
		x = make([]complex128, n)
		x[largest] = 1
	}
	return best
}
