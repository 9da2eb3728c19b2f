package ratings_test

import "testing"

// A cord thinner than the thinnest of the table carries no more than that one:
// what is too much for that is certainly too much, and less is not known.
func TestCordBelowTheTable(t *testing.T) {
	for _, c := range []struct{ size, fuse, cord, run string }{
		{"30 AWG", "3 A", "fail", "fail"},
		{"22 AWG", "2.1 A", "fail", "fail"},
		{"22 AWG", "1 A", "unproven", "unproven"},
		{"0.2 mm²", "3 A", "fail", "fail"},
		{"20 AWG", "1 A", "pass", "pass"},
	} {
		got := outcomes(t, altered(t, larkfield(t), "rating: 1 A, voltage: 250 V", "rating: "+c.fuse+", voltage: 250 V",
			"size: 18 AWG", "size: "+c.size))["cord-outlasts-fuse cord"].Outcome
		if string(got) != c.cord {
			t.Errorf("cord of %s on %s: %s, want %s", c.size, c.fuse, got, c.cord)
		}
		got = outcomes(t, altered(t, larkfield(t), "rating: 1 A, voltage: 250 V", "rating: "+c.fuse+", voltage: 250 V",
			"  - F1.side -> S1 -> T1.1\n", "  - {run: F1.side -> S1 -> T1.1, size: "+c.size+"}\n"))["run-carries-fuse set"].Outcome
		if string(got) != c.run {
			t.Errorf("run of %s on %s: %s, want %s", c.size, c.fuse, got, c.run)
		}
	}
}
