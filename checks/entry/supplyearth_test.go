package entry_test

import (
	"testing"

	"firstvolt/checks/bench"
	"firstvolt/checks/entry"
	"firstvolt/checks/sheet"
)

// TestSupplyEarth: only a supply that is known to be earthed gives the bond
// something to lead to.
func TestSupplyEarth(t *testing.T) {
	for stated, want := range map[string]string{"": "yes", "tn": "yes", "tt": "yes", "it": "unknown", "unknown": "unknown", "none": "no"} {
		text := example(t)
		if stated != "" {
			text = edit(t, text, "  plug: nema-5-15\n", "  plug: nema-5-15\n  earthing: "+stated+"\n")
		}
		s, problems := sheet.Read("test.yaml", []byte(text))
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		b := bench.New(s)
		for _, c := range entry.BenchChecks {
			if c.Def.Name != "supply-gives-earth" {
				continue
			}
			figures, _ := c.Run(b)
			if got := says(figures[0]); got != want {
				t.Errorf("earthing %q: %s, want %s", stated, got, want)
			}
		}
	}
}
