package ratings_test

import (
	"testing"

	"firstvolt/rules"
)

// A capacitor to the chassis is one also through a neon lamp that strikes and
// through any number of further capacitors.
func TestCapacitorToChassisTheLongWay(t *testing.T) {
	paper := "{kind: capacitor, value: 1 µF, voltage: 250 V, body: paper}"
	for name, c := range map[string]struct{ parts, run string }{
		"neon":          {"  C9: " + paper + "\n  N9: {kind: neon, voltage: 65 V}\n", "S1.2 -> C9 -> N9 -> chassis"},
		"three in line": {"  C7: " + paper + "\n  C8: " + paper + "\n  C9: " + paper + "\n", "S1.2 -> C9 -> C8 -> C7 -> chassis"},
	} {
		t.Run(name, func(t *testing.T) {
			got := outcomes(t, altered(t, larkfield(t), "  T1:\n", c.parts+"  T1:\n", "  - T1.4 -> chassis\n", "  - T1.4 -> chassis\n  - "+c.run+"\n"))
			if o := got["chassis-capacitor-class C9"].Outcome; o != rules.Unproven {
				t.Errorf("class of C9: %q", o)
			}
			if o := got["chassis-capacitor-leakage chassis"].Outcome; o != rules.Fail {
				t.Errorf("leakage: %q", o)
			}
		})
	}
}
