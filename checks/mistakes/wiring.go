package mistakes

import (
	"fmt"
	"slices"
	"strings"

	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
)

// Which rules may notice that the mains side is not wired as it should be: the
// ones that follow hot, neutral and ground with a finger, and the readings
// taken of the set as it was, which no longer fit the wiring on the sheet.
var (
	following = []string{
		"hot-meets-fuse-first", "switch-follows-fuse", "switch-opens-hot", "neutral-runs-through",
		"both-sides-open", "both-sides-fused", "fuse-end-to-hot", "load-across-line", "no-dead-short",
		"construction-agrees", "conductor-colors", "connector-safe-unmated",
	}
	grounding = []string{
		"ground-runs-through", "ground-touches-bodies-only", "chassis-bonded", "accessible-parts-bonded",
		"hot-off-chassis", "neutral-off-chassis", "no-dead-short", "ground-own-fastening",
	}
	metering = []string{
		"plug-on-resistance", "plug-off-resistance", "plug-to-chassis-resistance", "reading-agrees",
		"capacitance-agrees", "bond-resistance", "insulation-mains-chassis", "insulation-primary-secondaries",
	}
	living = []string{"line-chassis-unbonded", "line-chassis-on-neutral", "line-chassis-isolated", "line-chassis-enclosed", "protective-impedance"}
	rating = []string{
		"line-capacitor-class", "chassis-capacitor-class", "accessible-capacitor-class", "line-capacitor-discharge",
		"varistor-behind-fuse", "tap-fits-supply", "winding-voltage-fits-supply", "primary-sections-phased", "selector-never-shorts",
	}
	anything = slices.Concat(following, grounding, metering, rating, living)
)

var wiring = []Slip{
	{"leads-exchanged", "The leads of two terminals of one part, or of two pins of the cord, changed places.", exchangeLeads},
	{"lead-on-the-wrong-terminal", "One lead went to another terminal of the same part.", misland},
	{"wire-left-out", "One wire of the mains side was never fitted.", leaveOut},
	{"strand-across", "A strand of wire joins two places of which one is on the mains side.", bridge},
}

// rivals are the terminals of a part, or the pins of the plug, that a lead
// meant for t could land on by mistake: every one of a small part; of a
// transformer its own winding and the first end of each other.
func (d draft) rivals(t string) []string {
	p := d.partOf(t)
	if p == nil {
		if t == sheet.Chassis {
			return nil
		}
		return slices.DeleteFunc([]string{sheet.PlugHot, sheet.PlugNeutral, sheet.PlugGround}, func(u string) bool { return u == t })
	}
	var out []string
	for _, u := range p.Terminals() {
		if p.Full(u) == t || !d.likely(p, strings.TrimPrefix(t, p.Name+"."), u) {
			continue
		}
		out = append(out, p.Full(u))
	}
	return out
}

func (d draft) likely(p *part.Part, t, u string) bool {
	of := func(x string) *part.Winding {
		for _, w := range p.Windings {
			if slices.Contains(w.Order, x) {
				return w
			}
		}
		return nil
	}
	v, w := of(t), of(u)
	return len(p.Windings) == 0 || w != nil && (v == w || u == w.Ends[0])
}

// exchangeLeads: whatever is exchanged on the mains side, current takes another
// way, ground meets another wire, or the meter sees another set.
func exchangeLeads(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	wired := d.terminals()
	for _, t := range wired {
		if !d.mainsSide(t) {
			continue
		}
		for _, u := range d.rivals(t) {
			if u < t && slices.Contains(wired, u) && d.mainsSide(u) {
				continue // made from the other side
			}
			out = append(out, d.judged(Slipped{Where: t + " with " + u, Root: d.exchanged(t, u), Rules: anything, Outcome: Fail}, t, u))
		}
	}
	return out
}

