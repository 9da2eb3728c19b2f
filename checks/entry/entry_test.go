package entry_test

import (
	"strings"
	"testing"

	"firstvolt/checks/bench"
	"firstvolt/checks/entry"
	"firstvolt/checks/figure"
	"firstvolt/checks/sheet"
	"firstvolt/checks/trial"
)

// example is the whole example of the format's page.
func example(t testing.TB) string { return trial.Sheet(t, "larkfield-six-forty") }

// edit replaces pieces of text in pairs; each must be there once.
func edit(t testing.TB, text string, pairs ...string) string {
	t.Helper()
	return trial.Altered(t, text, pairs...)
}

// computed reads the text and gives every figure of the room by name and subject.
func computed(t testing.TB, text string) map[string]figure.Figure {
	t.Helper()
	s, problems := sheet.Read("test.yaml", []byte(text))
	for _, p := range problems {
		t.Error(p)
	}
	if s == nil {
		t.FailNow()
	}
	b := bench.New(s)
	out := map[string]figure.Figure{}
	for _, c := range entry.Checks {
		figures, fault := c.Run(b)
		if fault != "" {
			t.Error(fault)
		}
		for _, f := range figures {
			out[f.Def.Name+" "+f.Of.Name] = f
		}
	}
	return out
}

// says is a figure in one word: yes, no, unknown, or its number.
func says(f figure.Figure) string {
	switch {
	case f.Def == nil:
		return "not computed"
	case !f.Known():
		return "unknown"
	case f.Present == nil:
		return f.Range.String()
	case *f.Present:
		return "yes"
	}
	return "no"
}

const (
	hotRun     = "  - {run: plug.hot -> F1.end, color: black}\n"
	switchRun  = "  - F1.side -> S1 -> T1.1\n"
	neutralRun = "  - {run: plug.neutral -> T1.2, color: white}\n"
	groundRun  = "  - {run: plug.ground -> chassis, color: green, joint: own-screw, slack: longest}\n"
)

