package rules

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
	"firstvolt/checks/strict"
)

// reader makes rules of a file's nodes and collects what the book refuses.
type reader struct {
	file     string
	known    map[string]*figure.Def
	shop     bool
	problems []strict.Problem
}

func (rd *reader) bad(p strict.Pos, wrong, right string) {
	rd.problems = append(rd.problems, strict.Problem{File: rd.file, Pos: p, Wrong: wrong, Right: right})
}

func (rd *reader) err(p strict.Pos, err error) {
	wrong, right := err.Error(), ""
	if f, ok := err.(strict.Faulty); ok {
		wrong, right = f.Fault()
	}
	rd.bad(p, wrong, right)
}

// rule reads one whole rule.
func (rd *reader) rule(name string, at strict.Pos, n *strict.Node) *Rule {
	r := &Rule{
		Name: name, canon: strict.Canon(name), Group: n.Word("group"), Risk: Risk(n.Word("risk")), AskedIf: n.Word("asked_if"), Gather: n.Word("gather"),
		Of: words(n.Get("of")), Stages: words(n.Get("stages")), When: rd.condition(n.Get("when")),
		Asks: flat(n.Word("asks")), Why: flat(n.Word("why")), Remedy: flat(n.Word("remedy")),
		Basis:   rd.basis(n.Get("basis")),
		Example: rd.example(n.Get("example")),
		Shop:    rd.shop, File: rd.file, At: at,
	}
	if len(r.Stages) == 0 {
		r.Stages = Stages
	}
	r.Clauses = rd.clauses(r, n)
	r.IfDef = rd.askedIf(r, nil, n.Get("asked_if"))
	if r.Asks == "" {
		r.Asks = asks(r)
	}
	return r
}

// askedIf finds the figure on which it hangs whether a rule or clause is asked.
func (rd *reader) askedIf(r *Rule, when Condition, n *strict.Node) *figure.Def {
	d := rd.figure(n)
	if d == nil {
		return nil
	}
	rd.kinds(r, when, d, n.At())
	if !d.Present {
		rd.bad(n.At(), fmt.Sprintf("asked_if needs a figure that is present or absent, and %s is a number", d.Name), "name another figure")
	}
	return d
}

// clauses reads the clauses under n, which is a rule or what a shop adds to r.
func (rd *reader) clauses(r *Rule, n *strict.Node) []Clause {
	var out []Clause
	list := n.Get("clauses")
	if list == nil {
		return nil
	}
	for _, item := range list.Items {
		c := Clause{Figure: item.Word("figure"), Shop: rd.shop, Risk: Risk(item.Word("risk")), Basis: rd.basis(item.Get("basis")),
			Why: flat(item.Word("why")), Remedy: flat(item.Word("remedy")), AskedIf: item.Word("asked_if"),
			Unproven: flat(item.Word("unproven")), At: item.At()}
		c.When = rd.condition(item.Get("when"))
		c.Def = rd.figure(item.Get("figure"))
		if c.Def == nil {
			continue
		}
		all := append(slices.Clone(r.When), c.When...)
		rd.kinds(r, all, c.Def, item.Get("figure").At())
		c.IfDef = rd.askedIf(r, all, item.Get("asked_if"))
		c.Demand = rd.demand(r, c.Def, item)
		cases := item.Get("limits")
		if cases == nil {
			cases = n.Get("limits")
		}
		if cases != nil {
			for _, k := range cases.Items {
				one := Case{When: rd.condition(k.Get("when")), Demand: rd.demand(r, c.Def, k)}
				if len(one.When) == 0 {
					rd.bad(k.At(), "a limit without facts", "give its when, or put the limit on the clause")
				}
				if !one.asks() {
					rd.bad(k.At(), "a limit without effect", "give it a must, an if-read or a should; to ask nothing here, narrow the clause's when")
				}
				c.Limits = append(c.Limits, one)
			}
		}
		if !c.asks() && len(c.Limits) == 0 {
			rd.bad(c.At, fmt.Sprintf("the clause on %s has no effect", c.Figure), "give it a must, an if-read, a should or limits")
		}
		rd.oneWay(&c)
		rd.wording(&c, item.Get("says"))
		out = append(out, c)
	}
	return out
}

