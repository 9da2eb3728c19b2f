package circuit

import (
	"errors"
	"math"
	"math/cmplx"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
)

func changed(t testing.TB, s *Solved, branches ...Branch) *Solved {
	t.Helper()
	out, err := s.With(branches...)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// house is a service with its three legs, a fuse, a transformer and a chassis
// that only a capacitor and insulation join to anything.
func house() []Element {
	return []Element{
		source("service", "hot", "earth", 240, 0.25),
		ohm("neutral line", "neutral", "earth", 0.25),
		ohm("protective line", "ground", "earth", 0.5),
		ohm("fuse", "hot", "fused", 0.1),
		magnetised(winding("primary", "T", "fused", "neutral", 240, 24, 0), 20, 0),
		winding("secondary", "T", "heater1", "heater2", 6, 0.03, 0),
		ohm("heaters", "heater1", "heater2", 3),
		farad("filter", "fused", "chassis", 10e-9),
		ohm("insulation", "chassis", "neutral", 1e9),
	}
}

func TestChangesByHand(t *testing.T) {
	s := solved(t, 60, house()...)
	const w = 2 * math.Pi * 60
	get := func(x complex128, err error) complex128 {
		t.Helper()
		if err != nil {
			t.Error(err)
		}
		return x
	}
	// What the transformer takes drops next to nothing in the lines: about
	// 240 V through 10 nF, then 2 kΩ of a person.
	person := changed(t, s, Branch{A: "chassis", B: "earth", Z: 2000})
	if i := get(person.Added(0)); !closeTo(i, 240/(2000+1/complex(0, w*10e-9)), 0.01) {
		t.Errorf("person %v", i)
	}
	// A bonded chassis takes the current from the person: 0.5 Ω beside 2 kΩ.
	bonded := changed(t, person, Branch{A: "chassis", B: "ground"})
	if hand, bond := get(bonded.Added(0)), get(bonded.Added(1)); !closeTo(hand/bond, 0.5/2000, 1e-9) {
		t.Errorf("person %v beside a bond %v", hand, bond)
	}
	// Breakdown onto the bonded chassis: 240 V less than what the set's own
	// current drops, over 0.25 + 0.1 + 0.5 Ω.
	short := changed(t, bonded, Branch{A: "fused", B: "chassis"})
	if i := get(short.Current("fuse")); !closeTo(i, 240/0.85, 0.01) {
		t.Errorf("fault current %v", i)
	}
	// The fuse out: nothing in it, and the set is dead.
	out := changed(t, short, Branch{In: "fuse", Z: cmplx.Inf()})
	if i, j := get(out.Current("fuse")), get(out.Added(0)); i != 0 || cmplx.Abs(j) > 1e-12 {
		t.Errorf("fuse out: %v in it, %v in the person", i, j)
	}
	// Open circuit and driving point of the chassis: 240 V behind 10 nF.
	if v, z := get(s.Voltage("chassis", "earth")), get(s.Impedance("chassis", "earth")); !closeTo(v, 240, 0.02) || !closeTo(z, 1/complex(0, w*10e-9), 0.02) {
		t.Errorf("chassis: %v behind %v", v, z)
	}
	if z := get(s.Impedance("ground", "earth")); !closeTo(z, 0.5, 1e-14) {
		t.Errorf("protective conductor %v", z)
	}
	if z := get(bonded.Impedance("chassis", "ground")); z != 0 && cmplx.Abs(z) > 1e-12 {
		t.Errorf("over a bond %v", z)
	}
	// A far smaller one than without the change is not a difference of two.
	if z := get(changed(t, s, Branch{A: "chassis", B: "earth", Z: 1e-4}).Impedance("chassis", "earth")); !closeTo(z, 1/(1e4+1/get(s.Impedance("chassis", "earth"))), 1e-13) {
		t.Errorf("well bonded: %v", z)
	}
	// A source twice as strong, a worse joint, an element taken out and put in
	// again by nothing.
	double := changed(t, s, Branch{In: "service", E: 240})
	if a, b := get(s.Current("heaters")), get(double.Current("heaters")); !closeTo(b, 2*a, 1e-13) {
		t.Errorf("%v became %v with the source doubled", a, b)
	}
	worse := changed(t, s, Branch{In: "protective line", Z: 9.5})
	if z := get(worse.Impedance("ground", "earth")); !closeTo(z, 10, 1e-13) {
		t.Errorf("worse joint: %v", z)
	}
	// A second bond beside the first shares with it: 10 beside 0.5 Ω.
	if z := get(changed(t, s, Branch{A: "ground", B: "earth", Z: 10}).Impedance("ground", "earth")); !closeTo(z, 5/10.5, 1e-13) {
		t.Errorf("two bonds: %v", z)
	}
	if i := get(changed(t, s, Branch{A: "chassis", B: "earth", Z: cmplx.Inf()}).Added(0)); i != 0 {
		t.Errorf("through no connection: %v", i)
	}
}

func TestWithRefuses(t *testing.T) {
	s := solved(t, 60, append(house(), source("second", "hot", "earth", 240, 0))...)
	for _, x := range []struct {
		branch Branch
		says   string
	}{
		{Branch{A: "hot", B: "nowhere"}, `no terminal "nowhere"`},
		{Branch{A: "", B: "hot"}, `no terminal ""`},
		{Branch{In: "none", Z: 1}, `no element "none"`},
		{Branch{In: "fuse", A: "hot"}, "either"},
		{Branch{A: "hot", B: "earth", Z: cmplx.NaN()}, "not numbers"},
		{Branch{A: "chassis", B: "earth", E: cmplx.Inf()}, "not numbers"},
		{Branch{A: "hot", B: "earth"}, ErrSingular.Error()},
		{Branch{A: "hot", B: "hot", E: 1}, ErrSingular.Error()},
		{Branch{A: "chassis", B: "earth", Z: 1e40}, "too extreme"},
	} {
		got, err := s.With(x.branch)
		if got != nil || err == nil || !strings.Contains(err.Error(), x.says) {
			t.Errorf("%+v: %v, want an error with %q", x.branch, err, x.says)
		}
	}
}

// anyBranches is one to four changes to a random circuit.
func anyBranches(r *rand.Rand, list []Element, m mixture) []Branch {
	var terminals []string
	for t := range New(list).number {
		terminals = append(terminals, t)
	}
	slices.Sort(terminals)
	ohms := func() complex128 {
		x := math.Pow(10, m.low+(m.high-m.low)*r.Float64())
		if m.reactive && r.IntN(3) == 0 {
			return complex(x, -x*r.Float64())
		}
		return complex(x, 0)
	}
	var all []Branch
	for range 1 + r.IntN(4) {
		b := Branch{A: terminals[r.IntN(len(terminals))], B: terminals[r.IntN(len(terminals))]}
		if r.IntN(3) == 0 {
			b = Branch{In: list[r.IntN(len(list))].Name}
		}
		switch r.IntN(5) {
		case 0: // a short, or nothing in series
		case 1:
			b.Z = cmplx.Inf()
		case 2:
			b.Z, b.E = ohms(), complex(100*r.Float64(), 0)
		default:
			b.Z = ohms()
		}
		all = append(all, b)
	}
	return all
}

// sameAnswers compares two solutions of one change, and their errors. What a
// change leaves of a current is as good as the current before it, and as what
// a rounded volt drives through the element.
func sameAnswers(t *testing.T, a, b *Solved, list []Element, branches []Branch, relative float64) {
	t.Helper()
	most := 0.0
	both := func(what string, ask func(*Solved) (complex128, error), floor float64) {
		t.Helper()
		x, errX := ask(a)
		y, errY := ask(b)
		if (errX == nil) != (errY == nil) || errors.Is(errX, ErrFloating) != errors.Is(errY, ErrFloating) {
			t.Fatalf("%s: %v by update, %v afresh, with %+v of\n%+v", what, errX, errY, branches, list)
		}
		if errX == nil && !(cmplx.Abs(x-y) <= relative*cmplx.Abs(y)+floor) {
			t.Fatalf("%s: %v by update, %v afresh, with %+v of\n%+v", what, x, y, branches, list)
		}
	}
	for _, e := range list {
		for _, s := range []*Solved{b, {origin: b.origin, sys: b.origin}} {
			if x, err := s.Current(e.Name); err == nil {
				most = max(most, cmplx.Abs(x))
			}
		}
	}
	for _, e := range list {
		both("current of "+e.Name, func(s *Solved) (complex128, error) { return s.Current(e.Name) }, relative*1e-4*(most+230*admittance(e)))
		both("voltage of "+e.Name, func(s *Solved) (complex128, error) { return s.Voltage(e.A, e.B) }, relative*1e-3*230)
		both("voltage against ground", func(s *Solved) (complex128, error) { return s.Voltage(e.A, "gnd") }, relative*1e-3*230)
		if z, err := b.Impedance(e.A, "gnd"); err == nil {
			both("impedance of "+e.A, func(s *Solved) (complex128, error) { return s.Impedance(e.A, "gnd") }, relative*(cmplx.Abs(z)+1e-3))
		}
	}
	for i := range branches {
		both("branch "+strconv.Itoa(i), func(s *Solved) (complex128, error) { return s.Added(i) }, relative*1e-4*most)
	}
	if x, y := joinIslands(a.Islands()), joinIslands(b.Islands()); x != y {
		t.Fatalf("islands %s by update, %s afresh, with %+v of\n%+v", x, y, branches, list)
	}
}

// admittance is what an element's impedance passes at least, 0 of a short: its
// current is that of others.
func admittance(e Element) float64 {
	if e.Conducts == Bridging || e.R.Low == 0 {
		return 0
	}
	return 1 / e.R.Low
}

func TestUpdateEqualsFresh(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 14))
	for _, m := range []mixture{
		{low: -1, high: 6, freq: 60, windings: 3},
		{low: -1, high: 6, freq: 50, windings: 2, reactive: true},
	} {
		updated, refused := 0, 0
		for range 300 {
			list := acNetwork(r, 2+r.IntN(10), m)
			s, err := New(list).AC(m.freq, AtLow)
			if err != nil {
				t.Fatal(err)
			}
			branches := anyBranches(r, list, m)
			fresh, err := s.origin.fresh(branches)
			u := s.origin.update(branches)
			switch {
			case err != nil && u != nil:
				t.Fatalf("an update of what has no answer (%v): %+v of\n%+v", err, branches, list)
			case err != nil:
				refused++
			case u != nil:
				updated++
				sameAnswers(t, &Solved{origin: s.origin, sys: s.origin, added: branches, small: u}, fresh, list, branches, 1e-9)
			}
			if err != nil {
				continue
			}
			// One at a time comes to the same.
			steps := s
			for _, b := range branches {
				if steps, err = steps.With(b); err != nil {
					break // singular on the way, as a short that a later change takes out
				}
			}
			if err == nil {
				sameAnswers(t, steps, fresh, list, branches, 1e-9)
			}
		}
		if updated < 150 || refused > 60 {
			t.Errorf("%d of 300 updated, %d without an answer", updated, refused)
		}
	}
}

