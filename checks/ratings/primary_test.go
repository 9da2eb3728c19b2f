package ratings_test

import (
	"strings"
	"testing"

	"firstvolt/checks/trial"
)

func TestWindingVoltage(t *testing.T) {
	const primary = "primary:   {ends: [1, 2], voltage: 117 V}"
	stated := func(to string) []string { return []string{primary, "primary:   {ends: [1, 2]" + to + "}"} }
	const rule = "winding-voltage-fits-supply T1.primary"
	tryChanges(t, larkfield(t), []change{
		{"117 V on 127 V is 1.085", nil, rule, "pass"},
		{"110 V at a measured 121 V is 1.10, and may see 127 V", stated(", voltage: 110 V"), rule, "caution"},
		{"110 V on 127 V is 1.155", append(stated(", voltage: 110 V"), "voltage: 121 V  ", "note: x  "), rule, "fail"},
		{"109 V at a measured 121 V", stated(", voltage: 109 V"), rule, "fail"},
		{"a span to 125 V", stated(", voltage: 110 V to 125 V"), rule, "pass"},
		{"not stated", stated(""), rule, "unproven"},
		{"just ten per cent", append(stated(", voltage: 120 V"), "voltage: 121 V  ", "voltage: 132 V  "), rule, "pass"},
		{"just over", append(stated(", voltage: 120 V"), "voltage: 121 V  ", "voltage: 132.1 V  "), rule, "fail"},
		{"no supply here stands at 90 V", append(stated(", voltage: 90 V"), "voltage: 121 V  ", "voltage: 90 V  "), rule, "fail"},
		{"a secondary is not asked", nil, "winding-voltage-fits-supply T1.plate", ""},
		{"not tapped, not asked", nil, "tap-fits-supply T1.primary", ""},
	})
}

// Two transformers one after the other share the line as nobody knows.
func TestPrimariesInSeries(t *testing.T) {
	second := func(volts string, more ...string) []string {
		return append([]string{"plug.neutral -> T1.2", "plug.neutral -> T2.a", "- T1.4 -> chassis", "- T1.4 -> chassis\n  - T1.2 -> T2.b",
			"  T1:\n", "  T2: {kind: transformer, windings: {primary: {ends: [a, b]" + volts + "}, heater: {ends: [c, d], voltage: 6.3 V}}}\n  T1:\n"}, more...)
	}
	const one, other = "winding-voltage-fits-supply T1.primary", "winding-voltage-fits-supply T2.primary"
	tryChanges(t, larkfield(t), []change{
		{"one as it stands", nil, one, "pass"},
		{"two for half the line each", second(", voltage: 60 V", "[1, 2], voltage: 117 V", "[1, 2], voltage: 60 V"), one, "unproven"},
		{"the other of them", second(", voltage: 60 V", "[1, 2], voltage: 117 V", "[1, 2], voltage: 60 V"), other, "unproven"},
		{"two for too little together", second(", voltage: 30 V", "[1, 2], voltage: 117 V", "[1, 2], voltage: 60 V"), one, "fail"},
		{"two for the whole line each", second(", voltage: 117 V"), one, "pass"},
		{"one that says nothing", second(""), one, "unproven"},
	})
}

// A primary with taps behind a selector, at 230 V.
func selectorSet(t *testing.T) string {
	return altered(t, larkfield(t), "region: north-america", "region: united-kingdom", "plug: nema-5-15", "plug: bs-1363", "voltage: 121 V                     #", "#",
		"voltage: 117 V, frequency: 60 Hz, power: 60 W", "voltage: 240 V, frequency: 50 Hz, power: 60 W",
		"primary:   {ends: [1, 2], voltage: 117 V}", "primary:   {ends: [1, 2], taps: {A: 110 V, B: 220 V}, voltage: 240 V}",
		"F1.side -> S1 -> T1.1", "F1.side -> S1 -> SEL.c\n  - SEL.a -> T1.A\n  - SEL.b -> T1.B\n  - SEL.d -> T1.2", "plug.neutral -> T1.2", "plug.neutral -> T1.1",
		"  S1: {kind", "  SEL: {kind: selector, positions: {low: [[c, a]], mid: [[c, b]], high: [[c, d]]}, set: high}\n  S1: {kind")
}

