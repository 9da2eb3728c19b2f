package ratings_test

import "testing"

// TestHeaterOfATypeNotKnown: what the handbook does not know of a tube, the sheet
// may tell, and it counts as a mark does.
func TestHeaterOfATypeNotKnown(t *testing.T) {
	heater := []string{"T1.8 -> V1 -> T1.9"}
	for _, c := range []struct{ keys, want string }{
		{"type: 6V6", "pass"},
		{"type: XQ7", "unproven"},
		{"type: XQ7, heater-voltage: 6.3 V", "unproven"},
		{"type: XQ7, heater-voltage: 6.3 V, heater-current: 0.3 A", "pass"},
		{"heater-voltage: 6.3 V, heater-current: 0.3 A", "pass"},
		{"type: XQ7, heater-voltage: 4 V, heater-current: 1 A", "fail"},
	} {
		if got := bearing(t, with(t, "V1: {kind: tube, "+c.keys+"}", heater...), "heaters")["winding-part-voltage V1"]; got != c.want {
			t.Errorf("%s: %q, want %q", c.keys, got, c.want)
		}
	}
}
