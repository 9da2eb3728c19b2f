package rules

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"

	"pgregory.net/rapid"
)

// The three promises that a rulebook lives by, held against made-up books,
// figures and facts: more demands, less precise figures and fewer facts never
// make anything better.

var clauseFacts = []string{"bonded: yes", "construction: transformer", "construction: [line-connected, floating-chassis]", "mains: 200 V to 260 V", "mains: [90 V to 110 V, over 240 V]", "plug-fuse: [none, 1 A to 3 A]", "stage: bare", "reach: touchable", "role: main"}

func drawWhen(t *rapid.T) string {
	facts := rapid.SliceOfNDistinct(rapid.SampledFrom(clauseFacts), 0, 2, func(s string) string { return strings.Split(s, ":")[0] }).Draw(t, "when")
	return "{" + strings.Join(facts, ", ") + "}"
}

// drawDemand gives must and should: at most for bond, at least for leak.
func drawDemand(t *rapid.T, fig string) string {
	x := rapid.IntRange(2, 9).Draw(t, "limit")
	forms := []string{"must: {at_least: %d A}", "should: {at_least: %d A}", fmt.Sprintf("must: {at_least: %%d A}, should: {at_least: %d A}", x+1)}
	switch fig {
	case "has-ground":
		return rapid.SampledFrom([]string{"must: present", "if-read: present", "should: present"}).Draw(t, "presence")
	case "bond":
		forms = []string{"must: {at_most: %d Ω}", "if-read: {at_most: %d Ω}", "should: {at_most: %d Ω}", "must: {between: 1 Ω to %d Ω}",
			fmt.Sprintf("must: {at_most: %%d Ω}, should: {at_most: %d Ω}", x-1), fmt.Sprintf("if-read: {at_most: %%d Ω}, should: {at_most: %d Ω}", x-1)}
	}
	return fmt.Sprintf(rapid.SampledFrom(forms).Draw(t, "form"), x)
}

func drawClause(t *rapid.T) string {
	fig := rapid.SampledFrom([]string{"bond", "leak", "has-ground"}).Draw(t, "figure")
	out := "{figure: " + fig + ", " + drawDemand(t, fig)
	if w := drawWhen(t); w != "{}" {
		out += ", when: " + w
	}
	if rapid.IntRange(0, 4).Draw(t, "clause asked_if") == 0 {
		out += ", asked_if: has-ground"
	}
	var cases []string
	for range rapid.IntRange(0, 2).Draw(t, "limits") {
		if w := drawWhen(t); w != "{}" {
			cases = append(cases, "{when: "+w+", "+drawDemand(t, fig)+"}")
		}
	}
	if len(cases) > 0 {
		out += ", limits: [" + strings.Join(cases, ", ") + "]"
	}
	return out + "}"
}

func drawRule(t *rapid.T, name string) string {
	lines := "group: " + rapid.SampledFrom(Groups).Draw(t, "group") + "\nof: chassis\nrisk: " + rapid.SampledFrom([]string{"shock", "fire", "set"}).Draw(t, "risk")
	if w := drawWhen(t); w != "{}" {
		lines += "\nwhen: " + w
	}
	if rapid.IntRange(0, 4).Draw(t, "asked_if") == 0 {
		lines += "\nasked_if: has-ground"
	}
	lines += "\nstages: [" + strings.Join(rapid.SliceOfNDistinct(rapid.SampledFrom(Stages), 1, 3, rapid.ID[string]).Draw(t, "stages"), ", ") + "]\nclauses:"
	for range rapid.IntRange(1, 2).Draw(t, "clauses") {
		lines += "\n  - " + drawClause(t)
	}
	return rule(name, lines)
}

func drawBook(t *rapid.T) *Book {
	var rules []string
	for i := range rapid.IntRange(1, 5).Draw(t, "rules") {
		rules = append(rules, drawRule(t, fmt.Sprintf("r%d", i)))
	}
	return book(t, rules...)
}

