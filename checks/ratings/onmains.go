package ratings

import (
	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
)

var onMainsDef = &figure.Def{
	Name: "on-mains", Room: "ratings", Of: []string{"fuse", "switch"}, Present: true,
	Says: "it stands in a line conductor, ahead of every load.",
}

// onMains states which fuses and switches belong to the mains entry: with all
// switches closed a line conductor reaches them by wire, contacts, filters and
// small series parts, in some selector position.
func onMains(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	for _, p := range b.Parts("fuse", "switch") {
		is, path := standsOnMains(b, p)
		f := searched(b, figure.Is(onMainsDef, b.Of(p), is))
		f.Witness = path
		out = append(out, f)
	}
	return out
}

func standsOnMains(b *bench.Bench, p *part.Part) (bool, []string) {
	states, _ := b.Combinations(bench.ClosedState(), true)
	lines := b.Lines()
	for _, st := range states {
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
	var out []*part.Part
	for _, p := range b.Parts("fuse") {
		if is, _ := standsOnMains(b, p); is {
			out = append(out, p)
		}
	}
	return out
}
