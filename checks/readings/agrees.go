package readings

import (
	"fmt"
	"slices"

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
	if why := noGroundPin(b, rd); why != "" {
		return agreement{r: quantity.AtLeast(countless, quantity.Number), note: why}, true
	}
	if rd.Kind != "resistance" && rd.Kind != "insulation" || takenElsewhere(b, rd) {
		return agreement{}, false
	}
	a := agree(b, rd)
	if wireAlone(b, rd) {
		return a, len(a.missing) == 0 && a.r.Low > 1
	}
	return a, !a.unasked || len(a.missing) > 0
}

// noGroundPin says why a reading at the ground pin cannot have been taken: the
// plug, the cord or the inlet of the sheet has no such contact, or its third
// conductor is a resistance that the meter did not see. "" where it can.
func noGroundPin(b *bench.Bench, rd *sheet.Reading) string {
	if !slices.Contains(rd.A, sheet.PlugGround) && !slices.Contains(rd.B, sheet.PlugGround) {
		return ""
	}
	cord := b.Sheet.Cord()
	has := ""
	switch third, resists := b.ThirdConductor(); {
	case !b.Sheet.Plug.Ground:
		has = "the plug " + b.Sheet.Plug.Name + " has none"
	case cord.Word("conductors") == "2":
		has = "a cord of two conductors has none"
	case cord.Word("inlet") == "iec-60320-c8":
		has = "the inlet iec-60320-c8 has none"
	case resists:
		r, ok, _ := rd.True()
		if !ok || rd.Kind != "resistance" || !(r.High < allowShare*third.Low) || !joins(rd, sheet.PlugGround, sheet.Chassis) {
			return ""
		}
		return fmt.Sprintf("the third conductor is said to have %s, and the meter saw %s to the chassis: one of the two is wrong", third, r)
	default:
		return ""
	}
	return "it was read at the ground pin, and " + has + ": the reading or the sheet is wrong"
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
