package ratings

import (
	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
)

var selectorShorts = bench.EachPart(figure.Def{
	Name: "selector-shorts", Of: part.Named(part.Selects), Present: true,
	Says: "some position joins two terminals of one winding, or one line conductor to the other.",
}, func(b *bench.Bench, p *part.Part) figure.Figure {
	path := shorting(b)[p]
	if _, all := b.Combinations(bench.ClosedState(), true); !all && path == nil {
		return figure.Lacking(everyPositionNeed)
	}
	f := figure.So(path != nil)
	f.Witness = path
	return f
})

// shorting is findShorting, done once.
func shorting(b *bench.Bench) map[*part.Part][]string {
	return b.Keep(kept("shorting"), func() any { return findShorting(b) }).(map[*part.Part][]string)
}

// findShorting turns the selectors through all positions, and follows wire and
// contacts alone: of each selector the first path that it shorts.
func findShorting(b *bench.Bench) map[*part.Part][]string {
	short := map[*part.Part][]string{}
	for _, st := range inUse(b) {
		c := b.Circuit(st)
		for _, pair := range apart(b) {
			r := c.Reach(pair[:1], bench.Contacts)
			if !r.Has(pair[1]) {
				continue
			}
			path := r.Path(pair[1])
			for _, s := range path {
				if s.Via == nil {
					continue
				}
				if p := bench.PartOfElement(s.Via); p != nil && p.Is(part.Selects) && short[p] == nil {
					short[p] = bench.Trace(path)
				}
			}
		}
	}
	return short
}

// apart lists the pairs of terminals that no position may join.
func apart(b *bench.Bench) [][2]string {
	out := [][2]string{b.Lines()}
	for _, p := range b.Parts(part.Cores) {
		for _, w := range p.Windings {
			for i := range w.Order {
				for j := range w.Order[:i] {
					out = append(out, [2]string{p.Full(w.Order[i]), p.Full(w.Order[j])})
				}
			}
		}
	}
	return out
}
