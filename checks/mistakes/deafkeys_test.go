package mistakes_test

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"firstvolt/checks/circuit"
	"firstvolt/checks/mistakes"
	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
	"firstvolt/checks/trial"
)

const (
	words     = "words for people"
	whatItIs  = "it says what there is or how it is called; wiring and readings are judged by it"
	later     = "asked by the rules of the high tension, which are not judged yet"
	unplanned = "asked by the plan of the first power and its record, which are not there yet"
)

// deafKeys are the keys and words that no finding hears, each with its reason.
// A * at either end stands for anything.
var deafKeys = map[string]string{
	"*.note": words, ".set.serial": words, ".set.name": words, ".firstvolt=1": "the only word there is",

	".parts.*{switch}.poles*": whatItIs, ".parts.*{connector}.pins": whatItIs,
	".parts.*{fuse}.holder*":        "it names the terminals; which of them hot comes to is asked of the wires",
	".parts.*{resistor}.taps":       whatItIs,
	".parts.*{potentiometer}.taps":  whatItIs,
	".readings.voltage[].switches*": "a voltage reading is of windings that are taken off everything else",
	".readings.voltage[].fuses*":    "a voltage reading is of windings that are taken off everything else",
	".readings.voltage[].positions": "a voltage reading is of windings that are taken off everything else",
	".readings.voltage[].without":   "a voltage reading is of windings that are taken off everything else",
	".readings.voltage[].between":   "the winding read is said by across, or else not asked for",

	".parts.*{electrolytic}.*": later, ".parts.*{capacitor}.body*": later, ".parts.*{choke}.inductance": later, ".parts.*{field-coil}.inductance": later,
	".parts.*{transformer}.windings.*.load": later, ".parts.*{output-transformer}.*": later, ".parts.*{rectifier}.of*": later,
	".parts.*{rectifier}.voltage": later, ".parts.*{rectifier}.current": later, ".parts.*{tube}.plate-current": later,
	".parts.*{tube}.screen-current": later,

	".readings.leakage[]*": later,
	".readings.ambient":    "shown beside an insulation reading, to compare it over the years; outside of what a bench has it is refused",

	".first-power.shelf": unplanned, ".first-power.seen*": unplanned,
}

// notYet are keys and words that a finding is still owed for.
var notYet = map[string]string{
	".supply.region": "", ".supply.branch.*": "", ".supply.upstream[]{gfci}.form*": "", ".supply.upstream[]{rcd}.type*": "",
	".parts.*{fuse}.breaking": "", ".parts.*{fuse}.body*": "", ".parts.*{switch}.frame*": "",
	".parts.*{potentiometer}.power": "", ".parts.*{potentiometer}.tolerance": "", ".parts.*{neon}.voltage": "", ".parts.*{field-coil}.current": "",
	".parts.*{autotransformer}.*": "", ".parts.*{outlet}.ground": "", ".instruments.*.digits.current": "", ".instruments.*.measures.*": "",
}

// deafFor finds a key or word on the list of those that are deaf for a reason.
func deafFor(id string) (name string, ok bool) {
	for _, name := range slices.Concat(slices.Collect(maps.Keys(deafKeys)), slices.Collect(maps.Keys(notYet))) {
		tail, open := strings.CutPrefix(name, "*")
		head, more := strings.CutSuffix(name, "*")
		if id == name || open && strings.HasSuffix(id, tail) || more && strings.HasPrefix(id, head) {
			return name, true
		}
	}
	return "", false
}

// carried are the edits that make room on the first sheet for what it has not.
var carried = map[string][]string{
	"a bond told by the volts that a current drops": {
		"  volts:    {", "  source:   {measures: current, accuracy: 2 %}\n  milli:    {measures: voltage, accuracy: 0.5 % + 0.1 mV}\n  volts:    {",
		"    - {between: [plug.ground, chassis], reads: 0.06 Ω, with: milliohm}\n", "",
		"  insulation:\n", "  drop:\n    - {between: [plug.ground, chassis], current: 1 A, fed-by: source, reads: 58 mV, with: milli}\n  insulation:\n"},
	"one meter for several things": {
		"  dmm:      {measures: resistance, accuracy: 0.9 % + 2 digits, digit: 0.1 Ω,", "  dmm:      {measures: {resistance: 0.9 % + 2 digits, insulation: 5 % + 2 digits, capacitance: 2 % + 2 digits, voltage: 1.5 % + 2 digits, current: 2 %}, digits: {resistance: 0.1 Ω, insulation: 0.1 MΩ, capacitance: 0.1 nF, voltage: 1 mV},",
		"reads: 240 MΩ, with: tester", "reads: 240 MΩ, with: dmm", "reads: over 500 MΩ, with: tester", "reads: over 30 MΩ, with: dmm", "with: bridge", "with: dmm", "with: volts", "with: dmm"},
	"an outlet without ground": {"  T1:\n    kind", "  J1: {kind: outlet, load: 0.3 A, ground: none}\n  T1:\n    kind",
		"  - T1.4 -> chassis\n", "  - T1.4 -> chassis\n  - S1.2 -> J1.hot\n  - T1.2 -> J1.neutral\n"},
}

