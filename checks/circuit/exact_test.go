package circuit

import (
	"math"
	"math/big"
	"math/rand/v2"
	"strconv"
	"testing"
)

// branch is one conductance of a network given to the exact solver.
type branch struct {
	a, b string
	ohms float64
}

// exact is the driving-point resistance between plus and minus by plain
// Gaussian elimination of the node equations in fractions of whole numbers: no
// rounding until the end. It merges, orders and eliminates in its own way, so
// that it shares nothing with what it checks. The potentials are by terminal,
// with plus at 1 V; nil where nothing joins the probes.
func exact(branches []branch, plus, minus string) (*big.Rat, map[string]*big.Rat) {
	group := map[string]string{plus: plus, minus: minus}
	find := func(t string) string {
		if _, ok := group[t]; !ok {
			group[t] = t
		}
		for group[t] != t {
			t = group[t]
		}
		return t
	}
	for _, b := range branches {
		if b.ohms == 0 {
			group[find(b.a)] = find(b.b)
		} else {
			find(b.a)
			find(b.b)
		}
	}
	p, m := find(plus), find(minus)
	if p == m {
		return new(big.Rat), nil
	}
	live := map[string]bool{p: true}
	for grown := true; grown; {
		grown = false
		for _, b := range branches {
			if x, y := find(b.a), find(b.b); !math.IsInf(b.ohms, 1) && live[x] != live[y] {
				live[x], live[y], grown = true, true, true
			}
		}
	}
	if !live[m] {
		return nil, nil
	}
	index := map[string]int{}
	for t := range live {
		if t != p && t != m {
			index[t] = len(index)
		}
	}
	n := len(index)
	rows := make([][]*big.Rat, n) // node equations, the known side last
	for i := range rows {
		rows[i] = make([]*big.Rat, n+1)
		for j := range rows[i] {
			rows[i][j] = new(big.Rat)
		}
	}
	conductance := func(b branch) *big.Rat { return new(big.Rat).Inv(new(big.Rat).SetFloat64(b.ohms)) }
	solved := func(b branch) bool {
		return b.ohms > 0 && !math.IsInf(b.ohms, 1) && live[find(b.a)] && find(b.a) != find(b.b)
	}
	for _, b := range branches {
		if !solved(b) {
			continue
		}
		g := conductance(b)
		for _, e := range [2][2]string{{find(b.a), find(b.b)}, {find(b.b), find(b.a)}} {
			i, inner := index[e[0]]
			if !inner {
				continue
			}
			rows[i][i].Add(rows[i][i], g)
			if j, also := index[e[1]]; also {
				rows[i][j].Sub(rows[i][j], g)
			} else if e[1] == p {
				rows[i][n].Add(rows[i][n], g)
			}
		}
	}
	for k := range n {
		at := k
		for rows[at][k].Sign() == 0 {
			at++
		}
		rows[k], rows[at] = rows[at], rows[k]
		for i := range n {
			if i == k || rows[i][k].Sign() == 0 {
				continue
			}
			f := new(big.Rat).Quo(rows[i][k], rows[k][k])
			for j := k; j <= n; j++ {
				rows[i][j].Sub(rows[i][j], new(big.Rat).Mul(f, rows[k][j]))
			}
		}
	}
	volts := map[string]*big.Rat{}
	for t := range group {
		switch r := find(t); {
		case r == p:
			volts[t] = big.NewRat(1, 1)
		case r == m:
			volts[t] = new(big.Rat)
		case live[r]:
			volts[t] = new(big.Rat).Quo(rows[index[r]][n], rows[index[r]][index[r]])
		}
	}
	current := new(big.Rat)
	for _, b := range branches {
		if !solved(b) || (find(b.a) == p) == (find(b.b) == p) {
			continue
		}
		drop := new(big.Rat).Sub(volts[b.a], volts[b.b])
		current.Add(current, drop.Mul(drop.Abs(drop), conductance(b)))
	}
	return current.Inv(current), volts
}

