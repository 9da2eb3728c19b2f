package handbook

import (
	"math"
	"testing"

	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
)

var (
	metre = quantity.Exact(1, quantity.Length)
	at20  = quantity.Exact(20, quantity.Temperature)
)

// The formula gives the printed table to four digits: half a unit of the
// fourth, and one more for the table's own rounding of its steps.
func TestGaugeTable(t *testing.T) {
	foot := quantity.Exact(304.8, quantity.Length) // 1000 ft
	for _, row := range published(t, "awg.txt", 2) {
		written := row[0] + " AWG"
		r, basis, ok := ConductorResistance(written, q(t, written, quantity.Area), foot, at20)
		want := num(t, row[1], 0)
		digit := math.Pow(10, math.Floor(math.Log10(want))-3)
		if !ok || !(math.Abs(r.Low-want) <= 1.5*digit) || basis.Status != figure.Computed {
			t.Errorf("%s: %.6g Ω/kft, printed %g", written, r.Low, want)
		}
	}
}

// The stranding allowance holds every printed seven-strand value and is not
// generous by more than two hundredths.
func TestStrandedWithin(t *testing.T) {
	foot := quantity.Exact(0.3048, quantity.Length)
	for _, row := range published(t, "stranded.txt", 2) {
		written := row[0] + " AWG"
		r, _, _ := ConductorResistance(written, q(t, written, quantity.Area), foot, at20)
		x := num(t, row[1], 0) / 1000
		if !(r.Low < x && x < r.High && r.High < x*1.02) {
			t.Errorf("%s: %g Ω/ft outside %g to %g", written, x, r.Low, r.High)
		}
	}
}

func TestClass5Table(t *testing.T) {
	km := quantity.Exact(1000, quantity.Length)
	for _, row := range published(t, "class5.txt", 3) {
		written := row[0] + " mm²"
		r, basis, ok := ConductorResistance(written, q(t, written, quantity.Area), km, at20)
		plain := num(t, row[1], 0)
		if !ok || !close(r.High, plain, 1e-12) || basis.Status != figure.Published {
			t.Errorf("%s: %v, printed %g", written, r, plain)
		}
		// The low end is pure copper of the nominal area less 2 %.
		if want := 17.241 / num(t, row[0], 0) * 0.98; !close(r.Low, want, 1e-9) || !(r.Low > 0.8*plain) {
			t.Errorf("%s: low end %g, want %g", written, r.Low, want)
		}
	}
}

func TestCopperTemperature(t *testing.T) {
	for _, row := range published(t, "copper.txt", 2) {
		// The column is 1 + 0.00385·(t − 25) to three decimals: its coefficient is rounded.
		got, want := CopperFrom(1, 25, num(t, row[0], 0)), num(t, row[1], 0)
		if !(math.Abs(got-want) <= 0.0011) {
			t.Errorf("%s °C: %.4f, printed %g", row[0], got, want)
		}
	}
	for _, row := range published(t, "rise.txt", 4) {
		got, want := CopperFrom(num(t, row[0], 0), num(t, row[1], 0), num(t, row[3], 0)), num(t, row[2], 0)
		if !close(got, want, 3e-4) { // the temperature is printed to 0.1
			t.Errorf("%v: %.4f Ω", row, got)
		}
	}
	if k := CopperAt(1, 21) - 1; !(math.Abs(k-0.00393) < 2e-6) {
		t.Errorf("%.6f per K", k)
	}
}

