package entry_test

import (
	"testing"

	"firstvolt/checks/trial"
)

// A third conductor that feeds the set may be a resistance, with hot behind it:
// where the sheet does not say what it is, nobody knows what the switch opens.
func TestThirdConductorUntold(t *testing.T) {
	const said, cord = ", third: 160 Ω", "cord: {conductors: 3, size: 18 AWG, length: 6 ft, insulation: double, inlet: none, third: 160 Ω, plug-fuse: 1 A}\n"
	past := []string{"  - plug.ground -> S1.3\n  - S1.4 -> V5", "  - plug.ground -> V5.h1\n  - V5.h2"} // past the switch
	for _, c := range []struct {
		name, figure, want string
		pairs              []string
	}{
		{"as it is", "hot-past-open-switch set", "no", nil},
		{"not said, and behind the switch", "hot-past-open-switch set", "no", []string{said, ""}},
		{"past the switch", "hot-past-open-switch set", "yes", past},
		{"past the switch, and not said", "hot-past-open-switch set", "unknown", append([]string{said, ""}, past...)},
		{"past the switch, and no cord on the sheet", "hot-past-open-switch set", "unknown", append([]string{cord, ""}, past...)},
		{"not said, sides opened", "line-conductors-opened set", "unknown", []string{said, ""}},
		{"not said, sides fused", "line-conductors-fused set", "unknown", []string{said, ""}},
	} {
		got := computed(t, edit(t, trial.Sheet(t, "millstead-cord-set"), c.pairs...))[c.figure]
		if says(got) != c.want {
			t.Errorf("%s: %s is %s, want %s (%s)", c.name, c.figure, says(got), c.want, got.Note)
		}
	}
}
