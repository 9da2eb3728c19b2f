package rules

import (
	"slices"
	"strings"

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
//	    text: …                    # {subjects} in it stands for the names of those that do
//	    basis: [{status: …, source: …}]
//
// In the place of of, when and text may stand `forms:`, a list of them: the
// first that fits is printed. A fact that is not known lets a form fit.
type Caution struct {
	Name     string
	Steps    []string
	Stages   []string
	Forms    []Form
	Text     string   // of the form that fits a set; empty in the book
	Subjects []string // the names that the text speaks of, where it names any
	Basis    []figure.Basis
}

// Form is a wording with what it is true of.
type Form struct {
	Of   []string
	When Condition
	Text string
}

// Standing is a sentence that every judgement carries. Its entry has text, or
// forms as a caution has; the last form fits every set.
type Standing struct {
	Forms []Form
	Text  string // of the form that fits a set; empty in the book
	Basis []figure.Basis
}

// subjectsMark stands in a text for the names of the subjects that fit.
const subjectsMark = "{subjects}"

// Cautions gives those that fit the set, the stage and the steps, in the order
// of the book.
func (b *Book) Cautions(set figure.Setting, stage string, steps ...string) []Caution {
	set.Facts = withStage(set.Facts, stage)
	var out []Caution
	for _, c := range b.cautions {
		if !slices.Contains(c.Stages, stage) || !slices.ContainsFunc(steps, func(s string) bool { return slices.Contains(c.Steps, s) }) {
			continue
		}
		var fits bool
		if c.Text, c.Subjects, fits = worded(c.Forms, set); fits {
			out = append(out, c)
		}
	}
	return out
}

// of is the standing sentence in the form that fits the set.
func (s Standing) of(set figure.Setting) Standing {
	s.Text, _, _ = worded(s.Forms, set)
	return s
}

// worded is the text of the first form that fits the set, with the names that
// it speaks of.
func worded(forms []Form, set figure.Setting) (text string, names []string, fits bool) {
	for _, f := range forms {
		who, ok := f.fits(set)
		switch {
		case !ok:
		case strings.Contains(f.Text, subjectsMark):
			return strings.ReplaceAll(f.Text, subjectsMark, strings.Join(who, ", ")), who, true
		default:
			return f.Text, nil, true
		}
	}
	return "", nil, false
}

// fits tells whether the form is true of the set, or may be, and of which
// subjects, where it is about any.
func (f Form) fits(set figure.Setting) (names []string, fits bool) {
	if len(f.Of) == 0 {
		t, _ := f.When.holds(set.Facts, figure.Subject{})
		return nil, t != no
	}
	for _, s := range set.Subjects {
		if slices.Contains(f.Of, s.Kind) {
			if t, _ := f.When.holds(set.Facts, s); t != no {
				names = append(names, s.Name)
			}
		}
	}
	return names, len(names) > 0
}

// caution takes up one caution of a file.
func (b *Book) caution(rd *reader, e strict.Entry) {
	c := Caution{Name: e.Key, Steps: words(e.Value.Get("step")), Stages: words(e.Value.Get("stages")),
		Forms: rd.forms(e.Value), Basis: rd.basis(e.Value.Get("basis"))}
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

// standing reads owed or deferral, which some form must word for every set.
func (rd *reader) standing(n *strict.Node) Standing {
	s := Standing{Forms: rd.forms(n), Basis: rd.basis(n.Get("basis"))}
	if len(s.Forms) > 0 {
		if last := s.Forms[len(s.Forms)-1]; len(last.Of)+len(last.When) > 0 {
			rd.bad(n.At(), "it is printed with every judgement, and no form of it fits every set", "end with a form that has text alone")
		}
	}
	return s
}

// forms reads the forms under n; of, when and text on n itself are the only one.
func (rd *reader) forms(n *strict.Node) []Form {
	list := n.Get("forms")
	switch {
	case list == nil && n.Get("text") == nil:
		rd.bad(n.At(), "it has no text", "write text:, or forms: with a text each")
		return nil
	case list == nil:
		return []Form{rd.form(n)}
	case n.Get("text") != nil || n.Get("of") != nil || n.Get("when") != nil:
		rd.bad(list.At(), "it has forms beside a text or a condition of its own", "put them into the forms")
	}
	var out []Form
	for _, item := range list.Items {
		out = append(out, rd.form(item))
	}
	return out
}

func (rd *reader) form(n *strict.Node) Form {
	f := Form{Of: words(n.Get("of")), When: rd.condition(n.Get("when")), Text: flat(n.Word("text"))}
	if len(f.Of) == 0 && strings.Contains(f.Text, subjectsMark) {
		rd.bad(n.Get("text").At(), "the text names subjects, and no kind of them is given", "write of: with the kind, or leave "+subjectsMark+" out")
	}
	return f
}
