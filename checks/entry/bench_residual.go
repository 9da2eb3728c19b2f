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
		Says: "the device was tested on or after the day of the latest reading"}
)

// computeBenchReliedOn: a bonded chassis has its fuse; without a bond, and on
// a chassis that is live, there is this device alone. Beside an isolating
// transformer it sees no fault and is not relied on.
func computeBenchReliedOn(b *bench.Bench) []figure.Figure {
	isolated := len(b.Sheet.Links("isolating-transformer")) > 0
	w := b.Wired()
	is := !isolated && (w.Bonded != "yes" || w.Construction != "transformer")
	return benchLinks(b, func(_ *sheet.Link, s figure.Subject) figure.Figure {
		return figure.Is(benchReliedOn, s, is)
	}, "gfci", "rcd")
}

// computeBenchTested reads no clock: the day to compare with is that of the
// latest reading on the sheet.
func computeBenchTested(b *bench.Bench) []figure.Figure {
	latest := b.Sheet.LastTaken()
	return benchLinks(b, func(l *sheet.Link, s figure.Subject) figure.Figure {
		tested := l.Word("tested")
		switch {
		case tested == "":
			return figure.NotKnown(benchTested, s, benchLacks(s, "tested", "press its button under supply, see it trip, write the day"))
		case latest == "":
			return figure.NotKnown(benchTested, s, figure.Need{What: "readings taken", How: "the day of the readings"})
		}
		f := figure.Is(benchTested, s, tested >= latest)
		f.Note = "tested " + tested + ", latest reading " + latest
		return f
	}, "gfci", "rcd")
}
