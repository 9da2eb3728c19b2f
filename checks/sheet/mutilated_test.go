package sheet

import (
	"os"
	"strings"
	"testing"
	"unicode/utf8"
)

// Sheets that a person may well hand in, mutilated or strange: each is refused at
// the place between « and », in words that name what is wrong or what would be
// right. No mark: the sheet reads.
func TestMutilatedSheets(t *testing.T) {
	data, err := os.ReadFile("../../testdata/sheets/larkfield-six-forty.yaml")
	if err != nil {
		t.Fatal(err)
	}
	whole := string(data)
	for _, c := range []struct{ old, new, says string }{
		// what cannot be
		{"power: 60 W}", "power: «0 W»}", "cannot be"},
		{"power: 60 W}", "power: «0.0 W»}", "cannot be"},
		{"voltage: 117 V, frequency", "voltage: «0 V», frequency", "more than zero"},
		{"frequency: 60 Hz", "frequency: «0 Hz»", "cannot be"},
		{"  voltage: 121 V ", "  voltage: «121 kV» ", "1 V to 1 kV"},
		{"  voltage: 121 V ", "  voltage: «0 V» ", "cannot be"},
		{"ambient: 22 °C", "ambient: «400 °C»", "-10 °C to 50 °C"},
		{"ambient: 22 °C", "ambient: «-11 °C»", "cannot be"},
		{"ambient: 22 °C", "ambient: «51 °C»", "cannot be"},
		{"ambient: 22 °C", "ambient: -10 °C", ""},
		{"ambient: 22 °C", "ambient: 50 °C", ""},
		{"ambient: 22 °C", "ambient: 71.6 °F", ""},
		{"ambient: 22 °C", "ambient: «295 K»", "ambient"},
		{"test: 500 V, reads: 240 MΩ", "test: «500 kV», reads: 240 MΩ", "1 V to 1 kV"},
		{"test: 500 V, reads: 240 MΩ", "test: «1001 V», reads: 240 MΩ", "cannot be"},
		{"test: 500 V, reads: 240 MΩ", "test: 1 kV, reads: 240 MΩ", ""},
		{"reads: over 500 MΩ", "reads: «over 2 GΩ»", "tester cannot show that: it ends at 1 GΩ"},
		{"reads: over 500 MΩ", "reads: «\"> 1.001 GΩ\"»", "it ends at 1 GΩ"},
		{"reads: over 500 MΩ", "reads: over 1 GΩ", ""},
		{"60 s: 300 MΩ", "60 s: «over 3 GΩ»", "it ends at 1 GΩ"},
		{"load: 2.4 A", "load: «240 A»", "at most 100 A"},
		{"load: 2.4 A", "load: «99 A»", "cannot give 99 A"},
		{"load: 2 A", "load: «0 A»", "more than zero"},
		{"voltage: 6.3 V, load", "voltage: «0 V», load", "cannot be"},
		{"rating: 3 A", "rating: «0 A»", "cannot be"},
		{"poles: 1", "poles: «20000000»", "one of: 1, 2, 3, 4"},
		{"poles: 1", "poles: «0»", "one of: 1, 2, 3, 4"},
		{"poles: 1", "poles: «-1»", "poles"},
		{"value: 4.7 nF", "value: «0 nF»", "cannot be"},
		{"length: 6 ft", "length: «0 ft»", "cannot be"},
		{"size: 18 AWG", "size: «0 mm²»", "cannot be"},
		{"ceiling: 1 GΩ", "ceiling: «1 kV»", "ceiling"},
		// plugs and regions
		{"plug: nema-5-15", "plug: «schuko»", "one of: nema-1-15, nema-1-15-polarized, nema-5-15, two-pole-other, earthed-other"},
		{"plug: nema-5-15", "plug: «bs-546»", "the region north-america has no plug bs-546"},
		{"plug: nema-5-15", "plug: «NEMA-5-15»", "no plug NEMA-5-15"},
		{"plug: nema-5-15", "plug: two-pole-other", ""},
		{"plug: nema-5-15", "plug: earthed-other", ""},
		{"region: north-america", "region: «norway»", "the region norway is not known"},
		{"region: north-america\n  plug: nema-5-15", "region: switzerland\n  plug: cee-7-16", ""},
		{"region: north-america\n  plug: nema-5-15", "region: europe\n  plug: cei-23-50", ""},
		{"region: north-america\n  plug: nema-5-15", "region: united-kingdom\n  plug: «cee-7-6»", "one of: bs-1363, bs-546, two-pole-other, earthed-other"},
		// supply and bench
		{"receptacle: tested ", "branch: {rating: 16 A, letter: B}\n  receptacle: tested ", ""},
		{"receptacle: tested ", "branch: «B16»\n  receptacle: tested ", "branch"},
		{"receptacle: tested ", "branch: {rating: «16», letter: B}\n  receptacle: tested ", "unit is missing"},
		{"receptacle: tested ", "branch: {rating: 16 A, letter: «b»}\n  receptacle: tested ", "B"},
		{"receptacle: tested ", "earthing: [tn, tt]\n  receptacle: tested ", "?earthing"},
		{"receptacle: tested ", "earthing: «tncs»\n  receptacle: tested ", "one of: tn, tt, it, none, unknown"},
		{"receptacle: tested ", "system: «two-phase»\n  receptacle: tested ", "did you mean two-line?"},
		{"kind: variac, earth", "kind: variac, set: 60 V, earth", ""},
		{"kind: variac, earth", "kind: variac, set: «60 %», earth", "set"},
		{"kind: variac, earth", "kind: variac, «fits»: one-way, earth", "fits is not a key"},
		{"tested: 2026-11-20", "tested: «2026-13-20»", "not a day"},
		{"tested: 2026-11-20", "tested: «2026-02-30»", "not a day"},
		{"tested: 2026-11-20", "tested: «20.11.2026»", "not a day"},
		// colors
		{"color: black", "color: ribbed", ""},
		{"color: black", "color: «ribbed-plain»", "joins a color and a mark"},
		{"color: black", "color: «Black»", "did you mean black?"},
		{"color: green", "color: «green/yellow»", "green-yellow"},
		{"color: green", "color: «green-yellow-red»", "not a color"},
		{"color: white", "color: «stripe»", "not a color known here"},
		{"color: white", "color: «[white]»", "color"},
		// parts
		{"class: Y2", "class: none", ""},
		{"class: Y2", "class: «None»", "none"},
		{"class: Y2", "class: «Y5»", "class"},
		{"holder: panel", "holder: «pannel»", "did you mean panel?"},
		{"speed: time-delay", "speed: «T»", "did you mean time-delay?"},
		{"rating: 1 A,", "rating: «T1AL250V»,", "more than the current"},
		{"kind: switch", "kind: «swich»", "did you mean switch?"},
		{"kind: switch, ", "«kind»: [switch], ", "?kind"},
		{"  C1: {kind", "  L1: {kind: speaker, impedance: 4 Ω}\n  C1: {kind", "?L1 is on no run"},
		{"tap: 4, ", "tap: 3, ", "?stands twice in plate"},
		{"ends: [1, 2]", "ends: «[1, 2, 3]»", "2"},
		{"ends: [8, 9]", "ends: [«7», 9]", "belongs to rectifier already"},
		// runs and readings
		{"F1.side -> S1 -> T1.1", "F1.side -> «S9» -> T1.1", "there is no part S9"},
		{"F1.side -> S1 -> T1.1", "F1.side -> «F1.top» -> T1.1", "F1 has no terminal top"},
		{"F1.side -> S1 -> T1.1", "F1.side -> S1 ->« »T1.1 ->", "?->"},
		{"reads: 9.9 Ω", "reads: «9,9 Ω»", "decimal comma"},
		{"reads: 9.9 Ω", "reads: «-9.9 Ω»", "negative"},
		{"reads: 9.9 Ω", "reads: «NaN»", "reads"},
		{"reads: 9.9 Ω", "reads: «1e400 Ω»", "reads"},
		{"reads: 9.9 Ω", "reads: «9.9 V»", "wrong unit"},
		{"across: T1.primary,", "across: «T1.secondary»,", "T1 has no terminal or winding secondary"},
		{"with: bridge}", "with: «brigde»}", "did you mean bridge?"},
		{"mains-side-traced: good", "mains-side-traced: «yes»", "one of: good, bad, not-seen"},
		{"mains-side-traced: good", "mains-side-traced: «»", "?no value"},
		{"first-power: {stage: heaters}", "first-power: {stage: «warm»}", "one of: bare, heaters, rail"},
	} {
		if strings.Count(whole, c.old) == 0 {
			t.Errorf("%q is not on the sheet", c.old)
			continue
		}
		text := strings.Replace(whole, c.old, c.new, 1)
		mark := strings.Index(text, "«")
		text = strings.NewReplacer("«", "", "»", "").Replace(text)
		s, problems := Read("sheet.yaml", []byte(text))
		says, anywhere := strings.CutPrefix(c.says, "?")
		if says == "" {
			if s == nil {
				t.Errorf("%s: refused: %v", c.new, problems)
			}
			continue
		}
		if s != nil || len(problems) == 0 {
			t.Errorf("%s: reads", c.new)
			continue
		}
		if !strings.Contains(problems[0].Says(), says) {
			t.Errorf("%s: %s", c.new, problems[0])
		}
		if anywhere {
			continue
		}
		head := text[:mark]
		line, column := 1+strings.Count(head, "\n"), utf8.RuneCountInString(head[strings.LastIndex(head, "\n")+1:])+1
		if problems[0].Line != line || problems[0].Column != column || len(problems) != 1 {
			t.Errorf("%s: %d problems, the first %s, want one at %d:%d", c.new, len(problems), problems[0], line, column)
		}
	}
}
