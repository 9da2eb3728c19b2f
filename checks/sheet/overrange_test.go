package sheet

import (
	"strings"
	"testing"
)

const oneReading = `firstvolt: 1
set: {name: Invented, construction: transformer}
supply: {region: north-america, plug: nema-5-15}
readings:
  KIND:
    - {between: [plug.hot, chassis], reads: VALUE}
`

// A meter over its range is told OL or a bound, and never asked for a number that
// it did not show.
func TestOverRangeInOtherWords(t *testing.T) {
	for _, c := range []struct {
		kind, bound string
		said        []string
	}{
		{"resistance", "over 40 MΩ", []string{"∞", "0L", "0.L", "unendlich", "Infinite", "infinity", "open", "Open circuit", "1.", `"1 ."`, "1", "inf", ".inf", "over ∞", "over OL", "over", `">"`, "over range", "overload", "over load",
			"OL MΩ", "0L Ω", "∞ Ω", `"∞ \u2126"`, "inf ohms", "o/c", "Offen", "kein Durchgang", "no continuity", "off scale", "+∞", `"> ∞"`, "over infinity"}},
		{"insulation", "over 40 MΩ", []string{"∞", "open", "0L", "inf MOhm"}},
		{"capacitance", "over 200 µF", []string{"∞", "0L", "over range", "OL F"}},
		{"voltage", "over 600 V", []string{"0L", "1.", "∞ V"}},
	} {
		for _, said := range c.said {
			text := strings.NewReplacer("KIND", c.kind, "VALUE", said).Replace(oneReading)
			_, problems := Read("x.yaml", []byte(text))
			if len(problems) != 1 || !strings.Contains(problems[0].Right, "write OL") || !strings.Contains(problems[0].Right, c.bound) || strings.Contains(problems[0].Right, "finite") || strings.Contains(problems[0].Right, "4.7") {
				t.Errorf("%s %s: %v", c.kind, said, problems)
			}
		}
	}
	for _, c := range [][3]string{ // these are no such thing
		{"resistance", "ok", "or OL where it showed that"}, {"resistance", "1 V", "a value in Ω"}, {"resistance", "1 k", "write 1 kΩ"}, {"capacitance", "open", "or OL"}, {"voltage", "none", "what the meter showed"},
		{"resistance", "over 40", "add the unit, like over 40 Ω"},
	} {
		_, problems := Read("x.yaml", []byte(strings.NewReplacer("KIND", c[0], "VALUE", c[1]).Replace(oneReading)))
		if len(problems) != 1 || !strings.Contains(problems[0].Right, c[2]) || strings.Contains(problems[0].Right, "write OL") {
			t.Errorf("%s %s: %v", c[0], c[1], problems)
		}
	}
	for _, right := range []string{"OL", "ol", "O.L", "o.l.", "over 40 MΩ", `"> 40 MΩ"`} {
		if _, problems := Read("x.yaml", []byte(strings.NewReplacer("KIND", "resistance", "VALUE", right).Replace(oneReading))); len(problems) > 0 {
			t.Errorf("%s: %v", right, problems)
		}
	}
}
