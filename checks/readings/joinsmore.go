package readings

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
	"firstvolt/checks/sheet"
)

// A reading that joins more cannot read more. A quarter is allowed for meter
// and weather; under 20 MΩ the two together prove nothing (rule of the
// readings, advice band of insulation practice).
const (
	joinedShare = 1.25
	joinedFloor = 20e6
)

var readsMore = figure.Def{
	Name: "joins-more-and-reads-more", Room: "readings", Of: []string{"reading"}, Present: true,
	Says: "It joins all that another insulation reading joins, and reads more.",
}

var eitherWrong = figure.Def{
	Name: "either-reading-wrong", Room: "readings", Of: []string{"reading"}, Present: true,
	Says: "It joins all that another insulation reading joins and reads more, and that one is low: either may be wrong.",
}

// computeReadsMore compares each insulation reading with every other one whose
// joined nodes it holds and adds to.
func computeReadsMore(b *bench.Bench) []figure.Figure { return compared(b, &readsMore, false) }

// computeEitherWrong says of which nobody can tell, as the other one is low.
func computeEitherWrong(b *bench.Bench) []figure.Figure { return compared(b, &eitherWrong, true) }

func compared(b *bench.Bench, d *figure.Def, low bool) []figure.Figure {
	var out []figure.Figure
	all := ofKind(b, "insulation")
	for _, rd := range b.Sheet.Readings {
		f := figure.Is(d, subject(b, rd), false)
		for _, less := range all {
			if rd.Kind != "insulation" || rd == less || !joinsMore(b, rd, less) {
				continue
			}
			x, okX := shownBound(rd)
			y, okY := shownBound(less)
			if !okX || !okY || !(x > joinedShare*y) || low != (y < joinedFloor) {
				continue
			}
			note := fmt.Sprintf("%s joins all that %s joins and reads %s against %s", rd.Name, less.Name, quantity.Format(x, quantity.Resistance), quantity.Format(y, quantity.Resistance))
			if low {
				f = figure.NotKnown(d, subject(b, rd), figure.Need{What: "the insulation readings of " + rd.Name + " and " + less.Name + ", taken again", How: note + ": one of them is wrong"})
				break
			}
			f = figure.Is(d, subject(b, rd), true)
			f.Note = note
		}
		f.At = rd.At
		out = append(out, f)
	}
	return out
}

// shownBound is what the meter showed, a lower bound taken as its value.
func shownBound(rd *sheet.Reading) (float64, bool) {
	s := rd.Last()
	switch {
	case !s.OL:
		return s.Value.Low, true
	case rd.HasRange:
		return rd.Range.Low, true
	case rd.With != nil && rd.With.HasCeiling && rd.With.Ceiling.Dim == quantity.Resistance:
		return rd.With.Ceiling.Low, true
	}
	return 0, false
}

// joinsMore tells whether more certainly holds at its probes everything that
// less may hold at its own. Two readings of the very same nodes count as well:
// they too cannot differ by so much.
func joinsMore(b *bench.Bench, more, less *sheet.Reading) bool {
	ma, mb := held(b, more, true)
	la, lb := held(b, less, false)
	in := func(small, large map[string]bool) bool {
		for t := range small {
			if !large[t] {
				return false
			}
		}
		return true
	}
	return in(la, ma) && in(lb, mb) || in(la, mb) && in(lb, ma)
}

// held are the terminals that each probe touches through what conducts: in
// every state that the reading leaves open (certain), or in any.
func held(b *bench.Bench, rd *sheet.Reading, certain bool) (x, y map[string]bool) {
	states, _ := b.StatesOf(rd)
	side := func(probe []string) map[string]bool {
		count := map[string]int{}
		for _, st := range states {
			seen := append(b.Circuit(st).Reach(probe, bench.Conductors).Terminals(), probe...)
			slices.Sort(seen)
			for _, t := range slices.Compact(seen) {
				if !strings.Contains(t, " ") { // the wires of a lifted lead have no name on the sheet
					count[t]++
				}
			}
		}
		out := map[string]bool{}
		need := 1
		if certain {
			need = int(math.Max(1, float64(len(states))))
		}
		for t, n := range count {
			out[t] = n >= need
			if !out[t] {
				delete(out, t)
			}
		}
		return out
	}
	return side(rd.A), side(rd.B)
}
