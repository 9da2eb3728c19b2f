package mistakes

import (
	"fmt"
	"slices"

	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
)

var values = []kind{
	{"wrong-class", "A capacitor on the mains is not of the class that its place asks for.", wrongClass},
	{"wrong-capacitor", "A capacitor on the mains has the wrong value or too little voltage.", wrongCapacitor},
	{"wrong-suppressor", "A varistor or arrester on the line is made for less than the line has.", wrongSuppressor},
	{"wrong-kind", "A part of another kind stands where a capacitor should.", wrongKind},
	{"wrong-fuse", "The fuse in the holder is not the one that the set needs.", wrongFuse},
	{"wrong-switch", "The switch is made for less than it switches.", wrongSwitch},
	{"wrong-cord", "The cord is too thin, has one layer only, or a plug fuse too large for it.", wrongCord},
	{"wrong-tap", "The set is wired or selected for less than the supply gives.", wrongTap},
	{"jumper-forgotten", "A jumper in a connector is not there, or joins another pin.", jumperForgotten},
	{"wrong-plate", "The nameplate was copied wrong.", wrongPlate},
	{"wrong-outlet-load", "More hangs on the outlet than fuse, switch and cord carry.", wrongOutlet},
	{"phase-turned", "Two sections of a primary work against each other.", phaseTurned},
}

// change makes one row of a table of altered keys.
func (d draft) change(where, value, outcome string, rules []string, path ...string) Slipped {
	sl := Slipped{Where: where + ": " + value, Outcome: outcome, Rules: rules}
	if value == "" {
		sl.Where = where + ": not said"
		sl.Tree = d.less(path...)
		return sl
	}
	sl.Tree = d.with(value, path...)
	return sl
}

// wrongClass: to the chassis a Y part (and Y4 up to 150 V only), across the
// line X or Y; what carries no mark is not known to be either.
func wrongClass(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	for _, c := range d.parts("capacitor") {
		if !d.onMains(c) {
			continue
		}
		where := c.Name + ".class"
		switch d.role(c) {
		case "chassis":
			rule := []string{"chassis-capacitor-class", "accessible-capacitor-class"}
			for _, class := range []string{"X1", "X2", "X3"} {
				out = append(out, d.change(where, class, Fail, rule, "parts", c.Name, "class"))
			}
			if !d.grounded() {
				out = append(out, d.change(where, "Y2", Fail, rule, "parts", c.Name, "class"))
			}
			if s.Region.Nominal > 150 {
				out = append(out, d.change(where, "Y4", Fail, rule, "parts", c.Name, "class"))
			}
			out = append(out, d.change(where, "", Unproven, rule, "parts", c.Name, "class"))
		default:
			out = append(out, d.change(where, "", Unproven, []string{"line-capacitor-class"}, "parts", c.Name, "class"))
		}
	}
	return out
}

// onMains tells whether a part touches a line conductor.
func (d draft) onMains(p *part.Part) bool {
	sides := d.sides()
	return slices.ContainsFunc(p.Terminals(), func(t string) bool {
		s := sides[p.Full(t)]
		return s == hot || s == neutral || s == load
	})
}

func wrongCapacitor(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	for _, c := range d.parts("capacitor") {
		if !d.onMains(c) {
			continue
		}
		volts := []string{"safety-capacitor-voltage"}
		out = append(out,
			d.change(c.Name+".voltage", "63 V", Fail, volts, "parts", c.Name, "voltage"),
			d.change(c.Name+".voltage", "", Unproven, volts, "parts", c.Name, "voltage"))
		if d.role(c) == "chassis" {
			// 0.1 µF passes 5 mA or more at the upper supply, and far more than was measured.
			rules := []string{"chassis-capacitor-leakage", "capacitance-agrees"}
			out = append(out,
				d.change(c.Name+".value", "0.1 µF", Fail, rules, "parts", c.Name, "value"),
				d.change(c.Name+".value", "", Unproven, rules, "parts", c.Name, "value"))
		}
	}
	return out
}

func wrongSuppressor(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	for _, p := range d.parts("varistor", "arrester") {
		if !d.onMains(p) {
			continue
		}
		rules := []string{"suppressor-voltage"}
		out = append(out,
			d.change(p.Name+".voltage", "60 V", Fail, rules, "parts", p.Name, "voltage"),
			d.change(p.Name+".voltage", "", Caution, rules, "parts", p.Name, "voltage"))
		out[len(out)-1].Why = "many a varistor is marked with its type only"
	}
	return out
}

