package readings_test

import "testing"

// TestSwitchedOffAtEverySwitch: with two switches on the mains, a reading with
// one of them closed does not show the set switched off.
func TestSwitchedOffAtEverySwitch(t *testing.T) {
	two := func(state string) []swap {
		return []swap{
			{"  T1:\n", "  S2: {kind: switch, poles: 1}\n  M1: {kind: motor, voltage: 117 V, power: 10 W}\n  T1:\n"},
			{"  - T1.4 -> chassis\n", "  - T1.4 -> chassis\n  - S1.2 -> S2 -> M1.1\n  - M1.2 -> T1.2\n"},
			{"switches: open, reads: OL", state + ", reads: OL"},
		}
	}
	runRows(t, "plug-off-resistance plug", []row{
		{"both open", two("switches: open"), "pass"},
		{"the second not told", two("switches: {S1: open}"), "pass"},
		{"the first left closed", two("switches: {S1: closed, S2: open}"), "unproven"},
		{"the second left closed", two("switches: {S1: open, S2: closed}"), "unproven"},
	})
}
