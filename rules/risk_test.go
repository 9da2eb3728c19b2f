package rules

import (
	"fmt"
	"math"
	"testing"

	"firstvolt/checks/figure"
	"firstvolt/checks/trial"
)

// resistors of JCGM 106:2012 9.5: limits, mean and standard deviation of those
// made, standard uncertainty of a measurement, Ω.
const (
	limitLow, limitHigh = 1499.8, 1500.2
	madeMean, madeSD    = 1500.0, 0.12
	measuredU           = 0.04
)

func phi(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }

// risked are the shares of all resistors that are accepted though out of their
// limits, and rejected though in, where readings from low to high are
// accepted: a sum over eight standard deviations either way, with an error far
// below the percent published.
func risked(low, high float64) (consumer, producer float64) {
	const n = 40000
	step := 16 * madeSD / n
	for i := range n + 1 {
		made := madeMean - 8*madeSD + float64(i)*step
		share := math.Exp(-math.Pow((made-madeMean)/madeSD, 2)/2) / (madeSD * math.Sqrt(2*math.Pi)) * step
		accepted := phi((high-made)/measuredU) - phi((low-made)/measuredU)
		if made < limitLow || made > limitHigh {
			consumer += share * accepted
		} else {
			producer += share * (1 - accepted)
		}
	}
	return consumer, producer
}

// TestGlobalRisk recomputes the published risks (testdata/published/
// global-risk.txt), then finds by the judge's own outcomes which readings it
// passes with a meter of this uncertainty (k = 2): fewer faulty resistors get
// by than with either published rule.
func TestGlobalRisk(t *testing.T) {
	least := math.Inf(1)
	for _, c := range trial.Rows(t, "global-risk.txt", 5) {
		consumer, producer := risked(cell(t, c[1], 0), cell(t, c[2], 0))
		if math.Abs(consumer-cell(t, c[3], 0)) > 0.005 || math.Abs(producer-cell(t, c[4], 0)) > 0.005 {
			t.Errorf("%s: consumer's risk %.4f, producer's %.4f; published %s, %s", c[0], consumer, producer, c[3], c[4])
		}
		least = min(least, consumer)
	}
	b := book(t, rule("x", head+fmt.Sprintf("clauses: [{figure: bond, must: {between: %g Ω to %g Ω}}]", limitLow, limitHigh)))
	passes := func(reading float64) bool {
		return b.Judge(set(), []figure.Figure{ohms(reading-2*measuredU, reading+2*measuredU)}, "bare").Findings[0].Outcome == Pass
	}
	// Readings are displayed to 0.01 Ω.
	low, high := math.Inf(1), math.Inf(-1)
	for i := range 81 {
		if reading := 1499.6 + float64(i)/100; passes(reading) {
			low, high = min(low, reading), max(high, reading)
		}
	}
	if !(low > limitLow && high < limitHigh && low < high) {
		t.Fatalf("passes readings from %g to %g", low, high)
	}
	// A reading stands for all that round to it.
	if consumer, _ := risked(low-0.005, high+0.005); !(consumer < least) || !(consumer < 0.001) {
		t.Errorf("passing readings from %g to %g lets %.5f of all by out of limits, published rules %.4f", low, high, consumer, least)
	}
}
