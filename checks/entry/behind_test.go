package entry_test

import (
	"testing"

	"firstvolt/checks/bench"
	"firstvolt/checks/sheet"
)

// TestBehindSeriesPart: a filter, choke, inrush limiter or selector between
// the cord and a fuse or switch leaves them in the mains entry.
func TestBehindSeriesPart(t *testing.T) {
	part := func(p string) []string { return []string{"  T1:\n", "  X1: " + p + "\n  T1:\n"} }
	cases := map[string][]string{
		"choke":      append(part("{kind: choke, inductance: 1 mH, resistance: 0.1 Ω}"), hotRun, "  - plug.hot -> X1 -> F1.side\n", switchRun, "  - F1.end -> S1 -> T1.1\n"),
		"thermistor": append(part("{kind: thermistor, cold: 10 Ω}"), hotRun, "  - plug.hot -> X1 -> F1.side\n", switchRun, "  - F1.end -> S1 -> T1.1\n"),
		"resistor":   append(part("{kind: resistor, value: 4.7 Ω}"), hotRun, "  - plug.hot -> X1 -> F1.side\n", switchRun, "  - F1.end -> S1 -> T1.1\n"),
		"selector":   append(part("{kind: selector, positions: {on: [[a, b]], off: [[a, c]]}, set: off}"), hotRun, "  - plug.hot -> X1.a\n  - X1.b -> F1.side\n", switchRun, "  - F1.end -> S1 -> T1.1\n"),
	}
	for name, pairs := range cases {
		t.Run(name, func(t *testing.T) {
			text := edit(t, example(t), pairs...)
			if got := says(computed(t, text)["panel-holder-on-mains F1"]); got != "yes" {
				t.Errorf("panel-holder-on-mains F1: %s", got)
			}
			s, _ := sheet.Read("test.yaml", []byte(text))
			b := bench.New(s)
			if got := b.Of(s.Part("S1")).Role; got != "mains" {
				t.Errorf("role of the switch: %s", got)
			}
		})
	}
}

// TestHolderBehindSeriesPart: which contact the cord comes to is found through
// what stands between, or stays open; a resistor may be a bleeder.
func TestHolderBehindSeriesPart(t *testing.T) {
	for p, want := range map[string]string{"{kind: choke, inductance: 1 mH, resistance: 0.1 Ω}": "no", "{kind: resistor, value: 4.7 Ω}": "unknown"} {
		text := edit(t, example(t), "  T1:\n", "  X1: "+p+"\n  T1:\n", hotRun, "  - plug.hot -> X1 -> F1.side\n", switchRun, "  - F1.end -> S1 -> T1.1\n")
		if got := says(computed(t, text)["end-contact-on-cord-side F1"]); got != want {
			t.Errorf("%s: end contact on the cord side: %s, want %s", p, got, want)
		}
	}
}
