package entry

import (
	"fmt"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
)

var windingShorted = &figure.Def{Name: "winding-shorted", Room: "entry", Of: []string{"set"}, Present: true,
	Says: "wire or closed contacts join the two ends of a stretch of a mains transformer's winding"}

// computeWindingShorted looks at every stretch of every winding, switched on
// and selectors as set; other positions are selector-never-shorts' matter.
func computeWindingShorted(b *bench.Bench) figure.Figure {
	for _, st := range positions(b, bench.State{}) {
		c := b.Circuit(st)
		for _, p := range b.Parts("transformer", "autotransformer") {
			for _, w := range p.Windings {
				for i := 1; i < len(w.Order); i++ {
					from, to := p.Full(w.Order[i-1]), p.Full(w.Order[i])
					if r := c.Reach([]string{from}, bench.Contacts); r.Has(to) {
						return present(windingShorted, b.Set(), path(r, to), fmt.Sprintf("%s is shorted", p.SectionName(w, i)))
					}
				}
			}
		}
	}
	return figure.Is(windingShorted, b.Set(), false)
}