// mainsSide tells whether a terminal is of the mains side: on a line conductor,
// or what the ground conductor serves there. Returns of the secondary side end
// on the chassis too, and are not.
func (d draft) mainsSide(t string) bool {
	switch p := d.partOf(t); d.sides()[t] {
	case secondary:
		return false
	case ground:
		if p == nil {
			return true
		}
		if p.Kind.Name == "connector" {
			i := 2 * pole(p, own(p, t))
			return d.sides()[p.Full(p.Terminals()[i])] != secondary && d.sides()[p.Full(p.Terminals()[i+1])] != secondary
		}
		return !p.Bare() && len(p.Windings) == 0 && slices.ContainsFunc(p.Terminals(), func(u string) bool {
			s := d.sides()[p.Full(u)]
			return s != secondary && s != ground
		})
	}
	return true
}

// judged gives a slip at two terminals of one part its reason where the
// reference lets it pass.
func (d draft) judged(sl Slipped, t, u string) Slipped {
	p := d.partOf(t)
	switch {
	case p == nil:
		return sl
	case d.works(p), d.onLine() && (d.sides()[t] == secondary || d.sides()[u] == secondary):
		sl.Outcome, sl.Why = NotJudged, atTheRail
	case p.Kind.Name == "connector" && (d.sides()[t] == secondary || d.sides()[u] == secondary) && d.sides()[t]+d.sides()[u] == secondary+ground:
		sl.Outcome, sl.Why = NotJudged, behind
	case d.ofMotor(p) && d.sides()[u] != ground && d.sides()[t] != ground:
		sl.Outcome, sl.Why = Harmless, ownSwitch
	case d.dormant(t) && (d.dormant(u) || d.sides()[u] == secondary):
		sl.Outcome, sl.Why = Harmless, "the selector joins neither contact where it is set"
	case p.Kind.Name == "switch" && pole(p, own(p, t)) == pole(p, own(p, u)) && d.bothWays():
		sl.Outcome, sl.Why = Caution, "one pole is a caution on a bonded transformer set whose plug fits both ways"
	case p.Kind.Name == "switch" && pole(p, own(p, t)) == pole(p, own(p, u)) && d.sides()[t] == neutral:
		sl.Outcome, sl.Why = Harmless, "neutral may run through without a switch"
	case p.Kind.Name == "switch" && d.facing(p, t, u):
		sl.Outcome, sl.Why = Harmless, "both conductors pass the switch, and which end of the load is on which is one"
	case p.Kind.Name == "filter" && own(p, t) != "case" && own(p, u) != "case" && d.facing(p, t, u):
		sl.Outcome, sl.Why = Harmless, "a filter that is passed by or turned round filters less and endangers nobody"
	case p.Kind.Name == "choke" || p.Kind.Name == "thermistor":
		sl.Outcome, sl.Why = Harmless, "no rule asks for a choke or thermistor in the line; its ohms show only where they outweigh what a meter may be off"
	case p.Kind.Name == "outlet" && d.sides()[t] != ground && d.sides()[u] != ground && u != p.Full("ground"):
		// An outlet feeds whatever is plugged into it; the set itself stays as it was.
		sl.Outcome, sl.Why = Harmless, "no rule of the reference asks which contact of an outlet is hot"
	}
	return sl
}

func own(p *part.Part, t string) string { return strings.TrimPrefix(t, p.Name+".") }

// facing tells two terminals of a switch or filter that lie on the same end of
// it, one in each conductor, or of a filter in one conductor.
func (d draft) facing(p *part.Part, t, u string) bool {
	i, j := slices.Index(p.Terminals(), own(p, t)), slices.Index(p.Terminals(), own(p, u))
	if p.Kind.Name == "filter" { // line-in, neutral-in, line-out, neutral-out
		return i/2 == j/2 || i%2 == j%2
	}
	return i%2 == j%2 && i/2 != j/2
}