// demand reads the must, if-read and should under n.
func (rd *reader) demand(r *Rule, d *figure.Def, n *strict.Node) Demand {
	out := Demand{Must: rd.limit(d, n.Get("must")), IfRead: rd.limit(d, n.Get("if-read")), Should: rd.limit(d, n.Get("should"))}
	for _, key := range []string{"must", "if-read"} {
		if n.Get(key) != nil && (r.Risk == Advice || Risk(n.Word("risk")) == Advice) {
			rd.bad(n.Get(key).At(), "advice has no "+key, "write should, or give it another risk")
		}
	}
	switch ask := n.Get("if-read"); {
	case ask == nil:
	case !d.Reading:
		rd.bad(ask.At(), d.Name+" is no reading that may be left out", "write must, or should: a rule that can fail is not answered by silence")
	case n.Get("must") != nil:
		rd.bad(ask.At(), "a must and an if-read in one place", "write one of them")
	}
	if out.Should == nil {
		return out
	}
	out.Should.Should = true
	hard := out.hard()
	switch {
	case hard == nil:
	case out.Should.covers(hard):
		rd.bad(n.Get("should").At(), "the should is no stricter than the must, so it has no effect", "make it stricter or leave it out")
	case !out.Should.meets(hard):
		rd.bad(n.Get("should").At(), "no value meets both must and should", "the should lies inside the must")
	}
	return out
}

// limit reads one must, if-read or should, in the unit of the figure.
func (rd *reader) limit(d *figure.Def, n *strict.Node) *Limit {
	switch {
	case n == nil:
		return nil
	case n.Kind == strict.Text:
		if !d.Present {
			rd.bad(n.Pos, fmt.Sprintf("%s is a number, not present or absent", d.Name), "write {at_most: "+d.Unit.Example()+"}")
			return nil
		}
		is := n.Text == "present"
		return &Limit{Present: &is}
	case d.Present:
		rd.bad(n.Pos, fmt.Sprintf("%s is present or absent, not a number", d.Name), "write present or absent")
		return nil
	case len(n.Entries) != 1:
		rd.bad(n.Pos, "a limit has one of at_most, at_least, between", "write one of them")
		return nil
	}
	e := n.Entries[0]
	l := &Limit{Dim: d.Unit, Unit: d.Unit.SI(), Written: e.Value.Str()}
	var err error
	var low, high float64
	switch e.Key {
	case "at_most":
		high, err = bound(e.Value.Str(), d.Unit)
		l.AtMost = &high
	case "at_least":
		low, err = bound(e.Value.Str(), d.Unit)
		l.AtLeast = &low
	default:
		low, high, err = span(e.Value.Str(), d.Unit)
		l.AtLeast, l.AtMost = &low, &high
	}
	if err != nil {
		rd.err(e.Value.At(), err)
		return nil
	}
	return l
}

// oneWay refuses a clause that asks here for present and there for absent:
// where the facts are not known, nothing could meet it.
func (rd *reader) oneWay(c *Clause) {
	first := (*Limit)(nil)
	all := []Demand{c.Demand}
	for _, k := range c.Limits {
		all = append(all, k.Demand)
	}
	for _, d := range all {
		for _, l := range d.limits() {
			switch {
			case l.Present == nil:
			case first == nil:
				first = l
			case *first.Present != *l.Present:
				rd.bad(c.At, fmt.Sprintf("the clause asks %s both to be present and to be absent", c.Figure), "split it in two clauses, each with its when")
				return
			}
		}
	}
}

func (rd *reader) wording(c *Clause, n *strict.Node) {
	switch {
	case n == nil:
	case n.Kind == strict.Text && c.Def.Present:
		rd.bad(n.Pos, fmt.Sprintf("%s is present or absent, so it has two wordings", c.Figure), "write {present: …, absent: …}")
	case n.Kind == strict.Map && !c.Def.Present && (n.Word("left") == "" || n.Word("over") == ""):
		rd.bad(n.Pos, fmt.Sprintf("%s is a number, so it has one wording", c.Figure),
			"write one text, or, of what is left of a limit, {left: …, over: …}")
	case c.Def.Present && n.Word("left")+n.Word("over") != "":
		rd.bad(n.Pos, fmt.Sprintf("%s is present or absent, so nothing is left of it", c.Figure), "write {present: …, absent: …}")
	default:
		c.Says = Wording{Number: flat(cmp.Or(n.Text, n.Word("left"))), Over: flat(n.Word("over")),
			Present: flat(n.Word("present")), Absent: flat(n.Word("absent"))}
	}
}

