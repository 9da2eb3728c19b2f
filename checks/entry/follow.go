package entry

import (
	"fmt"
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
)

// net is a set of terminals with the way to each.
type net = *circuit.Reach

// other is the line conductor beside line.
func other(line string) string {
	if line == sheet.PlugHot {
		return sheet.PlugNeutral
	}
	return sheet.PlugHot
}

// pass lets through what carries line without using it: wire, contacts, and
// the small things in series (filter coils, thermistors, resistors, chokes).
func pass(e *circuit.Element) bool { return bench.Conductors(e) && !bench.Loads(e) }

// follow is what a finger touches that follows one line conductor up to the
// loads, without crossing over to the other conductor.
func follow(b *bench.Bench, st bench.State, line string) net {
	return beside(b, st, line, bench.AlongLine)
}

// beside is follow with another idea of what to cross.
func beside(b *bench.Bench, st bench.State, line string, through func(*circuit.Element) bool) net {
	c := b.Circuit(st)
	far := c.Reach([]string{other(line)}, bench.Contacts)
	return c.Reach([]string{line}, func(e *circuit.Element) bool {
		return through(e) && !far.Has(e.A) && !far.Has(e.B)
	})
}

// loadsAt lists the loads that hang directly on what was reached, with the
// terminal at which they do.
func loadsAt(r net) (at []string) {
	for _, e := range r.Touched() {
		if !bench.Loads(e) || e.Conducts == circuit.Bridging && e.Law != circuit.ColdTube {
			continue
		}
		for _, t := range []string{e.A, e.B} {
			if r.Has(t) && !slices.Contains(at, t) {
				at = append(at, t)
			}
		}
	}
	return at
}

// path is the witness to a terminal.
func path(r net, terminal string) []string { return bench.Trace(r.Path(terminal)) }

// terminalsOf lists the terminals of a part that were reached.
func terminalsOf(r net, p *part.Part) (out []string) {
	if p.Bare() {
		if r.Has(p.Name) {
			return []string{p.Name}
		}
		return nil
	}
	for _, t := range p.Terminals() {
		if r.Has(p.Full(t)) {
			out = append(out, p.Full(t))
		}
	}
	return out
}

// hots are the conductors that count as hot: the plug's hot where polarity is
// fixed, both where it is not.
func hots(b *bench.Bench) []string {
	if b.Wired().Orientation == "fixed" {
		return []string{sheet.PlugHot}
	}
	return []string{sheet.PlugHot, sheet.PlugNeutral}
}

// fused are the hots whose conductor holds a fuse: with the fuses out and the
// switches closed, a finger that follows it comes to a fuse.
func fused(b *bench.Bench) (out []string) {
	for _, h := range hots(b) {
		r := follow(b, bench.State{AllClosed: true, AllOut: true}, h)
		for _, f := range b.Parts(part.Fuses) {
			if len(terminalsOf(r, f)) > 0 {
				out = append(out, h)
				break
			}
		}
	}
	return out
}

// asked are the conductors of which fuse and switch order is asked: hot where
// polarity is fixed; those that hold a fuse (hot if none does) where it is not;
// hot and those where a joint does not say.
func asked(b *bench.Bench) []string {
	hot := []string{sheet.PlugHot}
	f := fused(b)
	switch b.Wired().Orientation {
	case "fixed":
		return hot
	case "":
		return slices.Compact(append(hot, f...))
	}
	if len(f) > 0 {
		return f
	}
	return hot
}

// positions are the states that a routing question is asked in: base with
// every selector position where the selector is not set.
func positions(b *bench.Bench, base bench.State) []bench.State {
	base.AllClosed = true
	states, _ := b.Combinations(base, false)
	return states
}

// opened is base with every switch open.
func opened(b *bench.Bench, base bench.State) []bench.State {
	base.Closed = map[string]bool{}
	for _, p := range b.Parts(part.Switches) {
		base.Closed[p.Name] = false
	}
	states, _ := b.Combinations(base, false)
	return states
}

// present makes the figures of a question that is answered state by state:
// present with the first witness met, else absent.
func present(d *figure.Def, of figure.Subject, witness []string, note string) figure.Figure {
	f := figure.Is(d, of, witness != nil)
	f.Witness, f.Note = witness, note
	return f
}

// setOnly wraps one figure of the set. With more positions of selectors that
// do not say how they are set than can be tried, nothing is known of it: the one
// that was not tried may be the other way.
func setOnly(f func(*bench.Bench) figure.Figure) func(*bench.Bench) []figure.Figure {
	return func(b *bench.Bench) []figure.Figure {
		out := f(b)
		if _, all := b.Combinations(bench.ClosedState(), false); !all {
			out = figure.NotKnown(out.Def, out.Of, tooMany)
		}
		return []figure.Figure{out}
	}
}

// tried is f where every position was tried, or something was found; else what
// was not found is not known to be absent.
func tried(all bool, f figure.Figure) figure.Figure {
	if all || !f.Known() || f.Present == nil || *f.Present {
		return f
	}
	return figure.NotKnown(f.Def, f.Of, tooMany)
}

var tooMany = figure.Need{What: fmt.Sprintf("a sheet with at most %d switch and selector positions", bench.MaxCombinations), How: "state how each selector is set"}

var noSwitch = figure.Need{What: "a mains switch on the sheet", How: "put the switch and its wires on the sheet; a set without one is switched at the plug"}

// lineList is both line conductors as a list of its own.
func lineList(b *bench.Bench) []string { l := b.Lines(); return []string{l[0], l[1]} }
