package ratings

import (
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/handbook"
	"firstvolt/checks/quantity"
)

var cordLoad = bench.EachSubject(figure.Def{
	Name: "cord-load-share", Of: []string{"cord"}, Unit: quantity.Number,
	Says: "running current, divided by what a conductor of the cord may carry.",
}, func(b *bench.Bench, _ figure.Subject) figure.Figure {
	in := running(b)
	return in.explains(overAmpacity(b, in.span(), in.needs...))
})

var cordFuse = bench.EachSubject(figure.Def{
	Name: "fuse-over-cord", Of: []string{"cord"}, Unit: quantity.Number,
	Says: "rating of the set's mains fuse, divided by what a conductor of the cord may carry.",
}, func(b *bench.Bench, _ figure.Subject) figure.Figure {
	rating, needs := largestFuse(b)
	return overAmpacity(b, rating, needs...)
})

var cordDouble = bench.EachSubject(figure.Def{
	Name: "cord-double", Of: []string{"cord"}, Present: true,
	Says: "the cord has insulated cores inside a jacket.",
}, func(b *bench.Bench, _ figure.Subject) figure.Figure {
	word := b.Sheet.Cord().Word("insulation")
	if word == "" {
		return figure.Lacking(figure.Need{What: "cord insulation", How: "look at the cut end: one layer, or cores inside a jacket"})
	}
	return figure.So(word == "double")
})

// ampacity is what one conductor of the cord may carry, in A. A third
// conductor that is no ground carries current too.
func ampacity(b *bench.Bench) (quantity.Range, figure.Basis, []figure.Need) {
	written, area, ok := b.Sheet.ConductorSize()
	if !ok {
		return quantity.Range{}, figure.Basis{}, []figure.Need{{What: "cord size", How: "read it off the jacket: 18 AWG, 0.75 mm²"}}
	}
	carrying := 2
	if _, resistance := b.Sheet.CordValue("third"); resistance {
		carrying = 3
	}
	amps, basis, ok := handbook.Ampacity(written, area, carrying)
	if ok {
		return quantity.Exact(amps, quantity.Current), basis, nil
	}
	if amps, basis, ok = handbook.AmpacityAtMost(area, carrying); ok {
		return quantity.Range{High: amps, Dim: quantity.Current}, basis, nil
	}
	return quantity.Range{}, basis, []figure.Need{tabledCord(written)}
}

// tabledCord is what settles how much a cord carries whose size no table has.
func tabledCord(written string) figure.Need {
	return figure.Need{What: "cord size", How: "a cord of a size that the table knows; " + written + " is not one for this use"}
}

// onCord adds to a share of what the cord carries what settles it, where it is
// known only what the cord carries no more than.
func onCord(b *bench.Bench, f figure.Figure, carry quantity.Range) figure.Figure {
	if written, _, _ := b.Sheet.ConductorSize(); f.Known() && !(carry.Low > 0) {
		need := tabledCord(written)
		f.Finer = &need
	}
	return f
}

// overAmpacity compares a current with the cord.
func overAmpacity(b *bench.Bench, amps quantity.Range, needs ...figure.Need) figure.Figure {
	carry, basis, more := ampacity(b)
	f := figure.Over(amps, carry, slices.Concat(needs, more)...)
	if f.Known() {
		f.From = []figure.Basis{basis}
	}
	return onCord(b, f, carry)
}
