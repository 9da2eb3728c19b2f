package entry_test

import (
	"testing"

	"firstvolt/checks/trial"
)

// TestUnmated pulls connectors apart: what of the mains side stays live must
// keep the bond of the metal about it.
func TestUnmated(t *testing.T) {
	const (
		console   = "nettlecombe-console"
		ownBond   = "  - {run: chassis -> Tuner, color: green-yellow, joint: own-screw}\n"
		umbilical = "  Umbilical: {kind: connector, pins: [1, 2, 3, 4], fits: one-way}\n"
		toSwitch  = "  - {run: plug.live -> Fuse -> Umbilical.1, color: brown}\n  - {run: Umbilical.1-mate -> On-off -> Umbilical.2-mate, color: brown}\n  - {run: Umbilical.2 -> Power-T.230, color: brown}\n"
		byOther   = "  - {run: plug.live -> Fuse -> K2.1, color: brown}\n  - {run: K2.1-mate -> On-off -> K2.2-mate, color: brown}\n  - {run: K2.2 -> Power-T.230, color: brown}\n"
		straight  = "  - {run: plug.live -> Fuse -> On-off -> Power-T.230, color: brown}\n"
		byPin     = "  - chassis -> Umbilical.4\n"
	)
	other := []string{umbilical, umbilical + "  K2: {kind: connector, pins: [1, 2], fits: one-way}\n", toSwitch, byOther}
	add := func(parts, runs string) []string {
		return []string{umbilical, umbilical + "  " + parts + "\n", toSwitch, straight + byPin + runs, ownBond, ""}
	}
	for name, c := range map[string]struct {
		pairs []string
		want  string
	}{
		"sound": {nil, "no"},
		"mains in another connector, bond wire of its own": {other, "no"},
		"mains in another connector, bond in this one":     {append(other[:len(other)-1:len(other)-1], byOther+byPin, ownBond, ""), "yes"},
		"mains and bond in this one":                       {[]string{toSwitch, toSwitch + byPin, ownBond, ""}, "no"},
		"bond in this one, no mains beyond":                {[]string{toSwitch, straight + byPin, ownBond, ""}, "no"},
		"a capacitor from hot to the body":                 {add("C7: {kind: capacitor, value: 1 nF, class: Y1, voltage: 250 V}", "  - On-off.2 -> C7 -> Tuner\n"), "yes"},
		"the frame of a motor bonded here, mains beside":   {add("M7: {kind: motor, voltage: 230 V, power: 5 W}", "  - On-off.2 -> M7 -> Power-T.0\n  - M7.frame -> Umbilical.4-mate\n"), "yes"},
		"the frame of a motor bonded by its own wire":      {add("M7: {kind: motor, voltage: 230 V, power: 5 W}", "  - On-off.2 -> M7 -> Power-T.0\n  - M7.frame -> chassis\n"), "no"},
	} {
		if got := computed(t, edit(t, trial.Sheet(t, console), c.pairs...))["unmated-connector-live Umbilical"]; says(got) != c.want {
			t.Errorf("%s: %s, want %s (%s, %v)", name, says(got), c.want, got.Note, got.Witness)
		}
	}
}
