package sheet

import (
	"math"
	"reflect"
	"strings"
	"testing"
)

const bench = head + `instruments:
  nulled: {measures: resistance, accuracy: 1 % + 0.1 Ω, leads: nulled, ceiling: 10 MΩ}
  leads: {measures: resistance, accuracy: 1 %, leads: 0.5 Ω}
  open: {measures: resistance, accuracy: 1 %}
  digits: {measures: resistance, accuracy: 1 % + 2 digits, digit: 0.1 Ω, leads: nulled}
  no-digit: {measures: resistance, accuracy: 1 % + 2 digits, leads: nulled}
  no-accuracy: {measures: resistance, leads: nulled}
  no-measure: {accuracy: 1 %, leads: nulled}
  many: {measures: [voltage, resistance], accuracy: 1 % + 1 V, ceiling: 600 V}
  tester: {measures: insulation, accuracy: 10 %, ceiling: 1 GΩ}
parts:
  R1: {kind: resistor}
  S1: {kind: switch}
  F1: {kind: fuse}
  SEL: {kind: selector, positions: {a: [[x, y]]}}
  V1: {kind: tube}
  V2: {kind: rectifier, type: 5Y3-GT}
  D1: {kind: rectifier, of: silicon}
  T1: {kind: transformer, windings: {primary: {ends: [1, 2]}, plate: {ends: [3, 5], tap: 4}}}
readings:
`

func reading(t *testing.T, kind, text string) *Reading {
	t.Helper()
	s, problems := Read("x.yaml", []byte(bench+"  "+kind+":\n    - "+text+"\n"))
	if s == nil {
		t.Fatalf("%s: %v", text, problems)
	}
	return s.Readings[0]
}

// What the true value may be, by hand from the accuracy of each meter.
func TestTrue(t *testing.T) {
	inf := math.Inf(1)
	for _, c := range []struct {
		kind, reads string
		low, high   float64
		why         string // of proving nothing
	}{
		{"resistance", "reads: 100 Ω, with: nulled", 98.9, 101.1, ""},
		{"resistance", "reads: 0 Ω, with: nulled", 0, .1, ""},
		{"resistance", "reads: 10 Ω, with: leads", 8.895, 9.605, ""},                   // 9.9 − 0.5 − 0.505, 10.1 − 0.495
		{"resistance", "reads: 0.4 Ω, with: leads", 0, inf, "have more than was read"}, // 0.404 − 0.495: nothing is clipped to zero
		{"resistance", "reads: 10 Ω, with: open", 0, 10.1, ""},
		{"resistance", "reads: 10 Ω, with: digits", 9.7, 10.3, ""},
		{"resistance", "reads: over 1 MΩ, with: nulled", 989999.9, inf, ""},
		{"resistance", "reads: OL, with: nulled", (10e6 - .1) / 1.01, inf, ""},
		{"resistance", "reads: O.L, range: 1 kΩ, with: nulled", 999.9 / 1.01, inf, ""},
		{"resistance", "reads: 20 MΩ, with: nulled", (10e6 - .1) / 1.01, inf, ""}, // above its ceiling
		{"resistance", "reads: 210 Ω, range: 200 Ω, with: nulled", (210 - .1 - 2.1), 210 + .1 + 2.1, ""},
		{"resistance", "reads: 240 MΩ, range: 2 MΩ, with: nulled", 0, inf, "240 MΩ cannot be read on a range of 2 MΩ"},
		{"resistance", "reads: OL, with: open", 0, inf, "OL says nothing"},
		{"resistance", "reads: 10 Ω", 0, inf, "no instrument"},
		{"resistance", "reads: 10 Ω, with: no-digit", 0, inf, "one digit"},
		{"resistance", "reads: 10 Ω, with: no-accuracy", 0, inf, "accuracy of no-accuracy is not known"},
		{"resistance", "reads: 10 Ω, with: no-measure", 0, inf, "what no-measure measures is not known"},
		{"resistance", "reads: 10 Ω, with: many", 0, inf, "accuracy of many is not known for resistance"},
		{"resistance", "reads: 10 MΩ, with: tester", 0, inf, "does not measure resistance"},
		{"voltage", "reads: 100 V, with: many", 98, 102, ""},
		{"insulation", "reads: {60 s: 300 MΩ, 15 s: 100 MΩ}, with: tester", 270e6, 330e6, ""},
		{"insulation", "reads: OL, with: tester", 1e9 / 1.1, inf, ""},
	} {
		rd := reading(t, c.kind, "{between: [plug.hot, chassis], "+c.reads+"}")
		r, ok, why := rd.True()
		near := func(a, b float64) bool { return a == b || math.Abs(a-b) <= 1e-9*math.Abs(b) }
		if ok != (c.why == "") || !strings.Contains(why, c.why) || !near(r.Low, c.low) || !near(r.High, c.high) {
			t.Errorf("%s: %v to %v, %v %q; want %v to %v, %q", c.reads, r.Low, r.High, ok, why, c.low, c.high, c.why)
		}
	}
}