// agrees tells whether got is want within a relative error, compared exactly.
func agrees(got float64, want *big.Rat, relative float64) bool {
	if want == nil {
		return math.IsInf(got, 1)
	}
	if math.IsInf(got, 0) || math.IsNaN(got) {
		return false
	}
	d := new(big.Rat).Sub(new(big.Rat).SetFloat64(got), want)
	limit := new(big.Rat).Mul(want, new(big.Rat).SetFloat64(relative))
	return d.Abs(d).Cmp(limit) <= 0
}

// anyNetwork is a random network of n nodes and that many elements, of values
// from 1e-4 Ω to 1e12 Ω, some of them exactly 0 Ω, some open, some parallel.
func anyNetwork(r *rand.Rand, nodes, elements int) []Element {
	var list []Element
	for i := range elements {
		a, b := "n"+strconv.Itoa(r.IntN(nodes)), "n"+strconv.Itoa(r.IntN(nodes))
		e := ohm("e"+strconv.Itoa(i), a, b, math.Pow(10, -4+16*r.Float64()))
		switch r.IntN(12) {
		case 0:
			e = wire(e.Name, a, b)
		case 1:
			e.R = Interval{inf, inf}
		case 2:
			e.Conducts = Bridging
		case 3:
			e = leak(e.Name, a, b, 0, 0) // a capacitor
		}
		list = append(list, e)
	}
	return list
}

// branches is what the exact solver is given of a network in which every R is
// exact.
func branches(list []Element) []branch {
	var all []branch
	for _, e := range list {
		if e.Conducts != OneWay && (e.Conducts != Bridging || e.R.Low > 0) {
			all = append(all, branch{e.A, e.B, e.R.Low})
		}
	}
	return all
}

func TestAgainstExactArithmetic(t *testing.T) {
	const allowed = 1e-12 // asked is 1e-9; without subtraction it is far better
	r := rand.New(rand.NewPCG(1, 2))
	joined := 0
	for range 400 {
		nodes := 2 + r.IntN(9)
		list := anyNetwork(r, nodes, 1+r.IntN(3*nodes))
		got, err := New(list, "n0", "n1").Resistance([]string{"n0"}, []string{"n1"})
		if err != nil {
			t.Fatal(err)
		}
		want, _ := exact(branches(list), "n0", "n1")
		if !agrees(got.R.Low, want, allowed) || !agrees(got.R.High, want, allowed) {
			t.Fatalf("%v, exactly %v, of\n%+v", got.R, want, list)
		}
		if want != nil && want.Sign() > 0 {
			joined++
		}
	}
	if joined < 150 {
		t.Errorf("only %d networks had something to solve", joined)
	}
}

// The bounds with valves hold whatever the valves are forward: each is given a
// resistance or none, and the network with ideal backward blocking is solved by
// trying every combination of conducting and blocking for the one that is
// consistent. With next to nothing in their way, the lower bound is met.
func TestValvesAgainstExactArithmetic(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	met, blocked, sharp := 0, 0, 0
	for round := range 400 {
		nodes := 3 + r.IntN(4)
		list := anyNetwork(r, nodes, 1+r.IntN(2*nodes))
		if round%2 == 0 { // of one size, so that many valves matter at once
			for i := range list {
				list[i] = ohm(list[i].Name, list[i].A, list[i].B, float64(1+r.IntN(20)))
			}
		}
		for i := range 1 + r.IntN(6) {
			list = append(list, valve("d"+strconv.Itoa(i), "n"+strconv.Itoa(r.IntN(nodes)), "n"+strconv.Itoa(r.IntN(nodes))))
		}
		got, err := New(list, "n0", "n1").Resistance([]string{"n0"}, []string{"n1"})
		if err != nil {
			t.Fatal(err)
		}
		for try := range 4 {
			forward := map[string]float64{}
			for _, e := range list {
				switch {
				case e.Conducts != OneWay:
				case try == 0:
					forward[e.Name] = 1e-40 // beside 1e-4 Ω: a short
				case r.IntN(4) == 0:
					forward[e.Name] = inf
				default:
					forward[e.Name] = math.Pow(10, -4+16*r.Float64())
				}
			}
			want, found := valves(list, forward)
			if !found {
				t.Fatalf("no consistent combination of valves in\n%+v", list)
			}
			const rounding = 1e-12
			switch {
			case want == nil:
				blocked++
				if !math.IsInf(got.R.High, 1) {
					t.Fatalf("%v, but open is possible with %v in\n%+v", got.R, forward, list)
				}
				if try == 0 && !math.IsInf(got.R.Low, 1) {
					t.Fatalf("%v, but nothing can conduct in\n%+v", got.R, list)
				}
			default:
				met++
				x, _ := want.Float64()
				if !(got.R.Low <= x*(1+rounding) && x <= got.R.High*(1+rounding)) {
					t.Fatalf("%v, but %g is possible with %v in\n%+v", got.R, x, forward, list)
				}
				if try == 0 && !near(got.R.Low, x, rounding) && x > 1e-30 {
					t.Fatalf("lower bound %g, but never below %g in\n%+v", got.R.Low, x, list)
				}
				if try == 0 && got.R.Low < got.R.High*(1-rounding) {
					sharp++
				}
			}
		}
	}
	if met < 200 || blocked < 50 || sharp < 30 {
		t.Errorf("too few of a kind: %d joined, %d open, %d in which a valve counts", met, blocked, sharp)
	}
}

