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
		f := figure.NotKnown(&receptacle, s, figure.Need{What: "supply.receptacle: tested", How: "a receptacle tester, or, as live work with one hand, a voltmeter: full voltage from hot to neutral and from hot to ground, a few volts at most from neutral to ground"})
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
