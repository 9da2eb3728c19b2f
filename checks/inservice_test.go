package checks_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"firstvolt/checks/quantity"
	"firstvolt/checks/trial"
)

// TestInServiceCodes holds the rulebook against what the codes for tests in
// service and after repair let through (testdata/published/inservice.txt): a
// set that is 1 % beyond a limit is never accepted, and one a fifth beyond it
// fails.
func TestInServiceCodes(t *testing.T) {
	for _, c := range trial.Rows(t, "inservice.txt", 6) {
		if c[5] != "published" && c[5] != "from-memory" {
			t.Fatalf("not a status: %s", c[5])
		}
		t.Run(strings.Join(c[:4], " "), func(t *testing.T) {
			rule, within := inService(t, c, 0)
			if within != "pass" {
				t.Errorf("%s is %s well within the limit", rule, within)
			}
			if rule, got := inService(t, c, 0.01); got != "fail" && got != "unproven" {
				t.Errorf("%s is %q 1 %% beyond %s", rule, got, c[4])
			}
			if rule, got := inService(t, c, 0.2); got != "fail" {
				t.Errorf("%s is %q a fifth beyond %s", rule, got, c[4])
			}
		})
	}
}

// inService judges the set of a row with its quantity this share beyond the
// limit; with a share of 0 as the sound sheet has it.
func inService(t *testing.T, c []string, beyond float64) (rule, outcome string) {
	t.Helper()
	dim := map[string]quantity.Dim{"bond": quantity.Resistance, "insulation": quantity.Resistance, "leakage": quantity.Current}[c[1]]
	limit, err := quantity.Parse(c[4], dim)
	if err != nil {
		t.Fatal(err)
	}
	sheet, cord, insulation := "larkfield-six-forty", "size: 18 AWG, length: 6 ft", "240 MΩ"
	if c[2] == "unearthed" {
		sheet, insulation = "larchmere-compact", "260 MΩ"
	}
	var pairs []string
	if size, length, ok := strings.Cut(c[3], ", "); ok {
		pairs = append(pairs, cord, "size: "+size+", length: "+length)
	}
	switch c[1] {
	case "bond":
		rule = "bond-resistance chassis"
		var area, metres float64
		if n, err := fmt.Sscanf(c[3], "%f mm², %f m", &area, &metres); n != 2 {
			t.Fatal(c[3], err)
		}
		ohms := 17.241e-3*metres/area + 0.03 // the cord's own copper, and a good joint
		if beyond > 0 {
			ohms = limit.High * (1 + beyond)
		}
		pairs = append(pairs, "chassis], reads: 0.06 Ω", fmt.Sprintf("chassis], reads: %.5f Ω", ohms))
	case "insulation":
		rule = "insulation-mains-chassis chassis"
		if beyond > 0 {
			pairs = append(pairs, "reads: "+insulation, "reads: "+quantity.Format(limit.Low/(1+beyond), quantity.Resistance))
		}
	case "leakage":
		rule = "chassis-capacitor-leakage chassis"
		// The code measures at the supply as it is: 120 V, 60 Hz.
		farads := 1e-9
		if beyond > 0 {
			farads = limit.High * (1 + beyond) / (2 * math.Pi * 60 * 120)
		}
		pairs = append(pairs, "\nparts:\n", "\nparts:\n  C99: {kind: capacitor, class: Y1, voltage: 250 V, value: "+quantity.Format(farads, quantity.Capacitance)+"}\n",
			"  - T1.4 -> chassis", "  - T1.4 -> chassis\n  - T1.1 -> C99 -> chassis")
	}
	got, _ := judged(t, sheet, pairs...)
	return rule, got[rule]
}