// valves solves a network in which every OneWay has the given resistance from
// A to B and blocks from B to A.
func valves(list []Element, forward map[string]float64) (*big.Rat, bool) {
	var ways []Element
	for _, e := range list {
		if e.Conducts == OneWay && !math.IsInf(forward[e.Name], 1) {
			ways = append(ways, e)
		}
	}
	for on := range 1 << len(ways) {
		all := branches(list)
		for i, e := range ways {
			if on>>i&1 == 1 {
				all = append(all, branch{e.A, e.B, forward[e.Name]})
			}
		}
		ohms, volts := exact(all, "n0", "n1")
		if consistent(ways, on, ohms, volts, all) {
			return ohms, true
		}
	}
	return nil, false
}

// consistent tells whether every conducting valve is driven forward or not at
// all, and every blocking one backward or not at all. Where the probes are not
// joined, plus and all that it joins are at 1 V and minus at 0 V; what floats
// must find some potential, which is looked for between the two.
func consistent(ways []Element, on int, ohms *big.Rat, volts map[string]*big.Rat, all []branch) bool {
	if ohms != nil && ohms.Sign() == 0 {
		return true
	}
	if volts == nil { // open: no way along branches, forward through blocked valves
		volts = map[string]*big.Rat{}
		spread(volts, all, "n0", big.NewRat(1, 1))
		spread(volts, all, "n1", new(big.Rat))
	}
	// Islands take the highest potential that drives them.
	for changed := true; changed; {
		changed = false
		for i, e := range ways {
			from, to := volts[e.A], volts[e.B]
			if on>>i&1 == 0 && from != nil && from.Sign() > 0 && to == nil {
				spread(volts, all, e.B, from)
				changed = true
			}
		}
	}
	for i, e := range ways {
		a, b := volts[e.A], volts[e.B]
		if a == nil {
			a = new(big.Rat)
		}
		if b == nil {
			b = new(big.Rat)
		}
		if d := a.Cmp(b); on>>i&1 == 1 && d < 0 || on>>i&1 == 0 && d > 0 {
			return false
		}
	}
	return true
}

// spread gives everything that branches join to a terminal its potential.
func spread(volts map[string]*big.Rat, all []branch, from string, v *big.Rat) {
	volts[from] = v
	for grown := true; grown; {
		grown = false
		for _, b := range all {
			if math.IsInf(b.ohms, 1) {
				continue
			}
			for _, e := range [2][2]string{{b.a, b.b}, {b.b, b.a}} {
				if volts[e[0]] == v && volts[e[1]] == nil {
					volts[e[1]] = v
					grown = true
				}
			}
		}
	}
}
