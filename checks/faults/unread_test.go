package faults_test

import (
	"slices"
	"strings"
	"testing"

	"firstvolt/checks/figure"
)

// Where nothing tells the insulation of the metal, what would is named: how the
// switches stood for a reading that is there, what it lacks, or the reading.
func TestWhatTellsTheInsulation(t *testing.T) {
	const reading = "{between: [plug.hot + plug.neutral, chassis], switches: closed, test: 500 V, reads: 100 GΩ, with: megger}"
	set := head + ground3 + `
parts: {S1: {kind: switch, poles: 2}, T1: {kind: transformer, windings: {primary: {ends: [1, 2], voltage: 120 V}}}}
wiring: [plug.hot -> S1.1, S1.2 -> T1.1, plug.neutral -> S1.3, S1.4 -> T1.2]
`
	if !strings.Contains(set, reading) {
		t.Fatal(set)
	}
	with := func(old, new string) string {
		return strings.Replace(set, reading, strings.Replace(reading, old, new, 1), 1)
	}
	for _, c := range []struct{ what, text, need, how string }{
		{"read", set, "", ""},
		{"how the switch stood is not told", with("switches: closed, ", ""), "how switches and selectors stood for the insulation reading of plug.hot + plug.neutral – chassis", "add switches:"},
		{"by no meter that is named", with(", with: megger", ""), "an insulation reading of plug.hot + plug.neutral – chassis that proves something", "no instrument"},
		{"switched off", with("switches: closed", "switches: open"), "insulation between both pins of the plug and chassis", "switches: closed"},
		{"not read", with(reading, ""), "insulation between both pins of the plug and chassis", "250 V or more"},
	} {
		f := one(t, read(t, c.text), "touch-current", "chassis")
		if !f.Known() {
			t.Fatal(c.what, f.Missing)
		}
		if c.need == "" {
			if len(f.Settle) > 0 {
				t.Errorf("%s: %v", c.what, f.Settle)
			}
			continue
		}
		if !slices.ContainsFunc(f.Settle, func(n figure.Need) bool { return n.What == c.need && strings.Contains(n.How, c.how) }) {
			t.Errorf("%s: %v", c.what, f.Settle)
		}
	}
}
