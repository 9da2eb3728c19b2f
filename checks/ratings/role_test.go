package ratings_test

import (
	"testing"

	"firstvolt/checks/figure"
	"firstvolt/checks/ratings"
	"firstvolt/checks/trial"
)

// What a capacitor bridges by the figures of this room and the role that a
// rule may ask for are one and the same, on every sound sheet.
func TestRolesAgreeWithPlaces(t *testing.T) {
	seen := map[string]int{}
	for file, text := range trial.Sheets(t) {
		b := ready(t, text)
		at := map[string]map[string]bool{}
		for _, c := range ratings.Checks {
			figures, fault := c.Run(b)
			if fault != "" {
				t.Fatal(fault)
			}
			for _, f := range figures {
				if f.Present != nil {
					if at[f.Def.Name] == nil {
						at[f.Def.Name] = map[string]bool{}
					}
					at[f.Def.Name][f.Of.Name] = *f.Present
				}
			}
		}
		for _, s := range append(b.Subjects("capacitor"), b.Subjects("electrolytic")...) {
			seen[s.Role]++
			if want := roleFigure(s); want != "" && !at[want][s.Name] {
				t.Errorf("%s: %s has the role %s, and no %s", file, s.Name, s.Role, want)
			}
			if s.Role == "inside" && (at["bridges-line"][s.Name] || at["bridges-mains"][s.Name]) {
				t.Errorf("%s: %s has the role inside, and bridges the mains", file, s.Name)
			}
		}
	}
	for _, role := range []string{"line", "chassis", "accessible", "inside"} {
		if seen[role] == 0 {
			t.Errorf("no capacitor of any sheet has the role %s", role)
		}
	}
}

// roleFigure is the figure that a role goes with.
func roleFigure(s figure.Subject) string {
	return map[string]string{"line": "bridges-line", "contact": "bridges-line", "chassis": "bridges-bonded-chassis", "accessible": "bridges-to-hand"}[s.Role]
}
