package entry_test

import (
	"strings"
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

// TestProtectiveResistorInAnyPosition: a resistor that a selector brings to
// the line in another position than the one it is set to is judged all the same.
func TestProtectiveResistorInAnyPosition(t *testing.T) {
	got := computed(t, edit(t, example(t), "  T1:\n", "  R1: {kind: resistor, value: 100 kΩ}\n  X1: {kind: selector, positions: {low: [[a, b]], high: [[a, c]]}, set: low}\n  T1:\n",
		switchRun, switchRun+"  - S1.2 -> X1.a\n  - X1.c -> R1 -> chassis\n"))
	for name, want := range map[string]string{"impedance-to-line chassis": "yes", "impedance-components chassis": "1"} {
		if s := says(got[name]); s != want {
			t.Errorf("%s: %s, want %s", name, s, want)
		}
	}
	if f := got["impedance-current-one-shorted chassis"]; f.Known() && f.Range.High <= 0.5e-3 {
		t.Errorf("one resistor shorted: %s", f.Range)
	}
}

// TestGroundOnTheWay: a body that the ground wire comes to first holds it as
// well as the chassis must, and a cord of unknown conductors brings no ground.
func TestGroundOnTheWay(t *testing.T) {
	for joint, want := range map[string]string{"spring": "no", "shared-screw": "no", "own-screw": "yes"} {
		got := computed(t, edit(t, example(t), "  T1:\n", "  Shaft: {kind: body}\n  T1:\n",
			groundRun, "  - {run: plug.ground -> Shaft, color: green, joint: "+joint+", slack: longest}\n  - {run: Shaft -> chassis, joint: own-screw}\n"))
		if s := says(got["ground-fastened-alone chassis"]); s != want {
			t.Errorf("%s: %s, want %s", joint, s, want)
		}
	}
	if s := says(computed(t, edit(t, example(t), "conductors: 3, ", ""))["bonded-by-wire chassis"]); s != "unknown" {
		t.Errorf("conductors not given: bonded %s", s)
	}
	s, _ := sheet.Read("test.yaml", []byte(edit(t, example(t), "inlet: none", "inlet: iec-60320-c8")))
	if bench.New(s).Grounded() {
		t.Error("an inlet of two poles brings a ground")
	}
}

// TestJointOfATurnedGroundRun: a joint is that of the last terminal of its run.
// One that is stated at the pin says nothing of the chassis; one at the chassis
// does, whichever way the rest of the path is written.
func TestJointOfATurnedGroundRun(t *testing.T) {
	const shaft = "  Shaft: {kind: body}\n  T1:\n"
	for _, c := range []struct{ name, runs, want string }{
		{"own screw at the pin", "  - {run: chassis -> plug.ground, color: green, joint: own-screw, slack: longest}\n", "unknown"},
		{"own lug at the pin", "  - {run: chassis -> plug.ground, color: green, joint: own-solder-lug, slack: longest}\n", "unknown"},
		{"a spring at the pin", "  - {run: chassis -> plug.ground, color: green, joint: spring, slack: longest}\n", "no"},
		{"own screw at a shaft on the way", "  - {run: plug.ground -> Shaft, color: green, slack: longest}\n  - {run: chassis -> Shaft, joint: own-screw}\n", "unknown"},
		{"turned from shaft to pin, own screw at the chassis", "  - {run: Shaft -> plug.ground, color: green, slack: longest}\n  - {run: Shaft -> chassis, joint: own-screw}\n", "yes"},
		{"turned from shaft to pin, shared screw at the chassis", "  - {run: Shaft -> plug.ground, color: green, slack: longest}\n  - {run: Shaft -> chassis, joint: shared-screw}\n", "no"},
	} {
		text := edit(t, example(t), groundRun, c.runs)
		if strings.Contains(c.runs, "Shaft") {
			text = edit(t, text, "  T1:\n", shaft)
		}
		if s := says(computed(t, text)["ground-fastened-alone chassis"]); s != c.want {
			t.Errorf("%s: %s, want %s", c.name, s, c.want)
		}
	}
}

// TestProtectiveResistorBehindNeon: a neon lamp in the way is no second
// protective component.
func TestProtectiveResistorBehindNeon(t *testing.T) {
	got := computed(t, edit(t, example(t), "  T1:\n", "  R1: {kind: resistor, value: 1 MΩ}\n  N1: {kind: neon, voltage: 65 V}\n  T1:\n",
		switchRun, switchRun+"  - S1.2 -> R1 -> N1 -> chassis\n"))
	if s := says(got["impedance-components chassis"]); s != "1" {
		t.Errorf("components %s, want 1", s)
	}
	if f := got["impedance-current-one-shorted chassis"]; f.Known() && f.Range.High <= 0.5e-3 {
		t.Errorf("with the resistor shorted: %s", f.Range)
	}
}

// TestJointThatDoesNotSay: with the fuse and the switch in neutral, a joint
// that is not described makes nothing of it better.
func TestJointThatDoesNotSay(t *testing.T) {
	neutral := []string{hotRun, "  - {run: plug.hot -> T1.1, color: black}\n", switchRun, "", neutralRun, "  - {run: plug.neutral -> F1.end, color: white}\n  - F1.side -> S1 -> T1.2\n", "  - S1.2 -> C1", "  - T1.2 -> C1"}
	for name, pairs := range map[string][]string{
		"every joint known": nil,
		"inlet left out":    {", inlet: none", ""},
		"adaptor":           {"{kind: variac, earth: through}", "{kind: adaptor, earth: through}"},
	} {
		got := computed(t, edit(t, example(t), append(neutral, pairs...)...))
		for figure, want := range map[string]string{"hot-without-fuse set": "yes", "hot-past-open-switch set": "yes", "switch-behind-fuse set": "no", "neutral-reaches-load set": "no"} {
			if s := says(got[figure]); s != want {
				t.Errorf("%s: %s is %s, want %s", name, figure, s, want)
			}
		}
	}
}

// TestDoublePoleBehindChoke: a switch breaks both conductors, whatever carries
// one of them to it.
func TestDoublePoleBehindChoke(t *testing.T) {
	text := edit(t, example(t), "S1: {kind: switch, poles: 1", "S1: {kind: switch, poles: 2", "  T1:\n", "  L1: {kind: choke}\n  T1:\n",
		switchRun, "  - F1.side -> L1 -> S1.1\n  - S1.2 -> T1.1\n", neutralRun, "  - plug.neutral -> S1.3\n  - S1.4 -> T1.2\n")
	if got := says(computed(t, text)["neutral-reaches-load set"]); got != "yes" {
		t.Errorf("neutral reaches the load: %s", got)
	}
}
