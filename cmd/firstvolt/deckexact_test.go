package main

import (
	"bufio"
	"math"
	"math/big"
	"strconv"
	"strings"
	"testing"
)

// digits are the bits of every number of the exact solution.
const digits = 300

// long is a complex number of many digits.
type long struct{ re, im *big.Float }

func number(x float64) *big.Float { return new(big.Float).SetPrec(digits).SetFloat64(x) }

func longOf(re, im float64) long { return long{number(re), number(im)} }

func (a long) add(b long) long {
	return long{number(0).Add(a.re, b.re), number(0).Add(a.im, b.im)}
}

func (a long) sub(b long) long {
	return long{number(0).Sub(a.re, b.re), number(0).Sub(a.im, b.im)}
}

func (a long) mul(b long) long {
	x, y := number(0).Mul(a.re, b.re), number(0).Mul(a.im, b.im)
	u, v := number(0).Mul(a.re, b.im), number(0).Mul(a.im, b.re)
	return long{x.Sub(x, y), u.Add(u, v)}
}

func (a long) over(b long) long {
	n := number(0).Add(number(0).Mul(b.re, b.re), number(0).Mul(b.im, b.im))
	c := a.mul(long{b.re, number(0).Neg(b.im)})
	return long{c.re.Quo(c.re, n), c.im.Quo(c.im, n)}
}

func (a long) zero() bool { return a.re.Sign() == 0 && a.im.Sign() == 0 }

func (a long) size() *big.Float {
	return number(0).Add(number(0).Abs(a.re), number(0).Abs(a.im))
}

func (a long) value() complex128 {
	x, _ := a.re.Float64()
	y, _ := a.im.Float64()
	return complex(x, y)
}

// exact reads a deck of resistors, capacitors, inductors and sources of four
// kinds, and solves its node equations with some 90 digits: the judge where
// ngspice's sixteen do not reach. It knows nothing of the program but the deck.
func exact(t *testing.T, deck string) map[string]complex128 {
	t.Helper()
	var lines [][]string
	hertz := 0.0
	for s := bufio.NewScanner(strings.NewReader(deck)); s.Scan(); {
		f := strings.Fields(s.Text())
		switch {
		case len(f) == 0 || f[0] == "*":
		case f[0] == ".ac":
			hertz, _ = strconv.ParseFloat(f[3], 64)
		case f[0] == ".control":
			s = bufio.NewScanner(strings.NewReader(""))
		case f[0][0] != '.':
			lines = append(lines, f)
		}
	}
	value := func(s string) float64 {
		x, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(deck, err)
		}
		return x
	}
	node := map[string]int{"0": -1}
	at := func(name string) int {
		n, ok := node[name]
		if !ok {
			n = len(node) - 1
			node[name] = n
		}
		return n
	}
	for _, f := range lines {
		at(f[1])
		at(f[2])
		if f[0][0] == 'e' {
			at(f[3])
			at(f[4])
		}
	}
	n := len(node) - 1
	branch := map[string]int{}
	for _, f := range lines {
		if strings.ContainsRune("vel", rune(f[0][0])) {
			branch[f[0]] = n
			n++
		}
	}
	rows := make([]map[int]long, n)
	right := make([]long, n)
	for i := range rows {
		rows[i], right[i] = map[int]long{}, longOf(0, 0)
	}
	put := func(i, j int, v long) {
		if i < 0 || j < 0 {
			return
		}
		if old, ok := rows[i][j]; ok {
			v = v.add(old)
		}
		rows[i][j] = v
	}
	omega := 2 * math.Pi * hertz
	one, less := longOf(1, 0), longOf(-1, 0)
	for _, f := range lines {
		a, b := at(f[1]), at(f[2])
		switch f[0][0] {
		case 'r', 'c':
			y := one.over(longOf(value(f[len(f)-1]), 0))
			if f[0][0] == 'c' {
				y = longOf(0, omega).mul(longOf(value(f[3]), 0))
			}
			put(a, a, y)
			put(b, b, y)
			put(a, b, y.mul(less))
			put(b, a, y.mul(less))
		case 'f':
			k := branch[f[3]]
			put(a, k, longOf(value(f[4]), 0))
			put(b, k, longOf(-value(f[4]), 0))
		default:
			k := branch[f[0]]
			put(a, k, one)
			put(b, k, less)
			put(k, a, one)
			put(k, b, less)
			switch f[0][0] {
			case 'v':
				size, phase := value(f[6]), 0.0
				if len(f) > 7 {
					phase = value(f[7]) * math.Pi / 180
				}
				right[k] = longOf(size*math.Cos(phase), size*math.Sin(phase))
			case 'l':
				put(k, k, longOf(0, -omega).mul(longOf(value(f[3]), 0)))
			case 'e':
				put(k, at(f[3]), longOf(-value(f[5]), 0))
				put(k, at(f[4]), longOf(value(f[5]), 0))
			}
		}
	}
	x := eliminate(rows, right)
	out := map[string]complex128{}
	for name, i := range node {
		if i >= 0 && i < len(x) {
			out[name] = x[i].value()
		}
	}
	return out
}

// eliminate solves by rows, the largest pivot first; an unknown that nothing
// determines is 0.
func eliminate(rows []map[int]long, right []long) []long {
	n := len(rows)
	var order []int // the row that each column was solved with, -1: none
	used := make([]bool, n)
	for k := range n {
		best := -1
		for i, row := range rows {
			if v, ok := row[k]; ok && !used[i] && !v.zero() && (best < 0 || v.size().Cmp(rows[best][k].size()) > 0) {
				best = i
			}
		}
		order = append(order, best)
		if best < 0 {
			continue
		}
		used[best] = true
		for i, row := range rows {
			v, ok := row[k]
			if !ok || used[i] || v.zero() {
				continue
			}
			by := v.over(rows[best][k])
			for j, w := range rows[best] {
				old, ok := row[j]
				if !ok {
					old = longOf(0, 0)
				}
				row[j] = old.sub(by.mul(w))
			}
			delete(row, k)
			right[i] = right[i].sub(by.mul(right[best]))
		}
	}
	x := make([]long, n)
	for k := n - 1; k >= 0; k-- {
		x[k] = longOf(0, 0)
		if order[k] < 0 {
			continue
		}
		sum := right[order[k]]
		for j, w := range rows[order[k]] {
			if j > k {
				sum = sum.sub(w.mul(x[j]))
			}
		}
		x[k] = sum.over(rows[order[k]][k])
	}
	return x
}