// dormant tells a terminal that nothing leads to but contacts of a selector,
// none of them joined where it is set.
func (d draft) dormant(t string) bool {
	if p := d.partOf(t); p != nil && p.Kind.Name == "selector" {
		return !d.inUse(p, t)
	}
	for _, w := range d.s.Wires {
		if w.A != t && w.B != t {
			continue
		}
		if p := d.partOf(other(w, t)); p == nil || p.Kind.Name != "selector" || d.inUse(p, other(w, t)) {
			return false
		}
	}
	return true
}

// inUse tells whether a selector joins the contact where it is set.
func (d draft) inUse(p *part.Part, t string) bool {
	for _, pair := range p.Joined(p.Word("set")) {
		if p.Full(pair[0]) == t || p.Full(pair[1]) == t {
			return true
		}
	}
	return false
}

// misland: one wire at a time, so that what else hung on the terminal stays.
func misland(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	sides := d.sides()
	var out []Slipped
	for i, w := range s.Wires {
		for _, t := range []string{w.A, w.B} {
			if sides[t] == ground || !d.mainsSide(t) {
				continue
			}
			for _, u := range d.rivals(t) {
				if u == w.A || u == w.B {
					continue
				}
				sl := Slipped{Where: fmt.Sprintf("%s, on %s for %s", d.wireName(i), u, t), Root: d.moved(i, t, u), Rules: anything, Outcome: Fail}
				p := d.partOf(other(w, t))
				onLine := sides[u] == hot || sides[u] == neutral || sides[u] == load
				switch {
				case p != nil && (d.idle(p) || d.ofMotor(p)) && onLine:
					sl.Outcome, sl.Why = Harmless, "a part across the line hangs elsewhere on the line, or on one conductor only"
				case p != nil && p.Kind.Name == "capacitor" && onLine && d.partOf(t) != nil && d.partOf(t).Kind.Name != "fuse":
					sl.Outcome, sl.Why = Harmless, "a capacitor to the chassis may hang on either conductor, ahead of the switch too"
				default:
					sl = d.judged(sl, t, u)
				}
				out = append(out, sl)
			}
		}
	}
	return out
}

func other(w *sheet.Wire, t string) string {
	if w.A == t {
		return w.B
	}
	return w.A
}

