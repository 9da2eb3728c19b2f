package entry_test

import "testing"

func TestOutlet(t *testing.T) {
	outlet := func(runs string) []string {
		return []string{"  T1:\n", "  O1: {kind: outlet, load: 0.1 A}\n  T1:\n", switchRun, switchRun + runs}
	}
	const straight, crossed = "  - S1.2 -> O1.hot\n  - T1.2 -> O1.neutral\n", "  - S1.2 -> O1.neutral\n  - T1.2 -> O1.hot\n"
	for name, c := range map[string]struct {
		pairs []string
		want  string
	}{
		"straight":                       {outlet(straight), "yes"},
		"exchanged":                      {outlet(crossed), "no"},
		"exchanged on a reversible plug": {append(outlet(crossed), "nema-5-15", "nema-1-15"), "yes"},
		"hot left out":                   {outlet("  - T1.2 -> O1.neutral\n"), "unknown"},
		"both on hot":                    {outlet("  - S1.2 -> O1.hot\n  - T1.1 -> O1.neutral\n"), "unknown"},
		"neutral on the chassis":         {outlet("  - S1.2 -> O1.hot\n  - chassis -> O1.neutral\n"), "unknown"},
	} {
		if got := says(computed(t, edit(t, example(t), c.pairs...))["outlet-wired-true O1"]); got != c.want {
			t.Errorf("%s: %s, want %s", name, got, c.want)
		}
	}
}

// An outlet of two poles has no ground contact that ground could reach; one of
// which the sheet does not say so has.
func TestOutletWithoutGround(t *testing.T) {
	for says2, want := range map[string]string{", ground: none": "no", "": "yes"} {
		text := edit(t, example(t), "  T1:\n", "  O1: {kind: outlet, load: 0.1 A"+says2+"}\n  T1:\n", switchRun, switchRun+"  - S1.2 -> O1.hot\n  - T1.2 -> O1.neutral\n")
		if got := says(computed(t, text)["has-ground-metal O1"]); got != want {
			t.Errorf("outlet%s: has-ground-metal is %s, want %s", says2, got, want)
		}
	}
}
