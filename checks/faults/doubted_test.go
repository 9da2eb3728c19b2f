package faults_test

import (
	"strings"
	"testing"

	"firstvolt/checks/trial"
)

// TestReadingThatProvesNothing: a bad reading whose meter is not known, or its
// accuracy, or its test, is no better than with them.
func TestReadingThatProvesNothing(t *testing.T) {
	set := head + ground3 + `
parts: {Knob: {kind: body}, Lug: {kind: tie}, R1: {kind: resistor, value: 1 kΩ}}
wiring: [plug.hot -> R1 -> plug.neutral, plug.ground -> chassis, Knob -> Lug]
`
	const (
		megger = "megger: {measures: insulation, accuracy: 0 %, ceiling: 200 GΩ}"
		good   = "{between: [plug.hot + plug.neutral, chassis], switches: closed, test: 500 V, reads: 100 GΩ, with: megger}"
		bad    = "{between: [plug.hot + plug.neutral, Knob], switches: closed, test: 500 V, reads: 20 kΩ, with: megger}"
		farads = "{between: [plug.hot + plug.neutral, Knob], switches: closed, reads: 300 nF, with: cmeter}"
	)
	set = trial.Altered(t, set, megger, megger+", cmeter: {measures: capacitance, accuracy: 1 %}")
	for what, c := range map[string]struct{ reading, list string }{
		"insulation of the Knob":    {bad, good + ", " + bad},
		"insulation of the chassis": {strings.Replace(bad, "Knob", "chassis", 1), good + ", " + strings.Replace(bad, "Knob", "chassis", 1)},
		"capacitance of the Knob":   {farads, good + "]\n  capacitance: [" + farads},
	} {
		metal := what[strings.LastIndex(what, " ")+1:]
		text := trial.Altered(t, set, good, c.list)
		if metal == "chassis" {
			text = trial.Altered(t, text, ", plug.ground -> chassis", ", chassis -> Lug")
		}
		at := func(pairs ...string) float64 {
			return one(t, read(t, trial.Altered(t, text, pairs...)), "touch-current", metal).Range.High
		}
		less := strings.Replace(c.reading, ", with: megger", "", 1)
		less = strings.Replace(less, ", with: cmeter", "", 1)
		known := at()
		if !(known > 0.5e-3) || !(at(c.list, strings.Replace(c.list, c.reading, less, 1)) >= known) {
			t.Errorf("%s: %g A, without its meter %g A", what, known, at(c.list, strings.Replace(c.list, c.reading, less, 1)))
		}
		if strings.HasPrefix(what, "capacitance") {
			if x := at("accuracy: 1 %", "calibrated: 2026-01-01"); !(x >= known) {
				t.Errorf("%s: %g A, without the accuracy %g A", what, known, x)
			}
			continue
		}
		for _, test := range []string{"", "test: 100 V, "} {
			if x := at(c.reading, strings.Replace(c.reading, "test: 500 V, ", test, 1)); !(x >= known) {
				t.Errorf("%s: %g A, with %q as its test %g A", what, known, test, x)
			}
		}
	}
}

// TestUnreadInsulation: broken down, insulation that nobody read may short what
// a hand would find; it is then taken as perfect as well.
func TestUnreadInsulation(t *testing.T) {
	text := trial.Altered(t, trial.Sheet(t, "copperbeck-five"),
		"V1 -> V3 -> chassis", "V1 -> V3 -> C2.plus", "plug.neutral -> chassis", "plug.neutral -> C2.plus",
		"J1 -> C1 -> chassis", "J1 -> C1 -> C2.plus", "V5.cathode -> C2 -> chassis", "V5.cathode -> chassis\n  - C2.minus -> C2.plus",
		"Aerial -> C9 -> chassis", "Aerial -> C9 -> C2.plus")
	unread := trial.Altered(t, text, "reads: 600 MΩ, with: tester", "reads: 600 MΩ")
	for _, metal := range []string{"chassis", "Aerial"} {
		was := one(t, read(t, text), "touch-current-one-fault", metal).Range
		is := one(t, read(t, unread), "touch-current-one-fault", metal).Range
		if !(was.High > 50e-3) || !(is.High >= was.High) {
			t.Errorf("%s: %s, and %s with insulation that nobody read", metal, was, is)
		}
	}
}
