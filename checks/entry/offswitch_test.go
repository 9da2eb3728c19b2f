package entry_test

import (
	"testing"

	"firstvolt/checks/trial"
)

// TestWordsSwitchNothingOff: what a sheet calls its set or its parts takes no
// question off it that the wiring asks.
func TestWordsSwitchNothingOff(t *testing.T) {
	const transformer, onLine = "construction: transformer ", "construction: line-connected "
	for _, c := range []struct {
		name, figure, want string
		pairs              []string
	}{
		{"a transformer set called line-connected", "said-to-be-off-line chassis", "yes", []string{transformer, onLine}},
		{"the same, an arrester from hot to the chassis", "hot-joins-metal chassis", "yes", []string{transformer, onLine,
			"  T1:\n", "  G1: {kind: arrester}\n  T1:\n", groundRun, groundRun + "  - S1.2 -> G1 -> chassis\n"}},
		{"a line-connected set", "said-to-be-off-line chassis", "no", []string{transformer, onLine, groundRun, groundRun + "  - T1.2 -> chassis\n"}},
		{"a mains transformer called output-transformer", "load-across-line set", "no", []string{"kind: transformer", "kind: output-transformer"}},
		{"an output transformer beside the mains transformer", "load-across-line set", "no", []string{
			"  T1:\n", "  T2: {kind: output-transformer, windings: {primary: {ends: [1, 2]}, speech: {ends: [3, 4]}}}\n  T1:\n", groundRun, groundRun + "  - S1.2 -> T2.1\n  - T2.2 -> T1.2\n"}},
	} {
		got := computed(t, edit(t, trial.Sheet(t, "larkfield-six-forty"), c.pairs...))[c.figure]
		if says(got) != c.want {
			t.Errorf("%s: %s is %s, want %s (%s)", c.name, c.figure, says(got), c.want, got.Note)
		}
	}
}
