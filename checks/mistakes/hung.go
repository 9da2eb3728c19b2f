package mistakes

import (
	"slices"
	"strings"

	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
)

// hung says what becomes of a part that the set runs without.
func (d draft) hung(p *part.Part, after draft) Slipped {
	if d.untouched(after, p) {
		return Slipped{Outcome: AsGood}
	}
	if p.Kind.Name == "switch" { // of a motor, and on the line as it is
		if slices.ContainsFunc(p.Terminals(), func(t string) bool {
			s := after.sides()[p.Full(t)]
			return after.wired(p.Full(t)) && (s == ground || s == secondary && !after.nowhere(p.Full(t), d.motors()...))
		}) {
			return Slipped{Outcome: Fail, Rules: anything}
		}
		return Slipped{Outcome: AsGood}
	}
	out := []Slipped{after.ahead(d, p)}
	if p.Kind.Name == "motor" {
		switch frame := p.Full("frame"); {
		case !d.wired(frame) || after.sides()[frame] == ground:
		case !after.wired(frame):
			out = append(out, Slipped{Outcome: Unproven, Rules: []string{"accessible-parts-bonded"}})
		default:
			out = append(out, Slipped{Outcome: Fail, Rules: anything})
		}
	}
	switch {
	case p.Kind.Name == "resistor":
		out = append(out, d.bleeder(p, after))
	case d.onLine() && after.inside(p):
		out = append(out, Slipped{Outcome: NotJudged, Why: atTheRail, Rules: anything})
	case after.useless(p) && !d.useless(p):
		out = append(out, d.idled(p))
	case after.alwaysOn(p) && !after.feedsPrimary(after.joins(func(q *part.Part) bool {
		return !d.ofMotor(q) && slices.Contains([]string{"fuse", "switch", "connector"}, q.Kind.Name)
	})):
		out = append(out, Slipped{Outcome: AsGood, Why: "motor and set may change places behind their switches"})
	case after.alwaysOn(p):
		// Its ohms, which nobody knows, lie beside the winding in every reading.
		out = append(out, Slipped{Outcome: Unproven, Rules: []string{"winding-continuity", "plug-off-resistance", "reading-agrees"}})
	case p.Kind.Name == "outlet":
		out = append(out, d.outlet(p, after))
	case after.adrift(p):
		out = append(out, d.idled(p))
	case p.Kind.Name == "capacitor" && small(p) && strings.HasPrefix(p.Word("class"), "Y") && d.role(p) == "chassis" && after.role(p) != "chassis":
		out = append(out, Slipped{Outcome: AsGood, Why: "a class Y capacitor may stand across the line, and metal that nothing joins to the line is dead"})
	case !d.serves(p, after):
		out = append(out, Slipped{Outcome: Fail, Rules: anything})
	default:
		out = append(out, Slipped{Outcome: AsGood, Why: "a part across the line or to the chassis is as good elsewhere behind the fuse"})
	}
	return worst(out)
}

// bleeder: a resistor from one conductor to the other discharges the capacitors
// that it lies beside, with the switch open too.
func (d draft) bleeder(p *part.Part, after draft) Slipped {
	// As the plug is pulled, with the switch open.
	n := after.passing("fuse", "connector", "filter", "thermistor", "choke")
	onPin := func(t string) bool { return n.of(t) == n.of(sheet.PlugHot) || n.of(t) == n.of(sheet.PlugNeutral) }
	lost := false
	for _, c := range d.parts("capacitor") {
		a, b := leads(c)
		x, y := leads(p)
		beside := n.of(a) == n.of(x) && n.of(b) == n.of(y) || n.of(a) == n.of(y) && n.of(b) == n.of(x)
		lost = lost || !after.useless(c) && onPin(a) && onPin(b) && !beside
	}
	switch {
	case lost:
		return Slipped{Outcome: Fail, Rules: []string{"line-capacitor-discharge", "plug-off-resistance", "plug-on-resistance", "reading-agrees"}}
	case after.useless(p) || after.adrift(p):
		return Slipped{Outcome: Caution, Rules: []string{"parts-in-use"}, Why: "with its capacitor out of use there is nothing to discharge"}
	}
	return Slipped{Outcome: AsGood, Why: "a bleeder is as good wherever it lies beside its capacitor"}
}

