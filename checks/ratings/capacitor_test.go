package ratings_test

import (
	"strings"
	"testing"

	"firstvolt/checks/handbook"
)

const c1 = "C1: {kind: capacitor, value: 4.7 nF, class: Y2, voltage: 250 V}"

func TestCapacitorClasses(t *testing.T) {
	const unbonded = "- {run: plug.ground -> chassis, color: green, joint: own-screw, slack: longest}"
	across := []string{"S1.2 -> C1 -> chassis", "S1.2 -> C1 -> plug.neutral"}
	loose := []string{unbonded, "- {run: plug.ground -> T1.S, color: green}", "kind: transformer\n", "kind: transformer\n    shield: S\n"}
	const x2 = "{kind: capacitor, value: 4.7 nF, class: X2, voltage: 275 V}"
	doublePole := []string{"S1: {kind: switch, poles: 1", "S1: {kind: switch, poles: 2", "F1.side -> S1 -> T1.1", "F1.side -> S1.1\n  - S1.2 -> T1.1", "plug.neutral -> T1.2, color: white}", "plug.neutral -> S1.3, color: white}\n  - S1.4 -> T1.2"}
	class := func(to string, more ...string) []string { return append([]string{c1, to}, more...) }
	tryChanges(t, larkfield(t), []change{
		{"Y2 to the bonded chassis", nil, "chassis-capacitor-class C1", "pass"},
		{"and nothing else asked", nil, "accessible-capacitor-class C1", ""},
		{"nor across the line", nil, "line-capacitor-class C1", ""},
		{"X2 to the chassis", class("C1: {kind: capacitor, value: 4.7 nF, class: X2, voltage: 275 V}"), "chassis-capacitor-class C1", "fail"},
		{"no class on the sheet", class("C1: {kind: capacitor, value: 4.7 nF, voltage: 250 V}"), "chassis-capacitor-class C1", "unproven"},
		{"an electrolytic", class("C1: {kind: electrolytic, value: 8 µF, voltage: 450 V}"), "chassis-capacitor-class C1", "fail"},
		{"X2 across the line", class("C1: {kind: capacitor, value: 0.1 µF, class: X2, voltage: 275 V}", across...), "line-capacitor-class C1", "pass"},
		{"across the line is not to the chassis", across, "chassis-capacitor-class C1", ""},
		{"no class across the line", class("C1: {kind: capacitor, value: 0.1 µF, voltage: 600 V}", across...), "line-capacitor-class C1", "unproven"},
		{"across the switch", class("C1: {kind: capacitor, value: 10 nF, voltage: 600 V}", "S1.2 -> C1 -> chassis", "S1.2 -> C1 -> S1.1"), "line-capacitor-class C1", "unproven"},
		{"across the switch and a choke", class("C1: {kind: capacitor, value: 10 nF, voltage: 600 V}\n  L1: {kind: choke}", "S1.2 -> C1 -> chassis", "T1.1 -> C1 -> S1.1", "F1.side -> S1 -> T1.1", "F1.side -> S1 -> L1 -> T1.1"), "line-capacitor-class C1", "unproven"},
		{"Y2 to an unbonded chassis", loose, "accessible-capacitor-class C1", "fail"},
		{"Y1 to an unbonded chassis", class("C1: {kind: capacitor, value: 1 nF, class: Y1, voltage: 250 V}", loose...), "accessible-capacitor-class C1", "pass"},
		{"two equal Y2 in series", append([]string{c1, c1 + "\n  C2: {kind: capacitor, value: 4.7 nF, class: Y2, voltage: 250 V}", "S1.2 -> C1 -> chassis", "S1.2 -> C1 -> C2 -> chassis"}, loose...), "accessible-capacitor-class C1", "pass"},
		{"two unequal Y2 in series", append([]string{c1, c1 + "\n  C2: {kind: capacitor, value: 2.2 nF, class: Y2, voltage: 250 V}", "S1.2 -> C1 -> chassis", "S1.2 -> C1 -> C2 -> chassis"}, loose...), "accessible-capacitor-class C1", "fail"},
		{"the second of two without a value", append([]string{c1, c1 + "\n  C2: {kind: capacitor, class: Y2, voltage: 250 V}", "S1.2 -> C1 -> chassis", "S1.2 -> C1 -> C2 -> chassis"}, loose...), "accessible-capacitor-class C1", "unproven"},
		{"Y1 behind any capacitor", append([]string{c1, c1 + "\n  C2: {kind: capacitor, value: 1 nF, class: Y1, voltage: 250 V}", "S1.2 -> C1 -> chassis", "S1.2 -> C1 -> C2 -> chassis"}, loose...), "accessible-capacitor-class C1", "pass"},
		{"X2 on the contact of a double-pole switch ahead of Y2", append([]string{c1, c1 + "\n  C2: " + x2, "S1.2 -> C1 -> chassis", "S1.2 -> C1 -> chassis\n  - S1.1 -> C2 -> S1.2"}, doublePole...), "chassis-capacitor-class C2", "pass"},
		{"X2 and a resistor on the contact of a double-pole switch ahead of Y2", append([]string{c1, c1 + "\n  C2: " + x2 + "\n  R2: {kind: resistor, value: 100 Ω}", "S1.2 -> C1 -> chassis", "S1.2 -> C1 -> chassis\n  - S1.1 -> R2 -> C2 -> S1.2"}, doublePole...), "chassis-capacitor-class C2", "pass"},
		{"X2 ahead of Y2 and nothing else", []string{c1, c1 + "\n  C2: " + x2, "S1.2 -> C1 -> chassis", "S1.2 -> C2 -> C1 -> chassis"}, "chassis-capacitor-class C2", "fail"},
		{"X2 ahead of X2", []string{c1, "C1: " + x2 + "\n  C2: " + x2, "S1.2 -> C1 -> chassis", "S1.2 -> C1 -> C2 -> chassis"}, "chassis-capacitor-class C1", "fail"},
		{"X2 ahead of Y2, and to the chassis with a switch closed", []string{c1, c1 + "\n  C2: " + x2 + "\n  S2: {kind: switch, poles: 1}", "S1.2 -> C1 -> chassis", "S1.2 -> C2 -> C1 -> chassis\n  - C2.2 -> S2 -> chassis"}, "chassis-capacitor-class C2", "fail"},
		{"to a touchable body", []string{c1, c1 + "\n  A1: {kind: body}", "S1.2 -> C1 -> chassis", "S1.2 -> C1 -> A1"}, "accessible-capacitor-class C1", "fail"},
		{"to an enclosed body", []string{c1, c1 + "\n  A1: {kind: body, reach: enclosed}", "S1.2 -> C1 -> chassis", "S1.2 -> C1 -> A1"}, "accessible-capacitor-class C1", ""},
	})
}

