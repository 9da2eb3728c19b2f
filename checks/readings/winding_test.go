package readings_test

import (
	"slices"
	"strings"
	"testing"
)

const (
	halfA     = "{between: [T1.3, T1.4], reads: 104 Ω, with: dmm}"
	halfB     = "{between: [T1.4, T1.5], reads: 112 Ω, with: dmm}"
	turnsLine = "{applied: T1.primary, volts: 6.00 V, across: T1.heater, reads: 0.335 V, with: volts}"
	capLine   = "{between: [plug.hot + plug.neutral, chassis], switches: closed, reads: 5.4 nF, with: bridge}"
)

// more adds a line of readings after another.
func more(line, added string) []swap { return []swap{{line, line + "\n    - " + added}} }

func TestPrimarySecondaries(t *testing.T) {
	runRows(t, "insulation-primary-secondaries T1.plate", []row{
		{"as it stands", nil, "pass"},
		{"low alone", edit(plateLine, "{15 s: 180 MΩ, 30 s: 240 MΩ, 60 s: 300 MΩ}", "0.9 MΩ"), "fail"},
		{"low with the chassis joined: which, is not known", append(edit(plateLine, "without: [T1.4], ", ""), edit(megLine, "240 MΩ", "1.5 MΩ")...), "unproven"},
		{"not read by itself, but with the chassis", other(plateLine, "{between: [T1.primary, T1.rectifier], test: 500 V, reads: 600 MΩ, with: tester}"), "pass"},
		{"nowhere read", append(other(plateLine, "{between: [T1.primary, T1.rectifier], test: 500 V, reads: 600 MΩ, with: tester}"), other(megLine, "{between: [T1.primary, T1.heater], test: 500 V, reads: 600 MΩ, with: tester}")...), "unproven"},
		{"damp", edit(plateLine, "{15 s: 180 MΩ, 30 s: 240 MΩ, 60 s: 300 MΩ}", "8 MΩ"), "caution"},
		{"one half cut off", append(edit(plateLine, "[T1.primary, T1.plate], without: [T1.4]", "[T1.primary, T1.3], without: [T1.4]"), edit(megLine, "240 MΩ", "300 MΩ")...), "pass"},
	})
	runRows(t, "insulation-primary-secondaries T1.heater", []row{
		{"as it stands", nil, "pass"},
		{"low with another: which, is not known", edit(lowLine, "over 500 MΩ", "1.5 MΩ"), "unproven"},
		{"only one end of the primary", edit(lowLine, "T1.primary", "T1.1"), "pass"},
		{"the other winding only", edit(lowLine, "T1.rectifier + T1.heater", "T1.rectifier"), "unproven"},
		{"test too low", edit(lowLine, "500 V", "50 V"), "unproven"},
	})
	runRows(t, "insulation-primary-secondaries T1.primary", []row{{"a primary is none", nil, "not asked"}})
	// What is called a primary and is not on the line is a secondary, if the set uses it.
	called := []swap{{"plate:     {ends", "primary-2: {ends"}, {"T1.primary, T1.plate]", "T1.primary, T1.primary-2]"}}
	spare := []swap{{"  heater:    {ends: [8, 9], voltage: 6.3 V, load: 2.4 A}", "  primary-2: {ends: [8, 9], voltage: 117 V}"}, {"T1.rectifier + T1.heater", "T1.rectifier"}, {"across: T1.heater, reads: 0.335 V", "across: T1.primary-2, reads: 5.9 V"}}
	runRows(t, "insulation-primary-secondaries T1.primary-2", []row{
		{"read", called, "pass"},
		{"joined to the primary, read with the chassis alone", append(edit(plateLine, "[T1.primary, T1.plate]", "[T1.primary + T1.primary-2, T1.rectifier]"), called[0]), "pass"},
		{"said to carry a load, and never read", append(spare[1:], swap{"  heater:    {ends", "  primary-2: {ends"}), "unproven"},
		{"spare", spare, "not asked"},
		{"its lead on a lug", append([]swap{{"  T1:\n", "  J9: {kind: tie}\n  T1:\n"}, {"  - T1.4 -> chassis", "  - T1.4 -> chassis\n  - T1.8 -> J9"}}, spare...), "not asked"},
		{"on the chassis", append([]swap{{"  - T1.4 -> chassis", "  - T1.4 -> chassis\n  - T1.8 -> chassis"}}, spare...), "pass"},
	})
	runRows(t, "halves-balance T1.primary-2", []row{{"as a plate winding", append(edit(halfB, "112 Ω", "152 Ω"), called...), "fail"}})
}

