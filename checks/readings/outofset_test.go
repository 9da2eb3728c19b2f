package readings_test

import (
	"fmt"
	"strings"
	"testing"
)

// stringSet is a set on the line whose heaters no table knows, with a silicon
// rectifier and a filter capacitor beside them.
const stringSet = `firstvolt: 1
set: {name: Marrick Universal, construction: line-connected, chassis: enclosed, rebuilt: 2026-10-05}
supply: {region: united-kingdom, plug: bs-1363, receptacle: tested}
cord: {conductors: 2, size: 0.75 mm², length: 2 m, inlet: none}
instruments:
  dmm: {measures: resistance, accuracy: 0.8 % + 3 digits, digit: 0.1 Ω, leads: nulled, ceiling: 40 MΩ}
parts:
  F1: {kind: fuse, rating: 500 mA, speed: time-delay, standard: iec-60127, body: glass, holder: in-line}
  S1: {kind: switch, poles: 1, frame: none}
  R1: {kind: resistor, value: 780 Ω, tolerance: 5 %}
  V1: {kind: tube, type: XUCH9}
  V2: {kind: tube, type: XUL9}
  R2: {kind: resistor, value: 160 Ω, tolerance: 5 %}
  D1: {kind: rectifier, of: silicon}
  C1: {kind: electrolytic, value: 47 µF}
wiring:
  - plug.hot -> F1.1
  - F1.2 -> S1.1
  - plug.neutral -> chassis
  - S1.2 -> R1 -> V2 -> V1 -> chassis
  - S1.2 -> R2 -> D1 -> C1 -> chassis
readings:
  taken: 2026-10-06
  resistance:
    - {between: [plug.hot, plug.neutral], switches: closed, reads: 860 Ω, with: dmm}
    - {across: V1, reads: 18.5 Ω, with: dmm}
    - {across: V2, reads: 60 Ω, with: dmm}
`

// TestTubeReadAlone: the heater of a tube that no table knows is known by its own
// reading, in the set or out of it.
func TestTubeReadAlone(t *testing.T) {
	out := func(words string) []swap {
		return []swap{{"across: V1,", "across: V1, without: [" + words + "],"}, {"across: V2,", "across: V2, without: [" + strings.ReplaceAll(words, "V1", "V2") + "],"}}
	}
	for _, c := range []struct {
		name  string
		swaps []swap
		want  string
	}{
		{"in its socket", nil, "pass"},
		{"out of the set", out("V1"), "pass"},
		{"all tubes out", out("tubes"), "pass"},
		{"one not read", []swap{{"    - {across: V1, reads: 18.5 Ω, with: dmm}\n", ""}}, "unproven"},
		{"one read in a socket that is empty", []swap{{"across: V1,", "between: [V1.h1, V1.h2], without: [V1],"}}, "unproven"},
		{"the plug reads a short", []swap{{"reads: 860 Ω", "reads: 480 Ω"}}, "fail"},
	} {
		fs := judge(t, altered(t, stringSet, c.swaps...))
		if got := outcome(fs, "plug-on-resistance plug"); got != c.want {
			t.Errorf("%s: %s, want %s: %+v", c.name, got, c.want, fs["plug-on-resistance plug"])
		}
		for _, v := range []string{"V1", "V2"} {
			if got := outcome(fs, "reading-agrees "+v); got == "fail" {
				t.Errorf("%s: the reading across %s fails", c.name, v)
			}
		}
	}
}

// TestChargedElectrolytic: an electrolytic that a meter can only charge stands for
// some thousand ohms and more; one that it may feed backward may be anything.
func TestChargedElectrolytic(t *testing.T) {
	for _, c := range []struct {
		name  string
		swaps []swap
		want  string
	}{
		{"charged through the rectifier", nil, "pass"},
		{"charged without one", []swap{{"R2 -> D1 -> C1 -> chassis", "R2 -> C1 -> chassis"}, {"  D1: {kind: rectifier, of: silicon}\n", ""}}, "pass"},
		{"and shorted", []swap{{"reads: 860 Ω", "reads: 136 Ω"}}, "fail"},
		{"fed backward", []swap{{"R2 -> D1 -> C1 -> chassis", "R2 -> C1.minus"}, {"  - S1.2 -> R2 ->", "  - C1.plus -> chassis\n  - S1.2 -> R2 ->"}, {"  D1: {kind: rectifier, of: silicon}\n", ""}}, "unproven"},
		{"fed backward by the leads", []swap{{"R2 -> D1 -> C1 -> chassis", "R2 -> C1 -> chassis"}, {"  D1: {kind: rectifier, of: silicon}\n", ""}, {"between: [plug.hot, plug.neutral]", "between: [plug.neutral, plug.hot]"}}, "unproven"},
	} {
		fs := judge(t, altered(t, stringSet, c.swaps...))
		if got := outcome(fs, "plug-on-resistance plug"); got != c.want {
			t.Errorf("%s: %s, want %s: %+v", c.name, got, c.want, fs["plug-on-resistance plug"])
		}
		if needs := fmt.Sprint(fs["plug-on-resistance plug"].Needs); c.want == "unproven" && !strings.Contains(needs, "the other way round") {
			t.Errorf("%s: settled by %s", c.name, needs)
		}
	}
}
