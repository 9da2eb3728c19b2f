package handbook

import (
	"math"
	"testing"

	"firstvolt/checks/figure"
)

func TestRectifiers(t *testing.T) {
	for _, row := range published(t, "rectifiers.txt", 7) {
		d, ok := Tube(row[0])
		if !ok || d.Rectifier == nil || !d.IsRectifier {
			t.Errorf("no rectifier %s", row[0])
			continue
		}
		rms := num(t, row[3], 0)
		p, ok := d.Rectifier.At(rms)
		want := RectifierPoint{rms, num(t, row[4], 0) / 1000, num(t, row[5], 0)}
		if !ok || p.RMS != rms || !close(p.DC, want.DC, 1e-9) || p.Resistance != want.Resistance {
			t.Errorf("%s at %g V: %+v, want %+v", row[0], rms, p, want)
		}
		if d.Volts != num(t, row[1], 0) || d.Amps != num(t, row[2], 0) || !close(d.Rectifier.First, num(t, row[6], 0)*1e-6, 1e-9) {
			t.Errorf("%s: %g V %g A, first %g F", row[0], d.Volts, d.Amps, d.Rectifier.First)
		}
	}
}

// Rows of one type add to each other: none has a key that another has, and what
// was read and what is recalled have a basis each.
func TestRowsOfOneRectifier(t *testing.T) {
	seen := map[string]string{}
	for _, n := range tubeTable().rows("rectifiers") {
		for _, name := range texts(n.Get("types")) {
			for _, e := range n.Entries {
				at := name + " " + e.Key
				if e.Key == "types" || e.Key == "basis" {
					continue
				}
				if first, twice := seen[at]; twice {
					t.Errorf("%s stands in a row of %s and in one of %s", at, first, n.Word("basis"))
				}
				seen[at] = n.Word("basis")
			}
		}
	}
	for _, c := range []struct {
		tube, key string
		want      figure.Status
	}{
		{"5Y3", "first", figure.Published}, {"5Y3", "inverse", figure.FromMemory}, {"5Y3", "drop", figure.Computed},
		{"5U4", "direct-current", figure.Published}, {"5U4", "peak", figure.FromMemory},
		{"35Z5", "tap", figure.Published}, {"35Z5", "resistance", figure.FromMemory},
		{"EZ81", "peak", figure.Published}, {"EZ81", "drop", figure.FromMemory},
	} {
		d, ok := Tube(c.tube)
		if !ok || d.Rectifier.From[c.key].Status != c.want {
			t.Errorf("%s of %s: %+v, want %s", c.key, c.tube, d.Rectifier.From[c.key], c.want)
		}
	}
	// A peak that lies under what the type's own published operation draws is no limit.
	for _, name := range []string{"EZ40", "EZ80", "5V4-G", "GZ34"} {
		if d, ok := Tube(name); !ok || d.Rectifier.Peak.High != 0 {
			t.Errorf("%s has a peak: %+v", name, d.Rectifier.Peak)
		}
	}
}

func TestEveryRectifierHangsTogether(t *testing.T) {
	for key, d := range theTubes().byType {
		if !(d.Volts > 0 && d.Amps > 0) {
			t.Errorf("%s: %g V %g A", key, d.Volts, d.Amps)
		}
		r := d.Rectifier
		if r == nil {
			continue
		}
		last := RectifierPoint{}
		for _, p := range r.Points {
			if !(p.RMS > last.RMS && p.Resistance >= last.Resistance && p.DC > 0) {
				t.Errorf("%s: %+v after %+v", key, p, last)
			}
			last = p
		}
		if (r.Drop.High > 0) != (r.DropAt > 0) || r.Peak.High > 0 && !(r.Peak.Low > last.DC) {
			t.Errorf("%s: drop %v at %g A, peak %v", key, r.Drop, r.DropAt, r.Peak)
		}
		// A full-wave plate stands twice the peak of its volts, a doubler's or half-wave one too.
		if full := 2 * math.Sqrt2 * last.RMS; r.Inverse > 0 && !(full <= r.Inverse*1.12) {
			t.Errorf("%s: %g V rms needs %g V inverse, has %g", key, last.RMS, full, r.Inverse)
		}
		if _, ok := r.At(last.RMS * 1.01); ok {
			t.Errorf("%s has a point beyond its last", key)
		}
		if _, ok := r.At(math.NaN()); ok {
			t.Errorf("%s has a point at no voltage", key)
		}
	}
	// Hot switching of a 6X4: √2 × 325 V over 525 Ω keeps within its published 1 A.
	x, _ := Tube("6x4")
	if p := x.Rectifier.Points[0]; !(math.Sqrt2*p.RMS/p.Resistance <= x.Rectifier.Transient) {
		t.Error("6X4: minimum resistance and transient rating disagree")
	}
	p, _ := x.Rectifier.At(300)
	if p.Resistance != 525 {
		t.Error("between points the next higher one binds")
	}
}