func TestConductorRanges(t *testing.T) {
	for _, c := range []struct {
		written, length, temp string
		low, high             float64
	}{
		{"18 AWG", "6 ft", "20 °C", 0.0383, 0.0403},    // bell-out of an 18 AWG cord: 40 mΩ
		{"16 AWG", "6 ft", "20 °C", 0.0241, 0.0253},    // 25 mΩ
		{"0.75 mm²", "2 m", "20 °C", 0.0450, 0.0520},   // ≤ 52 mΩ
		{"1.0 mm²", "2 m", "20 °C", 0.0337, 0.0391},    // ≤ 39 mΩ
		{"1.25 mm²", "1 m", "20 °C", 0.01350, 0.01561}, // recalled maximum
		{"0.8 mm²", "1 m", "20 °C", 0.02111, 0.02440},  // not tabled: 19.5/0.8
		{"18 AWG", "1 m", "10 °C to 35 °C", 0.02012, 0.0233},
	} {
		r, _, ok := ConductorResistance(c.written, q(t, c.written, quantity.Area), q(t, c.length, quantity.Length), q(t, c.temp, quantity.Temperature))
		if !ok || !close(r.Low, c.low, 3e-3) || !close(r.High, c.high, 3e-3) {
			t.Errorf("%s %s: %g to %g, want %g to %g", c.written, c.length, r.Low, r.High, c.low, c.high)
		}
	}
}

func TestConductorUnknown(t *testing.T) {
	size := q(t, "0.75 mm²", quantity.Area)
	nan := quantity.Exact(math.NaN(), quantity.Area)
	for name, try := range map[string]func() bool{
		"no size": func() bool {
			_, _, ok := ConductorResistance("", quantity.Unknown(quantity.Area), metre, at20)
			return ok
		},
		"too small": func() bool {
			_, _, ok := ConductorResistance("0.1 mm²", q(t, "0.1 mm²", quantity.Area), metre, at20)
			return ok
		},
		"too large": func() bool {
			_, _, ok := ConductorResistance("6 mm²", q(t, "6 mm²", quantity.Area), metre, at20)
			return ok
		},
		"not a number": func() bool { _, _, ok := ConductorResistance("0.75 mm²", nan, metre, at20); return ok },
		"no length": func() bool {
			_, _, ok := ConductorResistance("0.75 mm²", size, quantity.Exact(math.NaN(), quantity.Length), at20)
			return ok
		},
		"no temperature": func() bool {
			_, _, ok := ConductorResistance("0.75 mm²", size, metre, quantity.Exact(math.NaN(), quantity.Temperature))
			return ok
		},
		"no ampacity": func() bool { _, _, ok := Ampacity("", quantity.Unknown(quantity.Area), 2); return ok },
	} {
		if try() {
			t.Errorf("%s: known", name)
		}
	}
	if r, _, ok := ConductorResistance("0.75 mm²", size, quantity.AtLeast(1, quantity.Length), at20); !ok || r.Bounded() {
		t.Errorf("a length without upper end: %v", r)
	}
}

func TestAmpacity(t *testing.T) {
	for _, row := range published(t, "ampacity.txt", 3) {
		got, _, ok := Ampacity(row[0], q(t, row[0], quantity.Area), int(num(t, row[1], 0)))
		if !ok || got != num(t, row[2], 0) {
			t.Errorf("%s, %s carrying: %g A, want %s", row[0], row[1], got, row[2])
		}
	}
	for _, c := range []struct {
		written  string
		carrying int
		want     float64
		ok       bool
	}{
		{"19 AWG", 2, 2, true},  // the next smaller, never between
		{"17 AWG", 3, 7, true},  // not in the three-conductor column
		{"12 AWG", 2, 18, true}, // beyond the table: its largest
		{"22 AWG", 2, 0, false}, // below it: nothing
		{"20 AWG", 3, 0, false},
		{"18 AWG", 4, 0, false},
		{"18 AWG", 1, 10, true},
		{"18 AWG", 0, 0, false},
		{"0.8 mm²", 2, 6, true},
		{"0.75 mm²", 3, 0, false},
	} {
		got, _, ok := Ampacity(c.written, q(t, c.written, quantity.Area), c.carrying)
		if got != c.want || ok != c.ok {
			t.Errorf("%s, %d carrying: %g A %v, want %g %v", c.written, c.carrying, got, ok, c.want, c.ok)
		}
	}
}
