package ratings

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
)

// choices are the voltages that a primary can be connected for: its terminals
// counted from the first end, and what each selector position makes of it.
func choices(b *bench.Bench, w bench.PartWinding) []float64 {
	var out []float64
	add := func(v float64) {
		if v > 0 && !slices.ContainsFunc(out, func(o float64) bool { return math.Abs(o-v) < 0.01 }) {
			out = append(out, v)
		}
	}
	alone := true
	states, _ := b.Combinations(bench.ClosedState(), true)
	for _, st := range states {
		for _, f := range feeds(b, st) {
			if !f.has(w) {
				continue
			}
			add(f.volts() / f.share)
			alone = alone && !slices.ContainsFunc(f.stretches, func(s stretch) bool { return s.winding.Winding != w.Winding }) && f.share == 1
		}
	}
	if alone {
		for _, v := range stops(w) {
			add(v)
		}
	}
	slices.Sort(out)
	return out
}

var tapped = bench.EachWinding(figure.Def{
	Name: "primary-choice", Of: []string{"winding"}, Present: true,
	Says: "the winding can be connected for more than one supply voltage.",
}, func(b *bench.Bench, w bench.PartWinding) figure.Figure {
	// Taps without volts are a choice too, one that nobody can check.
	return figure.So(onLine(b, w) && (len(w.Winding.Order) > 2 || len(choices(b, w)) > 1))
})

// near is how much nearer counts, in V: less is rounding.
const near = 0.01

// nearest is the choice that lies nearest to the supply, of two as near the
// higher, all in V.
func nearest(supply float64, all []float64) float64 {
	best := math.NaN()
	for _, v := range all { // rising
		if !(math.Abs(v-supply) > math.Abs(best-supply)+near) {
			best = v
		}
	}
	return best
}

// aboveBy is by how many V a choice above the one in use lies nearer to the
// supply; it never falls where the supply rises.
func aboveBy(used, supply float64, all []float64) float64 {
	by := 0.0
	for _, v := range all {
		if v > used+near {
			by = math.Max(by, math.Abs(used-supply)-math.Abs(v-supply))
		}
	}
	if by < near {
		return 0
	}
	return by
}

// overTap is how far above a tap the supply may stand (common practice; heaters
// and iron of the set are made for a tenth).
const overTap = 1.10

// made is what a winding is connected for, in V: what one volt over it makes.
func made(q quantity.Range) quantity.Range {
	return quantity.Between(1/q.High, 1/q.Low, quantity.Voltage)
}

// tapAbove asks it over all that the supply may have. Where the set tap stands
// the highest of that, a nearer tap for part of it is none that must be taken.
var tapAbove = ofTaps(figure.Def{
	Name: "higher-tap-nearer-by", Unit: quantity.Voltage,
	Says: "by how much a tap or position for more volts lies nearer to the supply.",
}, (*bench.Bench).Arriving, func(b *bench.Bench, used, at quantity.Range, all []float64) figure.Figure {
	by := quantity.Between(aboveBy(used.High, at.Low, all), aboveBy(used.Low, at.High, all), quantity.Voltage)
	var trace []string
	if top := quantity.Six(at.High / used.Low); by.Low == 0 && by.High > 0 && top <= overTap {
		by.High = 0
		trace = []string{fmt.Sprintf("no more than %g times the tap in use at the highest supply: %.4g V ÷ %.4g V = %.3g", overTap, at.High, used.Low, top)}
	}
	return figure.Figure{Range: by, Trace: trace, Note: unset(b)}
})

// tapBetter looks for any other tap that suits better, the one for fewer volts
// and one as near as the one in use too. A variac that keeps the volts at a low
// tap can be turned up: it does not count.
var tapBetter = ofTaps(figure.Def{
	Name: "tap-better-for-supply", Present: true,
	Says: "another tap or position lies nearer to the supply, or as near and higher.",
}, (*bench.Bench).Offered, func(_ *bench.Bench, used, at quantity.Range, all []float64) figure.Figure {
	low, high := nearest(at.Low, all), nearest(at.High, all)
	side := func(best, used float64) int {
		switch {
		case best > used+near:
			return 1
		case best < used-near:
			return -1
		}
		return 0
	}
	first := side(low, used.High)
	for _, s := range []int{side(low, used.Low), side(high, used.Low), side(high, used.High)} {
		if s != first {
			f := figure.Lacking(voltsNeed)
			f.Note = fmt.Sprintf("for a supply of %s take %s, for one of %s take %s", quantity.Format(at.Low, quantity.Voltage), quantity.Format(low, quantity.Voltage),
				quantity.Format(at.High, quantity.Voltage), quantity.Format(high, quantity.Voltage))
			return f
		}
	}
	f := figure.So(first != 0)
	if first != 0 {
		f.Note = fmt.Sprintf("it is connected for %s; for a supply of %s take %s", used, at, quantity.Between(low, high, quantity.Voltage))
	}
	return f
})

// voltsNeed is what tells how many volts arrive at the set.
var voltsNeed = figure.Need{What: "supply voltage", How: "the volts at the receptacle, by a meter"}

// ofTaps is a figure of each primary: what it may be connected for, the volts
// that arrive, and its choices.
func ofTaps(d figure.Def, arriving func(*bench.Bench) quantity.Range, value func(b *bench.Bench, used, at quantity.Range, all []float64) figure.Figure) bench.Check {
	one := func(*bench.Bench) float64 { return 1 }
	return ofPrimaries(d, one, func(b *bench.Bench, w bench.PartWinding, q quantity.Range, _ []string) figure.Figure {
		all, used, at := choices(b, w), made(q).Rounded(), arriving(b)
		f := value(b, used, at, all)
		var choice []string
		for _, v := range all {
			choice = append(choice, quantity.Format(v, quantity.Voltage))
		}
		f.Trace = append([]string{fmt.Sprintf("in use %s, to choose from %s, supply %s", used, strings.Join(choice, ", "), at)}, f.Trace...)
		f.Settle = []figure.Need{voltsNeed}
		return f
	})
}
