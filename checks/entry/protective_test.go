package entry_test

import (
	"testing"

	"firstvolt/checks/trial"
)

// TestProtectiveImpedanceFromTheRail: resistors to touchable metal count from
// where a rectified line reaches them, not from the far end of the chain.
func TestProtectiveImpedanceFromTheRail(t *testing.T) {
	const resistors = "\n  R8: {kind: resistor, value: 1 MΩ, tolerance: 5 %, power: 0.5 W, voltage: 350 V}\n  R9: {kind: resistor, value: 1 MΩ, tolerance: 5 %, power: 0.5 W, voltage: 350 V}"
	for name, c := range map[string]struct {
		sheet, runs string
		parts       float64
	}{
		"two from neutral":                      {"copperbeck-five", "Post9 -> R8 -> R9 -> plug.neutral", 2},
		"a tube's rail between them":            {"copperbeck-five", "Post9 -> R8 -> R9 -> plug.neutral, R8.2 -> V5.cathode", 1},
		"two from a tube's rail":                {"copperbeck-five", "Post9 -> R8 -> R9 -> V5.cathode", 2},
		"silicon's rail between them":           {"hexworthy-heater-box", "Post9 -> R8 -> R9 -> chassis, R8.2 -> D1.cathode", 1},
		"a tube's rail between them, ganged in": {"teaselglen-three-way", "Post9 -> R8 -> R9 -> B-minus, R8.2 -> V5.cathode", 1},
	} {
		all := computed(t, with(t, trial.Sheet(t, c.sheet), "Post9: {kind: body}"+resistors, c.runs))
		f, ok := all["impedance-components Post9"]
		if !ok || !f.Known() || f.Range.Low != c.parts {
			t.Errorf("%s: %v %v, want %g", name, f.Range, f.Missing, c.parts)
		}
	}
}
