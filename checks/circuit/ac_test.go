package circuit

import (
	"errors"
	"math"
	"math/cmplx"
	"strings"
	"testing"
)

func solved(t testing.TB, freq float64, list ...Element) *Solved {
	t.Helper()
	s, err := New(list).AC(freq, AtLow)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// closeTo compares to a part of the wanted value.
func closeTo(got, want complex128, relative float64) bool {
	return cmplx.Abs(got-want) <= relative*cmplx.Abs(want)
}

func source(name, a, b string, volts complex128, ohms float64) Element {
	return Element{Name: name, A: a, B: b, Conducts: Conducting, R: Exactly(ohms), EMF: volts}
}

func farad(name, a, b string, c float64) Element {
	return Element{Name: name, A: a, B: b, Conducts: Bridging, C: Exactly(c)}
}

func coil(name, a, b string, r, l float64) Element {
	return Element{Name: name, A: a, B: b, Conducts: Conducting, R: Exactly(r), L: Exactly(l)}
}

func winding(name, core, a, b string, volts, r, leakage float64) Element {
	return Element{Name: name, A: a, B: b, Core: core, Law: Winding, Conducts: Conducting,
		R: Exactly(r), L: Exactly(leakage), Turns: Exactly(volts)}
}

func magnetised(e Element, lm, rm float64) Element {
	e.Lm, e.Rm = Exactly(lm), Exactly(rm)
	return e
}

// Each is worked by hand beside it; every number comes from the line above it.
func TestByHand(t *testing.T) {
	const w50, w60 = 2 * math.Pi * 50, 2 * math.Pi * 60
	type ask struct {
		of   string // an element's current, or "a b" for a voltage
		want complex128
	}
	for _, x := range []struct {
		name string
		freq float64
		list []Element
		asks []ask
	}{
		// 240 V / (0.5 + 47.5 Ω) = 5 A; the source carries it from its B to its A.
		{"V over R", 50, []Element{source("V", "h", "n", 240, 0.5), ohm("R", "h", "n", 47.5)},
			[]ask{{"R", 5}, {"V", -5}, {"h n", 237.5}}},
		{"at 0 Hz", 0, []Element{source("V", "h", "n", 240, 0.5), coil("L", "h", "n", 47.5, 10), farad("C", "h", "n", 1)},
			[]ask{{"L", 5}, {"C", 0}}},
		// ωCV: 2π·60 · 10 nF · 120 V = 0.4524 mA, a quarter turn ahead.
		{"current of a capacitor", 60, []Element{source("V", "h", "n", 120, 0), farad("C", "h", "n", 10e-9)},
			[]ask{{"C", complex(0, w60*10e-9*120)}, {"h n", 120}}},
		// V/(R + jωL).
		{"choke", 50, []Element{source("V", "h", "n", 100, 0), coil("L", "h", "n", 200, 10)},
			[]ask{{"L", 100 / complex(200, w50*10)}}},
		// A lossy capacitor: 1 MΩ beside 1 µF.
		{"R beside C", 50, []Element{source("V", "h", "n", 100, 0), {Name: "C", A: "h", B: "n", Conducts: Bridging, R: Exactly(1e6), C: Exactly(1e-6)}},
			[]ask{{"C", complex(1e-4, w50*1e-4)}}},
		// RC divider: out = 1/(1 + jωRC); at ω = 1/RC half the power, 45° behind.
		{"divider at its corner", 1 / (2 * math.Pi), []Element{source("V", "h", "n", 1, 0), ohm("R", "h", "x", 1000), farad("C", "x", "n", 1e-3)},
			[]ask{{"x n", complex(0.5, -0.5)}}},
		// The same, all in one element.
		{"a source with a capacitor of its own", 1 / (2 * math.Pi), []Element{{Name: "V", A: "x", B: "n", Conducts: Conducting, EMF: 1, R: Exactly(1000), C: Exactly(1e-3)}, ohm("R", "x", "n", 1e15)},
			[]ask{{"x n", 1 / (complex(1, 1) + 1e-12)}}},
		// 240 V to 6 V, ideal: 6 Ω looks like 6·40² = 9600 Ω, 25 mA; 1 A outside.
		{"ideal transformer", 50, []Element{source("V", "h", "n", 240, 0),
			winding("P", "T", "h", "n", 240, 0, 0), winding("S", "T", "x", "y", 6, 0, 0), ohm("R", "x", "y", 6)},
			[]ask{{"P", 0.025}, {"S", -1}, {"R", 1}, {"x y", 6}}},
		// Polarity: the secondary the other way about.
		{"turned about", 50, []Element{source("V", "h", "n", 240, 0),
			winding("P", "T", "h", "n", 240, 0, 0), winding("S", "T", "y", "x", 6, 0, 0), ohm("R", "x", "y", 6)},
			[]ask{{"P", 0.025}, {"R", -1}}},
		// Shorted secondary: primary R + ratio²·secondary R = 40 + 100·0.6 =
		// 100 Ω, reactance ω·(L1 + 100·L2); 200 V.
		{"referred winding", 50, []Element{source("V", "h", "n", 200, 0),
			winding("P", "T", "h", "n", 200, 40, 0.1), winding("S", "T", "x", "y", 20, 0.6, 2e-3), wire("w", "x", "y")},
			[]ask{{"P", 200 / complex(100, w50*0.3)}, {"S", -2000 / complex(100, w50*0.3)}, {"w", 2000 / complex(100, w50*0.3)}}},
		// No load: 10 Ω, then the core's 10 H beside 20 kΩ.
		{"magnetising", 50, []Element{source("V", "h", "n", 240, 0),
			magnetised(winding("P", "T", "h", "n", 240, 10, 0), 10, 20e3), winding("S", "T", "x", "y", 12, 0, 0), farad("stray", "y", "n", 1e-10)},
			[]ask{{"P", 240 / (10 + 1/(1/complex(0, w50*10)+1/20e3))}}},
		// The same, given at the secondary: 20² times less.
		{"magnetising, seen from outside", 50, []Element{source("V", "h", "n", 240, 0),
			winding("P", "T", "h", "n", 240, 10, 0), magnetised(winding("S", "T", "x", "y", 12, 0, 0), 10.0/400, 50)},
			[]ask{{"P", 240 / (10 + 1/(1/complex(0, w50*10)+1/20e3))}}},
		// An open winding of 12 V says what the core takes: 20² times more here.
		{"magnetising, given by an open winding", 50, []Element{source("V", "h", "n", 240, 0),
			winding("P", "T", "h", "n", 240, 10, 0), magnetised(winding("S", "T", "x", "y", 12, inf, 0), 10.0/400, 50)},
			[]ask{{"P", 240 / (10 + 1/(1/complex(0, w50*10)+1/20e3))}, {"S", 0}}},
		{"a core that takes nothing", 50, []Element{source("V", "h", "n", 240, 0),
			magnetised(winding("P", "T", "h", "n", 240, 10, 0), inf, inf), winding("S", "T", "x", "y", 12, 0, 0)},
			[]ask{{"P", 0}, {"x y", 12}}},
		{"one winding", 50, []Element{source("V", "h", "n", 100, 0), magnetised(winding("L", "K", "h", "n", 1, 200, 0), 10, 0)},
			[]ask{{"L", 100 / complex(200, w50*10)}}},
		// Loaded, all at once: seen from the primary, load 9·400 and the
		// secondary's 1·400 stand beside the core, behind 30 Ω.
		{"loaded transformer", 50, []Element{source("V", "h", "n", 240, 0),
			magnetised(winding("P", "T", "h", "n", 240, 30, 0), 10, 0), winding("S", "T", "x", "y", 12, 1, 0), ohm("R", "x", "y", 9)},
			[]ask{{"P", 240 / (30 + 1/(1/complex(0, w50*10)+1/4000.0))},
				{"R", 20 * 240 / (1 + 30*(1/complex(0, w50*10)+1/4000.0)) / 4000}}},
		// Two sections in series aiding: 110 + 120 V; 230 V over both, 1:10.
		{"sections", 50, []Element{source("V", "a", "c", 230, 0),
			winding("P1", "T", "a", "b", 110, 0, 0), winding("P2", "T", "b", "c", 120, 0, 0), winding("S", "T", "x", "y", 23, 0, 0), ohm("R", "x", "y", 2.3)},
			[]ask{{"R", 10}, {"P1", 1}, {"a b", 110}}},
		// Three legs: 1 A through 0.2 Ω of neutral lifts it 0.2 V above ground.
		{"three legs", 50, []Element{source("service", "h0", "g", 240, 0), ohm("line", "h0", "h", 0.3), ohm("neutral", "n", "g", 0.2), ohm("protective", "pe", "g", 0.1), ohm("R", "h", "n", 239.5)},
			[]ask{{"R", 1}, {"n pe", 0.2}, {"protective", 0}}},
		// Fuse and wire of exactly 0 Ω: merged, and their currents known still.
		{"through merged parts", 50, []Element{source("V", "h", "n", 240, 0), joint("F", "h", "x"), wire("w", "x", "y"), ohm("R", "y", "n", 24), ohm("Q", "x", "n", 48)},
			[]ask{{"F", 15}, {"w", 10}, {"F", 15}, {"h y", 0}}},
		{"nothing beyond", 50, []Element{source("V", "h", "n", 240, 0), ohm("R", "h", "x", 5), wire("w", "x", "y"), farad("C", "y", "z", 1)},
			[]ask{{"R", 0}, {"w", 0}, {"z n", 240}, {"V", 0}}},
	} {
		t.Run(x.name, func(t *testing.T) {
			s := solved(t, x.freq, x.list...)
			for _, a := range x.asks {
				got, err := s.Current(a.of)
				if from, to, volts := strings.Cut(a.of, " "); volts {
					got, err = s.Voltage(from, to)
				}
				if err != nil || !closeTo(got, a.want, 1e-14) {
					t.Errorf("%s: %v, %v; want %v", a.of, got, err, a.want)
				}
			}
		})
	}
}

func TestACRefuses(t *testing.T) {
	sound := source("V", "h", "n", 10, 1)
	pick := func(change func(*Point)) func(*Element) Point {
		return func(e *Element) Point {
			p := AtLow(e)
			change(&p)
			return p
		}
	}
	for _, x := range []struct {
		name string
		freq float64
		pick func(*Element) Point
		list []Element
		says string
	}{
		{"frequency", -1, AtLow, []Element{sound}, "not a frequency"},
		{"no number for a frequency", math.NaN(), AtLow, []Element{sound}, "not a frequency"},
		{"unsound circuit", 50, AtLow, []Element{sound, sound}, "two elements"},
		{"source not a number", 50, AtLow, []Element{source("V", "h", "n", cmplx.NaN(), 1)}, "not a number"},
		{"R", 50, pick(func(p *Point) { p.R = math.NaN() }), []Element{sound}, "V: NaN Ω"},
		{"L", 50, pick(func(p *Point) { p.L = math.Inf(1) }), []Element{sound}, "V: +Inf H"},
		{"C", 50, pick(func(p *Point) { p.C = -1 }), []Element{sound}, "V: -1 F"},
		{"EMF", 50, pick(func(p *Point) { p.EMF = cmplx.Inf() }), []Element{sound}, "is no source"},
		{"C without an upper end", 50, AtHigh, []Element{sound, {Name: "C", A: "h", B: "n", Conducts: Bridging, C: Anything()}}, "C: +Inf F"},
		{"beyond numbers", 50, AtLow, []Element{sound, ohm("R", "h", "n", 1e40)}, "too extreme"},
		{"winding without volts", 50, AtLow, []Element{sound, winding("P", "T", "h", "n", 0, 1, 0), winding("S", "T", "x", "y", 6, 1, 0)}, "P: its volts are not known"},
		{"winding whose volts are no number", 50, pick(func(p *Point) { p.Turns = math.NaN() }), []Element{winding("P", "T", "h", "n", 5, 1, 0)}, "P: its volts"},
		{"winding at 0 Hz", 0, AtLow, []Element{sound, winding("P", "T", "h", "n", 1, 1, 0)}, "direct current"},
		{"one winding, nothing said of its core", 50, AtLow, []Element{sound, winding("P", "T", "h", "n", 1, 1, 0)}, "core T: one winding alone"},
		{"winding with a capacitance", 50, pick(func(p *Point) { p.C = 1e-9 }), []Element{winding("P", "T", "h", "n", 5, 1, 0)}, "put them beside it"},
		{"magnetising not a number", 50, pick(func(p *Point) { p.Lm = math.NaN() }), []Element{winding("P", "T", "h", "n", 5, 1, 0)}, "no magnetising branch"},
		{"magnetising beyond numbers", 50, pick(func(p *Point) { p.Lm, p.Turns = 1e-310, 1e9 }), []Element{winding("P", "T", "h", "n", 5, 1, 0)}, "too extreme"},
		{"core given twice", 50, AtLow, []Element{sound, magnetised(winding("P", "T", "h", "n", 1, 1, 0), 1, 0), magnetised(winding("S", "T", "x", "y", 1, 1, 0), 0, 5)}, "already"},
		{"shorted ideal source", 50, AtLow, []Element{source("V", "h", "n", 10, 0), wire("w", "h", "n")}, "V: a source without impedance is shorted"},
		{"sources in conflict", 50, AtLow, []Element{source("V", "h", "n", 10, 0), source("W", "h", "n", 11, 0)}, ErrSingular.Error()},
		{"sources of 0 Ω agreeing, but who carries what", 50, AtLow, []Element{source("V", "h", "n", 10, 0), source("W", "h", "n", 10, 0)}, ErrSingular.Error()},
		{"resonance without loss", 1 / (2 * math.Pi), AtLow, []Element{source("V", "h", "n", 1, 0), coil("L", "h", "x", 0, 1), farad("C", "x", "n", 1)}, ErrSingular.Error()},
		{"two windings without resistance beside each other", 50, AtLow, []Element{source("V", "h", "n", 1, 1), winding("P", "T", "h", "n", 10, 0, 0), winding("Q", "T", "h", "n", 10, 0, 0)}, ErrSingular.Error()},
	} {
		t.Run(x.name, func(t *testing.T) {
			s, err := New(x.list).AC(x.freq, x.pick)
			if s != nil || err == nil || !strings.Contains(err.Error(), x.says) {
				t.Errorf("%v, %v; want an error with %q", s, err, x.says)
			}
		})
	}
}

// What floats is said to float; nothing across it is a number.
func TestFloating(t *testing.T) {
	s := solved(t, 50, source("V", "h", "n", 240, 0), winding("P", "T", "h", "n", 240, 1, 0),
		winding("S", "T", "x", "y", 6, 0, 0), ohm("R", "x", "y", 6), ohm("far", "p", "q", 1), ohm("open", "h", "s", inf))
	for _, pair := range [][2]string{{"h", "x"}, {"p", "x"}, {"n", "q"}, {"s", "h"}} {
		v, err := s.Voltage(pair[0], pair[1])
		if !errors.Is(err, ErrFloating) || !cmplx.IsNaN(v) || s.Joined(pair[0], pair[1]) {
			t.Errorf("%v: %v, %v", pair, v, err)
		}
		if z, err := s.Impedance(pair[0], pair[1]); !errors.Is(err, ErrFloating) || !cmplx.IsNaN(z) {
			t.Errorf("impedance of %v: %v, %v", pair, z, err)
		}
	}
	if got, want := s.Islands(), "h n|p q|s|x y"; joinIslands(got) != want {
		t.Errorf("islands %v, want %s", got, want)
	}
	if v, err := s.Voltage("x", "y"); err != nil || !s.Joined("x", "y") || !closeTo(v, 6*9600.0/9601, 1e-14) {
		t.Errorf("within an island: %v, %v", v, err)
	}

	// A hand between two islands closes no loop; a second one does.
	one, err := s.With(Branch{A: "h", B: "x", Z: 2000})
	if err != nil {
		t.Fatal(err)
	}
	if i, err := one.Added(0); !errors.Is(err, ErrFloating) || !cmplx.IsNaN(i) {
		t.Errorf("current into what floats: %v, %v", i, err)
	}
	if v, err := one.Voltage("h", "x"); err != nil || cmplx.Abs(v) > 1e-13 {
		t.Errorf("but now it is at the same potential: %v, %v", v, err)
	}
	two, err := one.With(Branch{A: "n", B: "y", Z: 1000}, Branch{A: "q", B: "y"})
	if err != nil {
		t.Fatal(err)
	}
	// 240 V and 6 V against each other, less what the winding's 1 Ω takes:
	// hand 2 kΩ, 1 kΩ, the source next to nothing.
	i, err := two.Added(0)
	if err != nil || !closeTo(i, (240-6)/3000.0, 1e-3) {
		t.Errorf("through both: %v, %v", i, err)
	}
	if got := joinIslands(two.Islands()); got != "h n p q x y|s" {
		t.Errorf("islands %s", got)
	}
}

func joinIslands(all [][]string) string {
	var parts []string
	for _, list := range all {
		parts = append(parts, strings.Join(list, " "))
	}
	return strings.Join(parts, "|")
}

func TestDividedCurrents(t *testing.T) {
	s := solved(t, 50, source("V", "h", "n", 240, 0), joint("F", "h", "x"), joint("G", "h", "x"), joint("H", "x", "y"), ohm("R", "y", "n", 24))
	for _, name := range []string{"F", "G"} {
		if i, err := s.Current(name); !errors.Is(err, ErrDivided) || !cmplx.IsNaN(i) {
			t.Errorf("%s: %v, %v", name, i, err)
		}
	}
	if i, err := s.Current("H"); err != nil || !closeTo(i, 10, 1e-14) {
		t.Errorf("H: %v, %v", i, err)
	}
	bridged, err := s.With(Branch{A: "x", B: "y"})
	if err != nil {
		t.Fatal(err)
	}
	if i, err := bridged.Current("H"); !errors.Is(err, ErrDivided) || !cmplx.IsNaN(i) {
		t.Errorf("H bridged: %v, %v", i, err)
	}
	if i, err := bridged.Added(0); !errors.Is(err, ErrDivided) || !cmplx.IsNaN(i) {
		t.Errorf("the bridge: %v, %v", i, err)
	}
	for _, ask := range []func() (complex128, error){
		func() (complex128, error) { return s.Current("none") },
		func() (complex128, error) { return s.Voltage("none", "h") },
		func() (complex128, error) { return s.Voltage("h", "none") },
		func() (complex128, error) { return s.Impedance("h", "none") },
		func() (complex128, error) { return s.Added(0) },
		func() (complex128, error) { return bridged.Added(1) },
	} {
		if x, err := ask(); err == nil || !cmplx.IsNaN(x) {
			t.Errorf("%v, %v of what is not there", x, err)
		}
	}
}
