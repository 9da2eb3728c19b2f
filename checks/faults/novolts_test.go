package faults_test

import (
	"strings"
	"testing"
)

// A tap that lies where the end lies leaves the volts between them open, though
// the winding has its voltage: the two are named, and what is counted from where.
func TestTapAndEndClash(t *testing.T) {
	tapped := func(volts, taps string) string {
		return head + wires2 + "parts: {T1: {kind: transformer, windings: {primary: {ends: [0, 240], voltage: " + volts + ", taps: " + taps + "}}}, C1: {kind: capacitor, value: 15 nF, tolerance: 0 %}}\nwiring: [plug.hot -> T1.220, plug.neutral -> T1.0, T1.220 -> C1 -> chassis]\n"
	}
	for _, c := range []struct{ what, text, clash string }{
		{"as it should be", tapped("240 V", "{110: 110 V, 220: 220 V}"), ""},
		{"the volts of the tap for the whole", tapped("220 V", "{110: 110 V, 220: 220 V}"), "220 and 240 both lie at 220 V"},
		{"two taps at one place", tapped("240 V", "{110: 220 V, 220: 220 V}"), "110 and 220 both lie at 220 V"},
		{"a tap at the first end", tapped("240 V", "{110: 0 V, 220: 220 V}"), "0 and 110 both lie at 0 V"},
	} {
		f := one(t, read(t, c.text), "touch-current", "chassis")
		if c.clash == "" {
			if !f.Known() {
				t.Errorf("%s: %v", c.what, f.Missing)
			}
			continue
		}
		if len(f.Missing) != 1 || f.Missing[0].What != "T1.primary voltage" || !strings.HasPrefix(f.Missing[0].How, c.clash) || !strings.Contains(f.Missing[0].How, "from end to end") || !strings.HasSuffix(f.Missing[0].How, "count from its first end, 0") {
			t.Errorf("%s: %v", c.what, f.Missing)
		}
	}
}
