package ratings_test

import "testing"

// Taps of 210, 230 and 250 V at 230 V: what was measured counts, unsaid the
// whole span of the region.
func TestTapForTheSupplyAsMeasured(t *testing.T) {
	measured := func(volts string) []string {
		return []string{"plug: bs-1363", "plug: bs-1363\n  voltage: " + volts}
	}
	set := func(position string, with ...string) []string {
		return append([]string{"set: high", "set: " + position}, with...)
	}
	const tap, winding, frequency = "tap-fits-supply T1.primary", "winding-voltage-fits-supply T1.primary", "frequency-fits-supply set"
	text := altered(t, selectorSet(t), "{A: 110 V, B: 220 V}, voltage: 240 V", "{A: 210 V, B: 230 V}, voltage: 250 V", "voltage: 240 V, frequency", "voltage: 230 V, frequency")
	tryChanges(t, text, []change{
		{"250 V on 250 V", measured("250 V"), tap, "pass"},
		{"250 V on 250 V, and its winding", measured("250 V"), winding, "pass"},
		{"250 V on 250 V, and its iron", measured("250 V"), frequency, "pass"},
		{"230 V on 250 V", set("mid", measured("250 V")...), tap, "fail"},
		{"230 V on 241 V", set("mid", measured("241 V")...), tap, "fail"},
		{"230 V on 239 V", set("mid", measured("239 V")...), tap, "pass"},
		{"230 V on 240 V is as near", set("mid", measured("240 V")...), tap, "caution"},
		{"250 V on 230 V", measured("230 V"), tap, "caution"},
		{"210 V on 230 V", set("low", measured("230 V")...), tap, "fail"},
		{"230 V on 207 V to 253 V, no more than a tenth over", set("mid"), tap, "caution"},
		{"250 V on 207 V to 253 V", nil, tap, "caution"},
		{"210 V on 207 V to 253 V", set("low"), tap, "unproven"},
		{"230 V where 230 V to 242 V were read", set("mid", measured("230 V to 242 V")...), tap, "caution"},
	})
}

// A variac says where it will stand: then that counts for the primary, else all
// that it gets. It can be turned up, which is a caution.
func TestVariacThatIsSet(t *testing.T) {
	const tap, winding, frequency = "tap-fits-supply T1.primary", "winding-voltage-fits-supply T1.primary", "frequency-fits-supply set"
	at := func(set string) []string {
		return []string{"kind: variac, earth: through", "kind: variac, earth: through" + set}
	}
	text := altered(t, selectorSet(t), "set: high", "set: low", "voltage: 240 V, frequency", "voltage: 110 V, frequency")
	tryChanges(t, text, []change{
		{"at 110 V", at(", set: 110 V"), winding, "pass"},
		{"at 110 V, and the tap", at(", set: 110 V"), tap, "caution"},
		{"at 110 V, and the iron", at(", set: 110 V"), frequency, "pass"},
		{"at 121 V", at(", set: 121 V"), winding, "pass"},
		{"at 122 V", at(", set: 122 V"), winding, "fail"},
		{"at 122 V, and the iron", at(", set: 122 V"), frequency, "fail"},
		{"at 210 V", at(", set: 210 V"), tap, "fail"},
		{"nobody says", nil, winding, "fail"},
		{"nobody says, and the tap", nil, tap, "fail"},
	})
	plain := larkfield(t)
	tryChanges(t, plain, []change{
		{"turned past the supply", at(", set: 140 V"), winding, "fail"},
		{"as the supply", at(", set: 121 V"), winding, "pass"},
		{"does not take a fuse's volts away", append(at(", set: 20 V"), "rating: 1 A, voltage: 250 V", "rating: 1 A, voltage: 32 V"), "fuse-voltage F1", "fail"},
	})
}
