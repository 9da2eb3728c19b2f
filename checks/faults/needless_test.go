package faults_test

import (
	"strings"
	"testing"
)

// TestNoNeedlessAlarm: a fault that the branch device opens where the fuse is
// slower than allowed is left to it, not held; behind a floating isolating
// transformer the first fault closes no circuit; a unit that does not say what
// it does with the ground leaves the answer open.
func TestNoNeedlessAlarm(t *testing.T) {
	const gfci = "    - {kind: gfci, form: receptacle, tested: 2026-11-20}\n"
	text := sheetsOf(t)["larkfield-six-forty.yaml"]
	slow := strings.Replace(strings.Replace(text, gfci, "", 1), "rating: 1 A", "rating: 2 A", 1)
	for what, c := range map[string]struct {
		text  string
		known bool
	}{
		"2 A on the branch device":  {slow, true},
		"isolated":                  {strings.Replace(text, gfci, "    - {kind: isolating-transformer, secondary: floating, earth: through}\n", 1), true},
		"isolated, floating or not": {strings.Replace(text, gfci, "    - {kind: isolating-transformer, earth: through}\n", 1), false},
		"a unit of no word":         {strings.Replace(strings.Replace(text, gfci, "", 1), "{kind: variac, earth: through}", "{kind: variac}", 1), false},
	} {
		f := one(t, read(t, c.text), "fault-that-stays", "set")
		if f.Known() != c.known || c.known && *f.Present {
			t.Errorf("%s: known %t, present %v, %s", what, f.Known(), f.Present, f.Note)
		}
	}
	if f := one(t, read(t, slow), "fault-left-to-branch", "set"); f.Present == nil || !*f.Present {
		t.Error("2 A: nothing is left to the branch device")
	}
}
