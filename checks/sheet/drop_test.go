package sheet

import (
	"math"
	"strings"
	"testing"
)

const meters = head + `instruments:
  several:
    measures: {resistance: 0.9 % + 2 digits, voltage: 1 % + 3 digits, capacitance: 3 % + 5 digits, current: 2 %}
    digits: {resistance: 0.1 Ω, voltage: 0.1 mV}
    leads: 0.3 Ω
  feed:  {measures: [voltage, current], accuracy: 2 %}
  loose: {measures: current}
  mute:  {accuracy: 2 %}
  volts: {measures: voltage, accuracy: 1 % + 1 digits, digit: 1 mV, ceiling: 200 mV}
parts:
  R1: {kind: resistor}
  E1: {kind: electrolytic}
readings:
`

func metered(t *testing.T, kind, text string) (*Sheet, string) {
	t.Helper()
	s, problems := Read("x.yaml", []byte(meters+"  "+kind+":\n    - "+text+"\n"))
	var said []string
	for _, p := range problems {
		said = append(said, p.String())
	}
	return s, strings.Join(said, "\n")
}

// TestDrop: volts over amperes with both errors, by hand; leads are in none.
func TestDrop(t *testing.T) {
	inf := math.Inf(1)
	for _, c := range []struct {
		text      string
		low, high float64
		why       string
	}{
		{"current: 1 A, fed-by: feed, reads: 55 mV, with: several", .05415 / 1.02, .05585 / .98, ""},
		{"current: 2 A, fed-by: feed, reads: 55 mV, with: volts", .05345 / 2.04, .05655 / 1.96, ""},
		{"current: 1 A, fed-by: feed, reads: 0 mV, with: several", 0, .0003 / .98, ""},
		{"current: 1 A, fed-by: feed, reads: OL, with: volts", (.2 - .001) / 1.01 / 1.02, inf, ""},
		{"current: 1 A, fed-by: feed, reads: 240 mV, with: volts", (.2 - .001) / 1.01 / 1.02, inf, ""}, // above its ceiling
		{"current: 1 A, fed-by: feed, reads: OL, with: several", 0, inf, "OL says nothing"},
		{"current: 1 A, reads: 55 mV, with: several", 0, inf, "fed-by"},
		{"fed-by: feed, reads: 55 mV, with: several", 0, inf, "current that was passed is not known"},
		{"current: 1 A, fed-by: feed, reads: 55 mV", 0, inf, "no instrument"},
		{"current: 1 A, fed-by: loose, reads: 55 mV, with: several", 0, inf, "accuracy of loose"},
		{"current: 1 A, fed-by: mute, reads: 55 mV, with: several", 0, inf, "what mute measures"},
		{"current: 1 A, fed-by: several, reads: 55 mV, with: several", 0, inf, "a second meter"},
	} {
		s, said := metered(t, "drop", "{between: [plug.ground, chassis], "+c.text+"}")
		if s == nil {
			t.Errorf("%s: %s", c.text, said)
			continue
		}
		rd := s.Readings[0]
		r, ok, why := rd.True()
		near := func(a, b float64) bool { return a == b || math.Abs(a-b) <= 1e-9*math.Abs(b) }
		if rd.Kind != "resistance" || ok != (c.why == "") || !strings.Contains(why, c.why) || ok && (!near(r.Low, c.low) || !near(r.High, c.high)) {
			t.Errorf("%s: %s, %v to %v, %v %q; want %v to %v, %q", c.text, rd.Kind, r.Low, r.High, ok, why, c.low, c.high, c.why)
		}
	}
}

