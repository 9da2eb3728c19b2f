package checks_test

import "testing"

// Which of the schemes is in use today, and cores that are alike but for a rib:
// the findings of the rule on two conductors and three.
func TestConductorColorsJudged(t *testing.T) {
	const three = "cord: {conductors: 3, size: 18 AWG, length: 6 ft, insulation: double, inlet: none}"
	two := []string{"  - {run: plug.ground -> chassis, color: green, joint: own-screw, slack: longest}\n", "", "    - {between: [plug.ground, chassis], reads: 0.06 Ω, with: milliohm}\n", "", three, "cord: {conductors: 2, size: 18 AWG, length: 6 ft, insulation: single, inlet: none}"}
	at := func(region, plug string) []string {
		return []string{"region: north-america", "region: " + region, "plug: nema-5-15", "plug: " + plug}
	}
	colors := func(hot, neutral, ground string) []string {
		pairs := []string{"F1.end, color: black", "F1.end, color: " + hot, "T1.2, color: white", "T1.2, color: " + neutral}
		if ground != "" {
			pairs = append(pairs, "color: green, joint", "color: "+ground+", joint")
		}
		return pairs
	}
	join := func(lists ...[]string) (out []string) {
		for _, l := range lists {
			out = append(out, l...)
		}
		return out
	}
	for _, c := range []struct {
		name  string
		edits []string
		want  string
	}{
		{"in use today", nil, "pass"},
		{"grey neutral", colors("black", "grey", "green"), "pass"},
		{"foreign", colors("brown", "blue", "green-yellow"), "caution"},
		{"old, in its region", join(at("united-kingdom", "bs-1363"), colors("red", "black", "green")), "caution"},
		{"old German", join(at("europe", "cee-7-7"), colors("black", "grey", "red")), "caution"},
		{"old German with a red wire on line", join(at("europe", "cee-7-7"), colors("black", "grey", "red"), []string{"  - F1.side -> S1 -> T1.1", "  - {run: F1.side -> S1.1, color: red}\n  - S1.2 -> T1.1"}), "fail"},
		{"old German and a red lead of the transformer", join(at("europe", "cee-7-7"), colors("black", "grey", "red"), []string{"  - F1.side -> S1 -> T1.1", "  - F1.side -> S1.1\n  - {run: S1.2 -> T1.1, color: red}"}), "caution"},
		{"green inside", []string{"  - F1.side -> S1 -> T1.1", "  - {run: F1.side -> S1.1, color: green-yellow}\n  - S1.2 -> T1.1"}, "fail"},
		{"a hot core in green", colors("green", "white", "black"), "fail"},
		{"black and yellow-green exchanged, Europe", join(at("europe", "cee-7-7"), colors("green-yellow", "blue", "brown")), "fail"},
		{"not stated", []string{", color: black", ""}, "unproven"},
		{"ground not stated", []string{"color: green, joint", "joint"}, "unproven"},
		{"ribbed neutral", join(two, at("north-america", "nema-1-15-polarized"), colors("plain", "ribbed", "")), "pass"},
		{"ribbed hot", join(two, at("north-america", "nema-1-15-polarized"), colors("ribbed", "plain", "")), "fail"},
		{"ribbed hot, either way", join(two, at("north-america", "nema-1-15"), colors("ribbed", "plain", "")), "pass"},
		{"ribbed, nobody knows which way", join(two, at("north-america", "nema-1-15-polarized"), colors("ribbed", "plain", ""), []string{", inlet: none", ""}), "fail"},
		{"both ribbed", join(two, at("north-america", "nema-1-15-polarized"), colors("ribbed", "ribbed", "")), "fail"},
		{"ribbed elsewhere", join(two, at("europe", "cee-7-16"), colors("plain", "ribbed", "")), "caution"},
		{"both brown, either way", join(two, at("europe", "cee-7-16"), colors("brown", "brown", "")), "caution"},
		{"two cores today", join(two, at("switzerland", "cee-7-16"), colors("blue", "brown", "")), "pass"},
	} {
		got, _ := judged(t, "larkfield-six-forty", c.edits...)
		if got["conductor-colors cord"] != c.want {
			t.Errorf("%s: %s, want %s", c.name, got["conductor-colors cord"], c.want)
		}
	}
}
