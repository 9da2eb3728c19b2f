package mains

import (
	"math"
	"math/cmplx"
	"testing"
)

// TestNetworkOfAPerson: the input impedance of IEC 60990 figure 3, worked by
// hand from 1500 Ω beside 0.22 µF in series with 500 Ω. What startle and let-go
// weigh at the same frequencies is held in the handbook and the solver.
func TestNetworkOfAPerson(t *testing.T) {
	for _, c := range []struct{ hertz, ohms float64 }{{50, 1990.0}, {60, 1985.7}, {1e3, 978.6}, {10e3, 508.6}} {
		if got := cmplx.Abs(newNetwork(c.hertz).Z); !(math.Abs(got-c.ohms) <= 0.05) {
			t.Errorf("%g Hz: %g Ω, by hand %g", c.hertz, got, c.ohms)
		}
	}
}

// TestCurrentOfAPerson: the network to 10 mA, above it the body where that
// takes more, never less than the network; and where the way to the person
// resists, the table row of the volts that are left.
func TestCurrentOfAPerson(t *testing.T) {
	n := newNetwork(60)
	z := cmplx.Abs(n.Z)
	for _, c := range []struct {
		volts complex128
		way   complex128
		want  float64
	}{
		{0, 0, 0},
		{19.8, 0, 19.8 / z},                       // 9.97 mA
		{-19.8i, 0, 19.8 / z},                     // whichever its phase
		{19.9, 0, 19.9 / 1750},                    // 10.02 mA by the network: the body
		{25, 0, 25.0 / 1750},                      // the row itself
		{25.01, 0, 25.01 / 1375},                  // and past it the next
		{120, 0, 120.0 / 900},                     // 133 mA
		{230, 0, 230.0 / 700},                     // 329 mA
		{1500, 0, 1500.0 / 575},                   // beyond the table its end
		{120, 1000, 120.0 / 2125},                 // 64 V are left: 1125 Ω
		{230, 1000, 230.0 / 1900},                 // 109 V are left: 900 Ω
		{120, 1000i, 120 / math.Hypot(990, 1000)}, // a choke in the Arrangement: 84 V are left
		{120, 20e3, 120 / cmplx.Abs(20e3+n.Z)},    // 5.5 mA
	} {
		if got := n.Current(c.volts, c.way); !(math.Abs(got-c.want) <= 1e-9+1e-9*c.want) {
			t.Errorf("%v V behind %v Ω: %g A, by hand %g", c.volts, c.way, got, c.want)
		}
	}
	for _, bad := range []complex128{cmplx.NaN(), complex(math.NaN(), 0)} {
		if got := n.Current(bad, 0); got < math.Inf(1) {
			t.Errorf("%v V: %g A", bad, got)
		}
		if got := n.Current(120, bad); got < math.Inf(1) {
			t.Errorf("behind %v Ω: %g A", bad, got)
		}
	}
	// More volts never mean less current.
	last := 0.0
	for v := 0.0; v < 1200; v += 0.5 {
		if got := n.Current(complex(v, 0), 10); !(got >= last) {
			t.Errorf("%g V: %g A, and %g A before", v, got, last)
		} else {
			last = got
		}
	}
}