func TestSecondariesChassis(t *testing.T) {
	runRows(t, "insulation-secondaries-chassis T1.rectifier", []row{
		{"not read", nil, "caution"},
		{"read", more(lowLine, "{between: [T1.rectifier, chassis], test: 500 V, reads: 90 MΩ, with: tester}"), "pass"},
		{"bad", more(lowLine, "{between: [T1.rectifier, chassis], test: 500 V, reads: 0.9 MΩ, with: tester}"), "fail"},
	})
	runRows(t, "insulation-secondaries-chassis T1.plate", []row{
		{"its tap is on the chassis", nil, "not asked"},
		{"read with the tap lifted", more(lowLine, "{between: [T1.plate, chassis], without: [T1.4], test: 500 V, reads: 1 MΩ, with: tester}"), "fail"},
	})
}

func TestContinuity(t *testing.T) {
	runRows(t, "winding-continuity T1.primary", []row{
		{"as it stands", nil, "pass"},
		{"by the plug alone", other(acrossLine, "{across: F1, reads: 0.3 Ω, with: dmm}"), "pass"},
		{"by itself alone", other(onLine, "{across: F1, reads: 0.3 Ω, with: dmm}"), "pass"},
		{"not at all", append(other(onLine, "{across: F1, reads: 0.3 Ω, with: dmm}"), other(acrossLine, "{across: S1, switches: closed, reads: 0.3 Ω, with: dmm}")...), "unproven"},
		{"open, though the plug reads", edit(acrossLine, "9.7 Ω", "OL"), "fail"},
		{"open, by a meter of unknown ceiling", append(edit(acrossLine, "9.7 Ω", "OL"), swap{", ceiling: 40 MΩ", ""}), "unproven"},
		{"a bleeder beside it, far above the reading", []swap{{"  T1:\n", "  R1: {kind: resistor, value: 470 kΩ}\n  T1:\n"}, {"  - T1.4 -> chassis\n", "  - T1.4 -> chassis\n  - T1.1 -> R1 -> T1.2\n"}}, "pass"},
		{"a bleeder beside it, read alone", append(append(other(onLine, "{across: F1, reads: 0.3 Ω, with: dmm}"), edit(acrossLine, "9.7 Ω", "465 kΩ")...), []swap{{"  T1:\n", "  R1: {kind: resistor, value: 470 kΩ}\n  T1:\n"}, {"  - T1.4 -> chassis\n", "  - T1.4 -> chassis\n  - T1.1 -> R1 -> T1.2\n"}}...), "unproven"},
		{"another way beside it", []swap{{"  T1:\n", "  R1: {kind: resistor, value: 10 Ω}\n  T1:\n"}, {"  - T1.4 -> chassis\n", "  - T1.4 -> chassis\n  - T1.1 -> R1 -> T1.2\n"}}, "unproven"},
	})
	runRows(t, "winding-continuity T1.plate", []row{
		{"both halves", nil, "pass"},
		{"one half", other(halfB, "{across: F1, reads: 0.3 Ω, with: dmm}"), "caution"},
		{"one half open", edit(halfB, "112 Ω", "OL"), "fail"},
		{"end to end", append(other(halfA, "{across: T1.plate, reads: 216 Ω, with: dmm}"), other(halfB, "{across: F1, reads: 0.3 Ω, with: dmm}")...), "pass"},
	})
}