// The class table of IEC 60384-14: X between line conductors only, Y1 for
// reinforced insulation, Y4 on no more than 150 V.
func TestClassTable(t *testing.T) {
	for _, row := range []struct {
		class                   string
		line, basic, reinforced bool // at 230 V
		low                     bool // basic at 120 V
	}{
		{"X1", true, false, false, false}, {"X2", true, false, false, false}, {"X3", true, false, false, false},
		{"Y1", true, true, true, true}, {"Y2", true, true, false, true}, {"Y3", true, true, false, true},
		{"Y4", false, false, false, true}, {"", false, false, false, false},
	} {
		for _, c := range []struct {
			role  string
			mains float64
			want  bool
		}{{"line", 230, row.line}, {"basic", 230, row.basic}, {"reinforced", 230, row.reinforced}, {"basic", 120, row.low}} {
			if got, _ := handbook.ClassFits(row.class, c.role, c.mains); got != c.want {
				t.Errorf("class %q for %s at %g V: %t, want %t", row.class, c.role, c.mains, got, c.want)
			}
		}
	}
}

// A capacitor is across the line behind whatever stands in series with it.
func TestLineCapacitorInSeries(t *testing.T) {
	series := func(part, run string) []string {
		return []string{c1, c1 + "\n  C9: {kind: capacitor, value: 100 nF, voltage: 600 V, body: paper}\n  Q9: " + part, "- T1.4 -> chassis", "- T1.4 -> chassis\n  - " + run}
	}
	tryChanges(t, larkfield(t), []change{
		{"behind a resistor", series("{kind: resistor, value: 2.2 kΩ}", "S1.2 -> Q9 -> C9 -> T1.2"), "line-capacitor-class C9", "unproven"},
		{"behind a lamp", series("{kind: lamp, voltage: 6.3 V, current: 150 mA}", "S1.2 -> C9 -> Q9 -> T1.2"), "line-capacitor-class C9", "unproven"},
		{"behind a varistor", series("{kind: varistor}", "S1.2 -> C9 -> Q9 -> T1.2"), "line-capacitor-class C9", "unproven"},
		{"behind a field coil", series("{kind: field-coil}", "S1.2 -> Q9 -> C9 -> T1.2"), "line-capacitor-class C9", "unproven"},
		{"behind the wiper of a control", series("{kind: potentiometer, value: 10 kΩ}", "S1.2 -> Q9.1\n  - Q9.wiper -> C9 -> T1.2"), "line-capacitor-class C9", "unproven"},
		{"behind 470 kΩ", series("{kind: resistor, value: 470 kΩ}", "S1.2 -> Q9 -> C9 -> T1.2"), "line-capacitor-class C9", ""},
		{"in the secondary", series("{kind: resistor, value: 2.2 kΩ}", "T1.6 -> Q9 -> C9 -> T1.7"), "line-capacitor-class C9", ""},
	})
}

