package mistakes_test

import (
	"flag"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"strings"
	"sync"
	"testing"

	"firstvolt/checks"
	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/mistakes"
	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
	"firstvolt/rules"
)

// exhaustive has every slip made and every loss tried; without it some of them
// are, chosen by their names, so that it is always the same ones.
var exhaustive = flag.Bool("exhaustive", false, "make every slip and try every loss of knowledge")

// only has TestEverySlip make all slips of one kind and no other, for whoever adds a row.
var only = flag.String("only", "", "the one kind of slip that is made")

// seed chooses what the hunt does; another number, another hunt.
var seed = flag.Uint64("seed", 1, "of the hunt for dangerous sheets that are cleared")

func TestMain(m *testing.M) {
	debug.SetGCPercent(800) // thousands of small sheets: memory is cheap, sweeping is not
	os.Exit(m.Run())
}

// book is the rulebook that every test here judges by.
var book = sync.OnceValues(func() (*rules.Book, error) {
	b, problems := rules.Load(rules.Default(), checks.Catalogue())
	if len(problems) > 0 {
		return nil, &badBook{problems}
	}
	return b, nil
})

type badBook struct{ problems []strict.Problem }

func (b *badBook) Error() string { return b.problems[0].String() }

// sound is one sound sheet with its judgement, and what every slip makes of it.
type sound struct {
	name string
	data []byte
	s    *sheet.Sheet
	was  judged

	ready, tried sync.Once
	made         []made

	derivation
}

// made is what one kind of slip makes of a sheet.
type made struct {
	mistakes.Slip
	slips  []mistakes.Slipped
	others []mistakes.Alternative
}

// read reads and judges the sheet, once.
func (s *sound) read(t *testing.T) {
	t.Helper()
	s.ready.Do(func() { s.was = judge(t, s.data); s.s, s.was.bench = s.was.s, nil })
	if s.s == nil {
		t.Fatalf("not readable: %v", s.was.problems)
	}
}

// all is every slip on the sheet, made once.
func (s *sound) all() []made {
	s.tried.Do(func() {
		for _, slip := range mistakes.All() {
			slips, others := slip.Apply(s.s.Root, s.s)
			s.made = append(s.made, made{slip, slips, others})
		}
	})
	return s.made
}

// judged is a sheet with what the rulebook says of it.
type judged struct {
	s        *sheet.Sheet
	problems []strict.Problem
	figures  []figure.Figure
	bench    *bench.Bench // with what was solved on the way
	rules.Judgement
}

// judge judges the text of a sheet.
func judge(t testing.TB, data []byte) judged {
	t.Helper()
	s, problems := sheet.Read("slip.yaml", data)
	return judgeSheet(t, s, problems)
}

// judgeTree judges a sheet that was altered in memory. The tree is used up.
func judgeTree(t testing.TB, root *strict.Node) judged {
	t.Helper()
	s, problems := sheet.OfTree("slip.yaml", root)
	return judgeSheet(t, s, problems)
}

func judgeSheet(t testing.TB, s *sheet.Sheet, problems []strict.Problem) judged {
	t.Helper()
	b, err := book()
	if err != nil {
		t.Fatal(err)
	}
	if s == nil {
		return judged{problems: problems}
	}
	bn := bench.New(s)
	figures, faults := checks.Run(bn)
	if len(faults) > 0 {
		t.Errorf("internal faults: %v", faults)
	}
	return judged{s: s, figures: figures, bench: bn, Judgement: b.Judge(bn.Setting(), figures, bn.Stage)}
}

// about is what a finding is about: one for each rule and subject.
type about struct{ rule, kind, subject string }

// found gives the findings by what they are about.
func (j judged) found() map[about]rules.Finding {
	out := map[about]rules.Finding{}
	for _, f := range j.Findings {
		out[about{f.Rule, f.Subject.Kind, f.Subject.Name}] = f
		for _, s := range f.Gathered { // one caution for several
			out[about{f.Rule, s.Kind, s.Name}] = f
		}
	}
	return out
}

// rank orders outcomes; not asked is least.
func rank(o rules.Outcome) int {
	switch o {
	case "":
		return 0
	case rules.Pass:
		return 1
	case rules.Warn:
		return 2
	case rules.Unproven:
		return 3
	}
	return 4
}

var soundSheets = sync.OnceValues(func() ([]*sound, error) {
	paths, err := filepath.Glob("../../testdata/sheets/*.yaml")
	if err != nil {
		return nil, err
	}
	var out []*sound
	for _, p := range paths {
		data, err := os.ReadFile(p)
		if err != nil {
			return nil, err
		}
		out = append(out, &sound{name: strings.TrimSuffix(filepath.Base(p), ".yaml"), data: data})
	}
	return out, nil
})

// sideBySide runs f for each of many on all cores, so that no test waits at its
// end for one sheet.
func sideBySide[T any](all []T, f func(T)) {
	var group sync.WaitGroup
	gate := make(chan bool, runtime.GOMAXPROCS(0))
	for _, one := range all {
		gate <- true
		group.Go(func() {
			defer func() { <-gate }()
			f(one)
		})
	}
	group.Wait()
}

// eachSound runs f for every sound sheet, side by side.
func eachSound(t *testing.T, f func(t *testing.T, s *sound)) {
	all, err := soundSheets()
	if err != nil {
		t.Fatal(err)
	}
	if len(all) < 6 {
		t.Fatalf("%d sound sheets, want 6 or more", len(all))
	}
	for _, s := range all {
		t.Run(s.name, func(t *testing.T) {
			t.Parallel()
			s.read(t)
			f(t, s)
		})
	}
}
