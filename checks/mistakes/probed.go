package mistakes

import (
	"slices"

	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
)

// probed are slips that one more reading shows, or one lifted lead hides.
var probed = []kind{
	{"bond-dropped", "The volts that a current drops along the bond are too many, or less than the cord alone drops.", bondDropped},
	{"capacitor-lifted", "A capacitor to metal was lifted for the insulation tests, and nobody tested it alone.", capacitorLifted},
	{"stray-capacitor", "A capacitance was read that no capacitor on the sheet explains.", strayCapacitor},
}

// measuring makes a reading with meters of its own.
func (d draft) measuring(list string, reading *strict.Node, meters ...strict.Entry) func() *strict.Node {
	return d.edit(func(root *strict.Node) {
		for _, m := range meters {
			root.Get("instruments").Set(m.Key, m.Value)
		}
		readings := root.Get("readings")
		if readings.Get(list) == nil {
			readings.Set(list, strict.ListNode())
		}
		l := readings.Get(list)
		l.Items = append(l.Items, reading)
	})
}

// keyed is a map of words.
func keyed(pairs ...string) *strict.Node {
	n := strict.MapNode()
	for i := 0; i+1 < len(pairs); i += 2 {
		n.Set(pairs[i], strict.TextNode(pairs[i+1]))
	}
	return n
}

func between(n *strict.Node, a, b string) *strict.Node {
	n.Set("between", strict.ListNode(strict.TextNode(a), strict.TextNode(b)))
	return n
}

func bondDropped(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	if !d.grounded() || root.Get("instruments") == nil {
		return nil
	}
	var out []Slipped
	for volts, outcome := range map[string]string{"1600 mV": Fail, "1 mV": Unproven} {
		out = append(out, Slipped{Where: volts, Outcome: outcome, Rules: []string{"bond-resistance"}, Tree: d.measuring("drop",
			between(keyed("current", "1 A", "fed-by", "Xfeed", "reads", volts, "with", "Xdrop"), sheet.PlugGround, sheet.Chassis),
			strict.Pair("Xfeed", keyed("measures", "current", "accuracy", "1 %")),
			strict.Pair("Xdrop", keyed("measures", "voltage", "accuracy", "0.5 % + 0.2 mV")))})
	}
	return out
}

// capacitorLifted: of what was never on the tested side nobody knows.
func capacitorLifted(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	for _, p := range d.parts("capacitor") {
		tested := func(rd *sheet.Reading) bool {
			return rd.Kind == "insulation" && slices.Contains(d.purpose(rd).rules, "insulation-mains-chassis") && !slices.Contains(rd.Without, p.Name)
		}
		if d.role(p) != "chassis" || !d.onMains(p) || d.onLine() || !slices.ContainsFunc(s.Readings, tested) {
			continue
		}
		out = append(out, Slipped{Where: p.Name, Outcome: Unproven, Rules: []string{"insulation-mains-chassis"}, Tree: d.edit(func(root *strict.Node) {
			for _, item := range root.Get("readings").Get("insulation").Items {
				if item.Get("without") == nil {
					item.Set("without", strict.ListNode())
				}
				list := item.Get("without")
				list.Items = append(list.Items, strict.TextNode(p.Name))
			}
		})})
	}
	return out
}

// strayCapacitor: more than any set here has, from pin to pin and from each pin
// to the chassis.
func strayCapacitor(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	if root.Get("instruments") == nil {
		return nil
	}
	var out []Slipped
	read := func(a, b string) {
		outcome := Fail
		if d.contacts().of(a) == d.contacts().of(b) || len(d.parts("filter")) > 0 {
			outcome = Unproven // nothing can be read there, or nobody knows what a filter holds
		}
		out = append(out, Slipped{Where: a + " to " + b, Outcome: outcome, Rules: []string{"capacitance-agrees"}, Tree: d.measuring("capacitance",
			between(keyed("switches", "open", "reads", "22 µF", "with", "Xfarads"), a, b),
			strict.Pair("Xfarads", keyed("measures", "capacitance", "accuracy", "1 % + 0.1 nF")))})
	}
	read(sheet.PlugHot, sheet.PlugNeutral)
	if !d.onLine() {
		read(sheet.PlugHot, sheet.Chassis)
		read(sheet.PlugNeutral, sheet.Chassis)
	}
	return out
}
