package mistakes

import (
	"slices"
	"strings"

	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
)

// rewired makes the sheet with other wires, and says beforehand what it must
// come to.
func (d draft) rewired(where string, wires []*sheet.Wire) Slipped {
	s := *d.s
	s.Wires = wires
	sl := d.weigh(draft{s: &s, kept: &kept{class: d.kept.class, past: d.kept.past, bothWays: d.kept.bothWays}})
	sl.Where, sl.Tree = where, d.tree(wires)
	return sl
}

// weigh tells what other wiring comes to by what the reference says of the two
// sets. It follows nets of its own and asks no figure and no rule.
//
// Where the two are one set but for what stands in series with the load, what
// hangs beside it and which way round the load lies, each of these is looked at
// by itself, and the worst of them counts. All else fails.
func (d draft) weigh(after draft) Slipped {
	seen := Slipped{Outcome: Fail, Rules: anything}
	turned, tap := "", Slipped{Outcome: AsGood}
	switch {
	case d.losesPart(after):
		return Slipped{Outcome: Unreadable}
	case d.bare(after), d.bareAsSet(after):
		return seen // the same set: what the sheet shows is what it showed
	case after.shorted():
		return seen
	case d.onLine():
		if !d.sameFeed(after) || !after.feedsWorks() {
			return d.lost(after)
		}
		tap = Slipped{Outcome: NotJudged, Why: atTheRail, Rules: anything}
		if d.sameLoad(after, view{}) {
			tap = Slipped{Outcome: AsGood}
		}
	case d.sameLoad(after, view{}):
	case d.sameLoad(after, view{turned: d.loadTurned()}):
		turned = "which end of the load meets which conductor is one"
	case d.sameLoad(after, view{asSet: true}), d.sameLoad(after, view{asSet: true, turned: d.loadTurned()}):
		tap = Slipped{Outcome: Caution, Rules: []string{"tap-fits-supply", "selector-never-shorts"}, Why: "where the selector is set the set is as it was; another position is not what it is named"}
	default:
		return d.lost(after)
	}
	parts := []Slipped{{Outcome: AsGood, Why: turned}, tap, d.guarded(after), d.colored(after), d.readInState(after)}
	for _, p := range d.s.Parts {
		switch {
		case d.loose(p):
			parts = append(parts, d.hung(p, after))
		case slices.Contains([]string{"choke", "thermistor", "filter"}, p.Kind.Name):
			parts = append(parts, d.inSeries(p, after))
		case p.Word("shield") != "" && d.wired(p.Full(p.Word("shield"))) && !after.wired(p.Full(p.Word("shield"))):
			parts = append(parts, Slipped{Outcome: Caution, Rules: []string{"parts-in-use"}, Why: "without its screen the set is as one that has none"})
		}
	}
	sl := worst(parts)
	switch {
	case sl.Outcome == Fail:
		sl.Rules = append(sl.Rules, anything...)
	case sl.Outcome == AsGood && sl.Why == "":
		sl.Why = "what stands in one conductor stands there in another order"
	}
	return sl
}

// worst is the worst of several, with the rules of all that are as bad and
// every reason.
func worst(parts []Slipped) Slipped {
	out := Slipped{Outcome: AsGood}
	for _, p := range parts {
		if rank[p.Outcome] > rank[out.Outcome] {
			out = Slipped{Outcome: p.Outcome}
		}
	}
	var why []string
	for _, p := range parts {
		if rank[p.Outcome] == rank[out.Outcome] {
			out.Rules = append(out.Rules, p.Rules...)
			if p.Why != "" && !slices.Contains(why, p.Why) {
				why = append(why, p.Why)
			}
		}
	}
	out.Why = strings.Join(why, "; ")
	return out
}

