package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"firstvolt/cmd/firstvolt/internal/judging"
	"firstvolt/rules"
)

// TestBenches judges sheets as a restorer writes them, with a hand meter, an
// insulation tester and a capacitance meter: every construction and region. All
// are sound, so that none may fail; what stays open on one is listed with what
// would settle it. (Where a stage feeds the high tension, or no bond holds the
// chassis, no verdict clears a set as long as that is not judged.)
func TestBenches(t *testing.T) {
	const dir = "../../testdata/benches"
	book, problems, _ := judging.Book(nil)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	files, err := filepath.Glob(dir + "/*.yaml")
	if err != nil || len(files) < 30 {
		t.Fatal(len(files), err)
	}
	regions := map[string]bool{}
	var out strings.Builder
	for _, file := range files {
		s := judging.Bytes(book, file, []byte(readAll(t, file)), "")
		if !s.Judged() {
			t.Error(s.Problems, s.Faults)
			continue
		}
		regions[s.Read.Region.Name] = true
		j := s.Judgement
		fmt.Fprintf(&out, "%s, %s: %s\n", strings.TrimSuffix(filepath.Base(file), ".yaml"), j.Stage, j.Verdict)
		for _, f := range j.Findings {
			switch f.Outcome {
			case rules.Fail:
				t.Errorf("%s: %s %s fails: %s", file, f.Rule, f.Subject.Name, f.Says)
			case rules.Unproven:
				fmt.Fprintf(&out, "  %s, %s\n", f.Rule, f.Subject.Name)
				for _, n := range f.Needs {
					fmt.Fprintf(&out, "    %s: %s\n", n.What, n.How)
				}
				if len(f.Needs) == 0 {
					t.Errorf("%s: %s %s: nothing would settle it", file, f.Rule, f.Subject.Name)
				}
			}
		}
	}
	if len(regions) < 6 {
		t.Errorf("only the regions %v", regions)
	}
	golden := filepath.Join(dir, "outcomes.golden")
	if *update {
		if err := os.WriteFile(golden, []byte(out.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if want := readAll(t, golden); want != out.String() {
		t.Errorf("%s is otherwise: %s", golden, firstDifference(want, out.String()))
	}
}
