package readings

import (
	"fmt"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
	"firstvolt/checks/sheet"
)

var hasSeries = figure.Def{
	Name: "insulation-read-over-time", Room: "readings", Of: []string{"reading"}, Present: true,
	Says: "The insulation was read more than once while the test ran, at less than 5 GΩ.",
}

var trend = figure.Def{
	Name: "insulation-rise", Room: "readings", Of: []string{"reading"}, Unit: quantity.Number,
	Says: "insulation after 60 s, divided by that after 30 s, or the last divided by the first",
}

// trendCeiling is where the ratio says nothing any more: IEEE 43, of machines,
// as quoted, 5 GΩ.
const trendCeiling = 5e9

// ends are the two displays to compare: after 30 s and 60 s where both stand
// there, else the first and the last. ok is false where the early one is but a
// lower bound, or so high that nothing follows from it.
func ends(rd *sheet.Reading) (early, late sheet.Shown, ok bool) {
	if rd.Kind != "insulation" || len(rd.Shown) < 2 {
		return early, late, false
	}
	early, late = rd.Shown[0], rd.Last()
	for _, x := range rd.Shown {
		for _, y := range rd.Shown {
			if x.After == 30 && y.After == 60 {
				early, late = x, y
			}
		}
	}
	return early, late, !early.OL && !early.Over && early.Value.Low <= trendCeiling
}

func computeHasSeries(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	for _, rd := range b.Sheet.Readings {
		_, _, yes := ends(rd)
		out = append(out, figure.Is(&hasSeries, subject(b, rd), yes))
	}
	return out
}

func computeTrend(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	for _, rd := range b.Sheet.Readings {
		early, late, ok := ends(rd)
		if !ok {
			continue
		}
		x, okX, why := rd.TrueAt(early)
		y, okY, _ := rd.TrueAt(late)
		f := figure.Number(&trend, subject(b, rd), y.Div(x, quantity.Number))
		f.Trace = []string{fmt.Sprintf("after %g s %s, after %g s %s", early.After, x, late.After, y)}
		if !okX || !okY {
			f = figure.NotKnown(&trend, subject(b, rd), useless(rd, why))
		}
		f.At = rd.At
		out = append(out, f)
	}
	return out
}