// readInState: a reading from pin to pin with single switches set saw the load;
// with the switches in other places it would have seen none.
func (d draft) readInState(after draft) Slipped {
	sees := func(d draft, rd *sheet.Reading) bool {
		n := d.joins(func(p *part.Part) bool {
			return slices.Contains([]string{"fuse", "connector"}, p.Kind.Name) || p.Kind.Name == "switch" && rd.Switch[p.Name] == "closed"
		})
		loads := func(pin string) bool {
			return slices.ContainsFunc(d.terminals(), func(t string) bool {
				p := d.partOf(t)
				return p != nil && n.of(t) == n.of(pin) && (p.Kind.Name == "motor" && own(p, t) != "frame" || len(p.Windings) > 0)
			})
		}
		return loads(sheet.PlugHot) && loads(sheet.PlugNeutral)
	}
	for _, rd := range d.s.Readings {
		if rd.Kind == "resistance" && len(rd.Switch) > 0 && sees(d, rd) && !sees(after, rd) {
			return Slipped{Outcome: Fail, Rules: []string{"reading-agrees"}}
		}
	}
	return Slipped{Outcome: AsGood}
}

// losesPart tells whether a part that was wired is on no wire any more, so that
// the sheet is refused.
func (d draft) losesPart(after draft) bool {
	has := func(d draft) map[*part.Part]bool {
		out := map[*part.Part]bool{}
		for _, t := range d.terminals() {
			out[d.partOf(t)] = true
		}
		return out
	}
	now := has(after)
	for p := range has(d) {
		if !now[p] {
			return true
		}
	}
	return false
}

func (d draft) wired(t string) bool { return slices.Contains(d.terminals(), t) }

// loose tells a part that the set runs without: across the line, from it to the
// chassis, or an outlet; with a motor goes the switch of its own.
func (d draft) loose(p *part.Part) bool {
	if p == nil {
		return false
	}
	switch p.Kind.Name {
	case "capacitor", "neon", "varistor", "arrester", "outlet":
		return true
	case "resistor":
		return !d.onLine() && d.role(p) == "line"
	}
	return d.ofMotor(p)
}

func (d draft) bare(after draft) bool {
	return d.marked("bare", view{}) == view{}.mark(after)
}

func (d draft) bareAsSet(after draft) bool {
	return len(d.parts("selector")) > 0 && d.marked("as set", view{asSet: true}) == view{asSet: true}.mark(after)
}

// shorted tells whether wires and closed contacts join the pins of the plug.
func (d draft) shorted() bool {
	n := d.contacts()
	hot, neutral, ground := n.of(sheet.PlugHot), n.of(sheet.PlugNeutral), n.of(sheet.PlugGround)
	return hot == neutral || hot == ground || neutral == ground
}

// lost: what carried current or kept the lines apart is another thing now.
func (d draft) lost(after draft) Slipped {
	at := after.sides()[sheet.Chassis]
	switch {
	case d.onLine() && d.sides()[sheet.Chassis] == neutral && at != hot && at != neutral:
		return Slipped{Outcome: Caution, Rules: append([]string{"parts-in-use"}, anything...), Why: "a chassis off both lines is dead; the set is as one with a floating chassis"}
	case len(d.parts("motor")) > 0 && !after.feedsPrimary(after.contacts()):
		// The motor, of unknown ohms, is a load as well.
		return Slipped{Outcome: Unproven, Rules: append([]string{"frequency-fits-supply"}, anything...)}
	}
	return Slipped{Outcome: Fail, Rules: anything}
}

// feedsPrimary tells whether a primary winding lies from one pin to the other.
func (d draft) feedsPrimary(n nets) bool {
	for _, p := range d.parts("transformer") {
		for _, w := range p.Windings {
			a, b := n.of(p.Full(w.Ends[0])), n.of(p.Full(w.Ends[1]))
			hot, neutral := n.of(sheet.PlugHot), n.of(sheet.PlugNeutral)
			if w.Role == "primary" && (a == hot && b == neutral || a == neutral && b == hot) {
				return true
			}
		}
	}
	return false
}

// sameLoad tells whether both lines and the ground meet the same load, fuses
// in, switches closed and what stands in series taken for wire, seen as v says.
func (d draft) sameLoad(after draft, v view) bool {
	v.drop = func(p *part.Part, t string) bool {
		return d.loose(p) || p != nil && own(p, t) == p.Word("shield") && !after.wired(t)
	}
	for _, p := range d.parts("fuse", "switch", "choke", "thermistor", "filter") {
		for _, pair := range inside(p) {
			v.through = append(v.through, [2]string{p.Full(pair[0]), p.Full(pair[1])})
		}
	}
	for _, p := range d.parts("connector") { // through a jumper, or past it
		for _, pair := range inside(p) {
			if strings.HasSuffix(pair[0], mate) {
				v.through = append(v.through, [2]string{p.Full(pair[0]), p.Full(pair[1])}, [2]string{p.Full(strings.TrimSuffix(pair[0], mate)), p.Full(strings.TrimSuffix(pair[1], mate))})
			}
		}
	}
	now := v
	now.turned = nil
	return v.mark(d) == now.mark(after)
}

