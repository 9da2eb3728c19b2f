package rules

import (
	"fmt"

	"firstvolt/checks/pattern"
	"firstvolt/checks/strict"
)

var nameForm = pattern.Of(`^[a-z][a-z0-9]*(-[a-z0-9]+)*$`)

func checkName(name string) error {
	if !nameForm().MatchString(name) || len(name) > 48 {
		return &strict.Fault{Wrong: fmt.Sprintf("%q is not a name for a rule or caution", name), Right: "small letters and digits, joined by -, at most 48"}
	}
	return nil
}

// The shapes of the parts of a rule. What hangs on the figure (units, presence)
// is read in a second step, which knows the figures.
var (
	freeText = &strict.Shape{Text: &strict.TextShape{Note: true}}
	aWord    = &strict.Shape{Text: &strict.TextShape{}}
	someWord = &strict.Shape{Text: &strict.TextShape{}, List: &strict.ListShape{Item: aWord, Min: 1}}
	whenMap  = &strict.Shape{Map: &strict.MapShape{Any: someWord}}
	demand   = &strict.Shape{
		Text: &strict.TextShape{Words: []string{"present", "absent"}},
		Map: &strict.MapShape{Keys: []strict.Key{
			{Name: "at_most", Shape: aWord}, {Name: "at_least", Shape: aWord}, {Name: "between", Shape: aWord},
		}},
	}
	limits = &strict.Shape{List: &strict.ListShape{Min: 1, Item: &strict.Shape{Map: &strict.MapShape{Keys: []strict.Key{
		{Name: "when", Shape: whenMap, Required: true}, {Name: "must", Shape: demand}, {Name: "if-read", Shape: demand}, {Name: "should", Shape: demand},
	}}}}}
	sources = &strict.Shape{List: &strict.ListShape{Min: 1, Item: &strict.Shape{Map: &strict.MapShape{Keys: []strict.Key{
		{Name: "status", Required: true, Shape: &strict.Shape{Text: &strict.TextShape{Words: []string{"published", "from-memory", "common-practice", "computed", "shop"}}}},
		{Name: "source", Required: true, Shape: freeText},
	}}}}}
	says = &strict.Shape{Text: &strict.TextShape{Note: true}, Map: &strict.MapShape{Keys: []strict.Key{
		{Name: "present", Shape: freeText}, {Name: "absent", Shape: freeText},
		{Name: "left", Shape: freeText}, {Name: "over", Shape: freeText},
	}}}
	clauses = &strict.Shape{List: &strict.ListShape{Min: 1, Item: &strict.Shape{Map: &strict.MapShape{Keys: []strict.Key{
		{Name: "figure", Shape: aWord, Required: true, Doc: "the figure that is asked"},
		{Name: "must", Shape: demand, Doc: "what is required"},
		{Name: "if-read", Shape: demand, Doc: "what is required of a reading that nobody owes"},
		{Name: "should", Shape: demand, Doc: "what had better be so"},
		{Name: "limits", Shape: limits, Doc: "other limits where facts hold"},
		{Name: "when", Shape: whenMap, Doc: "facts that must hold beside those of the rule"},
		{Name: "asked_if", Shape: aWord, Doc: "as of a rule, for this clause"},
		{Name: "says", Shape: says, Doc: "how the finding is worded"},
		{Name: "basis", Shape: sources, Doc: "in the place of the rule's, where this clause decides"},
		{Name: "risk", Shape: &strict.Shape{Text: &strict.TextShape{Words: risks}}, Doc: "in the place of the rule's"},
		{Name: "why", Shape: freeText, Doc: "in the place of the rule's"},
		{Name: "remedy", Shape: freeText, Doc: "in the place of the rule's"},
		{Name: "unproven", Shape: freeText, Doc: "in the place of the remedy where nothing is wrong yet: it is not known, or astride"},
	}}}}}
	stages = oneOf(Stages)

	ruleShape = &strict.Shape{Map: &strict.MapShape{Keys: []strict.Key{
		{Name: "group", Required: true, Shape: &strict.Shape{Text: &strict.TextShape{Words: Groups}}, Doc: "the group that it is judged in"},
		{Name: "of", Shape: someWord, Required: true, Doc: "the kinds of subject: one finding for each subject of them"},
		{Name: "risk", Required: true, Shape: &strict.Shape{Text: &strict.TextShape{Words: risks}}, Doc: "what it guards against (advice has no must)"},
		{Name: "stages", Shape: stages, Doc: "the stages that ask it; left out, all of them"},
		{Name: "when", Shape: whenMap, Doc: "facts that must hold; left out, it is always asked"},
		{Name: "asked_if", Shape: aWord, Doc: "a figure of the same subject, present or absent: where it is absent, the rule is not asked"},
		{Name: "gather", Shape: &strict.Shape{Text: &strict.TextShape{Words: gathers}}, Doc: "cautions of one cause are one finding, of the part or of the set"},
		{Name: "asks", Shape: freeText, Doc: "the rule in one sentence"},
		{Name: "limits", Shape: limits, Doc: "other limits where facts hold, for every clause"},
		{Name: "clauses", Shape: clauses, Required: true, Doc: "what is asked: all of them must hold"},
		{Name: "why", Shape: freeText, Required: true, Doc: "what happens where it is not so"},
		{Name: "remedy", Shape: freeText, Required: true, Doc: "what to do"},
		{Name: "basis", Shape: sources, Required: true, Doc: "where the limit is from"},
		{Name: "example", Shape: example, Required: true, Doc: "what is sound and what is not: changes of a sheet that the tests run, or, of a shop's rule, words"},
	}}}
	// extensionShape is what a shop may add to a rule of the book.
	extensionShape = &strict.Shape{Map: &strict.MapShape{Keys: []strict.Key{
		{Name: "when", Shape: whenMap}, {Name: "limits", Shape: limits},
		{Name: "clauses", Shape: clauses, Required: true},
		{Name: "why", Shape: freeText}, {Name: "remedy", Shape: freeText},
		{Name: "basis", Shape: sources, Required: true},
	}}}

	cautionShape = &strict.Shape{Map: &strict.MapShape{Keys: []strict.Key{
		{Name: "step", Required: true, Shape: oneOf(Steps)},
		{Name: "stages", Shape: stages}, {Name: "of", Shape: someWord}, {Name: "when", Shape: whenMap},
		{Name: "text", Shape: freeText}, {Name: "forms", Shape: forms}, {Name: "basis", Shape: sources, Required: true},
	}}}
	standingShape = &strict.Shape{Map: &strict.MapShape{Keys: []strict.Key{
		{Name: "text", Shape: freeText}, {Name: "forms", Shape: forms}, {Name: "basis", Shape: sources, Required: true},
	}}}
	forms = &strict.Shape{List: &strict.ListShape{Min: 1, Item: &strict.Shape{Map: &strict.MapShape{Keys: []strict.Key{
		{Name: "of", Shape: someWord}, {Name: "when", Shape: whenMap}, {Name: "text", Shape: freeText, Required: true},
	}}}}}
	fileShape = &strict.Shape{Map: &strict.MapShape{Keys: []strict.Key{
		{Name: "rules", Shape: &strict.Shape{Map: &strict.MapShape{Any: ruleShape, CheckKey: checkName}}},
		{Name: "cautions", Shape: &strict.Shape{Map: &strict.MapShape{Any: cautionShape, CheckKey: checkName}}},
		{Name: "owed", Shape: standingShape}, {Name: "deferral", Shape: standingShape},
	}}}
)

// Keys are the keys of a rule and those of a clause, each with its meaning.
func Keys() (rule, clause []strict.Key) {
	return ruleShape.Map.Keys, clauses.List.Item.Map.Keys
}

// oneOf is a word of the list, or a list of them.
func oneOf(words []string) *strict.Shape {
	t := &strict.TextShape{Words: words}
	return &strict.Shape{Text: t, List: &strict.ListShape{Min: 1, Item: &strict.Shape{Text: t}}}
}

// shopShape is the shape of a shop's file beside a book: names of the book
// take clauses, all others are whole rules.
func shopShape(b *Book) *strict.Shape {
	m := &strict.MapShape{Any: ruleShape, CheckKey: checkName}
	for _, r := range b.rules {
		m.Keys = append(m.Keys, strict.Key{Name: r.Name, Shape: extensionShape})
	}
	return &strict.Shape{Map: &strict.MapShape{Keys: []strict.Key{{Name: "rules", Required: true, Shape: &strict.Shape{Map: m}}}}}
}
