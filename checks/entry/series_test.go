package entry_test

import (
	"testing"

	"firstvolt/checks/trial"
)

// sheetNamed is one of the sound sheets.
func sheetNamed(t *testing.T, name string) string { return trial.Sheet(t, name) }

// A cord whose third conductor drops volts brings no ground: it bonds nothing
// and has no duty among the colors; and a rectifier's plate is a load.
func TestResistanceCord(t *testing.T) {
	for _, c := range []struct {
		name  string
		pairs []string
		want  map[string]string
	}{
		{"as it stands", nil, map[string]string{"live-chassis-on-ground chassis": "no", "colors-of-no-scheme cord": "no", "hot-past-open-switch set": "no"}},
		{"third conductor a ground, on the chassis", []string{", third: 160 Ω", "", "plug.ground -> S1.3", "plug.ground -> chassis"}, map[string]string{"live-chassis-on-ground chassis": "yes"}},
		{"the pole ahead of the plates bridged", []string{"  - S1.2 -> V5.plate-1", "  - S1.1 -> S1.2\n  - S1.2 -> V5.plate-1"}, map[string]string{"hot-past-open-switch set": "yes"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := computed(t, edit(t, sheetNamed(t, "millstead-cord-set"), c.pairs...))
			for k, want := range c.want {
				if says(got[k]) != want {
					t.Errorf("%s: %s, want %s %v", k, says(got[k]), want, got[k].Witness)
				}
			}
		})
	}
}

// The cord's resistance brings hot into the set past the set's own fuse: on
// anything but a fuse, a tie or nothing it is unguarded there, and a switch
// that leaves it on the string does not open hot.
func TestResistanceCordPastFuse(t *testing.T) {
	const past, open, fused = "cord-resistance-past-fuse set", "hot-past-open-switch set", "line-conductors-fused set"
	const pole, string4 = "  - plug.ground -> S1.3", "  - S1.4 -> V5 -> V4"
	for _, c := range []struct {
		name  string
		pairs []string
		want  map[string]string
	}{
		{"as it stands", nil, map[string]string{past: "yes", open: "no", fused: "0"}},
		{"an earth on the switch", []string{", third: 160 Ω", ", third: earth"}, map[string]string{past: "no"}},
		{"on the switch, and nobody says what it is", []string{", third: 160 Ω", ""}, map[string]string{past: "unknown"}},
		{"on the chassis, and nobody says what it is", []string{", third: 160 Ω", "", pole, "  - plug.ground -> chassis"}, map[string]string{past: "no"}},
		{"on nothing", []string{pole + "\n", ""}, map[string]string{past: "no", fused: "1"}},
		{"on a lug and nothing more", []string{"  S1: {kind", "  J1: {kind: tie}\n  S1: {kind", pole, "  - plug.ground -> J1"}, map[string]string{past: "no"}},
		{"on a lug and on to the switch", []string{"  S1: {kind", "  J1: {kind: tie}\n  S1: {kind", pole, "  - plug.ground -> J1 -> S1.3"}, map[string]string{past: "yes"}},
		{"on the chassis", []string{pole, "  - plug.ground -> chassis"}, map[string]string{past: "yes"}},
		{"on a body", []string{"  S1: {kind", "  A1: {kind: body}\n  S1: {kind", pole, "  - plug.ground -> A1"}, map[string]string{past: "yes"}},
		{"behind a fuse of its own", []string{"  S1: {kind", "  F2: {kind: fuse, rating: 0.75 A}\n  S1: {kind", pole, "  - plug.ground -> F2 -> S1.3"}, map[string]string{past: "no", fused: "1"}},
		{"on a capacitor", []string{"  S1: {kind", "  C2: {kind: capacitor, class: X2}\n  S1: {kind", pole, "  - plug.ground -> C2 -> chassis"}, map[string]string{past: "yes"}},
		{"straight to the string, one pole in hot open", []string{pole + "\n", "", string4, "  - plug.ground -> V5 -> V4", "poles: 2", "poles: 1"}, map[string]string{past: "yes", open: "yes"}},
		{"the pole bridged", []string{pole, pole + "\n  - S1.3 -> S1.4"}, map[string]string{past: "yes", open: "yes"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := computed(t, edit(t, sheetNamed(t, "millstead-cord-set"), c.pairs...))
			for k, want := range c.want {
				if says(got[k]) != want {
					t.Errorf("%s: %s, want %s %v", k, says(got[k]), want, got[k].Witness)
				}
			}
		})
	}
}

// A line conductor on a secondary that floats, and one that comes there by way
// of what may be plugged into an outlet.
func TestLineOnFloatingSecondary(t *testing.T) {
	const f = "called-transformer-but-on-line set"
	for _, c := range []struct {
		name  string
		pairs []string
		want  string
	}{
		{"as it stands", nil, "no"},
		{"a wire from neutral", []string{"- NT.4 -> chassis", "- NT.4 -> chassis\n  - NT.2 -> NT.6"}, "yes"},
		{"a motor from the switch", []string{"M1 -> NT.2", "M1 -> NT.6"}, "yes"},
		{"the outlet's neutral", []string{"NT.2 -> Dose.neutral", "NT.6 -> Dose.neutral"}, "yes"},
	} {
		got := computed(t, edit(t, sheetNamed(t, "furkastein-truhe"), c.pairs...))
		if says(got[f]) != c.want {
			t.Errorf("%s: %s, want %s", c.name, says(got[f]), c.want)
		}
	}
}
