package ratings_test

import (
	"testing"

	"firstvolt/checks/trial"
)

// TestTappedHeater: the two pieces of a tapped heater are one heater, and the
// piece with the panel lamp is the small one.
func TestTappedHeater(t *testing.T) {
	base := altered(t, trial.Sheet(t, "copperbeck-five"), "  - J1 -> V5.plate\n", "  - V5.h-tap -> V5.plate\n")
	lamp := func(volts, wire string) []string {
		return []string{"  V5: {", "  PL: {kind: lamp, voltage: " + volts + ", current: 150 mA}\n  V5: {", "  - V5.h-tap -> V5.plate\n", "  - V5.h-tap -> V5.plate\n  - " + wire + "\n"}
	}
	const near, far = "V5.h1 -> PL -> V5.h-tap", "V5.h2 -> PL -> V5.h-tap"
	tryChanges(t, base, []change{
		{"no lamp", nil, "line-part-voltage V1", "pass"},
		{"with its lamp, a tube beside", lamp("6.3 V", near), "line-part-voltage V1", "pass"},
		{"with its lamp, the lamp's volts", lamp("6.3 V", near), "line-part-voltage PL", "pass"},
		{"with its lamp, the lamp's amperes", lamp("6.3 V", near), "line-part-current PL", "pass"},
		{"a lamp of too few volts", lamp("2.5 V", near), "line-part-voltage PL", "fail"},
		{"the other end called so", lamp("6.3 V", far), "line-part-voltage V1", "pass"},
		{"a lamp at either end: which is small, nobody knows", append(lamp("6.3 V", near+"\n  - "+"V5.h2 -> P2 -> V5.h-tap"),
			"  V4: {", "  P2: {kind: lamp, voltage: 6.3 V, current: 150 mA}\n  V4: {"), "line-part-voltage PL", "unproven"},
	})
}
