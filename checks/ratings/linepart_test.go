package ratings_test

import (
	"strings"
	"testing"

	"firstvolt/checks/trial"
)

// asked gives the outcomes of the rules of what parts bear, at one stage.
func bearing(t *testing.T, text, stage string) map[string]string {
	t.Helper()
	text = strings.ReplaceAll(text, "first-power: {stage: heaters}", "first-power: {stage: "+stage+"}")
	out := map[string]string{}
	for name, f := range outcomes(t, text) {
		if strings.HasPrefix(name, "line-part-") || strings.HasPrefix(name, "winding-part-") {
			out[name] = string(f.Outcome)
		}
	}
	return out
}

const (
	sideToSwitch = "F1.side -> S1 -> T1.1"
	windingsKey  = "  T1:\n"
)

// with puts a part on the demo sheet, with wires beside those that it has.
func with(t *testing.T, part string, wires ...string) string {
	t.Helper()
	text := altered(t, larkfield(t), windingsKey, "  "+part+"\n"+windingsKey)
	if len(wires) > 0 {
		text = altered(t, text, "  - "+sideToSwitch+"\n", "  - "+sideToSwitch+"\n  - "+strings.Join(wires, "\n  - ")+"\n")
	}
	return text
}

// inSeries puts a part between switch and primary.
func inSeries(t *testing.T, part, name string) string {
	return altered(t, with(t, part), sideToSwitch, "F1.side -> S1 -> "+name+" -> T1.1")
}

// TestBesideASection: sections side by side share the current of the set, and
// so does what stands in series with one.
func TestBesideASection(t *testing.T) {
	for _, run := range []string{"PT.1 -> VS.A", "PT.2 -> VS.C", "VS.B -> PT.3", "VS.D -> PT.4"} {
		ends := strings.Split(run, " -> ")
		for amps, want := range map[string]string{"5 mA": "fail", "2 A": "pass"} {
			text := altered(t, trial.Sheet(t, "marlow-bay-seven"), "- "+run+"\n", "- "+ends[0]+" -> X1 -> "+ends[1]+"\n",
				"\nparts:\n", "\nparts:\n  X1: {kind: choke, inductance: 1 mH, resistance: 1 Ω, current: "+amps+"}\n")
			if got := bearing(t, text, "heaters")["line-part-current X1"]; got != want {
				t.Errorf("%s in %s: %q, want %q", amps, run, got, want)
			}
		}
	}
}

