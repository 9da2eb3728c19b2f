package circuit

import (
	"math"
	"slices"
	"strings"
	"testing"
)

var inf = math.Inf(1)

func ohm(name, a, b string, r float64) Element {
	return Element{Name: name, A: a, B: b, Conducts: Conducting, R: Exactly(r)}
}

func span(name, a, b string, low, high float64) Element {
	return Element{Name: name, A: a, B: b, Conducts: Conducting, R: Interval{low, high}}
}

func wire(name, a, b string) Element { return Element{Name: name, A: a, B: b} }

func joint(name, a, b string) Element { return Element{Name: name, A: a, B: b, Conducts: Joint} }

func leak(name, a, b string, low, high float64) Element {
	return Element{Name: name, A: a, B: b, Conducts: Bridging, R: Interval{low, high}}
}

func valve(name, a, b string) Element { return Element{Name: name, A: a, B: b, Conducts: OneWay} }

func near(got, want, relative float64) bool {
	return got == want || math.Abs(got-want) <= relative*math.Abs(want)
}

// Hand arithmetic throughout; the bridges and the ladder are the usual
// exercises of circuit textbooks, worked here by the rule named beside each.
func TestResistance(t *testing.T) {
	wheatstone := func(r1, r2, r3, r4, r5 float64) []Element {
		return []Element{ohm("R1", "p", "l", r1), ohm("R2", "p", "r", r2), ohm("R3", "l", "m", r3), ohm("R4", "r", "m", r4), ohm("R5", "l", "r", r5)}
	}
	for _, x := range []struct {
		name      string
		elements  []Element
		low, high float64
		open      bool
		unknown   bool
		used      string
	}{
		{"series", []Element{ohm("R1", "p", "x", 3), ohm("R2", "x", "m", 4)}, 7, 7, false, false, "R1 R2"},
		{"parallel", []Element{ohm("R1", "p", "m", 3), ohm("R2", "m", "p", 6)}, 2, 2, false, false, "R1 R2"},
		// Balanced: 100/200 = 50/100, the detector arm carries nothing: 150 ∥ 300 = 100.
		{"balanced bridge", wheatstone(100, 50, 200, 100, 77), 100, 100, false, false, "R1 R2 R3 R4 R5"},
		// Unbalanced, delta–star on p-l-r (1, 2, 3 Ω): arms 1·2/6 = 1/3 at p,
		// 1·3/6 = 1/2 at l, 2·3/6 = 1 at r; then 1/3 + (1/2+4) ∥ (1+5) = 1/3 + 27/10.5 = 61/21.
		{"unbalanced bridge", wheatstone(1, 2, 4, 5, 3), 61.0 / 21, 61.0 / 21, false, false, "R1 R2 R3 R4 R5"},
		// Four sections of 1 Ω in line and 1 Ω across: 34/21, quotient of
		// Fibonacci numbers, by folding from the far end: 2, 1+2/3, 1+5/8, 1+13/21.
		{"ladder", []Element{
			ohm("S1", "p", "a", 1), ohm("P1", "a", "m", 1), ohm("S2", "a", "b", 1), ohm("P2", "b", "m", 1),
			ohm("S3", "b", "c", 1), ohm("P3", "c", "m", 1), ohm("S4", "c", "d", 1), ohm("P4", "d", "m", 1),
		}, 34.0 / 21, 34.0 / 21, false, false, "P1 P2 P3 P4 S1 S2 S3 S4"},
		// A cube of 1 Ω edges across a space diagonal: 1/3 + 1/6 + 1/3 by symmetry.
		{"cube", []Element{
			ohm("a", "p", "1", 1), ohm("b", "p", "2", 1), ohm("c", "p", "3", 1),
			ohm("d", "1", "4", 1), ohm("e", "1", "5", 1), ohm("f", "2", "4", 1), ohm("g", "2", "6", 1), ohm("h", "3", "5", 1), ohm("i", "3", "6", 1),
			ohm("j", "4", "m", 1), ohm("k", "5", "m", 1), ohm("l", "6", "m", 1),
		}, 5.0 / 6, 5.0 / 6, false, false, "a b c d e f g h i j k l"},
		{"range", []Element{span("R1", "p", "x", 1, 2), span("R2", "x", "m", 10, 12)}, 11, 14, false, false, "R1 R2"},
		{"wires and contacts", []Element{wire("w", "p", "x"), joint("F1", "x", "y"), ohm("R", "y", "m", 5)}, 5, 5, false, false, "F1 R w"},
		{"wire with resistance", []Element{{Name: "cord", A: "p", B: "m", R: Interval{0.02, 0.05}}}, 0.02, 0.05, false, false, "cord"},
		{"straight through", []Element{wire("w", "p", "x"), wire("v", "x", "m"), ohm("R", "p", "m", 5)}, 0, 0, false, false, "v w"},
		{"shorted chain", []Element{ohm("R", "p", "m", 5), wire("w", "p", "x"), ohm("A", "p", "y", 1), ohm("B", "y", "x", 1)}, 5, 5, false, false, "R"},
		{"dead end", []Element{ohm("R", "p", "m", 5), ohm("A", "p", "y", 1), ohm("B", "y", "z", 1), ohm("L", "z", "y", 1), ohm("far", "q", "s", 1)}, 5, 5, false, false, "R"},
		{"nothing", []Element{ohm("A", "p", "y", 5), ohm("B", "x", "m", 1)}, inf, inf, true, false, ""},
		{"open contact", []Element{{Name: "S", A: "p", B: "m", Conducts: Joint, R: Interval{inf, inf}}}, inf, inf, true, false, ""},
		{"unknown alone", []Element{span("T", "p", "m", 0, inf)}, 0, inf, false, true, "T"},
		{"unknown beside known", []Element{span("T", "p", "m", 0, inf), ohm("R", "p", "m", 5)}, 0, 5, false, true, "R T"},
		{"unknown behind known", []Element{span("T", "x", "m", 0, inf), ohm("R", "p", "x", 5)}, 5, inf, false, true, "R T"},
		{"unknown shorted", []Element{span("T", "p", "x", 0, inf), wire("w", "p", "x"), ohm("R", "x", "m", 5)}, 5, 5, false, false, "R w"},
		{"unknown elsewhere", []Element{span("T", "p", "x", 0, inf), ohm("R", "p", "m", 5)}, 5, 5, false, false, "R"},
		{"at least", []Element{span("T", "p", "m", 30, inf)}, 30, inf, false, true, "T"},
		{"insulation, at least", []Element{leak("I", "p", "m", 1e6, inf)}, 1e6, inf, true, false, "I"},
		{"insulation, measured", []Element{leak("I", "p", "m", 2e6, 3e6)}, 2e6, 3e6, false, false, "I"},
		{"unknown behind insulation", []Element{leak("I", "p", "x", 1e6, inf), span("T", "x", "m", 0, inf)}, 1e6, inf, true, false, "I T"},
		{"insulation beside", []Element{leak("I", "p", "m", 1e6, inf), ohm("R", "p", "m", 1e6)}, 5e5, 1e6, false, false, "I R"},
		{"leaky to nothing", []Element{leak("I", "p", "m", 0, 3e6)}, 0, 3e6, false, false, "I"},
		{"capacitor", []Element{leak("C", "p", "m", 0, 0)}, inf, inf, true, false, ""},
		{"insulation of which nothing is known", []Element{leak("I", "p", "m", 0, inf)}, inf, inf, true, false, ""},
		{"milliohms beside teraohms", []Element{ohm("a", "p", "x", 1e-4), ohm("b", "x", "y", 1e12), ohm("c", "y", "m", 1e-4), ohm("d", "p", "m", 1e12)}, 5e11 + 5e-5, 5e11 + 5e-5, false, false, "a b c d"},
		{"too small to stamp", []Element{ohm("a", "p", "x", 5e-324), ohm("b", "x", "m", 7)}, 7, 7, false, false, "a b"},
		{"too small to stamp, all the way", []Element{ohm("a", "p", "m", 1e-200)}, 0, 0, false, false, "a"},
		{"onto itself", []Element{ohm("a", "p", "p", 1), ohm("b", "p", "m", 7)}, 7, 7, false, false, "b"},
	} {
		t.Run(x.name, func(t *testing.T) {
			got, err := New(x.elements, "p", "m").Resistance([]string{"p"}, []string{"m"})
			if err != nil {
				t.Fatal(err)
			}
			if !near(got.R.Low, x.low, 1e-12) || !near(got.R.High, x.high, 1e-12) {
				t.Errorf("R = %v, want %v to %v", got.R, x.low, x.high)
			}
			if got.Open != x.open || got.Unknown != x.unknown {
				t.Errorf("open %t, unknown %t; want %t, %t", got.Open, got.Unknown, x.open, x.unknown)
			}
			if used := strings.Join(got.Used, " "); used != x.used {
				t.Errorf("used %q, want %q", used, x.used)
			}
		})
	}
}

