package mistakes_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"sync/atomic"
	"testing"

	"firstvolt/checks/mistakes"
	"firstvolt/rules"
)

// improved lists what a sheet that knows less may not say: a finding that was
// no pass is none now, and a verdict that was not cleared is not cleared. A
// sheet that is refused clears nothing.
func improved(was, is judged) []string {
	if is.s == nil {
		return nil
	}
	var out []string
	after := is.found()
	for k, f := range was.found() {
		if g := after[k]; f.Outcome != rules.Pass && g.Outcome == rules.Pass {
			out = append(out, fmt.Sprintf("%s of %s was %s and is pass: %s", k.rule, k.subject, f.Outcome, g.Says))
		}
	}
	if was.Verdict != rules.Cleared && is.Verdict == rules.Cleared {
		out = append(out, fmt.Sprintf("was %s, is cleared", was.Verdict))
	}
	slices.Sort(out)
	return out
}

// tryLosses judges the base without all of these and reports what improved.
func tryLosses(t *testing.T, b base, losses ...loss) {
	t.Helper()
	for _, says := range improved(b.was, judgeTree(t, lose(b.was.s.Root, losses...))) {
		t.Errorf("%s: %s, %v: %s", b.was.s.Name, b.name, losses, says)
	}
}

// TestLosingKnowledgeNeverClears takes every key and every reading away from
// every base, and worsens every accuracy and reading, one at a time.
func TestLosingKnowledgeNeverClears(t *testing.T) {
	var tried atomic.Int64
	t.Run("on", func(t *testing.T) {
		eachSound(t, func(t *testing.T, s *sound) {
			for _, b := range s.bases(t) {
				sideBySide(b.was.losses(), func(l loss) {
					// One sheet's are tried one and all; of the others some, and all with -exhaustive, as the full check does.
					whole := *exhaustive || s.name == "larkfield-six-forty" && b.name == asItIs
					if whole || pick(s.name+b.name+l.String())%64 == 0 {
						tried.Add(1)
						tryLosses(t, b, l)
					}
				})
			}
		})
	})
	t.Logf("%d losses", tried.Load())
}

// TestLosingTwice takes two things away at once, from every base.
func TestLosingTwice(t *testing.T) {
	pairs := 4 // of each base
	if *exhaustive {
		pairs = 190
	}
	var tried atomic.Int64
	t.Run("on", func(t *testing.T) {
		eachSound(t, func(t *testing.T, s *sound) {
			rng := rand.New(rand.NewPCG(uint64(pick(s.name)), 2))
			for _, b := range s.bases(t) {
				ls := b.was.losses()
				for range pairs {
					x, y := ls[rng.IntN(len(ls))], ls[rng.IntN(len(ls))]
					if x.apart(y) {
						tried.Add(1)
						tryLosses(t, b, x, y)
					}
				}
			}
		})
	})
	t.Logf("%d pairs", tried.Load())
	if *exhaustive && tried.Load() < 20000 {
		t.Errorf("%d pairs of losses tried, want 20,000 or more", tried.Load())
	}
}

// TestLosingKnowledgeOfAFault takes something away from faulty sheets, slip by
// slip as their names choose: keys, inspections, readings, facts of a wire or a
// unit of the bench chain, whatever is no evidence of the fault. What is wrong
// with the set must go on being said or become not known, and never be cleared.
func TestLosingKnowledgeOfAFault(t *testing.T) {
	eachSound(t, func(t *testing.T, s *sound) {
		for _, slip := range s.all() {
			for _, made := range slip.slips {
				switch h := pick(s.name + slip.Name + made.Where); {
				case *exhaustive && h%4 == 0:
					loseOf(t, s.name+": "+slip.Name+": "+made.Where, made, h/4, 4)
				case h%128 == 0:
					loseOf(t, s.name+": "+slip.Name+": "+made.Where, made, h/128, 1)
				}
			}
		}
	})
}

// loseOf takes so many things away from one slip's sheet, one at a time.
func loseOf(t *testing.T, name string, made mistakes.Slipped, h uint32, times int) {
	t.Helper()
	was := judgeTree(t, made.Tree())
	if was.s == nil || was.Verdict == rules.Cleared {
		return
	}
	free := was.losses()
	for k := range times {
		tryLosses(t, base{name, was}, free[(h+uint32(k*len(free)/times))%uint32(len(free))])
	}
}
