package rules

import (
	"math"
	"slices"
	"strings"

	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
)

// Condition is what facts must hold; the zero Condition always does.
type Condition []Term

// Term is one fact of a condition with the words or spans it may have.
type Term struct {
	Fact  string
	Words []string
	Spans []quantity.Range
}

// FactWords lists the words of each fact that is a word. A set's word outside
// the list counts as not known, so that two spellings can never switch a rule
// off. kind and role are not here: any word may stand for them.
var FactWords = map[string][]string{
	"stage":           Stages,
	"construction":    {"transformer", "line-connected", "floating-chassis"},
	"bonded":          {"yes", "no"},            // the chassis joined to the ground pin by wire
	"plug-fits":       {"one-way", "both-ways"}, // the product of every joint from receptacle to set
	"plug-ground":     {"present", "absent"},    // whether the plug as wired brings a protective conductor
	"system":          {"neutral", "two-line"},
	"earthing":        {"tn", "tt", "it", "none"},
	"earthing-said":   {"yes", "no"}, // no: the region has several systems, and the sheet names none
	"fuse-standard":   {"ul-248-14", "iec-60127"},
	"chassis-reach":   {"touchable", "enclosed"},
	"soldered-supply": {"present", "absent"},
	"reach":           {"touchable", "enclosed"},
}

// factDims is the unit of each fact that is a range. The word none says that
// the device is certainly not there.
var factDims = map[string]quantity.Dim{
	"plug-fuse": quantity.Current, "branch-device": quantity.Current,
	"mains": quantity.Voltage, "frequency": quantity.Frequency,
}

const none = "none"

// truth is what is known of a condition; the order is that of a worst case.
type truth uint8

const (
	no truth = iota
	maybe
	yes
)

// holds tells whether the condition holds of a subject, and names the facts
// because of which nobody can tell.
func (c Condition) holds(facts map[string]figure.Fact, s figure.Subject) (truth, []string) {
	out := yes
	var open []string
	for _, t := range c {
		switch t.holds(factOf(t.Fact, facts, s)) {
		case no:
			return no, nil
		case maybe:
			out = maybe
			open = append(open, t.Fact)
		}
	}
	return out, open
}

// factOf is a fact of the set, or of the subject for kind, role and reach.
func factOf(name string, facts map[string]figure.Fact, s figure.Subject) figure.Fact {
	switch name {
	case "kind":
		return figure.Fact{Word: s.Kind}
	case "role":
		return figure.Fact{Word: s.Role}
	case "reach":
		return figure.Fact{Word: s.Reach}
	}
	return facts[name]
}

func (t Term) holds(f figure.Fact) truth {
	if _, ranged := factDims[t.Fact]; ranged {
		return t.spans(f)
	}
	if words, closed := FactWords[t.Fact]; f.Word == "" || closed && !slices.Contains(words, f.Word) {
		return maybe
	}
	if slices.Contains(t.Words, f.Word) {
		return yes
	}
	return no
}

func (t Term) spans(f figure.Fact) truth {
	if f.Range == nil {
		switch {
		case f.Word != none:
			return maybe
		case slices.Contains(t.Words, none):
			return yes
		}
		return no
	}
	r := f.Range.Rounded()
	if !(r.Low <= r.High) || math.IsInf(r.Low, 1) || r.Dim != factDims[t.Fact] {
		return maybe
	}
	out := no
	for _, s := range t.Spans {
		if r.Low >= s.Low && r.High <= s.High {
			return yes
		}
		if r.Low <= s.High && r.High >= s.Low {
			out = maybe
		}
	}
	return out
}

// String words the condition for a rule page: "bonded: yes, mains: 200 V to 260 V".
func (c Condition) String() string {
	var terms []string
	for _, t := range c {
		all := append([]string{}, t.Words...)
		for _, s := range t.Spans {
			all = append(all, s.String())
		}
		terms = append(terms, t.Fact+": "+strings.Join(all, " or "))
	}
	return strings.Join(terms, ", ")
}
