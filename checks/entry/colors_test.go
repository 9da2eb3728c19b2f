package entry_test

import "testing"

// Colours on the duties that one scheme gives them, of another region, of
// several schemes, and on another's duty; by region, with the colour tables of
// cords by country (what one colour means where: testdata/published/colors.txt).
func TestConductorColors(t *testing.T) {
	const wrong, mixed, foreign = "color-on-another-duty cord", "colors-of-no-scheme cord", "colors-of-another-region cord"
	regions := map[string][]string{
		"north-america":  nil,
		"united-kingdom": {"region: north-america", "region: united-kingdom", "nema-5-15", "bs-1363"},
		"australia":      {"region: north-america", "region: australia", "nema-5-15", "as-3112"},
		"switzerland":    {"region: north-america", "region: switzerland", "nema-5-15", "sev-1011"},
		"europe":         {"region: north-america", "region: europe", "nema-5-15", "cee-7-7"}, // hot and neutral either way
	}
	for _, c := range []struct{ region, hot, neutral, ground, wrong, mixed, foreign string }{
		{"north-america", "black", "white", "green", "no", "no", "no"},
		{"north-america", "black", "grey", "green-yellow", "no", "no", "no"},
		{"north-america", "brown", "blue", "green-yellow", "no", "no", "yes"},
		{"north-america", "red", "black", "green", "no", "no", "yes"},    // the old British cord, whole
		{"north-america", "red", "white", "green", "no", "yes", "no"},    // red means nothing there
		{"north-america", "brown", "white", "green", "no", "yes", "no"},  //
		{"north-america", "black", "blue", "green", "no", "yes", "no"},   //
		{"north-america", "black", "white", "red", "no", "yes", "no"},    // ground in Germany
		{"north-america", "white", "black", "green", "yes", "yes", "no"}, // exchanged
		{"north-america", "green", "white", "black", "yes", "yes", "no"},
		{"north-america", "red", "black", "green-yellow", "yes", "yes", "no"}, // black is hot there
		{"north-america", "red", "green", "green-yellow", "yes", "yes", "no"},
		{"north-america", "black", "white", "pink", "no", "yes", "no"},         // no scheme has it at all
		{"north-america", "blue", "brown", "green-yellow", "yes", "yes", "no"}, // a foreign cord, exchanged
		{"north-america", "black", "black", "green", "yes", "yes", "no"},
		{"united-kingdom", "brown", "blue", "green-yellow", "no", "no", "no"},
		{"united-kingdom", "red", "black", "green", "no", "no", "no"},
		{"united-kingdom", "red", "blue", "green-yellow", "no", "yes", "no"}, // old and new together
		{"united-kingdom", "brown", "black", "green-yellow", "no", "yes", "no"},
		{"united-kingdom", "black", "white", "green", "no", "no", "yes"},
		{"united-kingdom", "black", "blue", "green-yellow", "no", "no", "yes"}, // Germany 1965 to 2003
		{"united-kingdom", "black", "white", "green-yellow", "no", "no", "yes"},
		{"united-kingdom", "black", "red", "green", "yes", "yes", "no"},
		{"united-kingdom", "blue", "brown", "green-yellow", "yes", "yes", "no"},
		{"australia", "red", "black", "green-yellow", "no", "yes", "no"},
		{"switzerland", "red", "grey", "yellow", "no", "no", "no"},
		{"switzerland", "grey", "red", "yellow", "yes", "yes", "no"},
		{"europe", "blue", "brown", "green-yellow", "no", "no", "no"},
		{"europe", "black", "grey", "red", "no", "no", "no"},         // the old German cord
		{"europe", "red", "grey", "black", "no", "no", "no"},         // the old Belgian one
		{"europe", "green", "white", "black", "yes", "yes", "no"},    // the old French one: green on line fails everywhere
		{"europe", "yellow", "white", "red", "no", "no", "no"},       // the old French one without green
		{"europe", "red", "blue", "green-yellow", "no", "yes", "no"}, // a red core proves nothing
		{"europe", "red", "blue", "red", "yes", "yes", "no"},         // ground's own color on a line conductor
		{"europe", "green-yellow", "blue", "brown", "yes", "yes", "no"},
		{"europe", "brown", "blue", "red", "no", "yes", "no"},
		{"europe", "brown", "green-yellow", "blue", "yes", "yes", "no"},
		{"europe", "black", "blue", "red", "no", "yes", "no"},
		{"europe", "black", "blue", "black", "yes", "yes", "no"}, // one colour on two duties
	} {
		pairs := append([]string{"plug.hot -> F1.end, color: black", "plug.hot -> F1.end, color: " + c.hot, "plug.neutral -> T1.2, color: white", "plug.neutral -> T1.2, color: " + c.neutral,
			"color: green,", "color: " + c.ground + ","}, regions[c.region]...)
		got := computed(t, edit(t, example(t), pairs...))
		for k, want := range map[string]string{wrong: c.wrong, mixed: c.mixed, foreign: c.foreign} {
			if says(got[k]) != want {
				t.Errorf("%s, %s %s %s: %s is %s, want %s (%s)", c.region, c.hot, c.neutral, c.ground, k, says(got[k]), want, got[k].Note)
			}
		}
	}
}

// Several wires may meet at a pin: one of them is the cord's, a second of the same
// colour contradicts nothing, and the lead of a part has none.
func TestConductorColorsOfSeveralWires(t *testing.T) {
	for _, c := range []struct{ run, want string }{
		{"{run: plug.hot -> C9 -> T1.2, color: black}", "no"},
		{"plug.hot -> C9 -> plug.neutral", "no"},
		{"{run: plug.hot -> C9 -> T1.2, color: white}", "yes"},
		{"{run: plug.hot -> C9 -> T1.2, color: green}", "yes"},
	} {
		got := computed(t, edit(t, example(t), "  C1: {kind", "  C9: {kind: capacitor, value: 10 nF, class: X2, voltage: 275 V}\n  C1: {kind",
			"- T1.4 -> chassis", "- T1.4 -> chassis\n  - "+c.run))
		if f := got["color-on-another-duty cord"]; says(f) != c.want {
			t.Errorf("%s: %s, want %s (%s)", c.run, says(f), c.want, f.Note)
		}
	}
}

// A colour that is not given hides nothing that is wrong, and proves nothing.
func TestConductorColorsNotGiven(t *testing.T) {
	for _, c := range []struct{ old, new, wrong, mixed string }{
		{"color: white", "joint: own-screw", "unknown", "unknown"},
		{"color: green,", "", "unknown", "unknown"},
		{", color: black", "", "unknown", "unknown"},
		{"color: black", "color: green", "yes", "yes"},
		{"color: black", "color: red", "unknown", "unknown"}, // it may be the old British cord
		{"color: black", "color: orange", "unknown", "yes"},
	} {
		pairs := []string{c.old, c.new}
		if c.old != "color: white" {
			pairs = append(pairs, "color: white", "joint: own-screw")
		}
		got := computed(t, edit(t, example(t), pairs...))
		if w, m := says(got["color-on-another-duty cord"]), says(got["colors-of-no-scheme cord"]); w != c.wrong || m != c.mixed {
			t.Errorf("%s for %s: %s and %s, want %s and %s", c.new, c.old, w, m, c.wrong, c.mixed)
		}
	}
}