func TestHalves(t *testing.T) {
	runRows(t, "halves-balance T1.plate", []row{
		{"as it stands", nil, "pass"},
		{"a quarter apart", edit(halfB, "112 Ω", "130 Ω"), "caution"},
		{"far apart", edit(halfB, "112 Ω", "152 Ω"), "fail"},
		{"the other larger", edit(halfA, "104 Ω", "160 Ω"), "fail"},
		{"one open", edit(halfB, "112 Ω", "OL"), "fail"},
		{"one not read", other(halfB, "{across: F1, reads: 0.3 Ω, with: dmm}"), "caution"},
		{"one from the whole does not say which", other(halfB, "{across: T1.plate, reads: 216 Ω, with: dmm}"), "caution"},
		{"one without instrument", edit(halfB, ", with: dmm", ""), "unproven"},
	})
	runRows(t, "halves-balance T1.heater", []row{{"no halves", nil, "not asked"}})
	// Nor does another name help a winding of so many volts.
	for _, name := range []string{"heater-2", "rectifier-2", "bias"} {
		as, read := swap{"plate:     {ends", name + ": {ends"}, swap{"T1.primary, T1.plate]", "T1.primary, T1." + name + "]"}
		runRows(t, "halves-balance T1."+name, []row{{"far apart", append(edit(halfB, "112 Ω", "152 Ω"), as, read), "fail"}})
	}
	// Under a name that says nothing it is judged all the same.
	ht, insulation := swap{"plate:     {ends", "HV:     {ends"}, swap{"T1.primary, T1.plate]", "T1.primary, T1.HV]"}
	runRows(t, "halves-balance T1.HV", []row{
		{"as it stands", []swap{ht, insulation}, "pass"},
		{"far apart", append(edit(halfB, "112 Ω", "152 Ω"), ht, insulation), "fail"},
		{"one not read", append(other(halfB, "{across: F1, reads: 0.3 Ω, with: dmm}"), ht, insulation), "caution"},
	})
}

func TestWindingResistance(t *testing.T) {
	runRows(t, "winding-resistance T1.primary", []row{
		{"a little high for 60 W", nil, "caution"},
		{"usual", edit(acrossLine, "9.7 Ω", "6 Ω"), "pass"},
		{"size not known", []swap{{", power: 60 W", ""}}, "caution"},
		{"low", edit(acrossLine, "9.7 Ω", "1.2 Ω"), "caution"},
	})
	runRows(t, "winding-resistance T1.heater", []row{
		{"below an ohm", more(acrossLine, "{across: T1.heater, reads: 0.3 Ω, with: dmm}"), "pass"},
		{"an ohm and a half", more(acrossLine, "{across: T1.heater, reads: 1.6 Ω, with: dmm}"), "caution"},
	})
}

// Where a winding was read and the heater beside it was in, what is missing is not
// the reading: it is to say, or to see to it, that the tube was out.
func TestWhatLiesAcrossAWinding(t *testing.T) {
	const reading = "{across: T1.rectifier, reads: 0.4 Ω, with: dmm}"
	tube := []swap{{"  T1:\n", "  V5: {kind: rectifier, type: 5Y3}\n  V4: {kind: tube, type: 6V6}\n  T1:\n"},
		{"  - T1.4 -> chassis\n", "  - T1.4 -> chassis\n  - T1.6 -> V5 -> T1.7\n  - T1.3 -> V5.plate-1\n  - T1.5 -> V5.plate-2\n  - T1.8 -> V4 -> T1.9\n"}}
	need := func(line, finding string) string {
		t.Helper()
		f := judge(t, altered(t, larkfield(t), append(slices.Clone(tube), more(bondLine, line)...)...))
		if f[finding].Outcome == "pass" {
			return "pass"
		}
		if len(f[finding].Needs) != max(1, len(f[finding].Gathered)) {
			t.Fatal(f[finding].Needs)
		}
		return f[finding].Needs[0].What + ": " + f[finding].Needs[0].How
	}
	if got := need(reading, "winding-continuity T1.rectifier"); !strings.Contains(got, "T1.6 and T1.7") || !strings.Contains(got, "V5 lies across") || !strings.Contains(got, "without: [V5]") {
		t.Error(got)
	}
	for _, right := range []string{"without: [V5]", "without: [tubes]"} {
		if got := need(strings.Replace(reading, ", with", ", "+right+", with", 1), "winding-continuity T1.rectifier"); got != "pass" {
			t.Errorf("%s: %s", right, got)
		}
	}
	if got := need("{across: T1.heater, reads: 3 Ω, with: dmm}", "winding-continuity T1.heater"); !strings.Contains(got, "without: [V4]") {
		t.Error(got)
	}
	if got := need("{across: V5, reads: 0.4 Ω, with: dmm}", "winding-continuity T1.rectifier"); strings.Contains(got, "lies across") {
		t.Error(got)
	}
}

