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
