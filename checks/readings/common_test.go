package readings_test

import (
	"fmt"
	"strings"
	"testing"
)

// TestCommonMeter: a hand meter of tenths of an ohm proves the plug of primaries
// of a few ohms, and sees what is wrong with them.
func TestCommonMeter(t *testing.T) {
	const meter = "dmm:      {measures: resistance, accuracy: 0.9 % + 2 digits,"
	for _, accuracy := range []string{"0.5 % + 2 digits", "0.9 % + 2 digits", "0.8 % + 3 digits", "1.2 % + 3 digits"} {
		for _, ohms := range []float64{4.2, 5, 6.1, 7, 8} {
			set := func(plug float64) []swap {
				return append(append(edit(acrossLine, "9.7 Ω", fmt.Sprintf("%.1f Ω", ohms)), edit(onLine, "9.9 Ω", fmt.Sprintf("%.1f Ω", plug))...),
					swap{meter, strings.Replace(meter, "0.9 % + 2 digits", accuracy, 1)})
			}
			runRows(t, "plug-on-resistance plug", []row{
				{fmt.Sprintf("%s, %g Ω", accuracy, ohms), set(ohms + 0.4), "pass"},
				{fmt.Sprintf("%s, %g Ω, a display lower", accuracy, ohms), set(ohms), "pass"},
				{fmt.Sprintf("%s, %g Ω, and a joint of 3 Ω", accuracy, ohms), set(ohms + 3.4), "fail"},
				{fmt.Sprintf("%s, %g Ω, shorted to a half", accuracy, ohms), set(ohms/2 - 0.2), "fail"},
			})
		}
	}
}

// TestNoBadMeterExcuses: what the winding was read with can only make the plug's
// reading less certain, however coarse it is.
func TestNoBadMeterExcuses(t *testing.T) {
	coarse := swap{"  milliohm:", "  coarse: {measures: resistance, accuracy: 40 % + 2 Ω, leads: nulled}\n  milliohm:"}
	runRows(t, "plug-on-resistance plug", []row{
		{"off by a half", edit(onLine, "9.9 Ω", "15 Ω"), "fail"},
		{"and the winding read by a coarse meter", append(append(edit(onLine, "9.9 Ω", "15 Ω"), edit(acrossLine, "with: dmm", "with: coarse")...), coarse), "unproven"},
	})
}

// TestResistorAcrossThePrimary: what has many times its ohms does not hide a
// winding from the meter, nor what is wrong with it.
func TestResistorAcrossThePrimary(t *testing.T) {
	across := []swap{{"  T1:\n", "  R9: {kind: resistor, value: 1 MΩ, tolerance: 5 %, power: 0.5 W, voltage: 350 V}\n  T1:\n"}, {"  - S1.2 -> C1", "  - T1.1 -> R9 -> T1.2\n  - S1.2 -> C1"}}
	runRows(t, "plug-on-resistance plug", []row{
		{"sound", across, "pass"},
		{"and the plug off", append(edit(onLine, "9.9 Ω", "15 Ω"), across...), "fail"},
	})
	runRows(t, "winding-resistance T1.primary", []row{
		{"as without", nil, "caution"},
		{"beside it", across, "caution"},
		{"shorted", append(edit(acrossLine, "9.7 Ω", "0.2 Ω"), across...), "caution"},
	})
	runRows(t, "winding-continuity T1.primary", []row{
		{"sound", across, "pass"},
		{"the resistor alone was seen", append(append(edit(acrossLine, "9.7 Ω", "1 MΩ"), edit(onLine, "9.9 Ω", "1 MΩ")...), across...), "unproven"},
	})
}

