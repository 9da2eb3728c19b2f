package readings_test

import (
	"strings"
	"testing"
)

const (
	bondLine = "{between: [plug.ground, chassis], reads: 0.06 Ω, with: milliohm}"
	onLine   = "{between: [plug.hot, plug.neutral], switches: closed, reads: 9.9 Ω, with: dmm}"
	megLine  = "{between: [plug.hot + plug.neutral, chassis], switches: closed, test: 500 V, reads: 240 MΩ, with: tester}"
)

// row alters the whole example and tells what one finding must then be.
type row struct {
	name  string
	swaps []swap
	want  string
}

func runRows(t *testing.T, finding string, rows []row) {
	t.Helper()
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			fs := judge(t, altered(t, larkfield(t), r.swaps...))
			if got := outcome(fs, finding); got != r.want {
				f := fs[finding]
				t.Errorf("%s is %s, want %s: %s; %s; needs %v; %v", finding, got, r.want, f.Says, f.Note, f.Needs, f.Trace)
			}
		})
	}
}

func TestBond(t *testing.T) {
	bond := func(s string) []swap { return []swap{{bondLine, s}} }
	runRows(t, "bond-resistance chassis", []row{
		{"as it stands", nil, "pass"},
		{"too high", bond("{between: [plug.ground, chassis], reads: 0.2 Ω, with: milliohm}"), "fail"},
		{"open", bond("{between: [plug.ground, chassis], reads: OL, range: 20 Ω, with: milliohm}"), "fail"},
		{"open, range not told", bond("{between: [plug.ground, chassis], reads: OL, with: milliohm}"), "unproven"},
		{"coarse meter", bond("{between: [plug.ground, chassis], reads: 0.1 Ω, with: dmm}"), "unproven"},
		{"no instrument", bond("{between: [plug.ground, chassis], reads: 0.06 Ω}"), "unproven"},
		{"not read", bond("{across: F1, reads: 0.2 Ω, with: dmm}"), "unproven"},
		{"probes exchanged", bond("{between: [chassis, plug.ground], reads: 0.06 Ω, with: milliohm}"), "pass"},
		{"joined with the plug", bond("{between: [plug.ground + plug.neutral, chassis], reads: 0.06 Ω, with: milliohm}"), "unproven"},
		{"the worse of two", bond("{between: [plug.ground, chassis], reads: 0.06 Ω, with: milliohm}\n    - {between: [plug.ground, chassis], reads: 0.3 Ω, with: milliohm}"), "fail"},
		{"cord not described", []swap{{"size: 18 AWG, length: 6 ft, ", ""}}, "unproven"},
		{"cord not described, and its share needed", []swap{{"size: 18 AWG, length: 6 ft, ", ""}, {bondLine, strings.Replace(bondLine, "0.06", "0.12", 1)}}, "unproven"},
		{"the cord's share taken off", bond(strings.Replace(bondLine, "0.06", "0.12", 1)), "pass"},
		{"cord longer than the reading allows", []swap{{"length: 6 ft", "length: 60 ft"}, {bondLine, strings.Replace(bondLine, "0.06", "0.3", 1)}}, "unproven"},
		{"cord too long, bond good all the same", []swap{{"length: 6 ft", "length: 60 ft"}}, "unproven"},
		{"leads not known", []swap{{"milliohm: {measures: resistance, accuracy: 1 % + 2 mΩ, leads: nulled}", "milliohm: {measures: resistance, accuracy: 1 % + 2 mΩ}"}}, "unproven"},
		{"leads not known, reading high", []swap{{"milliohm: {measures: resistance, accuracy: 1 % + 2 mΩ, leads: nulled}", "milliohm: {measures: resistance, accuracy: 1 % + 2 mΩ}"}, {bondLine, strings.Replace(bondLine, "0.06", "0.3", 1)}}, "unproven"},
		{"no bond in the wiring", []swap{{"  - {run: plug.ground -> chassis, color: green, joint: own-screw, slack: longest}\n", ""}}, "not asked"},
	})
}

