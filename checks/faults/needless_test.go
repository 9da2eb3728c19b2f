package faults_test

import (
	"slices"
	"strings"
	"testing"

	"firstvolt/checks/figure"
)

// TestNoNeedlessAlarm: a fault that the branch device opens where the fuse is
// slower than allowed is left to it, not held; behind a floating isolating
// transformer the first fault closes no circuit; a unit that does not say what
// it does with the ground leaves the answer open.
func TestNoNeedlessAlarm(t *testing.T) {
	const gfci = "    - {kind: gfci, form: receptacle, tested: 2026-11-20}\n"
	text := sheetsOf(t)["larkfield-six-forty.yaml"]
	slow := strings.Replace(strings.Replace(text, gfci, "", 1), "rating: 1 A", "rating: 2 A", 1)
	for what, c := range map[string]struct {
		text  string
		known bool
	}{
		"2 A on the branch device":  {slow, true},
		"isolated":                  {strings.Replace(text, gfci, "    - {kind: isolating-transformer, secondary: floating, earth: through}\n", 1), true},
		"isolated, floating or not": {strings.Replace(text, gfci, "    - {kind: isolating-transformer, earth: through}\n", 1), false},
		"a unit of no word":         {strings.Replace(strings.Replace(text, gfci, "", 1), "{kind: variac, earth: through}", "{kind: variac}", 1), false},
	} {
		f := one(t, read(t, c.text), "fault-that-stays", "set")
		if f.Known() != c.known || c.known && *f.Present {
			t.Errorf("%s: known %t, present %v, %s", what, f.Known(), f.Present, f.Note)
		}
	}
	if f := one(t, read(t, slow), "fault-left-to-branch", "set"); f.Present == nil || !*f.Present {
		t.Error("2 A: nothing is left to the branch device")
	}
}

// TestBranchDeviceWhateverTheFuseDoes: a short ahead of the fuse is left to the
// branch device with any load behind the fuse; that the fuse too may open on the
// surge of cold heaters takes nothing from it.
func TestBranchDeviceWhateverTheFuseDoes(t *testing.T) {
	const gfci = "    - {kind: gfci, form: receptacle, tested: 2026-11-20}\n"
	text := strings.Replace(sheetsOf(t)["larkfield-six-forty.yaml"], gfci, "", 1)
	load := strings.Replace(strings.Replace(text, "  T1:\n", "  V1: {kind: tube, type: 6V6}\n  V2: {kind: tube, type: 6SN7}\n  V3: {kind: tube, type: 6SN7}\n  V4: {kind: tube, type: 6SN7}\n  T1:\n", 1),
		"  - T1.4 -> chassis\n", "  - T1.4 -> chassis\n  - T1.9 -> chassis\n  - T1.8 -> V1 -> T1.9\n  - T1.8 -> V2 -> T1.9\n  - T1.8 -> V3 -> T1.9\n  - T1.8 -> V4 -> T1.9\n", 1)
	for what, text := range map[string]string{"no load": text, "tubes": load, "tubes on a smaller fuse": strings.Replace(load, "rating: 1 A", "rating: 750 mA", 1)} {
		f := one(t, read(t, text), "touch-current-one-fault", "chassis")
		if !f.Known() || !(f.Range.High <= 5e-3) {
			t.Errorf("%s: %s, %s", what, f.Range, f.Note)
		}
	}
}

// TestUnreadPlateIsNamed: where the least that an unread plate winding may have is
// what leaves the answer open, its reading is what settles it.
func TestUnreadPlateIsNamed(t *testing.T) {
	text := strings.Replace(sheetsOf(t)["larkfield-six-forty.yaml"], "    - {kind: gfci, form: receptacle, tested: 2026-11-20}\n", "", 1)
	const halves = "    - {between: [T1.3, T1.4], reads: 104 Ω, with: dmm}\n    - {between: [T1.4, T1.5], reads: 112 Ω, with: dmm}\n"
	if !strings.Contains(text, halves) {
		t.Fatal(text)
	}
	for what, c := range map[string]struct {
		text string
		want bool
	}{"read": {text, false}, "not read": {strings.Replace(text, halves, "", 1), true}} {
		f := one(t, read(t, c.text), "touch-current-one-fault", "chassis")
		named := slices.ContainsFunc(f.Settle, func(n figure.Need) bool { return n.What == "resistance across T1.plate" })
		if open := !(f.Range.High <= 5e-3); open != c.want || named != c.want {
			t.Errorf("%s: %s, settled by %v", what, f.Range, f.Settle)
		}
	}
}