func TestTurns(t *testing.T) {
	runRows(t, "turns-ratio T1.heater", []row{
		{"as it stands", nil, "pass"},
		{"shorted turns", edit(turnsLine, "0.335 V", "0.533 V"), "fail"},
		{"another winding", edit(turnsLine, "0.335 V", "0.237 V"), "fail"},
		{"at the edge", edit(turnsLine, "0.335 V", "0.433 V"), "unproven"},
		{"volts not told", edit(turnsLine, "volts: 6.00 V, ", ""), "unproven"},
		{"marked volts not told", []swap{{"{ends: [8, 9], voltage: 6.3 V, load: 2.4 A}", "{ends: [8, 9], load: 2.4 A}"}}, "unproven"},
		{"not read", other(turnsLine, "{applied: T1.primary, volts: 6 V, across: T1.rectifier, reads: 0.27 V, with: volts}"), "caution"},
		{"what was fed not told", edit(turnsLine, "applied: T1.primary, ", ""), "unproven"},
		{"what was fed not told, shorted turns", other(turnsLine, "{volts: 6.00 V, across: T1.heater, reads: 0.533 V, with: volts}"), "unproven"},
		{"fed itself", edit(turnsLine, "applied: T1.primary", "applied: T1.heater"), "unproven"},
		{"by no-load volts", append(edit(turnsLine, "0.335 V", "0.386 V"), swap{"{ends: [8, 9], voltage: 6.3 V, load: 2.4 A}", "{ends: [8, 9], voltage: 6.3 V, no-load: 7.5 V, load: 2.4 A}"}), "pass"},
	})
	primaryFed := "{applied: T1.primary, volts: 6 V, across: T1.heater, reads: 0.35 V, with: volts}"
	runRows(t, "turns-ratio T1.heater", []row{ // the way round that nobody is hurt by
		{"the primary fed", other(turnsLine, primaryFed), "pass"},
		{"the primary fed, shorted turns", other(turnsLine, strings.Replace(primaryFed, "0.35 V", "0.22 V", 1)), "fail"},
		{"the primary fed, a winding for 12.6 V", other(turnsLine, strings.Replace(primaryFed, "0.35 V", "0.7 V", 1)), "fail"},
		{"the primary fed, by a meter not known", other(turnsLine, strings.Replace(primaryFed, ", with: volts", "", 1)), "unproven"},
	})
	runRows(t, "turns-ratio T1.plate", []row{
		{"half of it", more(turnsLine, "{applied: T1.primary, volts: 10 V, between: [T1.3, T1.4], reads: 27.5 V, with: volts}"), "pass"},
		{"half of it, wrong", more(turnsLine, "{applied: T1.primary, volts: 10 V, between: [T1.3, T1.4], reads: 18 V, with: volts}"), "fail"},
	})
}

// What is asked for is a few volts on the primary, and whoever reads it is told
// what is live meanwhile.
func TestTurnsAreTakenFromThePrimary(t *testing.T) {
	f := judge(t, larkfield(t))["turns-ratio T1.plate"]
	if len(f.Needs) == 0 || f.Needs[0].What != "voltage across T1.plate with a few volts applied to T1.primary" {
		t.Fatal(f.Needs)
	}
	for _, say := range []string{f.Needs[0].How, f.Remedy} {
		for _, piece := range []string{"fuse or", "treat all the other windings and the plug's pins as live", "hands off until the feed is off"} {
			if !strings.Contains(say, piece) {
				t.Errorf("%q does not say %q", say, piece)
			}
		}
	}
}

