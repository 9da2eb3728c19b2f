package readings

import (
	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
	"firstvolt/checks/sheet"
)

var predicted = figure.Def{
	Name: "reading-predicted", Room: "readings", Of: []string{"reading"}, Present: true,
	Says: "Something other than the reading itself predicts it, and no rule of its own takes it.",
}

var disagreement = figure.Def{
	Name: "reading-disagreement", Room: "readings", Of: []string{"reading"}, Unit: quantity.Number,
	Says: outside,
}

// takenElsewhere tells whether a rule of its own judges the reading.
func takenElsewhere(b *bench.Bench, rd *sheet.Reading) bool {
	if atPlug(b, rd, true) != never || atPlug(b, rd, false) != never {
		return true
	}
	for _, s := range bondSubjects(b) {
		if bondReading(b, rd, s.Name) != never {
			return true
		}
	}
	for _, metal := range plugMetal(b) {
		if bothPins(b, rd, metal) != never {
			return true
		}
	}
	return false
}

// wireAlone tells whether copper and mated pins join the probes, whatever the
// state: there is nothing to predict but next to nothing.
func wireAlone(b *bench.Bench, rd *sheet.Reading) bool {
	return inStates(b, rd, func(st bench.State) bool {
		has := touched(b.Circuit(st), rd.A, bench.GroundPath)
		for _, t := range rd.B {
			if has(t) {
				return true
			}
		}
		return false
	}) == always
}

// asked tells whether the agreement of this reading is a question, and its
// answer. A reading over wire alone is none, unless it shows that the wire is
// not there.
func asked(b *bench.Bench, rd *sheet.Reading) (agreement, bool) {
	if rd.Kind != "resistance" && rd.Kind != "insulation" || takenElsewhere(b, rd) {
		return agreement{}, false
	}
	a := agree(b, rd)
	if wireAlone(b, rd) {
		return a, len(a.missing) == 0 && a.r.Low > 1
	}
	return a, !a.unasked || len(a.missing) > 0
}

func computePredicted(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	for _, rd := range b.Sheet.Readings {
		_, yes := asked(b, rd)
		f := figure.Is(&predicted, subject(b, rd), yes)
		f.At = rd.At
		out = append(out, f)
	}
	return out
}

// computeDisagreement gives a figure for each reading that is asked; where
// several bear one name, those that are not asked say nothing.
func computeDisagreement(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	for _, rd := range b.Sheet.Readings {
		if a, yes := asked(b, rd); yes {
			out = append(out, a.figureOf(&disagreement, subject(b, rd), rd))
		}
	}
	return out
}