func TestProbeGroups(t *testing.T) {
	c := New([]Element{ohm("R1", "a", "b", 6), ohm("R2", "c", "b", 3), ohm("R3", "b", "d", 1)})
	for _, x := range []struct {
		plus, minus string
		want        float64
	}{
		{"a c", "b", 2}, {"a c", "d", 3}, {"d", "c a", 3}, {"a", "c", 9}, {"a b", "d", 1},
		{"a b", "b", 0}, {"a", "a", 0}, {"a a", "b", 6},
	} {
		got, err := c.Resistance(strings.Fields(x.plus), strings.Fields(x.minus))
		if err != nil || !near(got.R.Low, x.want, 1e-14) || !near(got.R.High, x.want, 1e-14) {
			t.Errorf("%s to %s: %v, %v; want %g", x.plus, x.minus, got.R, err, x.want)
		}
	}
}

func TestResistanceRefuses(t *testing.T) {
	sound := []Element{ohm("R", "p", "m", 1)}
	with := func(e Element) []Element { return append(slices.Clone(sound), e) }
	bad := func(change func(*Element)) []Element {
		e := ohm("X", "p", "m", 1)
		change(&e)
		return with(e)
	}
	for _, x := range []struct {
		name        string
		elements    []Element
		plus, minus []string
		says        string
	}{
		{"unknown terminal", sound, []string{"q"}, []string{"m"}, `no terminal "q"`},
		{"no probe", sound, nil, []string{"m"}, "a probe touches nothing"},
		{"two of a name", with(ohm("R", "p", "m", 1)), []string{"p"}, []string{"m"}, `two elements are named "R"`},
		{"no name", with(ohm("", "p", "m", 1)), []string{"p"}, []string{"m"}, "element 2 has no name"},
		{"terminal without name", with(ohm("X", "p", "", 1)), []string{"p"}, []string{"m"}, "X: a terminal has no name"},
		{"not a number", bad(func(e *Element) { e.R.Low = math.NaN() }), []string{"p"}, []string{"m"}, "X: resistance"},
		{"high not a number", bad(func(e *Element) { e.R.High = math.NaN() }), []string{"p"}, []string{"m"}, "X: resistance"},
		{"negative", bad(func(e *Element) { e.R.Low = -1 }), []string{"p"}, []string{"m"}, "X: resistance"},
		{"out of order", bad(func(e *Element) { e.R = Interval{2, 1} }), []string{"p"}, []string{"m"}, "X: resistance"},
		{"capacitance", bad(func(e *Element) { e.C.High = -1 }), []string{"p"}, []string{"m"}, "X: capacitance"},
		{"no such conduct", bad(func(e *Element) { e.Conducts = OneWay + 1 }), []string{"p"}, []string{"m"}, "X: no such way"},
		{"beyond numbers", []Element{ohm("R", "p", "m", 1e300)}, []string{"p"}, []string{"m"}, "too far apart"},
	} {
		t.Run(x.name, func(t *testing.T) {
			got, err := New(x.elements).Resistance(x.plus, x.minus)
			if err == nil || !strings.Contains(err.Error(), x.says) {
				t.Fatalf("error %v, want one with %q", err, x.says)
			}
			if !math.IsNaN(got.R.Low) || !math.IsNaN(got.R.High) || got.Open {
				t.Errorf("a number beside the error: %+v", got)
			}
		})
	}
}

