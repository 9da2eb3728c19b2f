package bench

import (
	"fmt"
	"strings"
	"testing"

	"firstvolt/checks/figure"
	"firstvolt/checks/sheet"
)

// TestTooMuch: nothing is computed of a sheet with more than is tried, and each
// subject says so; no sound sheet comes near.
func TestTooMuch(t *testing.T) {
	for n, want := range map[int]bool{5: false, 100: false, 1000: true} {
		var parts, runs strings.Builder
		for i := range n {
			fmt.Fprintf(&parts, "  R%d: {kind: resistor}\n", i)
			fmt.Fprintf(&runs, "  - plug.hot -> R%d -> chassis\n", i)
		}
		s, problems := sheet.Read("x.yaml", []byte("firstvolt: 1\nset: {name: X, construction: transformer}\nsupply: {region: europe, plug: cee-7-7}\nparts:\n"+parts.String()+"wiring:\n"+runs.String()))
		if s == nil {
			t.Fatal(problems)
		}
		asked := false
		d := &figure.Def{Name: "any", Room: "entry", Of: []string{"set"}, Present: true}
		c := Check{Def: d, Compute: func(b *Bench) []figure.Figure {
			asked = true
			return []figure.Figure{figure.Is(d, b.Set(), true)}
		}}
		got, fault := c.Run(New(s))
		if fault != "" || len(got) != 1 || got[0].Known() == want || asked == want {
			t.Errorf("%d: %v %q, computed %v", n, got, fault, asked)
		}
		if want && !strings.HasPrefix(got[0].Missing[0].What, "not computed: ") {
			t.Errorf("%d: %v", n, got[0].Missing)
		}
	}
}
