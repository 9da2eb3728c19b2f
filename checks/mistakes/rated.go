package mistakes

import (
	"slices"

	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
)

// rated are the slips of what hangs on the mains or on a winding and is not made
// for it.
var rated = []kind{
	{"unrated-part", "A part that is made for less stands in or across the line, or across a winding.", unratedPart},
	{"wrong-mark", "A part on the mains or on a winding is made for less than it bears, or nobody read its mark.", wrongMark},
	{"thin-run", "A wire of the ground path is thinner than the cord, or one of the mains side of a size that no table has.", thinRun},
	{"shield-on-line", "The shield of a transformer is joined to a line conductor or to the live end of a winding.", shieldOnLine},
}

// described is a part as a sheet has it: its kind, then keys and values.
func described(kind string, pairs ...string) *strict.Node {
	return keyed(append([]string{"kind", kind}, pairs...)...)
}

// unratedPart: across each primary what burns there at any supply, ahead of it
// what cannot carry any set, across a heater winding what is made for less.
func unratedPart(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	across := func(a, b, what, outcome string, n *strict.Node, rules ...string) {
		name := d.free("Xpart")
		out = append(out, Slipped{Where: what + " from " + a + " to " + b, Outcome: outcome, Rules: rules, Tree: d.edit(func(root *strict.Node) {
			root.Get("parts").Set(name, n)
			list := root.Get("wiring")
			list.Items = append(list.Items, wireNode(a, name+".1", nil), wireNode(name+".2", b, nil))
		})})
	}
	for _, w := range d.windings("primary") {
		if !d.wired(w[0]) || !d.wired(w[1]) {
			continue
		}
		across(w[0], w[1], "a dial lamp", Fail, described("lamp", "voltage", "6.3 V", "current", "150 mA"), "line-part-voltage")
		across(w[0], w[1], "1 kΩ of a quarter watt", Fail, described("resistor", "value", "1 kΩ", "tolerance", "5 %", "power", "0.25 W", "voltage", "500 V"), "line-part-power")
		across(w[0], w[1], "1 MΩ without marks", Unproven, described("resistor", "value", "1 MΩ"), "line-part-power", "line-part-voltage")
		across(w[0], w[1], "a neon lamp without resistor", Fail, described("neon", "voltage", "65 V"), "line-part-current")
		across(w[0], w[1], "a choke of 5 mA", Fail, described("choke", "inductance", "1 H", "resistance", "100 Ω", "current", "5 mA"), "line-part-current")
		for i, wire := range s.Wires {
			for _, at := range []string{wire.A, wire.B} {
				far := wire.A
				if far == at {
					far = wire.B
				}
				// What lies beside the primary may well live on 5 mA.
				if q := d.partOf(far); at != w[0] || d.sides()[at] == neutral || q == nil || q.Kind.Name != "switch" && q.Kind.Name != "fuse" {
					continue
				}
				name := d.free("Xseries")
				for what, n := range map[string]*strict.Node{
					"a thermistor of 5 mA": described("thermistor", "cold", "50 Ω", "hot", "2 Ω", "current", "5 mA"),
					"a choke of 5 mA":      described("choke", "inductance", "1 mH", "resistance", "1 Ω", "current", "5 mA"),
				} {
					out = append(out, Slipped{Where: what + " in " + d.wireName(i), Outcome: Fail, Rules: []string{"line-part-current", "no-dead-short", "part-idle"}, Tree: d.edit(func(root *strict.Node) {
						root.Get("parts").Set(name, n)
						list := root.Get("wiring")
						list.Items[i] = wireNode(far, name+".1", wire)
						list.Items = append(list.Items, wireNode(name+".2", at, nil))
					})})
				}
			}
		}
	}
	for _, p := range d.parts("transformer") {
		for _, w := range p.Windings {
			a, b := p.Full(w.Ends[0]), p.Full(w.Ends[1])
			if volts, ok := part.ValueOf(w.Node.Get("voltage")); w.Role != "heater" || !ok || volts.Low < 5 || !d.wired(a) && !d.wired(b) {
				continue
			}
			across(a, b, "a lamp of 2.5 V", Fail, described("lamp", "voltage", "2.5 V", "current", "0.5 A"), "winding-part-voltage")
			across(a, b, "10 Ω of a tenth of a watt", Fail, described("resistor", "value", "10 Ω", "tolerance", "5 %", "power", "0.1 W", "voltage", "100 V"), "winding-part-power")
			across(a, b, "a choke of 5 mA", Fail, described("choke", "inductance", "1 mH", "resistance", "1 Ω", "current", "5 mA"), "winding-part-current")
			across(a, b, "a varistor of 2 V", Fail, described("varistor", "voltage", "2 V"), "winding-part-voltage")
			across(a, b, "a capacitor of 3 V", Fail, described("capacitor", "value", "10 nF", "class", "none", "voltage", "3 V"), "winding-part-voltage")
		}
	}
	return out
}

