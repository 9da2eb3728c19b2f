package entry_test

import (
	"testing"

	"firstvolt/checks/trial"
)

// TestShields: the screen winding of a transformer on everything that it may
// and may not hang on.
func TestShields(t *testing.T) {
	const grounded, live = "brackenhurst-w5", "hexworthy-heater-box"
	yard := func(sheet, run, parts string) string {
		text := trial.Sheet(t, sheet)
		name := "MT1"
		if sheet == live {
			name = "T1"
		}
		text = edit(t, text, "\n  "+name+":\n    kind: transformer\n", "\n  "+name+":\n    kind: transformer\n    shield: s\n", "\nparts:\n", "\nparts:\n"+parts)
		return edit(t, text, "\nwiring:\n", "\nwiring:\n  - "+run+"\n")
	}
	const paper, film = "  C9: {kind: capacitor, value: 10 nF}\n", "  C9: {kind: capacitor, value: 2.2 nF, class: Y2, voltage: 250 V}\n"
	for _, c := range []struct{ name, text, on, through string }{
		{"on the chassis", yard(grounded, "MT1.s -> chassis", ""), "no", "no"},
		{"on the primary", yard(grounded, "MT1.s -> MT1.a", ""), "yes", "no"},
		{"on the neutral side", yard(grounded, "MT1.s -> plug.neutral", ""), "yes", "no"},
		{"on the live end of a heater winding", yard(grounded, "MT1.s -> MT1.h", ""), "yes", "no"},
		{"through a resistor on the primary", yard(grounded, "MT1.s -> R9 -> MT1.a", "  R9: {kind: resistor, value: 10 kΩ}\n"), "yes", "no"},
		{"through a capacitor on the chassis", yard(grounded, "MT1.s -> C9 -> chassis", film), "no", "yes"},
		{"through a paper capacitor on the primary", yard(grounded, "MT1.s -> C9 -> MT1.a", paper), "unknown", "no"},
		{"on a chassis on neutral", yard(live, "T1.s -> chassis", ""), "not asked", "no"},
		{"on hot beside it", yard(live, "T1.s -> S1.2", ""), "yes", "no"},
	} {
		all := computed(t, c.text)
		part := "MT1"
		if _, ok := all["metal-of-its-own T1"]; ok {
			part = "T1"
		}
		got := says(all["metal-on-line "+part])
		if says(all["metal-of-its-own "+part]) != "yes" {
			got = "not asked"
		}
		if got != c.on {
			t.Errorf("%s: on the line %s, want %s", c.name, got, c.on)
		}
		if got := says(all["shield-through-capacitor "+part]); got != c.through {
			t.Errorf("%s: through a capacitor alone %s, want %s", c.name, got, c.through)
		}
	}
}

// TestEnclosedMetal: metal that no hand gets to in use is live on the bench.
func TestEnclosedMetal(t *testing.T) {
	for run, want := range map[string][2]string{
		"Frame9 -> chassis":      {"no", "no"},
		"Frame9 -> S1.2":         {"yes", "yes"},
		"Frame9 -> plug.neutral": {"no", "yes"},
	} {
		text := edit(t, trial.Sheet(t, "larkfield-six-forty"), "\nparts:\n", "\nparts:\n  Frame9: {kind: body, reach: enclosed}\n", "\nwiring:\n", "\nwiring:\n  - "+run+"\n")
		all := computed(t, text)
		for i, line := range []string{"hot", "neutral"} {
			if got := says(all[line+"-joins-metal Frame9"]); got != want[i] {
				t.Errorf("%s: %s %s, want %s", run, line, got, want[i])
			}
		}
		if got := says(all["said-to-be-off-line Frame9"]); got != "yes" {
			t.Errorf("%s: asked %s", run, got)
		}
	}
}
