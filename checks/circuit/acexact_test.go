package circuit

import (
	"errors"
	"math"
	"math/big"
	"math/cmplx"
	"math/rand/v2"
	"strconv"
	"testing"
)

// fraction is a complex number of two exact fractions.
type fraction struct{ re, im *big.Rat }

func exactly(x complex128) fraction {
	return fraction{new(big.Rat).SetFloat64(real(x)), new(big.Rat).SetFloat64(imag(x))}
}

func (x fraction) plus(y fraction) fraction {
	return fraction{new(big.Rat).Add(x.re, y.re), new(big.Rat).Add(x.im, y.im)}
}

func (x fraction) minus(y fraction) fraction {
	return fraction{new(big.Rat).Sub(x.re, y.re), new(big.Rat).Sub(x.im, y.im)}
}

func (x fraction) times(y fraction) fraction {
	mul := func(a, b *big.Rat) *big.Rat { return new(big.Rat).Mul(a, b) }
	return fraction{new(big.Rat).Sub(mul(x.re, y.re), mul(x.im, y.im)), new(big.Rat).Add(mul(x.re, y.im), mul(x.im, y.re))}
}

func (x fraction) over(y fraction) fraction {
	norm := new(big.Rat).Add(new(big.Rat).Mul(y.re, y.re), new(big.Rat).Mul(y.im, y.im))
	z := x.times(fraction{y.re, new(big.Rat).Neg(y.im)})
	return fraction{z.re.Quo(z.re, norm), z.im.Quo(z.im, norm)}
}

func (x fraction) zero() bool { return x.re.Sign() == 0 && x.im.Sign() == 0 }

func (x fraction) rounded() complex128 {
	re, _ := x.re.Float64()
	im, _ := x.im.Float64()
	return complex(re, im)
}

