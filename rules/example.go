package rules

import (
	"fmt"

	"firstvolt/checks/strict"
)

// Example is what a rule says of two sheets, one in order and one not, and of
// sheets just inside and just outside of each of its numeric limits. Its entry
// in the rulebook:
//
//	example:
//	  sheet: larkfield-six-forty        # one of the sound sheets, testdata/sheets
//	  of: F1                            # the subject; left out: every one of the rule
//	  sound: {}                         # as it stands, which passes
//	  unsound:
//	    change: [{was: 'voltage: 250 V', is: 'voltage: 32 V'}]
//	    outcome: fail                   # left out: this
//	  edges:
//	    - {was: 'voltage: 250 V', inside: 'voltage: 120 V', outside: 'voltage: 119 V'}
//
// A change is one of the sheet's text: was must be in it once. Sound, unsound
// and edges may have a sheet, an of, changes and outcomes of their own; those of
// an edge are `passes` (left out: pass) and `fails` (left out: fail). A shop's
// rule may have a piece of a sheet in words for sound and for unsound instead.
type Example struct {
	Sound, Unsound Sample
	Edges          []Edge
}

// Sample is a sheet with changes, and what the rule says of it.
type Sample struct {
	Sheet   string // empty where Text stands for it
	Of      string // the subject; empty: the worst of all
	Changes []Change
	Outcome Outcome
	Text    string // a piece of a sheet in words
}

// Change is one of a sheet's text.
type Change struct{ Was, Is string }

// Edge is a pair of sheets that differ in one value, a little to each side of a
// limit.
type Edge struct{ Inside, Outside Sample }

var (
	changes = &strict.Shape{List: &strict.ListShape{Min: 1, Item: &strict.Shape{Map: &strict.MapShape{Keys: []strict.Key{
		{Name: "was", Required: true, Shape: freeText}, {Name: "is", Required: true, Shape: freeText},
	}}}}}
	outcomes = &strict.Shape{Text: &strict.TextShape{Words: []string{string(Pass), string(Warn), string(Unproven), string(Fail)}}}
	sample   = &strict.Shape{Text: &strict.TextShape{Note: true}, Map: &strict.MapShape{Keys: []strict.Key{
		{Name: "sheet", Shape: aWord}, {Name: "of", Shape: freeText}, {Name: "change", Shape: changes}, {Name: "outcome", Shape: outcomes},
	}}}
	example = &strict.Shape{Map: &strict.MapShape{Keys: []strict.Key{
		{Name: "sheet", Shape: aWord}, {Name: "of", Shape: freeText},
		{Name: "sound", Shape: sample, Required: true}, {Name: "unsound", Shape: sample, Required: true},
		{Name: "edges", Shape: &strict.Shape{List: &strict.ListShape{Min: 1, Item: &strict.Shape{Map: &strict.MapShape{Keys: []strict.Key{
			{Name: "sheet", Shape: aWord}, {Name: "of", Shape: freeText}, {Name: "change", Shape: changes},
			{Name: "was", Required: true, Shape: freeText}, {Name: "inside", Required: true, Shape: freeText}, {Name: "outside", Required: true, Shape: freeText},
			{Name: "passes", Shape: outcomes}, {Name: "fails", Shape: outcomes},
		}}}}}},
	}}}
)

// example reads the example of a rule.
func (rd *reader) example(n *strict.Node) Example {
	out := Example{Sound: rd.sample(n, n.Get("sound"), Pass), Unsound: rd.sample(n, n.Get("unsound"), Fail)}
	if list := n.Get("edges"); list != nil {
		for _, item := range list.Items {
			side := func(key, outcome string, left Outcome) Sample {
				s := rd.sample(n, item, left)
				if w := item.Word(outcome); w != "" {
					s.Outcome = Outcome(w)
				}
				s.Changes = append(s.Changes, Change{item.Word("was"), item.Word(key)})
				return s
			}
			out.Edges = append(out.Edges, Edge{side("inside", "passes", Pass), side("outside", "fails", Fail)})
		}
	}
	return out
}

// sample reads one side of an example; what it does not name is the example's.
func (rd *reader) sample(whole, n *strict.Node, outcome Outcome) Sample {
	if n == nil {
		return Sample{}
	}
	if n.Kind == strict.Text {
		return Sample{Text: n.Text, Outcome: outcome}
	}
	s := Sample{Sheet: n.Word("sheet"), Of: n.Word("of"), Outcome: outcome}
	if s.Sheet == "" {
		s.Sheet = whole.Word("sheet")
	}
	if s.Of == "" {
		s.Of = whole.Word("of")
	}
	if w := n.Word("outcome"); w != "" {
		s.Outcome = Outcome(w)
	}
	if s.Sheet == "" {
		rd.bad(n.At(), "the example names no sheet", "write sheet: with the name of a sound one, or a piece of a sheet in words")
	}
	if list := n.Get("change"); list != nil {
		for _, c := range list.Items {
			s.Changes = append(s.Changes, Change{c.Word("was"), c.Word("is")})
		}
	}
	return s
}

// String words a sample for a rule page: what is changed on which sheet.
func (s Sample) String() string {
	if s.Sheet == "" {
		return s.Text
	}
	out := s.Sheet
	if len(s.Changes) == 0 {
		out += " as it stands"
	}
	for i, c := range s.Changes {
		word := ", with "
		if i > 0 {
			word = " and "
		}
		out += fmt.Sprintf("%s%q in the place of %q", word, c.Is, c.Was)
	}
	return out
}
