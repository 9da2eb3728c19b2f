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
		if witness, note := shortedWinding(b, st); witness != nil {
			return present(windingShorted, b.Set(), witness, note)
		}
	}
	return figure.Is(windingShorted, b.Set(), false)
}

// shortedWinding is the first stretch of a winding that is shorted in state st.
func shortedWinding(b *bench.Bench, st bench.State) (witness []string, note string) {
	c := b.Circuit(st)
	for _, p := range b.Parts("transformer", "autotransformer") {
		for _, w := range p.Windings {
			for i := 1; i < len(w.Order); i++ {
				from, to := p.Full(w.Order[i-1]), p.Full(w.Order[i])
				if r := c.Reach([]string{from}, bench.Contacts); r.Has(to) {
					return path(r, to), fmt.Sprintf("%s is shorted", p.SectionName(w, i))
				}
			}
		}
	}
	return nil, ""
}