// TestBondProvedByNothing: what was not read through leads and cord proves no
// bond, whatever the number.
func TestBondProvedByNothing(t *testing.T) {
	bond := func(s string) swap { return swap{bondLine, s} }
	reads := func(ohms string) swap { return bond(strings.Replace(bondLine, "0.06 Ω", ohms, 1)) }
	leads := func(is string) swap {
		return swap{"milliohm: {measures: resistance, accuracy: 1 % + 2 mΩ, leads: nulled}", "milliohm: {measures: resistance, accuracy: 1 % + 2 mΩ, leads: " + is + "}"}
	}
	runRows(t, "bond-resistance chassis", []row{
		{"leads larger than the reading", []swap{leads("100 Ω"), reads("60 Ω")}, "unproven"},
		{"leads above an ohm, reading to match", []swap{leads("1.2 Ω"), reads("1.26 Ω")}, "unproven"},
		{"leads of a fifth of an ohm", []swap{leads("0.2 Ω"), reads("0.25 Ω")}, "pass"},
		{"those leads shorted, nothing else", []swap{leads("0.2 Ω"), reads("0.2 Ω")}, "unproven"},
		{"those leads, which may have been read twice too high", []swap{leads("0.2 Ω"), reads("0.36 Ω")}, "unproven"},
		{"leads of almost an ohm, and nothing else", []swap{leads("0.9 Ω"), reads("0.9 Ω")}, "unproven"},
		{"those leads, and a joint gone bad", []swap{leads("0.2 Ω"), reads("0.7 Ω")}, "fail"},
		{"less than copper can have", []swap{reads("0.06 mΩ")}, "unproven"},
		{"nothing at all", []swap{reads("0 Ω")}, "unproven"},
		{"just below nine tenths of the cord", []swap{reads("0.034 Ω")}, "unproven"},
		{"just above", []swap{reads("0.036 Ω")}, "pass"},
		{"500 ft of cord", []swap{{"length: 6 ft", "length: 500 ft"}}, "unproven"},
		{"no cord size", []swap{{"size: 18 AWG, ", ""}}, "unproven"},
		{"no cord length", []swap{{"length: 6 ft, ", ""}}, "unproven"},
		{"a bad one, no cord length", []swap{{"length: 6 ft, ", ""}, reads("0.6 Ω")}, "unproven"},
		{"by time, the last good", []swap{reads("{5 s: 0.9 Ω, 10 s: 0.06 Ω}")}, "unproven"},
		{"by time, the last bad", []swap{reads("{5 s: 0.06 Ω, 10 s: 0.9 Ω}")}, "unproven"},
		{"just below the limit", []swap{reads("0.13 Ω")}, "pass"},
		{"just above the limit", []swap{reads("0.15 Ω")}, "fail"},
	})
}

const nullMeter = "  milliohm: {measures: resistance, accuracy: 1 % + 2 mΩ, leads: nulled}\n"

// TestBondByDrop: an ampere and a millivoltmeter prove a bond, or a bad one.
func TestBondByDrop(t *testing.T) {
	with := func(reads, more string) []swap {
		return []swap{
			{"    - " + bondLine + "\n", ""},
			{nullMeter, "  hand: {measures: {resistance: 0.9 % + 2 digits, voltage: 0.5 % + 2 digits}, digits: {resistance: 0.1 Ω, voltage: 0.1 mV}}\n  feed: {measures: current, accuracy: 2 %}\n"},
			{"  insulation:\n    - {between: [plug.hot", "  drop:\n    - {between: [plug.ground, chassis], " + reads + ", with: hand" + more + "}\n  insulation:\n    - {between: [plug.hot"},
		}
	}
	runRows(t, "bond-resistance chassis", []row{
		{"good", with("current: 1 A, reads: 60 mV", ", fed-by: feed"), "pass"},
		{"bad", with("current: 1 A, reads: 600 mV", ", fed-by: feed"), "fail"},
		{"less than the cord", with("current: 1 A, reads: 5 mV", ", fed-by: feed"), "unproven"},
		{"no volts", with("current: 1 A, reads: 0 mV", ", fed-by: feed"), "unproven"},
		{"current not told", with("reads: 60 mV", ", fed-by: feed"), "unproven"},
		{"nobody read the current", with("current: 1 A, reads: 60 mV", ""), "unproven"},
		{"too little current for the digits", with("current: 1 mA, reads: 0.1 mV", ", fed-by: feed"), "unproven"},
	})
	fs := judge(t, altered(t, larkfield(t), with("current: 1 A, reads: 60 mV", ", fed-by: feed")...))
	if got := outcome(fs, "leads-accounted hand"); got != "not asked" {
		t.Errorf("leads of the millivoltmeter: %s", got)
	}
	if got := outcome(fs, "instrument-in-date feed"); got != "caution" {
		t.Errorf("the date of what fed the current: %s", got)
	}
}

