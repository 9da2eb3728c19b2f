package faults_test

import (
	"strings"
	"testing"
)

// A GFCI, and a device of type AC or of nobody knows which, does not count where a
// rectifier works straight on the line: to what that makes one-way they are blind.
func TestResidualDeviceBlindToOneWayCurrent(t *testing.T) {
	text := strings.Replace(sheetsOf(t)["teaselglen-three-way.yaml"], "    - {kind: isolating-transformer, secondary: floating, earth: stopped}\n", "", 1)
	const device, count = "kind: gfci, form: portable,", "residual-counts"
	for with, want := range map[string]string{"kind: gfci, form: portable,": "no", "kind: rcd, rating: 30 mA, type: ac,": "no", "kind: rcd, rating: 30 mA, type: a,": "yes",
		"kind: rcd, rating: 30 mA, type: b,": "yes", "kind: rcd, rating: 30 mA,": "open"} {
		f := one(t, read(t, strings.Replace(text, device, with, 1)), count, "upstream 1")
		got := "open"
		if f.Known() {
			got = map[bool]string{true: "yes", false: "no"}[*f.Present]
		}
		if got != want {
			t.Errorf("%s counts: %s, want %s", with, got, want)
		}
		if want == "open" && f.Missing[0].What != "upstream 1 type" {
			t.Errorf("%s: %v", with, f.Missing)
		}
	}
	// Behind a transformer the rectifier makes nothing that a hand on the mains side meets.
	if f := one(t, read(t, sheetsOf(t)["larchmere-compact.yaml"]), count, "upstream 1"); !f.Known() || !*f.Present {
		t.Errorf("a GFCI before a transformer set: %v", f)
	}
}
