package ratings_test

import "testing"

func TestSwitchRating(t *testing.T) {
	const s = "S1: {kind: switch, poles: 1, rating: 3 A, voltage: 125 V}"
	tryChanges(t, larkfield(t), []change{
		{"as it stands", nil, "switch-rating S1", "pass"},
		{"too few volts", []string{s, "S1: {kind: switch, poles: 1, rating: 3 A, voltage: 24 V}"}, "switch-rating S1", "fail"},
		{"too few amperes", []string{s, "S1: {kind: switch, poles: 1, rating: 0.3 A, voltage: 125 V}"}, "switch-rating S1", "fail"},
		{"enough or not, by the power factor", []string{s, "S1: {kind: switch, poles: 1, rating: 0.55 A, voltage: 125 V}"}, "switch-rating S1", "unproven"},
		{"enough for the set, not for the fuse", []string{s, "S1: {kind: switch, poles: 1, rating: 0.75 A, voltage: 125 V}"}, "switch-rating S1", "caution"},
		{"no volts", []string{s, "S1: {kind: switch, poles: 1, rating: 3 A}"}, "switch-rating S1", "unproven"},
		{"no amperes", []string{s, "S1: {kind: switch, poles: 1, voltage: 125 V}"}, "switch-rating S1", "unproven"},
		{"no watts on the nameplate", []string{", power: 60 W}", "}"}, "switch-rating S1", "unproven"},
		{"behind a filter it is still on the mains", []string{
			s, "S1: {kind: switch, poles: 1, rating: 3 A, voltage: 24 V}\n  Z1: {kind: filter, current: 3 A, voltage: 250 V, leakage: 0.3 mA}",
			"F1.side -> S1 -> T1.1", "F1.side -> Z1.line-in\n  - Z1.line-out -> S1 -> T1.1"}, "switch-rating S1", "fail"},
		{"a switch at the speaker is not asked", []string{
			s, s + "\n  S2: {kind: switch, poles: 1}", "- T1.4 -> chassis", "- T1.4 -> chassis\n  - T1.8 -> S2 -> T1.9"}, "switch-rating S2", ""},
	})
}

// TestSwitchOfABranch: a switch that cuts off a motor or an outlet and nothing
// else carries the current of that alone.
func TestSwitchOfABranch(t *testing.T) {
	branch := func(rating, motor, wire string) []string {
		return []string{"  S1: {", "  S2: {kind: switch, poles: 1, " + rating + "voltage: 250 V}\n  M1: {kind: motor" + motor + "}\n  O1: {kind: outlet, load: 40 W, ground: none}\n  S1: {",
			"- T1.4 -> chassis", "- T1.4 -> chassis\n  - " + wire}
	}
	const motor, marked = "S1.2 -> S2 -> M1 -> T1.2\n  - S1.2 -> O1.hot\n  - T1.2 -> O1.neutral", ", voltage: 117 V, current: 150 mA, power: 12 W"
	tryChanges(t, larkfield(t), []change{
		{"of a motor", branch("rating: 0.25 A, ", marked, motor), "switch-rating S2", "caution"},
		{"of a motor, in neutral", branch("rating: 0.25 A, ", marked, "S1.2 -> M1 -> S2 -> T1.2\n  - S1.2 -> O1.hot\n  - T1.2 -> O1.neutral"), "switch-rating S2", "caution"},
		{"of a motor, too small", branch("rating: 0.1 A, ", marked, motor), "switch-rating S2", "fail"},
		{"of a motor of unknown current", branch("rating: 0.25 A, ", "", motor), "switch-rating S2", "unproven"},
		{"of a motor, not rated", branch("", marked, motor), "switch-rating S2", "unproven"},
		{"of a motor and an outlet, too small for both", branch("rating: 0.4 A, ", marked, "S1.2 -> S2 -> M1 -> T1.2\n  - S2.2 -> O1.hot\n  - T1.2 -> O1.neutral"), "switch-rating S2", "fail"},
		{"of a motor and an outlet", branch("rating: 0.5 A, ", marked, "S1.2 -> S2 -> M1 -> T1.2\n  - S2.2 -> O1.hot\n  - T1.2 -> O1.neutral"), "switch-rating S2", "caution"},
		{"the set's own has all of it", branch("rating: 0.25 A, ", marked, motor), "switch-rating S1", "pass"},
	})
	tryChanges(t, altered(t, larkfield(t), "S1: {kind: switch, poles: 1, rating: 3 A,", "S1: {kind: switch, poles: 1, rating: 0.5 A,"), []change{
		{"the set's own is not excused by a branch", branch("rating: 3 A, ", marked, motor), "switch-rating S1", "fail"},
	})
}
