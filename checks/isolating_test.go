package checks_test

import "testing"

// A set on the line behind an isolating transformer whose output floats: a plug
// that goes in both ways is a caution of two rules, which say what holds without
// the transformer. What is wired wrong by itself still fails.
func TestReversiblePlugBehindAnIsolatingTransformer(t *testing.T) {
	const joint, neutral = "polarity-holds-throughout set", "line-chassis-on-neutral chassis"
	both := []string{"region: united-kingdom", "region: europe", "plug: bs-1363", "plug: cee-7-16", ", plug-fuse: 3 A", ""}
	with := func(more ...string) []string { return append(append([]string{}, both...), more...) }
	isolator := "    - {kind: isolating-transformer, secondary: floating, earth: stopped}\n"
	chassisSwitched := []string{"- {run: plug.live -> FS1 -> SW1.1, color: brown}", "- {run: plug.live -> FS1 -> BUS, color: brown}",
		"- {run: plug.neutral -> chassis, color: blue}", "- {run: plug.neutral -> SW1 -> chassis, color: blue}", "  - SW1.2 -> BUS\n", ""}
	for name, c := range map[string]struct {
		pairs          []string
		joint, neutral string
	}{
		"one way":                          {nil, "pass", "pass"},
		"both ways":                        {with(), "caution", "caution"},
		"its output bonded":                {with("secondary: floating", "secondary: bonded"), "fail", "fail"},
		"nobody says how its output is":    {with("secondary: floating, ", ""), "unproven", "unproven"},
		"no isolating transformer":         {with(isolator, ""), "fail", "fail"},
		"the switch in the chassis side":   {with(chassisSwitched...), "caution", "fail"},
		"a pole in each conductor":         {with("kind: switch, poles: 1", "kind: switch, poles: 2", "plug.neutral -> chassis", "plug.neutral -> SW1.3", "  - SW1.2 -> BUS\n", "  - SW1.2 -> BUS\n  - SW1.4 -> chassis\n"), "caution", "caution"},
		"the same, the plug one way":       {chassisSwitched, "pass", "fail"},
		"a pole in each, the plug one way": {[]string{"kind: switch, poles: 1", "kind: switch, poles: 2", "plug.neutral -> chassis", "plug.neutral -> SW1.3", "  - SW1.2 -> BUS\n", "  - SW1.2 -> BUS\n  - SW1.4 -> chassis\n"}, "pass", "caution"},
		"and no isolating transformer":     {[]string{isolator, "", "kind: switch, poles: 1", "kind: switch, poles: 2", "plug.neutral -> chassis", "plug.neutral -> SW1.3", "  - SW1.2 -> BUS\n", "  - SW1.2 -> BUS\n  - SW1.4 -> chassis\n"}, "pass", "fail"},
		"turned in the plug, one way only": {[]string{"plug.live -> FS1", "plug.X -> FS1", "plug.neutral -> chassis", "plug.live -> chassis", "plug.X -> FS1", "plug.neutral -> FS1"}, "pass", "fail"},
	} {
		got, _ := judged(t, "hollinbray-universal", c.pairs...)
		if got[joint] != c.joint || got[neutral] != c.neutral {
			t.Errorf("%s: joint %s, want %s; chassis on neutral %s, want %s", name, got[joint], c.joint, got[neutral], c.neutral)
		}
	}
}

// On a plug that fits both ways a switch of one pole is a caution where a power
// transformer isolates the set, bonded or not, and a failure elsewhere.
func TestOnePoleOnAReversiblePlug(t *testing.T) {
	const rule = "both-sides-open set"
	onePole := []string{"poles: 2, rating: 3 A", "poles: 1, rating: 3 A", "plug.neutral -> F2 -> S1.3", "plug.neutral -> F2 -> PT.2", "  - S1.4 -> PT.2\n", ""}
	for name, c := range map[string]struct {
		sheet string
		pairs []string
		want  string
	}{
		"two poles, two conductors":     {"aoyane-table-set", nil, "pass"},
		"one pole, two conductors":      {"aoyane-table-set", onePole, "caution"},
		"one pole that switches none":   {"aoyane-table-set", append([]string{"F1 -> S1.1", "F1 -> PT.1", "  - S1.2 -> PT.1\n", "  - F1.1 -> S1 -> F1.2\n"}, onePole...), "fail"},
		"one pole of a set on the line": {"hollinbray-universal", []string{"region: united-kingdom", "region: europe", "plug: bs-1363", "plug: cee-7-16", ", plug-fuse: 3 A", ""}, "fail"},
	} {
		if got, _ := judged(t, c.sheet, c.pairs...); got[rule] != c.want {
			t.Errorf("%s: %s, want %s", name, got[rule], c.want)
		}
	}
}
