package mistakes_test

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"sync"
	"testing"

	"firstvolt/checks/mistakes"
	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
	"firstvolt/rules"
)

// TestSound holds every sound sheet to have nothing but findings that pass or
// caution, and each transformer set on a bonded chassis to be cleared at the
// stage that it asks for. Between the others and a clearance stand groups of
// rules that are not judged, and nothing else.
func TestSound(t *testing.T) {
	eachSound(t, func(t *testing.T, s sound) {
		open := slices.ContainsFunc(s.was.Findings, func(f rules.Finding) bool { return f.Outcome != rules.Pass && f.Outcome != rules.Warn })
		bonded := s.s.Construction == "transformer" && s.s.Plug.Ground && s.s.Cord().Word("conductors") == "3"
		switch {
		case s.was.Verdict == rules.Cleared:
			return
		case !bonded && !open && len(s.was.NotJudged) > 0 && len(s.was.Reasons) > 0 &&
			!slices.ContainsFunc(s.was.Reasons, func(r string) bool { return !strings.HasPrefix(r, "without the ") }):
			return
		}
		t.Errorf("%s at stage %s: %s", s.name, s.was.Stage, s.was.Verdict)
		for _, f := range s.was.Findings {
			if f.Outcome != rules.Pass {
				t.Logf("%s %s: %s: %s %v", f.Outcome, f.Rule, f.Subject.Name, f.Says, f.Needs)
			}
		}
		for _, r := range s.was.Reasons {
			t.Log(r)
		}
	})
}

// TestNoTwoAlike: a second sheet with the graph of another shows nothing new.
func TestNoTwoAlike(t *testing.T) {
	all, err := soundSheets()
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]string{}
	for _, s := range all {
		read, problems := sheet.Read(s.name, s.data)
		if read == nil {
			t.Fatal(problems)
		}
		g := graph(read)
		if first, ok := seen[g]; ok {
			t.Errorf("%s is wired like %s", s.name, first)
		}
		seen[g] = s.name
	}
}

// graph is the shape of a set without names: how many parts of each kind meet
// in each net, net by net.
func graph(s *sheet.Sheet) string {
	net := map[string]string{}
	var of func(t string) string
	of = func(t string) string {
		if up, ok := net[t]; ok {
			return of(up)
		}
		return t
	}
	for _, w := range s.Wires {
		if a, b := of(w.A), of(w.B); a != b {
			net[a] = b
		}
	}
	kinds := map[string][]string{}
	for _, p := range s.Parts {
		for _, t := range p.Terminals() {
			n := of(p.Full(t))
			kinds[n] = append(kinds[n], p.Kind.Name)
		}
	}
	var nets []string
	for _, ks := range kinds {
		slices.Sort(ks)
		nets = append(nets, strings.Join(ks, "+"))
	}
	slices.Sort(nets)
	return strings.Join(nets, "\n")
}

// tally counts what became of the slips.
type tally struct {
	sync.Mutex
	// Rules that a sound sheet passes, and rules that a slip makes fail (advice: caution).
	passed, noticed map[string]bool

	there, made, caught, refused int
	by                           map[string]int
	survived                     map[string]int
}

func (c *tally) add(f func()) {
	c.Lock()
	defer c.Unlock()
	f()
}

