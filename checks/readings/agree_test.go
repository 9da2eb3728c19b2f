package readings_test

import (
	"strings"
	"testing"
)

const (
	offLine    = "{between: [plug.hot, plug.neutral], switches: open, reads: OL, with: dmm}"
	metalLine  = "{between: [plug.hot + plug.neutral, chassis], switches: closed, reads: OL, with: dmm}"
	acrossLine = "{across: T1.primary, reads: 9.7 Ω, with: dmm}"
	plateLine  = "{between: [T1.primary, T1.plate], without: [T1.4], test: 500 V, reads: {15 s: 180 MΩ, 30 s: 240 MΩ, 60 s: 300 MΩ}, with: tester}"
	lowLine    = "{between: [T1.primary, T1.rectifier + T1.heater], test: 500 V, reads: over 500 MΩ, with: tester}"
)

// other replaces one line of readings.
func other(old, new string) []swap { return []swap{{old, new}} }

// edit replaces a piece within one line of readings.
func edit(line, old, new string) []swap {
	return []swap{{line, strings.Replace(line, old, new, 1)}}
}

func TestPlugOn(t *testing.T) {
	const dmm = "dmm:      {measures: resistance, accuracy: 0.9 % + 2 digits, digit: 0.1 Ω, leads: nulled, ceiling: 40 MΩ, calibrated: 2026-05-04}"
	runRows(t, "plug-on-resistance plug", []row{
		{"as it stands", nil, "pass"},
		{"half", edit(onLine, "9.9 Ω", "4.8 Ω"), "fail"},
		{"too high", edit(onLine, "9.9 Ω", "15 Ω"), "fail"},
		{"open", edit(onLine, "9.9 Ω", "OL"), "fail"},
		{"near the edge", edit(onLine, "9.9 Ω", "11.1 Ω"), "unproven"},
		{"the two plug nodes exchanged", edit(onLine, "[plug.hot, plug.neutral]", "[plug.neutral, plug.hot]"), "pass"},
		{"not read", other(onLine, "{across: F1, reads: 0.3 Ω, with: dmm}"), "unproven"},
		{"switches not told", edit(onLine, "switches: closed, ", ""), "unproven"},
		{"fuse out", edit(onLine, "switches: closed", "switches: closed, fuses: out"), "unproven"},
		{"no instrument", edit(onLine, ", with: dmm", ""), "unproven"},
		{"wider meter", []swap{{dmm, strings.Replace(dmm, "0.9 %", "9 %", 1)}}, "unproven"},
		{"the winding was not read", other(acrossLine, "{across: F1, reads: 0.3 Ω, with: dmm}"), "unproven"},
		{"nothing predicts it, and it is open", append(edit(onLine, "9.9 Ω", "OL"), other(acrossLine, "{across: F1, reads: 0.3 Ω, with: dmm}")...), "fail"},
		{"what would predict it names no meter", edit(acrossLine, ", with: dmm", ""), "unproven"},
		{"what would predict it is less well known", edit(acrossLine, "9.7 Ω", "9 Ω to 10.4 Ω"), "pass"},
		{"and much less", edit(acrossLine, "9.7 Ω", "7 Ω to 14 Ω"), "unproven"},
		{"cord not described", []swap{{"size: 18 AWG, length: 6 ft, ", ""}}, "unproven"},
		{"too high, cord not described", append(edit(onLine, "9.9 Ω", "15 Ω"), swap{"size: 18 AWG, length: 6 ft, ", ""}), "unproven"},
		{"a resistor without value beside the load", []swap{{"  T1:\n", "  R9: {kind: resistor}\n  T1:\n"}, {"  - T1.4 -> chassis\n", "  - T1.4 -> chassis\n  - S1.2 -> R9 -> T1.2\n"}}, "unproven"},
	})
}

