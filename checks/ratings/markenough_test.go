package ratings_test

import (
	"strings"
	"testing"
)

// A part whose mark is not told, or may not reach, is told which mark would.
func TestWhatIsBorneNamesTheMarkThatWouldDo(t *testing.T) {
	for _, c := range []struct{ part, rule, want string }{
		{"X1: {kind: resistor, value: 10 Ω, tolerance: 5 %, voltage: 500 V}", "line-part-power X1", "W here; at least that"},
		{"X1: {kind: choke, inductance: 1 mH, resistance: 1 Ω}", "line-part-current X1", "A here; at least that"},
	} {
		f := outcomes(t, inSeries(t, c.part, "X1"))[c.rule]
		text := ""
		for _, n := range f.Needs {
			text += n.What + ": " + n.How + "\n"
		}
		if f.Outcome != "unproven" || !strings.Contains(text, c.want) {
			t.Errorf("%s: %s, %s", c.part, f.Outcome, text)
		}
	}
}