// loadTurned exchanges the nets at which windings and selectors meet the two
// conductors.
func (d draft) loadTurned() map[string]string {
	lies, sides := map[string]string{}, d.sides()
	for _, p := range d.parts("transformer", "selector") {
		for _, t := range p.Terminals() {
			of := p.Kind.Name == "selector" || slices.ContainsFunc(p.Windings, func(w *part.Winding) bool {
				return w.Role == "primary" && slices.Contains(w.Order, t)
			})
			// On the far side of a selector a winding goes with the selector.
			switch s := sides[p.Full(t)]; {
			case !of || !d.meetsLine(p.Full(t)):
			case s == hot:
				lies[p.Full(t)] = sheet.PlugNeutral
			case s == neutral:
				lies[p.Full(t)] = sheet.PlugHot
			}
		}
	}
	return lies
}

// meetsLine tells whether a terminal is on a line conductor without a selector
// between.
func (d draft) meetsLine(t string) bool {
	n := d.passing("fuse", "switch", "connector", "filter", "thermistor", "choke")
	return n.of(t) == n.of(sheet.PlugHot) || n.of(t) == n.of(sheet.PlugNeutral)
}

// sameFeed tells whether a set on the line is fed as before, and only its own
// circuits are wired otherwise.
func (d draft) sameFeed(after draft) bool {
	v := view{lone: true, drop: func(p *part.Part, t string) bool {
		if d.works(p) || d.loose(p) {
			return true
		}
		return p != nil && slices.ContainsFunc(p.Windings, func(w *part.Winding) bool {
			return w.Role != "primary" && slices.Contains(w.Order, own(p, t))
		})
	}}
	for _, p := range d.parts("fuse", "switch") {
		for _, pair := range inside(p) {
			v.through = append(v.through, [2]string{p.Full(pair[0]), p.Full(pair[1])})
		}
	}
	return d.marked("feed", v) == v.mark(after)
}

// feedsWorks tells whether both lines still come to the set's own circuits; a
// third conductor that is a resistance is a line as well.
func (d draft) feedsWorks() bool {
	n := d.contacts()
	comes := func(pins ...string) bool {
		return slices.ContainsFunc(d.terminals(), func(t string) bool {
			return (d.works(d.partOf(t)) || d.partOf(t) != nil && len(d.partOf(t).Windings) > 0) && slices.ContainsFunc(pins, func(pin string) bool { return n.of(pin) == n.of(t) })
		})
	}
	hots := []string{sheet.PlugHot}
	if d.resisting(sheet.PlugGround) {
		hots = append(hots, sheet.PlugGround)
	}
	return comes(hots...) && comes(sheet.PlugNeutral)
}

// marked keeps a mark of the draft itself.
func (d draft) marked(name string, v view) mark {
	if d.kept.marks == nil {
		d.kept.marks = map[string]mark{}
	}
	if _, ok := d.kept.marks[name]; !ok {
		d.kept.marks[name] = v.mark(d)
	}
	return d.kept.marks[name]
}

// colored: a wire with a color may not serve another duty than before.
func (d draft) colored(after draft) Slipped {
	for _, w := range after.s.Wires {
		i := slices.IndexFunc(d.s.Wires, func(v *sheet.Wire) bool { return v.Name == w.Name })
		if w.Color == "" || i < 0 {
			continue
		}
		was, is := d.sides()[d.s.Wires[i].A], after.sides()[w.A]
		if was == is || is == secondary || is == load || d.bothWays() && was != ground && is != ground {
			continue
		}
		return Slipped{Outcome: Caution, Rules: []string{"conductor-colors"}, Why: "a color that only misleads from somewhere on is a caution"}
	}
	return Slipped{Outcome: AsGood}
}