// TestEveryCapacitance: what the wiring does not explain fails, wherever it was
// read; what conducts beside it explains nothing.
func TestEveryCapacitance(t *testing.T) {
	add := func(s string) []swap { return more(capLine, s) }
	for _, c := range []struct {
		finding string
		rows    []row
	}{
		{"capacitance-agrees plug.hot – plug.neutral", []row{
			{"with nothing there", add("{between: [plug.hot, plug.neutral], reads: 100 nF, with: bridge}"), "fail"},
			{"with nothing there, switched off", add("{between: [plug.hot, plug.neutral], switches: open, reads: 100 nF, with: bridge}"), "fail"},
			{"next to nothing", add("{between: [plug.hot, plug.neutral], switches: open, reads: 0.8 nF, with: bridge}"), "pass"},
			{"a capacitor of the sheet", append(add("{between: [plug.hot, plug.neutral], switches: closed, reads: 100 nF, with: bridge}"),
				swap{"  T1:\n", "  CX: {kind: capacitor, value: 100 nF, class: X2, voltage: 275 V}\n  T1:\n"}, swap{"  - S1.2 -> C1", "  - S1.2 -> CX -> T1.2\n  - S1.2 -> C1"}), "pass"},
			{"that one gone", append(add("{between: [plug.hot, plug.neutral], switches: closed, reads: 1 nF, with: bridge}"),
				swap{"  T1:\n", "  CX: {kind: capacitor, value: 100 nF, class: X2, voltage: 275 V}\n  T1:\n"}, swap{"  - S1.2 -> C1", "  - S1.2 -> CX -> T1.2\n  - S1.2 -> C1"}), "fail"},
			{"by no meter", add("{between: [plug.hot, plug.neutral], reads: 100 nF}"), "unproven"},
		}},
		{"capacitance-agrees plug.neutral – chassis", []row{
			{"one pin, far too much", add("{between: [plug.neutral, chassis], switches: open, reads: 60 nF, with: bridge}"), "fail"},
			{"one pin, as marked", add("{between: [plug.neutral, chassis], switches: open, reads: 5.2 nF, with: bridge}"), "pass"},
		}},
		{"capacitance-agrees plug.hot – chassis", []row{
			{"how the switch stood not told, too much either way", add("{between: [plug.hot, chassis], reads: 60 nF, with: bridge}"), "fail"},
		}},
		{"capacitance-agrees chassis", []row{
			{"one pin, switched on", add("{between: [plug.hot, chassis], switches: closed, reads: 60 nF, with: bridge}"), "fail"},
			{"how the switch stood not told, beside one that is told", add("{between: [plug.hot, chassis], reads: 60 nF, with: bridge}"), "pass"},
		}},
		{"capacitance-agrees plug.ground – chassis", []row{
			{"over a wire", add("{between: [plug.ground, chassis], reads: 5 nF, with: bridge}"), "unproven"},
		}},
	} {
		runRows(t, c.finding, c.rows)
	}
}

// TestContinuityLimit: ten times the top of what is usual, and no more, is a whole
// winding; where size or volts are not told, nobody can tell in between.
func TestContinuityLimit(t *testing.T) {
	heater := func(ohms string) []swap {
		return more(acrossLine, "{across: T1.rectifier, reads: "+ohms+", with: dmm}")
	}
	runRows(t, "winding-continuity T1.rectifier", []row{
		{"sound", heater("0.3 Ω"), "pass"},
		{"900 kΩ", heater("900 kΩ"), "fail"},
		{"just inside", heater("9 Ω"), "pass"},
		{"just outside", heater("12 Ω"), "fail"},
		{"outside, and its volts not told", append(heater("12 Ω"), swap{"{ends: [6, 7], voltage: 5 V, load: 2 A}", "{ends: [6, 7], load: 2 A}"}), "unproven"},
		{"900 kΩ, and its volts not told", append(heater("900 kΩ"), swap{"{ends: [6, 7], voltage: 5 V, load: 2 A}", "{ends: [6, 7], load: 2 A}"}), "fail"},
	})
	runRows(t, "winding-continuity T1.primary", []row{
		{"sound, and the set's power not told", []swap{{", power: 60 W", ""}}, "pass"},
		{"80 Ω", edit(acrossLine, "9.7 Ω", "80 Ω"), "pass"},
		{"100 Ω", edit(acrossLine, "9.7 Ω", "100 Ω"), "fail"},
		{"100 Ω, and the set's power not told", append(edit(acrossLine, "9.7 Ω", "100 Ω"), swap{", power: 60 W", ""}), "unproven"},
		{"100 Ω, and its volts not told", append(edit(acrossLine, "9.7 Ω", "100 Ω"), swap{"{ends: [1, 2], voltage: 117 V}", "{ends: [1, 2]}"}), "unproven"},
	})
	runRows(t, "winding-continuity T1.plate", []row{{"a half of 5 kΩ", edit(halfB, "112 Ω", "5 kΩ"), "fail"}})
}