// What hangs in or across the line is held to its marks at every stage.
func TestWhatHangsOnTheLineIsRated(t *testing.T) {
	across := []string{"S1.2 -> X1 -> T1.2"}
	ahead := []string{"plug.hot -> X1 -> plug.neutral"}
	heater := []string{"T1.8 -> X1 -> T1.9"}
	for _, c := range []struct {
		why, text string
		bad       []string // rules that must not pass
		good      []string
	}{
		{"a lamp of the heaters across the line", with(t, "X1: {kind: lamp, voltage: 6.3 V, current: 150 mA}", across...), []string{"line-part-voltage X1"}, nil},
		{"ahead of the fuse", with(t, "X1: {kind: lamp, voltage: 6.3 V, current: 150 mA}", ahead...), []string{"line-part-voltage X1"}, nil},
		{"a lamp for the line", with(t, "X1: {kind: lamp, voltage: 120 V, current: 60 mA}", across...), nil, []string{"line-part-voltage X1", "line-part-current X1"}},
		{"a lamp without amperes", with(t, "X1: {kind: lamp, voltage: 120 V}", across...), []string{"line-part-current X1"}, []string{"line-part-voltage X1"}},
		{"a motor of twelve volts", with(t, "X1: {kind: motor, voltage: 12 V, current: 0.2 A}", "S1.2 -> X1 -> T1.2", "X1.frame -> chassis"), []string{"line-part-voltage X1"}, nil},
		{"a motor for the line", with(t, "X1: {kind: motor, voltage: 115 V, current: 0.2 A}", "S1.2 -> X1 -> T1.2", "X1.frame -> chassis"), nil, []string{"line-part-voltage X1"}},
		{"a motor without a mark", with(t, "X1: {kind: motor}", "S1.2 -> X1 -> T1.2", "X1.frame -> chassis"), []string{"line-part-voltage X1"}, nil},
		{"1 kΩ of a quarter watt", with(t, "X1: {kind: resistor, value: 1 kΩ, power: 0.25 W, voltage: 250 V}", across...), []string{"line-part-power X1"}, []string{"line-part-voltage X1"}},
		{"1 MΩ", with(t, "X1: {kind: resistor, value: 1 MΩ, tolerance: 5 %, power: 0.5 W, voltage: 350 V}", across...), nil, []string{"line-part-power X1", "line-part-voltage X1"}},
		{"1 MΩ of 50 V", with(t, "X1: {kind: resistor, value: 1 MΩ, tolerance: 5 %, power: 0.5 W, voltage: 50 V}", across...), []string{"line-part-voltage X1"}, []string{"line-part-power X1"}},
		{"1 MΩ of no marks", with(t, "X1: {kind: resistor, value: 1 MΩ}", across...), []string{"line-part-power X1", "line-part-voltage X1"}, nil},
		{"a resistor of no value", with(t, "X1: {kind: resistor, power: 0.5 W, voltage: 350 V}", across...), []string{"line-part-power X1"}, nil},
		{"a neon lamp without resistor", with(t, "X1: {kind: neon, voltage: 65 V}", across...), []string{"line-part-current X1"}, nil},
		{"a neon lamp with one of no marks", with(t, "X1: {kind: neon, voltage: 65 V, resistor: 100 kΩ}", across...), []string{"line-part-power X1", "line-part-voltage X1"}, nil},
		{"a neon lamp with its resistor", with(t, "X1: {kind: neon, voltage: 65 V, resistor: 100 kΩ, power: 0.25 W, resistor-voltage: 250 V}", across...), nil, []string{"line-part-power X1", "line-part-voltage X1"}},
		{"an indicator for the line", with(t, "X1: {kind: neon, unit-voltage: 120 V}", across...), nil, []string{"line-part-voltage X1"}},
		{"an indicator for 24 V", with(t, "X1: {kind: neon, unit-voltage: 24 V}", across...), []string{"line-part-voltage X1"}, nil},
		{"a neon lamp and a resistor of the sheet", altered(t, with(t, "X1: {kind: neon, voltage: 65 V}", "S1.2 -> X1 -> X2 -> T1.2"), windingsKey, "  X2: {kind: resistor, value: 150 kΩ, tolerance: 5 %, power: 0.5 W, voltage: 250 V}\n"+windingsKey), nil, []string{"line-part-current X1", "line-part-power X2", "line-part-voltage X2"}},
		{"10 Ω of a quarter watt in series", inSeries(t, "X1: {kind: resistor, value: 10 Ω, tolerance: 5 %, power: 0.25 W, voltage: 250 V}", "X1"), []string{"line-part-power X1"}, nil},
		{"10 Ω of ten watts in series", inSeries(t, "X1: {kind: resistor, value: 10 Ω, tolerance: 5 %, power: 10 W, voltage: 250 V}", "X1"), nil, []string{"line-part-power X1", "line-part-voltage X1"}},
		{"a thermistor of 30 mA", inSeries(t, "X1: {kind: thermistor, cold: 50 Ω, hot: 2 Ω, current: 30 mA}", "X1"), []string{"line-part-current X1"}, nil},
		{"a thermistor of 2 A", inSeries(t, "X1: {kind: thermistor, cold: 50 Ω, hot: 2 Ω, current: 2 A}", "X1"), nil, []string{"line-part-current X1"}},
		{"a choke of 5 mA", inSeries(t, "X1: {kind: choke, inductance: 1 mH, resistance: 1 Ω, current: 5 mA}", "X1"), []string{"line-part-current X1"}, nil},
		{"a choke without a mark", inSeries(t, "X1: {kind: choke, inductance: 1 mH, resistance: 1 Ω}", "X1"), []string{"line-part-current X1"}, nil},
		{"a choke of 2 A", inSeries(t, "X1: {kind: choke, inductance: 1 mH, resistance: 1 Ω, current: 2 A}", "X1"), nil, []string{"line-part-current X1"}},
		{"a choke across the line", with(t, "X1: {kind: choke, inductance: 10 H, resistance: 300 Ω, current: 20 mA}", across...), []string{"line-part-current X1"}, nil},
		{"a loudspeaker across the line", with(t, "X1: {kind: speaker, resistance: 500 Ω}", across...), []string{"line-part-power X1"}, nil},
		{"a loudspeaker in series", inSeries(t, "X1: {kind: speaker, resistance: 3 Ω}", "X1"), []string{"line-part-power X1"}, nil},
		{"a loudspeaker across the heaters", with(t, "X1: {kind: speaker, resistance: 3 Ω}", heater...), []string{"winding-part-power X1"}, nil},
		{"a lamp of the heaters across its winding", with(t, "X1: {kind: lamp, voltage: 6.3 V, current: 150 mA}", heater...), nil, []string{"winding-part-voltage X1"}},
		{"a lamp of 2.5 V there", with(t, "X1: {kind: lamp, voltage: 2.5 V, current: 0.5 A}", heater...), []string{"winding-part-voltage X1"}, nil},
		{"a lamp from heater to plate winding", with(t, "X1: {kind: lamp, voltage: 6.3 V, current: 150 mA}", "T1.3 -> X1 -> T1.4"), []string{"winding-part-voltage X1"}, nil},
		{"1 kΩ across half the plate winding", with(t, "X1: {kind: resistor, value: 1 kΩ, tolerance: 5 %, power: 2 W, voltage: 500 V}", "T1.3 -> X1 -> T1.4"), []string{"winding-part-power X1"}, []string{"winding-part-voltage X1"}},
		{"a potentiometer across the heaters", with(t, "X1: {kind: potentiometer, value: 100 Ω, power: 2 W, voltage: 50 V}", "T1.8 -> X1 -> T1.9"), nil, []string{"winding-part-power X1", "winding-part-voltage X1"}},
		{"one of 10 Ω and a quarter watt", with(t, "X1: {kind: potentiometer, value: 10 Ω, power: 0.25 W, voltage: 50 V}", "T1.8 -> X1 -> T1.9"), []string{"winding-part-power X1"}, nil},
		{"a lamp from the line to the chassis", with(t, "X1: {kind: lamp, voltage: 6.3 V, current: 150 mA}", "S1.2 -> X1 -> chassis"), []string{"line-part-voltage X1"}, nil},
		{"a resistor from neutral to the chassis", with(t, "X1: {kind: resistor, value: 1 kΩ, power: 0.25 W, voltage: 250 V}", "T1.2 -> X1 -> chassis"), []string{"line-part-power X1"}, nil},
		{"a resistor across the switch", with(t, "X1: {kind: resistor, value: 100 Ω, power: 0.25 W, voltage: 250 V}", "S1.1 -> X1 -> S1.2"), []string{"line-part-power X1"}, nil},
	} {
		for _, stage := range []string{"bare", "heaters", "rail"} {
			got := bearing(t, c.text, stage)
			for _, name := range c.bad {
				if o := got[name]; o != "fail" && o != "unproven" {
					t.Errorf("%s, %s: %s is %q", c.why, stage, name, o)
				}
			}
			for _, name := range c.good {
				if o := got[name]; o != "pass" {
					t.Errorf("%s, %s: %s is %q", c.why, stage, name, o)
				}
			}
		}
	}
}

