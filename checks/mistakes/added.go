package mistakes

import (
	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
)

var added = []kind{
	{"ground-broken-by-a-part", "Somebody put a fuse, a switch or a resistor into the ground wire.", partInGround},
	{"striker-to-chassis", "A neon lamp, varistor or arrester lies between a line conductor and the chassis.", strikerToChassis},
	{"old-capacitor-left", "An old paper capacitor is still there, from a line conductor.", oldCapacitor},
}

// partInGround: the protective conductor must reach the chassis by wire alone.
func partInGround(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	for i, w := range s.Wires {
		if !d.grounded() {
			break
		}
		if w.A != sheet.PlugGround && w.B != sheet.PlugGround {
			continue
		}
		for _, kind := range []string{"fuse", "switch", "resistor"} {
			name := d.free("X" + kind)
			root := d.edit(func(root *strict.Node) {
				root.Get("parts").Set(name, strict.MapNode(strict.Pair("kind", strict.TextNode(kind))))
				list := root.Get("wiring")
				list.Items[i] = wireNode(w.A, name+".1", w)
				list.Items = append(list.Items, wireNode(name+".2", w.B, nil))
			})
			out = append(out, Slipped{Where: "a " + kind + " in " + d.wireName(i), Tree: root, Outcome: Fail,
				Rules: []string{"ground-runs-through", "ground-touches-bodies-only", "chassis-bonded"}})
		}
	}
	return out
}

// strikerToChassis: what conducts once its voltage is reached is neither an
// approved capacitor nor a protective impedance.
func strikerToChassis(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	for _, kind := range []string{"neon", "varistor", "arrester"} {
		if d.onLine() {
			break // on a chassis that is neutral itself they lie across the line
		}
		for _, w := range d.primaries() {
			for _, end := range w {
				name := d.free("X" + kind)
				out = append(out, Slipped{Where: "a " + kind + " from " + end, Outcome: Fail, Rules: []string{"hot-off-chassis", "neutral-off-chassis"},
					Tree: d.edit(func(root *strict.Node) {
						root.Get("parts").Set(name, strict.MapNode(strict.Pair("kind", strict.TextNode(kind)), strict.Pair("voltage", strict.TextNode("275 V"))))
						list := root.Get("wiring")
						list.Items = append(list.Items, wireNode(end, name+".1", nil), wireNode(name+".2", sheet.Chassis, nil))
					})})
			}
		}
	}
	return out
}

// primaries are the two ends of each primary winding.
func (d draft) primaries() [][2]string {
	var out [][2]string
	for _, p := range d.parts("transformer") {
		for _, w := range p.Windings {
			if w.Role == "primary" {
				out = append(out, [2]string{p.Full(w.Ends[0]), p.Full(w.Ends[1])})
			}
		}
	}
	return out
}

// oldCapacitor: 0.1 µF of paper, as sets of the time had from line to chassis
// and across the line; it carries no class mark. To the chassis its current is
// over the limit and over what was measured, so that no mark is needed to see it.
func oldCapacitor(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	add := func(a, b, outcome string, rules ...string) {
		name := d.free("Xold")
		out = append(out, Slipped{Where: "from " + a + " to " + b, Outcome: outcome, Rules: rules, Tree: d.edit(func(root *strict.Node) {
			root.Get("parts").Set(name, strict.MapNode(strict.Pair("kind", strict.TextNode("capacitor")),
				strict.Pair("value", strict.TextNode("0.1 µF")), strict.Pair("voltage", strict.TextNode("400 V")), strict.Pair("body", strict.TextNode("paper"))))
			list := root.Get("wiring")
			list.Items = append(list.Items, wireNode(a, name+".1", nil), wireNode(name+".2", b, nil))
		})})
	}
	for _, w := range d.primaries() {
		if !d.onLine() {
			add(w[0], sheet.Chassis, Fail, "chassis-capacitor-class", "accessible-capacitor-class", "chassis-capacitor-leakage", "capacitance-agrees")
		}
		add(w[0], w[1], Unproven, "line-capacitor-class")
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
