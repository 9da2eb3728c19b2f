package main

import (
	"strings"
	"testing"
	"unicode/utf8"

	"firstvolt/checks/strict"
	"firstvolt/cmd/firstvolt/internal/judging"
	"firstvolt/cmd/firstvolt/internal/report"
)

// Every rule has a page that says all of it, within the columns.
func TestEveryRuleHasItsPage(t *testing.T) {
	book, problems, _ := judging.Book(nil)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	flat := func(s string) string { return strings.Join(strings.Fields(s), " ") }
	for _, r := range book.Rules() {
		text := string(rulePage(r, report.Painter{}))
		page := flat(text)
		want := []string{r.Asks, r.Why, r.Remedy, strings.Join(r.Stages, ", "), "Sound:", "Unsound:"}
		for _, b := range r.Basis {
			want = append(want, b.Source)
		}
		for _, w := range want {
			if !strings.Contains(page, flat(w)) {
				t.Errorf("%s: the page lacks %q", r.Name, w)
			}
		}
		for _, l := range strings.Split(text, "\n") {
			if utf8.RuneCountInString(l) > report.Width {
				t.Errorf("%s: %d columns: %s", r.Name, utf8.RuneCountInString(l), l)
			}
		}
	}
}

// A long line of an example is the same YAML after it was broken.
func TestBrokenExampleReadsTheSame(t *testing.T) {
	long := "parts:\n  F1: {kind: fuse, rating: 500 mA, voltage: 250 V, standard: iec-60127, breaking: high, body: ceramic, holder: panel}   # at 120 V\n"
	broken := indented(long)
	if !strings.Contains(broken, "# at 120 V\n") || strings.Count(broken, "\n") != 4 {
		t.Errorf("%s", broken)
	}
	a, pa := strict.Parse([]byte(long))
	b, pb := strict.Parse([]byte(broken))
	if len(pa)+len(pb) > 0 {
		t.Fatal(pa, pb)
	}
	var keys [2]string
	for i, n := range []*strict.Node{a, b} {
		for _, e := range n.Get("parts").Get("F1").Entries {
			keys[i] += e.Key + "=" + e.Value.Text + ";"
		}
	}
	if keys[0] != keys[1] || !strings.Contains(keys[0], "holder=panel") {
		t.Errorf("%q became %q", keys[0], keys[1])
	}
}

func TestRulebookNamesEveryRuleOnce(t *testing.T) {
	book, problems, _ := judging.Book(nil)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	for _, sources := range []bool{false, true} {
		page := string(rulebookPage(book, sources, report.Painter{}))
		for _, r := range book.Rules() {
			if n := strings.Count(page, "\n  "+r.Name+", "+string(r.Risk)+"\n"); n != 1 {
				t.Errorf("sources %v: %s stands %d times", sources, r.Name, n)
			}
		}
		if !strings.Contains(page, book.Digest()) {
			t.Error("no digest")
		}
	}
}
