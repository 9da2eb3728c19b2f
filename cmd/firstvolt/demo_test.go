package main

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"firstvolt/cmd/firstvolt/internal/judging"
	"firstvolt/rules"
)

// The first set fails on what was put wrong in it and on nothing else; the
// second has nothing that fails or is open.
func TestDemoSheets(t *testing.T) {
	book, problems, _ := judging.Book(nil)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	read := func(file string) *judging.Sheet {
		data, err := demoSheets.ReadFile("demo/" + file)
		if err != nil {
			t.Fatal(err)
		}
		s := judging.Bytes(book, file, data, "")
		if !s.Judged() || len(s.Faults) > 0 {
			t.Fatal(s.Problems, s.Faults)
		}
		return s
	}
	found, right := read("merrowdale-as-found.yaml"), read("merrowdale-put-right.yaml")
	var fails []string
	for _, f := range found.Judgement.Findings {
		if f.Outcome == rules.Fail {
			fails = append(fails, f.Rule)
		}
	}
	for _, want := range []string{"hot-meets-fuse-first", "neutral-runs-through", "old-line-capacitor-gone"} {
		if !slices.Contains(fails, want) {
			t.Errorf("as found, %s does not fail", want)
		}
	}
	for _, f := range right.Judgement.Findings {
		if f.Outcome == rules.Fail || f.Outcome == rules.Unproven {
			t.Errorf("put right, %s of %s is %s: %s", f.Rule, f.Subject.Name, f.Outcome, f.Says)
		}
	}
	var out, diagnostics bytes.Buffer
	got := run([]string{"demo"}, &out, &diagnostics)
	if got != exitCleared || right.Judgement.Verdict != rules.Cleared || diagnostics.Len() > 0 {
		t.Errorf("exit status %d, %s; %s", got, right.Judgement.Verdict, diagnostics.String())
	}
	for _, want := range []string{"HOLD", "hot-meets-fuse-first guards against fire. As found: fail; then: pass.", "plug.neutral -> F1.end",
		"\nlive ── switch S1 ── primary of T1 ── fuse F1 ── neutral\n", "\nlive ── fuse F1 ── switch S1 ── primary of T1 ── neutral\n"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("%q is not said", want)
		}
	}
}

// What the demonstration says of the readings is so.
func TestDemoSheetsCarryTheSameReadings(t *testing.T) {
	text := map[string]string{}
	for _, file := range []string{"merrowdale-as-found.yaml", "merrowdale-put-right.yaml"} {
		data, err := demoSheets.ReadFile("demo/" + file)
		if err != nil {
			t.Fatal(err)
		}
		text[file] = section(string(data), "readings")
	}
	if a := text["merrowdale-as-found.yaml"]; a != text["merrowdale-put-right.yaml"] || !strings.Contains(a, "reads:") {
		t.Error("the readings differ, or there are none")
	}
}