// exactAC solves a circuit in fractions by the equations of its nodes, with
// admittances stamped, the volts per turn of a core as one node more and the
// current of a source without impedance as one unknown more. It merges, orders
// and eliminates in its own way. Windings must have some impedance. False where
// there is no answer.
func exactAC(list []Element, omega float64) (volts map[string]fraction, currents map[string]fraction, ok bool) {
	group, part := map[string]string{}, map[string]string{}
	find := func(m map[string]string, t string) string {
		for m[t] != "" && m[t] != t {
			t = m[t]
		}
		return t
	}
	w, none := exactly(complex(omega, 0)), exactly(0)
	j := exactly(1i)
	value := func(x float64) fraction { return exactly(complex(x, 0)) }
	isShort := func(e Element) bool {
		return e.Core == "" && e.Conducts != Bridging && e.R.Low == 0 && e.L.Low == 0 && e.EMF == 0
	}
	isOpen := func(e Element) bool {
		return math.IsInf(e.R.Low, 1) || e.Conducts == Bridging && e.C.Low == 0 && e.R.Low == 0
	}
	terminals := map[string]bool{}
	for _, e := range list {
		terminals[e.A], terminals[e.B] = true, true
		if a, b := find(group, e.A), find(group, e.B); isShort(e) && a != b {
			group[a] = b
		}
		if a, b := find(part, e.A), find(part, e.B); !isOpen(e) && a != b {
			part[a] = b
		}
	}
	index := map[string]int{}
	grounded := map[string]bool{}
	for t := range terminals {
		if p := find(part, t); find(group, t) == t {
			if !grounded[p] {
				grounded[p] = true
				index[t] = -1
				continue
			}
			index[t] = 0
		}
	}
	n := 0
	number := func() int { n++; return n - 1 }
	for t, i := range index {
		if i == 0 {
			index[t] = number()
		}
	}
	ideal := map[string]int{}
	core := map[string]int{}
	for _, e := range list {
		switch {
		case e.Core != "" && !isOpen(e):
			if _, known := core[e.Core]; !known {
				core[e.Core] = number()
			}
		case e.EMF != 0 && e.R.Low == 0 && e.L.Low == 0:
			ideal[e.Name] = number()
		}
	}
	rows := make([][]fraction, n)
	for i := range rows {
		rows[i] = make([]fraction, n+1)
		for k := range rows[i] {
			rows[i][k] = none
		}
	}
	add := func(i, k int, v fraction) {
		if i >= 0 && k >= 0 {
			rows[i][k] = rows[i][k].plus(v)
		}
	}
	// flow adds f times the unknown (or the known side) to what leaves a and enters b.
	at := func(t string) int { return index[find(group, t)] }
	flow := func(e Element, k int, f fraction) {
		add(at(e.A), k, f)
		add(at(e.B), k, none.minus(f))
	}
	series := func(e Element) fraction { return value(e.R.Low).plus(j.times(w).times(value(e.L.Low))) }
	for _, e := range list {
		if isShort(e) || isOpen(e) {
			continue
		}
		if k, yes := ideal[e.Name]; yes {
			flow(e, k, value(1))
			add(k, at(e.A), value(1))
			add(k, at(e.B), value(-1))
			add(k, n, exactly(e.EMF))
		} else if e.Conducts != Bridging || e.R.Low > 0 {
			y := value(1).over(series(e))
			if at(e.A) >= 0 {
				flow(e, at(e.A), y)
			}
			if at(e.B) >= 0 {
				flow(e, at(e.B), none.minus(y))
			}
			flow(e, n, y.times(exactly(e.EMF)))
			if e.Core != "" {
				// I = y·(V − turns·u); the core: Σ turns·I − y(core)·u = 0.
				k, turns := core[e.Core], value(e.Turns.Low)
				yt := y.times(turns)
				flow(e, k, none.minus(yt))
				add(k, at(e.A), yt)
				add(k, at(e.B), none.minus(yt))
				add(k, k, none.minus(yt.times(turns)))
				if e.Lm.Low > 0 {
					add(k, k, none.minus(turns.times(turns).over(j.times(w).times(value(e.Lm.Low)))))
				}
				if e.Rm.Low > 0 {
					add(k, k, none.minus(turns.times(turns).over(value(e.Rm.Low))))
				}
			}
		}
		y := j.times(w).times(value(e.C.Low))
		if at(e.A) >= 0 {
			flow(e, at(e.A), y)
		}
		if at(e.B) >= 0 {
			flow(e, at(e.B), none.minus(y))
		}
	}
	x, ok := eliminateExactly(rows)
	if !ok {
		return nil, nil, false
	}
	volts, currents = map[string]fraction{}, map[string]fraction{}
	for t := range terminals {
		if volts[t] = none; at(t) >= 0 {
			volts[t] = x[at(t)]
		}
	}
	for _, e := range list {
		v := volts[e.A].minus(volts[e.B])
		switch k, yes := ideal[e.Name]; {
		case isShort(e):
			continue
		case isOpen(e):
			currents[e.Name] = none
			continue
		case yes:
			currents[e.Name] = x[k]
		case e.Conducts != Bridging || e.R.Low > 0:
			u := v.minus(exactly(e.EMF))
			if e.Core != "" {
				u = u.minus(value(e.Turns.Low).times(x[core[e.Core]]))
			}
			currents[e.Name] = u.over(series(e))
		default:
			currents[e.Name] = none
		}
		currents[e.Name] = currents[e.Name].plus(j.times(w).times(value(e.C.Low)).times(v))
	}
	return volts, currents, true
}

// eliminateExactly solves rows with the known side last.
func eliminateExactly(rows [][]fraction) ([]fraction, bool) {
	n := len(rows)
	for k := range n {
		at := k
		for at < n && rows[at][k].zero() {
			at++
		}
		if at == n {
			return nil, false
		}
		rows[k], rows[at] = rows[at], rows[k]
		for i := k + 1; i < n; i++ {
			if rows[i][k].zero() {
				continue
			}
			f := rows[i][k].over(rows[k][k])
			for c := k; c <= n; c++ {
				if !rows[k][c].zero() {
					rows[i][c] = rows[i][c].minus(f.times(rows[k][c]))
				}
			}
		}
	}
	x := make([]fraction, n)
	for k := n - 1; k >= 0; k-- {
		x[k] = rows[k][n]
		for c := k + 1; c < n; c++ {
			if !rows[k][c].zero() {
				x[k] = x[k].minus(rows[k][c].times(x[c]))
			}
		}
		x[k] = x[k].over(rows[k][k])
	}
	return x, true
}

// kinds of element in a random circuit.
type mixture struct {
	low, high float64 // decades of Ω
	freq      float64
	reactive  bool
	windings  int
}

