package checks_test

import "testing"

// What a filter holds between the pins is told by no label: a reading there
// bounds the charge that they keep, and nothing predicts it. Less than the
// marked capacitors beside it contradicts the sheet all the same.
func TestReadingOfWhatAFilterHolds(t *testing.T) {
	const (
		discharge = "line-capacitor-discharge Filtre"
		agrees    = "capacitance-agrees plug.hot – plug.neutral"
		line      = "  capacitance:\n"
		beside    = "  Tr:\n"
	)
	ahead := []string{"plug.neutral -> Int.3", "plug.neutral -> Filtre.neutral-in", "Fus.side -> Int.1", "Fus.side -> Filtre.line-in",
		"  - Int.2 -> Filtre.line-in\n  - Int.4 -> Filtre.neutral-in\n  - Filtre.line-out -> Tr.1\n  - Filtre.neutral-out -> Tr.2\n",
		"  - Filtre.line-out -> Int.1\n  - Filtre.neutral-out -> Int.3\n  - Int.2 -> Tr.1\n  - Int.4 -> Tr.2\n"}
	pins := func(reads string, more ...string) []string {
		return append(append(more, ahead...), line, line+"    - {between: [plug.hot, plug.neutral], switches: open, reads: "+reads+", with: farads}\n")
	}
	marked := []string{beside, "  CX: {kind: capacitor, value: 220 nF, class: X2, voltage: 275 V}\n" + beside, "  - chassis -> Haut", "  - Fus.side -> CX -> plug.neutral\n  - chassis -> Haut"}
	bled := []string{beside, "  Rb: {kind: resistor, value: 470 kΩ, tolerance: 5 %, power: 0.5 W, voltage: 350 V}\n" + beside, "  - chassis -> Haut", "  - Fus.side -> Rb -> plug.neutral\n  - chassis -> Haut"}
	for name, c := range map[string]struct {
		pairs             []string
		discharge, agrees string
	}{
		"not read":                    {ahead, "unproven", ""},
		"little":                      {pins("80 nF"), "caution", ""},
		"too much":                    {pins("470 nF"), "unproven", ""},
		"too much, bled":              {pins("470 nF", bled...), "pass", ""},
		"a marked one beside it":      {pins("400 nF", marked...), "fail", ""},
		"less than the marked one":    {pins("80 nF", marked...), "", "fail"},
		"behind the switch, not seen": {[]string{line, line + "    - {between: [plug.hot, plug.neutral], switches: open, reads: 80 nF, with: farads}\n"}, "pass", "fail"},
	} {
		got, _ := judged(t, "valmorel-orfeo", c.pairs...)
		if c.discharge != "" && got[discharge] != c.discharge || got[agrees] != c.agrees {
			t.Errorf("%s: discharge %q, want %q; agrees %q, want %q", name, got[discharge], c.discharge, got[agrees], c.agrees)
		}
	}
}