// untouched tells whether every lead of a part is on the very same net as before.
func (d draft) untouched(after draft, p *part.Part) bool {
	was, is := d.copper(), after.copper()
	group := func(d draft, n nets, t string) string {
		var on []string
		for _, u := range d.terminals() {
			if q := d.partOf(u); n.of(u) == n.of(t) && (q == p || !d.loose(q) && (q == nil || q.Kind.Name != "tie")) {
				on = append(on, u)
			}
		}
		slices.Sort(on)
		return strings.Join(on, " ")
	}
	return !slices.ContainsFunc(p.Terminals(), func(t string) bool {
		return group(d, was, p.Full(t)) != group(after, is, p.Full(t))
	})
}

// ahead: ahead of the fuse a class X or Y capacitor is a caution; nothing else
// may be there.
func (d draft) ahead(before draft, p *part.Part) Slipped {
	for _, t := range p.Terminals() {
		if !d.wired(p.Full(t)) || !d.aheadOfFuse(p.Full(t)) || before.wired(p.Full(t)) && before.aheadOfFuse(p.Full(t)) {
			continue
		}
		if p.Kind.Name == "capacitor" && p.Word("class") != "" {
			return Slipped{Outcome: Caution, Rules: []string{"hot-meets-fuse-first"}, Why: "a class X or Y capacitor ahead of the fuse is a caution"}
		}
		return Slipped{Outcome: Fail, Rules: []string{"hot-meets-fuse-first", "varistor-behind-fuse"}}
	}
	return Slipped{Outcome: AsGood}
}

// aheadOfFuse tells whether a terminal is on a conductor that has a fuse, and on
// the cord side of it.
func (d draft) aheadOfFuse(t string) bool {
	n := d.passing("switch", "connector", "filter", "thermistor", "choke")
	return slices.ContainsFunc([]string{sheet.PlugHot, sheet.PlugNeutral}, func(pin string) bool {
		return n.of(pin) == n.of(t) && slices.ContainsFunc(d.parts("fuse"), func(f *part.Part) bool {
			x, y := n.of(f.Full(f.Terminals()[0])), n.of(f.Full(f.Terminals()[1]))
			return x == n.of(pin) || y == n.of(pin)
		})
	})
}

// leads are the two ends between which a part does what it does.
func leads(p *part.Part) (a, b string) {
	if p.Kind.Name == "outlet" {
		return p.Full("hot"), p.Full("neutral")
	}
	return p.Full("1"), p.Full("2")
}

// useless tells a part that hangs by one lead, or has both on one wire or, but
// for a contact that a capacitor or neon may bridge, on one conductor.
func (d draft) useless(p *part.Part) bool {
	a, b := leads(p)
	if d.wired(a) != d.wired(b) {
		return true
	}
	kinds := []string{"thermistor", "choke", "filter", "fuse"}
	if p.Kind.Name != "capacitor" && p.Kind.Name != "neon" {
		kinds = append(kinds, "switch")
	}
	n := d.passing(kinds...)
	return n.of(a) == n.of(b) || d.wired(a) && (d.nowhere(a, p) || d.nowhere(b, p))
}

// nowhere tells whether a lead of a part comes to wire and contacts that lead on
// to nothing but itself.
func (d draft) nowhere(t string, but ...*part.Part) bool {
	n := d.passing("switch", "fuse", "connector", "selector")
	return !slices.ContainsFunc(d.terminals(), func(u string) bool {
		q := d.partOf(u)
		return n.of(u) == n.of(t) && (q == nil || !slices.Contains(but, q) && !slices.Contains([]string{"tie", "switch", "fuse", "connector", "selector"}, q.Kind.Name))
	})
}

