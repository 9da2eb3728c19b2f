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
	eachSound(t, func(t *testing.T, s *sound) {
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
	supply                       int // for rules that are not judged yet, and not seen by others
	by                           map[string]int
	survived                     map[string]int
}

func (c *tally) add(f func()) {
	c.Lock()
	defer c.Unlock()
	f()
}

// TestEverySlip makes every slip in every place of every sound sheet. Each must
// come to the outcome named for it under a rule named for it. What passes unseen
// must leave the set as it was, net for net. A slip behind the load, which only
// the rules of the high tension can see, must not be cleared.
func TestEverySlip(t *testing.T) {
	count := &tally{by: map[string]int{}, survived: map[string]int{}, passed: map[string]bool{}, noticed: map[string]bool{}}
	chosen := chooseSlips(t)
	t.Run("on", func(t *testing.T) {
		eachSound(t, func(t *testing.T, s *sound) {
			count.add(func() {
				for _, f := range s.was.Findings {
					count.passed[f.Rule] = count.passed[f.Rule] || f.Outcome == rules.Pass
				}
			})
			for _, slip := range s.all() {
				for _, made := range slip.slips {
					count.add(func() { count.there++ })
					if *only == slip.Name || *only == "" && (*exhaustive || chosen[s.name+slip.Name+made.Where]) {
						one(t, s, slip.Slip, made, count)
					}
				}
			}
		})
	})
	survived := 0
	for _, n := range count.survived {
		survived += n
	}
	t.Logf("%d slips of %d made: %d caught as named, %d not readable, %d survived", count.made, count.there, count.caught, count.refused, survived)
	t.Logf("for the rules of the high tension, which are not judged yet: %d; none cleared", count.supply)
	for _, why := range slices.Sorted(maps.Keys(count.survived)) {
		t.Logf("  survived, %s: %d", why, count.survived[why])
	}
	if *only == "" {
		everyRule(t, count)
	}
	for _, rule := range slices.Sorted(maps.Keys(count.by)) {
		t.Logf("  by %s: %d", rule, count.by[rule])
	}
}

// chooseSlips is what is made where not all are: of each kind of slip, with its
// outcome and rules, one of all sheets, and some beside, by their names.
func chooseSlips(t *testing.T) map[string]bool {
	var lock sync.Mutex
	out, best := map[string]bool{}, map[string]string{}
	t.Run("choose", func(t *testing.T) {
		eachSound(t, func(t *testing.T, s *sound) {
			for _, slip := range s.all() {
				for _, made := range slip.slips {
					kind := slip.Name + made.Outcome + short(made.Rules)
					name := s.name + slip.Name + made.Where
					lock.Lock()
					if b, ok := best[kind]; !ok || pick(name) < pick(b) {
						best[kind] = name
					}
					if pick(name)%240 == 0 {
						out[name] = true
					}
					lock.Unlock()
				}
			}
		})
	})
	for _, name := range best {
		out[name] = true
	}
	return out
}

// neverFails are the rules that cannot come to a failure, with the worst that
// they come to and the reason.
var neverFails = map[string]rules.Outcome{
	"receptacle-proved": rules.Unproven, // an untested receptacle is not known to be wrong
	"leads-accounted":   rules.Unproven, // nor are leads that nobody measured
	"fuse-breaks-fault": rules.Warn,     // no region here has a branch device of more than 20 A
	"fuse-speed":        rules.Warn,     // these three are shoulds
	"ground-parts-last": rules.Warn,
	"limiter-tells":     rules.Warn,
}

// byExample are the rules that no sound sheet gives an occasion to, with the
// reason: the example of each passes it.
var byExample = map[string]string{
	"winding-part-current": "what is rated in amperes has its place in series, not across a winding",
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
		case r.Group == "high-tension": // not judged yet
		case !count.passed[r.Name] && byExample[r.Name] == "":
			t.Errorf("%s: passed by no sound sheet", r.Name)
		case !count.noticed[r.Name]:
			t.Errorf("%s: failed by no slip", r.Name)
		}
	}
}