func drawRange(t *rapid.T, d quantity.Dim) quantity.Range {
	low := rapid.Float64Range(0, 10).Draw(t, "low")
	high := low + rapid.Float64Range(0, 3).Draw(t, "more")
	if rapid.IntRange(0, 5).Draw(t, "open") == 0 {
		high = math.Inf(1)
	}
	return quantity.Range{Low: low, High: high, Dim: d}
}

func drawFigures(t *rapid.T) []figure.Figure {
	out := []figure.Figure{
		figure.Number(def("bond"), chassis, drawRange(t, quantity.Resistance)),
		figure.Number(def("leak"), chassis, drawRange(t, quantity.Current)),
		ground(rapid.Bool().Draw(t, "ground")),
	}
	drop := rapid.IntRange(0, 6).Draw(t, "drop")
	if drop < len(out) {
		out = slices.Delete(out, drop, drop+1)
	}
	return out
}

func drawSetting(t *rapid.T) figure.Setting {
	c := chassis
	c.Role = rapid.SampledFrom([]string{"", "main", "other"}).Draw(t, "role")
	s := figure.Setting{Subjects: []figure.Subject{c}, Facts: map[string]figure.Fact{}}
	for _, name := range []string{"bonded", "construction", "plug-ground"} {
		s.Facts[name] = figure.Fact{Word: rapid.SampledFrom(append([]string{""}, FactWords[name]...)).Draw(t, name)}
	}
	if rapid.Bool().Draw(t, "fuse") {
		s.Facts["plug-fuse"] = figure.Fact{Word: none}
	}
	low := rapid.Float64Range(90, 250).Draw(t, "mains")
	s.Facts["mains"] = figure.Fact{Range: &quantity.Range{Low: low, High: low + rapid.Float64Range(0, 20).Draw(t, "band"), Dim: quantity.Voltage}}
	return s
}

func drawStage(t *rapid.T) string { return rapid.SampledFrom(Stages).Draw(t, "stage") }

var verdictRank = map[Verdict]int{Cleared: 0, Open: 1, Hold: 2}

// noBetter fails where the second judgement is better than the first: a
// finding that did not pass passes or is gone, or the verdict clears.
func noBetter(t *rapid.T, first, second Judgement) {
	t.Helper()
	if first.Verdict != Cleared && second.Verdict == Cleared {
		t.Fatalf("%s became cleared", first.Verdict)
	}
	for _, f := range first.Findings {
		i := slices.IndexFunc(second.Findings, func(o Finding) bool { return o.Rule == f.Rule && o.Subject.Name == f.Subject.Name })
		if i < 0 {
			t.Fatalf("%s is not asked any more", f.Rule)
		}
		if o := second.Findings[i]; f.Outcome != Pass && o.Outcome == Pass {
			t.Fatalf("%s: %s became pass (%s)", f.Rule, f.Outcome, o.Says)
		}
	}
}

func TestMoreRulesNeverImprove(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		base, s, figures, stage := drawBook(t), drawSetting(t), drawFigures(t), drawStage(t)
		text := "rules:\n" + drawRule(t, "mine")
		if rapid.Bool().Draw(t, "extend") {
			text = "rules:\n  r0:\n    basis: [{status: shop, source: us}]\n    clauses: [" + drawClause(t) + "]\n"
		}
		shop, problems := LoadShop(base, "shop.yaml", []byte(text))
		if shop == nil {
			for _, p := range problems {
				if !strings.Contains(p.Wrong, "has no effect") {
					t.Fatal(p)
				}
			}
			return
		}
		first, second := base.Judge(s, figures, stage), shop.Judge(s, figures, stage)
		noBetter(t, first, second)
		if verdictRank[second.Verdict] < verdictRank[first.Verdict] {
			t.Fatalf("%s became %s", first.Verdict, second.Verdict)
		}
		for i, f := range first.Findings {
			j := slices.IndexFunc(second.Findings, func(o Finding) bool { return o.Rule == f.Rule })
			if second.Findings[j].Outcome.rank() < first.Findings[i].Outcome.rank() {
				t.Fatalf("%s: %s became %s", f.Rule, f.Outcome, second.Findings[j].Outcome)
			}
		}
	})
}