// TestEverySlip makes every slip in every place of every sound sheet. Each must
// come to the outcome named for it under a rule named for it; what passes
// unseen must leave the set as it was, or harmless by the reference.
func TestEverySlip(t *testing.T) {
	count := &tally{by: map[string]int{}, survived: map[string]int{}, passed: map[string]bool{}, noticed: map[string]bool{}}
	t.Run("on", func(t *testing.T) {
		eachSound(t, func(t *testing.T, s sound) {
			count.add(func() {
				for _, f := range s.was.Findings {
					count.passed[f.Rule] = count.passed[f.Rule] || f.Outcome == rules.Pass
				}
			})
			for _, slip := range mistakes.All() {
				tried := map[string]bool{} // of each kind and outcome the first, on every third sheet
				for _, made := range slip.Apply(s.s.Root, s.s) {
					count.add(func() { count.there++ })
					kind := made.Outcome + strings.Join(made.Rules, " ")
					h := pick(s.name + slip.Name + made.Where)
					if *exhaustive || h%12 == 0 || !tried[kind] && pick(s.name+slip.Name+kind)%3 == 0 {
						one(t, s, slip, made, count)
					}
					tried[kind] = true
				}
			}
		})
	})
	t.Logf("%d slips of %d made: %d caught as named, %d not readable, %d survived", count.made, count.there, count.caught, count.refused, count.made-count.caught-count.refused)
	everyRule(t, count)
	for _, rule := range slices.Sorted(maps.Keys(count.by)) {
		t.Logf("  by %s: %d", rule, count.by[rule])
	}
	for _, why := range slices.Sorted(maps.Keys(count.survived)) {
		t.Logf("  survived, %s: %d", why, count.survived[why])
	}
}

// neverFails are the rules that cannot come to a failure, with the worst that
// they come to and the reason.
var neverFails = map[string]rules.Outcome{
	"receptacle-proved": rules.Unproven, // an untested receptacle is not known to be wrong
	"leads-accounted":   rules.Unproven, // nor are leads that nobody measured
	"fuse-breaks-fault": rules.Warn,     // no region here has a branch device of more than 20 A
}

// everyRule holds each rule of the book, but for those of the groups that are
// tried elsewhere, to be passed by a sound sheet and failed by a slip.
func everyRule(t *testing.T, count *tally) {
	t.Helper()
	b, err := book()
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range b.Rules() {
		switch {
		case r.Group == "supply", r.Group == "faults":
		case !count.passed[r.Name]:
			t.Errorf("%s: passed by no sound sheet", r.Name)
		case !count.noticed[r.Name]:
			t.Errorf("%s: failed by no slip", r.Name)
		}
	}
}

func one(t *testing.T, s sound, slip mistakes.Slip, made mistakes.Slipped, count *tally) {
	t.Helper()
	count.add(func() { count.made++ })
	name := fmt.Sprintf("%s: %s", slip.Name, made.Where)
	j := judgeTree(t, made.Root.Clone())
	switch {
	case j.s == nil && made.Outcome == mistakes.Unreadable:
		count.add(func() { count.refused++ })
		return
	case j.s == nil:
		t.Errorf("%s: not readable: %v", name, j.problems)
		return
	case made.Outcome == mistakes.Unreadable:
		t.Errorf("%s: readable", name)
		return
	}
	by := s.noticed(j, made)
	count.add(func() {
		for _, f := range j.Findings {
			count.noticed[f.Rule] = count.noticed[f.Rule] || f.Outcome == rules.Fail || f.Outcome == rules.Warn && f.Risk == "advice" || f.Outcome == neverFails[f.Rule]
		}
	})
	switch {
	case made.Outcome != mistakes.Harmless && len(by) > 0:
		count.add(func() {
			count.caught++
			for _, rule := range by {
				count.by[rule]++
			}
		})
		if made.Outcome != mistakes.Caution && made.Outcome != mistakes.NotJudged && j.Verdict == rules.Cleared {
			t.Errorf("%s: noticed by %v and still cleared", name, by)
		}
	case made.Outcome == mistakes.NotJudged && j.Verdict == rules.Cleared && s.was.Verdict != rules.Cleared:
		t.Errorf("%s: cleared, and was not before", name)
	case mistakes.Alike(s.s, j.s):
		count.add(func() { count.survived["the same set as before"]++ })
	case mistakes.AlikeAsSet(s.s, j.s):
		count.add(func() { count.survived["the same set where its selector is set"]++ })
	case made.Outcome == mistakes.Harmless, made.Outcome == mistakes.NotJudged:
		count.add(func() { count.survived[made.Why]++ })
	default:
		var saw []string
		for k, f := range j.found() {
			if rank(f.Outcome) > rank(s.was.found()[k].Outcome) && f.Outcome != rules.Pass {
				saw = append(saw, fmt.Sprintf("%s of %s under %s", f.Outcome, f.Subject.Name, f.Rule))
			}
		}
		slices.Sort(saw)
		t.Errorf("%s: %s; asked %s of %s", name, strings.Join(append([]string{string(j.Verdict)}, saw...), ", "), made.Outcome, short(made.Rules))
	}
}

