package ratings

import (
	"fmt"
	"maps"
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
)

// branchDraw is what runs through a switch that cuts off motors and outlets and
// nothing else: the current of those. ok is false for every other switch, which
// is taken to carry all that the set draws.
func branchDraw(b *bench.Bench, sw *part.Part) (d draw, ok bool) {
	behind, ok := branch(b, sw)
	if !ok {
		return d, false
	}
	sum := quantity.Exact(0, quantity.Current)
	for _, p := range behind {
		amps, known := outletLoad(b, p)
		if p.Is(part.Turns) {
			amps, known = motorOnLine(b, p)
			if !known {
				d.needs = append(d.needs, lacks(p, "current", "amperes from its plate, or watts under power:"))
			}
		} else if !known {
			d.needs = append(d.needs, lacksLoad(p))
		}
		sum = sum.Add(amps)
		d.trace = append(d.trace, fmt.Sprintf("behind %s only: %s %s", sw.Name, p.Name, amps))
	}
	d.least, d.most = sum, sum
	if len(d.needs) == 0 && !(sum.Low > 0 && sum.Bounded()) {
		d.needs = append(d.needs, figure.Need{What: "what runs through " + sw.Name, How: "amperes above zero, with an upper end, of what lies behind it"})
	}
	return d, true
}

// motorOnLine is what a motor takes at the nominal supply.
func motorOnLine(b *bench.Bench, p *part.Part) (quantity.Range, bool) {
	amps, volts, ok := motorAmps(b, p)
	if !ok || b.SupplyNeed() != nil {
		return amps, false
	}
	at := nominal(b)
	return quantity.Range{Low: amps.Low * at.Low / volts.High, High: amps.High * at.High / volts.Low, Dim: quantity.Current}, true
}

// branch lists the motors and outlets that a switch cuts from the line, however
// the others stand; ok is false where it cuts anything else too, or nothing.
func branch(b *bench.Bench, sw *part.Part) (behind []*part.Part, ok bool) {
	states, all := b.Combinations(bench.State{Closed: map[string]bool{sw.Name: true}}, true)
	if !all || !b.Sheet.HasWiring() {
		return nil, false
	}
	lines := b.Lines()
	for _, st := range states {
		off := st
		off.Closed = maps.Clone(st.Closed)
		off.Closed[sw.Name] = false
		c := b.Circuit(st)
		on, without := c.Reach(lines[:], bench.Near), b.Circuit(off).Reach(lines[:], bench.Near)
		cut := func(t string) bool { return on.Has(t) && !without.Has(t) }
		for i := range c.Elements() {
			e := &c.Elements()[i]
			if bench.Near(e) || !cut(e.A) && !cut(e.B) {
				continue
			}
			p := bench.PartOfElement(e)
			if p == nil || !p.Is(part.Turns) {
				return nil, false
			}
			if !slices.Contains(behind, p) {
				behind = append(behind, p)
			}
		}
		for _, p := range b.Parts(part.Feeds) {
			if (cut(p.Full("hot")) || cut(p.Full("neutral"))) && !slices.Contains(behind, p) {
				behind = append(behind, p)
			}
		}
	}
	return behind, len(behind) > 0
}
