package ratings

import (
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
)

// sections are the walks of the line through each primary of a transformer.
func sections(b *bench.Bench, p *part.Part, st bench.State) []stretch {
	var out []stretch
	for _, f := range feeds(b, st) {
		for _, s := range f.stretches {
			if s.winding.Part == p {
				out = append(out, s)
			}
		}
	}
	return out
}

func several(ss []stretch) bool {
	return slices.ContainsFunc(ss, func(s stretch) bool { return s.winding.Winding != ss[0].winding.Winding })
}

var sectionsOnLine = bench.EachPart(figure.Def{
	Name: "primary-sections", Of: part.Named(part.MainsCore), Present: true,
	Says: "more than one primary section lies on the line.",
}, func(b *bench.Bench, p *part.Part) figure.Figure {
	return figure.So(slices.ContainsFunc(inUse(b), func(st bench.State) bool { return several(sections(b, p, st)) }))
})

// inPhase compares the senses: towards the marked end in one section and away
// from it in another is against each other.
var inPhase = bench.EachPart(figure.Def{
	Name: "sections-in-phase", Of: part.Named(part.MainsCore), Present: true,
	Says: "the line goes through all primary sections in the same sense by their phase marks.",
}, func(b *bench.Bench, p *part.Part) figure.Figure {
	f := figure.So(true)
	var needs []figure.Need
	for _, st := range inUse(b) {
		ss := sections(b, p, st)
		if len(ss) == 0 || !several(ss) {
			continue
		}
		marked, first := ss[0].winding.Winding.Node.Word("dot") != "", sense(ss[0])
		for _, s := range ss {
			w := s.winding
			if w.Winding.Node.Word("dot") == "" {
				if n := (figure.Need{What: w.Name() + " dot", How: "which end of the section carries the phase mark; a low voltage across one section tells"}); !slices.Contains(needs, n) {
					needs = append(needs, n)
				}
			} else if marked && sense(s) != first {
				f = figure.So(false)
				f.Witness = []string{ss[0].winding.Name(), w.Name()}
			}
		}
	}
	if *f.Present && len(needs) > 0 {
		return figure.Lacking(needs...)
	}
	return f
})

// inUse lists the states of a set in use with every selector in every position:
// what works against itself in one of them waits for somebody to turn it there.
func inUse(b *bench.Bench) []bench.State {
	states, _ := b.Combinations(bench.ClosedState(), true)
	return states
}

// sense tells whether the walk enters the section at its marked end.
func sense(s stretch) bool {
	w := s.winding.Winding
	return s.forward == (w.Node.Word("dot") == w.Ends[0])
}