// marksOf are the marks of each kind that may lie on the line or a winding, each
// with what is less than anything there bears; "" where that would change the
// circuit too.
var marksOf = map[string][][2]string{
	"resistor":   {{"voltage", "5 V"}, {"power", "0.1 mW"}},
	"motor":      {{"voltage", "12 V"}},
	"thermistor": {{"current", "5 mA"}},
	"choke":      {{"current", "5 mA"}},
	"filter":     {{"current", "5 mA"}, {"voltage", "24 V"}},
	"barretter":  {{"power", "1 W"}},
	"lamp":       {{"voltage", ""}},
	"neon":       {{"power", "1 mW"}, {"resistor-voltage", "10 V"}},
}

// wrongMark: what a part is marked for.
func wrongMark(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	rules := []string{"line-part-voltage", "line-part-power", "line-part-current", "winding-part-voltage", "winding-part-power", "winding-part-current"}
	for _, p := range s.Parts {
		for _, m := range marksOf[p.Kind.Name] {
			if p.Node.Get(m[0]) == nil {
				continue
			}
			where := p.Name + "." + m[0]
			out = append(out, d.change(where, "", Unproven, rules, "parts", p.Name, m[0]))
			least := Fail
			if d.onLine() && len(d.windings("primary")) > 0 {
				least = Unproven // how transformer and rectifier share the nameplate, nobody said
			}
			if m[1] != "" {
				out = append(out, d.change(where, m[1], least, rules, "parts", p.Name, m[0]))
			}
		}
	}
	return out
}

// thinRun: the wire from a pin of the plug.
func thinRun(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	for i, w := range s.Wires {
		size, outcome := "30 AWG", Unproven
		switch {
		case w.A == sheet.PlugGround && d.grounded():
			outcome = Fail
		case w.A != sheet.PlugHot:
			continue
		}
		out = append(out, Slipped{Where: d.wireName(i) + ": " + size, Outcome: outcome, Rules: []string{"run-carries-fuse"}, Tree: d.edit(func(root *strict.Node) {
			n := wireNode(w.A, w.B, w)
			n.Set("size", strict.TextNode(size))
			root.Get("wiring").Items[i] = n
		})})
	}
	return out
}

// shieldOnLine: a shield belongs on the bonded chassis, or on that alone.
func shieldOnLine(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	for _, p := range d.parts("transformer") {
		name := "shield9"
		if p.Word("shield") != "" || slices.Contains(p.Terminals(), name) {
			continue
		}
		for _, w := range p.Windings {
			for _, end := range w.Ends {
				t := p.Full(end)
				if side := d.sides()[t]; !d.wired(t) || w.Role != "primary" || d.onLine() && side == neutral {
					continue
				}
				out = append(out, Slipped{Where: "of " + p.Name + " on " + t, Outcome: Fail, Rules: []string{"part-metal-off-line"}, Tree: d.edit(func(root *strict.Node) {
					root.Get("parts").Get(p.Name).Set("shield", strict.TextNode(name))
					list := root.Get("wiring")
					list.Items = append(list.Items, wireNode(p.Full(name), t, nil))
				})})
			}
		}
	}
	return out
}