// TestToMetalBehindAStepUnit: a unit that fits both ways puts the whole supply
// between a conductor and metal, however little lies across the set.
func TestToMetalBehindAStepUnit(t *testing.T) {
	for fits, want := range map[string]string{"one-way": "pass", "both-ways": "fail"} {
		text := altered(t, with(t, "X1: {kind: resistor, value: 1 MΩ, tolerance: 5 %, power: 0.5 W, voltage: 100 V}", "S1.2 -> X1 -> chassis"),
			"{kind: variac, earth: through}", "{kind: autotransformer, ratio: 0.5, fits: "+fits+", earth: through}")
		if got := bearing(t, text, "heaters")["line-part-voltage X1"]; got != want {
			t.Errorf("%s: %q, want %q", fits, got, want)
		}
	}
}

// What lies across a secondary winding is held to its marks: a capacitor or a
// suppressor that the winding breaks down, a coil or a neon lamp that shorts it.
func TestWhatShortsAWindingIsRated(t *testing.T) {
	for _, c := range []struct{ part, wire, rule, want string }{
		{"capacitor, value: 10 nF, class: none, voltage: 63 V, body: film", "T1.3 -> X1 -> T1.5", "winding-part-voltage", "fail"},
		{"capacitor, value: 10 nF, class: none, voltage: 630 V, body: film", "T1.3 -> X1 -> T1.5", "winding-part-voltage", "fail"}, // 600 V have a peak of 850 V
		{"capacitor, value: 10 nF, class: none, voltage: 1600 V, body: film", "T1.3 -> X1 -> T1.5", "winding-part-voltage", "pass"},
		{"capacitor, value: 1 nF, class: none, voltage: 400 V, body: mica", "T1.3 -> X1 -> chassis", "winding-part-voltage", "fail"},
		{"capacitor, value: 1 nF, class: none, voltage: 1 kV, body: mica", "T1.3 -> X1 -> chassis", "winding-part-voltage", "pass"},
		{"capacitor, value: 10 nF", "T1.8 -> X1 -> T1.9", "winding-part-voltage", "unproven"},
		{"capacitor, value: 1 nF, class: Y2, voltage: 250 V", "T1.1 -> X1 -> T1.3", "winding-part-voltage", "fail"}, // 300 V with or against 120 V
		{"capacitor, value: 1 nF, class: Y2, voltage: 250 V", "T1.1 -> X1 -> T1.5", "winding-part-voltage", "fail"},
		{"capacitor, value: 1 nF, class: Y2, voltage: 250 V", "F1.side -> X1 -> T1.3", "winding-part-voltage", "fail"},
		{"capacitor, value: 1 nF, class: Y2, voltage: 250 V", "plug.hot -> X1 -> T1.5", "winding-part-voltage", "fail"},
		{"capacitor, value: 1 nF, class: Y2, voltage: 250 V", "T1.1 -> X1 -> chassis", "winding-part-voltage", ""},
		{"capacitor, value: 1 nF, class: Y2, voltage: 500 V", "T1.1 -> X1 -> T1.3", "winding-part-voltage", "pass"},
		{"varistor, voltage: 130 V", "T1.3 -> X1 -> T1.5", "winding-part-voltage", "fail"},
		{"varistor, voltage: 680 V", "T1.3 -> X1 -> T1.5", "winding-part-voltage", "pass"},
		{"varistor, voltage: 4 V", "T1.8 -> X1 -> T1.9", "winding-part-voltage", "fail"},
		{"varistor", "T1.8 -> X1 -> T1.9", "winding-part-voltage", "unproven"},
		{"arrester, voltage: 90 V", "T1.3 -> X1 -> T1.5", "winding-part-voltage", "fail"},
		{"arrester, voltage: 1 kV", "T1.3 -> X1 -> T1.5", "winding-part-voltage", "pass"},
		{"neon, voltage: 65 V", "T1.3 -> X1 -> T1.5", "winding-part-current", "fail"},
		{"neon, voltage: 65 V, resistor: 1 MΩ, power: 1 W, resistor-voltage: 700 V", "T1.3 -> X1 -> T1.5", "winding-part-current", ""},
		{"choke, inductance: 1 mH, resistance: 0.5 Ω, current: 100 mA", "T1.8 -> X1 -> T1.9", "winding-part-current", "fail"},
		{"choke, inductance: 10 H, resistance: 200 Ω", "T1.8 -> X1 -> T1.9", "winding-part-current", "unproven"},
		{"choke, inductance: 10 H, resistance: 200 Ω, current: 100 mA", "T1.8 -> X1 -> T1.9", "winding-part-current", "pass"},
		{"field-coil, inductance: 1 H, resistance: 20 Ω, current: 60 mA", "T1.3 -> X1 -> T1.5", "winding-part-current", "fail"},
		{"speaker, resistance: 0.5 Ω", "T1.8 -> X1 -> T1.9", "winding-part-power", "unproven"},
		{"thermistor, cold: 10 Ω, hot: 1 Ω, current: 1 A", "T1.8 -> X1 -> T1.9", "winding-part-current", "fail"},
	} {
		if got := bearing(t, with(t, "X1: {kind: "+c.part+"}", c.wire), "heaters")[c.rule+" X1"]; got != c.want {
			t.Errorf("%s, %s: %s is %q, want %q", c.part, c.wire, c.rule, got, c.want)
		}
	}
}

