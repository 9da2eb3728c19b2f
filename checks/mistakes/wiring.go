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
		"varistor-behind-fuse", "outlet-keeps-polarity", "tap-fits-supply", "winding-voltage-fits-supply", "primary-sections-phased", "selector-never-shorts",
	}
	anything = slices.Concat(following, grounding, metering, rating, living)
)

var wiring = []kind{
	{"leads-exchanged", "The leads of two terminals of one part, or of two pins of the cord, changed places.", exchangeLeads},
	{"lugs-exchanged", "What belongs on two lugs of different parts changed places.", exchangeLugs},
	{"lead-on-the-wrong-terminal", "One lead went to another terminal of the same part.", misland},
	{"lead-on-the-chassis", "One lead went to the chassis and not to its lug.", landOnChassis},
	{"ground-on-a-lug", "The ground wire went to a lug of the mains side and not to the chassis.", groundOnLug},
	{"part-one-lug-further", "A small part hangs between other lugs than it should.", hangElsewhere},
	{"wire-left-out", "One wire of the mains side was never fitted.", leaveOut},
	{"strand-across", "A strand of wire joins two places of which one is on the mains side.", bridge},
	{"wrong-winding-on-mains", "The mains leads went to another winding of the transformer.", wrongWinding},
	{"connector-not-keyed", "A connector fits both ways, or nobody looked whether it does.", notKeyed},
	{"connector-turned", "One half of a connector is wired from its other end.", connectorTurned},
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
		if p.Full(u) == t || !d.likely(p, own(p, t), u) {
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
			out = append(out, d.rewired(t+" with "+u, d.exchanged(t, u)))
		}
	}
	return out
}

// exchangeLugs: the same between any two parts.
func exchangeLugs(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	n := d.copper()
	var out []Slipped
	wired := d.terminals()
	for i, t := range wired {
		for _, u := range wired[i+1:] {
			p := d.partOf(t)
			if !d.mainsSide(t) || !d.mainsSide(u) || n.of(t) == n.of(u) || p == d.partOf(u) || d.isGround(t) && d.isGround(u) {
				continue
			}
			out = append(out, d.rewired(t+" with "+u, d.exchanged(t, u)))
		}
	}
	return out
}

func (d draft) isGround(t string) bool { return d.sides()[t] == ground }

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

func own(p *part.Part, t string) string { return strings.TrimPrefix(t, p.Name+".") }

// misland: one wire at a time, so that what else hung on the terminal stays.
func misland(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	for i, w := range s.Wires {
		for _, t := range []string{w.A, w.B} {
			if d.isGround(t) || !d.mainsSide(t) {
				continue
			}
			for _, u := range d.rivals(t) {
				if u != w.A && u != w.B {
					out = append(out, d.rewired(fmt.Sprintf("%s, on %s for %s", d.wireName(i), u, t), d.moved(i, t, u)))
				}
			}
		}
	}
	return out
}

// landOnChassis: a lug that is riveted to the chassis looks like any other.
func landOnChassis(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	n := d.copper()
	var out []Slipped
	for i, w := range s.Wires {
		for _, t := range []string{w.A, w.B} {
			if d.mainsSide(t) && n.of(t) != n.of(sheet.Chassis) && other(w, t) != sheet.Chassis {
				out = append(out, d.rewired(fmt.Sprintf("%s, on the chassis for %s", d.wireName(i), t), d.moved(i, t, sheet.Chassis)))
			}
		}
	}
	return out
}

// groundOnLug: the chassis is not bonded, and the lug is.
func groundOnLug(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	n := d.copper()
	seen := map[string]bool{n.of(sheet.PlugGround): true, n.of(sheet.Chassis): true}
	var out []Slipped
	for i, w := range s.Wires {
		if !d.grounded() || w.A != sheet.PlugGround && w.B != sheet.PlugGround {
			continue
		}
		for _, t := range d.terminals() {
			if d.mainsSide(t) && !seen[n.of(t)] {
				seen[n.of(t)] = true
				out = append(out, d.rewired(t, d.moved(i, other(w, sheet.PlugGround), t)))
			}
		}
	}
	return out
}

