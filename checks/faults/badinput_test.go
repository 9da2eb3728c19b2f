package faults_test

import (
	"math"
	"strings"
	"testing"

	"firstvolt/checks/bench"
	"firstvolt/checks/faults"
	"firstvolt/checks/figure"
)

// finite holds every figure and every case of a set to numbers that can be:
// no panic, nothing that is not a number, no low end above its high one.
func finite(t *testing.T, b *bench.Bench) {
	t.Helper()
	for _, f := range figures(t, b) {
		if f.Present == nil && f.Known() && !(f.Range.Low >= 0 && f.Range.Low <= f.Range.High && f.Range.High > 0) {
			t.Errorf("%s of %s: %g to %g", f.Def.Name, f.Of.Name, f.Range.Low, f.Range.High)
		}
		if !f.Known() && f.Present == nil && (len(f.Missing) == 0 || f.Missing[0].What == "") {
			t.Errorf("%s of %s is missing and nothing is named", f.Def.Name, f.Of.Name)
		}
		for _, line := range append([]string{f.Note}, f.Trace...) {
			if strings.Contains(line, "NaN") {
				t.Errorf("%s of %s: %s", f.Def.Name, f.Of.Name, line)
			}
		}
	}
	cases, err := faults.Table(b)
	if err != nil {
		return // said, not silent
	}
	if len(cases) == 0 {
		t.Error("no cases and no error")
	}
	for _, c := range cases {
		for _, x := range []float64{c.Before.High, c.After.High} {
			if !(x >= 0 && x < math.Inf(1)) {
				t.Errorf("%g A: %+v", x, c)
			}
		}
		if !(c.Before.Low >= 0 && c.Before.Low <= c.Before.High && c.After.Low <= c.After.High && c.Earliest >= 0 && c.Earliest <= c.Latest) || c.Effect == "" {
			t.Errorf("%+v", c)
		}
	}
}