// A winding that the line drives lifts all the others: of volts that nobody
// states, by nobody knows how much.
func TestBesideAWindingOnTheLine(t *testing.T) {
	s := with(t, "X1: {kind: resistor, value: 1 MΩ, tolerance: 5 %, power: 1 W, voltage: 700 V}", "T1.3 -> X1 -> T1.5")
	driven := strings.Replace(s, "  - T1.4 -> chassis\n", "  - T1.4 -> chassis\n  - S1.2 -> T1.8\n  - T1.9 -> chassis\n", 1)
	for _, c := range []struct{ name, sheet, want string }{
		{"as it should be", s, "pass"},
		{"the heater winding on hot", driven, "fail"},
		{"the same, of unknown volts", strings.Replace(driven, "{ends: [8, 9], voltage: 6.3 V, load: 2.4 A}", "{ends: [8, 9], load: 2.4 A}", 1), "unproven"},
	} {
		if got := bearing(t, c.sheet, "heaters")["winding-part-voltage X1"]; got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
}

// A winding of volts that nobody states drives what hangs on it by nobody knows
// how much.
func TestOnAWindingOfUnknownVolts(t *testing.T) {
	s := with(t, "X1: {kind: varistor, voltage: 4 V}", "T1.8 -> X1 -> T1.9")
	unsaid := strings.Replace(s, "{ends: [8, 9], voltage: 6.3 V, load: 2.4 A}", "{ends: [8, 9], load: 2.4 A}", 1)
	for name, c := range map[string]struct{ sheet, want string }{"stated": {s, "fail"}, "not stated": {unsaid, "unproven"}} {
		if got := bearing(t, c.sheet, "heaters")["winding-part-voltage X1"]; got != c.want {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}
