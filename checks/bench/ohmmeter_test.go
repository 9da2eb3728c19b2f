package bench

import (
	"math"
	"testing"

	"firstvolt/checks/sheet"
)

func readingOf(t *testing.T, b *Bench, name string) *sheet.Reading {
	t.Helper()
	for _, rd := range b.Sheet.Readings {
		if rd.Name == name && rd.Kind == "resistance" {
			return rd
		}
	}
	t.Fatalf("no reading %s", name)
	return nil
}

// 6 ft of 18 AWG at 22 °C: 6.385 Ω for 1000 ft at 20 °C (ASTM B258 geometry,
// published wire table) is 38.3 mΩ; strand and temperature widen it upward.
func TestCordConductor(t *testing.T) {
	r, ok := larkfield(t).CordConductor()
	if !ok || math.Abs(r.Low-0.03831*(234.5+22)/(234.5+20)) > 1e-5 || !(r.High > r.Low && r.High < 0.045) {
		t.Errorf("%s, %v", r, ok)
	}
	for _, gone := range []string{"size: 18 AWG, ", "length: 6 ft, "} {
		if r, ok := larkfield(t, gone, "").CordConductor(); ok {
			t.Errorf("without %q: %s", gone, r)
		}
	}
}

// Each reading is predicted with itself left out: both pins from the primary's
// own reading with fuse and cord, and the primary from that of both pins not at
// all, since fuse and cord leave a rest.
func TestPredict(t *testing.T) {
	b := larkfield(t)
	ps, err := b.Predict(readingOf(t, b, "plug.hot – plug.neutral"))
	if err != nil || len(ps) != 1 {
		t.Fatalf("%d predictions, %v", len(ps), err)
	}
	// 9.7 Ω ± (0.9 % + 0.2 Ω), two cord conductors of 0.04 Ω, a fuse of 0.05 to 0.5 Ω.
	if p := ps[0]; p.Open || p.Unknown || !(p.Wide.Low < 9.7 && p.Wide.Low > 9.3) || !(p.Wide.High > 9.9 && p.Wide.High < 11) {
		t.Errorf("switched on: %s, open %v, unknown %v", p.Wide, p.Open, p.Unknown)
	}
	if p := ps[0]; !(p.Low.Low <= p.High.Low && p.Low.High <= p.High.High && p.Wide.Low <= p.Low.Low && p.High.High <= p.Wide.High) {
		t.Errorf("ends %s and %s lie outside %s", p.Low, p.High, p.Wide)
	}
	again, _ := b.Predict(readingOf(t, b, "plug.hot – plug.neutral"))
	if &again[0] != &ps[0] {
		t.Error("computed twice")
	}

	off := larkfield(t, "switches: closed, reads: 9.9 Ω", "switches: open, reads: 9.9 Ω")
	ps, err = off.Predict(readingOf(t, off, "plug.hot – plug.neutral"))
	if err != nil || !ps[0].Open || !(ps[0].Wide.Low >= 0.2e6) {
		t.Errorf("switched off: %+v, %v", ps, err)
	}

	alone := larkfield(t, "    - {across: T1.primary, reads: 9.7 Ω, with: dmm}\n", "")
	ps, err = alone.Predict(readingOf(t, alone, "plug.hot – plug.neutral"))
	if err != nil || !ps[0].Unknown {
		t.Errorf("with nothing that tells the primary: %+v, %v", ps, err)
	}
}

// A reading that does not say how the switch stood is predicted in both.
func TestStatesOfReading(t *testing.T) {
	line := "{between: [plug.hot, plug.neutral], switches: closed, reads: 9.9 Ω, with: dmm}"
	for _, c := range []struct {
		said string
		want int
	}{
		{"switches: closed, ", 1}, {"switches: open, ", 1}, {"switches: {S1: closed}, ", 1}, {"", 2}, {"fuses: {F1: out}, ", 2}, {"fuses: out, switches: open, ", 1},
	} {
		b := larkfield(t, line, "{between: [plug.hot, plug.neutral], "+c.said+"reads: 9.9 Ω, with: dmm}")
		states, ok := b.StatesOf(readingOf(t, b, "plug.hot – plug.neutral"))
		if !ok || len(states) != c.want {
			t.Errorf("%q: %d states, %v; want %d", c.said, len(states), ok, c.want)
		}
	}
	b := larkfield(t, line, "{between: [plug.hot, plug.neutral], fuses: {F1: out}, switches: closed, reads: OL, with: dmm}")
	if ps, err := b.Predict(readingOf(t, b, "plug.hot – plug.neutral")); err != nil || !ps[0].Open {
		t.Errorf("fuse out: %+v, %v", ps, err)
	}
}

// Which stretch of a winding a reading measures by itself.
func TestDirect(t *testing.T) {
	b := larkfield(t)
	for _, c := range []struct {
		name     string
		winding  string
		from, to int
	}{
		{"T1.primary", "T1.primary", 0, 1}, {"T1.3 – T1.4", "T1.plate", 0, 1}, {"T1.4 – T1.5", "T1.plate", 1, 2},
	} {
		w, from, to, ok := b.Direct(readingOf(t, b, c.name))
		if !ok || w.Name() != c.winding || from != c.from || to != c.to {
			t.Errorf("%s: %v %d %d %v", c.name, w, from, to, ok)
		}
	}
	if _, _, _, ok := b.Direct(readingOf(t, b, "plug.hot – plug.neutral")); ok {
		t.Error("the pins are not on the winding")
	}
	beside := larkfield(t, "  C1: {kind", "  R1: {kind: resistor, value: 10 Ω}\n  C1: {kind", "  - T1.4 -> chassis", "  - T1.4 -> chassis\n  - T1.1 -> R1 -> T1.2")
	if _, _, _, ok := beside.Direct(readingOf(t, beside, "T1.primary")); ok {
		t.Error("a resistor lies beside the winding")
	}
}

// Of a winding read from end to end and over one half, the other half is what
// is left; two readings of one half span both.
func TestWindingOhms(t *testing.T) {
	b := larkfield(t, "    - {between: [T1.4, T1.5], reads: 112 Ω, with: dmm}\n", "    - {across: T1.plate, reads: 216 Ω, with: dmm}\n    - {between: [T1.3, T1.4], reads: 106 Ω, with: dmm}\n")
	ohms := b.windingOhms(nil)
	p := b.Sheet.Part("T1")
	w := p.Winding("plate")
	first, second := ohms[p.SectionName(w, 1)], ohms[p.SectionName(w, 2)]
	if !(first.low < 104 && first.high > 106) {
		t.Errorf("first half %v", first)
	}
	if !(second.low < 216-106 && second.high > 216-104) || math.IsInf(second.high, 1) {
		t.Errorf("second half %v", second)
	}
}
