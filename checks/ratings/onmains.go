package ratings

import (
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
)

// onMains states which fuses and switches belong to the mains entry: with all
// switches closed a line conductor reaches them by wire, contacts, filters and
// small series parts, in some selector position.
var onMains = bench.EachPart(figure.Def{
	Name: "on-mains", Of: part.Named(part.Fuses | part.Switches), Present: true,
	Says: "it stands in a line conductor, ahead of every load.",
}, func(b *bench.Bench, p *part.Part) figure.Figure {
	is, path := standsOnMains(b, p)
	return searched(b, is, path)
})

func standsOnMains(b *bench.Bench, p *part.Part) (bool, []string) {
	lines := b.Lines()
	for _, st := range inUse(b) {
		r := b.Circuit(st).Reach(lines[:], bench.Near)
		for _, t := range p.Terminals() {
			if r.Has(p.Full(t)) {
				return true, bench.Trace(r.Path(p.Full(t)))
			}
		}
	}
	return false, nil
}

// mainsFuses are the set's own fuses in the line conductors.
func mainsFuses(b *bench.Bench) []*part.Part {
	return slices.DeleteFunc(b.Parts(part.Fuses), func(p *part.Part) bool {
		is, _ := standsOnMains(b, p)
		return !is
	})
}
