package entry_test

import (
	"fmt"
	"strings"
	"testing"
)

// With more selector positions than are tried one by one no question about
// the way of the mains is answered by what was tried; what is found all the
// same, and what hangs on no selector, stands.
func TestTooManySelectors(t *testing.T) {
	parts, runs := "  T1:\n", groundRun
	var positions []string
	for i := range 33 {
		positions = append(positions, fmt.Sprintf("p%d: [[1, %d]]", i, 2+i%2))
	}
	for _, n := range []string{"a", "b"} { // 33 × 33
		parts = "  SEL" + n + ": {kind: selector, positions: {" + strings.Join(positions, ", ") + "}}\n" + parts
		runs += "  - T1.8 -> SEL" + n + ".1\n  - T1.9 -> SEL" + n + ".2\n"
	}
	got := computed(t, edit(t, example(t), "  T1:\n", parts, groundRun, runs, "  T1:\n", "  A1: {kind: body}\n  R1: {kind: resistor, value: 1 MΩ}\n  T1:\n", switchRun, switchRun+"  - S1.2 -> R1 -> A1\n"))
	for k, want := range map[string]string{
		"hot-without-fuse set": "unknown", "approved-part-ahead-of-fuse set": "unknown", "switch-ahead-of-fuse set": "unknown",
		"switch-behind-fuse set": "unknown", "hot-past-open-switch set": "unknown", "neutral-reaches-load set": "unknown",
		"dead-short set": "unknown", "load-across-line set": "unknown", "line-conductors-opened set": "unknown", "line-conductors-fused set": "unknown",
		"impedance-to-line A1": "yes", "impedance-to-line chassis": "unknown", "impedance-components A1": "unknown", "impedance-current-one-shorted A1": "unknown",
		"hot-joins-metal chassis": "unknown", "touchable-part-on-live-chassis A1": "unknown",
		"ground-by-wire chassis": "yes", "color-on-another-duty cord": "no",
	} {
		if says(got[k]) != want {
			t.Errorf("%s: %s, want %s", k, says(got[k]), want)
		}
		if f := got[k]; want == "unknown" && len(f.Missing) == 0 {
			t.Errorf("%s: nothing would settle it", k)
		}
	}
}
