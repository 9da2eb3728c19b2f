package ratings_test

import (
	"maps"
	"slices"
	"sync"
	"testing"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/ratings"
	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
	"firstvolt/checks/trial"
	"firstvolt/rules"
)

// larkfield is the whole example of the format, sound at stage heaters.
func larkfield(t *testing.T) string { return trial.Sheet(t, "larkfield-six-forty") }

// altered replaces texts of a sheet, each of which must stand there once.
func altered(t *testing.T, text string, pairs ...string) string {
	t.Helper()
	return trial.Altered(t, text, pairs...)
}

// ready reads a sheet that must be readable.
func ready(t *testing.T, text string) *bench.Bench {
	t.Helper()
	s, problems := sheet.Read("sheet.yaml", []byte(text))
	for _, p := range problems {
		t.Errorf("%d:%d %s; %s", p.Line, p.Column, p.Wrong, p.Right)
	}
	if s == nil {
		t.FailNow()
	}
	return bench.New(s)
}

var (
	loadBook sync.Once
	ownBook  *rules.Book
	faulty   []strict.Problem
)

// theBook is the rulebook of this room alone.
func theBook(t *testing.T) (*rules.Book, []strict.Problem) {
	t.Helper()
	loadBook.Do(func() {
		var defs []figure.Def
		var names []string
		for _, c := range ratings.Checks {
			defs, names = append(defs, *c.Def), append(names, c.Def.Name)
		}
		ownBook, faulty = rules.Load(trial.RulesOn(t, "ratings.yaml", names), defs)
	})
	return ownBook, faulty
}

func book(t *testing.T) *rules.Book {
	t.Helper()
	b, problems := theBook(t)
	for _, p := range problems {
		t.Errorf("%s:%d:%d %s; %s", p.File, p.Line, p.Column, p.Wrong, p.Right)
	}
	if b == nil {
		t.FailNow()
	}
	return b
}

// outcomes judges a sheet by the ratings rules: "rule subject" to outcome.
func outcomes(t *testing.T, text string) map[string]rules.Finding {
	t.Helper()
	b := ready(t, text)
	var figures []figure.Figure
	for _, c := range ratings.Checks {
		fs, fault := c.Run(b)
		if fault != "" {
			t.Error(fault)
		}
		figures = append(figures, fs...)
	}
	out := map[string]rules.Finding{}
	for _, f := range book(t).Judge(b.Setting(), figures, b.Stage).Findings {
		out[f.Rule+" "+f.Subject.Name] = f
	}
	return out
}

// expect compares one finding with a wanted outcome; "" means not asked.
func expect(t *testing.T, got map[string]rules.Finding, finding, want string) {
	t.Helper()
	f, asked := got[finding]
	switch {
	case !asked && want != "":
		t.Errorf("%s was not asked, want %s", finding, want)
	case asked && want == "":
		t.Errorf("%s was asked: %s (%s)", finding, f.Outcome, f.Says)
	case asked && string(f.Outcome) != want:
		t.Errorf("%s is %s, want %s: %s; %v; %v", finding, f.Outcome, want, f.Says, f.Trace, f.Needs)
	}
}

// change is one alteration of the whole example and what it does to one finding.
type change struct {
	name    string
	swap    []string
	finding string
	want    string
}

func tryChanges(t *testing.T, base string, changes []change) {
	t.Helper()
	for _, c := range changes {
		t.Run(c.name, func(t *testing.T) {
			expect(t, outcomes(t, altered(t, base, c.swap...)), c.finding, c.want)
		})
	}
}

func TestWholeExampleIsSound(t *testing.T) {
	got := outcomes(t, larkfield(t))
	asked := slices.Sorted(maps.Keys(got))
	want := []string{
		"chassis-capacitor-class C1", "chassis-capacitor-leakage chassis", "cord-carries-load cord", "cord-insulation cord", "cord-outlasts-fuse cord",
		"frequency-fits-supply set", "fuse-breaks-fault F1", "fuse-size F1", "fuse-speed F1", "fuse-voltage F1",
		"safety-capacitor-voltage C1", "switch-rating S1", "winding-voltage-fits-supply T1.primary",
	}
	if !slices.Equal(asked, want) {
		t.Errorf("asked %v, want %v", asked, want)
	}
	for name, f := range got {
		if f.Outcome != rules.Pass {
			t.Errorf("%s is %s: %s %v", name, f.Outcome, f.Says, f.Needs)
		}
		if len(f.Basis) == 0 || f.Why == "" || f.Remedy == "" {
			t.Errorf("%s lacks why, remedy or basis", name)
		}
	}
}