func TestPlugOff(t *testing.T) {
	runRows(t, "plug-off-resistance plug", []row{
		{"as it stands", nil, "pass"},
		{"does not open", edit(offLine, "OL", "9.9 Ω"), "fail"},
		{"leaks", edit(offLine, "OL", "200 kΩ"), "fail"},
		{"megohms", edit(offLine, "OL", "3 MΩ"), "pass"},
		{"ceiling not known", []swap{{", ceiling: 40 MΩ", ""}}, "unproven"},
		{"not read", other(offLine, "{across: F1, reads: 0.3 Ω, with: dmm}"), "unproven"},
		{"a discharge resistor ahead of the switch reads as such", append(edit(offLine, "OL", "470 kΩ"), swap{"  T1:\n", "  R1: {kind: resistor, value: 470 kΩ, tolerance: 5 %}\n  T1:\n"}, swap{"  - S1.2 -> C1 -> chassis\n", "  - S1.2 -> C1 -> chassis\n  - F1.side -> R1 -> plug.neutral\n"}), "pass"},
		{"that resistor is missing", []swap{{"  T1:\n", "  R1: {kind: resistor, value: 470 kΩ, tolerance: 5 %}\n  T1:\n"}, {"  - S1.2 -> C1 -> chassis\n", "  - S1.2 -> C1 -> chassis\n  - F1.side -> R1 -> plug.neutral\n"}}, "fail"},
		{"no switch", []swap{{"  S1: {kind: switch, poles: 1, rating: 3 A, voltage: 125 V}\n", ""}, {"F1.side -> S1 -> T1.1", "F1.side -> T1.1"}, {"S1.2 -> C1", "T1.1 -> C1"}}, "not asked"},
		{"a varistor explains it", append(edit(offLine, "OL", "200 kΩ"), swap{"  T1:\n", "  V9: {kind: varistor, voltage: 150 V}\n  T1:\n"}, swap{"  - S1.2 -> C1 -> chassis\n", "  - S1.2 -> C1 -> chassis\n  - F1.side -> V9 -> plug.neutral\n"}), "unproven"},
	})
}

func TestPlugToChassis(t *testing.T) {
	runRows(t, "plug-to-chassis-resistance plug", []row{
		{"as it stands", nil, "pass"},
		{"a leak", edit(metalLine, "OL", "47 kΩ"), "fail"},
		{"not read", other(metalLine, "{across: F1, reads: 0.3 Ω, with: dmm}"), "unproven"},
		{"one pin, switch closed", edit(metalLine, "plug.hot + plug.neutral", "plug.hot"), "pass"},
		{"one pin, switch open", []swap{{metalLine, "{between: [plug.hot, chassis], switches: open, reads: OL, with: dmm}"}}, "unproven"},
		{"one pin, switch not told", []swap{{metalLine, "{between: [plug.hot, plug.ground], reads: OL, with: dmm}"}}, "unproven"},
		{"one pin beside both, switch not told", []swap{{metalLine, metalLine + "\n    - {between: [plug.hot, plug.ground], reads: OL, with: dmm}"}}, "pass"},
		{"and that one leaks", []swap{{metalLine, metalLine + "\n    - {between: [plug.hot, plug.ground], reads: 47 kΩ, with: dmm}"}}, "fail"},
		{"an insulation reading does not stand for it", other(metalLine, "{across: F1, reads: 0.3 Ω, with: dmm}"), "unproven"},
	})
}

