package ratings

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
)

var (
	tappedDef = &figure.Def{
		Name: "primary-choice", Room: "ratings", Of: []string{"winding"}, Present: true,
		Says: "the winding can be connected for more than one supply voltage.",
	}
	tapRatioDef = &figure.Def{
		Name: "supply-over-tap", Room: "ratings", Of: []string{"winding"}, Unit: quantity.Number,
		Says: "nominal supply, divided by the voltage of the tap or position in use.",
	}
	positionOffDef = &figure.Def{
		Name: "position-off-its-name", Room: "ratings", Of: []string{"winding"}, Unit: quantity.Number,
		Says: "how far the volts that a selector position makes of the winding lie from those it is named by, as a share of these.",
	}
	tapNearerDef = &figure.Def{
		Name: "tap-nearer-by", Room: "ratings", Of: []string{"winding"}, Unit: quantity.Voltage,
		Says: "by how much another tap or position lies nearer to the nominal supply.",
	}
	tapBetterDef = &figure.Def{
		Name: "tap-better-for-stated-supply", Room: "ratings", Of: []string{"winding"}, Present: true,
		Says: "another tap or position lies nearer to the supply as stated on the sheet, or else as nominal, or as near and higher.",
	}
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

func tapped(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	for _, s := range b.Subjects("winding") {
		is := false
		for _, w := range b.Wired().Primaries {
			if w.Name() == s.Name {
				// Taps without volts are a choice too, one that nobody can check.
				is = len(choices(b, w)) > 1 || len(w.Winding.Order) > 2
			}
		}
		out = append(out, figure.Is(tappedDef, s, is))
	}
	return out
}

func tapRatio(b *bench.Bench) []figure.Figure {
	return ofPrimaries(b, tapRatioDef, nominal(b).High, func(_ bench.PartWinding, of figure.Subject, q quantity.Range, trace []string) figure.Figure {
		f := figure.Number(tapRatioDef, of, q)
		f.Trace = trace
		return f
	})
}

// better is the choice that lies nearer to the supply than the one in use, of
// two as near the higher, else the one in use, all in V. A tap at or above the
// supply is judged against others at or above it, since a little too high a tap
// is the careful side; one below is judged against all.
func better(used, supply float64, all []float64) float64 {
	best := used
	for _, v := range all {
		if used >= supply && v < supply {
			continue
		}
		by := math.Abs(best-supply) - math.Abs(v-supply)
		if by > 0.01 || by > -0.01 && v > best { // a hundredth is rounding
			best = v
		}
	}
	return best
}

func tapNearer(b *bench.Bench) []figure.Figure {
	want := nominal(b).High
	return ofPrimaries(b, tapNearerDef, want, func(w bench.PartWinding, of figure.Subject, q quantity.Range, _ []string) figure.Figure {
		all := choices(b, w)
		by := quantity.Range{Low: math.Inf(1), High: math.Inf(-1), Dim: quantity.Voltage}
		for _, ratio := range []float64{q.Low, q.High} {
			used := want / ratio
			nearer := math.Abs(used-want) - math.Abs(better(used, want, all)-want)
			if nearer < 0.01 {
				nearer = 0 // as near, but for rounding
			}
			by.Low, by.High = math.Min(by.Low, nearer), math.Max(by.High, nearer)
		}
		f := figure.Number(tapNearerDef, of, by)
		var choice []string
		for _, v := range all {
			choice = append(choice, quantity.Format(v, quantity.Voltage))
		}
		f.Trace = []string{fmt.Sprintf("in use %s, to choose from %s, supply %g V", quantity.Between(want/q.Low, want/q.High, quantity.Voltage), strings.Join(choice, ", "), want)}
		return f
	})
}

// tapBetter looks at the supply as it was measured, where it was, and at two
// taps that lie as near as each other.
func tapBetter(b *bench.Bench) []figure.Figure {
	want := nominal(b).High
	if _, ok := part.ValueOf(b.Sheet.Supply().Get("voltage")); ok {
		want = b.StatedVolts()
	}
	return ofPrimaries(b, tapBetterDef, want, func(w bench.PartWinding, of figure.Subject, q quantity.Range, _ []string) figure.Figure {
		f := figure.Is(tapBetterDef, of, false)
		for _, ratio := range []float64{q.Low, q.High} {
			used := want / ratio
			if best := better(used, want, choices(b, w)); math.Abs(best-used) > 0.01 {
				f = figure.Is(tapBetterDef, of, true)
				f.Note = fmt.Sprintf("it is connected for %s; for a supply of %s take %s", quantity.Format(quantity.Six(used), quantity.Voltage),
					quantity.Format(want, quantity.Voltage), quantity.Format(best, quantity.Voltage))
			}
		}
		return f
	})
}
