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

// TestProtectiveImpedanceBridged: a capacitor past one of the resistors lets
// current round it; with the other one shorted that is all there is.
func TestProtectiveImpedanceBridged(t *testing.T) {
	for _, c := range []struct {
		value, run string
		low, high  float64 // mA with one resistor shorted
	}{
		{"", "", 0.24, 0.29},                            // 127 V ÷ 470 kΩ ± 5 %
		{"100 pF", "B-minus -> C9 -> R1.2", 0.24, 0.29}, // 22 MΩ beside 470 kΩ
		{"10 nF", "B-minus -> C9 -> R1.2", 0.60, 0.66},  // 0.27 mA and 2π·60 Hz·12 nF·127 V = 0.57 mA, a quarter turn apart
		{"1 µF", "B-minus -> C9 -> R1.2", 57, 58},       // 2π·60 Hz·1.2 µF·127 V = 57.5 mA
		{"1 µF", "chassis -> C9 -> R1.2", 57, 58},
		{"1 µF", "J1 -> C9 -> R1.2", 57, 58},
		{"1 µF", "V1.grid -> C9 -> R1.2", 0.24, 0.29},    // leads nowhere
		{"1 µF", "B-minus -> C9 -> chassis", 0.24, 0.29}, // the matter of leakage
	} {
		part := "C9: {kind: tie}"
		if c.value != "" {
			part = "C9: {kind: capacitor, value: " + c.value + ", class: X2, voltage: 275 V}"
		}
		run := c.run
		if run == "" {
			run = "C9 -> J1"
		}
		f := computed(t, with(t, trial.Sheet(t, "teaselglen-three-way"), part, run))["impedance-current-one-shorted chassis"]
		if high := f.Range.High * 1e3; !f.Known() || !(high >= c.low && high <= c.high) {
			t.Errorf("%s %s: %v %v, want %g mA to %g mA", c.value, run, f.Range, f.Missing, c.low, c.high)
		}
	}
	unknown := computed(t, with(t, trial.Sheet(t, "teaselglen-three-way"), "C9: {kind: capacitor, class: X2}", "B-minus -> C9 -> R1.2"))
	if f := unknown["impedance-current-one-shorted chassis"]; !(f.Range.High > 1) {
		t.Errorf("of unknown value: %v", f.Range)
	}
}
