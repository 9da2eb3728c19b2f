package entry_test

import (
	"testing"

	"firstvolt/checks/trial"
)

// TestTurned mates the connectors of the sound sheets the other way round.
func TestTurned(t *testing.T) {
	const (
		console, umbilical = "nettlecombe-console", "turned-connector-endangers Umbilical"
		cabinet, three     = "burrumbeet-cabinet", "turned-connector-endangers P1"
		ownBond            = "  - {run: chassis -> Tuner, color: green-yellow, joint: own-screw}\n"
	)
	says4 := func(fits string) []string {
		return []string{"pins: [1, 2, 3, 4], fits: one-way", "pins: [1, 2, 3, 4]" + fits}
	}
	says3 := func(fits string) []string {
		return []string{"pins: [a, b, c], fits: one-way", "pins: [a, b, c]" + fits}
	}
	for name, c := range map[string]struct {
		sheet, figure string
		pairs         []string
		want          string
	}{
		"one way":                               {console, umbilical, nil, "no"},
		"line on a heater pin":                  {console, umbilical, says4(", fits: both-ways"), "yes"},
		"line on a heater pin, not said":        {console, umbilical, says4(""), "unknown"},
		"line on the chassis":                   {console, umbilical, append(says4(", fits: both-ways"), "  - Power-T.6b -> Umbilical.4\n", "  - chassis -> Umbilical.4\n"), "yes"},
		"half a heater winding shorted":         {cabinet, three, says3(", fits: both-ways"), "yes"},
		"heaters and no more":                   {cabinet, three, append(says3(", fits: both-ways"), "  - chassis -> P1.c\n", "", "  - P1.c-mate -> Tuner\n", "", "  - T1.8 -> P1.a\n", "  - T1.8 -> P1.c\n", "  - P1.a-mate -> V1.h1\n", "  - P1.c-mate -> V1.h1\n"), "no"},
		"half a heater winding, not said":       {cabinet, three, says3(""), "unknown"},
		"bond through an end pin":               {cabinet, three, append(says3(", fits: both-ways"), ownBond, ""), "yes"},
		"bond through an end pin, not said":     {cabinet, three, append(says3(""), ownBond, ""), "unknown"},
		"bond through an end pin, keyed":        {cabinet, three, []string{ownBond, ""}, "no"},
		"a winding on metal":                    {cabinet, three, append(says3(", fits: both-ways"), ownBond, "", "  - chassis -> P1.c\n", ""), "yes"},
		"two pins of one conductor each, turns": {"larkfield-six-forty", "turned-connector-endangers X1", twoPin, "no"},
	} {
		if got := computed(t, edit(t, trial.Sheet(t, c.sheet), c.pairs...))[c.figure]; says(got) != c.want {
			t.Errorf("%s: %s, want %s (%s)", name, says(got), c.want, got.Note)
		}
	}
}

// TestTurnedTogether: two connectors that do no harm when either is turned round
// bring line to a body when both are.
func TestTurnedTogether(t *testing.T) {
	text := func(one, other string) string {
		return edit(t, trial.Sheet(t, "larkfield-six-forty"), "  T1:\n",
			"  Knob: {kind: body}\n  K1: {kind: connector, pins: [1, 2, 3]"+one+"}\n  K2: {kind: connector, pins: [1, 2, 3]"+other+"}\n  T1:\n",
			switchRun, "  - F1.side -> S1 -> K1.1\n  - K1.1-mate -> K2.2\n  - K2.2-mate -> T1.1\n  - K1.3-mate -> K2.1\n  - K2.3-mate -> Knob\n")
	}
	const both, single = ", fits: both-ways", ", fits: one-way"
	for _, c := range []struct{ one, other, want1, want2 string }{
		{both, single, "no", "no"},
		{single, both, "no", "no"},
		{both, both, "yes", "yes"},
		{both, "", "unknown", "unknown"},
	} {
		got := computed(t, text(c.one, c.other))
		one, two := got["turned-connector-endangers K1"], got["turned-connector-endangers K2"]
		if says(one) != c.want1 || says(two) != c.want2 {
			t.Errorf("K1%s, K2%s: %s, %s; want %s, %s (%s)", c.one, c.other, says(one), says(two), c.want1, c.want2, one.Note)
		}
	}
}

// twoPin takes the mains through a connector of two pins, whose turning
// exchanges hot and neutral and no more.
var twoPin = []string{"  T1:\n", "  X1: {kind: connector, pins: [1, 2], fits: both-ways}\n  T1:\n",
	switchRun, "  - F1.side -> S1 -> X1.1\n  - X1.1-mate -> T1.1\n", neutralRun, "  - {run: plug.neutral -> X1.2, color: white}\n  - X1.2-mate -> T1.2\n"}
