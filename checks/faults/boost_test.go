package faults_test

import (
	"strings"
	"testing"
)

// A variac that is set above its input raises what a hand may find: 140 V in place
// of 127 V make the current through the capacitors to the chassis 140/127 as much.
func TestVariacSetAboveItsInput(t *testing.T) {
	plain := strings.Replace(sheetsOf(t)["larkfield-six-forty.yaml"], "  - {run: plug.ground -> chassis, color: green, joint: own-screw, slack: longest}\n", "", 1)
	if !strings.Contains(plain, "{kind: variac, earth: through}") || strings.Contains(plain, "plug.ground -> chassis") {
		t.Fatal("the sheet is another one")
	}
	set := func(volts string) float64 {
		b := read(t, strings.Replace(plain, "{kind: variac, earth: through}", "{kind: variac, set: "+volts+", earth: through}", 1))
		return one(t, b, "touch-current", "chassis").Range.High
	}
	as := one(t, read(t, plain), "touch-current", "chassis").Range.High
	near(t, "set to its input", set("120 V"), as, 1e-9)
	near(t, "set to nothing", set("0 V"), as, 1e-9)
	near(t, "set to 140 V", set("140 V"), as*140/127, 0.02) // figures are rounded outwards
}