func TestCapacitance(t *testing.T) {
	c2 := func(part, run string) []swap {
		return []swap{{"  T1:\n", "  " + part + "\n  T1:\n"}, {"  - T1.4 -> chassis\n", "  - T1.4 -> chassis\n  - " + run + "\n"}}
	}
	runRows(t, "capacitance-agrees chassis", []row{
		{"as it stands", nil, "pass"},
		{"an old capacitor", edit(capLine, "5.4 nF", "52 nF"), "fail"},
		{"one not wired", edit(capLine, "5.4 nF", "0.3 nF"), "fail"},
		{"not read", other(capLine, "{across: C1, reads: 4.7 nF, with: bridge}"), "unproven"},
		{"value not told", []swap{{"value: 4.7 nF, ", ""}}, "unproven"},
		{"a second beside it", c2("C2: {kind: capacitor, value: 10 nF, class: Y2}", "T1.2 -> C2 -> chassis"), "fail"},
		{"two in series beside it", append(c2("C2: {kind: capacitor, value: 2 nF, class: Y2}\n  C3: {kind: capacitor, value: 2 nF, class: Y2}", "T1.2 -> C2 -> C3 -> chassis"), edit(capLine, "5.4 nF", "5.7 nF")...), "pass"},
		{"across the line it is not seen", c2("C2: {kind: capacitor, value: 100 nF, class: X2}", "T1.1 -> C2 -> T1.2"), "pass"},
		{"lifted it is not counted", edit(capLine, "switches: closed, reads: 5.4 nF", "switches: closed, without: [C1], reads: 0.8 nF"), "pass"},
		{"a filter", c2("Z1: {kind: filter}", "T1.2 -> Z1.neutral-out\n  - Z1.case -> chassis"), "unproven"},
		{"a filter, lifted", append(c2("Z1: {kind: filter}", "T1.2 -> Z1.neutral-out\n  - Z1.case -> chassis"), edit(capLine, "switches: closed", "switches: closed, without: [Z1]")...), "pass"},
	})
}

func TestFresh(t *testing.T) {
	run := "  - {run: plug.ground -> chassis, color: green, joint: own-screw, slack: longest}"
	runRows(t, "readings-after-rebuild plug.ground – chassis", []row{
		{"as it stands", nil, "pass"},
		{"before", []swap{{"taken: 2026-11-20  ", "taken: 2026-11-02  "}}, "fail"},
		{"the same day", []swap{{"rebuilt: 2026-11-18", "rebuilt: 2026-11-20"}}, "pass"},
		{"rebuilt not told", []swap{{"rebuilt: 2026-11-18", "note: rebuilt on a day that nobody wrote down"}}, "unproven"},
		{"taken not told", []swap{{"  taken: 2026-11-20                  # a reading may carry its own\n", ""}}, "unproven"},
		{"its own wire changed later", []swap{{run, run[:len(run)-1] + ", changed: 2026-11-21}"}}, "fail"},
		{"another wire changed later", []swap{{"  - {run: plug.neutral -> T1.2, color: white}", "  - {run: plug.neutral -> T1.2, color: white, changed: 2026-11-21}"}}, "pass"},
		{"its own day", edit(bondLine, "reads:", "taken: 2026-11-01, reads:"), "fail"},
	})
	runRows(t, "readings-after-rebuild T1.primary", []row{
		{"a winding has no date", []swap{{"taken: 2026-11-20  ", "taken: 2026-11-02  "}}, "pass"},
	})
	runRows(t, "readings-after-rebuild plug.hot – plug.neutral", []row{
		{"a wire to the switch changed later", []swap{{"  - F1.side -> S1 -> T1.1", "  - {run: F1.side -> S1 -> T1.1, changed: 2026-11-21}"}}, "fail"},
		{"a wire beside the path changed later", []swap{{"  - T1.4 -> chassis", "  - {run: T1.4 -> chassis, changed: 2026-11-21}"}}, "pass"},
	})
}

func TestInstruments(t *testing.T) {
	dmm := "calibrated: 2026-05-04"
	runRows(t, "instrument-in-date dmm", []row{
		{"as it stands", nil, "pass"},
		{"a year to the day", []swap{{dmm, "calibrated: 2025-11-20"}}, "pass"},
		{"a day over", []swap{{dmm, "calibrated: 2025-11-19"}}, "caution"},
		{"after the reading", []swap{{dmm, "calibrated: 2026-11-21"}}, "caution"},
		{"not told", []swap{{", " + dmm, ""}}, "caution"},
	})
	runRows(t, "leads-accounted milliohm", []row{
		{"nulled", nil, "pass"},
		{"known", []swap{{"1 % + 2 mΩ, leads: nulled", "1 % + 2 mΩ, leads: 0.02 Ω"}}, "pass"},
		{"not told", []swap{{"1 % + 2 mΩ, leads: nulled", "1 % + 2 mΩ"}}, "unproven"},
	})
	runRows(t, "leads-accounted dmm", []row{{"read no bond", nil, "not asked"}})
	runRows(t, "receptacle-proved supply", []row{
		{"tested", nil, "pass"},
		{"untested", []swap{{"receptacle: tested  ", "receptacle: untested  "}}, "unproven"},
		{"not told", []swap{{"  receptacle: tested                 # tested | untested: hot, neutral and ground proved where they should be\n", ""}}, "unproven"},
	})
}