func TestSafetyCapacitorVoltage(t *testing.T) {
	class := func(to string) []string { return []string{c1, to} }
	tryChanges(t, larkfield(t), []change{
		{"250 V at 120 V", nil, "safety-capacitor-voltage C1", "pass"},
		{"too little", class("C1: {kind: capacitor, value: 4.7 nF, class: Y4, voltage: 100 V}"), "safety-capacitor-voltage C1", "fail"},
		{"no voltage", class("C1: {kind: capacitor, value: 4.7 nF, class: Y2}"), "safety-capacitor-voltage C1", "unproven"},
		{"a direct voltage", class("C1: {kind: capacitor, value: 4.7 nF, voltage: 630 V}"), "safety-capacitor-voltage C1", "unproven"},
		{"a coupling capacitor is not asked", []string{"S1.2 -> C1 -> chassis", "T1.8 -> C1 -> T1.3"}, "safety-capacitor-voltage C1", ""},
	})
}

// A series-string set on the line: what stands between points of the rail and
// its loads is no line capacitor.
const seriesSet = `firstvolt: 1
set: {name: Trial, construction: line-connected, nameplate: {voltage: 117 V, power: 30 W}}
supply: {region: north-america, plug: nema-1-15-polarized}
parts:
  F1: {kind: fuse, rating: 0.5 A, voltage: 250 V, standard: ul-248-14}
  S1: {kind: switch, poles: 1, rating: 3 A, voltage: 125 V}
  V1: {kind: rectifier, type: 35W4}
  V2: {kind: tube, type: 50C5}
  R1: {kind: resistor, value: 33 Ω}
  R2: {kind: resistor, value: 150 Ω}
  R3: {kind: resistor, value: 2.2 kΩ}
  C1: {kind: electrolytic, value: 40 µF, voltage: 150 V}
  C2: {kind: electrolytic, value: 25 µF, voltage: 25 V}
  C3: {kind: capacitor, value: 50 nF, class: X2, voltage: 275 V}
  C4: {kind: capacitor, value: 10 nF, voltage: 400 V}
  C5: {kind: capacitor, value: 4.7 nF, class: Y2, voltage: 250 V}
  A1: {kind: body}
wiring:
  - plug.hot -> F1 -> S1 -> V1.h1
  - V1.h2 -> V2.h1
  - V2.h2 -> chassis
  - plug.neutral -> chassis
  - S1.2 -> R1 -> V1.plate
  - V1.cathode -> C1.plus
  - C1.minus -> chassis
  - V1.cathode -> R3 -> V2.plate
  - V2.cathode -> R2 -> chassis
  - V2.cathode -> C2.plus
  - C2.minus -> chassis
  - S1.2 -> C3 -> chassis
  - V2.plate -> C4 -> V2.cathode
  - chassis -> C5 -> A1
`

