package rules

import (
	"cmp"
	"math"
	"slices"

	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
	"firstvolt/checks/strict"
)

// Outcome is what one rule says of one subject.
type Outcome string

// The outcomes of machine output.
const (
	Pass     Outcome = "pass"
	Warn     Outcome = "caution"
	Unproven Outcome = "unproven"
	Fail     Outcome = "fail"
)

// rank orders outcomes; a word that is none of ours is worst.
func (o Outcome) rank() int {
	i := slices.Index([]Outcome{Pass, Warn, Unproven, Fail}, o)
	if i < 0 {
		return 4
	}
	return i
}

// Measured is the figure of a finding, with the keys of the machine output. A
// bound that is not known is left out; both are, where nothing is known.
type Measured struct {
	Name    string          `json:"name"`
	Low     *float64        `json:"low,omitempty"`
	High    *float64        `json:"high,omitempty"`
	Unit    string          `json:"unit,omitempty"`
	Present *bool           `json:"present,omitempty"`
	Range   *quantity.Range `json:"-"` // the value for text; nil where not known or not a number
}

// Finding is what one rule says of one subject: everything that any format
// needs to show it.
type Finding struct {
	Rule    string
	Group   string
	Subject figure.Subject
	// Gathered are the subjects that the finding speaks of, where it is one caution
	// for several; its Subject is then the part or the set.
	Gathered []figure.Subject
	Outcome  Outcome
	Risk     Risk
	Says     string // one sentence: what, where, measured against limit; without the outcome
	Note     string // what the number alone does not say; may be empty
	Figure   Measured
	Limit    *Limit // that of the deciding clause; nil where it has none
	Witness  []string
	Trace    []string
	Needs    []figure.Need // what would settle it, where it is open
	Why      string
	Remedy   string
	Basis    []figure.Basis // the rule's, then those of the facts used on the way
	At       strict.Pos
}

// Judge asks every rule that the stage asks of every subject it is about.
// Findings come shock first, then by rule and subject. A stage that is none of
// ours is judged as rail, which asks most.
func (b *Book) Judge(set figure.Setting, figures []figure.Figure, stage string) Judgement {
	stage = ours(stage)
	t := table{facts: withStage(set.Facts, stage), by: make(map[key][]*figure.Figure, len(figures))}
	for i := range figures {
		if f := &figures[i]; f.Def != nil {
			k := key{f.Def.Name, f.Of.Name}
			t.by[k] = append(t.by[k], f)
		}
	}
	j := Judgement{Stage: stage, NotJudged: b.notJudged(stage, set.NotAsked, t.facts), Carried: b.Carried(set, stage)}
	j.Findings = make([]Finding, 0, len(figures)/2)
	var said []answered // of one rule
	for _, r := range b.rules {
		if !r.asked(stage) || slices.Contains(set.NotAsked, r.Group) {
			continue
		}
		said := said[:0]
		for _, s := range set.Subjects {
			f, asked := t.ask(r, s)
			if !asked {
				continue
			}
			// A name listed twice is one subject, and its worse side counts.
			i := slices.IndexFunc(said, func(o answered) bool { return o.Subject.Name == s.Name })
			switch {
			case i < 0:
				said = append(said, f)
			case f.Outcome.rank() > said[i].Outcome.rank():
				said[i] = f
			}
		}
		j.Findings = append(j.Findings, gather(r, set, said)...)
	}
	slices.SortStableFunc(j.Findings, func(x, y Finding) int {
		return cmp.Or(cmp.Compare(x.Risk.rank(), y.Risk.rank()), cmp.Compare(x.Rule, y.Rule), cmp.Compare(x.Subject.Name, y.Subject.Name))
	})
	j.conclude(set, t.facts)
	return j
}

// withStage is the facts with the stage that is asked.
func withStage(facts map[string]figure.Fact, stage string) map[string]figure.Fact {
	out := map[string]figure.Fact{}
	for k, v := range facts {
		out[k] = v
	}
	out["stage"] = figure.Fact{Word: stage}
	return out
}

type key struct{ figure, subject string }

// table is what one judgement looks things up in.
type table struct {
	facts map[string]figure.Fact
	by    map[key][]*figure.Figure
}

