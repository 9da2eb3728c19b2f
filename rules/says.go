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
	// What is only wanted is no more than a caution while it is not known.
	if l != nil && l.Should || a.outcome == Warn {
		ask = "should be"
	}
	switch {
	case !a.figure.Known() && d.Present:
		return where(fmt.Sprintf("not known whether %s; it %s so", cmp.Or(a.clause.Says.Present, plain), notSo(ask, l)), s)
	case !a.figure.Known():
		return where(fmt.Sprintf("%s: not known, %s %s", cmp.Or(a.clause.Says.Number, plain), ask, l), s)
	case !d.Present:
		return where(fmt.Sprintf("%s: %s, %s %s", cmp.Or(a.clause.Says.Number, plain), a.figure.Range, ask, l), s)
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
func note(r *Rule, a answer) string {
	out := a.figure.Note
	add := func(text string) {
		if out != "" {
			text = strings.TrimSuffix(out, ".") + "; " + text
		}
		out = text
	}
	if len(a.open) > 0 && a.outcome != Pass {
		open := slices.Clone(a.open)
		slices.Sort(open)
		add("asked in its stricter form because this is not known for certain: " + strings.Join(slices.Compact(open), ", "))
	}
	if a.unsure {
		add("not known whether it applies at all: " + strings.TrimSuffix(r.IfDef.Says, "."))
	}
	return out
}

// closer says what would settle a value that lies astride its limit.
func closer(f figure.Figure, l *Limit) []figure.Need {
	r := f.Range.Rounded()
	edge := l.edge(r)
	need := figure.Need{What: "a closer value of: " + strings.TrimSuffix(f.Def.Says, ".")}
	at := quantity.Format(edge, l.Dim)
	middle := (r.Low + r.High) / 2
	off := quantity.Six(math.Abs(middle - edge))
	switch {
	case math.IsInf(r.High, 1):
		need.How = fmt.Sprintf("it is known from below only, as %s; an instrument whose range reaches %s, or the values that are missing", r, at)
	case math.IsInf(r.Low, -1):
		need.How = fmt.Sprintf("it is known from above only, as %s; an instrument whose range reaches %s, or the values that are missing", r, at)
	case !(off > 0):
		need.How = fmt.Sprintf("it lies on the limit of %s, and no meter can tell; better the part, then measure again", at)
	default:
		need.How = fmt.Sprintf("an instrument, or values on the sheet, whose error near %s is below %s (now it is %s)",
			at, quantity.Format(off, l.Dim), quantity.Format((r.High-r.Low)/2, l.Dim))
	}
	return []figure.Need{need}
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
