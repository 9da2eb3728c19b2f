package entry

import (
	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
)

var supplyEarth = &figure.Def{Name: "supply-gives-earth", Room: "firstpower", Of: []string{"chassis"}, Present: true,
	Says: "the ground contact of the receptacle is tied to the service's neutral or to an electrode"}

// computeSupplyEarth: a bond to a ground pin that leads nowhere protects
// nobody. Of an insulated supply (IT) nobody can say here what a fault does.
func computeSupplyEarth(b *bench.Bench) []figure.Figure {
	of := chassisOf(b)
	f := figure.Is(supplyEarth, of, true)
	for _, system := range b.Earthings() {
		switch system {
		case "tn", "tt":
		case "none":
			f = figure.Is(supplyEarth, of, false)
			f.At = b.Sheet.Supply().Get("earthing").At()
			return []figure.Figure{f}
		default:
			f = figure.NotKnown(supplyEarth, of, figure.Need{What: "how the supply is earthed",
				How: "earthing: tn or tt, as the supplier or an electrician says; an insulated supply needs their judgement"})
		}
	}
	return []figure.Figure{f}
}