// TestBondByRegion: each region's own limit in service; beyond a tenth of an ohm
// past the cord it is a caution where the region allows more.
func TestBondByRegion(t *testing.T) {
	at := func(region, plug, length, ohms string) []swap {
		return []swap{{"region: north-america\n  plug: nema-5-15\n  voltage: 121 V", "region: " + region + "\n  plug: " + plug},
			{"size: 18 AWG, length: 6 ft", "size: 0.75 mm², length: " + length}, {bondLine, strings.Replace(bondLine, "0.06 Ω", ohms, 1)}}
	}
	runRows(t, "bond-resistance chassis", []row{ // 0.75 mm² has 23 mΩ to 26 mΩ in a metre
		{"Europe, 2 m", at("europe", "cee-7-4", "2 m", "0.10 Ω"), "pass"},
		{"Europe, 2 m, more than a tenth past the cord", at("europe", "cee-7-4", "2 m", "0.28 Ω"), "caution"},
		{"Europe, 2 m, beyond", at("europe", "cee-7-4", "2 m", "0.32 Ω"), "fail"},
		{"Europe, 20 m", at("europe", "cee-7-4", "20 m", "0.48 Ω"), "pass"},
		{"Europe, 20 m, beyond", at("europe", "cee-7-4", "20 m", "0.52 Ω"), "fail"},
		{"Switzerland, 2 m", at("switzerland", "sev-1011", "2 m", "0.28 Ω"), "caution"},
		{"Switzerland, 2 m, beyond", at("switzerland", "sev-1011", "2 m", "0.32 Ω"), "fail"},
		{"Australia", at("australia", "as-3112", "2 m", "0.95 Ω"), "caution"},
		{"Australia, beyond", at("australia", "as-3112", "2 m", "1.05 Ω"), "fail"},
		{"United Kingdom", at("united-kingdom", "bs-1363", "2 m", "0.13 Ω"), "pass"},
		{"United Kingdom, beyond", at("united-kingdom", "bs-1363", "2 m", "0.17 Ω"), "fail"},
		{"Japan, beyond", at("japan", "jis-c-8303-earthed", "2 m", "0.17 Ω"), "fail"},
	})
}

// TestNoGroundPin: what has no ground contact was not read at one.
func TestNoGroundPin(t *testing.T) {
	runRows(t, "reading-agrees plug.ground – chassis", []row{
		{"as it stands", nil, "not asked"},
		{"a plug of two poles", []swap{{"nema-5-15", "nema-1-15-polarized"}}, "fail"},
		{"a cord of two conductors", []swap{{"conductors: 3", "conductors: 2"}}, "fail"},
		{"an inlet of two poles", []swap{{"inlet: none", "inlet: iec-60320-c8"}}, "fail"},
		{"a third conductor that resists", []swap{{"inlet: none", "inlet: none, third: 160 Ω"}}, "fail"},
		{"an inlet that nobody named", []swap{{", inlet: none", ""}}, "not asked"},
	})
	runRows(t, "reading-agrees plug.hot + plug.neutral – plug.ground", []row{
		{"capacitance too", append(edit(capLine, ", chassis]", ", plug.ground]"), swap{"conductors: 3", "conductors: 2"}), "fail"},
	})
}