func TestSelector(t *testing.T) {
	tryChanges(t, selectorSet(t), []change{
		{"240 V at 230 V, which may be 207 V", nil, "tap-fits-supply T1.primary", "caution"},
		{"240 V at a measured 236 V", []string{"plug: bs-1363", "plug: bs-1363\n  voltage: 236 V"}, "tap-fits-supply T1.primary", "pass"},
		{"and its winding", nil, "winding-voltage-fits-supply T1.primary", "pass"},
		{"220 V at 230 V, which may be 253 V", []string{"set: high", "set: mid"}, "tap-fits-supply T1.primary", "unproven"},
		{"220 V at a measured 230 V is as near", []string{"set: high", "set: mid", "plug: bs-1363", "plug: bs-1363\n  voltage: 230 V"}, "tap-fits-supply T1.primary", "caution"},
		{"but too low for 253 V", []string{"set: high", "set: mid"}, "winding-voltage-fits-supply T1.primary", "fail"},
		{"110 V at 230 V", []string{"set: high", "set: low"}, "tap-fits-supply T1.primary", "fail"},
		{"nobody looked", []string{", set: high", ""}, "tap-fits-supply T1.primary", "unproven"},
		{"taps without volts", []string{"taps: {A: 110 V, B: 220 V}, voltage: 240 V", "taps: {A: 110 V, B: 220 V}"}, "tap-fits-supply T1.primary", "unproven"},
		{"one at a time", nil, "selector-never-shorts SEL", "pass"},
		{"two taps in a position not in use", []string{"low: [[c, a]]", "low: [[c, a], [c, b]]"}, "selector-never-shorts SEL", "fail"},
		{"line to line", []string{"low: [[c, a]]", "low: [[c, a], [c, n]]", "- T1.4 -> chassis", "- T1.4 -> chassis\n  - plug.neutral -> SEL.n"}, "selector-never-shorts SEL", "fail"},
		{"turned round, the tap in use as before", []string{"plug.neutral -> T1.1", "plug.neutral -> T1.2", "SEL.d -> T1.2", "SEL.d -> T1.1"}, "tap-fits-supply T1.primary", "caution"},
		{"turned round, a position named by volts makes others", []string{"plug.neutral -> T1.1", "plug.neutral -> T1.2", "SEL.d -> T1.2", "SEL.d -> T1.1",
			"low: [[c, a]], mid: [[c, b]], high: [[c, d]]}, set: high", "110: [[c, a]], 220: [[c, b]], 240: [[c, d]]}, set: 240"}, "tap-fits-supply T1.primary", "caution"},
		{"positions named by volts, as they should be", []string{"low: [[c, a]], mid: [[c, b]], high: [[c, d]]}, set: high", "110: [[c, a]], 220: [[c, b]], 240: [[c, d]]}, set: 240", "plug: bs-1363", "plug: bs-1363\n  voltage: 240 V"}, "tap-fits-supply T1.primary", "pass"},
		{"the lead of a tap not in use left off", []string{"\n  - SEL.a -> T1.A", "\n  - SEL.a -> lug", "  S1: {kind", "  lug: {kind: tie}\n  S1: {kind",
			"low: [[c, a]], mid: [[c, b]], high: [[c, d]]}, set: high", "110: [[c, a]], 220: [[c, b]], 240: [[c, d]]}, set: 240"}, "tap-fits-supply T1.primary", "caution"},
		{"leads of taps not in use exchanged", []string{"SEL.a -> T1.A", "SEL.a -> T1.B", "SEL.b -> T1.B", "SEL.b -> T1.A",
			"low: [[c, a]], mid: [[c, b]], high: [[c, d]]}, set: high", "110: [[c, a]], 220: [[c, b]], 240: [[c, d]]}, set: 240"}, "tap-fits-supply T1.primary", "caution"},
		{"an old capacitor across part of the primary", []string{"  S1: {kind", "  CX: {kind: capacitor, value: 0.1 µF, body: paper}\n  S1: {kind", "- T1.4 -> chassis", "- T1.4 -> chassis\n  - T1.A -> CX -> T1.B"}, "line-capacitor-class CX", "unproven"},
		{"nothing to short", nil, "primary-sections-phased T1", ""},
	})
}

