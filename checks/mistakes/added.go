package mistakes

import (
	"slices"

	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
)

// addition is a part that somebody added where it does not belong. A row of the
// tables below is one: what, where, and what must notice.
type addition struct {
	what    string   // its kind
	marks   []string // keys of the part, each with its value
	where   string   // what stands before the place in the name of the slip
	at      func(d draft) []spot
	outcome string
	rules   []string
}

// spot is where a part is added: from a to b beside what is there, or in wire
// number in, when series says so.
type spot struct {
	name, a, b string
	in         int
	series     bool
	like       *part.Part // the part that the added one equals
}

var added = []kind{
	{"ground-broken-by-a-part", "Somebody put a fuse, a switch or a resistor into the ground wire.", adding(
		addition{"fuse", nil, "a fuse in ", inGround, Fail, groundWhole},
		addition{"switch", nil, "a switch in ", inGround, Fail, groundWhole},
		addition{"resistor", nil, "a resistor in ", inGround, Fail, groundWhole})},
	// What conducts once its voltage is reached is neither an approved capacitor nor a protective impedance.
	{"striker-to-chassis", "A neon lamp, varistor or arrester lies between a line conductor and the chassis.", adding(
		addition{"neon", []string{"voltage", "275 V"}, "a neon from ", lineToChassis, Fail, offChassis},
		addition{"varistor", []string{"voltage", "275 V"}, "a varistor from ", lineToChassis, Fail, offChassis},
		addition{"arrester", []string{"voltage", "275 V"}, "a arrester from ", lineToChassis, Fail, offChassis})},
	// 0.1 µF of paper, as sets of the time had from line to chassis and across the line; it carries no class mark. To
	// the chassis its current is over the limit and over what was measured, so that no mark is needed to see it.
	{"old-capacitor-left", "An old paper capacitor is still there, from a line conductor.", adding(
		addition{"capacitor", oldPaper, "from ", firstEndToChassis, Fail,
			[]string{"chassis-capacitor-class", "accessible-capacitor-class", "chassis-capacitor-leakage", "capacitance-agrees"}},
		addition{"capacitor", oldPaper, "from ", acrossPrimary, Unproven, []string{"line-capacitor-class"}})},
	{"second-fuse-beside", "A second fuse lies beside the first, so that the current of both may flow.", adding(
		addition{"fuse", nil, "", besideFuse, Fail, []string{"hot-meets-fuse-first", "both-sides-fused", "fuse-end-to-hot"}})},
	{"speaker-on-the-line", "A loudspeaker went where mains or heater voltage is.", adding(
		addition{"speaker", []string{"resistance", "500 Ω"}, "from ", acrossPrimary, Unproven, []string{"line-part-power"}},
		addition{"speaker", []string{"resistance", "3 Ω"}, "from ", acrossHeater, Unproven, []string{"winding-part-power"}})},
	{"impedance-bridged", "A capacitor lies across one of the resistors that join the chassis to ground.", adding(
		addition{"capacitor", []string{"value", "1 µF", "voltage", "630 V", "class", "none"}, "from ", besideImpedance, Fail,
			[]string{"protective-impedance", "accessible-capacitor-class", "capacitance-agrees"}})},
}

var (
	groundWhole = []string{"ground-runs-through", "ground-touches-bodies-only", "chassis-bonded"}
	offChassis  = []string{"hot-off-chassis", "neutral-off-chassis"}
	oldPaper    = []string{"value", "0.1 µF", "voltage", "400 V", "body", "paper"}
)

// adding makes every addition in every place that a sheet has for it, place by place.
func adding(rows ...addition) func(*strict.Node, *sheet.Sheet) []Slipped {
	return func(root *strict.Node, s *sheet.Sheet) []Slipped {
		d := newDraft(root, s)
		var out []Slipped
		for _, r := range rows {
			for _, sp := range r.at(d) {
				out = append(out, Slipped{Where: r.where + sp.name, Outcome: r.outcome, Rules: r.rules, Tree: d.put(r, sp)})
			}
		}
		return out
	}
}

