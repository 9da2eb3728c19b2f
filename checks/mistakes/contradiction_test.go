package mistakes_test

import (
	"fmt"
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
	"sync/atomic"
	"testing"

	"firstvolt/checks/bench"
	"firstvolt/checks/faults"
	"firstvolt/checks/mistakes"
	"firstvolt/checks/quantity"
	"firstvolt/checks/sheet"
	"firstvolt/rules"
)

// TestNoContradiction: no sheet is cleared, and no rule of touch currents
// passes, while the fault table has a case with one fault at most above that
// rule's limit that no caution of the same check names. Asked of every sound
// sheet, of slips on them and of pairs of slips; which ones is chosen by a seed.
func TestNoContradiction(t *testing.T) {
	const seed, slips, pairs = 20261130, 6, 2 // of each sheet; -exhaustive has every slip
	var asked, cases atomic.Int64
	ask := func(t *testing.T, what string, j judged) {
		if j.s == nil || !j.s.HasWiring() {
			return
		}
		n, wrong := contradictions(t, j)
		asked.Add(1)
		cases.Add(int64(n))
		for _, w := range wrong {
			t.Errorf("%s: %s", what, w)
		}
	}
	t.Run("on", func(t *testing.T) {
		eachSound(t, func(t *testing.T, s *sound) {
			ask(t, "sound", s.was)
			random := rand.New(rand.NewPCG(seed, uint64(pick(s.name))))
			made := slipsOf(s.s)
			if !*exhaustive {
				random.Shuffle(len(made), func(a, b int) { made[a], made[b] = made[b], made[a] })
				made = made[:min(len(made), slips)]
			}
			for k, one := range made {
				j := judgeTree(t, one.Tree())
				ask(t, one.Where, j)
				if k >= pairs || j.s == nil {
					continue
				}
				if others := slipsOf(j.s); len(others) > 0 {
					other := others[random.IntN(len(others))]
					ask(t, one.Where+" and "+other.Where, judgeTree(t, other.Tree()))
				}
			}
		})
	})
	t.Logf("seed %d: %d sheets, %d cases above a limit", seed, asked.Load(), cases.Load())
	if asked.Load() < 100 || cases.Load() < 100 {
		t.Errorf("only %d sheets and %d cases", asked.Load(), cases.Load())
	}
}

// slipsOf is every slip that a sheet has room for.
func slipsOf(s *sheet.Sheet) []mistakes.Slipped {
	var out []mistakes.Slipped
	for _, slip := range mistakes.All() {
		made, _ := slip.Apply(s.Root, s)
		for _, m := range made {
			m.Where = slip.Name + ": " + m.Where
			out = append(out, m)
		}
	}
	return out
}

// contradictions lists the cases above a limit that the check passes over, and
// how many there were.
func contradictions(t *testing.T, j judged) (above int, wrong []string) {
	t.Helper()
	b := j.bench
	if b == nil {
		b = bench.New(j.s)
	}
	cases, err := faults.Singles(b)
	if err != nil {
		if j.Verdict == rules.Cleared {
			wrong = append(wrong, "cleared without a table: "+err.Error())
		}
		return 0, wrong
	}
	seen := map[string]bool{}
	for _, c := range cases {
		rule, limit := "touch-current-single-fault", 5e-3
		switch off := c.Switches() != "" && !strings.Contains(c.Switches(), "closed"); {
		case c.Fault.None() && off:
			rule, limit = "touch-current-switched-off", 0.5e-3
		case c.Fault.None():
			rule, limit = "touch-current-sound", 0.5e-3
		}
		amps := c.Before.High
		if c.Effect == faults.Contained {
			amps = c.After.High
		}
		if c.Inside || c.Fault.Kind == faults.Unplugged || !(amps > limit) {
			continue
		}
		above++
		passes, named := false, false
		for _, f := range j.Findings {
			layer := f.Rule == "unearthed-chassis-single-fault"
			if f.Rule != rule && !(layer && rule == "touch-current-single-fault") || !layer && f.Subject.Name != c.Touch.Held {
				continue
			}
			passes = passes || f.Outcome == rules.Pass
			named = named || f.Outcome == rules.Warn && amperesNamed(f) >= amps*0.99 || f.Outcome == rules.Fail || f.Outcome == rules.Unproven
		}
		if text := fmt.Sprintf("%s of %s, %s, %s, %s", c.Fault, c.Touch, quantity.Format(amps, quantity.Current), c.Effect, rule); !named && (passes || j.Verdict == rules.Cleared) && !seen[text] {
			seen[text] = true
			wrong = append(wrong, text)
		}
	}
	return above, wrong
}

var writtenAmps = regexp.MustCompile(`([\d.]+) (m|µ)?A\b`)

// amperesNamed is the most current in A that a finding names.
func amperesNamed(f rules.Finding) float64 {
	most := 0.0
	if f.Figure.Range != nil {
		most = f.Figure.Range.High
	}
	for _, m := range writtenAmps.FindAllStringSubmatch(f.Says+" "+f.Note, -1) {
		x, err := strconv.ParseFloat(m[1], 64)
		if err == nil {
			most = max(most, x*map[string]float64{"": 1, "m": 1e-3, "µ": 1e-6}[m[2]])
		}
	}
	return most
}
