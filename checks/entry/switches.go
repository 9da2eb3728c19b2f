package entry

import (
	"fmt"
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
	"firstvolt/checks/sheet"
)

var hotPastSwitch = &figure.Def{Name: "hot-past-open-switch", Room: "entry", Of: []string{"set"}, Present: true,
	Says: "with every switch open, hot still reaches the load"}

func computeHotPastSwitch(b *bench.Bench) figure.Figure {
	if len(b.Parts(part.Switches)) == 0 {
		return figure.NotKnown(hotPastSwitch, b.Set(), noSwitch)
	}
	for _, st := range opened(b, bench.State{}) {
		// Anything that conducts counts here: a resistor across the contacts
		// feeds the load as well as a wire.
		r := beside(b, st, sheet.PlugHot, pass)
		if at := loadsAt(r); len(at) > 0 {
			return present(hotPastSwitch, b.Set(), path(r, at[0]), "")
		}
		if len(loadsAt(beside(b, st, sheet.PlugGround, pass))) > 0 && thirdUntold(b) {
			return figure.NotKnown(hotPastSwitch, b.Set(), whichThird)
		}
	}
	return figure.Is(hotPastSwitch, b.Set(), false)
}

var sidesOpened = &figure.Def{Name: "line-conductors-opened", Room: "entry", Of: []string{"set"}, Unit: quantity.Number,
	Says: "how many of the two line conductors the mains switch cuts from the load"}

func computeSidesOpened(b *bench.Bench) figure.Figure {
	if len(b.Parts(part.Switches)) == 0 {
		return figure.NotKnown(sidesOpened, b.Set(), noSwitch)
	}
	if thirdUntold(b) {
		return figure.NotKnown(sidesOpened, b.Set(), whichThird)
	}
	best := 0
	for _, sw := range b.Parts(part.Switches) {
		least := 2
		base := bench.State{AllClosed: true, Closed: map[string]bool{sw.Name: false}}
		states, _ := b.Combinations(base, false)
		for _, st := range states {
			n := 0
			for _, line := range b.Lines() {
				if len(loadsAt(beside(b, st, line, pass))) == 0 {
					n++
				}
			}
			least = min(least, n)
		}
		best = max(best, least)
	}
	return figure.Number(sidesOpened, b.Set(), quantity.Exact(float64(best), quantity.Number))
}

var sidesFused = &figure.Def{Name: "line-conductors-fused", Room: "entry", Of: []string{"set"}, Unit: quantity.Number,
	Says: "how many of the two line conductors meet a fuse before the load"}

func computeSidesFused(b *bench.Bench) figure.Figure {
	if thirdUntold(b) {
		return figure.NotKnown(sidesFused, b.Set(), whichThird)
	}
	n := 0
	through := func(e *circuit.Element) bool { return bench.AlongLine(e) || cordResists(e) }
	for _, line := range b.Lines() {
		fusedHere := true
		for _, st := range positions(b, bench.State{AllOut: true}) {
			if len(loadsAt(beside(b, st, line, through))) > 0 || !meetsFuse(b, st, line) {
				fusedHere = false
			}
		}
		if fusedHere {
			n++
		}
	}
	return figure.Number(sidesFused, b.Set(), quantity.Exact(float64(n), quantity.Number))
}

func meetsFuse(b *bench.Bench, st bench.State, line string) bool {
	r := follow(b, st, line)
	return slices.ContainsFunc(b.Parts(part.Fuses), func(p *part.Part) bool { return len(terminalsOf(r, p)) > 0 })
}

var neutralReaches = &figure.Def{Name: "neutral-reaches-load", Room: "entry", Of: []string{"set"}, Present: true,
	Says: "with the fuses out and single-pole switches open, neutral still reaches the load"}

func computeNeutralReaches(b *bench.Bench) figure.Figure {
	open := map[string]bool{}
	for _, sw := range b.Parts(part.Switches) {
		open[sw.Name] = bothPoles(b, sw)
	}
	states, _ := b.Combinations(bench.State{AllClosed: true, Closed: open, AllOut: true}, false)
	var witness []string
	for _, st := range states {
		r := follow(b, st, sheet.PlugNeutral)
		at := loadsAt(r)
		if len(at) == 0 {
			f := figure.Is(neutralReaches, b.Set(), false)
			if p := stopsAt(b, r); p != nil {
				f.Note = fmt.Sprintf("neutral goes no further than %s", p.Name)
			}
			return f
		}
		witness = path(r, at[0])
	}
	return present(neutralReaches, b.Set(), witness, "")
}

// stopsAt is the one fuse or switch at which what r reaches ends; nil where
// there are several or none.
func stopsAt(b *bench.Bench, r net) (one *part.Part) {
	for _, p := range slices.Concat(b.Parts(part.Fuses), b.Parts(part.Switches)) {
		if len(terminalsOf(r, p)) == 0 {
			continue
		}
		if one != nil {
			return nil
		}
		one = p
	}
	return one
}

// bothPoles tells a switch that breaks hot and neutral together, each with a
// pole of its own.
func bothPoles(b *bench.Bench, sw *part.Part) bool {
	if sw.Poles() < 2 {
		return false
	}
	hot, neutral := follow(b, bench.ClosedState(), sheet.PlugHot), follow(b, bench.ClosedState(), sheet.PlugNeutral)
	t := sw.Terminals()
	inHot, inNeutral := -1, -1
	for i := 0; i+1 < len(t); i += 2 {
		if hot.Has(sw.Full(t[i])) || hot.Has(sw.Full(t[i+1])) {
			inHot = i
		}
		if neutral.Has(sw.Full(t[i])) || neutral.Has(sw.Full(t[i+1])) {
			inNeutral = i
		}
	}
	return inHot >= 0 && inNeutral >= 0 && inHot != inNeutral
}
