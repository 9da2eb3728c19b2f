package ratings

import (
	"fmt"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/handbook"
	"firstvolt/checks/quantity"
)

var (
	cordLoadDef = &figure.Def{
		Name: "cord-load-share", Room: "ratings", Of: []string{"cord"}, Unit: quantity.Number,
		Says: "running current, divided by what a conductor of the cord may carry.",
	}
	cordFuseDef = &figure.Def{
		Name: "fuse-over-cord", Room: "ratings", Of: []string{"cord"}, Unit: quantity.Number,
		Says: "rating of the set's mains fuse, divided by what a conductor of the cord may carry.",
	}
	cordDoubleDef = &figure.Def{
		Name: "cord-double", Room: "ratings", Of: []string{"cord"}, Present: true,
		Says: "the cord has insulated cores inside a jacket.",
	}
)

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
	if !ok {
		return quantity.Range{}, basis, []figure.Need{{What: "cord size", How: "a cord of a size that the table knows; " + written + " is not one for this use"}}
	}
	return quantity.Exact(amps, quantity.Current), basis, nil
}

// overAmpacity compares a current with the cord.
func overAmpacity(b *bench.Bench, d *figure.Def, of figure.Subject, amps quantity.Range, needs []figure.Need) figure.Figure {
	carry, basis, more := ampacity(b)
	if needs = append(append([]figure.Need{}, needs...), more...); len(needs) > 0 {
		return figure.NotKnown(d, of, needs...)
	}
	q := amps.Div(carry, quantity.Number)
	f := figure.Number(d, of, q)
	f.Trace = []string{fmt.Sprintf("%s ÷ %s = %s", amps, carry, q)}
	f.From = []figure.Basis{basis}
	return f
}

func theCord(b *bench.Bench) figure.Subject { s, _ := b.Subject("cord", "cord"); return s }

func cordLoad(b *bench.Bench) []figure.Figure {
	in := running(b)
	f := overAmpacity(b, cordLoadDef, theCord(b), in.span(), in.needs)
	f.Trace = append(append([]string{}, in.trace...), f.Trace...)
	f.From = append(f.From, in.from...)
	return []figure.Figure{f}
}

func cordFuse(b *bench.Bench) []figure.Figure {
	rating, needs := largestFuse(b)
	return []figure.Figure{overAmpacity(b, cordFuseDef, theCord(b), rating, needs)}
}

func cordDouble(b *bench.Bench) []figure.Figure {
	of := theCord(b)
	word := b.Sheet.Cord().Word("insulation")
	if word == "" {
		return []figure.Figure{figure.NotKnown(cordDoubleDef, of, figure.Need{What: "cord insulation", How: "look at the cut end: one layer, or cores inside a jacket"})}
	}
	return []figure.Figure{figure.Is(cordDoubleDef, of, word == "double")}
}
