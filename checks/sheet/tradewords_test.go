package sheet

import (
	"strings"
	"testing"
)

// What a restorer writes by his own trade's words leads to the sheet's, in one
// line and one step.
func TestTradeWordsOnASheet(t *testing.T) {
	const whole = `firstvolt: 1
set: {name: Invented, construction: transformer}
supply:
  region: REGION
  plug: PLUG
  upstream:
    - {kind: LINK}
parts:
  F1: {kind: fuse, rating: RATING, holder: panel, speed: SPEED}
  C1: {kind: CAN, value: 32 µF}
  T1:
    kind: transformer
    windings:
      primary: {ends: [1, 2]}
      plate: {ends: [3, 5], MIDDLE: 4, voltage: VOLTS}
wiring:
  - {run: plug.hot -> F1.end, color: COLOR}
  - F1.side -> T1.1
  - T1.2 -> plug.neutral
  - T1.TAP -> C1.plus
  - C1.minus -> chassis
`
	right := map[string]string{"REGION": "europe", "PLUG": "cee-7-7", "LINK": "rcd", "RATING": "630 mA", "SPEED": "time-delay", "CAN": "electrolytic", "MIDDLE": "tap", "VOLTS": "700 V", "COLOR": "brown", "TAP": "4"}
	for _, c := range []struct{ place, said, region, hint string }{
		{"", "", "", ""},
		{"PLUG", "schuko", "", "did you mean cee-7-4? one of: cee-7-7, "}, {"PLUG", "Schuko", "", "did you mean cee-7-4?"}, {"PLUG", "euro", "", "did you mean cee-7-16?"}, {"PLUG", "europlug", "", "did you mean cee-7-16?"},
		{"PLUG", "3-prong", "north-america", "did you mean nema-5-15? one of: "}, {"PLUG", "three-prong", "north-america", "did you mean nema-5-15?"},
		{"PLUG", "2-prong", "north-america", "did you mean nema-1-15 or nema-1-15-polarized?"}, {"PLUG", "3 pin", "united-kingdom", "did you mean bs-1363?"}, {"PLUG", "3-pin", "australia", "did you mean as-3112?"},
		{"PLUG", "3-pin", "japan", "did you mean jis-c-8303-earthed?"}, {"PLUG", "3-pin", "switzerland", "did you mean sev-1011?"}, {"PLUG", "bs-1363", "", "one of: cee-7-7, "},
		{"LINK", "fi", "", "did you mean rcd?"}, {"LINK", "FI-Schalter", "", "did you mean rcd?"}, {"LINK", "trenntrafo", "", "did you mean isolating-transformer?"}, {"LINK", "dim bulb tester", "", "did you mean lamp-box?"},
		{"CAN", "elko", "", "did you mean electrolytic?"}, {"SPEED", "träge", "", "did you mean time-delay?"}, {"SPEED", "Flink", "", "did you mean fast?"}, {"COLOR", "grün", "", "did you mean green?"}, {"COLOR", "schwarz", "", "did you mean black?"},
		{"MIDDLE", "CT", "", "did you mean tap?"}, {"MIDDLE", "center-tap", "", "did you mean tap?"}, {"TAP", "CT", "", "did you mean T1.4?"},
		{"VOLTS", "350-0-350 V", "", "write 700 V, from end to end, and its middle terminal as tap:"}, {"VOLTS", "350-0-350", "", "write 700 V,"}, {"VOLTS", "2 x 350 V", "", "write 700 V,"}, {"VOLTS", "2×312.5V", "", "write 625 V,"}, {"VOLTS", "350+350 V", "", "write 700 V,"}, {"VOLTS", "60-0-300 V", "", "write 360 V, from end to end, and the terminal between as one of taps:"},
		{"VOLTS", "650-700 V", "", "write 650 V to 700 V"},
		{"RATING", "T0,63A", "", "write rating: 0.63 A, speed: time-delay"}, {"RATING", "T 3,15 A", "", "write rating: 3.15 A, speed: time-delay"}, {"RATING", "F1,6A/250V", "", "write rating: 1.6 A, speed: fast"}, {"RATING", `"T0,63A"`, "", "write rating: 630 mA, speed: time-delay"},
		{"RATING", "T630mA", "", "write rating: 630 mA, speed: time-delay"}, {"RATING", "F2AH250V", "", "write rating: 2 A, speed: fast, breaking: high, voltage: 250 V"}, {"RATING", "T1A L 250V", "", "write rating: 1 A, speed: time-delay, breaking: low, voltage: 250 V"}, {"RATING", "0,63 A", "", "write rating: 0.63 A"},
	} {
		text := whole
		for place, word := range right {
			switch place {
			case c.place:
				word = c.said
			case "REGION":
				if c.region != "" {
					word = c.region
				}
			case "PLUG":
				if c.region != "" {
					continue // another fault, and not this one's
				}
			}
			text = strings.ReplaceAll(text, place, word)
		}
		_, problems := Read("x.yaml", []byte(text))
		if c.hint == "" {
			if len(problems) > 0 {
				t.Fatal(problems)
			}
			continue
		}
		most := 1
		if c.place == "MIDDLE" {
			most = 2 // what is wired to it is not there either
		}
		if len(problems) == 0 || len(problems) > most || !strings.Contains(problems[0].Right, c.hint) {
			t.Errorf("%s: %s: %v", c.place, c.said, problems)
		}
	}
}
