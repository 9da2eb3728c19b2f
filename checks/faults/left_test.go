package faults_test

import (
	"testing"

	"firstvolt/checks/trial"
)

// TestLeftToBranch: a fault ahead of the fuse is left to the branch device where
// that opens, and to nothing where it does not: with the ground stopped on the
// bench, or far down a thin cord.
func TestLeftToBranch(t *testing.T) {
	text := trial.Altered(t, trial.Sheet(t, "larkfield-six-forty"),
		"    - {kind: gfci, form: receptacle, tested: 2026-11-20}\n", "",
		"{run: plug.hot -> F1.end, color: black}", "{run: plug.hot -> S1.1, color: black}",
		"  - F1.side -> S1 -> T1.1\n", "  - S1.2 -> T1.1\n",
		"{run: plug.neutral -> T1.2, color: white}", "{run: plug.neutral -> F1 -> T1.2, color: white}")
	for _, c := range []struct {
		what  string
		pairs []string
		left  bool
	}{
		{"as it is", nil, true},
		{"the ground stopped", []string{"{kind: variac, earth: through}", "{kind: variac, earth: broken}"}, false},
		{"a thin cord of 40 m", []string{"size: 18 AWG, length: 6 ft", "size: 24 AWG, length: 40 m"}, false},
	} {
		b := read(t, trial.Altered(t, text, c.pairs...))
		other := one(t, b, "touch-current-one-fault", "chassis").Range.High
		branch := one(t, b, "touch-current-left-to-branch", "chassis").Range.High
		if c.left != (other <= 5e-3) || c.left != (branch > 5e-3) {
			t.Errorf("%s: %g A left to the branch device, %g A to nothing", c.what, branch, other)
		}
	}
}
