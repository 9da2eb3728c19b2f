package entry

import (
	"fmt"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
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
	for _, p := range b.Parts(part.Supplies) {
		for _, w := range p.Windings {
			for i, from := range w.Order {
				r := c.Reach([]string{p.Full(from)}, bench.Contacts)
				for j := i + 1; j < len(w.Order); j++ {
					if to := p.Full(w.Order[j]); r.Has(to) && j == i+1 {
						return path(r, to), fmt.Sprintf("%s is shorted", p.SectionName(w, j))
					} else if r.Has(to) { // the ends, past a tap that is free
						return path(r, to), fmt.Sprintf("%s.%s is shorted from %s to %s", p.Name, w.Name, from, w.Order[j])
					}
				}
			}
		}
	}
	return nil, ""
}