// Where an update cannot be trusted a fresh solution takes its place.
func TestFallsBack(t *testing.T) {
	const tiny = 1e-8
	list := append(house(), ohm("strap", "chassis", "strapped", tiny),
		ohm("aerial", "earth", "far", 1e9), ohm("coil", "far", "end", 0.1))
	s := solved(t, 60, list...)
	for _, x := range []struct {
		name     string
		branches []Branch
		fresh    bool
	}{
		{"a short", []Branch{{A: "fused", B: "ground"}}, false},
		{"a short far from everything", []Branch{{A: "far", B: "end"}}, false},
		{"a source made ideal", []Branch{{In: "service", Z: -0.25}, {A: "chassis", B: "earth", Z: 2000}}, false},
		// 10 nΩ apart beside a short: their columns differ in the eleventh digit.
		{"two shorts next to each other", []Branch{{A: "fused", B: "chassis"}, {A: "chassis", B: "ground"}, {A: "strapped", B: "ground"}}, true},
		{"the same short twice", []Branch{{A: "fused", B: "chassis"}, {A: "chassis", B: "fused"}}, true},
		{"an element taken out, and its part floats", []Branch{{In: "protective line", Z: cmplx.Inf()}, {A: "fused", B: "chassis"}}, true},
	} {
		if u := s.origin.update(x.branches); (u == nil) != x.fresh {
			t.Errorf("%s: fresh %t", x.name, u == nil)
		}
		if _, err := s.With(x.branches...); err != nil {
			t.Errorf("%s: %v", x.name, err)
		}
	}
	shorts := changed(t, s, Branch{A: "fused", B: "chassis"}, Branch{A: "chassis", B: "ground", Z: tiny}, Branch{A: "strapped", B: "ground"})
	first, err1 := shorts.Added(1)
	second, err2 := shorts.Added(2)
	total, err3 := shorts.Current("protective line")
	if err := errors.Join(err1, err2, err3); err != nil {
		t.Fatal(err)
	}
	// Two ways of 10 nΩ side by side share the current evenly.
	if !closeTo(first, total/2, 1e-9) || !closeTo(second, total/2, 1e-9) {
		t.Errorf("%v and %v of %v", first, second, total)
	}

	// Part of a net can only be taken out afresh.
	merged := solved(t, 60, append(house(), joint("clip", "hot", "meter"), ohm("lamp", "meter", "neutral", 240))...)
	if merged.origin.update([]Branch{{In: "clip", Z: 1}}) != nil {
		t.Error("a merged joint updated")
	}
	if i, err := changed(t, merged, Branch{In: "clip", Z: cmplx.Inf()}, Branch{A: "chassis", B: "earth", Z: 1}).Current("lamp"); err != nil || i != 0 {
		t.Errorf("lamp behind an open clip: %v, %v", i, err)
	}
}