// carriers are sheets for what no sound sheet has room for: every kind of part
// and unit that none has, put on the line and in it, and sheets with one slip
// on which a word counts that a sound set has no use for.
func carriers(t *testing.T) []base {
	all, err := soundSheets()
	if err != nil {
		t.Fatal(err)
	}
	here := map[string]bool{}
	for _, s := range all {
		s.read(t)
		for _, p := range s.s.Parts {
			here[p.Kind.Name] = true
		}
	}
	var out []base
	add := func(name string, root *strict.Node) {
		if j := judgeTree(t, root); j.s != nil {
			out = append(out, base{name, j})
		} else {
			t.Errorf("%s: not readable: %v", name, j.problems)
		}
	}
	for _, s := range all[:1] {
		for _, b := range s.bases(t) {
			out = append(out, base{s.name + ", " + b.name, b.was})
		}
	}
	for _, s := range all {
		if s.name != "larkfield-six-forty" {
			continue
		}
		for _, k := range part.Kinds() {
			if !here[k.Name] {
				for _, way := range []string{"across", "in"} {
					if root, ok := carrying(s, k, way); ok {
						add(s.name+" with a "+k.Name+" "+way+" the line", root)
					}
				}
			}
		}
		for name, pairs := range carried {
			if j := judge(t, []byte(trial.Altered(t, string(s.data), pairs...))); j.s != nil {
				out = append(out, base{s.name + ", " + name, j})
			} else {
				t.Errorf("%s: not readable: %v", name, j.problems)
			}
		}
		c := s.s.Root.Clone()
		list := c.Get("supply").Get("upstream")
		list.Items = append(list.Items, strict.MapNode(strict.Pair("kind", strict.TextNode("adaptor"))))
		add(s.name+" behind an adaptor", c)
	}
	for _, s := range all {
		for _, slip := range mistakes.All() {
			if slip.Name != "fuse-behind-switch" || s.s.Region.Name == "north-america" {
				continue
			}
			made, _ := slip.Apply(s.s.Root, s.s)
			for _, m := range made[:min(1, len(made))] {
				add(s.name+": "+m.Where, m.Tree())
			}
		}
	}
	return out
}

// carrying is the sheet with a bare part of one more kind, from the switch to
// neutral or in neutral's way to the primary.
func carrying(s *sound, k *part.Kind, way string) (*strict.Node, bool) {
	root := s.s.Root.Clone()
	const name = "X9"
	node := strict.MapNode(strict.Pair("kind", strict.TextNode(k.Name)))
	p := &part.Part{Name: name, Kind: k, Node: node}
	if k.Through == nil {
		return nil, false
	}
	in, end, ok := k.Through(p)
	if !ok || way == "in" && !slices.ContainsFunc(p.Elements(part.State{}), func(e circuit.Element) bool { return e.Conducts != circuit.Bridging }) {
		return nil, false
	}
	root.Get("parts").Set(name, node)
	wires := runsOf(s.s, func(w sheet.Wire) (sheet.Wire, bool) {
		return w, way != "in" || !slices.Contains([]string{w.A, w.B}, sheet.PlugNeutral)
	})
	run := func(a, b string) {
		wires.Items = append(wires.Items, strict.TextNode(a+" -> "+b))
	}
	if way == "in" {
		run(sheet.PlugNeutral, p.Full(in))
		run(p.Full(end), "T1.2")
	} else {
		run("S1.2", p.Full(in))
		run(p.Full(end), sheet.PlugNeutral)
	}
	root.Set("wiring", wires)
	return root, true
}
