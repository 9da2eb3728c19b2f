package faults_test

import (
	"strings"
	"testing"
)

// TestWarmHeaters: what a string of heaters takes in its first seconds is no
// steady current. On the longest neutral 0.15 A leave 0.1 V on a live chassis,
// and next to 0.06 mA through a person; ten times that, cold, would be 0.5 mA.
func TestWarmHeaters(t *testing.T) {
	text := strings.NewReplacer("construction: transformer", "construction: line-connected", "length: 5 m", "length: 9 m").Replace(head+wires2) + `
parts: {` + fuse + `, V1: {kind: tube, type: 12BE6}, V2: {kind: tube, type: 12BA6}, V3: {kind: tube, type: 12AT6}, V4: {kind: tube, type: 50C5}, V5: {kind: tube, type: 35W4}}
wiring: [plug.hot -> F1 -> V1 -> V2 -> V3 -> V4 -> V5 -> chassis -> plug.neutral]
`
	text = strings.Replace(text, "35W4", "50C5", 1)
	f := one(t, read(t, text), "touch-current", "chassis")
	if !f.Known() || !(f.Range.High < 0.12e-3) {
		t.Errorf("%s: %s", f.Range, f.Note)
	}
	for _, c := range singles(t, read(t, text)) {
		if c.Fault.None() && !(c.Before.High < 0.12e-3) {
			t.Errorf("in the table %g A", c.Before.High)
		}
	}
}