// wrongKind: an electrolytic on alternating current, anywhere on the mains; a
// resistor, or a lamp that strikes, to the chassis.
func wrongKind(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	for _, c := range d.parts("capacitor") {
		if !d.onMains(c) {
			continue
		}
		swap := func(kind, outcome string, rules []string, pairs ...string) {
			out = append(out, Slipped{Where: c.Name + ": " + kind, Outcome: outcome, Rules: rules, Tree: d.edit(func(root *strict.Node) {
				n := strict.MapNode(strict.Pair("kind", strict.TextNode(kind)))
				for i := 0; i+1 < len(pairs); i += 2 {
					n.Set(pairs[i], strict.TextNode(pairs[i+1]))
				}
				root.Get("parts").Set(c.Name, n)
				if kind != "electrolytic" {
					return
				}
				poles := map[string]string{c.Full("1"): c.Full("plus"), c.Full("2"): c.Full("minus")}
				root.Set("wiring", d.tree(d.ends(swapped(poles)))().Get("wiring"))
			})})
		}
		swap("electrolytic", Fail, []string{"line-capacitor-class", "chassis-capacitor-class", "accessible-capacitor-class"}, "value", "8 µF", "voltage", "450 V")
		if d.role(c) == "chassis" && d.grounded() {
			off := []string{"hot-off-chassis", "neutral-off-chassis", "protective-impedance", "plug-to-chassis-resistance", "insulation-mains-chassis", "capacitance-agrees"}
			swap("resistor", Fail, off, "value", "10 kΩ", "tolerance", "5 %", "power", "1 W")
			swap("neon", Fail, off, "voltage", "90 V")
		}
	}
	return out
}

func wrongFuse(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	for _, f := range d.mainsFuses() {
		size := []string{"fuse-size", "cord-outlasts-fuse"}
		for _, row := range []struct {
			key, value, outcome string
			rules               []string
		}{
			{"rating", "10 A", Fail, size},
			{"rating", "100 mA", Caution, []string{"fuse-size"}},
			{"rating", "", Unproven, size},
			{"voltage", "32 V", Fail, []string{"fuse-voltage"}},
			{"voltage", "", Unproven, []string{"fuse-voltage"}},
			{"speed", "fast", Caution, []string{"fuse-speed"}},
			{"speed", "", Caution, []string{"fuse-speed"}},
		} {
			out = append(out, d.change(f.Name+"."+row.key, row.value, row.outcome, row.rules, "parts", f.Name, row.key))
		}
	}
	return out
}

func wrongSwitch(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	for _, sw := range d.parts("switch") {
		rules := []string{"switch-rating"}
		if !d.onMains(sw) {
			continue
		}
		for _, row := range [][3]string{{"rating", "50 mA", Fail}, {"rating", "", Unproven}, {"voltage", "24 V", Fail}, {"voltage", "", Unproven}} {
			out = append(out, d.change(sw.Name+"."+row[0], row[1], row[2], rules, "parts", sw.Name, row[0]))
		}
	}
	return out
}

// wrongCord: no table of the reference gives 26 AWG or 0.14 mm² any current.
func wrongCord(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	if s.Cord() == nil {
		return nil
	}
	thin := []string{"cord-carries-load", "cord-outlasts-fuse"}
	out := []Slipped{
		d.change("cord.size", "26 AWG", Unproven, thin, "cord", "size"),
		d.change("cord.size", "", Unproven, thin, "cord", "size"),
		d.change("cord.insulation", "single", Fail, []string{"cord-insulation"}, "cord", "insulation"),
		d.change("cord.insulation", "", Unproven, []string{"cord-insulation"}, "cord", "insulation"),
	}
	if s.Plug.Fuse != nil {
		fits := []string{"plug-fuse-fits-cord"}
		out = append(out,
			d.change("cord.plug-fuse", "13 A", Fail, fits, "cord", "plug-fuse"),
			d.change("cord.plug-fuse", "", Unproven, fits, "cord", "plug-fuse"))
	}
	if d.grounded() {
		// Where the third conductor should be there is none, or a resistance wire.
		out = append(out, d.change("cord.conductors", "2", Caution, unearthed, "cord", "conductors"))
	}
	return out
}

// wrongTap: 80 % of the volts that stand on the winding put the supply at more
// than 1.10 times; and a selector set otherwise joins other contacts than those
// that the readings were taken with.
func wrongTap(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	for _, p := range d.parts("transformer") {
		for _, w := range p.Windings {
			v, ok := part.ValueOf(w.Node.Get("voltage"))
			if w.Role != "primary" || !ok || len(w.Order) > 2 {
				continue
			}
			path := []string{"parts", p.Name, "windings", w.Name, "voltage"}
			rules := []string{"winding-voltage-fits-supply", "tap-fits-supply"}
			less := d.change(p.Name+"."+w.Name, fmt.Sprintf("%.4g V", 0.8*v.High), Fail, rules, path...)
			less.Tree = d.edit(func(root *strict.Node) {
				n := at(root, path[:len(path)-1])
				n.Set("voltage", strict.TextNode(fmt.Sprintf("%.4g V", 0.8*v.High)))
				n.Delete("no-load")
			})
			out = append(out, less, d.change(p.Name+"."+w.Name, "", Unproven, rules, path...))
		}
	}
	for _, p := range d.parts("selector") {
		for _, pos := range p.Positions() {
			if pos == p.Word("set") {
				continue
			}
			out = append(out, d.change(p.Name, pos, Fail, []string{"tap-fits-supply", "winding-voltage-fits-supply", "plug-on-resistance"}, "parts", p.Name, "set"))
		}
	}
	return out
}

