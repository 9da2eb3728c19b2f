package judging

import (
	"os"
	"strings"
	"testing"

	"firstvolt/checks"
	"firstvolt/checks/bench"
	"firstvolt/checks/handbook"
	"firstvolt/checks/sheet"
	"firstvolt/rules"
)

// A seventh region comes from a file alone: its plug and voltage are read, its
// colors and limits judged, and a set that is sound there is cleared.
func TestRegionFromAFileIsJudged(t *testing.T) {
	data, err := os.ReadFile("../../../../testdata/regions/karst-coast.yaml")
	if err != nil {
		t.Fatal(err)
	}
	region, problems := handbook.LoadRegion("karst-coast.yaml", data)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	demo, err := os.ReadFile(sample)
	if err != nil {
		t.Fatal(err)
	}
	text := strings.NewReplacer("united-kingdom", "karst-coast", "bs-1363", "karst-three", ", plug-fuse: 3 A", "", "240 V", "200 V", "volts: 24.0 V", "volts: 20.0 V",
		"colour: brown", "colour: violet", "colour: blue", "colour: pink", "green-yellow", "grey").Replace(string(demo))
	if _, problems := sheet.Read("x.yaml", []byte(text)); len(problems) == 0 {
		t.Error("the region is known without its file")
	}
	judge := func(text string) rules.Judgement {
		t.Helper()
		s, problems := sheet.ReadWith(handbook.Default().With(region), "x.yaml", []byte(text))
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		book, problems, _ := Book(nil)
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		b := bench.ForStage(s, "")
		figures, faults := checks.Run(b)
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		return book.Judge(b.Setting(), figures, b.Stage)
	}
	outcome := func(j rules.Judgement, rule string) (out rules.Outcome) {
		for _, f := range j.Findings {
			if f.Rule == rule && f.Outcome != rules.Pass {
				out = f.Outcome
			}
		}
		return out
	}
	j := judge(text)
	if j.Verdict != rules.Cleared {
		t.Errorf("sound there, and it is %s", j.Verdict)
		for _, f := range j.Findings {
			if f.Outcome == rules.Fail || f.Outcome == rules.Unproven {
				t.Errorf("%s of %s: %s", f.Rule, f.Subject.Name, f.Says)
			}
		}
	}
	if got := outcome(j, "conductor-colors"); got != "" {
		t.Errorf("its own colors: %s", got)
	}
	if got := outcome(judge(strings.Replace(text, "colour: violet", "colour: grey", 1)), "conductor-colors"); got != rules.Fail {
		t.Errorf("its ground color on hot: %q", got)
	}
}