// acNetwork is a random circuit that hangs together, with windings of one core
// and their loads as further islands.
func acNetwork(r *rand.Rand, nodes int, m mixture) []Element {
	ohms := func() float64 { return math.Pow(10, m.low+(m.high-m.low)*r.Float64()) }
	w := 2 * math.Pi * m.freq
	name := func(n int) string { return "n" + strconv.Itoa(n) }
	count := 0
	element := func(a, b string) Element {
		count++
		e := ohm("e"+strconv.Itoa(count), a, b, ohms())
		kind := r.IntN(10)
		if !m.reactive {
			kind = min(kind, 6)
		}
		switch kind {
		case 0:
			e.R = Interval{}
		case 1, 2:
			e.EMF = cmplx.Rect(200*r.Float64(), 2*math.Pi*r.Float64())
		case 7:
			e.L = Exactly(ohms() / w)
		case 8:
			e = farad(e.Name, a, b, 1/(w*ohms()))
		case 9:
			e.C = Exactly(1 / (w * ohms()))
		}
		return e
	}
	// An ideal source on a node of its own, so that none is in conflict.
	list := []Element{source("service", name(0), "gnd", 230, 0)}
	for n := 1; n < nodes; n++ {
		list = append(list, element(name(n), name(r.IntN(n))))
	}
	for range r.IntN(2 * nodes) {
		list = append(list, element(name(r.IntN(nodes)), name(r.IntN(nodes))))
	}
	list = append(list, ohm("return", name(r.IntN(nodes-1)+1), "gnd", ohms()))
	for i := range m.windings {
		a, b := "w"+strconv.Itoa(i), "v"+strconv.Itoa(i)
		if i == 0 {
			a, b = name(r.IntN(nodes)), "gnd"
		}
		e := winding("winding"+strconv.Itoa(i), "T", a, b, 1+300*r.Float64(), ohms(), ohms()/w)
		if i == 0 {
			e.Lm, e.Rm = Exactly(ohms()/w), Exactly(ohms())
		} else {
			list = append(list, ohm("load"+strconv.Itoa(i), a, b, ohms()))
		}
		list = append(list, e)
	}
	return list
}

// agreesAC compares every current and voltage of a solution with the exact
// ones, each to a part of itself, or of the largest where it is next to zero
// beside that.
func agreesAC(t testing.TB, s *Solved, list []Element, omega, relative, beside float64) {
	t.Helper()
	volts, currents, ok := exactAC(list, omega)
	if !ok {
		t.Fatalf("an answer where there is none:\n%+v", list)
	}
	most, mostVolts := 0.0, 0.0
	for _, x := range currents {
		most = max(most, cmplx.Abs(x.rounded()))
	}
	for _, v := range volts {
		mostVolts = max(mostVolts, cmplx.Abs(v.rounded()))
	}
	for name, x := range currents {
		want := x.rounded()
		got, err := s.Current(name)
		if err != nil || !(cmplx.Abs(got-want) <= relative*cmplx.Abs(want)+beside*most) {
			t.Fatalf("current of %s %v (%v), exactly %v, largest %g, of\n%+v", name, got, err, want, most, list)
		}
	}
	for a, va := range volts {
		for b, vb := range volts {
			if !s.Joined(a, b) {
				continue
			}
			want := va.minus(vb).rounded()
			got, err := s.Voltage(a, b)
			if err != nil || !(cmplx.Abs(got-want) <= relative*cmplx.Abs(want)+1e-15*mostVolts) {
				t.Fatalf("voltage of %s to %s %v (%v), exactly %v, largest %g, of\n%+v", a, b, got, err, want, mostVolts, list)
			}
		}
	}
}

func TestACAgainstExactArithmetic(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	for _, x := range []struct {
		name             string
		mixture          mixture
		relative, beside float64
	}{
		// Fifteen decades of resistance: no leak is lost beside a short.
		{"milliohms beside teraohms", mixture{low: -3, high: 12, freq: 50}, 1e-12, 1e-24},
		// With reactances of both kinds what a value is good for is lost by as
		// much as it resonates.
		{"what a bench meets", mixture{low: -2, high: 8, freq: 60, reactive: true}, 1e-11, 1e-18},
		{"coupled", mixture{low: -2, high: 6, freq: 50, reactive: true, windings: 3}, 1e-11, 1e-18},
	} {
		t.Run(x.name, func(t *testing.T) {
			answered := 0
			for range 60 {
				list := acNetwork(r, 2+r.IntN(4), x.mixture)
				s, err := New(list).AC(x.mixture.freq, AtLow)
				if errors.Is(err, ErrSingular) {
					continue
				}
				if err != nil {
					t.Fatal(err)
				}
				answered++
				agreesAC(t, s, list, 2*math.Pi*x.mixture.freq, x.relative, x.beside)
			}
			if answered < 55 {
				t.Errorf("only %d of 60 were answered", answered)
			}
		})
	}
}
