package rules

import (
	"slices"

	"firstvolt/checks/figure"
	"firstvolt/checks/strict"
)

// Steps are the moments that a caution belongs to: while readings are taken
// on the unplugged set, when the first voltage is given, and afterwards.
var Steps = []string{"measure", "power", "after"}

// Caution is a standing warning that belongs to what a set and a step are. Its
// entry in the rulebook:
//
//	cautions:
//	  lamp-does-not-isolate:
//	    step: power                # measure power after, or a list
//	    stages: [heaters, rail]    # left out: all
//	    of: link                   # left out: the set; else fits if any such subject meets when
//	    when: {role: lamp-box}
//	    text: …
//	    basis: [{status: …, source: …}]
//
// A fact that is not known lets the caution stand.
type Caution struct {
	Name   string
	Steps  []string
	Stages []string
	Of     []string
	When   Condition
	Text   string
	Basis  []figure.Basis
}

// Standing is a sentence that every judgement carries.
type Standing struct {
	Text  string
	Basis []figure.Basis
}

// Cautions gives those that fit the set, the stage and the steps, by name.
func (b *Book) Cautions(set figure.Setting, stage string, steps ...string) []Caution {
	facts := withStage(set.Facts, stage)
	var out []Caution
	for _, c := range b.cautions {
		if slices.Contains(c.Stages, stage) && slices.ContainsFunc(steps, func(s string) bool { return slices.Contains(c.Steps, s) }) && c.fits(facts, set.Subjects) {
			out = append(out, c)
		}
	}
	return out
}

func (c Caution) fits(facts map[string]figure.Fact, subjects []figure.Subject) bool {
	if len(c.Of) == 0 {
		t, _ := c.When.holds(facts, figure.Subject{})
		return t != no
	}
	for _, s := range subjects {
		if slices.Contains(c.Of, s.Kind) {
			if t, _ := c.When.holds(facts, s); t != no {
				return true
			}
		}
	}
	return false
}

// caution takes up one caution of a file.
func (b *Book) caution(rd *reader, e strict.Entry) {
	c := Caution{Name: e.Key, Steps: words(e.Value.Get("step")), Stages: words(e.Value.Get("stages")), Of: words(e.Value.Get("of")),
		When: rd.condition(e.Value.Get("when")), Text: flat(e.Value.Word("text")), Basis: rd.basis(e.Value.Get("basis"))}
	if len(c.Stages) == 0 {
		c.Stages = Stages
	}
	for _, old := range b.cautions {
		if old.Name == c.Name {
			rd.bad(e.KeyPos, "the caution "+c.Name+" stands in the book already", "give it another name")
		}
	}
	b.cautions = append(b.cautions, c)
}
