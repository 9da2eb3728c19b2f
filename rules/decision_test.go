package rules

import (
	"fmt"
	"math"
	"strconv"
	"testing"

	"firstvolt/checks/trial"
)

// TestAcceptanceExamples works the published examples of acceptance with a
// guard band as wide as the expanded uncertainty (ILAC-G8:09/2019 4.1; JCGM
// 106:2012 8.3) through the judge: a figure from y − U to y + U passes exactly
// where the examples accept. Where a probability is stated it is recomputed
// from the normal distribution with u = U/2, and whatever passes conforms with
// at least 97.5 % (k = 2: 97.72 %).
func TestAcceptanceExamples(t *testing.T) {
	for _, cells := range trial.Rows(t, "acceptance.txt", 7) {
		t.Run(cells[0], func(t *testing.T) {
			y, u := cell(t, cells[1], 0), cell(t, cells[2], 0)
			low, high := cell(t, cells[3], math.Inf(-1)), cell(t, cells[4], math.Inf(1))
			// Limits are written in Ω, and those below zero moved up by ten.
			shift := 0.0
			if low < 0 && !math.IsInf(low, -1) || high < 0 {
				shift = 10
			}
			limit := fmt.Sprintf("between: %g Ω to %g Ω", low+shift, high+shift)
			switch {
			case math.IsInf(low, -1):
				limit = fmt.Sprintf("at_most: %g Ω", high+shift)
			case math.IsInf(high, 1):
				limit = fmt.Sprintf("at_least: %g Ω", low+shift)
			}
			clause := fmt.Sprintf("clauses: [{figure: bond, must: {%s}}]", limit)
			f := one(t, head+clause, set(), "bare", ohms(y-u+shift, y+u+shift))
			want := Unproven // all of these lie within their limits, too near to one
			if cells[5] == "yes" {
				want = Pass
			}
			if f.Outcome != want {
				t.Errorf("%s, want %s: %s", f.Outcome, want, f.Says)
			}
			phi := func(z float64) float64 { return (1 + math.Erf(z/math.Sqrt2)) / 2 }
			p := phi((high-y)/(u/2)) - phi((low-y)/(u/2))
			if want := cell(t, cells[6], p); math.Abs(p-want) > 5e-5 {
				t.Errorf("conforms with %.4f, published %.4f", p, want)
			}
			if f.Outcome == Pass && !(p >= 0.975) {
				t.Errorf("passes, and conforms with no more than %.4f", p)
			}
		})
	}
}

func cell(t *testing.T, text string, absent float64) float64 {
	t.Helper()
	if text == "-" {
		return absent
	}
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}