// adrift tells whether a lead of a part across the line comes to other such parts
// only, so that they hang on nothing together.
func (d draft) adrift(p *part.Part) bool {
	var others []*part.Part
	for _, q := range d.s.Parts {
		if a, b := leads(q); d.loose(q) && q.Kind.Name != "outlet" && d.sides()[a] != ground && d.sides()[b] != ground {
			others = append(others, q)
		}
	}
	a, b := leads(p)
	return slices.Contains(others, p) && (d.nowhere(a, others...) || d.nowhere(b, others...))
}

func (d draft) motors() []*part.Part { return d.parts("motor") }

// inside tells whether a lead of a part lies among the set's own circuits.
func (d draft) inside(p *part.Part) bool {
	a, b := leads(p)
	n := d.copper()
	return slices.ContainsFunc([]string{a, b}, func(t string) bool {
		s := d.sides()[t]
		return d.wired(t) && (s == secondary || s == load) && slices.ContainsFunc(d.terminals(), func(u string) bool {
			return n.of(u) == n.of(t) && d.works(d.partOf(u))
		})
	})
}

// idled names what notices a part that does nothing now.
func (d draft) idled(p *part.Part) Slipped {
	switch {
	case p.Kind.Name == "outlet":
		return Slipped{Outcome: Unproven, Rules: []string{"outlet-keeps-polarity"}}
	case p.Kind.Name == "capacitor" && d.role(p) == "chassis" && !small(p):
		return Slipped{Outcome: Fail, Rules: []string{"capacitance-agrees"}}
	}
	return Slipped{Outcome: Caution, Rules: []string{"parts-in-use"}, Why: "a part that does nothing endangers nobody, and what it was for is lost"}
}

// small tells a capacitor of less than windings and wiring may have, which no
// meter sees from the plug.
func small(p *part.Part) bool {
	v, ok := p.Value("value")
	return ok && v.High < 2e-9
}

// role of a capacitor as wired: chassis, contact (both ends on one line
// conductor, or across a contact) or line.
func (d draft) role(p *part.Part) string {
	sides := d.sides()
	a, b := sides[p.Full("1")], sides[p.Full("2")]
	switch {
	case a == ground || b == ground:
		return "chassis"
	case a == b:
		return "contact"
	}
	return "line"
}

// serves tells whether a part that hangs elsewhere does there what it did: to
// the same metal from any place on the mains, or between the two conductors, or
// across a contact.
func (d draft) serves(p *part.Part, after draft) bool {
	a, b := leads(p)
	was, is := d.sides(), after.sides()
	of := func(sides map[string]side) (metal, line int) {
		for _, t := range []string{a, b} {
			switch sides[t] {
			case ground:
				metal++
			case hot, neutral, load:
				line++
			}
		}
		return metal, line
	}
	metal, line := of(was)
	nowMetal, nowLine := of(is)
	if metal != nowMetal || line != nowLine || is[a] == load && is[b] != ground || is[b] == load && is[a] != ground {
		return false
	}
	if metal == 1 {
		return p.Kind.Name == "capacitor"
	}
	return metal == 0
}

// outlet: hot on hot and neutral on neutral where the plug keeps them apart.
func (d draft) outlet(p *part.Part, after draft) Slipped {
	h, n := after.sides()[p.Full("hot")], after.sides()[p.Full("neutral")]
	switch {
	case after.sides()[p.Full("ground")] != d.sides()[p.Full("ground")]:
		return Slipped{Outcome: Fail, Rules: anything}
	case h == hot && n == neutral, d.bothWays() && h == neutral && n == hot:
		return Slipped{Outcome: AsGood, Why: "an outlet is as good elsewhere behind the fuse"}
	case h == neutral && n == hot:
		return Slipped{Outcome: Fail, Rules: []string{"outlet-keeps-polarity"}}
	}
	return Slipped{Outcome: Unproven, Rules: []string{"outlet-keeps-polarity"}}
}