func TestHeaters(t *testing.T) {
	for _, row := range published(t, "heaters.txt", 4) {
		d, ok := Tube(row[0])
		if !ok || d.Volts != num(t, row[1], 0) || d.Amps != num(t, row[2], 0) || d.Direct != (row[3] == "direct") {
			t.Errorf("%v: %+v", row, d)
		}
	}
	for _, spelling := range []string{"5Y3-GT", "5y3gt", "5Y3 GT", "5y3", "5Y3G"} {
		if d, ok := Tube(spelling); !ok || d.Volts != 5 || !d.Direct {
			t.Errorf("%s: %+v", spelling, d)
		}
	}
	for name, want := range map[string]bool{
		"6V4/EZ80": true, "GZ34/5AR4": true, "6U5/6E5": true, "35/51": true,
		"5U4/GZ34": false, // two tubes
		"5Y3-GTX":  false, "57A": false, "": false, "/": false, "6V6GTGT": false,
	} {
		if _, ok := Tube(name); ok != want {
			t.Errorf("%q: %v", name, ok)
		}
	}
	if d, _ := Tube("12AX7"); d.HalfVolts != 6.3 {
		t.Errorf("12AX7: %+v", d)
	}
	if d, _ := Tube("35Z5"); d.TapVolts != 7.5 || d.Rectifier.LampDC != 0.06 || !d.Series {
		t.Errorf("35Z5: %+v", d)
	}
	if d, ok := Tube("45Z5"); !ok || !d.IsRectifier || d.Rectifier != nil {
		t.Errorf("45Z5: %+v", d)
	}
}

// A five-tube string of three 12.6 V tubes, 50 V and 35 V: 122.8 V and 819 Ω
// hot, 82 to 164 Ω cold.
func TestStringOfFive(t *testing.T) {
	volts, hot, low, high := 0.0, 0.0, 0.0, 0.0
	for _, name := range []string{"12SA7", "12SK7", "12SQ7", "50L6-GT", "35Z5-GT"} {
		d, ok := Tube(name)
		if !ok || d.Amps != 0.15 || !d.Series {
			t.Fatalf("%s: %+v", name, d)
		}
		r, basis := d.ColdHeater()
		if basis.Status != figure.Published {
			t.Errorf("%s: %v", name, basis)
		}
		volts, hot, low, high = volts+d.Volts, hot+d.HotHeater(), low+r.Low, high+r.High
	}
	if !close(volts, 122.8, 1e-9) || !close(hot, 819, 1e-3) || !close(low, 82, 5e-3) || !close(high, 164, 5e-3) {
		t.Errorf("%g V, %g Ω hot, %g to %g Ω cold", volts, hot, low, high)
	}
}

func TestWarmUp(t *testing.T) {
	for fed, want := range map[string][2]float64{"voltage": {6.7, 13.3}, "resistor": {12.6, 20.4}, "current": {21.6, 31.6}} {
		if most, whole, _, ok := WarmUp(fed); !ok || most != want[0] || whole != want[1] {
			t.Errorf("%s: %g, %g s", fed, most, whole)
		}
	}
	if _, _, _, ok := WarmUp(""); ok {
		t.Error("fed by nothing")
	}
}

