package faults_test

import (
	"slices"
	"testing"

	"firstvolt/checks/faults"
)

// Every part that is wired at both ends and can fail has a fault of its own in the
// table; what a tube or rectifier shorts inside is never said to be harmless.
func TestEveryPartFails(t *testing.T) {
	seen := map[string]bool{}
	for name, text := range sheetsOf(t) {
		if !slices.Contains([]string{"marlow-bay-seven.yaml", "hollinbray-universal.yaml", "hexworthy-heater-box.yaml", "wexcombe-junior.yaml"}, name) {
			continue
		}
		b := read(t, text)
		cases, err := faults.Singles(b)
		if err != nil {
			t.Fatal(name, err)
		}
		for _, p := range b.Sheet.Parts {
			wired := 0
			for _, terminal := range p.Terminals() {
				if b.Sheet.OnWire(p.Full(terminal)) {
					wired++
				}
			}
			if p.Kind.Failures == nil || wired < 2 {
				continue
			}
			if !slices.ContainsFunc(cases, func(c faults.Case) bool { _, itself := c.Fault.About(p.Name); return itself }) {
				t.Errorf("%s: no fault of %s, %s", name, p.Name, p.Kind.Name)
			}
			seen[p.Kind.Name] = true
		}
		for _, c := range cases {
			if c.Fault.Kind == faults.JoinedInside && !c.Unsolved {
				t.Errorf("%s: %s is %s, and a rectifier takes part", name, c.Fault, c.Effect)
			}
		}
	}
	for _, kind := range []string{"lamp", "rectifier", "tube", "connector", "selector", "fuse", "switch", "capacitor", "transformer"} {
		if !seen[kind] {
			t.Errorf("no %s on these sheets", kind)
		}
	}
}
