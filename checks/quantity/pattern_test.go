package quantity

import (
	"regexp"
	"testing"
)

// The pattern of a dimension takes what Parse takes, in every spelling, and
// refuses the common slips.
func TestPatternTakesWhatParseTakes(t *testing.T) {
	texts := []string{"4.7 kΩ", "4.7k\u2126", "10 ohms", "47 µF", "47\u00a0μF", "47 uF", "110 V to 125 V", "over 500 MΩ", ">500 MΩ", "-5 °C", "−5 °C", "50 °F", "22 ℃",
		"18 AWG", "0.75 mm²", "0.75mm2", "6 ft", "2 in", "0.9 %", "2 digits", "3", ".5 V", "60 VA", "10 min", "60 Hz"}
	for d := Number; d <= Digits; d++ {
		form := regexp.MustCompile(d.Pattern())
		for _, text := range append(texts, d.Example()) {
			_, err := Parse(text, d)
			if (err == nil) != form.MatchString(text) {
				t.Errorf("%q as %s: pattern %v, Parse %v", text, d.Name(), form.MatchString(text), err)
			}
		}
		for _, text := range []string{"", "4,7 kΩ", "4k7", "1e6 V", "-3 V", "+3 V", "5 bananas", "nan", "V"} {
			if form.MatchString(text) {
				t.Errorf("%q fits %s", text, d.Name())
			}
		}
	}
}
