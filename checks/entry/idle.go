package entry

import (
	"fmt"
	"slices"
	"strings"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
)

var partIdle = &figure.Def{Name: "part-idle", Room: "entry", Of: []string{"set"}, Present: true,
	Says: "a part is wired so that it does nothing: by one lead, or with both leads on one conductor"}

// computePartIdle looks at the parts of two leads, single-pole switches, line
// filters and screens. One that does nothing is not where it was meant to be, or
// a wire of it is missing: what it protects or tells is gone, and a lead that
// hangs on nothing may be on the line. So is a filter whose coils are misplaced. A fuse or switch with a wire across it
// is not idle but passed by; other rules ask about that.
func computePartIdle(b *bench.Bench) figure.Figure {
	c := b.Circuit(bench.State{})
	wired := map[string]bool{}
	for _, w := range b.Sheet.Wires {
		wired[w.A], wired[w.B] = true, true
	}
	var first []string
	var notes []string
	for _, p := range b.Sheet.Parts {
		witness, note := idle(c, wired, p)
		switch {
		case note != "":
		case p.Is(part.Filters):
			witness, note = coilsMisplaced(b, p)
		case p.Is(part.Strikes | part.Nonpolar | part.Turns):
			if witness, note = onOneLine(b, p); note == "" {
				witness, note = nowhere(b, p)
			}
		case p.Is(part.Chokes|part.LimitsInrush) && hangsOnLine(b, p):
			witness, note = nowhere(b, p)
		}
		if note == "" {
			continue
		}
		if first == nil {
			first = witness
		}
		notes = append(notes, note)
	}
	return present(partIdle, b.Set(), first, strings.Join(notes, "; "))
}

// coilsMisplaced: a filter's coils are wound on one core and want one conductor
// each, in at the same end; else the set's own current magnetizes the core.
func coilsMisplaced(b *bench.Bench, p *part.Part) (witness []string, note string) {
	except := func(e *circuit.Element) bool { return bench.AlongLine(e) && bench.PartOfElement(e) != p }
	c := b.Circuit(bench.State{AllClosed: true})
	var at [2][]string // where each conductor comes to it
	var ways [2]net
	for i, line := range b.Lines() {
		ways[i] = c.Reach([]string{line}, except)
		for _, t := range []string{"line-in", "line-out", "neutral-in", "neutral-out"} {
			if ways[i].Has(p.Full(t)) {
				at[i] = append(at[i], t)
			}
		}
	}
	for i := range at {
		if len(at[i]) > 1 {
			return path(ways[i], p.Full(at[i][1])), "one conductor comes to " + p.Name + " at " + strings.Join(at[i], " and at ")
		}
	}
	switch {
	case len(at[0]) == 0 && len(at[1]) == 0:
		return nil, "" // not behind the cord; other rules ask what it is doing there
	case len(at[0]) == 0 || len(at[1]) == 0:
		i := slices.IndexFunc(at[:], func(ts []string) bool { return len(ts) > 0 })
		return path(ways[i], p.Full(at[i][0])), "only one conductor comes to " + p.Name
	}
	coil, end, _ := strings.Cut(at[0][0], "-")
	other, otherEnd, _ := strings.Cut(at[1][0], "-")
	if coil == other || end != otherEnd {
		return path(ways[1], p.Full(at[1][0])), fmt.Sprintf("the line comes to %s at %s and at %s", p.Name, at[0][0], at[1][0])
	}
	return nil, ""
}

// onOneLine: both leads of a part are on one line conductor. A contact between
// them counts as wire for what is no use across one.
func onOneLine(b *bench.Bench, p *part.Part) (witness []string, note string) {
	st := bench.State{AllClosed: true}
	if p.Is(part.Nonpolar | part.Glows) {
		st = opened(b, bench.State{})[0]
	}
	for _, line := range b.Lines() {
		if r := follow(b, bench.State{AllClosed: true}, line); r.Has(p.Full("1")) && r.Has(p.Full("2")) {
			if r = b.Circuit(st).Reach([]string{p.Full("1")}, bench.AlongLine); r.Has(p.Full("2")) {
				return path(r, p.Full("2")), "both leads of " + p.Name + " are on one conductor"
			}
		}
	}
	return nil, ""
}

// hangsOnLine tells whether a line conductor comes to a lead of a part.
func hangsOnLine(b *bench.Bench, p *part.Part) bool {
	for _, line := range b.Lines() {
		if r := follow(b, bench.State{AllClosed: true}, line); r.Has(p.Full("1")) || r.Has(p.Full("2")) {
			return true
		}
	}
	return false
}

// nowhere: a lead of a part comes to wire and contacts only, and to nothing that
// they lead on to.
func nowhere(b *bench.Bench, p *part.Part) (witness []string, note string) {
	c := b.Circuit(bench.State{AllClosed: true})
	for _, lead := range []string{p.Full("1"), p.Full("2")} {
		r := c.Reach([]string{lead}, bench.Contacts)
		if !slices.ContainsFunc(r.Terminals(), func(t string) bool {
			q := b.PartOf(t)
			return q == nil || q != p && !q.Is(part.Contact)
		}) {
			return []string{lead}, lead + " leads nowhere"
		}
	}
	return nil, ""
}

// idle says how a part does nothing, with the terminals that show it.
func idle(c *circuit.Circuit, wired map[string]bool, p *part.Part) (witness []string, note string) {
	alone := func(x, y string) ([]string, string) {
		x, y = p.Full(x), p.Full(y)
		if wired[x] == wired[y] {
			return nil, ""
		}
		if wired[x] {
			x = y
		}
		return []string{x}, x + " is on nothing"
	}
	together := func(x, y string) ([]string, string) {
		r := c.Reach([]string{p.Full(x)}, bench.Copper)
		if !wired[p.Full(x)] || !r.Has(p.Full(y)) {
			return nil, ""
		}
		return path(r, p.Full(y)), fmt.Sprintf("%s and %s are on one wire", p.Full(x), p.Full(y))
	}
	switch {
	case p.Is(part.Fuses):
		t := p.Terminals()
		return alone(t[0], t[1])
	case p.Is(part.Switches):
		if p.Poles() != 1 {
			return nil, "" // a pole to spare is nothing unusual
		}
		return alone("1", "2")
	case p.Is(part.Strikes | part.Nonpolar | part.Resists | part.Lights | part.Chokes | part.Excites | part.LimitsInrush | part.Ballasts | part.Turns):
		if witness, note = alone("1", "2"); note == "" {
			witness, note = together("1", "2")
		}
		return witness, note
	case p.Is(part.Polar):
		if witness, note = alone("plus", "minus"); note == "" {
			witness, note = together("plus", "minus")
		}
		return witness, note
	case p.Is(part.Filters):
		for _, coil := range []string{"line-", "neutral-"} {
			if witness, note = alone(coil+"in", coil+"out"); note == "" {
				witness, note = together(coil+"in", coil+"out")
			}
			if note != "" {
				break
			}
		}
		return witness, note
	case p.Is(part.MainsCore):
		if s := p.Word("shield"); s != "" && !wired[p.Full(s)] {
			return []string{p.Full(s)}, "the screen " + p.Full(s) + " is on nothing"
		}
	}
	return nil, ""
}