func TestTwinValvesAreBothUsed(t *testing.T) {
	got, err := New([]Element{valve("D", "p", "x"), valve("E", "y", "x"), wire("w", "p", "y"), valve("F", "x", "p"), ohm("R", "x", "m", 3)}).
		Resistance([]string{"p"}, []string{"m"})
	if want := []string{"D", "E", "R", "w"}; err != nil || !slices.Equal(got.Used, want) {
		t.Errorf("used %v, %v; want %v", got.Used, err, want)
	}
}

// Valves (OneWay) are judged by hand: forward a short at the low end, out at
// the high end; backward out at both.
func TestOneWay(t *testing.T) {
	for _, x := range []struct {
		name      string
		elements  []Element
		low, high float64
		open      bool
		unknown   bool
	}{
		{"forward", []Element{valve("D", "p", "m")}, 0, inf, false, true},
		{"backward", []Element{valve("D", "m", "p")}, inf, inf, true, false},
		{"forward in series", []Element{ohm("R", "p", "x", 5), valve("D", "x", "m")}, 5, inf, false, true},
		{"backward beside", []Element{ohm("R", "p", "m", 5), valve("D", "m", "p")}, 5, 5, false, false},
		{"forward beside", []Element{ohm("R", "p", "m", 5), valve("D", "p", "m")}, 0, 5, false, true},
		{"two against each other", []Element{valve("D", "p", "x"), valve("E", "m", "x")}, inf, inf, true, false},
		{"two in a row, nothing between", []Element{valve("D", "p", "x"), valve("E", "x", "m")}, 0, inf, false, true},
		{"three in a row, islands between", []Element{valve("D", "p", "x"), ohm("R", "x", "y", 3), valve("E", "y", "z"), valve("F", "z", "m")}, 3, inf, false, true},
		// A bridge of valves between the probes conducts through two of them.
		{"bridge rectifier", []Element{
			valve("D1", "p", "out"), valve("D2", "m", "out"), valve("D3", "ret", "p"), valve("D4", "ret", "m"), ohm("load", "out", "ret", 9),
		}, 9, inf, false, true},
		// Divider 6:6 at x against 8:4 at y: x is at 1/2, y at 1/3, so x → y
		// conducts (6∥8 + 6∥4 = 24/7 + 12/5 = 5.8285…) and y → x does not (6 Ω = 12∥12).
		{"across dividers, forward", []Element{ohm("a", "p", "x", 6), ohm("b", "x", "m", 6), ohm("c", "p", "y", 8), ohm("d", "y", "m", 4), valve("D", "x", "y")},
			24.0/7 + 12.0/5, 6, false, true},
		{"across dividers, backward", []Element{ohm("a", "p", "x", 6), ohm("b", "x", "m", 6), ohm("c", "p", "y", 8), ohm("d", "y", "m", 4), valve("D", "y", "x")},
			6, 6, false, false},
		// At first x drives y; once p has driven y up, x → y would conduct
		// backward and must not: 4 Ω (y to m) beside 2 + 2 Ω (by x).
		{"one makes another needless", []Element{valve("D", "x", "y"), valve("E", "p", "y"), ohm("a", "p", "x", 2), ohm("b", "x", "m", 2), ohm("c", "y", "m", 4)},
			2, 4, false, true},
		// x floats up to p and drives y and m alike; conducting to y first is
		// the wrong choice and is taken back: x sinks to m, y is p: 8 ∥ 2 Ω.
		{"a choice taken back", []Element{ohm("a", "p", "x", 8), ohm("b", "y", "m", 2), valve("D", "x", "y"), valve("E", "p", "y"), valve("F", "x", "m")},
			1.6, inf, false, true},
		{"behind insulation", []Element{leak("I", "p", "x", 1e6, inf), valve("D", "x", "m")}, 1e6, inf, true, false},
	} {
		t.Run(x.name, func(t *testing.T) {
			got, err := New(x.elements).Resistance([]string{"p"}, []string{"m"})
			if err != nil {
				t.Fatal(err)
			}
			if !near(got.R.Low, x.low, 1e-12) || !near(got.R.High, x.high, 1e-12) || got.Open != x.open || got.Unknown != x.unknown {
				t.Errorf("%+v; want %v to %v, open %t, unknown %t", got, x.low, x.high, x.open, x.unknown)
			}
		})
	}
}