// idle tells a part that the set runs without: across the line, or an outlet.
func (d draft) idle(p *part.Part) bool {
	switch p.Kind.Name {
	case "neon", "varistor", "outlet", "motor":
		return true
	case "capacitor":
		return d.role(p) != "chassis"
	}
	return false
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

// leaveOut: without a wire of its path the load gets no current and the meter
// sees it; without a wire of the ground path metal is not bonded.
func leaveOut(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	sides := d.sides()
	var out []Slipped
	for i, w := range s.Wires {
		sl := Slipped{Where: d.wireName(i), Root: d.cut(i), Outcome: Fail}
		across := func(a, b string) bool { return d.reached(a, sheet.PlugHot, i) && d.reached(b, sheet.PlugNeutral, i) }
		p, q := d.partOf(w.A), d.partOf(w.B)
		either := func(f func(*part.Part) bool) bool { return p != nil && f(p) || q != nil && f(q) }
		switch {
		case sides[w.A] == secondary || sides[w.B] == secondary:
			continue
		case d.unwired(i):
			sl.Outcome = Unreadable
		case sides[w.A] == ground && sides[w.B] == ground:
			lost := d.losesGround(i)
			if lost == "" {
				continue // a return of the secondary side
			}
			switch p := d.partOf(lost); {
			case p != nil && p.Word("reach") == "enclosed":
				sl.Outcome, sl.Why = Harmless, "no hand gets to it"
			case p == nil || p.Kind.Name == "body":
				sl.Rules = []string{"ground-runs-through", "chassis-bonded", "accessible-parts-bonded"}
			case d.small(p):
				sl.Outcome, sl.Why = Harmless, tooSmall
			case p.Kind.Name == "capacitor":
				sl.Rules = []string{"capacitance-agrees"}
			case len(p.Windings) > 0:
				sl.Outcome, sl.Why = Harmless, "no rule asks for a screen between windings; without it the set is as one that has none"
			default:
				sl.Outcome, sl.Why, sl.Rules = Unproven, "an outlet may have no ground contact and a motor no metal frame, but the sheet does not say so", []string{"accessible-parts-bonded"}
			}
		case either(d.works):
			sl.Outcome, sl.Why, sl.Rules = NotJudged, atTheRail, anything
		case either(d.ofMotor):
			sl.Outcome, sl.Why = Harmless, ownSwitch
		case either(func(p *part.Part) bool { return p.Kind.Name == "resistor" }):
			sl.Rules = []string{"line-capacitor-discharge", "plug-off-resistance"}
		case either(d.idle):
			sl.Outcome, sl.Why = Harmless, "a part across the line that hangs by one lead carries nothing"
		case either(d.small):
			sl.Outcome, sl.Why = Harmless, tooSmall
		case either(func(p *part.Part) bool { return p.Kind.Name == "capacitor" }):
			sl.Rules = []string{"capacitance-agrees"}
		case across(w.A, w.B) || across(w.B, w.A):
			sl.Rules = slices.Concat(following, []string{"plug-on-resistance", "plug-off-resistance", "reading-agrees", "capacitance-agrees"})
		default:
			sl.Outcome, sl.Why = Harmless, "no current takes this wire where the selector is set"
		}
		out = append(out, sl)
	}
	return out
}

// losesGround is what of the mains side is no longer on the ground pin without
// wire i: the chassis, a body, or a lead that must be on it; "" if nothing.
func (d draft) losesGround(i int) string {
	// A mated pin counts as wire in the ground path.
	n, whole := nets{}, d.joins(func(p *part.Part) bool { return p.Kind.Name == "connector" })
	for j, w := range d.s.Wires {
		if j != i {
			n.join(w.A, w.B)
		}
	}
	for _, p := range d.parts("connector") {
		for _, pair := range inside(p) {
			n.join(p.Full(pair[0]), p.Full(pair[1]))
		}
	}
	for _, t := range d.terminals() {
		p := d.partOf(t)
		serves := t == sheet.Chassis || p != nil && (p.Kind.Name == "body" || d.mainsSide(t) || t == p.Full(p.Word("shield")))
		if serves && whole.of(t) == whole.of(sheet.PlugGround) && n.of(t) != n.of(sheet.PlugGround) {
			return t
		}
	}
	return ""
}

// bridge: every net of the mains side with every net of another side, one
// terminal of each; of the secondary side the first end of each winding.
func bridge(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	sides, copper := d.sides(), d.copper()
	first := map[string]string{}
	var nodes []string
	for _, t := range d.terminals() {
		if net := copper.of(t); first[net] == "" && sides[t] != secondary && d.mainsSide(t) {
			first[net] = t
			nodes = append(nodes, t)
		}
	}
	for _, p := range d.parts("transformer") {
		for _, w := range p.Windings {
			if w.Role != "primary" {
				nodes = append(nodes, p.Full(w.Ends[0]))
			}
		}
	}
	var out []Slipped
	for i, a := range nodes {
		for _, b := range nodes[i+1:] {
			x, y := sides[a], sides[b]
			if x == y || x == secondary && y == ground || x == ground && y == secondary {
				continue
			}
			sl := Slipped{Where: a + " and " + b, Root: d.joined(a, b), Rules: anything, Outcome: Fail}
			switch p, q := d.partOf(a), d.partOf(b); {
			case d.onLine() && (x == load || y == load) && (d.works(p) || d.works(q)) && x != ground && y != ground,
				d.onLine() && (x == secondary || y == secondary) && x != hot && y != hot:
				sl.Outcome, sl.Why = NotJudged, atTheRail
			case d.ofMotor(p) && y != ground && y != secondary || d.ofMotor(q) && x != ground && x != secondary:
				sl.Outcome, sl.Why = Harmless, ownSwitch
			}
			out = append(out, sl)
		}
	}
	return out
}
