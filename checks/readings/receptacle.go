package readings

import (
	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
)

var receptacle = figure.Def{
	Name: "receptacle-tested", Room: "readings", Of: []string{"supply"}, Present: true,
	Says: "Hot, neutral and ground of the receptacle were proved where they should be.",
}

// computeReceptacle: tested is present; untested, like a key that is missing,
// is not known.
func computeReceptacle(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	for _, s := range b.Subjects("supply") {
		n := b.Sheet.Supply().Get("receptacle")
		f := figure.NotKnown(&receptacle, s, figure.Need{What: "supply.receptacle: tested", How: "a socket tester, or a voltmeter from each slot to a good earth"})
		if n.Str() == "tested" {
			f = figure.Is(&receptacle, s, true)
		}
		if n != nil {
			f.At = n.At()
		}
		out = append(out, f)
	}
	return out
}