func TestSeriesSet(t *testing.T) {
	got := outcomes(t, seriesSet)
	for finding, want := range map[string]string{
		"line-capacitor-class C3": "pass", "line-capacitor-class C1": "", "line-capacitor-class C2": "", "line-capacitor-class C4": "",
		"accessible-capacitor-class C5": "fail", "chassis-capacitor-class C5": "",
		"chassis-capacitor-leakage A1": "pass", "chassis-capacitor-leakage chassis": "",
		"frequency-fits-supply set": "", "fuse-size F1": "pass",
		// Cold, the string takes the charge off; C3 is behind the switch.
		"line-capacitor-discharge C3": "pass", "line-capacitor-discharge C1": "", "line-capacitor-discharge C2": "",
	} {
		expect(t, got, finding, want)
	}
}

// With more switch positions than are tried one by one nothing is called
// absent.
func TestTooManyPositions(t *testing.T) {
	parts, runs := c1+"\n  C9: {kind: electrolytic, value: 8 µF, voltage: 450 V}", "- T1.4 -> chassis\n  - T1.3 -> C9 -> T1.5"
	for _, n := range strings.Split("abcdefghijk", "") {
		parts += "\n  SW" + n + ": {kind: switch, poles: 1}"
		runs += "\n  - T1.8 -> SW" + n + " -> T1.9"
	}
	got := outcomes(t, altered(t, larkfield(t), c1, parts, "- T1.4 -> chassis", runs))
	for _, finding := range []string{"line-capacitor-discharge C1", "chassis-capacitor-leakage chassis", "line-capacitor-class C9", "chassis-capacitor-class C9"} {
		expect(t, got, finding, "unproven")
	}
}

// The capacitors inside a filter reach its case: on metal that nothing bonds
// their class is not known.
func TestFilterOnUnbondedMetal(t *testing.T) {
	const (
		wire  = "F1.side -> S1 -> T1.1"
		runs  = "F1.side -> S1 -> X1.line-in\n  - plug.neutral -> X1.neutral-in\n  - X1.line-out -> T1.1\n  - X1.case -> "
		part  = "\n  X1: {kind: filter, current: 2 A, voltage: 250 V, leakage: 0.3 mA}\n  Knob9: {kind: body}"
		cord  = "- {run: plug.ground -> chassis, color: green, joint: own-screw, slack: longest}"
		off   = "- {run: plug.ground -> T1.S}"
		shell = "kind: transformer\n"
	)
	tryChanges(t, larkfield(t), []change{
		{"on the bonded chassis", []string{wire, runs + "chassis\n  - Knob9 -> chassis", c1, c1 + part}, "accessible-capacitor-class X1", ""},
		{"on a body that nothing bonds", []string{wire, runs + "Knob9", c1, c1 + part}, "accessible-capacitor-class X1", "unproven"},
		{"on a chassis that nothing bonds", []string{wire, runs + "chassis\n  - Knob9 -> chassis", c1, c1 + part, cord, off, shell, shell + "    shield: S\n"}, "accessible-capacitor-class X1", "unproven"},
	})
}
