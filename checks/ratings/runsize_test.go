package ratings_test

import "testing"

// The size of a run on the mains side carries the fuse; of the ground path it
// is no less than the cord's.
func TestRunCarriesFuse(t *testing.T) {
	const (
		hot    = "- {run: plug.hot -> F1.end, color: black}"
		inside = "- F1.side -> S1 -> T1.1"
		ground = "- {run: plug.ground -> chassis, color: green,"
		c1     = "- S1.2 -> C1 -> chassis"
	)
	sized := func(run, size string) string { return "- {run: " + run + ", size: " + size + "}" }
	for _, c := range []struct {
		why  string
		text string
		want string
	}{
		{"as the sheet has it", larkfield(t), ""},
		{"18 AWG ahead of the fuse", altered(t, larkfield(t), hot, "- {run: plug.hot -> F1.end, color: black, size: 18 AWG}"), "pass"},
		{"behind it", altered(t, larkfield(t), inside, sized("F1.side -> S1 -> T1.1", "20 AWG")), "pass"},
		{"20 AWG behind a fuse of 6 A", altered(t, larkfield(t), inside, sized("F1.side -> S1 -> T1.1", "20 AWG"), "rating: 1 A", "rating: 6 A"), "fail"},
		{"0.5 mm² behind one of 5 A", altered(t, larkfield(t), inside, sized("F1.side -> S1 -> T1.1", "0.5 mm²"), "rating: 1 A", "rating: 5 A"), "fail"},
		{"40 AWG", altered(t, larkfield(t), inside, sized("F1.side -> S1 -> T1.1", "40 AWG")), "unproven"},
		{"to the capacitor", altered(t, larkfield(t), c1, sized("S1.2 -> C1 -> chassis", "40 AWG")), "unproven"},
		{"a heater's", altered(t, larkfield(t), "- T1.4 -> chassis", sized("T1.4 -> chassis", "40 AWG")), ""},
		{"ground as the cord", altered(t, larkfield(t), ground, ground+" size: 18 AWG,"), "pass"},
		{"ground thinner than the cord", altered(t, larkfield(t), ground, ground+" size: 20 AWG,"), "fail"},
		{"ground, the cord unsaid", altered(t, larkfield(t), ground, ground+" size: 18 AWG,", "size: 18 AWG, length", "length"), "unproven"},
	} {
		f, asked := outcomes(t, c.text)["run-carries-fuse set"]
		if got := string(f.Outcome); got != c.want && (asked || c.want != "") {
			t.Errorf("%s: %q, want %q: %s", c.why, got, c.want, f.Says)
		}
	}
}
