package mistakes

import (
	"slices"

	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
)

// guard is what stands between a pin of the plug and the load.
type guard struct {
	fused, opened bool
	switchFirst   bool // the switch comes before the fuse
	turned        bool // a panel fuse with its end contact away from the cord
}

// guards follows one pin.
func (d draft) guard(pin string) guard {
	series := []string{"connector", "filter", "thermistor", "choke", "selector"}
	is := func(kinds ...string) func(p *part.Part) bool {
		return func(p *part.Part) bool { return slices.Contains(kinds, p.Kind.Name) && !d.ofMotor(p) }
	}
	noFuse, noSwitch, neither := d.joins(is(append(series, "switch")...)), d.joins(is(append(series, "fuse")...)), d.joins(is(series...))
	reaches := func(n nets, ok func(p *part.Part, t string) bool) bool {
		return slices.ContainsFunc(d.terminals(), func(t string) bool {
			p := d.partOf(t)
			return p != nil && n.of(t) == n.of(pin) && ok(p, t)
		})
	}
	loads := func(p *part.Part, t string) bool {
		return d.works(p) || slices.ContainsFunc(p.Windings, func(w *part.Winding) bool {
			return (w.Role == "primary" || w.Role == "auto") && slices.Contains(w.Order, own(p, t))
		})
	}
	g := guard{fused: !reaches(noFuse, loads), opened: !reaches(noSwitch, loads)}
	g.switchFirst = g.fused && reaches(neither, func(p *part.Part, _ string) bool { return p.Kind.Name == "switch" && !d.ofMotor(p) })
	g.turned = g.fused && reaches(noFuse, func(p *part.Part, t string) bool {
		return p.Kind.Name == "fuse" && p.Word("holder") == "panel" && own(p, t) == "side"
	})
	return g
}

// guarded compares what protects and opens the two sets. Where a plug fits one
// way, hot meets the fuse, then the switch, and neutral runs through or passes
// the other pole of the same switch; where it fits both ways one fuse, and on a
// bonded transformer set one pole, of two is a caution.
func (d draft) guarded(after draft) Slipped {
	var out []Slipped
	say := func(outcome, why string, rules ...string) {
		out = append(out, Slipped{Outcome: outcome, Why: why, Rules: rules})
	}
	pins := []string{sheet.PlugHot, sheet.PlugNeutral}
	was, is := map[string]guard{}, map[string]guard{}
	count := func(gs map[string]guard, of func(guard) bool) (n int) {
		for _, g := range gs {
			if of(g) {
				n++
			}
		}
		return n
	}
	for _, pin := range pins {
		was[pin], is[pin] = d.guard(pin), after.guard(pin)
		first := Fail
		if sw := d.parts("switch"); slices.ContainsFunc(sw, d.switchAllowedAhead) {
			first = Caution
		}
		if is[pin].switchFirst && !was[pin].switchFirst && (pin == sheet.PlugHot || d.bothWays()) {
			say(first, "outside North America a rotary or toggle switch may stand ahead of the fuse behind a small plug fuse or branch device", "hot-meets-fuse-first", "switch-follows-fuse")
		}
		if is[pin].turned && !was[pin].turned {
			say(Fail, "", "fuse-end-to-hot")
		}
	}
	fused, opened := func(g guard) bool { return g.fused }, func(g guard) bool { return g.opened }
	if d.bothWays() {
		if n := count(is, fused); n < count(was, fused) {
			if n == 0 {
				say(Fail, "", "hot-meets-fuse-first")
			}
			say(Caution, "where the plug fits both ways one fuse in either conductor is a caution", "both-sides-fused")
		}
		switch n := count(is, opened); {
		case n == count(was, opened):
		case n == 0 || d.onLine():
			say(Fail, "", "both-sides-open")
		default:
			say(Caution, "one pole is a caution where a power transformer isolates the set and the plug fits both ways", "both-sides-open")
		}
		return worst(append(out, Slipped{Outcome: AsGood}))
	}
	h, n := is[sheet.PlugHot], is[sheet.PlugNeutral]
	if !h.fused {
		say(Fail, "", "hot-meets-fuse-first", "switch-follows-fuse")
	}
	if !h.opened {
		say(Fail, "", "switch-opens-hot", "switch-follows-fuse")
	}
	if n.fused && !was[sheet.PlugNeutral].fused {
		say(Fail, "", "neutral-runs-through")
	}
	switch {
	case n.opened && !was[sheet.PlugNeutral].opened && !(h.opened && d.twoPoles()):
		say(Fail, "", "neutral-runs-through")
	case n.opened != was[sheet.PlugNeutral].opened:
		say(AsGood, "neutral may run through without a switch")
	}
	return worst(append(out, Slipped{Outcome: AsGood}))
}
