package circuit

import (
	"math"
	"math/cmplx"
	"testing"
)

// The three networks of IEC 60990 that stand for a person, figures 3, 4 and 5:
// a skin of 1500 Ω beside 0.22 µF, a body of 500 Ω, and across the body the
// filter that weighs startle (10 kΩ, 22 nF) or let-go (10 kΩ; 20 kΩ with
// 6.2 nF beside 9.1 nF). U1 is across the body, U2 and U3 across the filter.
func iec60990(figure int) []Element {
	list := []Element{
		ohm("RS", "in", "body", 1500), farad("CS", "in", "body", 0.22e-6),
		ohm("RB", "body", "out", 500),
	}
	switch figure {
	case 4:
		list = append(list, ohm("R1", "body", "u", 10e3), farad("C1", "u", "out", 0.022e-6))
	case 5:
		list = append(list, ohm("R2", "body", "u", 10e3), ohm("R3", "u", "v", 20e3),
			farad("C2", "v", "out", 0.0062e-6), farad("C3", "u", "out", 0.0091e-6))
	}
	return list
}

// The impedances and responses were computed apart from this program from the
// component values of the standard, to the digits shown; the standard's own
// calibration table has 973 Ω, 284 and 976 Ω, 340 at 1 kHz (from memory).
func TestNetworksOfAPerson(t *testing.T) {
	for _, x := range []struct {
		freq             float64
		z3, z4, z5       float64 // Ω
		u1in4, u2, u3    float64 // V for 1 A into the network
		older            float64 // Ω: 1500 Ω beside 0.15 µF, the older network of UL 101; 0: not given
		digits, digitsU3 float64
	}{
		{0, 2000, 2000, 2000, 500, 500, 500, 1500, 0.01, 0.01},
		{50, 1990.0, 1990.0, 1990.0, 499.88, 498.69, 498.97, 1496.3, 0.051, 0.006},
		{60, 1985.7, 1985.7, 1985.7, 499.83, 498.12, 498.52, 1494.6, 0.051, 0.006},
		{100, 1961.0, 1961.0, 1961.0, 499.52, 494.82, 495.93, 0, 0.051, 0.006},
		{1e3, 978.6, 972.5, 975.8, 483.98, 283.68, 339.67, 866.2, 0.051, 0.006},
		{10e3, 508.6, 485.4, 486.5, 476.31, 34.37, 79.92, 105.8, 0.051, 0.006},
		{100e3, 500.1, 476.3, 476.3, 476.19, 3.445, 8.325, 0, 0.051, 0.0006},
	} {
		check := func(what string, got complex128, err error, want, within float64) {
			t.Helper()
			if err != nil || !(math.Abs(cmplx.Abs(got)-want) <= within) {
				t.Errorf("%g Hz, %s: %.5g, %v; want %g", x.freq, what, cmplx.Abs(got), err, want)
			}
		}
		for figure, want := range map[int]float64{3: x.z3, 4: x.z4, 5: x.z5} {
			s := solved(t, x.freq, iec60990(figure)...)
			z, err := s.Impedance("in", "out")
			check("impedance", z, err, want, x.digits)
			driven := changed(t, s, Branch{A: "in", B: "out", E: z}) // 1 A
			u1, err := driven.Voltage("body", "out")
			switch figure {
			case 3:
				check("U1", u1, err, 500, 1e-9)
			case 4:
				check("U1 beside the filter", u1, err, x.u1in4, 0.006)
				u2, err := driven.Voltage("u", "out")
				check("U2", u2, err, x.u2, x.digitsU3)
			case 5:
				u3, err := driven.Voltage("u", "out")
				check("U3", u3, err, x.u3, x.digitsU3)
			}
		}
		if x.older > 0 {
			z, err := solved(t, x.freq, ohm("R", "in", "out", 1500), farad("C", "in", "out", 0.15e-6)).Impedance("in", "out")
			check("older network", z, err, x.older, x.digits)
		}
	}
}

// A mains conductor through one capacitor to the startle network, computed
// apart from this program likewise.
func TestThroughACapacitor(t *testing.T) {
	for _, x := range []struct{ volts, freq, c, amps, u2 float64 }{
		{230, 50, 10e-9, 0.7222e-3, 0.3602},
		{230, 50, 4.7e-9, 0.3395e-3, 0.1693},
		{120, 60, 10e-9, 0.4521e-3, 0.2252},
		{120, 60, 47e-9, 2.118e-3, 1.0550},
	} {
		s := solved(t, x.freq, append(iec60990(4), source("mains", "hot", "out", complex(x.volts, 0), 0), farad("C", "hot", "in", x.c))...)
		i, err1 := s.Current("C")
		u, err2 := s.Voltage("u", "out")
		if err1 != nil || err2 != nil || !(math.Abs(cmplx.Abs(i)-x.amps) <= 1e-3*x.amps) || !(math.Abs(cmplx.Abs(u)-x.u2) <= 1e-3*x.u2) {
			t.Errorf("%g V, %g F: %g A, %g V; %v %v", x.volts, x.c, cmplx.Abs(i), cmplx.Abs(u), err1, err2)
		}
	}
	// 230 V straight onto the network.
	if i, err := solved(t, 50, append(iec60990(4), source("mains", "in", "out", 230, 0))...).Current("mains"); err != nil || math.Abs(cmplx.Abs(i)-115.6e-3) > 0.05e-3 {
		t.Errorf("straight: %v, %v", i, err)
	}
}
