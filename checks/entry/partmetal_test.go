package entry_test

import (
	"strings"
	"testing"

	"firstvolt/checks/trial"
)

// TestMetalOnLine: the metal of an outlet, a motor and a filter in a set on two
// conductors, on a live chassis and in a bonded set.
func TestMetalOnLine(t *testing.T) {
	const (
		two, live  = "larchmere-compact", "copperbeck-five"
		outlet     = "O1: {kind: outlet, load: 1 W}"
		motor      = "O1: {kind: motor, voltage: 117 V, power: 5 W}"
		filter     = "O1: {kind: filter, current: 3 A, voltage: 250 V, leakage: 0.5 mA}"
		resistor   = "\n  R1: {kind: resistor, value: 1 MΩ}"
		capacitor  = "\n  C8: {kind: capacitor, value: 1 nF, class: Y1, voltage: 250 V}"
		chooses    = "\n  X1: {kind: selector, positions: {low: [[a, b]], high: [[a, c]]}, set: low}"
		throughTie = "\n  J8: {kind: tie}"
	)
	for name, c := range map[string]struct{ sheet, parts, run, want string }{
		"outlet free":                         {two, outlet, "O1.hot -> S1.2", "no"},
		"outlet on hot":                       {two, outlet, "O1.ground -> S1.2", "yes"},
		"outlet on hot ahead of the switch":   {two, outlet, "O1.ground -> S1.1", "yes"},
		"outlet on neutral through a tie":     {two, outlet + throughTie, "O1.ground -> J8 -> T1.2", "yes"},
		"outlet on the plate winding":         {two, outlet, "O1.ground -> T1.3", "yes"},
		"outlet through a protective one":     {two, outlet + resistor, "O1.ground -> R1 -> T1.1", "no"},
		"outlet through a class Y capacitor":  {two, outlet + capacitor, "O1.ground -> C8 -> T1.1", "no"},
		"outlet through a capacitor":          {two, outlet + "\n  C8: {kind: capacitor, value: 1 nF}", "O1.ground -> C8 -> T1.1", "unknown"},
		"outlet on hot in another position":   {two, outlet + chooses, "O1.ground -> X1.a, X1.c -> S1.2", "yes"},
		"outlet on the chassis":               {two, outlet, "O1.ground -> chassis", "no"},
		"outlet on a winding on the chassis":  {two, outlet, "O1.ground -> T1.4", "no"},
		"motor on hot":                        {two, motor, "O1.frame -> S1.2", "yes"},
		"motor through a tube":                {two, motor, "O1.frame -> V3.cathode, V3.plate -> T1.3", "yes"},
		"filter on hot":                       {two, filter, "O1.case -> T1.1", "yes"},
		"filter on nothing":                   {two, filter, "O1.line-in -> S1.2", "unknown"},
		"filter on the chassis":               {two, filter, "O1.case -> chassis", "no"},
		"outlet on a live chassis":            {live, outlet, "O1.ground -> chassis", "yes"},
		"outlet in a set with a live chassis": {live, outlet, "O1.hot -> J1", "no"},
		"outlet bonded":                       {"larkfield-six-forty", outlet, "O1.ground -> chassis", "no"},
		"outlet bonded, heater on it":         {"larkfield-six-forty", outlet, "O1.ground -> chassis, O1.ground -> T1.9", "no"},
		"outlet on hot in a bonded set":       {"larkfield-six-forty", outlet, "O1.ground -> T1.1", "yes"},
	} {
		got := says(computed(t, with(t, trial.Sheet(t, c.sheet), c.parts, c.run))["metal-on-line O1"])
		if got != c.want {
			t.Errorf("%s: %s, want %s", name, got, c.want)
		}
	}
}

// with is a sheet with more parts and more runs, these parted by commas.
func with(t testing.TB, text, parts, runs string) string {
	t.Helper()
	return edit(t, text, "\nparts:\n", "\nparts:\n  "+parts+"\n", "\nwiring:\n", "\nwiring:\n  - "+strings.ReplaceAll(runs, ", ", "\n  - ")+"\n")
}