func TestRouting(t *testing.T) {
	sound := map[string]string{
		"hot-without-fuse set": "no", "approved-part-ahead-of-fuse set": "no", "switch-ahead-of-fuse set": "no",
		"lesser-switch-ahead-of-fuse set": "no", "switch-behind-fuse set": "yes", "hot-past-open-switch set": "no",
		"neutral-reaches-load set": "yes", "ground-by-wire chassis": "yes", "bonded-by-wire chassis": "yes",
		"ground-touches-other chassis": "no", "ground-fastened-alone chassis": "yes", "ground-wire-longest chassis": "yes",
		"hot-joins-metal chassis": "no", "neutral-joins-metal chassis": "no", "dead-short set": "no", "load-across-line set": "yes",
		"end-contact-on-cord-side F1": "yes", "colors-of-no-scheme cord": "no", "colors-of-another-region cord": "no",
		"winding-shorted set": "no", "windings-drive-each-other set": "no", "called-transformer-but-on-line set": "no", "joint-fits-both-ways set": "no",
	}
	europe := []string{"north-america", "europe", "nema-5-15", "cee-7-7"}
	doublePole := []string{"S1: {kind: switch, poles: 1", "S1: {kind: switch, poles: 2", switchRun, "  - F1.side -> S1.1\n  - S1.2 -> T1.1\n", neutralRun, "  - plug.neutral -> S1.3\n  - S1.4 -> T1.2\n"}
	beside := func(primary, heater, primary2, heater2 string) []string { // a second transformer on the line, its heater winding on the first's
		return []string{"[1, 2]", primary, "[8, 9]", heater, "  T1:\n", "  T2: {kind: transformer, windings: {primary: {ends: " + primary2 + "}, heater: {ends: " + heater2 + "}}}\n  T1:\n",
			groundRun, groundRun + "  - T1.1 -> T2.a\n  - T1.2 -> T2.b\n  - T1.8 -> T2.c\n  - T1.9 -> T2.d\n"}
	}
	cases := []struct {
		name  string
		pairs []string
		want  map[string]string // beside sound
	}{
		{"sound", nil, nil},
		{"switch first", []string{hotRun, "  - plug.hot -> S1 -> F1.end\n", switchRun, "  - F1.side -> T1.1\n", "  - S1.2 -> C1", "  - T1.1 -> C1"},
			map[string]string{"switch-ahead-of-fuse set": "yes", "lesser-switch-ahead-of-fuse set": "unknown", "colors-of-no-scheme cord": "unknown", "colors-of-another-region cord": "unknown", "switch-behind-fuse set": "yes"}},
		{"fuse in neutral", []string{hotRun, "  - {run: plug.hot -> S1 -> T1.1, color: black}\n", switchRun, "", neutralRun, "  - {run: plug.neutral -> F1.end, color: white}\n  - F1.side -> T1.2\n"},
			map[string]string{"hot-without-fuse set": "yes", "approved-part-ahead-of-fuse set": "yes", "switch-ahead-of-fuse set": "yes", "lesser-switch-ahead-of-fuse set": "unknown", "neutral-reaches-load set": "no", "switch-behind-fuse set": "no"}},
		{"switch in neutral", []string{switchRun, "  - F1.side -> T1.1\n", neutralRun, "  - {run: plug.neutral -> S1 -> T1.2, color: white}\n", "  - S1.2 -> C1", "  - T1.1 -> C1"},
			map[string]string{"hot-past-open-switch set": "yes", "neutral-reaches-load set": "no", "switch-behind-fuse set": "no"}},
		{"holder the wrong way round", []string{hotRun, "  - {run: plug.hot -> F1.side, color: black}\n", switchRun, "  - F1.end -> S1 -> T1.1\n"},
			map[string]string{"end-contact-on-cord-side F1": "no"}},
		{"hot and neutral exchanged", []string{hotRun, "  - {run: plug.neutral -> F1.end, color: black}\n", neutralRun, "  - {run: plug.hot -> T1.2, color: white}\n"},
			map[string]string{"hot-without-fuse set": "yes", "hot-past-open-switch set": "yes", "neutral-reaches-load set": "no", "switch-behind-fuse set": "no", "color-on-another-duty cord": "yes", "colors-of-no-scheme cord": "yes", "colors-of-another-region cord": "no"}},
		{"two fuses side by side", []string{hotRun, hotRun + "  - plug.hot -> F2 -> F1.side\n", "  C1: {kind", "  F2: {kind: fuse, rating: 1 A, holder: clips}\n  C1: {kind"},
			map[string]string{"hot-without-fuse set": "yes"}},
		{"two fuses side by side, each with a switch", []string{hotRun, hotRun + "  - plug.hot -> F2 -> S2 -> T1.1\n", "  C1: {kind", "  F2: {kind: fuse, rating: 1 A, holder: clips}\n  S2: {kind: switch, poles: 1, form: toggle}\n  C1: {kind"},
			map[string]string{"hot-without-fuse set": "yes"}},
		{"two fuses in a row", []string{hotRun, "  - {run: plug.hot -> F1.end, color: black}\n", switchRun, "  - F1.side -> F2 -> S1 -> T1.1\n", "  C1: {kind", "  F2: {kind: fuse, rating: 1 A, holder: clips}\n  C1: {kind"}, nil},
		{"a fuse for each of two loads", []string{hotRun, hotRun + "  - plug.hot -> F2 -> S2 -> M9 -> T1.2\n", "  C1: {kind", "  F2: {kind: fuse, rating: 1 A, holder: clips}\n  S2: {kind: switch, poles: 1, form: toggle}\n  M9: {kind: motor, voltage: 120 V, power: 5 W}\n  C1: {kind"}, nil},
		{"no ground wire", []string{groundRun, ""},
			map[string]string{"ground-by-wire chassis": "no", "bonded-by-wire chassis": "no", "ground-fastened-alone chassis": "unknown", "ground-wire-longest chassis": "unknown"}},
		{"capacitor on the ground wire", []string{groundRun, "  - {run: plug.ground -> J1 -> chassis, color: green, joint: own-screw, slack: longest}\n", "  - S1.2 -> C1 -> chassis\n", "  - S1.2 -> C1 -> J1\n", "  T1:\n", "  J1: {kind: tie}\n  T1:\n"},
			map[string]string{"ground-touches-other chassis": "yes"}},
		{"neutral on chassis", []string{groundRun, groundRun + "  - T1.2 -> chassis\n"},
			map[string]string{"neutral-joins-metal chassis": "yes", "dead-short set": "yes", "called-transformer-but-on-line set": "yes"}},
		{"hot on chassis behind the switch", []string{groundRun, groundRun + "  - T1.1 -> chassis\n"},
			map[string]string{"hot-joins-metal chassis": "yes", "neutral-joins-metal chassis": "yes", "dead-short set": "yes", "called-transformer-but-on-line set": "yes"}},
		{"switch shorts the line", []string{switchRun, "  - F1.side -> S1 -> T1.1\n  - S1.2 -> plug.neutral\n"},
			map[string]string{"dead-short set": "yes", "winding-shorted set": "yes", "load-across-line set": "", "end-contact-on-cord-side F1": "", "colors-of-no-scheme cord": "", "colors-of-another-region cord": ""}},
		{"bleeder behind fuse and switch", []string{"  T1:\n", "  R1: {kind: resistor, value: 470 kΩ}\n  T1:\n", switchRun, switchRun + "  - S1.2 -> R1 -> plug.neutral\n"},
			nil},
		{"bleeder behind the fuse, reversible plug", append(append([]string{}, europe...), "  T1:\n", "  R1: {kind: resistor, value: 470 kΩ}\n  T1:\n", switchRun, switchRun+"  - S1.2 -> R1 -> T1.2\n"),
			map[string]string{"line-conductors-opened set": "1", "line-conductors-fused set": "1", "joint-fits-both-ways set": "yes", "hot-past-open-switch set": "", "neutral-reaches-load set": "", "colors-of-another-region cord": "yes"}},
		{"heater winding shorted by a wire", []string{groundRun, groundRun + "  - T1.8 -> T1.9\n"}, map[string]string{"winding-shorted set": "yes"}},
		{"windings of 5 V and 6.3 V side by side", []string{groundRun, groundRun + "  - T1.6 -> T1.8\n  - T1.7 -> T1.9\n"}, map[string]string{"windings-drive-each-other set": "yes"}},
		{"heater winding beside half of the plate winding", []string{groundRun, groundRun + "  - T1.8 -> T1.3\n  - T1.9 -> T1.4\n"}, map[string]string{"windings-drive-each-other set": "yes"}},
		{"one end in common", []string{groundRun, groundRun + "  - T1.6 -> T1.8\n"}, nil},
		{"of the same volts, no marks", []string{"voltage: 5 V", "voltage: 6.3 V", groundRun, groundRun + "  - T1.6 -> T1.8\n  - T1.7 -> T1.9\n"}, map[string]string{"windings-drive-each-other set": "unknown"}},
		{"of the same volts, marked ends together", []string{"voltage: 5 V", "dot: 6, voltage: 6.3 V", "[8, 9], voltage", "[8, 9], dot: 8, voltage", groundRun, groundRun + "  - T1.6 -> T1.8\n  - T1.7 -> T1.9\n"}, nil},
		{"of the same volts, marked ends apart", []string{"voltage: 5 V", "dot: 6, voltage: 6.3 V", "[8, 9], voltage", "[8, 9], dot: 9, voltage", groundRun, groundRun + "  - T1.6 -> T1.8\n  - T1.7 -> T1.9\n"}, map[string]string{"windings-drive-each-other set": "yes"}},
		{"of unknown volts", []string{"voltage: 5 V, ", "", groundRun, groundRun + "  - T1.6 -> T1.8\n  - T1.7 -> T1.9\n"}, map[string]string{"windings-drive-each-other set": "unknown"}},
		{"two transformers, heater windings side by side", beside("[1, 2], dot: 1", "[8, 9], dot: 8", "[a, b], dot: a, voltage: 117 V", "[c, d], dot: c, voltage: 6.3 V"), map[string]string{"windings-drive-each-other set": "no"}},
		{"one of them turned", beside("[1, 2], dot: 1", "[8, 9], dot: 8", "[a, b], dot: a, voltage: 117 V", "[c, d], dot: d, voltage: 6.3 V"), map[string]string{"windings-drive-each-other set": "yes"}},
		{"the other's primary turned too", beside("[1, 2], dot: 1", "[8, 9], dot: 8", "[a, b], dot: b, voltage: 117 V", "[c, d], dot: d, voltage: 6.3 V"), map[string]string{"windings-drive-each-other set": "no"}},
		{"no marks on one", beside("[1, 2], dot: 1", "[8, 9], dot: 8", "[a, b], voltage: 117 V", "[c, d], voltage: 6.3 V"), map[string]string{"windings-drive-each-other set": "unknown"}},
		{"of twice the volts", beside("[1, 2], dot: 1", "[8, 9], dot: 8", "[a, b], dot: a, voltage: 117 V", "[c, d], dot: c, voltage: 12.6 V"), map[string]string{"windings-drive-each-other set": "yes"}},
		{"of a primary for twice the line", beside("[1, 2], dot: 1", "[8, 9], dot: 8", "[a, b], dot: a, voltage: 234 V", "[c, d], dot: c, voltage: 6.3 V"), map[string]string{"windings-drive-each-other set": "yes"}},
		{"of a primary of unknown volts", beside("[1, 2], dot: 1", "[8, 9], dot: 8", "[a, b], dot: a", "[c, d], dot: c, voltage: 6.3 V"), map[string]string{"windings-drive-each-other set": "unknown"}},
		{"the second fed by the first alone", []string{groundRun, groundRun + "  - T1.8 -> T2.c\n  - T1.9 -> T2.d\n", "  T1:\n", "  T2: {kind: transformer, windings: {primary: {ends: [a, b], voltage: 117 V}, heater: {ends: [c, d], voltage: 12.6 V}}}\n  T1:\n"}, nil},
		{"half of the plate winding shorted through a tie", []string{groundRun, groundRun + "  - T1.3 -> J9 -> T1.4\n", "  T1:\n", "  J9: {kind: tie}\n  T1:\n"}, map[string]string{"winding-shorted set": "yes"}},
		{"both ends of the plate winding joined", []string{groundRun, groundRun + "  - T1.3 -> T1.5\n"}, map[string]string{"winding-shorted set": "yes"}},
		{"plate winding on the line", []string{switchRun, "  - F1.side -> S1 -> T1.3\n", neutralRun, "  - {run: plug.neutral -> T1.5, color: white}\n"},
			map[string]string{"load-across-line set": "no", "hot-joins-metal chassis": "yes", "neutral-joins-metal chassis": "yes", "called-transformer-but-on-line set": "yes"}},
		{"neutral wire missing", []string{neutralRun, ""},
			map[string]string{"load-across-line set": "no", "neutral-reaches-load set": "no", "colors-of-no-scheme cord": "no"}},
		{"european colours in north america", []string{"color: black", "color: brown", "color: white", "color: blue", "color: green,", "color: green-yellow,"},
			map[string]string{"colors-of-another-region cord": "yes"}},
		{"reversible plug, single pole, one fuse", europe,
			map[string]string{"line-conductors-opened set": "1", "line-conductors-fused set": "1", "joint-fits-both-ways set": "yes", "hot-past-open-switch set": "", "neutral-reaches-load set": "", "colors-of-no-scheme cord": "no", "colors-of-another-region cord": "yes"}},
		{"reversible plug, double pole", append(append([]string{}, europe...), doublePole...),
			map[string]string{"line-conductors-opened set": "2", "line-conductors-fused set": "1", "joint-fits-both-ways set": "yes", "colors-of-no-scheme cord": "", "colors-of-another-region cord": "", "hot-past-open-switch set": "", "neutral-reaches-load set": ""}},
		{"double pole on a fixed plug", doublePole, map[string]string{"colors-of-no-scheme cord": "", "colors-of-another-region cord": ""}},
		{"resistor across the switch contacts", []string{"  T1:\n", "  R1: {kind: resistor, value: 47 kΩ}\n  T1:\n", switchRun, switchRun + "  - S1.1 -> R1 -> S1.2\n"},
			map[string]string{"hot-past-open-switch set": "yes"}},
		{"quench capacitor across the switch contacts", []string{"  T1:\n", "  C2: {kind: capacitor, value: 10 nF, class: X2, voltage: 275 V}\n  T1:\n", switchRun, switchRun + "  - S1.1 -> C2 -> S1.2\n"}, nil},
		{"capacitor ahead of the fuse", []string{"  T1:\n", "  C2: {kind: capacitor, value: 10 nF, class: X2, voltage: 275 V}\n  T1:\n", switchRun, switchRun + "  - plug.hot -> C2 -> plug.neutral\n"},
			map[string]string{"approved-part-ahead-of-fuse set": "yes"}},
		{"paper capacitor ahead of the fuse", []string{"  T1:\n", "  C2: {kind: capacitor, value: 10 nF, body: paper}\n  T1:\n", switchRun, switchRun + "  - plug.hot -> C2 -> plug.neutral\n"},
			map[string]string{"hot-without-fuse set": "yes"}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got := computed(t, edit(t, example(t), c.pairs...))
			want := map[string]string{}
			for k, v := range sound {
				want[k] = v
			}
			for k, v := range c.want {
				want[k] = v
			}
			for k, v := range want {
				if s := says(got[k]); v != "" && s != v {
					t.Errorf("%s: %s, want %s (witness %v, %s)", k, s, v, got[k].Witness, got[k].Note)
				}
			}
		})
	}
}

// TestWitness follows the witness of every present figure: each step must be
// a wire of the sheet or lie inside one part.
func TestWitness(t *testing.T) {
	text := edit(t, example(t), hotRun, "  - plug.hot -> S1 -> F1.end\n", switchRun, "  - F1.side -> T1.1\n", "  - S1.2 -> C1", "  - T1.1 -> C1")
	f := computed(t, text)["switch-ahead-of-fuse set"]
	if got := strings.Join(f.Witness, " "); got != "plug.hot S1.1" {
		t.Errorf("witness %q, want plug.hot S1.1", got)
	}
}

// TestDefinitions holds every definition to what rules and findings need of it.
func TestDefinitions(t *testing.T) {
	seen := map[string]bool{}
	for _, c := range entry.Checks {
		d := c.Def
		if seen[d.Name] || d.Room == "" || d.Says == "" || len(d.Of) == 0 {
			t.Errorf("%s: twice, or without room, sentence or kinds", d.Name)
		}
		seen[d.Name] = true
	}
}
