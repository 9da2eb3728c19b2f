package mistakes_test

import (
	"maps"
	"slices"
	"sync"
	"testing"

	"firstvolt/checks/mistakes"
	"firstvolt/rules"
)

// TestAlternatives holds every other sound way to bring no needless alarm: the
// verdict is no worse, and nothing fails or is unproven that was not before.
func TestAlternatives(t *testing.T) {
	var lock sync.Mutex
	why, tried := map[string]int{}, 0
	t.Run("on", func(t *testing.T) {
		eachSound(t, func(t *testing.T, s *sound) {
			for _, slip := range s.all() {
				for _, other := range slip.others {
					lock.Lock()
					why[other.Why]++
					lock.Unlock()
					if *exhaustive || pick(s.name+slip.Name+other.Where)%40 == 0 {
						lock.Lock()
						tried++
						lock.Unlock()
						alarm(t, s, slip.Name+": "+other.Where, other)
					}
				}
			}
		})
	})
	t.Logf("%d alternatives tried", tried)
	for _, reason := range slices.Sorted(maps.Keys(why)) {
		t.Logf("  %s: %d", reason, why[reason])
	}
	if len(why) < 8 || why[""] > 0 {
		t.Errorf("%d kinds of alternative, %d without a reason", len(why), why[""])
	}
}

func alarm(t *testing.T, s *sound, name string, other mistakes.Alternative) {
	t.Helper()
	j := judgeTree(t, other.Tree())
	if j.s == nil {
		t.Errorf("%s: not readable: %v", name, j.problems)
		return
	}
	if worth[j.Verdict] > worth[s.was.Verdict] {
		t.Errorf("%s: was %s, is %s, and is as good: %s", name, s.was.Verdict, j.Verdict, other.Why)
	}
	before := s.was.found()
	for k, f := range j.found() {
		if rank(f.Outcome) >= rank(rules.Unproven) && rank(f.Outcome) > rank(before[k].Outcome) {
			t.Errorf("%s: %s %s of %s, and is as good: %s", name, f.Outcome, f.Rule, f.Subject.Name, other.Why)
		}
	}
}

// worth orders verdicts from best to worst.
var worth = map[rules.Verdict]int{rules.Cleared: 0, "unproven": 1, "hold": 2}
