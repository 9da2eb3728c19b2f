package entry

import (
	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/sheet"
)

var (
	benchReliedOn = &figure.Def{Name: "residual-relied-on", Room: "firstpower", Of: []string{"link"}, Present: true,
		Says: "no bond holds the chassis, and this device is what opens when a hand finds it live"}
	benchTested = &figure.Def{Name: "residual-tested-today", Room: "firstpower", Of: []string{"link"}, Present: true,
		Says: "the device was tested on or after the day of the latest reading, and within 31 days of it"}
)

// computeBenchReliedOn: a bonded chassis has its fuse; without a bond, and on
// a chassis that is live, there is this device alone. Where it sees no fault it
// is not relied on.
func computeBenchReliedOn(b *bench.Bench) []figure.Figure {
	sees, known, _ := b.Sees()
	w := b.Wired()
	is := (sees || !known) && (w.Bonded != "yes" || w.Construction != "transformer")
	return benchLinks(b, func(_ *sheet.Link, s figure.Subject) figure.Figure {
		return figure.Is(benchReliedOn, s, is)
	}, "gfci", "rcd")
}

// computeBenchTested reads no clock: the day to compare with is that of the
// latest reading on the sheet.
func computeBenchTested(b *bench.Bench) []figure.Figure {
	return benchLinks(b, func(l *sheet.Link, s figure.Subject) figure.Figure {
		counts, why, missing := b.Tested(l)
		if missing != "" {
			return figure.NotKnown(benchTested, s, figure.Need{What: missing, How: "press its button under supply, see it trip, write the day; and the day of the readings"})
		}
		f := figure.Is(benchTested, s, counts)
		if f.Note = why; counts {
			f.Note = "tested " + l.Word("tested") + ", latest reading " + b.Sheet.LastTaken()
		}
		return f
	}, "gfci", "rcd")
}
