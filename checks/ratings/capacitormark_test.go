package ratings_test

import "testing"

// A capacitor across the line: class X or Y; one without any mark fails, one of
// which nobody says is unproven, and one marked below the mains fails whatever it is.
func TestMarkOfALineCapacitor(t *testing.T) {
	with := func(marks string) []string {
		return []string{"  T1:\n", "  C9: {kind: capacitor, value: 10 nF" + marks + "}\n  T1:\n", "  - T1.4 -> chassis\n", "  - T1.4 -> chassis\n  - T1.1 -> C9 -> T1.2\n"}
	}
	const class, volts = "line-capacitor-class C9", "safety-capacitor-voltage C9"
	tryChanges(t, larkfield(t), []change{
		{"X2", with(", class: X2, voltage: 275 V"), class, "pass"},
		{"Y2", with(", class: Y2, voltage: 250 V"), class, "pass"},
		{"none", with(", class: none, voltage: 630 V"), class, "fail"},
		{"none, and its volts", with(", class: none, voltage: 630 V"), volts, "unproven"},
		{"unsaid", with(", voltage: 630 V"), class, "unproven"},
		{"unsaid, and its volts", with(", voltage: 630 V"), volts, "unproven"},
		{"unsaid, and marked below the mains", with(", voltage: 63 V"), class, "fail"},
		{"unsaid, and its volts below the mains", with(", voltage: 63 V"), volts, "fail"},
		{"no mark of any kind", with(""), class, "unproven"},
		{"X2 for less", with(", class: X2, voltage: 100 V"), volts, "fail"},
		{"X2 of nobody knows how many volts", with(", class: X2"), volts, "unproven"},
	})
}

// What the sheet says of the house breaker counts in place of the region's.
func TestFuseBehindAHouseBreakerThatIsStated(t *testing.T) {
	const glass = "rating: 1 A, voltage: 250 V, speed: time-delay, standard: iec-60127, body: glass"
	text := altered(t, larkfield(t), "rating: 1 A, voltage: 250 V, speed: time-delay, standard: ul-248-14", glass)
	tryChanges(t, text, []change{
		{"unsaid, 15 A to 20 A", nil, "fuse-breaks-fault F1", "caution"},
		{"20 A", []string{"region: north-america", "region: north-america\n  branch: {rating: 20 A}"}, "fuse-breaks-fault F1", "caution"},
		{"32 A", []string{"region: north-america", "region: north-america\n  branch: {rating: 32 A}"}, "fuse-breaks-fault F1", "fail"},
	})
}