// alwaysOn tells a motor across the line without a switch of its own.
func (d draft) alwaysOn(p *part.Part) bool {
	if p.Kind.Name != "motor" {
		return false
	}
	n := d.joins(func(q *part.Part) bool {
		return !d.ofMotor(q) && slices.Contains([]string{"fuse", "switch", "connector", "filter", "thermistor", "choke"}, q.Kind.Name)
	})
	pins := []string{n.of(sheet.PlugHot), n.of(sheet.PlugNeutral)}
	return slices.Contains(pins, n.of(p.Full("1"))) && slices.Contains(pins, n.of(p.Full("2")))
}

// ohmsBelow tells whether a part is marked with fewer ohms.
func ohmsBelow(p *part.Part, most float64) bool {
	v, ok := p.Value("resistance")
	return ok && v.High < most
}

// inSeries: a choke, thermistor or filter may stand elsewhere in the line, but
// each coil of a filter in a conductor of its own and none passed by.
func (d draft) inSeries(p *part.Part, after draft) Slipped {
	n := after.copper()
	passed := slices.ContainsFunc(inside(p), func(pair [2]string) bool {
		a, b := p.Full(pair[0]), p.Full(pair[1])
		return !after.wired(a) || !after.wired(b) || n.of(a) == n.of(b)
	})
	switch {
	case d.untouched(after, p):
		return Slipped{Outcome: AsGood}
	case p.Kind.Name == "choke" && !passed && !after.carries(p) && ohmsBelow(p, 1) && !after.nowhere(p.Full("1"), p) && !after.nowhere(p.Full("2"), p):
		return Slipped{Outcome: AsGood, Why: "a coil of less than an ohm beside the load does nothing, and no reading from pin to pin is that close"}
	case p.Kind.Name != "filter" && !after.carries(p):
		return Slipped{Outcome: Caution, Rules: []string{"parts-in-use", "plug-on-resistance"}, Why: "the set is as one without the part, and what it was for is lost"}
	case passed || p.Kind.Name == "filter" && !after.filters(p):
		return Slipped{Outcome: Caution, Rules: []string{"parts-in-use", "plug-on-resistance"}, Why: "the set is as one without the part, and what it was for is lost"}
	case p.Kind.Name == "filter":
		return Slipped{Outcome: AsGood, Why: "a filter is as good turned round, or with its coils exchanged"}
	}
	return Slipped{Outcome: AsGood, Why: "a choke or thermistor is as good elsewhere in either conductor"}
}

// carries tells whether the set's current goes through a part: without it no
// load is on both pins.
func (d draft) carries(p *part.Part) bool {
	n := d.joins(func(q *part.Part) bool {
		return q != p && slices.Contains([]string{"fuse", "switch", "selector", "connector", "filter", "thermistor", "choke"}, q.Kind.Name)
	})
	on := map[string]bool{}
	for _, t := range d.terminals() {
		q := d.partOf(t)
		if q == nil || !slices.ContainsFunc(q.Windings, func(w *part.Winding) bool { return w.Role == "primary" && slices.Contains(w.Order, own(q, t)) }) {
			continue
		}
		for _, pin := range []string{sheet.PlugHot, sheet.PlugNeutral} {
			on[pin] = on[pin] || n.of(pin) == n.of(t)
		}
	}
	return len(on) == 0 || !(on[sheet.PlugHot] && on[sheet.PlugNeutral])
}

// filters tells whether one conductor comes in at one coil of a filter, and the
// other at the same end of the other.
func (d draft) filters(p *part.Part) bool {
	n := d.passing("fuse", "switch", "connector", "thermistor", "choke")
	hotAt, neutralAt := []string{}, []string{}
	for _, t := range []string{"line-in", "line-out", "neutral-in", "neutral-out"} {
		switch n.of(p.Full(t)) {
		case n.of(sheet.PlugHot):
			hotAt = append(hotAt, t)
		case n.of(sheet.PlugNeutral):
			neutralAt = append(neutralAt, t)
		}
	}
	if len(hotAt) != 1 || len(neutralAt) != 1 {
		return false
	}
	hotCoil, hotEnd, _ := strings.Cut(hotAt[0], "-")
	coil, end, _ := strings.Cut(neutralAt[0], "-")
	return hotCoil != coil && hotEnd == end
}
