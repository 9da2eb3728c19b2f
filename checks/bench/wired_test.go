package bench

import (
	"math"
	"os"
	"strings"
	"testing"
)

// Orientation is the product of every separable joint.
func TestOrientation(t *testing.T) {
	const inlet, chain = "inlet: none", "    - {kind: variac, earth: through}"
	link := func(s string) []string { return []string{chain, chain + "\n    - " + s} }
	const connector = "  J1: {kind: connector, pins: [1, 2], fits: both-ways}\n  C1: {kind"
	for _, c := range []struct {
		name  string
		pairs []string
		want  string
	}{
		{"a keyed plug, cord fixed", nil, "fixed"},
		{"an inlet with three pins", []string{inlet, "inlet: iec-60320-c14"}, "fixed"},
		{"an inlet with two", []string{inlet, "inlet: iec-60320-c8"}, "both-ways"},
		{"two, said to be keyed", []string{inlet, "inlet: iec-60320-c8, inlet-fits: one-way"}, "both-ways"},
		{"another inlet, keyed", []string{inlet, "inlet: other, inlet-fits: one-way"}, "fixed"},
		{"another inlet, not said", []string{inlet, "inlet: other"}, ""},
		{"nothing said of an inlet", []string{", inlet: none", ""}, ""},
		{"a plug that fits both ways", []string{"nema-5-15", "nema-1-15"}, "both-ways"},
		{"two-line supply", []string{"region: north-america", "region: north-america\n  system: two-line"}, "both-ways"},
		{"an adaptor, keyed", link("{kind: adaptor, fits: one-way, earth: through}"), "fixed"},
		{"an adaptor, not said", link("{kind: adaptor, earth: through}"), ""},
		{"a step-down unit, not said", link("{kind: autotransformer, ratio: 0.9}"), ""},
		{"an adaptor, not said, on a plug that fits both ways", append(link("{kind: adaptor, earth: through}"), "nema-5-15", "nema-1-15"), "both-ways"},
		{"a step-down unit, keyed", link("{kind: autotransformer, ratio: 0.9, fits: one-way}"), "fixed"},
		{"a connector that carries line", []string{"  C1: {kind", connector, "F1.side -> S1 -> T1.1", "F1.side -> J1.1\n  - J1.1-mate -> S1 -> T1.1", "run: plug.neutral -> T1.2, color: white}", "run: plug.neutral -> J1.2, color: white}\n  - J1.2-mate -> T1.2"}, "both-ways"},
		{"one that carries heaters", []string{"  C1: {kind", connector, "  - T1.4 -> chassis", "  - T1.4 -> chassis\n  - T1.8 -> J1.1\n  - T1.9 -> J1.2"}, "fixed"},
	} {
		if got := larkfield(t, c.pairs...).Wired().Orientation; got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
}

// The wiring decides what a set is, whatever the sheet calls it.
func TestConstruction(t *testing.T) {
	for _, c := range []struct {
		name                 string
		pairs                []string
		construction, bonded string
	}{
		{"as it stands", nil, "transformer", "yes"},
		{"no ground conductor wired", []string{"plug.ground -> chassis", "plug.ground -> lug", "  C1: {kind", "  lug: {kind: tie}\n  C1: {kind"}, "transformer", "no"},
		{"ground through a switch is none", []string{"{run: plug.ground -> chassis, color: green, joint: own-screw, slack: longest}", "plug.ground -> S2 -> chassis", "  C1: {kind", "  S2: {kind: switch, poles: 1}\n  C1: {kind"}, "transformer", "no"},
		{"neutral on the chassis", []string{"  - T1.4 -> chassis", "  - T1.4 -> chassis\n  - T1.2 -> chassis"}, "line-connected", "yes"},
		{"line to chassis through a choke", []string{"  C1: {kind", "  L1: {kind: choke}\n  C1: {kind", "  - T1.4 -> chassis", "  - T1.4 -> chassis\n  - T1.2 -> L1 -> chassis"}, "line-connected", "yes"},
		{"through 470 kΩ, a protective impedance", []string{"  C1: {kind", "  R1: {kind: resistor, value: 470 kΩ}\n  C1: {kind", "  - T1.4 -> chassis", "  - T1.4 -> chassis\n  - T1.2 -> R1 -> chassis"}, "transformer", "yes"},
		{"the chassis on the cathode of a line rectifier", []string{"  C1: {kind", "  V1: {kind: rectifier, type: 35W4}\n  C1: {kind", "  - T1.4 -> chassis", "  - T1.4 -> chassis\n  - S1.2 -> V1.plate\n  - V1.cathode -> chassis"}, "line-connected", "yes"},
		{"a heater on the line", []string{"  C1: {kind", "  V1: {kind: tube, type: 35W4}\n  C1: {kind", "  - T1.4 -> chassis", "  - T1.4 -> chassis\n  - S1.2 -> V1 -> T1.2"}, "floating-chassis", "yes"},
	} {
		w := larkfield(t, c.pairs...).Wired()
		if w.Construction != c.construction || w.Bonded != c.bonded {
			t.Errorf("%s: %s, bonded %s; want %s, %s", c.name, w.Construction, w.Bonded, c.construction, c.bonded)
		}
		if (w.LiveChassis != nil) != (c.construction == "line-connected") {
			t.Errorf("%s: live by %v", c.name, w.LiveChassis)
		}
	}
	for _, called := range []string{"line-connected ", "floating-chassis "} {
		if w := larkfield(t, "construction: transformer ", "construction: "+called).Wired(); w.Construction != "transformer" {
			t.Errorf("called %s: %s", called, w.Construction)
		}
	}
	if w := larkfield(t).Wired(); len(w.Primaries) != 1 || w.Primaries[0].Name() != "T1.primary" {
		t.Errorf("primaries %v", w.Primaries)
	}
}

// A line conductor that reaches a secondary winding by anything but the core, a
// capacitor or a protective impedance makes it live; and a set with one is no
// transformer set by its wiring where the sheet does not call it one.
func TestLiveWinding(t *testing.T) {
	const wires = "  - T1.4 -> chassis"
	for _, c := range []struct {
		name, part, run string
		live            bool
	}{
		{"as it stands", "J9: {kind: tie}", "J9 -> chassis", false},
		{"by wire", "J9: {kind: tie}", "S1.2 -> J9 -> T1.8", true},
		{"through a resistor", "R9: {kind: resistor, value: 10 kΩ}", "S1.2 -> R9 -> T1.8", true},
		{"through a varistor", "R9: {kind: varistor, voltage: 150 V}", "S1.2 -> R9 -> T1.8", true},
		{"through an arrester", "R9: {kind: arrester}", "T1.2 -> R9 -> T1.8", true},
		{"through a neon lamp", "R9: {kind: neon, voltage: 65 V}", "S1.2 -> R9 -> T1.8", true},
		{"through a protective impedance", "R9: {kind: resistor, value: 470 kΩ}", "S1.2 -> R9 -> T1.8", false},
		{"through a capacitor", "R9: {kind: capacitor, class: Y1}", "S1.2 -> R9 -> T1.8", false},
		{"a neon lamp across the primary", "R9: {kind: neon}", "T1.1 -> R9 -> T1.2", false},
	} {
		pairs := []string{"  C1: {kind", "  " + c.part + "\n  C1: {kind", wires, wires + "\n  - " + c.run}
		if w := larkfield(t, pairs...).Wired(); (w.LiveWinding != nil) != c.live || w.Construction != "transformer" {
			t.Errorf("%s: live by %v, %s", c.name, w.LiveWinding, w.Construction)
		}
		want := map[bool]string{true: "line-connected", false: "transformer"}[c.live]
		called := append(pairs, "construction: transformer ", "construction: line-connected ")
		if got := larkfield(t, called...).Wired().Construction; got != want {
			t.Errorf("%s, called line-connected: %s, want %s", c.name, got, want)
		}
	}
}

// Every sound sheet is what it says it is; a floating chassis has a rail.
func TestSoundSheetsAreWhatTheySay(t *testing.T) {
	files, err := os.ReadDir("../../testdata/sheets")
	if err != nil || len(files) == 0 {
		t.Fatal(err)
	}
	for _, f := range files {
		data, err := os.ReadFile("../../testdata/sheets/" + f.Name())
		if err != nil || !strings.HasSuffix(f.Name(), ".yaml") {
			continue
		}
		b := benchOf(t, string(data))
		w := b.Wired()
		if w.Construction != b.Sheet.Construction {
			t.Errorf("%s is %s by its wiring and says %s", f.Name(), w.Construction, b.Sheet.Construction)
		}
		if (w.Construction == "floating-chassis") != (len(w.Rail) > 0) {
			t.Errorf("%s: %s with rail %v", f.Name(), w.Construction, w.Rail)
		}
	}
}

// Roles of capacitors by what they bridge.
func TestRoles(t *testing.T) {
	const c2 = "  C2: {kind: capacitor, value: 10 nF}\n  C1: {kind"
	const unbonded = "  - {run: plug.ground -> chassis, color: green, joint: own-screw, slack: longest}\n"
	wired := func(run string, more ...string) []string {
		return append([]string{"  C1: {kind", c2, "  - T1.4 -> chassis", "  - T1.4 -> chassis\n  - " + run}, more...)
	}
	for _, c := range []struct {
		name  string
		pairs []string
		want  string
	}{
		{"line to line", wired("T1.1 -> C2 -> T1.2"), "line"},
		{"across the contact", wired("S1.1 -> C2 -> S1.2"), "contact"},
		{"line to a bonded chassis", wired("T1.1 -> C2 -> chassis"), "chassis"},
		{"neutral to a bonded chassis", wired("T1.2 -> C2 -> chassis"), "chassis"},
		{"to a chassis that is not bonded", wired("T1.1 -> C2 -> chassis", unbonded, ""), "accessible"},
		{"in the secondary", wired("T1.6 -> C2 -> T1.7"), "inside"},
		{"heater to chassis", wired("T1.8 -> C2 -> chassis"), "inside"},
		{"line to line, the chassis being one", wired("T1.1 -> C2 -> chassis\n  - T1.2 -> chassis", unbonded, ""), "line"},
		{"across the fuse", wired("F1.end -> C2 -> F1.side"), "contact"},
		{"ahead of fuse and switch", wired("plug.hot -> C2 -> plug.neutral"), "line"},
		{"both ends on one point of the line", wired("T1.1 -> C2 -> S1.2"), "inside"},
		{"line to line behind a resistor", wired("T1.1 -> Q2 -> C2 -> T1.2", c2, "  Q2: {kind: resistor, value: 2.2 kΩ}\n"+c2), "line"},
		{"the same with a bleeder beside it", wired("T1.1 -> Q2 -> C2 -> T1.2\n  - C2.1 -> Q3 -> C2.2", c2, "  Q2: {kind: resistor, value: 2.2 kΩ}\n  Q3: {kind: resistor, value: 1 MΩ}\n"+c2), "line"},
		{"behind a lamp", wired("T1.1 -> Q2 -> C2 -> T1.2", c2, "  Q2: {kind: lamp}\n"+c2), "line"},
		{"behind a neon lamp", wired("T1.1 -> C2 -> Q2 -> T1.2", c2, "  Q2: {kind: neon}\n"+c2), "line"},
		{"behind a winding of an output transformer", wired("T1.1 -> Q2.1\n  - Q2.2 -> C2 -> T1.2", c2, "  Q2: {kind: output-transformer, windings: {a: {ends: [1, 2]}}}\n"+c2), "line"},
		{"between two resistors", wired("T1.1 -> Q2 -> C2 -> Q3 -> T1.2", c2, "  Q2: {kind: resistor, value: 2.2 kΩ}\n  Q3: {kind: resistor, value: 2.2 kΩ}\n"+c2), "line"},
		{"behind so much that nothing burns", wired("T1.1 -> Q2 -> C2 -> T1.2", c2, "  Q2: {kind: resistor, value: 470 kΩ}\n"+c2), "series"},
		{"at a motor, which is a load", wired("T1.1 -> Q2 -> C2 -> T1.2\n  - Q2.frame -> chassis", c2, "  Q2: {kind: motor}\n"+c2), "inside"},
	} {
		s, ok := larkfield(t, c.pairs...).Subject("capacitor", "C2")
		if !ok || s.Role != c.want {
			t.Errorf("%s: %q, want %q", c.name, s.Role, c.want)
		}
	}
	if s, _ := larkfield(t, "  C1: {kind", "  RV1: {kind: varistor}\n  C1: {kind", "  - T1.4 -> chassis", "  - T1.4 -> chassis\n  - T1.1 -> RV1 -> chassis").Subject("varistor", "RV1"); s.Role != "chassis" {
		t.Errorf("a varistor from line to the chassis: %q", s.Role)
	}
	// In a series string everything hangs on the line by something that conducts;
	// a capacitor is across the line only if it joins the two conductors.
	for _, c := range []struct{ name, run, want string }{
		{"hot behind the switch to the chassis", "S1.2 -> C2 -> chassis", "line"},
		{"ahead of the fuse to the chassis", "plug.hot -> C2 -> chassis", "line"},
		{"plug to plug", "plug.hot -> C2 -> plug.neutral", "line"},
		{"across the switch", "S1.1 -> C2 -> S1.2", "contact"},
		{"across a heater", "V2.h1 -> C2 -> V2.h2", "inside"},
		{"a heater in the string to the chassis", "V1.h2 -> C2 -> chassis", "inside"},
		{"from line to a heater in the string", "S1.2 -> C2 -> V1.h2", "inside"},
		{"in the rail", "V5.cathode -> C2 -> chassis", "inside"},
		{"the end of the cord's resistance to the chassis", "S1.4 -> C2 -> chassis", "line"},
		{"to an aerial terminal", "S1.2 -> C2 -> A1", "accessible"},
	} {
		b := altered(t, "millstead-cord-set", "  C1: {kind", "  A1: {kind: body}\n  C2: {kind: capacitor, value: 10 nF}\n  C1: {kind",
			"  - V5.cathode -> C1 -> chassis", "  - V5.cathode -> C1 -> chassis\n  - A1 -> V4.grid\n  - "+c.run)
		if s, ok := b.Subject("capacitor", "C2"); !ok || s.Role != c.want {
			t.Errorf("series string, %s: %q, want %q", c.name, s.Role, c.want)
		}
	}
	b := larkfield(t, "  C1: {kind", "  F2: {kind: fuse}\n  C1: {kind", "  - T1.4 -> chassis", "  - T1.4 -> F2 -> chassis")
	if s, _ := b.Subject("fuse", "F2"); s.Role != "inside" {
		t.Errorf("a fuse in the plate winding's tap is %q", s.Role)
	}
	side := b.SideOf("T1.1")
	if !side.Line || side.Chassis || !b.SideOf("F1.end").Line || b.SideOf("T1.6").Line || !b.SideOf("T1.3").Chassis || !b.SideOf("chassis").Ground {
		t.Error("sides of terminals")
	}
}

// The supply at the set: the region's limits, widened by what was measured,
// never narrowed; behind a step-down unit of known ratio both at the set.
func TestMains(t *testing.T) {
	const measured, chain = "voltage: 121 V ", "    - {kind: variac, earth: through}"
	for _, c := range []struct {
		name               string
		pairs              []string
		nominal, low, high float64
	}{
		{"inside the limits", nil, 120, 104, 127},
		{"nothing measured", []string{"  " + measured, "  "}, 120, 104, 127},
		{"above", []string{measured, "voltage: 131 V "}, 120, 104, 131},
		{"below", []string{measured, "voltage: 98 V "}, 120, 98, 127},
		{"a span about both", []string{measured, "voltage: 100 V to 130 V "}, 120, 100, 130},
		{"stepped down", []string{chain, chain + "\n    - {kind: autotransformer, ratio: 0.5, fits: one-way}"}, 60, 52, 63.5},
		{"stepped up", []string{chain, chain + "\n    - {kind: autotransformer, ratio: 2, fits: one-way}"}, 240, 208, 254},
		{"twice", []string{chain, chain + "\n    - {kind: autotransformer, ratio: 2, fits: one-way}\n    - {kind: autotransformer, ratio: 0.5, fits: one-way}"}, 120, 104, 127},
	} {
		nominal, limits := larkfield(t, c.pairs...).Mains()
		if nominal != c.nominal || math.Abs(limits.Low-c.low) > 1e-9 || math.Abs(limits.High-c.high) > 1e-9 {
			t.Errorf("%s: %g V, %g to %g; want %g, %g to %g", c.name, nominal, limits.Low, limits.High, c.nominal, c.low, c.high)
		}
	}
}

func TestGrounded(t *testing.T) {
	for name, c := range map[string]struct {
		pairs []string
		want  bool
	}{
		"three conductors":         {nil, true},
		"two conductors":           {[]string{"conductors: 3", "conductors: 2"}, false},
		"a resistance for a third": {[]string{"insulation: double", "insulation: double, third: 200 Ω"}, false},
		"an earth for a third":     {[]string{"insulation: double", "insulation: double, third: earth"}, true},
		"a plug with two contacts": {[]string{"nema-5-15", "nema-1-15-polarized"}, false},
		"conductors not counted":   {[]string{"conductors: 3, ", ""}, true},
	} {
		if got := larkfield(t, c.pairs...).Grounded(); got != c.want {
			t.Errorf("%s: %v", name, got)
		}
	}
}