// answer is what one clause says of one figure.
type answer struct {
	clause  *Clause
	outcome Outcome
	figure  figure.Figure
	limit   *Limit
	open    []string      // facts not known, because of which it was asked
	unsure  []*figure.Def // what would have to be known to tell whether it applies at all
	needs   []figure.Need
}

// ask holds a rule against a subject; false where the rule does not apply.
func (t table) ask(r *Rule, s figure.Subject) (answered, bool) {
	if !r.of(s.Kind) {
		return answered{}, false
	}
	applies, open := r.When.holds(t.facts, s)
	applicable, doubt := t.askedIf(r.AskedIf, r.IfDef, s)
	if applies == no || applicable == no {
		return answered{}, false
	}
	var answers []answer
	for i := range r.Clauses {
		c := &r.Clauses[i]
		holds, more := c.When.holds(t.facts, s)
		if holds == no {
			continue
		}
		demand, doubts, asked := c.demand(t.facts, s)
		also, moreDoubt := t.askedIf(c.AskedIf, c.IfDef, s)
		if !asked || also == no {
			continue
		}
		doubts = append(append(slices.Clone(open), more...), doubts...)
		for _, f := range t.figures(c, s) {
			a := answer{clause: c, figure: *f, open: doubts}
			a.judge(demand)
			a.doubt(applicable, r.IfDef, doubt)
			a.doubt(also, c.IfDef, moreDoubt)
			answers = append(answers, a)
		}
	}
	if len(answers) == 0 {
		return answered{}, false
	}
	return finding(r, s, answers), true
}

// askedIf tells whether an asked_if holds: not where every figure of that name
// is known to be absent, certainly where one is known to be present. In between
// the rule or clause is asked, and what would settle it is named.
func (t table) askedIf(name string, d *figure.Def, s figure.Subject) (truth, []figure.Need) {
	if name == "" {
		return yes, nil
	}
	fs := t.by[key{name, s.Name}]
	if len(fs) == 0 {
		f := figure.NotKnown(d, s)
		fs = []*figure.Figure{&f}
	}
	out := no
	var needs []figure.Need
	for _, f := range fs {
		switch {
		case !f.Known() || f.Present == nil:
			out = max(out, maybe)
			needs = append(needs, f.Missing...)
		case *f.Present:
			out = yes
		}
	}
	return out, needs
}

// doubt makes unproven what fails where nobody knows whether the rule or the
// clause applies.
func (a *answer) doubt(asked truth, d *figure.Def, needs []figure.Need) {
	if asked == yes {
		return
	}
	switch a.outcome {
	case Fail:
		a.outcome = Unproven
	case Unproven:
	default:
		return
	}
	a.unsure = append(a.unsure, d)
	a.needs = append(slices.Clone(a.needs), needs...)
}

// figures are those of the clause and subject; one that nobody computed is
// missing, never passed. Where there are several, all count.
func (t table) figures(c *Clause, s figure.Subject) []*figure.Figure {
	if fs := t.by[key{c.Figure, s.Name}]; len(fs) > 0 {
		return fs
	}
	f := figure.NotKnown(c.Def, s)
	return []*figure.Figure{&f}
}

// demand is what the clause asks where the facts may hold several ways: of
// all that may bind, the strictest.
func (c *Clause) demand(facts map[string]figure.Fact, s figure.Subject) (d Demand, open []string, asked bool) {
	bind := func(more Demand) {
		d = Demand{Must: d.Must.and(more.Must), IfRead: d.IfRead.and(more.IfRead), Should: d.Should.and(more.Should)}
	}
	for _, k := range c.Limits {
		holds, doubts := k.When.holds(facts, s)
		if holds == no {
			continue
		}
		bind(k.Demand)
		open = append(open, doubts...)
		if holds == yes {
			return d, open, true
		}
	}
	bind(c.Demand)
	return d, open, d.asks()
}

