package checks_test

import (
	"slices"
	"strings"
	"sync"
	"testing"

	"firstvolt/checks"
	"firstvolt/checks/bench"
	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
	"firstvolt/checks/trial"
	"firstvolt/rules"
)

// theBook is the whole rulebook, read once.
var theBook = sync.OnceValues(func() (*rules.Book, []strict.Problem) {
	return rules.Load(rules.Default(), checks.Catalogue())
})

// judged is a sound sheet, pairs of text replaced, judged by the whole book.
func judged(t *testing.T, name string, pairs ...string) (map[string]string, rules.Judgement) {
	t.Helper()
	text := trial.Sheet(t, name)
	for i := 0; i+1 < len(pairs); i += 2 {
		if !strings.Contains(text, pairs[i]) {
			t.Fatalf("%s has no %q", name, pairs[i])
		}
		text = strings.ReplaceAll(text, pairs[i], pairs[i+1])
	}
	s, problems := sheet.Read("test.yaml", []byte(text))
	if s == nil {
		t.Fatal(problems)
	}
	book, problems := theBook()
	if book == nil {
		t.Fatal(problems)
	}
	b := bench.New(s)
	figures, faults := checks.Run(b)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	j := book.Judge(b.Setting(), figures, b.Stage)
	out := map[string]string{}
	for _, f := range j.Findings {
		out[f.Rule+" "+f.Subject.Name] = string(f.Outcome)
	}
	return out, j
}

// TestTraps: the traps of the reference that a whole sheet can walk into. Others
// stand beside their tables: what a residual device takes at 6 mA and at 264 mA,
// and the fuses of one number (handbook); the 20 kΩ of the let-go network
// (handbook and circuit); the multiplier table that goes straight on above 40 °C
// (handbook); the meter of ±(0.8 % + 2 digits) (sheet).
func TestTraps(t *testing.T) {
	const larkfield, valmorel = "larkfield-six-forty", "valmorel-orfeo"
	for _, c := range []struct {
		trap, sheet string
		pairs       []string
		want        map[string]string
	}{
		{"a direct-current insulation reading does not see capacitors", larkfield,
			[]string{"value: 4.7 nF", "value: 100 nF", "reads: 240 MΩ", "reads: over 1 GΩ", "reads: 5.4 nF", "reads: 100.7 nF"},
			map[string]string{"insulation-mains-chassis chassis": "pass", "chassis-capacitor-leakage chassis": "fail"}},
		{"shell to neutral is the lamp-holder rule", larkfield,
			[]string{"plug.hot -> F1.end", "plug.hot -> F1.side", "F1.side -> S1 ->", "F1.end -> S1 ->"},
			map[string]string{"fuse-end-to-hot F1": "fail"}},
		{"supply on the end contact, load on the side", larkfield, nil,
			map[string]string{"fuse-end-to-hot F1": "pass"}},
		{"0.8 A by UL may be too small for 60 W, by the power factor", larkfield, []string{"rating: 1 A", "rating: 0.8 A"},
			map[string]string{"fuse-size F1": "caution"}},
		{"0.8 A by IEC is not", larkfield, []string{"rating: 1 A", "rating: 800 mA", "standard: ul-248-14", "standard: iec-60127"},
			map[string]string{"fuse-size F1": "pass"}},
		{"a reversible plug makes the single fuse a coin toss", valmorel, nil,
			map[string]string{"both-sides-fused set": "caution", "both-sides-open set": "pass", "neutral-runs-through set": ""}},
		{"and the lamp box too", valmorel, nil, map[string]string{"limiter-in-hot upstream 2": "caution"}},
		{"brown and blue whole, where black and white are used", larkfield, []string{"color: black", "color: brown", "color: white", "color: blue", "color: green,", "color: green-yellow,"},
			map[string]string{"conductor-colors cord": "caution"}},
		{"black is hot here and neutral elsewhere", larkfield, []string{"color: black", "color: white", "run: plug.neutral -> T1.2, color: white", "run: plug.neutral -> T1.2, color: black"},
			map[string]string{"conductor-colors cord": "fail"}},
		{"green/yellow on a hot conductor", larkfield, []string{"color: black", "color: green-yellow"},
			map[string]string{"conductor-colors cord": "fail"}},
		{"green/yellow on an old transformer is a heater's centre tap", larkfield,
			[]string{"ends: [8, 9], ", "ends: [8, 9], tap: 8ct, ", "  - T1.4 -> chassis", "  - T1.4 -> chassis\n  - {run: T1.8ct -> chassis, color: green-yellow}"},
			map[string]string{"conductor-colors cord": "pass"}},
		{"a meter of 0.1 Ω digits proves no bond of 0.1 Ω", larkfield,
			[]string{"reads: 0.06 Ω, with: milliohm", "reads: 0.1 Ω, with: dmm", "accuracy: 0.9 % + 2 digits", "accuracy: 0.8 % + 2 digits"},
			map[string]string{"bond-resistance chassis": "unproven"}},
		{"no, not even where it shows nothing", larkfield,
			[]string{"reads: 0.06 Ω, with: milliohm", "reads: 0.0 Ω, with: dmm", "accuracy: 0.9 % + 2 digits", "accuracy: 0.8 % + 2 digits"},
			map[string]string{"bond-resistance chassis": "unproven"}},
	} {
		t.Run(c.trap, func(t *testing.T) {
			got, _ := judged(t, c.sheet, c.pairs...)
			for finding, want := range c.want {
				if got[finding] != want {
					t.Errorf("%s is %q, want %q", finding, got[finding], want)
				}
			}
		})
	}
}

// The final touch-current check is made on the mains itself: it stays owed on
// every sheet, with an isolating transformer as without, and behind one the
// residual device no longer counts.
func TestTrapOfTheIsolatingTransformer(t *testing.T) {
	const chain = "    - {kind: variac, earth: through}"
	for _, pairs := range [][]string{nil, {chain, chain + "\n    - {kind: isolating-transformer, secondary: floating, earth: through}"}} {
		_, j := judged(t, "larkfield-six-forty", pairs...)
		if !strings.Contains(j.Owed.Text, "touch current. Measure it last") || !strings.Contains(j.Owed.Text, "directly on the mains, with no isolating transformer") {
			t.Errorf("owed: %q", j.Owed.Text)
		}
		told := slices.ContainsFunc(j.Cautions, func(c rules.Caution) bool { return c.Name == "no-residual-behind-the-transformer" })
		if told != (pairs != nil) {
			t.Errorf("with %q: caution told %v", pairs, told)
		}
	}
}
