package faults_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"firstvolt/checks/faults"
	"firstvolt/checks/mains"
)

// manySwitches is a bonded set with so many switches side by side, behind each a
// capacitor to a knob of its own, or in a row.
func manySwitches(n int, row bool) string {
	var parts, wires strings.Builder
	last := "F1.2"
	for i := range n {
		fmt.Fprintf(&parts, ", S%d: {kind: switch, poles: 1}", i)
		if row {
			fmt.Fprintf(&wires, ", %s -> S%d.1", last, i)
			last = fmt.Sprintf("S%d.2", i)
			continue
		}
		fmt.Fprintf(&parts, ", C%d: {kind: capacitor, value: 1 nF, class: Y1, voltage: 250 V}, B%d: {kind: body}", i, i)
		fmt.Fprintf(&wires, ", F1.2 -> S%d -> T1.1, S%d.2 -> C%d -> B%d", i, i, i, i)
	}
	if row {
		fmt.Fprintf(&wires, ", %s -> T1.1", last)
	}
	return head + ground3 + "parts: {" + fuse + ", T1: {kind: transformer, windings: {primary: {ends: [1, 2], voltage: 120 V}}}" + parts.String() +
		"}\nwiring: [plug.hot -> F1.1, plug.neutral -> T1.2, plug.ground -> chassis" + wires.String() + "]\n"
}

// TestBudget: what has more cases than are computed is unproven and says so, and
// the table is refused with the count and what to narrow; nothing is done half.
func TestBudget(t *testing.T) {
	for _, c := range []struct {
		what           string
		text           string
		judged, tabled bool
	}{
		{"three switches and knobs", manySwitches(3, false), true, true},
		{"seven switches and knobs", manySwitches(7, false), false, false},
		{"ten switches and knobs", manySwitches(10, false), false, false},
		{"eight switches in a row", manySwitches(8, true), true, false},
	} {
		b := read(t, c.text)
		f := one(t, b, "touch-current-one-fault", "chassis")
		if f.Known() != c.judged || !c.judged && !has(f.Missing, "not computed: ") {
			t.Errorf("%s: %s, missing %v", c.what, f.Range, f.Missing)
		}
		_, err := faults.Table(b)
		var many *mains.TooMany
		if (err == nil) != c.tabled || err != nil && (!errors.As(err, &many) || many.Cases > 0 && many.Cases < 30_000) {
			t.Errorf("%s: %v", c.what, err)
		}
		if _, err := faults.Layers(b); (err == nil) != c.tabled {
			t.Errorf("%s: %v", c.what, err)
		}
	}
}
