package ratings_test

import (
	"strings"
	"testing"

	"firstvolt/rules"
)

// A unit of the bench chain whose ratio is not on the sheet may step up: what
// rests on the volts at the set is then not known, whatever it was with it.
func TestStepUnitOfUnknownRatio(t *testing.T) {
	unit := func(ratio string) string {
		return strings.Replace(altered(t, larkfield(t), "{kind: variac, earth: through}", "{kind: autotransformer, RATIO, fits: one-way, earth: through}"), "RATIO, ", ratio, 1)
	}
	known, unknown := outcomes(t, unit("ratio: 2, ")), outcomes(t, unit(""))
	for _, name := range []string{"winding-voltage-fits-supply T1.primary", "frequency-fits-supply set", "switch-rating S1"} {
		if got := known[name].Outcome; got != rules.Fail {
			t.Errorf("at twice the supply %s is %s", name, got)
		}
	}
	for _, name := range []string{"winding-voltage-fits-supply T1.primary", "frequency-fits-supply set", "switch-rating S1", "fuse-voltage F1",
		"safety-capacitor-voltage C1", "chassis-capacitor-class C1", "chassis-capacitor-leakage chassis"} {
		f := unknown[name]
		if f.Outcome != rules.Unproven || len(f.Needs) == 0 {
			t.Errorf("at an unknown part of the supply %s is %s, needs %v", name, f.Outcome, f.Needs)
		}
	}
}
