package rules

import (
	"slices"
	"strings"
	"testing"

	"firstvolt/checks/figure"
	"firstvolt/checks/strict"
)

const because = "    basis: [{status: from-memory, source: a test}]\n"

// The first form that fits is the text; one that names subjects names those
// that meet its when, and what is not known may.
func TestForms(t *testing.T) {
	b, problems := load("cautions:\n  pull:\n    step: power\n    stages: [bare, heaters]\n    forms:\n" +
		"      - {of: [tube, rectifier], when: {role: tube}, text: 'out with {subjects}'}\n" +
		"      - {when: {bonded: no}, text: nothing named and no bond}\n" + because +
		"  fixed:\n    step: power\n    of: rectifier\n    when: {role: metal}\n    text: one is wired in\n" + because +
		"  always:\n    step: after\n    text: this too\n" + because)
	if b == nil {
		t.Fatal(problems)
	}
	v5, d1, what := figure.Subject{Name: "V5", Kind: "rectifier", Role: "tube"}, figure.Subject{Name: "D1", Kind: "rectifier", Role: "metal"}, figure.Subject{Name: "X1", Kind: "rectifier"}
	for _, c := range []struct {
		name, bonded, stage string
		subjects            []figure.Subject
		want                []string
		named               []string
	}{
		{"one of two is named", "yes", "heaters", []figure.Subject{v5, d1}, []string{"out with V5", "one is wired in", "this too"}, []string{"V5"}},
		{"one that may be either is named in both", "yes", "bare", []figure.Subject{v5, what}, []string{"out with V5, X1", "one is wired in", "this too"}, []string{"V5", "X1"}},
		{"the second form", "no", "bare", []figure.Subject{d1}, []string{"nothing named and no bond", "one is wired in", "this too"}, nil},
		{"no form", "yes", "bare", nil, []string{"this too"}, nil},
		{"a fact that is not known", "", "bare", nil, []string{"nothing named and no bond", "this too"}, nil},
		{"another stage", "no", "rail", []figure.Subject{v5}, []string{"this too"}, nil},
	} {
		s := set("bonded", c.bonded)
		s.Subjects = c.subjects
		var got []string
		for _, k := range b.Cautions(s, c.stage, "power", "after") {
			got = append(got, k.Text)
			if k.Name == "pull" && !slices.Equal(k.Subjects, c.named) {
				t.Errorf("%s: names %v", c.name, k.Subjects)
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

func TestFormsRefused(t *testing.T) {
	const head = "cautions:\n  x:\n    step: power\n"
	for _, c := range []struct{ text, at, wrong string }{
		{head + because, "a.yaml:3:5", "it has no text"},
		{head + "    text: a\n    forms: [{text: b}]\n" + because, "a.yaml:5:12", "beside a text"},
		{head + "    when: {bonded: no}\n    forms: [{text: b}]\n" + because, "a.yaml:5:12", "beside a text"},
		{head + "    text: 'pull {subjects}'\n" + because, "a.yaml:4:11", "no kind of them is given"},
		{head + "    forms: [{when: {bound: no}, text: b}]\n" + because, "a.yaml:4:21", "not a fact"},
		{"owed:\n    forms: [{when: {bonded: no}, text: b}]\n" + because, "a.yaml:2:5", "no form of it fits every set"},
		{"deferral:\n    of: chassis\n    text: b\n" + because, "a.yaml:2:5", "of is not a key"},
	} {
		b, problems := load(c.text)
		if b != nil || !slices.ContainsFunc(problemTexts(problems), func(p string) bool {
			return strings.HasPrefix(p, c.at+": ") && strings.Contains(p, c.wrong)
		}) {
			t.Errorf("%s\ngot %v", c.text, problems)
		}
	}
}

// Owed and deferral stand in every judgement, in the form that is true of it.
func TestOwedInTwoForms(t *testing.T) {
	b := defaultBook(t)
	for fits, turned := range map[string]bool{"one-way": false, "both-ways": true, "": true} {
		for _, stage := range Stages {
			j := b.Judge(set("plug-fits", fits), nil, stage)
			if got := strings.Contains(j.Owed.Text, "turn round"); got != turned || !strings.HasPrefix(j.Owed.Text, "Still owed") || j.Deferral.Text == "" {
				t.Errorf("%q, %s: %q, %q", fits, stage, j.Owed.Text, j.Deferral.Text)
			}
		}
	}
}

func problemTexts(problems []strict.Problem) []string {
	var out []string
	for _, p := range problems {
		out = append(out, p.String())
	}
	return out
}
