package ratings_test

import (
	"testing"

	"firstvolt/rules"
)

// A unit of two to one that fits both ways puts the whole supply between a
// conductor and earth, though half of it lies between the conductors.
func TestVoltsToEarthBehindAStepDownUnit(t *testing.T) {
	set := func(unit string, more ...string) string {
		return altered(t, larkfield(t), append([]string{"region: north-america", "region: united-kingdom", "plug: nema-5-15", "plug: bs-1363", "  voltage: 121 V ", "  note: x  # ",
			"{kind: variac, earth: through}", "{kind: autotransformer, ratio: 0.5, " + unit + "earth: through}",
			"rating: 1 A, voltage: 250 V", "rating: 1 A, voltage: 125 V", "value: 4.7 nF, class: Y2, voltage: 250 V", "value: 22 nF, class: Y4, voltage: 125 V"}, more...)...)
	}
	asked := []string{"fuse-voltage F1", "switch-rating S1", "safety-capacitor-voltage C1", "chassis-capacitor-class C1"}
	for name, c := range map[string]struct {
		text string
		want rules.Outcome
	}{
		"one way":                    {set("fits: one-way, "), rules.Pass},
		"both ways":                  {set("fits: both-ways, "), rules.Fail},
		"nobody says":                {set(""), rules.Unproven},
		"an adaptor ahead turns":     {set("fits: one-way, ", "    - {kind: autotransformer", "    - {kind: adaptor, fits: both-ways, earth: through}\n    - {kind: autotransformer"), rules.Fail},
		"an adaptor behind does not": {set("fits: one-way, ", "ratio: 0.5, fits: one-way, earth: through}", "ratio: 0.5, fits: one-way, earth: through}\n    - {kind: adaptor, fits: both-ways, earth: through}"), rules.Pass},
		"two lines":                  {set("fits: one-way, ", "region: united-kingdom", "region: united-kingdom\n  system: two-line"), rules.Fail},
		"a plug both ways": {set("fits: one-way, ", "region: united-kingdom", "region: europe", "plug: bs-1363", "plug: cee-7-7",
			"kind: gfci, form: receptacle", "kind: rcd, rating: 30 mA, type: a"), rules.Fail},
		"an isolating transformer behind": {set("fits: both-ways, ", "ratio: 0.5, fits: both-ways, earth: through}",
			"ratio: 0.5, fits: both-ways, earth: through}\n    - {kind: isolating-transformer, secondary: floating, earth: through}"), rules.Pass},
		"up again behind it": {set("fits: one-way, ", "ratio: 0.5, fits: one-way, earth: through}",
			"ratio: 0.5, fits: one-way, earth: through}\n    - {kind: autotransformer, ratio: 2, fits: one-way, earth: through}"), rules.Fail},
	} {
		got := outcomes(t, c.text)
		for _, finding := range asked {
			if o := got[finding].Outcome; o != c.want && !(finding == "switch-rating S1" && o == rules.Warn) {
				t.Errorf("%s: %s is %q, want %q: %s %v", name, finding, o, c.want, got[finding].Says, got[finding].Trace)
			}
		}
		if f := got["fuse-voltage F1"]; c.want == rules.Unproven && (len(f.Needs) == 0 || f.Needs[0].What != "upstream 3 fits") {
			t.Errorf("%s: needs %v", name, f.Needs)
		}
	}
	// 40 nF with a fifth more pass 1.9 mA there and 3.8 mA at all of it.
	for unit, want := range map[string]rules.Outcome{"fits: one-way, ": rules.Pass, "fits: both-ways, ": rules.Fail, "": rules.Unproven} {
		f := outcomes(t, set(unit, "value: 22 nF", "value: 40 nF"))["chassis-capacitor-leakage chassis"]
		if f.Outcome != want {
			t.Errorf("leakage, %s is %q, want %q: %v", unit, f.Outcome, want, f.Trace)
		}
	}
}

// A varistor from a conductor to the chassis meets what the conductor has to
// earth; one between the conductors what lies between these.
func TestVaristorBehindAStepDownUnit(t *testing.T) {
	const rule = "suppressor-voltage V9"
	set := func(fits, run string) []string {
		return []string{"region: north-america", "region: united-kingdom", "plug: nema-5-15", "plug: bs-1363", "  voltage: 121 V ", "  note: x  # ",
			"{kind: variac, earth: through}", "{kind: autotransformer, ratio: 0.5, fits: " + fits + ", earth: through}",
			"  T1:\n", "  V9: {kind: varistor, voltage: 150 V}\n  T1:\n", "  - T1.4 -> chassis\n", "  - T1.4 -> chassis\n  - " + run + "\n"}
	}
	tryChanges(t, larkfield(t), []change{
		{"to the chassis, one way", set("one-way", "S1.2 -> V9 -> chassis"), rule, "pass"},
		{"to the chassis, both ways", set("both-ways", "S1.2 -> V9 -> chassis"), rule, "fail"},
		{"between the conductors, both ways", set("both-ways", "T1.1 -> V9 -> T1.2"), rule, "pass"},
	})
}
