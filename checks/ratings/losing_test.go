package ratings_test

import (
	"regexp"
	"strings"
	"testing"

	"firstvolt/rules"
)

// Losing knowledge never clears: from sheets with one fault each, every key
// that may be left off is left off in turn, and no finding becomes a pass.
func TestLosingKnowledgeNeverClears(t *testing.T) {
	larkfield := regexp.MustCompile(` +#.*`).ReplaceAllString(larkfield(t), "")
	key := regexp.MustCompile(`(voltage|frequency|power|current|rating|speed|standard|class|value|tolerance|size|insulation|breaking|body|load|leakage|dot): ([^,}{\n]*)(, )?`)
	parts := func(text string) (int, int) { // from the set to the end of the parts
		return strings.Index(text, "set:"), strings.Index(text, "wiring:")
	}
	for _, swap := range [][]string{
		nil,
		{"rating: 1 A, voltage: 250 V", "rating: 5 A, voltage: 32 V"},
		{"rating: 1 A, voltage: 250 V", "rating: 0.75 A, voltage: 250 V"},
		{"standard: ul-248-14", "standard: iec-60127, body: glass"},
		{"speed: time-delay", "speed: fast"},
		{"rating: 3 A, voltage: 125 V", "rating: 0.4 A, voltage: 125 V"},
		{"class: Y2, voltage: 250 V", "class: X2, voltage: 60 V"},
		{"value: 4.7 nF", "value: 0.1 µF"},
		{"size: 18 AWG", "size: 0.5 mm²", "power: 60 W", "power: 600 W"},
		{"primary:   {ends: [1, 2], voltage: 117 V}", "primary:   {ends: [1, 2], voltage: 105 V}"},
		{"voltage: 117 V, frequency: 60 Hz", "voltage: 100 V, frequency: 60 Hz"},
		{"voltage: 117 V, frequency: 60 Hz", "voltage: 117 V, frequency: 400 Hz"},
		{"primary:   {ends: [1, 2], voltage: 117 V}", "primary:   {ends: [1, 2], taps: {A: 58 V}, voltage: 117 V}", "S1 -> T1.1", "S1 -> T1.A"},
	} {
		text := altered(t, larkfield, swap...)
		before := outcomes(t, text)
		from, to := parts(text)
		tried := 0
		for _, at := range key.FindAllStringIndex(text[from:to], -1) {
			cut := text[:from+at[0]] + text[from+at[1]:]
			cut = strings.ReplaceAll(strings.ReplaceAll(cut, ", }", "}"), "{, ", "{")
			if strings.Contains(text[from+at[0]:from+at[1]], "\n") {
				continue
			}
			tried++
			after := outcomes(t, cut)
			for name, f := range after {
				was, asked := before[name]
				if asked && was.Outcome != rules.Pass && f.Outcome == rules.Pass {
					t.Errorf("%v: without %q %s goes from %s to pass: %s", swap, text[from+at[0]:from+at[1]], name, was.Outcome, f.Says)
				}
			}
			for name, was := range before {
				if _, asked := after[name]; !asked && was.Outcome != rules.Pass {
					t.Errorf("%v: without %q %s is no longer asked", swap, text[from+at[0]:from+at[1]], name)
				}
			}
		}
		if tried < 20 {
			t.Errorf("only %d keys tried", tried)
		}
	}
}