func TestReadingStates(t *testing.T) {
	rd := reading(t, "resistance", "{between: [plug.hot + plug.neutral, T1.plate], switches: {S1: open}, fuses: {F1: out}, positions: {SEL: a}, without: [tubes, T1.4, R1, T1.primary], reads: OL, taken: 2026-11-01, note: kept}")
	if rd.Name != "plug.hot + plug.neutral – T1.plate" || !reflect.DeepEqual(rd.A, []string{"plug.hot", "plug.neutral"}) || !reflect.DeepEqual(rd.B, []string{"T1.3", "T1.5"}) {
		t.Errorf("probes: %q, %v, %v", rd.Name, rd.A, rd.B)
	}
	if rd.Switch["S1"] != "open" || rd.Fuses["F1"] != "out" || rd.Positions["SEL"] != "a" || rd.Taken != "2026-11-01" {
		t.Errorf("state: %+v", rd)
	}
	if !reflect.DeepEqual(rd.Without, []string{"V1", "V2", "R1"}) || !reflect.DeepEqual(rd.Lifted, []string{"T1.4", "T1.1", "T1.2"}) {
		t.Errorf("without %v, lifted %v", rd.Without, rd.Lifted)
	}
	rd = reading(t, "resistance", "{across: R1, switches: closed, fuses: in, reads: 5 Ω}")
	if rd.Name != "R1" || rd.Switches != "closed" || rd.AllFuses != "in" || rd.A[0] != "R1.1" || rd.B[0] != "R1.2" || rd.AcrossPart.Name != "R1" {
		t.Errorf("across a part: %+v", rd)
	}
	rd = reading(t, "voltage", "{applied: T1.plate, volts: 6 V, across: T1.primary, reads: 110 V}")
	if rd.AppliedW.Name != "plate" || rd.Volts.Low != 6 || rd.AcrossWinding.Name != "primary" || rd.A[0] != "T1.1" {
		t.Errorf("applied: %+v", rd)
	}
}

func TestRuns(t *testing.T) {
	const parts = head + `parts:
  F1: {kind: fuse, holder: panel}
  S1: {kind: switch}
  V1: {kind: tube}
  V2: {kind: rectifier, type: 5Y3-GT}
  D1: {kind: rectifier, of: silicon}
  E1: {kind: electrolytic}
  B1: {kind: body}
  K1: {kind: tie}
  J1: {kind: connector, pins: [p]}
wiring:
`
	s, problems := Read("x", []byte(parts+`  - {run: plug.hot -> F1 -> S1 -> V1 -> V2 -> D1 -> E1 -> J1 -> K1 -> B1, color: black, size: 18 AWG, slack: equal, joint: spring, changed: 2026-11-19}
  - B1->chassis
`))
	if s == nil {
		t.Fatal(problems)
	}
	want := []string{"plug.hot F1.end", "F1.side S1.1", "S1.2 V1.h1", "V1.h2 V2.h1", "V2.h2 D1.anode", "D1.cathode E1.plus", "E1.minus J1.p", "J1.p-mate K1", "K1 B1", "B1 chassis"}
	for i, w := range s.Wires {
		if w.A+" "+w.B != want[i] {
			t.Errorf("wire %d is %s %s, want %s", i+1, w.A, w.B, want[i])
		}
		if i < 9 && (w.Color != "black" || w.Size != "18 AWG" || w.Slack != "equal" || w.Changed != "2026-11-19" || (w.Joint == "spring") != (i == 8)) {
			t.Errorf("%s: %+v", w.Name, w)
		}
	}
	if w := s.Wires[9]; w.Color != "" || w.Size != "" || w.Joint != "" || s.WireOf("wire 10") != w || w.At.Line != 16 || w.At.Column != 5 {
		t.Errorf("the plain run: %+v", w)
	}
}

func TestUpstreamAndCord(t *testing.T) {
	s, problems := Read("x", []byte(head[:strings.Index(head, "supply")]+`supply:
  region: united-kingdom
  plug: bs-1363
  system: neutral
  earthing: tt
  upstream:
    - {kind: rcd, rating: 30 mA, type: a, tested: 2026-11-20}
    - {kind: isolating-transformer, secondary: floating, ground: stopped}
    - {kind: autotransformer, ratio: "230:115", fits: one-way}
    - {kind: adaptor, fits: both-ways, earth: broken}
    - {kind: lamp-box, lamp: 60 W, voltage: 240 V, pole: live, earth: unknown}
cord: {third: 160 Ω, plug-fuse: 3 A, length: 1.8 m, size: 0.75 mm²}
`))
	if s == nil {
		t.Fatal(problems)
	}
	var kinds []string
	for _, l := range s.Upstream {
		kinds = append(kinds, l.Kind)
	}
	if got := strings.Join(kinds, " "); got != "rcd isolating-transformer autotransformer adaptor lamp-box" {
		t.Error(got)
	}
	if ratio, ok := s.Upstream[2].Value("ratio"); !ok || ratio.Low != .5 || s.Upstream[1].Word("earth") != "stopped" || s.Upstream[4].Word("pole") != "hot" {
		t.Errorf("ratio %v, %v", ratio, s.Upstream[4].Word("pole"))
	}
	if size, area, ok := s.ConductorSize(); !ok || size != "0.75 mm²" || math.Abs(area.Low-.75e-6) > 1e-12 {
		t.Errorf("%s, %v", size, area)
	}
}
