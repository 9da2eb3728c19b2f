package rules

import (
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
)

// Cautions of one cause are one finding of the part, with the subjects named and
// the needs of each; what is worse, or has a number of its own, stays apart.
func TestGather(t *testing.T) {
	ratio := figure.Def{Name: "ratio", Of: []string{"winding"}, Says: "how far the ratio is off", Unit: quantity.Number, Reading: true}
	load := func(gather string) *Book {
		b, problems := Load(fstest.MapFS{"a.yaml": {Data: []byte("rules:\n" + rule("turns", "group: readings\nof: winding\nrisk: set\n"+gather+"clauses: [{figure: ratio, if-read: {at_most: 1}, should: {at_most: 0.5}}]"))}}, []figure.Def{ratio})
		if b == nil {
			t.Fatal(problems)
		}
		return b
	}
	s := figure.Setting{Subjects: []figure.Subject{{Name: "set", Kind: "set"}, {Name: "T1", Kind: "transformer"}}}
	var figures []figure.Figure
	at := func(name string, f func(figure.Subject) figure.Figure) {
		of := figure.Subject{Name: name, Kind: "winding"}
		s.Subjects = append(s.Subjects, of)
		figures = append(figures, f(of))
	}
	untaken := func(of figure.Subject) figure.Figure {
		return figure.NotTaken(&ratio, of, figure.Need{What: "volts across " + of.Name})
	}
	number := func(x float64) func(figure.Subject) figure.Figure {
		return func(of figure.Subject) figure.Figure {
			return figure.Number(&ratio, of, quantity.Exact(x, quantity.Number))
		}
	}
	at("T1.plate", untaken)
	at("T1.heater", untaken)
	at("T1.bias", number(0.7))
	at("T1.rectifier", number(0.6))
	at("T1.other", number(2))
	at("T1.shop", func(of figure.Subject) figure.Figure { return figure.NotKnown(&ratio, of) })
	at("T2.plate", untaken)
	for gather, want := range map[string][]string{
		"gather: part\n": {"T1 caution", "T1.bias caution", "T1.other fail", "T1.rectifier caution", "T1.shop unproven", "T2.plate caution"},
		"gather: set\n":  {"T1.bias caution", "T1.other fail", "T1.rectifier caution", "T1.shop unproven", "set caution"},
		"":               {"T1.bias caution", "T1.heater caution", "T1.other fail", "T1.plate caution", "T1.rectifier caution", "T1.shop unproven", "T2.plate caution"},
	} {
		j := load(gather).Judge(s, figures, "bare")
		var got []string
		for _, f := range j.Findings {
			got = append(got, f.Subject.Name+" "+string(f.Outcome))
			if (f.Subject.Name == "T1" || f.Subject.Name == "set") != (len(f.Gathered) > 1) {
				t.Errorf("%s: %s gathers %v", gather, f.Subject.Name, f.Gathered)
			}
			if f.Subject.Name == "T1" && (!strings.HasPrefix(f.Says, "T1.plate, T1.heater: ") || len(f.Needs) != 2 || f.Subject.Kind != "transformer") {
				t.Errorf("%s; needs %v", f.Says, f.Needs)
			}
		}
		if !slices.Equal(got, want) || j.Counts.Asked != len(want) {
			t.Errorf("%q: %v, want %v", gather, got, want)
		}
	}
}
