package bench

import (
	"fmt"

	"firstvolt/checks/figure"
)

// Check computes one figure for every subject that it is defined for.
type Check struct {
	Def     *figure.Def
	Compute func(*Bench) []figure.Figure
}

// Run computes the figure. A panic inside makes it missing for all subjects of
// its kinds; fault then says what happened. So does a sheet with more than is
// computed, which is no fault.
func (c Check) Run(b *Bench) (figures []figure.Figure, fault string) {
	defer func() {
		r := recover()
		if r == nil {
			return
		}
		fault = fmt.Sprintf("internal fault in the figure %s: %v", c.Def.Name, r)
		figures = c.missing(b, figure.Need{What: fault, How: "please report this sheet"})
	}()
	if need := b.TooMuch(); need != nil {
		return c.missing(b, *need), ""
	}
	return c.Compute(b), ""
}

// missing is the figure as not known for every subject of its kinds.
func (c Check) missing(b *Bench, need figure.Need) (figures []figure.Figure) {
	for _, s := range b.Subjects(c.Def.Of...) {
		figures = append(figures, figure.NotKnown(c.Def, s, need))
	}
	return figures
}

// OnSupply is c where the figure rests on the volts at the set: while these
// are not known it is missing for every subject.
func (c Check) OnSupply() Check {
	return Check{Def: c.Def, Compute: func(b *Bench) []figure.Figure {
		out := c.Compute(b)
		if need := b.SupplyNeed(); need != nil {
			for i := range out {
				out[i] = figure.NotKnown(c.Def, out[i].Of, *need)
			}
		}
		return out
	}}
}