func TestWiderFiguresNeverImprove(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b, s, figures, stage := drawBook(t), drawSetting(t), drawFigures(t), drawStage(t)
		wider := slices.Clone(figures)
		i := rapid.IntRange(0, len(wider)-1).Draw(t, "which")
		if f := &wider[i]; f.Present != nil || rapid.IntRange(0, 3).Draw(t, "lose") == 0 {
			*f = figure.NotKnown(f.Def, f.Of)
		} else {
			f.Range.Low -= rapid.Float64Range(0, 5).Draw(t, "down")
			f.Range.High += rapid.Float64Range(0, 5).Draw(t, "up")
		}
		noBetter(t, b.Judge(s, figures, stage), b.Judge(s, wider, stage))
	})
}

func TestFewerFactsNeverImprove(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b, s, figures, stage := drawBook(t), drawSetting(t), drawFigures(t), drawStage(t)
		less := figure.Setting{Subjects: slices.Clone(s.Subjects), Facts: map[string]figure.Fact{}}
		for k, v := range s.Facts {
			less.Facts[k] = v
		}
		switch what := rapid.SampledFrom([]string{"bonded", "construction", "plug-ground", "plug-fuse", "mains", "band", "role"}).Draw(t, "what"); what {
		case "band":
			r := *less.Facts["mains"].Range
			r.Low -= rapid.Float64Range(0, 60).Draw(t, "down")
			r.High += rapid.Float64Range(0, 60).Draw(t, "up")
			less.Facts["mains"] = figure.Fact{Range: &r}
		case "role":
			less.Subjects[0].Role = ""
		default:
			delete(less.Facts, what)
		}
		noBetter(t, b.Judge(s, figures, stage), b.Judge(less, figures, stage))
	})
}

func TestCountsAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b, s, figures, stage := drawBook(t), drawSetting(t), drawFigures(t), drawStage(t)
		s.Subjects = append(s.Subjects, figure.Subject{Name: "second", Kind: "chassis"}, figure.Subject{Name: "S1", Kind: "switch"})
		j := b.Judge(s, figures, stage)
		c := j.Counts
		if c.Asked != len(j.Findings) || c.Asked != c.Pass+c.Caution+c.Unproven+c.Fail {
			t.Fatalf("counts %+v of %d findings", c, len(j.Findings))
		}
		seen := map[string]bool{}
		for _, f := range j.Findings {
			if id := f.Rule + " " + f.Subject.Name; seen[id] || f.Subject.Kind != "chassis" {
				t.Fatalf("%s stands twice or was never to be asked", id)
			} else {
				seen[id] = true
			}
			if f.Why == "" || f.Remedy == "" || f.Says == "" || len(f.Basis) == 0 {
				t.Fatalf("an empty finding: %+v", f)
			}
			if (f.Outcome == Unproven) && len(f.Needs) == 0 {
				t.Fatalf("unproven, and nothing would settle it: %+v", f)
			}
		}
		// A rule without conditions is asked of every subject of its kind.
		for _, r := range b.Rules() {
			plain := len(r.When) == 0 && r.AskedIf == "" && r.asked(stage)
			for _, k := range r.Clauses {
				plain = plain && len(k.When) == 0 && k.AskedIf == ""
			}
			if plain && (!seen[r.Name+" chassis"] || !seen[r.Name+" second"]) {
				t.Fatalf("%s was not asked of every chassis", r.Name)
			}
		}
		if (j.Verdict == Hold) != (c.Fail > 0) || j.Verdict == Cleared && (c.Unproven > 0 || c.Asked == 0) {
			t.Fatalf("%s with %+v", j.Verdict, c)
		}
	})
}