// judge sets the answer's outcome, the limit that decided, and the needs.
func (a *answer) judge(d Demand) {
	hard := d.hard()
	if a.limit = hard; hard == nil {
		a.limit = d.Should
	}
	if wrong := faulty(a.figure, a.clause.Def); wrong != "" {
		a.figure = figure.NotKnown(a.clause.Def, a.figure.Of, figure.Need{What: a.clause.Def.Says, How: wrong})
	}
	if !a.figure.Known() {
		if a.outcome, a.needs = Unproven, a.figure.Missing; d.Must == nil && (d.IfRead == nil || a.figure.Untaken) {
			a.outcome = Warn
		}
	} else {
		must, should := a.reach(hard), a.reach(d.Should)
		switch {
		case must == beyond:
			a.outcome = Fail
		case must != within:
			a.outcome, a.needs = Unproven, closer(a.figure, hard)
		case should != within:
			a.outcome, a.limit = Warn, d.Should
			if should == astride {
				a.needs = closer(a.figure, d.Should)
			}
		default:
			a.outcome = Pass
			if d.Should != nil {
				a.limit = d.Should
			}
		}
	}
}

func (a *answer) reach(l *Limit) reach {
	if a.clause.Def.Present {
		return l.ofPresence(*a.figure.Present)
	}
	return l.of(a.figure.Range)
}

// faulty says why a figure that claims to be known carries no value: a check
// that went wrong must look like one that was never made.
func faulty(f figure.Figure, d *figure.Def) string {
	r := f.Range
	switch {
	case !f.Known():
		return ""
	case d.Present && f.Present == nil, !d.Present && f.Present != nil:
		return "the check gave no answer to this; report it as a fault of the program"
	case d.Present:
		return ""
	case !(r.Low <= r.High) || math.IsInf(r.Low, 1) || math.IsInf(r.High, -1):
		return "the sum gave no finite number; report it as a fault of the program"
	case r.Dim != d.Unit:
		return "the sum came out in another unit; report it as a fault of the program"
	}
	return ""
}

// room is how far the figure stays inside the limit that decided, at its worse
// end; less than nothing beyond it. Where there is no number it is zero.
func (a *answer) room() float64 {
	if a.limit == nil || a.limit.Present != nil || !a.figure.Known() {
		return 0
	}
	low, high := a.limit.bounds()
	return min(a.figure.Range.Low-low, high-a.figure.Range.High)
}

// finding puts the answers of one rule together: the worst decides, of several
// figures of one clause the one with the least room.
func finding(r *Rule, s figure.Subject, answers []answer) answered {
	worst := slices.MaxFunc(answers, func(x, y answer) int {
		if c := cmp.Compare(x.outcome.rank(), y.outcome.rank()); c != 0 || x.clause != y.clause {
			return c
		}
		return cmp.Compare(y.room(), x.room())
	})
	f := Finding{Rule: r.Name, Group: r.Group, Subject: s, Outcome: worst.outcome, Risk: cmp.Or(worst.clause.Risk, r.Risk),
		Says: sentence(worst, s), Note: note(worst), Figure: measured(worst), Limit: worst.limit,
		Witness: worst.figure.Witness, Trace: worst.figure.Trace,
		Why: cmp.Or(worst.clause.Why, r.Why), Remedy: worst.remedy(r),
		Basis: slices.Clone(r.Basis), At: worst.figure.At}
	if len(worst.clause.Basis) > 0 {
		f.Basis = slices.Clone(worst.clause.Basis)
	}
	for _, b := range worst.figure.From {
		if !slices.Contains(f.Basis, b) {
			f.Basis = append(f.Basis, b)
		}
	}
	if f.At == (strict.Pos{}) {
		f.At = s.At
	}
	for _, a := range answers {
		for _, n := range a.needs {
			if !slices.Contains(f.Needs, n) {
				f.Needs = append(f.Needs, n)
			}
		}
	}
	return answered{f, worst}
}

// remedy is what to do: of what is only not known, the clause's own word for that.
func (a *answer) remedy(r *Rule) string {
	own := ""
	if a.outcome == Unproven {
		own = a.clause.Unproven
	}
	return cmp.Or(own, a.clause.Remedy, r.Remedy)
}

// measured is the figure as the machine output shows it.
func measured(a answer) Measured {
	m := Measured{Name: a.clause.Figure}
	switch {
	case !a.figure.Known():
	case a.clause.Def.Present:
		m.Present = a.figure.Present
	default:
		r := a.figure.Range.Rounded()
		m.Range, m.Unit = &r, r.Dim.SI()
		if !math.IsInf(r.Low, 0) {
			m.Low = &r.Low
		}
		if !math.IsInf(r.High, 0) {
			m.High = &r.High
		}
	}
	return m
}