// Two sections of 117 V, in series at 230 V or side by side at 120 V.
func sectionSet(t *testing.T, volts, runs, dots string) string {
	t.Helper()
	text := altered(t, larkfield(t), "primary:   {ends: [1, 2], voltage: 117 V}",
		"primary-a: {ends: [1, 2], voltage: 117 V, dot: 1}\n      primary-b: {ends: [11, 12], voltage: 117 V"+dots+"}",
		"F1.side -> S1 -> T1.1", runs, "- {run: plug.neutral -> T1.2, color: white}", "# neutral is above")
	text = strings.ReplaceAll(text, "T1.primary,", "T1.primary-a,")
	if volts == "230 V" {
		text = altered(t, text, "region: north-america", "region: united-kingdom", "plug: nema-5-15", "plug: bs-1363", "voltage: 121 V                     #", "#")
	}
	return text
}

func TestSections(t *testing.T) {
	const series = "F1.side -> S1 -> T1.1\n  - T1.2 -> T1.11\n  - T1.12 -> plug.neutral"
	const side = "F1.side -> S1 -> T1.1 -> T1.11\n  - T1.2 -> T1.12 -> plug.neutral"
	for _, c := range []struct{ name, volts, runs, dots, finding, want string }{
		{"in series", "230 V", series, ", dot: 11", "primary-sections-phased T1", "pass"},
		{"in series, each at half", "230 V", series, ", dot: 11", "winding-voltage-fits-supply T1.primary-a", "pass"},
		{"in series against each other", "230 V", series, ", dot: 12", "primary-sections-phased T1", "fail"},
		{"in series, no mark", "230 V", series, "", "primary-sections-phased T1", "unproven"},
		{"side by side", "120 V", side, ", dot: 11", "primary-sections-phased T1", "pass"},
		{"side by side, each in full", "120 V", side, ", dot: 11", "winding-voltage-fits-supply T1.primary-b", "pass"},
		{"side by side at 230 V", "230 V", side, ", dot: 11", "winding-voltage-fits-supply T1.primary-b", "fail"},
		{"side by side against each other", "120 V", side, ", dot: 12", "primary-sections-phased T1", "fail"},
		{"in series at 120 V", "120 V", series, ", dot: 11", "winding-voltage-fits-supply T1.primary-a", "pass"},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := sectionSet(t, c.volts, c.runs, c.dots)
			expect(t, outcomes(t, text), c.finding, c.want)
		})
	}
}

// A selector or a tap for another voltage is one slip with one cause: the tap
// and the winding fail, and the frequency is judged as on the right tap.
func TestWrongTapHasOneCause(t *testing.T) {
	const tap, volts, frequency = "tap-fits-supply NT.primary", "winding-voltage-fits-supply NT.primary", "frequency-fits-supply set"
	sixty := []string{"frequency: 50 Hz, power", "frequency: 60 Hz, power"}
	fixed := []string{"  VW:\n    kind: selector\n    positions:\n      127: [[in, a127]]\n      220: [[in, a220]]\n      240: [[in, a240]]\n    set: 240\n", "",
		"  - VW.a127 -> NT.n127\n  - VW.a220 -> NT.n220\n  - VW.a240 -> NT.n240\n", "", "Netz.2 -> VW.in", "Netz.2 -> NT.n127"}
	for _, c := range []struct {
		name              string
		pairs             []string
		tap, volts, hertz string
	}{
		{"right", nil, "caution", "pass", "pass"},
		{"set for 127 V", []string{"set: 240", "set: 127"}, "fail", "fail", "pass"},
		{"wired for 127 V", fixed, "fail", "fail", "pass"},
		{"right, and iron for 60 Hz", sixty, "caution", "pass", "fail"},
		{"set for 127 V, and iron for 60 Hz", append([]string{"set: 240", "set: 127"}, sixty...), "fail", "fail", "fail"},
		// What was measured counts, and of two taps as near the higher.
		{"set for 220 V, on 230 V", []string{"set: 240", "set: 220"}, "unproven", "fail", "pass"},
		{"set for 220 V, on a measured 230 V", []string{"set: 240", "set: 220", "plug: ", "voltage: 230 V\n  plug: "}, "caution", "caution", "pass"},
		{"set for 220 V, on 240 V", []string{"set: 240", "set: 220", "plug: ", "voltage: 240 V\n  plug: "}, "fail", "caution", "pass"},
		{"set for 220 V, on 223 V", []string{"set: 240", "set: 220", "plug: ", "voltage: 223 V\n  plug: "}, "pass", "caution", "pass"},
		{"set for 240 V, on 223 V", []string{"plug: ", "voltage: 223 V\n  plug: "}, "caution", "pass", "pass"},
		{"not said how it is set", []string{"    set: 240\n", ""}, "unproven", "unproven", "pass"},
	} {
		got := outcomes(t, altered(t, trial.Sheet(t, "morgenfels-3w"), c.pairs...))
		for finding, want := range map[string]string{tap: c.tap, volts: c.volts, frequency: c.hertz} {
			if string(got[finding].Outcome) != want {
				t.Errorf("%s: %s is %q, want %q", c.name, finding, string(got[finding].Outcome), want)
			}
		}
	}
}