// Taking out the only way to something parts the circuit; one of two ways
// does not, both do.
func TestParts(t *testing.T) {
	s := solved(t, 60, house()...)
	for opened, want := range map[string]bool{"": false, "protective line": true, "filter": false, "filter|insulation": true, "primary|fuse": false, "primary|fuse|filter": true, "heaters": false} {
		u := update{sys: s.sys}
		for _, name := range strings.Split(opened, "|") {
			if name != "" {
				u.opened = append(u.opened, s.sys.byName[name])
			}
		}
		if got := u.parts(); got != want {
			t.Errorf("%s taken out: %t", opened, got)
		}
	}
}

// What floats keeps its own small currents to the last digit when one end of
// it is held on to the mains: not even a rounding of 240 V leaks into it.
func TestNothingLeaksIntoAnIsland(t *testing.T) {
	for k := range 40 {
		load := 50 + 1.37*float64(k)
		s := solved(t, 50, source("V", "h", "n", 240, 31), ohm("load", "h", "n", load), ohm("stub", "n", "far", 1),
			source("cell", "p", "q", 1e-12, 29), ohm("little", "p", "q", load), ohm("stump", "q", "end", 1))
		before, err1 := s.Current("little")
		for _, b := range []Branch{{A: "h", B: "p"}, {A: "p", B: "h", Z: 1e-3}, {A: "h", B: "p", E: 7}} {
			after, err2 := changed(t, s, Branch{A: "h", B: "n", Z: 11}, b, Branch{In: "load", Z: 3}).Current("little")
			if err1 != nil || err2 != nil || !closeTo(after, before, 1e-15) {
				t.Errorf("%v became %v with %+v; %v %v", before, after, b, err1, err2)
			}
		}
	}
}

// An answer must not depend on who asks at the same time.
func TestManyAsk(t *testing.T) {
	s := solved(t, 60, house()...)
	want, err := changed(t, solved(t, 60, house()...), Branch{A: "chassis", B: "earth", Z: 2000}).Added(0)
	if err != nil {
		t.Fatal(err)
	}
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() {
			for _, to := range []string{"earth", "ground", "neutral", "earth"} {
				x, err := s.With(Branch{A: "chassis", B: to, Z: 2000})
				if err != nil {
					t.Error(err)
					return
				}
				if i, err := x.Added(0); err != nil || to == "earth" && i != want {
					t.Errorf("%s: %v, %v", to, i, err)
				}
			}
		})
	}
	all.Wait()
}
