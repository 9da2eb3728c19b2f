package ratings

import (
	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
)

var selectorShortsDef = &figure.Def{
	Name: "selector-shorts", Room: "ratings", Of: []string{"selector"}, Present: true,
	Says: "some position joins two terminals of one winding, or one line conductor to the other.",
}

// selectorShorts turns each selector through all positions, the others too,
// and follows wire and contacts alone.
func selectorShorts(b *bench.Bench) []figure.Figure {
	states, all := b.Combinations(bench.ClosedState(), true)
	short := map[string][]string{}
	for _, st := range states {
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
				if p := bench.PartOfElement(s.Via); p != nil && p.Kind.Name == "selector" && short[p.Name] == nil {
					short[p.Name] = bench.Trace(path)
				}
			}
		}
	}
	var out []figure.Figure
	for _, p := range b.Parts("selector") {
		f := figure.Is(selectorShortsDef, b.Of(p), short[p.Name] != nil)
		f.Witness = short[p.Name]
		if !all && short[p.Name] == nil {
			f = figure.NotKnown(selectorShortsDef, b.Of(p), everyPositionNeed)
		}
		out = append(out, f)
	}
	return out
}

// apart lists the pairs of terminals that no position may join.
func apart(b *bench.Bench) [][2]string {
	out := [][2]string{b.Lines()}
	for _, p := range b.Parts("transformer", "autotransformer", "output-transformer") {
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
