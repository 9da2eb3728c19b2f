package ratings_test

import (
	"fmt"
	"strings"
	"testing"
)

// TestTooManyParts: what is more than is worked out is not known, and is over
// soon.
func TestTooManyParts(t *testing.T) {
	var parts, wires []string
	for i := range 300 {
		parts = append(parts, fmt.Sprintf("X%d: {kind: resistor, value: 1 MΩ, tolerance: 5 %%, power: 0.5 W, voltage: 350 V}", i))
		wires = append(wires, fmt.Sprintf("S1.2 -> X%d -> T1.2", i))
	}
	got := bearing(t, with(t, strings.Join(parts, "\n  "), wires...), "heaters")
	for i := range 300 {
		if o := got[fmt.Sprintf("line-part-power X%d", i)]; o != "unproven" && o != "pass" {
			t.Fatalf("X%d: %q", i, o)
		}
	}
	if got["line-part-power X299"] != "unproven" {
		t.Error("three hundred parts, and all worked out")
	}
}