func TestTrend(t *testing.T) {
	runRows(t, "insulation-trend T1.primary – T1.plate", []row{
		{"rises", nil, "pass"},
		{"falls", edit(plateLine, "60 s: 300 MΩ", "60 s: 120 MΩ"), "caution"},
		{"first and last", edit(plateLine, "{15 s: 180 MΩ, 30 s: 240 MΩ, 60 s: 300 MΩ}", "{10 s: 300 MΩ, 45 s: 90 MΩ}"), "caution"},
		{"once only", edit(plateLine, "{15 s: 180 MΩ, 30 s: 240 MΩ, 60 s: 300 MΩ}", "300 MΩ"), "not asked"},
		{"beyond what it says anything of", edit(plateLine, "{15 s: 180 MΩ, 30 s: 240 MΩ, 60 s: 300 MΩ}", "{30 s: 6 GΩ, 60 s: 5 GΩ}"), "not asked"},
	})
}

// The polarization index is the reading after 10 min over that after 1 min:
// 500 MΩ and 2000 MΩ make 4.0 (electricalampere.com polarization-index); 20 GΩ
// and 150 GΩ would make 7.5 and say nothing, since the first is above 5 GΩ
// (IEEE 43, as quoted at industrialmonitordirect.com). The dielectric
// absorption ratio is 60 s over 30 s; below 1 is bad (manualshive 3251965 p. 24).
func TestPolarization(t *testing.T) {
	const series = "{15 s: 180 MΩ, 30 s: 240 MΩ, 60 s: 300 MΩ}"
	for _, c := range []struct {
		reads, outcome string
		ratio          float64
	}{
		{"{60 s: 500 MΩ, 600 s: 2000 MΩ}", "pass", 4},
		{"{1 min: 500 MΩ, 10 min: 2000 MΩ}", "pass", 4},
		{"{60 s: 20 GΩ, 600 s: 150 GΩ}", "not asked", 0},
		{"{30 s: 100 MΩ, 60 s: 150 MΩ}", "pass", 1.5},
		{"{30 s: 100 MΩ, 60 s: 150 MΩ, 600 s: 90 MΩ}", "pass", 1.5},
		{"{30 s: 100 MΩ, 60 s: 80 MΩ}", "caution", 0.8},
	} {
		fs := judge(t, altered(t, larkfield(t), swap{series, c.reads}, swap{"tester:   {measures: insulation, accuracy: 5 %, ceiling: 1 GΩ}", "tester:   {measures: insulation, accuracy: 0.1 %, ceiling: 200 GΩ}"}))
		f, asked := fs["insulation-trend T1.primary – T1.plate"]
		if got := outcome(fs, "insulation-trend T1.primary – T1.plate"); got != c.outcome {
			t.Errorf("%s is %s, want %s", c.reads, got, c.outcome)
		}
		if asked && (f.Figure.Range.Low > c.ratio || f.Figure.Range.High < c.ratio || f.Figure.Range.High-f.Figure.Range.Low > 0.01*c.ratio) {
			t.Errorf("%s: ratio %s, want %g", c.reads, f.Figure.Range, c.ratio)
		}
	}
}

// No temperature correction lifts a low reading over a floor: 0.9 MΩ fails
// however hot the room was. Nor does one push a good reading under it.
func TestInsulationIsNotCorrected(t *testing.T) {
	for _, ambient := range []string{"10 °C", "22 °C", "40 °C"} {
		for reads, want := range map[string]string{"0.9 MΩ": "fail", "1.2 MΩ": "caution", "240 MΩ": "pass"} {
			fs := judge(t, altered(t, larkfield(t), swap{"ambient: 22 °C", "ambient: " + ambient}, swap{megLine, strings.Replace(megLine, "240 MΩ", reads, 1)}))
			if got := outcome(fs, "insulation-mains-chassis chassis"); got != want {
				t.Errorf("%s at %s is %s, want %s", reads, ambient, got, want)
			}
		}
	}
}

// TestWholeExample: nothing of this room stands against the whole example.
func TestWholeExample(t *testing.T) {
	for name, f := range judge(t, larkfield(t)) {
		if f.Outcome != "pass" && f.Outcome != "caution" {
			t.Errorf("%s is %s: %s %v", name, f.Outcome, f.Says, f.Needs)
		}
	}
}