// figure finds the definition that n names.
func (rd *reader) figure(n *strict.Node) *figure.Def {
	if n == nil || n.Str() == "" {
		return nil
	}
	d, ok := rd.known[n.Text]
	if !ok {
		var names []string
		for name := range rd.known {
			names = append(names, name)
		}
		slices.Sort(names)
		rd.bad(n.Pos, fmt.Sprintf("no figure is called %q", n.Text), strict.Suggest(n.Text, names, "see the list of figures"))
	}
	return d
}

// kinds refuses a figure that is not computed for a kind that is asked.
func (rd *reader) kinds(r *Rule, when Condition, d *figure.Def, at strict.Pos) {
	for _, k := range r.Of {
		asked := true
		for _, t := range when {
			asked = asked && (t.Fact != "kind" || slices.Contains(t.Words, k))
		}
		if asked && !slices.Contains(d.Of, k) {
			rd.bad(at, fmt.Sprintf("%s is not computed for a %s", d.Name, k), "it is computed for: "+strings.Join(d.Of, ", "))
		}
	}
}

// condition reads a when.
func (rd *reader) condition(n *strict.Node) Condition {
	if n == nil {
		return nil
	}
	var out Condition
	for _, e := range n.Entries {
		ranged, ok := figure.FactNames[e.Key]
		if !ok {
			var names []string
			for name := range figure.FactNames {
				names = append(names, name)
			}
			slices.Sort(names)
			rd.bad(e.KeyPos, fmt.Sprintf("%s is not a fact that a rule may name", e.Key), strict.Suggest(e.Key, names, "facts: "+strings.Join(names, ", ")))
			continue
		}
		t := Term{Fact: e.Key}
		items := []*strict.Node{e.Value}
		if e.Value.Kind == strict.List {
			items = e.Value.Items
		}
		for _, item := range items {
			if ranged {
				rd.span(&t, item)
			} else {
				rd.word(&t, item)
			}
		}
		out = append(out, t)
	}
	return out
}

func (rd *reader) word(t *Term, n *strict.Node) {
	if list, closed := FactWords[t.Fact]; closed && !slices.Contains(list, n.Str()) {
		rd.bad(n.At(), fmt.Sprintf("%q is not a word for %s", n.Str(), t.Fact), "one of: "+strings.Join(list, ", "))
		return
	}
	if !nameForm().MatchString(n.Str()) {
		rd.bad(n.At(), fmt.Sprintf("%q is not a word for %s", n.Str(), t.Fact), "one word in small letters")
		return
	}
	t.Words = append(t.Words, n.Str())
}

func (rd *reader) span(t *Term, n *strict.Node) {
	dim, ok := factDims[t.Fact]
	if n.Str() == none && ok {
		t.Words = append(t.Words, none)
		return
	}
	r, err := quantity.Parse(n.Str(), dim)
	if err != nil || !ok {
		rd.bad(n.At(), fmt.Sprintf("%q is not a span for %s", n.Str(), t.Fact), "write it like "+dim.Example()+" to "+dim.Example()+", or none")
		return
	}
	t.Spans = append(t.Spans, r.Rounded())
}

func (rd *reader) basis(n *strict.Node) []figure.Basis {
	if n == nil {
		return nil
	}
	var out []figure.Basis
	for _, item := range n.Items {
		b := figure.Basis{Status: figure.Status(item.Word("status")), Source: flat(item.Word("source"))}
		if rd.shop {
			b.Status = figure.Shop
		} else if b.Status == figure.Shop {
			rd.bad(item.Get("status").At(), "shop is the status of a shop's own rulebook", "name the source")
		}
		out = append(out, b)
	}
	return out
}

// words is a word or list of words as a list.
func words(n *strict.Node) []string {
	switch {
	case n == nil:
		return nil
	case n.Kind == strict.Text:
		return []string{n.Text}
	}
	var out []string
	for _, item := range n.Items {
		out = append(out, item.Str())
	}
	return out
}

// flat puts a text on one line.
func flat(text string) string {
	after := ' '
	for _, r := range text {
		if unicode.IsSpace(r) && (r != ' ' || after == ' ') {
			return strings.Join(strings.Fields(text), " ")
		}
		after = r
	}
	return strings.TrimRight(text, " ")
}