// TestLiveChassis: on a live chassis the readings are asked of what a hand
// reaches, and of nothing where there is no such part.
func TestLiveChassis(t *testing.T) {
	const live = `firstvolt: 1
set: {name: Hollin Three, construction: line-connected, chassis: enclosed, rebuilt: 2026-11-18}
supply: {region: north-america, plug: nema-1-15-polarized, receptacle: untested}
cord: {conductors: 2, size: 18 AWG, length: 6 ft, inlet: none}
instruments:
  dmm: {measures: resistance, accuracy: 0.9 % + 2 digits, digit: 0.1 Ω, leads: nulled, ceiling: 40 MΩ}
  tester: {measures: insulation, accuracy: 5 %, ceiling: 1 GΩ}
parts:
  F1: {kind: fuse, rating: 1 A, holder: panel}
  S1: {kind: switch, poles: 1, frame: none}
  R1: {kind: resistor, value: 150 Ω, tolerance: 5 %}
  shaft: {kind: body}
  R2: {kind: resistor, value: 1 MΩ}
  R3: {kind: resistor, value: 1 MΩ}
wiring:
  - plug.hot -> F1.end
  - F1.side -> S1 -> R1 -> chassis
  - plug.neutral -> chassis
  - chassis -> R2 -> R3 -> shaft
readings:
  taken: 2026-11-20
  resistance:
    - {between: [plug.hot + plug.neutral, shaft], switches: closed, reads: 2 MΩ, with: dmm}
  insulation:
    - {between: [plug.hot + plug.neutral, shaft], switches: closed, without: [R3], test: 500 V, reads: 200 MΩ, with: tester}
`
	fs := judge(t, live)
	for name, want := range map[string]string{
		"plug-to-chassis-resistance shaft":   "pass",
		"plug-to-chassis-resistance plug":    "not asked",
		"plug-to-chassis-resistance chassis": "not asked",
		"insulation-mains-chassis shaft":     "pass",
		"insulation-mains-chassis chassis":   "not asked",
		"capacitance-agrees shaft":           "unproven",
		"capacitance-agrees chassis":         "not asked",
		"receptacle-proved supply":           "unproven",
		"bond-resistance shaft":              "not asked",
	} {
		if got := outcome(fs, name); got != want {
			t.Errorf("%s is %s, want %s: %+v", name, got, want, fs[name])
		}
	}
	// Not lifted, the reading is of the resistors and says nothing of insulation.
	fs = judge(t, altered(t, live, swap{"without: [R3], ", ""}))
	if got := outcome(fs, "insulation-mains-chassis shaft"); got != "unproven" {
		t.Errorf("read over the resistors: %s", got)
	}
}

func TestReadingAgrees(t *testing.T) {
	const rectifier = "reading-agrees T1.primary – T1.rectifier + T1.heater"
	runRows(t, rectifier, []row{
		{"as it stands", nil, "pass"},
		{"shorted", edit(lowLine, "over 500 MΩ", "20 kΩ"), "fail"},
		{"astride", edit(lowLine, "over 500 MΩ", "1 MΩ"), "unproven"},
		{"no instrument", edit(lowLine, ", with: tester", ""), "unproven"},
	})
	runRows(t, "reading-agrees T1.primary", []row{
		{"nothing else predicts it", nil, "not asked"},
	})
	body := []swap{{"  T1:\n", "  R1: {kind: resistor, value: 220 kΩ, tolerance: 5 %}\n  T1:\n"}, {"  - T1.4 -> chassis\n", "  - T1.4 -> chassis\n  - T1.3 -> R1 -> chassis\n"}}
	r1 := func(line string) []swap { return append(other(acrossLine, acrossLine+"\n    - "+line), body...) }
	runRows(t, "reading-agrees R1", []row{
		{"shunted by a winding", r1("{across: R1, reads: 220 kΩ, with: dmm}"), "fail"},
		{"lifted", r1("{across: R1, without: [R1.1], reads: 220 kΩ, with: dmm}"), "pass"},
		{"lifted and wrong", r1("{across: R1, without: [R1.1], reads: 150 kΩ, with: dmm}"), "fail"},
		{"lifted and at its tolerance", r1("{across: R1, without: [R1.1], reads: 229 kΩ, with: dmm}"), "pass"},
	})
	runRows(t, "reading-agrees T1.4 – chassis", []row{
		{"wire alone is no question", other(acrossLine, acrossLine+"\n    - {between: [T1.4, chassis], reads: 0.1 Ω, with: dmm}"), "not asked"},
		{"unless the wire is not there", other(acrossLine, acrossLine+"\n    - {between: [T1.4, chassis], reads: OL, with: dmm}"), "fail"},
	})
}

// TestJoinsMore: the reading of both pins against the chassis holds the primary
// against the plate winding too, whose tap lies on it.
func TestJoinsMore(t *testing.T) {
	runRows(t, "reading-agrees plug.hot + plug.neutral – chassis", []row{
		{"less than the part alone", nil, "pass"},
		{"more than the part alone", edit(plateLine, "60 s: 300 MΩ", "60 s: 150 MΩ"), "caution"},
		{"within a quarter", edit(plateLine, "60 s: 300 MΩ", "60 s: 200 MΩ"), "pass"},
		{"more than a part alone that is low", edit(plateLine, "60 s: 300 MΩ", "60 s: 15 MΩ"), "unproven"},
	})
}