// TestBadInput: what is zero, absent or wired to nothing gives a range whose
// dangerous end is there, and the sentence says what carries it, or is named as
// missing; it is never a small current.
func TestBadInput(t *testing.T) {
	none := strings.Replace(head, ", test: 500 V", ", test: 100 V", 1) // proves nothing
	part := func(kind, wiring string) string {
		return head + wires2 + "parts: {Knob: {kind: body}, X: {" + kind + "}}\nwiring: [" + wiring + "]\n"
	}
	const toKnob = "plug.hot -> X -> Knob"
	const dead = 127.0 / (850 + hot) // A
	wiring := 127 / person60(stray)  // A of wiring beside metal, from the handbook
	for _, c := range []struct {
		what, text, subject string
		missing             string  // what is named as missing; empty: a range
		low, high           float64 // A: at most low, at least high
		says                string
	}{
		{"metal on nothing", knob(loose), "Knob", "", 0, wiring, "Knob carries 127 V"},
		{"insulation never read", strings.Replace(loose, head, none, 1), "chassis", "", 0.5e-3, dead, "the chassis carries 127 V"},
		{"insulation read with no instrument", strings.Replace(loose, ", with: megger", "", 1), "chassis", "", 0.5e-3, dead, "the chassis carries 127 V"},
		{"capacitor of no value", part("kind: capacitor", toKnob), "Knob", "", 0.5e-3, 0.1, "Knob carries 127 V"},
		{"electrolytic of no value", part("kind: electrolytic", "plug.hot -> X.plus, X.minus -> Knob"), "Knob", "", 0.5e-3, 0.1, "Knob carries"},
		{"resistor of 0 Ω", part("kind: resistor, value: 0 Ω", toKnob), "Knob", "", dead, dead, "Knob carries 127 V"},
		{"resistor of no value", part("kind: resistor", toKnob), "Knob", "", 0.5e-3, dead, "Knob carries 127 V"},
		{"choke of nothing", part("kind: choke", toKnob), "Knob", "", dead, dead, "Knob carries 127 V"},
		{"thermistor of no value", part("kind: thermistor", toKnob), "Knob", "", dead, 0.1, "Knob carries"},
		{"neon of no resistor", part("kind: neon", toKnob), "Knob", "", 0.5e-3, 127 / (1e3 + 1125 + hot), "Knob carries 127 V"},
		{"lamp of no value", part("kind: lamp", toKnob), "Knob", "", dead, dead, "Knob carries 127 V"},
		{"rectifier", part("kind: rectifier, of: silicon", toKnob), "Knob", "the current that a rectifier or a part that strikes brings to Knob", 0, 0, ""},
		{"winding of no volts on the mains", part("kind: transformer, windings: {primary: {ends: [1, 2], voltage: 120 V}, plate: {ends: [3, 4]}}",
			"plug.hot -> X.1, plug.neutral -> X.2, plug.hot -> X.3, X.4 -> Knob"), "Knob", "X.plate voltage", 0, 0, ""},
		{"tap of no volts on the mains", part("kind: transformer, windings: {primary: {ends: [1, 2], voltage: 120 V}, plate: {ends: [3, 5], tap: 4}}",
			"plug.hot -> X.1, plug.neutral -> X.2, plug.hot -> X.3, X.4 -> Knob"), "Knob", "X.plate voltage", 0, 0, ""},
		{"no wiring", head + wires2, "chassis", "the wiring", 0, 0, ""},
		{"cord of no size", strings.Replace(loose, "size: 1.0 mm², ", "", 1), "chassis", "", 0.5e-3, 127 * 10.1 / 14.1 / person60(14.1e-9), "the chassis carries"},
		{"isolating transformer that may be bonded", with(loose, "{kind: isolating-transformer}"), "chassis", "", 0.5e-3, 127 * 10.1 / 14.1 / person60(14.1e-9), "the chassis carries"},
	} {
		t.Run(c.what, func(t *testing.T) {
			b := read(t, c.text)
			finite(t, b)
			f := one(t, b, "touch-current", c.subject)
			if c.missing != "" {
				if f.Known() || len(f.Missing) == 0 || f.Missing[0].What != c.missing {
					t.Errorf("%s, missing %v; want missing %q", f.Range, f.Missing, c.missing)
				}
				return
			}
			if !f.Known() || !(f.Range.High >= math.Max(10e-6, c.high*(1-1e-4))) || !(f.Range.Low <= c.low) || !strings.Contains(f.Note, c.says) {
				t.Errorf("%s (%v): %s; want from %g A or less to %g A or more", f.Range, f.Missing, f.Note, c.low, c.high)
			}
		})
	}
}

// TestBadDevice: what must open a fault and is not known is named, never taken
// to open.
func TestBadDevice(t *testing.T) {
	for _, c := range []struct{ what, from, to, missing string }{
		{"fuse of no rating", "rating: 1 A, ", "", "rating, speed and standard of F1"},
		{"fuse of no standard", ", standard: iec-60127", "", "rating, speed and standard of F1"},
	} {
		text := strings.Replace(bonded, c.from, c.to, 1)
		b := read(t, text)
		finite(t, b)
		f := one(t, b, "fault-that-stays", "set")
		if f.Known() || !has(f.Missing, c.missing) {
			t.Errorf("%s: %v %s, missing %v", c.what, f.Present, f.Note, f.Missing)
		}
	}
	// A fuse and an RCD of no rating.
	for _, text := range []string{strings.Replace(bonded, "rating: 1 A, ", "", 1), with(bonded, "{kind: rcd, type: a, tested: 2026-11-20}")} {
		b := read(t, text)
		finite(t, b)
		cases, err := faults.Table(b)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range cases {
			if c.Opens.Kind == faults.RCD {
				t.Errorf("an RCD of no rating: %+v", c)
			}
		}
	}
}

func has(needs []figure.Need, what string) bool {
	for _, n := range needs {
		if strings.HasPrefix(n.What, what) {
			return true
		}
	}
	return false
}