// put makes the sheet with the part added.
func (d draft) put(r addition, sp spot) func() *strict.Node {
	name := d.free("X" + r.what)
	return d.edit(func(root *strict.Node) {
		n, ends := strict.MapNode(strict.Pair("kind", strict.TextNode(r.what))), []string{"1", "2"}
		if sp.like != nil {
			n, ends = sp.like.Node.Clone(), sp.like.Terminals()
		}
		for mark := range slices.Chunk(r.marks, 2) {
			n.Set(mark[0], strict.TextNode(mark[1]))
		}
		root.Get("parts").Set(name, n)
		list := root.Get("wiring")
		if sp.series {
			list.Items[sp.in] = wireNode(sp.a, name+"."+ends[0], d.s.Wires[sp.in])
		} else {
			list.Items = append(list.Items, wireNode(sp.a, name+"."+ends[0], nil))
		}
		list.Items = append(list.Items, wireNode(name+"."+ends[1], sp.b, nil))
	})
}

// inGround: the protective conductor must reach the chassis by wire alone.
func inGround(d draft) (out []spot) {
	for i, w := range d.s.Wires {
		if d.grounded() && (w.A == sheet.PlugGround || w.B == sheet.PlugGround) {
			out = append(out, spot{name: d.wireName(i), a: w.A, b: w.B, in: i, series: true})
		}
	}
	return out
}

// lineToChassis: from each end of each primary; on a chassis that is neutral
// itself such a part lies across the line.
func lineToChassis(d draft) (out []spot) {
	for _, w := range d.windings("primary") {
		for _, end := range w {
			if !d.onLine() {
				out = append(out, spot{name: end, a: end, b: sheet.Chassis})
			}
		}
	}
	return out
}

func firstEndToChassis(d draft) (out []spot) {
	for _, w := range d.windings("primary") {
		if !d.onLine() {
			out = append(out, fromTo(w[0], sheet.Chassis))
		}
	}
	return out
}

func acrossPrimary(d draft) []spot { return d.across("primary") }
func acrossHeater(d draft) []spot  { return d.across("heater") }

func (d draft) across(role string) (out []spot) {
	for _, w := range d.windings(role) {
		out = append(out, fromTo(w[0], w[1]))
	}
	return out
}

// besideFuse: beside each fuse that a line conductor comes to.
func besideFuse(d draft) (out []spot) {
	for _, p := range d.parts("fuse") {
		a, b := p.Full(p.Terminals()[0]), p.Full(p.Terminals()[1])
		if side := d.sides()[a]; side == hot || side == neutral {
			out = append(out, spot{name: "beside " + p.Name, a: a, b: b, like: p})
		}
	}
	return out
}

// besideImpedance: across each of two resistors in series that end on the chassis.
func besideImpedance(d draft) (out []spot) {
	n := d.copper()
	for _, p := range d.parts("resistor") {
		for _, q := range d.parts("resistor") {
			ends := [][2]string{{p.Full("1"), p.Full("2")}, {q.Full("1"), q.Full("2")}}
			meet := p != q && d.alone(ends[0][1], q) && n.of(ends[0][1]) == n.of(ends[1][0])
			if meet && (n.of(ends[1][1]) == n.of(sheet.Chassis) || n.of(ends[0][0]) == n.of(sheet.Chassis)) {
				out = append(out, fromTo(ends[0][0], ends[0][1]), fromTo(ends[1][0], ends[1][1]))
			}
		}
	}
	return out
}

func fromTo(a, b string) spot { return spot{name: a + " to " + b, a: a, b: b} }

// windings are the two ends of each winding of a mains transformer that has the role.
func (d draft) windings(role string) [][2]string {
	var out [][2]string
	for _, p := range d.parts("transformer") {
		for _, w := range p.Windings {
			if w.Role == role {
				out = append(out, [2]string{p.Full(w.Ends[0]), p.Full(w.Ends[1])})
			}
		}
	}
	return out
}

// free is a part's name that the sheet does not have.
func (d draft) free(name string) string {
	for d.s.Part(name) != nil {
		name += "0"
	}
	return name
}
