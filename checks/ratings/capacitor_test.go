package ratings_test

import (
	"testing"

	"firstvolt/checks/handbook"
)

const c1 = "C1: {kind: capacitor, value: 4.7 nF, class: Y2, voltage: 250 V}"

func TestCapacitorClasses(t *testing.T) {
	const unbonded = "- {run: plug.ground -> chassis, color: green, joint: own-screw, slack: longest}"
	across := []string{"S1.2 -> C1 -> chassis", "S1.2 -> C1 -> plug.neutral"}
	loose := []string{unbonded, "- {run: plug.ground -> T1.S, color: green}", "kind: transformer\n", "kind: transformer\n    shield: S\n"}
	class := func(to string, more ...string) []string { return append([]string{c1, to}, more...) }
	tryChanges(t, larkfield(t), []change{
		{"Y2 to the bonded chassis", nil, "chassis-capacitor-class C1", "pass"},
		{"and nothing else asked", nil, "accessible-capacitor-class C1", ""},
		{"nor across the line", nil, "line-capacitor-class C1", ""},
		{"X2 to the chassis", class("C1: {kind: capacitor, value: 4.7 nF, class: X2, voltage: 275 V}"), "chassis-capacitor-class C1", "fail"},
		{"no class on the sheet", class("C1: {kind: capacitor, value: 4.7 nF, voltage: 250 V}"), "chassis-capacitor-class C1", "unproven"},
		{"an electrolytic", class("C1: {kind: electrolytic, value: 8 µF, voltage: 450 V}"), "chassis-capacitor-class C1", "fail"},
		{"X2 across the line", class("C1: {kind: capacitor, value: 0.1 µF, class: X2, voltage: 275 V}", across...), "line-capacitor-class C1", "pass"},
		{"across the line is not to the chassis", across, "chassis-capacitor-class C1", ""},
		{"no class across the line", class("C1: {kind: capacitor, value: 0.1 µF, voltage: 600 V}", across...), "line-capacitor-class C1", "unproven"},
		{"across the switch", class("C1: {kind: capacitor, value: 10 nF, voltage: 600 V}", "S1.2 -> C1 -> chassis", "S1.2 -> C1 -> S1.1"), "line-capacitor-class C1", "unproven"},
		{"Y2 to an unbonded chassis", loose, "accessible-capacitor-class C1", "fail"},
		{"Y1 to an unbonded chassis", class("C1: {kind: capacitor, value: 1 nF, class: Y1, voltage: 250 V}", loose...), "accessible-capacitor-class C1", "pass"},
		{"two equal Y2 in series", append([]string{c1, c1 + "\n  C2: {kind: capacitor, value: 4.7 nF, class: Y2, voltage: 250 V}", "S1.2 -> C1 -> chassis", "S1.2 -> C1 -> C2 -> chassis"}, loose...), "accessible-capacitor-class C1", "pass"},
		{"two unequal Y2 in series", append([]string{c1, c1 + "\n  C2: {kind: capacitor, value: 2.2 nF, class: Y2, voltage: 250 V}", "S1.2 -> C1 -> chassis", "S1.2 -> C1 -> C2 -> chassis"}, loose...), "accessible-capacitor-class C1", "fail"},
		{"the second of two without a value", append([]string{c1, c1 + "\n  C2: {kind: capacitor, class: Y2, voltage: 250 V}", "S1.2 -> C1 -> chassis", "S1.2 -> C1 -> C2 -> chassis"}, loose...), "accessible-capacitor-class C1", "unproven"},
		{"Y1 behind any capacitor", append([]string{c1, c1 + "\n  C2: {kind: capacitor, value: 1 nF, class: Y1, voltage: 250 V}", "S1.2 -> C1 -> chassis", "S1.2 -> C1 -> C2 -> chassis"}, loose...), "accessible-capacitor-class C1", "pass"},
		{"to a touchable body", []string{c1, c1 + "\n  A1: {kind: body}", "S1.2 -> C1 -> chassis", "S1.2 -> C1 -> A1"}, "accessible-capacitor-class C1", "fail"},
		{"to an enclosed body", []string{c1, c1 + "\n  A1: {kind: body, reach: enclosed}", "S1.2 -> C1 -> chassis", "S1.2 -> C1 -> A1"}, "accessible-capacitor-class C1", ""},
	})
}

// The class table of IEC 60384-14: X between line conductors only, Y1 for
// reinforced insulation, Y4 on no more than 150 V.
func TestClassTable(t *testing.T) {
	for _, row := range []struct {
		class                   string
		line, basic, reinforced bool // at 230 V
		low                     bool // basic at 120 V
	}{
		{"X1", true, false, false, false}, {"X2", true, false, false, false}, {"X3", true, false, false, false},
		{"Y1", true, true, true, true}, {"Y2", true, true, false, true}, {"Y3", true, true, false, true},
		{"Y4", false, false, false, true}, {"", false, false, false, false},
	} {
		for _, c := range []struct {
			role  string
			mains float64
			want  bool
		}{{"line", 230, row.line}, {"basic", 230, row.basic}, {"reinforced", 230, row.reinforced}, {"basic", 120, row.low}} {
			if got, _ := handbook.ClassFits(row.class, c.role, c.mains); got != c.want {
				t.Errorf("class %q for %s at %g V: %t, want %t", row.class, c.role, c.mains, got, c.want)
			}
		}
	}
}
