package readings_test

import (
	"sync"
	"testing"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/readings"
	"firstvolt/checks/sheet"
	"firstvolt/checks/trial"
	"firstvolt/rules"
)

// swap is a change to the text of a sheet: old, which must stand there once,
// becomes new.
type swap struct{ old, new string }

func larkfield(t *testing.T) string { return trial.Sheet(t, "larkfield-six-forty") }

// altered is the text with the changes made.
func altered(t *testing.T, text string, swaps ...swap) string {
	t.Helper()
	for _, s := range swaps {
		text = trial.Altered(t, text, s.old, s.new)
	}
	return text
}

func benchOf(t *testing.T, text string) *bench.Bench {
	t.Helper()
	s, problems := sheet.Read("test.yaml", []byte(text))
	for _, p := range problems {
		t.Error(p)
	}
	if s == nil {
		t.FailNow()
	}
	return bench.New(s)
}

// book is the rulebook's file of this room, alone.
func book(t *testing.T) *rules.Book {
	t.Helper()
	loadBook.Do(func() { theBook = readBook(t) })
	return theBook
}

var (
	loadBook sync.Once
	theBook  *rules.Book
)

func readBook(t *testing.T) *rules.Book {
	t.Helper()
	var known []figure.Def
	var names []string
	for _, c := range readings.Checks {
		known, names = append(known, *c.Def), append(names, c.Def.Name)
	}
	b, problems := rules.Load(trial.RulesOn(t, "readings.yaml", names), known)
	for _, p := range problems {
		t.Error(p)
	}
	if b == nil {
		t.FailNow()
	}
	return b
}

// judge gives the findings of this room by "rule subject".
func judge(t *testing.T, text string) map[string]rules.Finding {
	t.Helper()
	b := benchOf(t, text)
	var figures []figure.Figure
	for _, c := range readings.Checks {
		fs, fault := c.Run(b)
		if fault != "" {
			t.Fatal(fault)
		}
		figures = append(figures, fs...)
	}
	out := map[string]rules.Finding{}
	for _, f := range book(t).Judge(b.Setting(), figures, b.Stage).Findings {
		out[f.Rule+" "+f.Subject.Name] = f
		for _, s := range f.Gathered { // one caution for several
			out[f.Rule+" "+s.Name] = f
		}
	}
	return out
}

// outcome is the outcome of one finding, "not asked" where there is none.
func outcome(fs map[string]rules.Finding, name string) string {
	f, ok := fs[name]
	if !ok {
		return "not asked"
	}
	return string(f.Outcome)
}