func one(t *testing.T, s *sound, slip mistakes.Slip, made mistakes.Slipped, count *tally) {
	t.Helper()
	count.add(func() { count.made++ })
	name := fmt.Sprintf("%s: %s", slip.Name, made.Where)
	j := judgeTree(t, made.Tree())
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
	if j.Verdict == rules.Cleared && (made.Outcome == mistakes.NotJudged || len(by) > 0 && made.Outcome != mistakes.Caution) {
		t.Errorf("%s: cleared, noticed by %v", name, by)
	}
	switch {
	case len(by) > 0:
		count.add(func() {
			count.caught++
			for _, rule := range by {
				count.by[rule]++
			}
		})
	case mistakes.Alike(s.s, j.s):
		count.add(func() { count.survived["nets and ratings equal the sound sheet's"]++ })
	case mistakes.AlikeAsSet(s.s, j.s):
		count.add(func() { count.survived["nets and ratings equal the sound sheet's with its selector where it is set"]++ })
	case made.Outcome == mistakes.NotJudged:
		count.add(func() { count.supply++ })
	default:
		t.Errorf("%s: %s; asked %s of %s", name, strings.Join(append([]string{string(j.Verdict)}, s.worse(j)...), ", "), made.Outcome, short(made.Rules))
	}
}

// worse lists what came out worse than on the sound sheet.
func (s *sound) worse(j judged) []string {
	var saw []string
	before := s.was.found()
	for k, f := range j.found() {
		if rank(f.Outcome) > rank(before[k].Outcome) && f.Outcome != rules.Pass {
			saw = append(saw, fmt.Sprintf("%s of %s under %s", f.Outcome, f.Subject.Name, f.Rule))
		}
	}
	slices.Sort(saw)
	return saw
}

// TestSlipsAsText: what a slip makes of a sheet is a sheet of its own, and is
// judged alike from its text. Of each sheet every sixteenth kind of slip is tried.
func TestSlipsAsText(t *testing.T) {
	eachSound(t, func(t *testing.T, s *sound) {
		for i, slip := range s.all() {
			made := slip.slips
			if len(made) == 0 || (i+len(s.name))%16 != 0 {
				continue
			}
			one := made[i%len(made)]
			tree, text := judgeTree(t, one.Tree()), judge(t, strict.Write(one.Tree()))
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
	eachSound(t, func(t *testing.T, s *sound) {
		names := map[string]bool{}
		for _, slip := range s.all() {
			if names[slip.Name] || slip.Name == "" || slip.Says == "" {
				t.Errorf("slip %q: a name twice, or words missing", slip.Name)
			}
			names[slip.Name] = true
			where := map[string]bool{}
			for _, made := range slip.slips {
				if where[made.Where] {
					t.Errorf("%s: %s stands there twice", slip.Name, made.Where)
				}
				where[made.Where] = true
				switch made.Outcome {
				case mistakes.Unreadable:
				case mistakes.Caution, mistakes.NotJudged, mistakes.Unproven, mistakes.Fail:
					if made.Outcome == mistakes.NotJudged && made.Why == "" {
						t.Errorf("%s: %s: not judged, without a reason", slip.Name, made.Where)
					}
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
func (s *sound) noticed(j judged, made mistakes.Slipped) []string {
	by := map[string]bool{}
	before := s.was.found()
	for k, f := range j.found() {
		was := before[k]
		// A caution that was there for another reason counts by what it says now.
		other := made.Outcome == mistakes.Caution && f.Outcome == rules.Warn && was.Outcome == rules.Warn && f.Says != was.Says
		if slices.Contains(made.Rules, f.Rule) && mistakes.Reaches(string(f.Outcome), made.Outcome) && (other || rank(f.Outcome) > rank(was.Outcome)) {
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
