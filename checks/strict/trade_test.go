package strict

import (
	"slices"
	"strings"
	"testing"
)

// What the trade says is looked up where the word may stand, before what only
// looks alike.
func TestTrade(t *testing.T) {
	tube, metal := []string{"h1", "h2", "plate", "screen", "grid", "cathode"}, []string{"anode", "cathode"}
	speeds := []string{"fast", "time-delay"}
	for _, c := range []struct {
		said     string
		official []string
		want     string
	}{
		{"a", tube, "plate"}, {"a", metal, "anode"}, {"a1", []string{"h1", "h2", "plate-1", "plate-2"}, "plate-1"},
		{"k", tube, "cathode"}, {"g2", tube, "screen"}, {"g3", tube, ""}, {"f1", tube, "h1"},
		{"anti-surge", speeds, "time-delay"}, {"Time Lag", speeds, "time-delay"}, {"time_lag", speeds, "time-delay"}, {"timedelay", speeds, "time-delay"}, {"medium", speeds, ""},
		{"n", []string{"hot", "neutral", "ground"}, "neutral"}, {"n", []string{"neutral-in", "case"}, ""},
		{"on", []string{"open", "closed"}, "closed"}, {"aus", []string{"open", "closed"}, "open"}, {"made", []string{"open", "closed"}, "closed"}, {"broken", []string{"open", "closed"}, "open"},
		{"volume-control", []string{"toggle", "slide", "rotary", "on-control"}, "on-control"},
	} {
		if got := Likely(c.said, c.official); got != c.want {
			t.Errorf("%s among %v: %q, want %q", c.said, c.official, got, c.want)
		}
	}
}

// A row that says its own word, or one twice, or in capitals, would never count.
func TestTradeRows(t *testing.T) {
	for _, row := range trade {
		said := strings.Fields(row.said)
		for i, w := range said {
			if w == row.word || w != strings.ToLower(w) || strings.Contains(w, "_") || slices.Contains(said[:i], w) {
				t.Errorf("%s: %q", row.word, w)
			}
		}
	}
}
