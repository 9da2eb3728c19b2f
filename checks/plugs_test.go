package checks_test

import (
	"testing"

	"firstvolt/checks/handbook"
)

// Every plug of every region, with two conductors and with three: whether hot can
// be told from neutral decides what is asked of switch and fuse; whether plug and
// cord carry ground, what is asked of the chassis.
func TestEveryPlugWithEveryCord(t *testing.T) {
	two := []string{"  - {run: plug.ground -> chassis, color: green, joint: own-screw, slack: longest}\n", "",
		"    - {between: [plug.ground, chassis], reads: 0.06 Ω, with: milliohm}\n", "", "conductors: 3", "conductors: 2"}
	asked, plugs := 0, 0
	for _, region := range handbook.Regions() {
		r, _ := handbook.Region(region)
		for _, p := range r.Plugs {
			plugs++
			for _, conductors := range []int{2, 3} {
				pairs := []string{"region: north-america", "region: " + region, "plug: nema-5-15", "plug: " + p.Name}
				if conductors == 2 {
					pairs = append(pairs, two...)
				}
				got, j := judged(t, "larkfield-six-forty", pairs...)
				grounded := p.Ground && conductors == 3
				for rule, want := range map[string]bool{
					"switch-opens-hot set":        p.Fits == "one-way",
					"hot-meets-fuse-first set":    true,
					"both-sides-open set":         p.Fits == "both-ways",
					"both-sides-fused set":        p.Fits == "both-ways",
					"plug-keeps-polarity plug":    !grounded && r.KeyedTwoPole,
					"ground-runs-through chassis": grounded,
					"chassis-bonded chassis":      grounded,
				} {
					if _, is := got[rule]; is != want {
						t.Errorf("%s, %s, %d conductors: %s asked: %v, want %v", region, p.Name, conductors, rule, is, want)
					}
					asked++
				}
				if keyed := got["plug-keeps-polarity plug"]; keyed == "pass" && p.Fits != "one-way" || keyed == "fail" && p.Fits == "one-way" {
					t.Errorf("%s, %s, %d conductors: plug-keeps-polarity %s", region, p.Name, conductors, keyed)
				}
				if one := got["unearthed-chassis-single-fault chassis"]; !grounded && one == "pass" {
					t.Errorf("%s, %s, %d conductors: one layer to the chassis passes", region, p.Name, conductors)
				}
				if cleared := region == "north-america" && grounded; cleared != (j.Verdict == "cleared") {
					t.Errorf("%s, %s, %d conductors: %s", region, p.Name, conductors, j.Verdict)
				}
			}
		}
	}
	t.Logf("%d plugs, %d questions", plugs, asked)
}