// jumperForgotten: what went through a jumper goes nowhere.
func jumperForgotten(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	rules := []string{"load-across-line", "switch-follows-fuse", "plug-on-resistance"}
	var out []Slipped
	for _, p := range d.parts("connector") {
		jumpers := p.Node.Get("jumpers")
		if jumpers == nil {
			continue
		}
		for i, j := range jumpers.Items {
			where := fmt.Sprintf("%s, %s to %s", p.Name, j.Items[0].Text, j.Items[1].Text)
			out = append(out, Slipped{Where: where, Outcome: Fail, Rules: rules, Tree: d.edit(func(root *strict.Node) {
				l := root.Get("parts").Get(p.Name).Get("jumpers")
				l.Items = slices.Delete(l.Items, i, i+1)
			})})
			for _, pin := range p.Pins() {
				if pin == j.Items[0].Text || pin == j.Items[1].Text {
					continue
				}
				out = append(out, Slipped{Where: where + ": to " + pin, Outcome: Fail, Rules: rules, Tree: d.edit(func(root *strict.Node) {
					root.Get("parts").Get(p.Name).Get("jumpers").Items[i].Items[1] = strict.TextNode(pin)
				})})
			}
		}
	}
	return out
}

// wrongPlate: volts per hertz, and the running current that fuse, switch and
// cord are held against, come from the nameplate.
func wrongPlate(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	if _, ok := s.Nameplate("power"); !ok {
		return nil
	}
	size := []string{"fuse-size", "switch-rating", "cord-carries-load"}
	out := []Slipped{
		d.change("nameplate.power", "2 kW", Fail, size, "set", "nameplate", "power"),
		d.change("nameplate.power", "4 W", Fail, size, "set", "nameplate", "power"),
		d.change("nameplate.power", "", Unproven, size, "set", "nameplate", "power"),
	}
	if len(d.parts("motor", "outlet")) > 0 {
		out[1].Outcome = Unproven // what they draw beside it, nobody can say
	}
	if len(d.parts("transformer", "autotransformer")) == 0 {
		return out // a string of heaters knows no cycles
	}
	if v, ok := s.Nameplate("voltage"); ok {
		out = append(out, d.change("nameplate.voltage", fmt.Sprintf("%.4g V", 0.8*v.Low), Fail, []string{"frequency-fits-supply"}, "set", "nameplate", "voltage"))
	}
	if f, ok := s.Nameplate("frequency"); ok {
		out = append(out, d.change("nameplate.frequency", fmt.Sprintf("%.4g Hz", 1.3*f.High), Fail, []string{"frequency-fits-supply"}, "set", "nameplate", "frequency"))
	}
	return append(out, d.change("nameplate.frequency", "", Unproven, []string{"frequency-fits-supply"}, "set", "nameplate", "frequency"))
}

func wrongOutlet(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	for _, p := range d.parts("outlet") {
		rules := []string{"outlet-load-fits", "fuse-size", "switch-rating", "cord-carries-load"}
		out = append(out,
			d.change(p.Name+".load", "1.5 kW", Fail, rules, "parts", p.Name, "load"),
			d.change(p.Name+".load", "", Unproven, rules, "parts", p.Name, "load"))
	}
	return out
}

// phaseTurned: in each set of primary sections, the leads of one of them
// changed places; and the mark on one of them was copied wrong.
func phaseTurned(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	for _, p := range d.parts("transformer") {
		for _, w := range p.Windings {
			if w.Role != "primary" || onlyOne(p, w) {
				continue
			}
			rules := []string{"primary-sections-phased"}
			out = append(out, Slipped{Where: p.Name + "." + w.Name, Tree: d.tree(d.exchanged(p.Full(w.Ends[0]), p.Full(w.Ends[1]))), Rules: rules, Outcome: Fail})
			turned := w.Ends[1]
			if w.Node.Word("dot") == turned {
				turned = w.Ends[0]
			}
			path := []string{"parts", p.Name, "windings", w.Name, "dot"}
			out = append(out, d.change(p.Name+"."+w.Name+".dot", turned, Fail, rules, path...),
				d.change(p.Name+"."+w.Name+".dot", "", Unproven, rules, path...))
		}
	}
	return out
}