func TestBondNamesTheMeter(t *testing.T) {
	f := judge(t, altered(t, larkfield(t), swap{bondLine, "{between: [plug.ground, chassis], reads: 0.1 Ω, with: dmm}"}))["bond-resistance chassis"]
	if len(f.Needs) != 1 || !strings.Contains(f.Needs[0].How, "1 % + 2 mΩ") || !strings.Contains(f.Needs[0].How, "drop:") {
		t.Errorf("needs %v", f.Needs)
	}
}

func TestBondOfBodies(t *testing.T) {
	body := []swap{{"  T1:\n", "  shaft: {kind: body}\n  T1:\n"}, {"  - T1.4 -> chassis\n", "  - T1.4 -> chassis\n  - chassis -> shaft\n"}}
	read := func(s string) []swap { return append([]swap{{bondLine, bondLine + "\n    - " + s}}, body...) }
	runRows(t, "bond-resistance shaft", []row{
		{"not read", body, "unproven"},
		{"read", read("{between: [plug.ground, shaft], reads: 0.07 Ω, with: milliohm}"), "pass"},
		{"bad", read("{between: [plug.ground, shaft], reads: 0.7 Ω, with: milliohm}"), "fail"},
		{"from the chassis only", read("{between: [chassis, shaft], reads: 0.02 Ω, with: milliohm}"), "unproven"},
		{"not bonded", []swap{{"  T1:\n", "  shaft: {kind: body}\n  T1:\n"}, {"  - T1.4 -> chassis\n", "  - T1.4 -> chassis\n  - T1.8 -> shaft\n"}}, "not asked"},
		{"out of reach", []swap{{"  T1:\n", "  shaft: {kind: body, reach: enclosed}\n  T1:\n"}, body[1]}, "not asked"},
	})
}

