package ratings_test

import "testing"

// A varistor is marked with the volts that it stands all day, an arrester with
// those at which it strikes: beside the line at its highest (127 V) or its
// peak (179.6 V).
func TestSuppressorVoltage(t *testing.T) {
	with := func(part, run string, more ...string) []string {
		return append([]string{"F1.side -> S1 -> T1.1", run + "\n  - F1.side -> S1 -> T1.1", c1, c1 + "\n  V1: {kind: " + part + "}\n  V2: {kind: arrester, voltage: 90 V}\n  J1: {kind: tie}",
			"- T1.4 -> chassis", "- T1.4 -> chassis\n  - V2.1 -> J1\n  - T1.6 -> V2.2"}, more...)
	}
	const across, metal = "F1.side -> V1 -> plug.neutral", "S1.2 -> V1 -> chassis"
	tryChanges(t, larkfield(t), []change{
		{"150 V across the line", with("varistor, voltage: 150 V", across), "suppressor-voltage V1", "pass"},
		{"the mains at its highest", with("varistor, voltage: 127 V", across), "suppressor-voltage V1", "pass"},
		{"a little below", with("varistor, voltage: 126 V", across), "suppressor-voltage V1", "fail"},
		{"a span about it", with("varistor, voltage: 120 V to 150 V", across), "suppressor-voltage V1", "unproven"},
		{"95 V across the line", with("varistor, voltage: 95 V", across), "suppressor-voltage V1", "fail"},
		{"95 V from line to chassis", with("varistor, voltage: 95 V", metal), "suppressor-voltage V1", "fail"},
		{"95 V from neutral to chassis", with("varistor, voltage: 95 V", "T1.2 -> V1 -> chassis"), "suppressor-voltage V1", "fail"},
		{"95 V across the switch", with("varistor, voltage: 95 V", "S1.1 -> V1 -> S1.2"), "suppressor-voltage V1", "fail"},
		{"150 V from line to chassis", with("varistor, voltage: 150 V", metal), "suppressor-voltage V1", "pass"},
		{"not marked", with("varistor", across), "suppressor-voltage V1", "unproven"},
		{"in the secondary", with("varistor, voltage: 95 V", "T1.3 -> V1 -> T1.5"), "suppressor-voltage V1", ""},
		{"in the secondary, by its own rule", with("varistor, voltage: 95 V", "T1.3 -> V1 -> T1.5"), "winding-part-voltage V1", "fail"},
		{"measured mains above", with("varistor, voltage: 130 V", across, "voltage: 121 V ", "voltage: 133 V "), "suppressor-voltage V1", "fail"},
		{"an arrester that strikes above the peak", with("arrester, voltage: 180 V", across), "suppressor-voltage V1", "pass"},
		{"an arrester that strikes below the peak", with("arrester, voltage: 150 V", across), "suppressor-voltage V1", "fail"},
		{"an arrester that is not marked", with("arrester", metal), "suppressor-voltage V1", "unproven"},
		{"a step-up unit of unknown ratio", with("varistor, voltage: 150 V", across, "    - {kind: variac, earth: through}", "    - {kind: variac, earth: through}\n    - {kind: autotransformer, fits: one-way}"), "suppressor-voltage V1", "unproven"},
		// Two in series stand the line if either does.
		{"a low varistor before an arrester", with("varistor, voltage: 95 V", "F1.side -> V1 -> J1", "T1.6 -> V2.2", "plug.neutral -> V2.2", "arrester, voltage: 90 V", "arrester, voltage: 230 V"), "suppressor-voltage V1", "pass"},
		{"both low", with("varistor, voltage: 95 V", "F1.side -> V1 -> J1", "T1.6 -> V2.2", "plug.neutral -> V2.2"), "suppressor-voltage V1", "fail"},
		{"low, and the other not marked", with("varistor, voltage: 95 V", "F1.side -> V1 -> J1", "T1.6 -> V2.2", "plug.neutral -> V2.2", "arrester, voltage: 90 V", "arrester"), "suppressor-voltage V1", "unproven"},
		{"an approved capacitor is no suppressor", nil, "suppressor-voltage C1", ""},
	})
}
