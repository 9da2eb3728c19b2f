package entry

import (
	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/sheet"
)

// BenchChecks lists the figures of the bench chain, from receptacle to set:
// what limits, isolates and guards the first voltage. They belong to the room
// firstpower; what the set itself does with that voltage is not asked here.
var BenchChecks = []bench.Check{
	{Def: supplyEarth, Compute: computeSupplyEarth},
	{Def: benchLimiter, Compute: computeBenchLimiter},
	{Def: benchLampInHot, Compute: computeBenchLampInHot},
	{Def: benchHotIsSure, Compute: computeBenchHotIsSure},
	{Def: benchLampFloats, Compute: computeBenchLampFloats},
	bench.Check{Def: benchLampShare, Compute: computeBenchLampShare}.OnSupply(),
	{Def: benchEarth, Compute: computeBenchEarth},
	{Def: benchFloats, Compute: computeBenchFloats},
	{Def: benchEarthPast, Compute: computeBenchEarthPast},
	{Def: benchReliedOn, Compute: computeBenchReliedOn},
	{Def: benchTested, Compute: computeBenchTested},
}

// benchLinks computes a figure of every link of the given kinds.
func benchLinks(b *bench.Bench, compute func(*sheet.Link, figure.Subject) figure.Figure, kinds ...string) []figure.Figure {
	var out []figure.Figure
	for i, s := range b.Subjects("link") {
		l := b.Sheet.Upstream[i]
		for _, k := range kinds {
			if l.Kind == k {
				f := compute(l, s)
				f.At = l.At
				out = append(out, f)
			}
		}
	}
	return out
}

// benchLacks is the need for a key of a link.
func benchLacks(s figure.Subject, key, how string) figure.Need {
	return figure.Need{What: s.Name + " " + key, How: how}
}

// benchNeed is what supplies the chain as a whole.
var benchNeed = figure.Need{What: "supply upstream", How: "every unit between receptacle and set, supply end first; an empty list where there is none"}