// TestSeveralMeasures: each thing with its own accuracy and digit.
func TestSeveralMeasures(t *testing.T) {
	for _, c := range []struct {
		kind, text string
		low, high  float64
		why        string
	}{
		{"resistance", "across: R1, reads: 10 Ω", 10 - .29 - .3 - .5027, 10.29 - .0973, ""}, // leads 0.3 ± 0.2027
		{"voltage", "across: R1, reads: 1 V", .9897, 1.0103, ""},
		{"capacitance", "across: R1, reads: 1 nF", 0, 0, "one digit"},
		{"insulation", "across: R1, reads: 1 MΩ", 0, 0, "does not measure insulation"},
		{"leakage", "across: E1, volts: 300 V, reads: 1.2 mA, after: 10 min", .001176, .001224, ""},
	} {
		s, said := metered(t, c.kind, "{"+c.text+", with: several}")
		if s == nil {
			t.Errorf("%s: %s", c.text, said)
			continue
		}
		r, ok, why := s.Readings[0].True()
		near := func(a, b float64) bool { return math.Abs(a-b) <= 1e-9*math.Abs(b) }
		if ok != (c.why == "") || !strings.Contains(why, c.why) || ok && (!near(r.Low, c.low) || !near(r.High, c.high)) {
			t.Errorf("%s: %v to %v, %v %q; want %v to %v, %q", c.text, r.Low, r.High, ok, why, c.low, c.high, c.why)
		}
	}
}

// TestDropErrors: what stands the wrong way round is refused with what is right.
func TestDropErrors(t *testing.T) {
	between := "between: [plug.ground, chassis], "
	for _, c := range []struct{ kind, text, want string }{
		{"drop", between + "current: 1 A, fed-by: volts, reads: 55 mV, with: feed", "volts does not measure current; name what read the current"},
		{"drop", between + "current: 1 A, fed-by: feed, reads: 55 mV, with: loose", "loose does not measure voltage; name the meter that read the volts"},
		{"drop", between + "current: 0 A, fed-by: feed, reads: 55 mV, with: several", "current"},
		{"drop", between + "current: 1 V, fed-by: feed, reads: 55 mV, with: several", "a value in A"},
		{"drop", between + "current: 1 A, fed-by: feeder, reads: 55 mV, with: several", "there is no instrument feeder; did you mean feed?"},
		{"drop", between + "current: 1 A, fed-by: feed, reads: 0.06 Ω, with: several", "a value in V"},
		{"drop", between + "current: 1 A, fed-by: feed, reads: {10 s: 55 mV}, with: several", "reads cannot be"},
		{"drop", "across: R1, current: 1 A, fed-by: feed, reads: 55 mV, with: several", "across"},
		{"drop", "current: 1 A, fed-by: feed, reads: 55 mV, with: several", "add between: [A, B]"},
		{"drop", between + "current: 1 A, fed_by: feed, reads: 55 mV, with: several", "fed_by"},
		{"drop", between + "current: 1 A, fed-by: feed, with: several", "reads"},
		{"leakage", "volts: 300 V, reads: 1.2 mA", "add across: PART"},
		{"leakage", "across: E1, volts: 300 V, reads: 1.2 V", "a value in A"},
		{"leakage", "across: E1, volts: 300 V, reads: 1 mA, after: 10", "10"},
		{"leakage", "between: [E1.plus, E1.minus], reads: 1 mA", "between"},
	} {
		if s, said := metered(t, c.kind, "{"+c.text+"}"); s != nil || !strings.Contains(said, c.want) {
			t.Errorf("%s: %q, want %q", c.text, said, c.want)
		}
	}
	for _, c := range []struct{ meter, want string }{
		{"{measures: {resistance: 1 %}, accuracy: 1 %}", "accuracy is told for each thing already"},
		{"{measures: {resistance: 1 % + 2 digits}, digit: 0.1 Ω}", "digit is told for each thing already"},
		{"{measures: {resistance: 1 %}, digits: {voltage: 1 mV}}", "m does not measure voltage"},
		{"{measures: {resistance: 1 % + 1 V}}", "a value in Ω"},
		{"{measures: {resistance: good}}", "good"},
		{"{measures: {ohms: 1 %}}", "ohms"},
		{"{measures: {}}", "measures says nothing"},
		{"{measures: {resistance: 1 % + 2 digits}, digits: {resistance: 1 mV}}", "a value in Ω"},
		{"{measures: resistance, accuracy: 1 % + 2 digits, digits: {resistance: 0.1 Ω}}", "digits belongs to a meter"},
	} {
		s, problems := Read("x.yaml", []byte(head+"instruments:\n  m: "+c.meter+"\n"))
		said := ""
		for _, p := range problems {
			said += p.String() + "\n"
		}
		if s != nil || !strings.Contains(said, c.want) {
			t.Errorf("%s: %q, want %q", c.meter, said, c.want)
		}
	}
}
