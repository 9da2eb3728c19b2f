package entry

import (
	"fmt"
	"strings"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
)

var partIdle = &figure.Def{Name: "part-idle", Room: "entry", Of: []string{"set"}, Present: true,
	Says: "a part is wired so that it does nothing: by one lead, with both leads on one wire, or against itself"}

// computePartIdle looks at the parts of two leads, single-pole switches, line
// filters and screens. One that does nothing is not where it was meant to be, or
// a wire of it is missing: what it protects or tells is gone, and a lead that
// hangs on nothing may be on the line. So is a filter with one coil turned. A fuse or switch with a wire across it
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
		if p.Kind.Name == "filter" && note == "" {
			witness, note = halfTurned(b, p)
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

// halfTurned: of a filter whose coils are wound on one core, one lies the other
// way round than its fellow, so that the set's current magnetizes the core.
func halfTurned(b *bench.Bench, p *part.Part) (witness []string, note string) {
	c := b.Circuit(bench.State{AllClosed: true})
	lines := b.Lines()
	for i, x := range []string{"in", "out"} {
		y := []string{"out", "in"}[i]
		one, two := c.Reach([]string{lines[0]}, bench.Contacts), c.Reach([]string{lines[1]}, bench.Contacts)
		for _, half := range [][2]string{{"line-", "neutral-"}, {"neutral-", "line-"}} {
			from, to := p.Full(half[0]+x), p.Full(half[1]+y)
			if one.Has(from) && two.Has(to) {
				return path(two, to), fmt.Sprintf("one coil of %s is turned: the line comes in at %s and at %s", p.Name, from, to)
			}
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
	switch p.Kind.Name {
	case "fuse":
		t := p.Terminals()
		return alone(t[0], t[1])
	case "switch":
		if p.Poles() != 1 {
			return nil, "" // a pole to spare is nothing unusual
		}
		return alone("1", "2")
	case "capacitor", "neon", "varistor", "arrester", "resistor", "lamp", "choke", "field-coil", "thermistor", "barretter", "motor":
		if witness, note = alone("1", "2"); note == "" {
			witness, note = together("1", "2")
		}
		return witness, note
	case "electrolytic":
		if witness, note = alone("plus", "minus"); note == "" {
			witness, note = together("plus", "minus")
		}
		return witness, note
	case "filter":
		if witness, note = together("line-in", "line-out"); note == "" {
			witness, note = together("neutral-in", "neutral-out")
		}
		return witness, note
	case "transformer":
		if s := p.Word("shield"); s != "" && !wired[p.Full(s)] {
			return []string{p.Full(s)}, "the screen " + p.Full(s) + " is on nothing"
		}
	}
	return nil, ""
}
