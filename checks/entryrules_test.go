package checks_test

import "testing"

// TestEntryRules: outcomes of rules of the mains entry that hang on more than
// one figure or on a fact.
func TestEntryRules(t *testing.T) {
	const millstead, larkfield = "millstead-cord-set", "larkfield-six-forty"
	for _, c := range []struct {
		name, sheet string
		pairs       []string
		want        map[string]string
	}{
		{"a resistance in the cord, 1 A in the plug", millstead, nil, map[string]string{"hot-meets-fuse-first set": "caution", "plug-fuse-fits-cord plug": "pass"}},
		{"3 A", millstead, []string{"plug-fuse: 1 A", "plug-fuse: 3 A"}, map[string]string{"hot-meets-fuse-first set": "caution"}},
		{"5 A", millstead, []string{"plug-fuse: 1 A", "plug-fuse: 5 A"}, map[string]string{"hot-meets-fuse-first set": "fail"}},
		{"none", millstead, []string{", plug-fuse: 1 A", ""}, map[string]string{"hot-meets-fuse-first set": "fail"}},
		{"the resistance on nothing", millstead, []string{", plug-fuse: 1 A", "", "  - plug.ground -> S1.3\n", ""}, map[string]string{"hot-meets-fuse-first set": "pass"}},
		{"a single pole in hot, the resistance on the string", millstead, []string{"  - plug.ground -> S1.3\n", "", "  - S1.4 -> V5", "  - plug.ground -> V5", "poles: 2", "poles: 1"}, map[string]string{"switch-opens-hot set": "fail"}},
		{"colours of several schemes", larkfield, []string{"color: black", "color: red"}, map[string]string{"conductor-colors cord": "caution"}},
		{"of another region", larkfield, []string{"color: black", "color: brown", "color: white", "color: blue", "color: green,", "color: green-yellow,"}, map[string]string{"conductor-colors cord": "caution"}},
		{"a neutral's colour on hot", larkfield, []string{"color: black", "color: grey"}, map[string]string{"conductor-colors cord": "fail"}},
		{"ground's colour on hot", larkfield, []string{"color: black", "color: green-yellow"}, map[string]string{"conductor-colors cord": "fail"}},
		{"one colour not given", larkfield, []string{", color: white", ""}, map[string]string{"conductor-colors cord": "unproven"}},
		{"the region's own", larkfield, nil, map[string]string{"conductor-colors cord": "pass"}},
		// Which conductor is hot nobody can say there: the lamp box is a caution,
		// whatever its pole.
		{"both ways, lamp in hot", "valmorel-orfeo", nil, map[string]string{"limiter-in-hot upstream 2": "caution"}},
		{"both ways, lamp in neutral", "valmorel-orfeo", []string{"pole: hot", "pole: neutral"}, map[string]string{"limiter-in-hot upstream 2": "caution"}},
		{"both ways, pole not known", "valmorel-orfeo", []string{"pole: hot, ", ""}, map[string]string{"limiter-in-hot upstream 2": "caution"}},
		{"two-line supply, pole not known", larkfield, []string{"pole: hot, ", "", "region: north-america", "region: north-america\n  system: two-line"}, map[string]string{"limiter-in-hot upstream 2": "caution"}},
		{"one way, lamp in neutral", larkfield, []string{"pole: hot", "pole: neutral"}, map[string]string{"limiter-in-hot upstream 2": "fail"}},
		{"one way, pole not known", larkfield, []string{"pole: hot, ", ""}, map[string]string{"limiter-in-hot upstream 2": "unproven"}},
		{"a joint that does not say, pole not known", larkfield, []string{"pole: hot, ", "", ", inlet: none", ""}, map[string]string{"limiter-in-hot upstream 2": "unproven"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, _ := judged(t, c.sheet, c.pairs...)
			for k, want := range c.want {
				if got[k] != want {
					t.Errorf("%s: %q, want %s", k, got[k], want)
				}
			}
		})
	}
}