func TestLamp(t *testing.T) {
	l := Lamp()
	for _, row := range published(t, "lamp.txt", 2) {
		share, want := num(t, row[0], 0), num(t, row[1], 0)
		got := l.Nominal(60, 120, share*120) / 0.5
		band := l.Current(60, 120, share*120).Scale(1 / 0.5)
		if !(math.Abs(got-want) <= 0.0006) || !(band.Low <= got && got <= band.High) {
			t.Errorf("%s: %.4f, printed %s, band %v", row[0], got, row[1], band)
		}
	}
	if r := l.ColdResistance(100, 120); !close(r, 9.5, 0.02) {
		t.Errorf("100 W 120 V cold: %g Ω", r)
	}
	// Whatever the voltage, no less resistance than cold, and more voltage is more current.
	last := 0.0
	for share := 1e-4; share < 1.2; share *= 1.3 {
		c := l.Current(60, 120, share*120)
		if !(share*120/c.High >= l.ColdResistance(60, 120)*(1-1e-9)) || !(c.Low <= c.High) || !(c.High >= last*(1-1e-9)) {
			t.Errorf("%g: %v", share, c)
		}
		last = c.High
	}
	if c := l.Current(60, 120, 0); c.Low != 0 || c.High != 0 {
		t.Errorf("no voltage: %v", c)
	}
}

func TestWindings(t *testing.T) {
	for _, c := range []struct {
		role        string
		size, volts float64
		low, high   float64
		ok          bool
	}{
		{"primary", 60, 117, 4, 9, true},
		{"primary", 60, 120, 4, 9, true},
		{"primary", 40, 230, 30, 70, true},
		{"primary", 50, 117, 4, 18, true}, // between two sizes
		{"primary", 80, 117, 2, 9, true},
		{"primary", 45, 117, 8, 18, true},
		{"primary", 55, 117, 4, 9, true},
		{"primary", 0, 117, 2, 18, true}, // size not known
		{"primary", 20, 117, 0, 0, false},
		{"primary", 200, 117, 0, 0, false},
		{"primary", 60, 150, 0, 0, false},
		{"half", 100, 0, 50, 130, true},
		{"heater", 60, 0, 0.06, 0.2, true},
		{"rectifier", 60, 0, 0.05, 0.2, true},
		{"bias", 60, 0, 0, 0, false},
	} {
		r, _, ok := WindingBand(c.role, c.size, c.volts)
		if ok != c.ok || ok && (r.Low != c.low || r.High != c.high) {
			t.Errorf("%+v: %v %v", c, r, ok)
		}
	}
	for _, c := range []struct {
		size, low, high float64
		ok              bool
	}{{40, 0.12, 0.18, true}, {50, 0.10, 0.18, true}, {60, 0.10, 0.14, true}, {100, 0.07, 0.10, true}, {30, 0.07, 0.18, false}, {0, 0.07, 0.18, false}, {math.NaN(), 0.07, 0.18, false}} {
		r, _, ok := Regulation(c.size)
		if ok != c.ok || !close(r.Low, c.low, 1e-9) || !close(r.High, c.high, 1e-9) {
			t.Errorf("%g VA: %v %v", c.size, r, ok)
		}
	}
	if h := Halves(); h.Should != 0.2 || h.Must != 0.3 {
		t.Errorf("%+v", h)
	}
	if i := Idle(); i.Current.High != 0.3 || i.Factor.Low != 0.2 || i.Loss.High != 0.08 {
		t.Errorf("%+v", i)
	}
	if r, _, ok := PartBand("field-coil"); !ok || r.Low != 450 || r.High != 3000 {
		t.Errorf("field coil %v", r)
	}
	if _, _, ok := PartBand("horn"); ok {
		t.Error("a part without band")
	}
	if r, _, ok := PowerFactor("transformer"); !ok || r.Low != 0.85 || r.High != 0.95 {
		t.Errorf("power factor %v", r)
	}
}
