package readings_test

import (
	"strings"
	"testing"
)

// TestNoWiring: without wiring the readings that say something by themselves
// are judged, and nothing is held against a prediction.
func TestNoWiring(t *testing.T) {
	text := larkfield(t)
	a, z := strings.Index(text, "wiring:\n"), strings.Index(text, "readings:\n")
	fs := judge(t, text[:a]+text[z:])
	for name, want := range map[string]string{
		"bond-resistance chassis":                      "pass",
		"plug-on-resistance plug":                      "pass",
		"plug-off-resistance plug":                     "pass",
		"insulation-primary-secondaries T1.plate":      "pass",
		"insulation-mains-chassis chassis":             "pass",
		"winding-continuity T1.primary":                "pass",
		"halves-balance T1.plate":                      "pass",
		"readings-after-rebuild plug.ground – chassis": "pass",
		"reading-agrees T1.primary – T1.plate":         "not asked",
	} {
		if got := outcome(fs, name); got != want {
			t.Errorf("%s is %s, want %s: %s %v", name, got, want, fs[name].Says, fs[name].Needs)
		}
	}
	for name, f := range fs {
		if f.Outcome == "fail" {
			t.Errorf("%s fails: %s", name, f.Says)
		}
	}
}

// TestWideMeters: a meter known less well never turns a finding into a pass.
func TestWideMeters(t *testing.T) {
	bad := larkfield(t)
	for _, s := range [][]swap{edit(onLine, "9.9 Ω", "12 Ω"), edit(halfB, "112 Ω", "140 Ω"), edit(megLine, "240 MΩ", "0.9 MΩ"), edit(bondLine, "0.06", "0.15"), edit(turnsLine, "0.335 V", "0.473 V"), edit(capLine, "5.4 nF", "9 nF")} {
		bad = altered(t, bad, s...)
	}
	wide := bad
	for _, s := range []swap{
		{"0.9 % + 2 digits", "40 % + 90 digits"}, {"accuracy: 1 % + 2 mΩ", "accuracy: 40 % + 200 mΩ"}, {"accuracy: 5 %, ceiling", "accuracy: 60 %, ceiling"},
		{"2 % + 0.1 nF", "50 % + 6 nF"}, {"accuracy: 1.5 %", "accuracy: 45 %"},
	} {
		wide = altered(t, wide, s)
	}
	before, after := judge(t, bad), judge(t, wide)
	failed := 0
	for name, f := range before {
		if f.Outcome == "fail" {
			failed++
		}
		if f.Outcome != "pass" && outcome(after, name) == "pass" {
			t.Errorf("%s was %s and passes with worse meters: %s", name, f.Outcome, after[name].Says)
		}
	}
	if failed < 5 {
		t.Errorf("only %d findings failed to begin with", failed)
	}
}