func TestMainsInsulation(t *testing.T) {
	meg := func(s string) []swap { return []swap{{megLine, s}} }
	with := func(old, new string) []swap { return meg(strings.Replace(megLine, old, new, 1)) }
	runRows(t, "insulation-mains-chassis chassis", []row{
		{"as it stands", nil, "pass"},
		{"low", with("240 MΩ", "0.8 MΩ"), "fail"},
		{"the capacitor to the chassis lifted", with("switches: closed, ", "switches: closed, without: [C1], "), "unproven"},
		{"and read by itself", meg(strings.Replace(megLine, "switches: closed, ", "switches: closed, without: [C1], ", 1) + "\n    - {across: C1, without: [C1], test: 500 V, reads: over 500 MΩ, with: tester}"), "pass"},
		{"and bad by itself", meg(strings.Replace(megLine, "switches: closed, ", "switches: closed, without: [C1], ", 1) + "\n    - {across: C1, without: [C1], test: 500 V, reads: 0.3 MΩ, with: tester}"), "fail"},
		{"and read by itself at too few volts", meg(strings.Replace(megLine, "switches: closed, ", "switches: closed, without: [C1], ", 1) + "\n    - {across: C1, without: [C1], test: 100 V, reads: over 500 MΩ, with: tester}"), "unproven"},
		{"a capacitor of no class lifted, and read by itself", append(meg(strings.Replace(megLine, "switches: closed, ", "switches: closed, without: [C1], ", 1)+"\n    - {across: C1, without: [C1], test: 500 V, reads: over 500 MΩ, with: tester}"), swap{"class: Y2, ", ""}), "unproven"},
		{"the primary lifted at one end", with("switches: closed, ", "switches: closed, without: [T1.2], "), "pass"},
		{"the switch lifted", with("switches: closed, ", "switches: closed, without: [S1], "), "unproven"},
		{"the fuse lifted", with("switches: closed, ", "switches: closed, without: [T1.1, T1.2], fuses: out, "), "unproven"},
		{"two that hold all of it together", meg("{between: [plug.hot + plug.neutral, chassis], switches: closed, without: [T1.primary], test: 500 V, reads: 240 MΩ, with: tester}\n    - {between: [T1.primary, chassis], switches: closed, without: [T1.primary], test: 500 V, reads: 300 MΩ, with: tester}"), "pass"},
		{"two that are good each, and not together", meg("{between: [plug.hot + plug.neutral, chassis], switches: closed, without: [T1.primary], test: 500 V, reads: 1.6 MΩ, with: tester}\n    - {between: [T1.primary, chassis], switches: closed, without: [T1.primary], test: 500 V, reads: 1.6 MΩ, with: tester}"), "unproven"},
		{"behind an open double pole", append(with("switches: closed", "switches: open"), swap{"S1: {kind: switch, poles: 1,", "S1: {kind: switch, poles: 2,"}, swap{"  - F1.side -> S1 -> T1.1\n", "  - F1.side -> S1.1\n  - S1.2 -> T1.1\n"}, swap{"{run: plug.neutral -> T1.2, color: white}", "{run: plug.neutral -> S1.3, color: white}\n  - S1.4 -> T1.2"}), "unproven"},
		{"within the tester's error of the limit", with("240 MΩ", "1 MΩ"), "unproven"},
		{"damp", with("240 MΩ", "5 MΩ"), "caution"},
		{"test too low", with("test: 500 V", "test: 100 V"), "unproven"},
		{"at 250 V", with("test: 500 V", "test: 250 V"), "pass"},
		{"test volts not told", with("test: 500 V, ", ""), "unproven"},
		{"with an ohmmeter", with("with: tester", "with: dmm"), "unproven"},
		{"switch not told", with("switches: closed, ", ""), "pass"},
		{"another from the primary itself, switch not told", meg(megLine + "\n    - {between: [T1.1 + T1.2, chassis], test: 500 V, reads: 300 MΩ, with: tester}"), "pass"},
		{"and that one low", meg(megLine + "\n    - {between: [T1.1 + T1.2, chassis], test: 500 V, reads: 0.4 MΩ, with: tester}"), "fail"},
		{"and that one by no meter", meg(megLine + "\n    - {between: [T1.1 + T1.2, chassis], test: 500 V, reads: 300 MΩ}"), "unproven"},
		{"from the primary alone, switch not told", meg("{between: [T1.1 + T1.2, chassis], test: 500 V, reads: 300 MΩ, with: tester}"), "unproven"},
		{"one pin, switch not told", meg("{between: [plug.hot, chassis], test: 500 V, reads: 240 MΩ, with: tester}"), "unproven"},
		{"one pin, switched on", meg("{between: [plug.hot, chassis], switches: closed, test: 500 V, reads: 240 MΩ, with: tester}"), "pass"},
		{"one pin, switched off", meg("{between: [plug.hot, chassis], switches: open, test: 500 V, reads: 240 MΩ, with: tester}"), "unproven"},
		{"primary lifted", with("switches: closed, ", "switches: closed, without: [T1.primary], "), "unproven"},
		{"ground pin for the chassis", with(", chassis]", ", plug.ground]"), "pass"},
		{"over, as a bound", with("240 MΩ", "over 100 MΩ"), "pass"},
		{"over, below the limit", with("240 MΩ", "over 0.5 MΩ"), "unproven"},
		{"the worse of two", meg(megLine + "\n    - " + strings.Replace(megLine, "240 MΩ", "0.3 MΩ", 1)), "fail"},
		{"without ground, 1.5 MΩ is too little", append(with("240 MΩ", "1.5 MΩ"), swap{"  - {run: plug.ground -> chassis, color: green, joint: own-screw, slack: longest}\n", ""}), "fail"},
		{"an arrester may explain it", append(with("240 MΩ", "0.5 MΩ"), swap{"  T1:\n", "  G1: {kind: arrester, voltage: 230 V}\n  T1:\n"}, swap{"  - S1.2 -> C1 -> chassis\n", "  - S1.2 -> C1 -> chassis\n  - S1.2 -> G1 -> chassis\n"}), "unproven"},
	})
}
