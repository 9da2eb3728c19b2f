package faults_test

import (
	"strings"
	"testing"
)

// TestBehindWindings: what hangs on a winding beside the chassis is not known
// where the winding's volts are not, where a rectifier or something that
// strikes brings it there; a load of unknown ohms across a winding does not
// pull its volts down.
func TestBehindWindings(t *testing.T) {
	set := func(plate, to, more string) string {
		return head + ground3 + `
parts: {Knob: {kind: body}, T1: {kind: transformer, windings: {primary: {ends: [1, 2], voltage: 120 V}, plate: {ends: [3, 4]` + plate + `}}}` + more + `}
wiring: [plug.hot -> T1.1, plug.neutral -> T1.2, plug.ground -> chassis, T1.4 -> chassis, ` + to + `]
`
	}
	for _, c := range []struct{ what, text, missing string }{
		{"volts not known", set("", "T1.3 -> Knob", ""), "T1.plate voltage"},
		{"rectified", set(", voltage: 300 V", "T1.3 -> D1 -> Knob", ", D1: {kind: rectifier, of: silicon}"), "the current that a rectifier or a part that strikes brings to Knob"},
		{"struck", set(", voltage: 300 V", "T1.3 -> Z1 -> Knob", ", Z1: {kind: varistor, voltage: 100 V}"), "the current that a rectifier or a part that strikes brings to Knob"},
	} {
		f := one(t, read(t, c.text), "touch-current", "Knob")
		if f.Known() || len(f.Missing) == 0 || f.Missing[0].What != c.missing {
			t.Errorf("%s: %s, missing %v; want missing %q", c.what, f.Range, f.Missing, c.missing)
		}
	}
	known := one(t, read(t, set(", voltage: 300 V", "T1.3 -> Knob", "")), "touch-current", "Knob")
	loaded := one(t, read(t, set(", voltage: 300 V", "T1.3 -> Knob, T1.3 -> R1 -> T1.4", ", R1: {kind: resistor}")), "touch-current", "Knob")
	if !known.Known() || !loaded.Known() || !(loaded.Range.High >= known.Range.High) || !(known.Range.High > 0.1) {
		t.Errorf("%s, and with a load of unknown ohms %s", known.Range, loaded.Range)
	}
	// A varistor for more than the winding's peak does not strike.
	quiet := one(t, read(t, set(", voltage: 300 V", "T1.3 -> Z1 -> Knob", ", Z1: {kind: varistor, voltage: 510 V}")), "touch-current", "Knob")
	if !quiet.Known() {
		t.Errorf("a varistor for more than the peak: missing %v", quiet.Missing)
	}
	if strings.Contains(known.Note, "nothing opens") {
		t.Error(known.Note)
	}
}
