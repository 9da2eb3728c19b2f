package entry

import (
	"slices"
	"strings"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
)

var metalOnLine = &figure.Def{Name: "metal-on-line", Room: "entry", Of: part.Named(part.Isolates | part.Feeds | part.Filters | part.Turns), Present: true,
	Says: "something that conducts joins its ground contact, case, frame or shield to a line conductor or a winding of the transformer"}

// computeMetalOnLine looks at metal that only the part itself names: what is
// plugged into an outlet carries its ground contact to a hand, and a case or
// frame is there to be touched. Metal that a wire joins to the ground pin, or to
// a chassis that is no line conductor, is judged by the rules of those. A
// protective impedance and a capacitor of a safety class are no joint.
func computeMetalOnLine(b *bench.Bench) (out []figure.Figure) {
	states, all := b.Combinations(bench.State{}, true)
	for _, m := range metalAndShields(b) {
		p, t := m.of, m.at
		f := figure.Is(metalOnLine, b.Of(p), false)
		what := t + " is metal that a hand comes to, there or on what is plugged in"
		if t == shieldOf(p) {
			what = "a shield that is live puts what it stands at onto the windings beside it, and does not keep the line from them"
		}
		for _, st := range states {
			if w := wayToMetal(b, st, t, bench.Warm); w != nil {
				f = present(metalOnLine, b.Of(p), w, what)
				break
			}
			if w := wayToMetal(b, st, t, warmOrPaper); w != nil && f.Known() {
				f = figure.NotKnown(metalOnLine, b.Of(p), figure.Need{What: "the class of the capacitor in the way " + strings.Join(w, " → "), How: "class: from its mark; one without a mark comes out"})
			}
		}
		wired := b.Sheet.OnWire(t)
		if f.Known() && p.Is(part.Filters) && !wired && !b.Grounded() {
			// Its own capacitors lift a case that hangs on nothing to half the line.
			f = figure.NotKnown(metalOnLine, b.Of(p), figure.Need{What: "what the case of " + p.Name + " is on", How: "a wire from " + t + " to the chassis or what it is screwed to"})
		}
		out = append(out, tried(all, f))
	}
	return out
}

// shieldOf is the terminal of a transformer's shield, "" where it has none.
func shieldOf(p *part.Part) string {
	if s := p.Word("shield"); s != "" {
		return p.Full(s)
	}
	return ""
}

// shields are those of transformers.
func shields(b *bench.Bench) (out []metal) {
	for _, p := range b.Parts(part.Isolates) {
		if t := shieldOf(p); t != "" {
			out = append(out, metal{p, t})
		}
	}
	return out
}

// metalAndShields are partMetal, and the shields that no wire joins to a chassis
// or common rail that is a line conductor: such a shield is what that is.
func metalAndShields(b *bench.Bench) []metal {
	out := partMetal(b)
	for _, m := range shields(b) {
		r := b.Circuit(bench.State{}).Reach([]string{m.at}, bench.Copper)
		onChassis := b.Wired().LiveChassis != nil && r.Has(sheet.Chassis)
		if !onChassis && !slices.ContainsFunc(b.Wired().Rail, r.Has) {
			out = append(out, m)
		}
	}
	return out
}

var ownMetal = &figure.Def{Name: "metal-of-its-own", Room: "entry", Of: metalOnLine.Of, Present: true,
	Says: "it has a ground contact, case, frame or shield that is asked for itself"}

func computeOwnMetal(b *bench.Bench) (out []figure.Figure) {
	asked := map[*part.Part]bool{}
	for _, m := range metalAndShields(b) {
		asked[m.of] = true
	}
	for _, p := range b.PartsOf(ownMetal) {
		out = append(out, figure.Is(ownMetal, b.Of(p), asked[p]))
	}
	return out
}

var shieldThroughCapacitor = &figure.Def{Name: "shield-through-capacitor", Room: "entry", Of: part.Named(part.Isolates), Present: true,
	Says: "its shield comes to ground or the chassis through a capacitor alone"}

// computeShieldThroughCapacitor looks at what holds a shield: a wire clears a
// fault to it, a capacitor does not.
func computeShieldThroughCapacitor(b *bench.Bench) (out []figure.Figure) {
	c := b.Circuit(bench.ClosedState())
	for _, m := range shields(b) {
		p, t := m.of, m.at
		f := figure.Is(shieldThroughCapacitor, b.Of(p), false)
		held := func(through func(*circuit.Element) bool) []string {
			r := c.Reach([]string{t}, through)
			for _, metal := range []string{sheet.Chassis, sheet.PlugGround} {
				if r.Has(metal) {
					return path(r, metal)
				}
			}
			return nil
		}
		capacitors := func(e *circuit.Element) bool {
			q := bench.PartOfElement(e)
			return bench.GroundPath(e) || q != nil && (q.Is(part.Capacitors))
		}
		if held(bench.GroundPath) == nil {
			if w := held(capacitors); w != nil {
				f = present(shieldThroughCapacitor, b.Of(p), w, "")
			}
		}
		out = append(out, f)
	}
	return out
}

// warmOrPaper lets through what conducts in a warm set, and every capacitor that
// is of no safety class: an old one leaks or shorts.
func warmOrPaper(e *circuit.Element) bool {
	p := bench.PartOfElement(e)
	if p != nil && (p.Is(part.Polar) || p.Is(part.Nonpolar) && !strings.HasPrefix(p.Word("class"), "X") && !strings.HasPrefix(p.Word("class"), "Y")) {
		return true
	}
	return bench.Warm(e)
}

// wayToMetal is how a line conductor or a winding of a mains transformer comes
// to terminal t in state st by what allowed lets through, or nil.
func wayToMetal(b *bench.Bench, st bench.State, t string, allowed func(*circuit.Element) bool) []string {
	c := b.Circuit(st)
	if b.Grounded() && c.Reach([]string{sheet.PlugGround}, bench.GroundPath).Has(t) {
		return nil
	}
	through := allowed
	if b.Wired().LiveChassis == nil { // then the way ends there, and what is on it is the chassis's matter
		chassis := c.Reach([]string{sheet.Chassis}, bench.GroundPath)
		if chassis.Has(t) {
			return nil
		}
		through = func(e *circuit.Element) bool { return allowed(e) && !chassis.Has(e.A) && !chassis.Has(e.B) }
	}
	if r := c.Reach(append(lineList(b), windingEnds(b, anyWinding)...), through); r.Has(t) {
		return path(r, t)
	}
	return nil
}

// windingEnds are all terminals of the windings of mains transformers that are
// of the kind asked for.
func windingEnds(b *bench.Bench, of func(*part.Winding) bool) (out []string) {
	for _, p := range b.Parts(part.Supplies) {
		for _, w := range p.Windings {
			for _, t := range w.Order {
				if of(w) {
					out = append(out, p.Full(t))
				}
			}
		}
	}
	return out
}

func anyWinding(*part.Winding) bool { return true }

// secondaryWinding tells one that nothing but the core joins to the line.
func secondaryWinding(w *part.Winding) bool { return w.Role != "primary" && w.Role != "auto" }