// hangElsewhere: each lead of a part of two leads to each other place.
func hangElsewhere(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	n := d.copper()
	places := d.places()
	var out []Slipped
	for i, w := range s.Wires {
		for _, t := range []string{w.A, w.B} {
			p := d.partOf(other(w, t))
			if p == nil || !slices.Contains([]string{"capacitor", "neon", "varistor", "arrester", "resistor", "thermistor", "choke", "motor"}, p.Kind.Name) || !d.onMains(p) || d.works(p) {
				continue
			}
			for _, u := range places {
				if s := d.sides()[u]; n.of(u) != n.of(t) && (s == hot || s == neutral || s == ground) && (d.partOf(u) == nil || d.partOf(u) != d.partOf(t)) && u != other(w, t) {
					out = append(out, d.rewired(fmt.Sprintf("%s, on %s for %s", d.wireName(i), u, t), d.moved(i, t, u)))
				}
			}
		}
	}
	return out
}

// places are the nets of the mains side by one terminal of each.
func (d draft) places() []string {
	n, seen := d.copper(), map[string]bool{}
	var out []string
	for _, t := range d.terminals() {
		if net := n.of(t); !seen[net] && d.sides()[t] != secondary && d.mainsSide(t) {
			seen[net] = true
			out = append(out, t)
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

// leaveOut: without a wire of its path the load gets no current and the meter
// sees it; without a wire of the ground path metal is not bonded.
func leaveOut(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	sides := d.sides()
	var out []Slipped
	for i, w := range s.Wires {
		if sides[w.A] == secondary || sides[w.B] == secondary {
			continue
		}
		sl := d.rewired(d.wireName(i), d.cut(i))
		if sides[w.A] == ground && sides[w.B] == ground && sl.Outcome == Fail {
			lost := d.losesGround(i)
			if lost == "" {
				continue // a return of the secondary side
			}
			switch p := d.partOf(lost); {
			case p != nil && p.Word("reach") == "enclosed":
				sl.Outcome, sl.Why = AsGood, "no hand gets to it"
			case p == nil || p.Kind.Name == "body":
				sl.Rules = []string{"ground-runs-through", "chassis-bonded", "accessible-parts-bonded"}
			case p.Kind.Name != "capacitor":
				// An outlet may have no ground contact and a motor no metal frame, but the sheet does not say so.
				sl.Outcome, sl.Rules = Unproven, []string{"accessible-parts-bonded"}
			}
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
		serves := t == sheet.Chassis || p != nil && (p.Kind.Name == "body" || d.mainsSide(t))
		if serves && whole.of(t) == whole.of(sheet.PlugGround) && n.of(t) != n.of(sheet.PlugGround) {
			return t
		}
	}
	return ""
}

// bridge: every net of the mains side with every other, one terminal of each;
// of the secondary side the first end of each winding.
func bridge(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	sides := d.sides()
	nodes := d.places()
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
			if (x == secondary || x == ground) && (y == secondary || y == ground) {
				continue
			}
			out = append(out, d.rewired(a+" and "+b, d.joined(a, b)))
		}
	}
	return out
}

// wrongWinding: both ends of a primary change places with those of each other winding.
func wrongWinding(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	for _, p := range d.parts("transformer") {
		for _, v := range p.Windings {
			for _, w := range p.Windings {
				if v.Role != "primary" || w.Role == "primary" {
					continue
				}
				turn := map[string]string{}
				for k := range v.Ends {
					a, b := p.Full(v.Ends[k]), p.Full(w.Ends[k])
					turn[a], turn[b] = b, a
				}
				out = append(out, d.rewired(fmt.Sprintf("%s for %s", w.Name, v.Name), d.ends(swapped(turn))))
			}
		}
	}
	return out
}
