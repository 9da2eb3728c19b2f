package ratings_test

import (
	"testing"

	"firstvolt/rules"
)

// Two fuses side by side open at the sum of their ratings; two in a row, or
// one in each line conductor, at each its own.
func TestFusesSideBySide(t *testing.T) {
	second := func(rating, runs string) string {
		return altered(t, larkfield(t), "  T1:\n", "  F2: {kind: fuse, rating: "+rating+", voltage: 250 V, speed: time-delay, standard: ul-248-14, holder: clips}\n  T1:\n",
			"  - F1.side -> S1 -> T1.1\n", runs)
	}
	const parallel, row = "  - F1.side -> S1 -> T1.1\n  - F1.end -> F2 -> F1.side\n", "  - F1.side -> F2 -> S1.1\n  - S1.2 -> T1.1\n"
	for _, c := range []struct {
		name, text string
		want       rules.Outcome
	}{
		{"in a row", second("1 A", row), rules.Pass},
		{"side by side", second("1.5 A", parallel), rules.Fail},
		{"side by side, turned", second("1.5 A", "  - F1.side -> S1 -> T1.1\n  - F1.side -> F2 -> F1.end\n"), rules.Fail},
	} {
		for _, fuse := range []string{"F1", "F2"} {
			if f := outcomes(t, c.text)["fuse-size "+fuse]; f.Outcome != c.want {
				t.Errorf("%s: %s is %s, want %s: %s", c.name, fuse, f.Outcome, c.want, f.Says)
			}
		}
	}
}
