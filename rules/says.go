package rules

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
)

// sentence words what was found: what, where, measured against limit.
func sentence(a answer, s figure.Subject) string {
	d, l := a.clause.Def, a.limit
	plain := strings.TrimSuffix(d.Says, ".")
	ask := "must be"
	if l != nil && l.Should {
		ask = "should be"
	}
	switch untaken := a.outcome == Warn && ask == "must be"; {
	case !a.figure.Known() && untaken && d.Present:
		return where(fmt.Sprintf("no reading tells whether %s; where one is taken, it %s so", cmp.Or(a.clause.Says.Present, plain), notSo(ask, l)), s)
	case !a.figure.Known() && untaken:
		return where(fmt.Sprintf("%s: not read; where it is, it %s %s", cmp.Or(a.clause.Says.Number, plain), ask, l), s)
	case !a.figure.Known() && d.Present:
		return where(fmt.Sprintf("not known whether %s; it %s so", cmp.Or(a.clause.Says.Present, plain), notSo(ask, l)), s)
	case !a.figure.Known():
		return where(fmt.Sprintf("%s: not known, %s %s", cmp.Or(a.clause.Says.Number, plain), ask, l), s)
	case !d.Present && a.clause.Says.Over != "" && a.figure.Range.High < 0:
		over := quantity.Range{Dim: a.figure.Range.Dim}.Sub(a.figure.Range)
		return where(a.clause.Says.Over+" "+over.To(l.digits(over)), s)
	case !d.Present:
		digits := l.digits(a.figure.Range)
		if a.clause.Says.Over != "" && a.figure.Range.Low < 0 {
			return where(fmt.Sprintf("%s: %s; less than 0 is over the limit", a.clause.Says.Number, a.figure.Range.To(digits)), s)
		}
		return where(fmt.Sprintf("%s: %s, %s %s", cmp.Or(a.clause.Says.Number, plain), a.figure.Range.To(digits), ask, l.to(digits)), s)
	}
	text, own := "this is not so: "+plain, a.clause.Says.Absent
	if *a.figure.Present {
		text, own = plain, a.clause.Says.Present
	}
	text = cmp.Or(own, text)
	if len(a.figure.Witness) > 0 {
		text += " (" + strings.Join(a.figure.Witness, " → ") + ")"
	}
	return where(text, s)
}

// factSays words the facts of a set for a person.
var factSays = map[string]string{
	"construction": "what kind of set it is", "bonded": "whether the chassis is joined to the ground pin",
	"plug-fits": "whether plug and joints fit one way only", "plug-ground": "whether the plug brings a ground",
	"plug-fuse": "the fuse in the plug", "branch-device": "the breaker or fuse of the receptacle's circuit",
	"system": "whether the supply has a neutral", "earthing": "how the supply is earthed", "earthing-said": "whether the sheet says how the supply is earthed", "mains": "the volts that the set gets",
	"frequency": "the frequency of the supply", "fuse-standard": "the standard of the fuse", "soldered-supply": "whether a rectifier is soldered in",
	"chassis-reach": "whether a hand gets to the chassis", "reach": "whether a hand gets to it", "role": "what it does in the set",
	"kind": "what kind of thing it is", "stage": "the stage",
}

func notSo(ask string, l *Limit) string {
	if l != nil && l.Present != nil && !*l.Present {
		return strings.TrimSuffix(ask, "be") + "not be"
	}
	return ask
}

// where puts the subject into a sentence, or in front of it.
func where(text string, s figure.Subject) string {
	switch {
	case strings.Contains(text, "{subject}"):
		return strings.ReplaceAll(text, "{subject}", s.Name)
	case s.Kind == "set":
		return text
	}
	return s.Name + ": " + text
}

// note adds to the figure's own note why a rule was asked at all, where facts
// or its asked_if left that open.
func note(a answer) string {
	out := a.figure.Note
	add := func(text string) {
		if out != "" {
			text = strings.TrimSuffix(out, ".") + "; " + text
		}
		out = text
	}
	if len(a.open) > 0 && a.outcome != Pass {
		var open []string
		for _, f := range a.open {
			open = append(open, cmp.Or(factSays[f], f))
		}
		slices.Sort(open)
		add("asked in its stricter form because this is not known for certain: " + strings.Join(slices.Compact(open), "; "))
	}
	for _, d := range a.unsure {
		add("not known whether it applies at all: " + strings.TrimSuffix(d.Says, "."))
	}
	return out
}

// closer says what would settle a value that lies astride its limit: what the
// figure names, then the finer reading that it names, else a closer value.
func closer(f figure.Figure, l *Limit) []figure.Need {
	if f.Finer != nil {
		return append(slices.Clone(f.Settle), *f.Finer)
	}
	r := f.Range.Rounded()
	edge, digits := l.edge(r), l.digits(r)
	need := figure.Need{What: strings.TrimSuffix(f.Def.Says, ".") + ", more exactly"}
	at, known := quantity.FormatTo(edge, l.Dim, digits), r.To(digits)
	middle := (r.Low + r.High) / 2
	off := quantity.Six(math.Abs(middle - edge))
	switch {
	case math.IsInf(r.High, 1):
		need.How = fmt.Sprintf("it is known from below only, as %s; an instrument whose range reaches %s, or the values that are missing", known, at)
	case math.IsInf(r.Low, -1):
		need.How = fmt.Sprintf("it is known from above only, as %s; an instrument whose range reaches %s, or the values that are missing", known, at)
	case !(off > 0):
		need.How = fmt.Sprintf("it lies on the limit of %s, and no meter can tell; better the part, then measure again", at)
	case l.Dim == quantity.Number:
		need.How = "a better instrument, or closer values on the sheet, for what the sum is made of; as it stands it may be anything from " + known
	default:
		need.How = fmt.Sprintf("an instrument, or values on the sheet, good to %s near %s; now it is good to %s",
			quantity.Format(off, l.Dim), at, quantity.Format((r.High-r.Low)/2, l.Dim))
	}
	return append(slices.Clone(f.Settle), need)
}

// edge is the end of the limit that the range lies across.
func (l *Limit) edge(r quantity.Range) float64 {
	low, high := l.bounds()
	if !(r.High <= high) {
		return high
	}
	return low
}

// asks makes the sentence of what a rule asks from its clauses.
func asks(r *Rule) string {
	var parts []string
	for _, c := range r.Clauses {
		plain := strings.TrimSuffix(c.Def.Says, ".")
		for _, d := range append([]Demand{c.Demand}, demands(c.Limits)...) {
			switch {
			case d.Must != nil:
				parts = append(parts, plain+": must be "+d.Must.String())
			case d.IfRead != nil:
				parts = append(parts, plain+": if it is read, must be "+d.IfRead.String())
			case d.Should != nil:
				parts = append(parts, plain+": should be "+d.Should.String())
			}
		}
	}
	return strings.Join(parts, "; ")
}

func demands(cases []Case) []Demand {
	var out []Demand
	for _, k := range cases {
		out = append(out, k.Demand)
	}
	return out
}
