package rules

import (
	"slices"

	"firstvolt/checks/figure"
)

// Next gives what is worth measuring, looking at or writing down next, danger
// first: by risk, within a risk what holds up the verdict before what is only
// wanted. Each thing stands once.
func (j Judgement) Next() []figure.Need {
	found := slices.Clone(j.Findings)
	slices.SortStableFunc(found, func(x, y Finding) int {
		if x.Risk != y.Risk {
			return x.Risk.rank() - y.Risk.rank()
		}
		return y.Outcome.rank() - x.Outcome.rank()
	})
	var out []figure.Need
	for _, f := range found {
		if f.Outcome == Pass {
			continue
		}
		for _, n := range f.Needs {
			i := slices.IndexFunc(out, func(o figure.Need) bool { return o.What == n.What })
			switch {
			case i < 0:
				out = append(out, n)
			case out[i].How == "":
				out[i].How = n.How
			}
		}
	}
	return out
}