// TestSlipsAsText: what a slip makes of a sheet is a sheet of its own, and is
// judged alike from its text. Of each sheet every eighth kind of slip is tried.
func TestSlipsAsText(t *testing.T) {
	eachSound(t, func(t *testing.T, s sound) {
		for i, slip := range mistakes.All() {
			made := slip.Apply(s.s.Root, s.s)
			if len(made) == 0 || (i+len(s.name))%8 != 0 {
				continue
			}
			one := made[i%len(made)]
			tree, text := judgeTree(t, one.Root.Clone()), judge(t, strict.Write(one.Root))
			if tree.Verdict != text.Verdict || len(tree.problems) != len(text.problems) || len(tree.Findings) != len(text.Findings) {
				t.Errorf("%s: %s: %s from the tree, %s from its text %v", slip.Name, one.Where, tree.Verdict, text.Verdict, text.problems)
			}
		}
	})
}

// TestNamed holds every slip to have a name, a sentence and a place of its own,
// and rules that the book has or will have.
func TestNamed(t *testing.T) {
	if n := len(mistakes.All()); n < 10 {
		t.Errorf("%d slips, want ten or more", n)
	}
	eachSound(t, func(t *testing.T, s sound) {
		names := map[string]bool{}
		for _, slip := range mistakes.All() {
			if names[slip.Name] || slip.Name == "" || slip.Says == "" {
				t.Errorf("slip %q: a name twice, or words missing", slip.Name)
			}
			names[slip.Name] = true
			where := map[string]bool{}
			for _, made := range slip.Apply(s.s.Root, s.s) {
				if where[made.Where] {
					t.Errorf("%s: %s stands there twice", slip.Name, made.Where)
				}
				where[made.Where] = true
				switch made.Outcome {
				case mistakes.Unreadable:
				case mistakes.Harmless, mistakes.Caution, mistakes.NotJudged:
					if made.Outcome != mistakes.Caution && made.Why == "" {
						t.Errorf("%s: %s: harmless without a reason", slip.Name, made.Where)
					}
				case mistakes.Unproven, mistakes.Fail:
					if len(made.Rules) == 0 {
						t.Errorf("%s: %s names no rule", slip.Name, made.Where)
					}
				default:
					t.Errorf("%s: %s: outcome %q", slip.Name, made.Where, made.Outcome)
				}
			}
		}
	})
}

// noticed lists the rules named for a slip that came to its outcome and were
// not there before.
func (s sound) noticed(j judged, made mistakes.Slipped) []string {
	by := map[string]bool{}
	before := s.was.found()
	for k, f := range j.found() {
		if slices.Contains(made.Rules, f.Rule) && mistakes.Reaches(string(f.Outcome), made.Outcome) && rank(f.Outcome) > rank(before[k].Outcome) {
			by[f.Rule] = true
		}
	}
	if slices.Contains(made.Rules, mistakes.Verdict) && len(j.Reasons) > len(s.was.Reasons) {
		by[mistakes.Verdict] = true
	}
	return slices.Sorted(maps.Keys(by))
}

func short(rules []string) string {
	if len(rules) > 6 {
		return fmt.Sprintf("any of %d rules", len(rules))
	}
	return strings.Join(rules, ", ")
}
