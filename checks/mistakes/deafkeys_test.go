package mistakes_test

import (
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
	words      = "words for people"
	whatItIs   = "it says what there is or how it is called; wiring and readings are judged by it"
	noSwitches = "the ground path is told by a drop, and nothing parts it"
	everyWay   = "in every position of a selector the same windings hang on the line conductors"
	later      = "asked by the rules of the high tension, which are not judged yet"
	unplanned  = "asked by the plan of the first power and its record, which are not there yet"
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

	".parts.*{electrolytic}.*": later, ".parts.*{capacitor}.body*": later, ".parts.*{choke}.inductance": later,
	".parts.*{transformer}.windings.*.load": later, ".parts.*{output-transformer}.*": later, ".parts.*{rectifier}.of*": later,
	".parts.*{rectifier}.voltage": later, ".parts.*{rectifier}.current": later, ".parts.*{tube}.plate-current": later,
	".parts.*{tube}.screen-current": later,
	".parts.*{rectifier}.heater-*":  "the table knows the heaters of every rectifier on these sheets; of one that it does not know they count as a tube's do",

	".readings.leakage[]*": later,
	".readings.ambient":    "shown beside an insulation reading, to compare it over the years; outside of what a bench has it is refused",

	".parts.*{transformer}.windings.*.ends": whatItIs,
	".supply.branch.letter*":                "it tells when the house breaker is certain to be quick; a fault that only that opens is a caution at any letter",
	".supply.upstream[]{gfci}.form*":        "where it is built in counts with its neutral open, a latent fault, which is printed and not judged",
	".supply.upstream[]{rcd}.type*":         "what a rectifier makes one-way is not solved, whatever device stands ahead",
	".parts.*{neon}.voltage":                "its resistor is asked as if the lamp took no volts at all",
	".parts.*{switch}.frame*":               "a hot wire that touches the chassis is a fault of every set, whatever the frame of its switch is on",
	".readings.drop[].switches*":            noSwitches, ".readings.drop[].fuses*": noSwitches, ".readings.drop[].positions": noSwitches, ".readings.drop[].without": noSwitches,
	".readings.insulation[].positions": everyWay, ".readings.capacitance[].positions": everyWay,

	".first-power.shelf": unplanned, ".first-power.seen*": unplanned,
}

// deafFor finds a key or word on the list of those that are deaf for a reason.
func deafFor(id string) (name string, ok bool) {
	for name := range deafKeys {
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
		"  volts:    {", "  source:   {measures: {current: 2 % + 2 digits}, digits: {current: 10 mA}}\n  milli:    {measures: voltage, accuracy: 0.5 % + 0.1 mV}\n  volts:    {",
		"    - {between: [plug.ground, chassis], reads: 0.06 Ω, with: milliohm}\n", "",
		"  insulation:\n", "  drop:\n    - {between: [plug.ground, chassis], current: 1 A, fed-by: source, reads: 58 mV, with: milli}\n  insulation:\n"},
	"one meter for several things": {
		"  dmm:      {measures: resistance, accuracy: 0.9 % + 2 digits, digit: 0.1 Ω,", "  dmm:      {measures: {resistance: 0.9 % + 2 digits, insulation: 5 % + 2 digits, capacitance: 2 % + 2 digits, voltage: 1.5 % + 2 digits, current: 2 %}, digits: {resistance: 0.1 Ω, insulation: 0.1 MΩ, capacitance: 0.1 nF, voltage: 1 mV},",
		"reads: 240 MΩ, with: tester", "reads: 240 MΩ, with: dmm", "reads: over 500 MΩ, with: tester", "reads: over 30 MΩ, with: dmm", "with: bridge", "with: dmm", "with: volts", "with: dmm"},
	"a plug that no list has": {"plug: nema-5-15", "plug: two-pole-other", "    - {between: [plug.ground, chassis], reads: 0.06 Ω, with: milliohm}\n", "",
		"  - {run: plug.ground -> chassis, color: green, joint: own-screw, slack: longest}\n", "", "conductors: 3", "conductors: 2"},
	"a neon lamp across the line": {"  T1:\n    kind", "  N9: {kind: neon, voltage: 65 V, resistor: 100 kΩ, power: 0.12 W, resistor-voltage: 250 V}\n  T1:\n    kind",
		"  - T1.4 -> chassis\n", "  - T1.4 -> chassis\n  - S1.2 -> N9 -> T1.2\n"},
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
			j.bench = nil
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
				j.bench = nil
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
		if s.name == "steinwald-super-61" { // what it breaks is told by its body alone
			c := s.s.Root.Clone()
			for _, e := range c.Get("parts").Entries {
				if e.Value.Word("kind") == "fuse" {
					e.Value.Delete("breaking")
				}
			}
			add(s.name+", breaking capacity not said", c)
		}
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

// soundValues are what a part of a kind that no sound sheet has may well be.
var soundValues = map[string]map[string]string{
	"potentiometer": {"value": "470 kΩ", "power": "0.25 W", "voltage": "350 V", "tolerance": "20 %"},
	"field-coil":    {"resistance": "2 Ω", "current": "5 A"},
	"arrester":      {"voltage": "600 V"},
}

// carrying is the sheet with a bare part of one more kind, from the switch to
// neutral or in neutral's way to the primary.
func carrying(s *sound, k *part.Kind, way string) (*strict.Node, bool) {
	root := s.s.Root.Clone()
	const name = "X9"
	node := strict.MapNode(strict.Pair("kind", strict.TextNode(k.Name)))
	for key, value := range soundValues[k.Name] {
		node.Set(key, strict.TextNode(value))
	}
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
