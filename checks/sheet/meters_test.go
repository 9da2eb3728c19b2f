package sheet

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"firstvolt/checks/trial"
)

// TestPublishedMeters works the published examples of a meter's uncertainty,
// and the specification rows of the reference, as a sheet's own readings: the
// bounds of the true value, and whether they prove a limit.
func TestPublishedMeters(t *testing.T) {
	for _, c := range trial.Rows(t, "meters.txt", 9) {
		t.Run(c[0]+" "+c[4], func(t *testing.T) {
			number := func(text string, absent float64) float64 {
				if text == "-" {
					return absent
				}
				x, err := strconv.ParseFloat(text, 64)
				if err != nil {
					t.Fatal(err)
				}
				return x
			}
			s, problems := Read("x.yaml", []byte(head+"instruments:\n  m: {measures: "+c[1]+", accuracy: "+c[2]+", digit: "+c[3]+", leads: nulled}\nparts:\n  T1: {kind: transformer, windings: {primary: {ends: [1, 2]}, heater: {ends: [3, 4]}}}\nreadings:\n  "+
				c[1]+":\n    - {across: T1.heater, reads: "+c[4]+", with: m"+map[string]string{"voltage": ", applied: T1.primary, volts: 1 V", "insulation": ", test: 500 V"}[c[1]]+"}\n"))
			if s == nil {
				t.Fatal(problems)
			}
			r, ok, why := s.Readings[0].True()
			if !ok {
				t.Fatal(why)
			}
			near := func(got, want float64) bool {
				return got == want || math.Abs(got-want) <= 1e-9*math.Abs(want)
			}
			if low, high := number(c[5], 0), number(c[6], math.Inf(1)); !near(r.Low, low) || !near(r.High, high) {
				t.Errorf("true value %g to %g, want %g to %g", r.Low, r.High, low, high)
			}
			proved := "-"
			if limit, ok := strings.CutPrefix(c[7], "at most "); ok {
				proved = map[bool]string{true: "yes", false: "no"}[r.High <= number(limit, 0)]
			} else if limit, ok := strings.CutPrefix(c[7], "at least "); ok {
				proved = map[bool]string{true: "yes", false: "no"}[r.Low >= number(limit, 0)]
			}
			if proved != c[8] {
				t.Errorf("%s is %s proved by %g to %g, want %s", c[7], proved, r.Low, r.High, c[8])
			}
		})
	}
}

// TestCoarseMeterNeverProvesABond: no display of a meter of ±(0.8 % + 2 digits)
// with 0.1 Ω digits lies wholly within 0.1 Ω (its digits alone are ±0.2 Ω).
func TestCoarseMeterNeverProvesABond(t *testing.T) {
	for _, reads := range []string{"0 Ω", "0.0 Ω", "0.1 Ω", "0.2 Ω", "0.3 Ω", "1.0 Ω"} {
		s, problems := Read("x.yaml", []byte(head+"instruments:\n  m: {measures: resistance, accuracy: 0.8 % + 2 digits, digit: 0.1 Ω, leads: nulled}\nparts:\n  R1: {kind: resistor}\nreadings:\n  resistance:\n    - {across: R1, reads: "+reads+", with: m}\n"))
		if s == nil {
			t.Fatal(problems)
		}
		if r, ok, _ := s.Readings[0].True(); !ok || r.High <= 0.1 {
			t.Errorf("%s: at most %g Ω", reads, r.High)
		}
	}
}