// Two sections that a selector puts side by side or end to end: what works
// against itself in the position not in use is found as well.
func TestSectionsInEveryPosition(t *testing.T) {
	const runs = "F1.side -> S1 -> T1.1\n  - T1.1 -> SEL.a\n  - T1.2 -> SEL.c\n  - T1.11 -> SEL.b\n  - T1.12 -> SEL.d\n  - plug.neutral -> SEL.n"
	for want, both := range map[string]string{"pass": "[[a, b], [c, d], [d, n]]", "fail": "[[a, d], [c, b], [b, n]]"} {
		text := altered(t, sectionSet(t, "230 V", runs, ", dot: 11"),
			"  S1: {kind", "  SEL: {kind: selector, positions: {120: "+both+", 230: [[b, c], [d, n]]}, set: 230}\n  S1: {kind")
		expect(t, outcomes(t, text), "primary-sections-phased T1", want)
	}
}

// An autotransformer of the set brings 230 V down to its 117 V primary.
func TestBehindAutotransformer(t *testing.T) {
	text := altered(t, larkfield(t), "region: north-america", "region: united-kingdom", "plug: nema-5-15", "plug: bs-1363", "voltage: 121 V                     #", "#",
		"  S1: {kind", "  AT1: {kind: autotransformer, taps: {common: 0 V, out: 117 V, in: 234 V}}\n  S1: {kind",
		"F1.side -> S1 -> T1.1", "F1.side -> S1 -> AT1.in\n  - plug.neutral -> AT1.common\n  - AT1.out -> T1.1")
	tryChanges(t, text, []change{
		{"the step-down fits", nil, "winding-voltage-fits-supply AT1.winding", "pass"},
		{"and so does what it feeds", nil, "winding-voltage-fits-supply T1.primary", "pass"},
		{"a tap too high", []string{"out: 117 V", "out: 140 V"}, "winding-voltage-fits-supply T1.primary", "fail"},
	})
}

func TestFrequency(t *testing.T) {
	japanese := altered(t, larkfield(t), "region: north-america", "region: japan", "plug: nema-5-15", "plug: jis-c-8303-earthed", "voltage: 121 V                     #", "#")
	const rule = "frequency-fits-supply set"
	tryChanges(t, larkfield(t), []change{
		{"60 Hz on 60 Hz", nil, rule, "pass"},
		{"a 25 Hz set has iron enough", []string{"frequency: 60 Hz", "frequency: 25 Hz"}, rule, "pass"},
		{"no frequency", []string{", frequency: 60 Hz", ""}, rule, "unproven"},
		{"no volts", []string{"{voltage: 117 V, frequency", "{frequency"}, rule, "unproven"},
	})
	tryChanges(t, japanese, []change{
		// 110 V ÷ 50 Hz over 117 V ÷ 60 Hz is 1.128.
		{"60 Hz iron on 50 Hz", nil, rule, "fail"},
		{"50 Hz iron", []string{"frequency: 60 Hz", "frequency: 50 Hz to 60 Hz"}, rule, "pass"},
	})
}
