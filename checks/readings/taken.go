package readings

import (
	"fmt"
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/figure"
	"firstvolt/checks/sheet"
)

// useless is the need of a reading that is on the sheet and proves nothing.
func useless(rd *sheet.Reading, why string) figure.Need {
	return figure.Need{What: "a " + rd.Kind + " reading of " + rd.Name + " that proves something", How: why}
}

// ofKind lists the readings of one kind in the order of the sheet.
func ofKind(b *bench.Bench, kind string) []*sheet.Reading {
	var out []*sheet.Reading
	for _, rd := range b.Sheet.Readings {
		if rd.Kind == kind {
			out = append(out, rd)
		}
	}
	return out
}

// subject is the reading itself as a subject.
func subject(b *bench.Bench, rd *sheet.Reading) figure.Subject {
	s, _ := b.Subject("reading", rd.Name)
	return s
}

// missing makes a figure that is not known, of which a reading was tried or not.
func missing(tried bool) func(*figure.Def, figure.Subject, ...figure.Need) figure.Figure {
	if tried {
		return figure.NotKnown
	}
	return figure.NotTaken
}

// triedOn tells whether an ohmmeter was on the winding between two places of its
// Order, whatever it proves.
func triedOn(b *bench.Bench, w bench.PartWinding, from, to int) bool {
	return slices.ContainsFunc(ofKind(b, "resistance"), func(rd *sheet.Reading) bool {
		i, j := place(w.Part, w.Winding, rd.A), place(w.Part, w.Winding, rd.B)
		return min(i, j) >= from && max(i, j) <= to && i != j
	})
}

// joins tells whether the reading has exactly these single nodes at its
// probes, either way round.
func joins(rd *sheet.Reading, x, y string) bool {
	if len(rd.A) != 1 || len(rd.B) != 1 {
		return false
	}
	return rd.A[0] == x && rd.B[0] == y || rd.A[0] == y && rd.B[0] == x
}

// extent is how many of the states that a reading may have been taken in meet
// a condition.
type extent int

const (
	never  extent = iota // in none: the reading is of something else
	partly               // in some: which it was, the sheet does not say
	always
)

// inStates asks a condition in every state that the reading leaves open. Too
// many states to try count as not said.
func inStates(b *bench.Bench, rd *sheet.Reading, holds func(bench.State) bool) extent {
	states, ok := b.StatesOf(rd)
	n := 0
	for _, st := range states {
		if holds(st) {
			n++
		}
	}
	switch {
	case n == 0 && ok:
		return never
	case n == len(states) && ok:
		return always
	}
	return partly
}

// unsaid is the need of a reading whose state is not told closely enough.
func unsaid(rd *sheet.Reading) figure.Need {
	return figure.Need{What: "how switches and selectors stood for the " + rd.Kind + " reading of " + rd.Name,
		How: "add switches: or positions: to the reading"}
}

// touched is everything that a probe on these terminals touches, through what
// the filter lets pass. A probe touches its own terminals even where no wire
// does.
func touched(c *circuit.Circuit, probe []string, through func(*circuit.Element) bool) func(string) bool {
	r := c.Reach(probe, through)
	return func(t string) bool { return slices.Contains(probe, t) || r.Has(t) }
}

func ohmsOf(x float64) string { return fmt.Sprintf("%.4g Ω", x) }
