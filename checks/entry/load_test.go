package entry_test

import (
	"testing"

	"firstvolt/checks/trial"
)

// TestLoadIsTheTransformer: in a transformer set a motor on the line is no
// primary on the line.
func TestLoadIsTheTransformer(t *testing.T) {
	text := trial.Sheet(t, "furkastein-truhe")
	for _, c := range []struct {
		name  string
		pairs []string
		want  string
	}{
		{"as it is", nil, "yes"},
		{"the primary left off neutral", []string{"  - Si.side -> S1 -> NT.1\n", "  - Si.side -> S1 -> J1\n", "  M1: {kind: motor", "  J1: {kind: tie}\n  M1: {kind: motor"}, "no"},
	} {
		got := computed(t, edit(t, text, c.pairs...))["load-across-line set"]
		if says(got) != c.want {
			t.Errorf("%s: %s, want %s (%s)", c.name, says(got), c.want, got.Note)
		}
	}
}
