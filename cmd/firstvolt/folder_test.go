package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"runtime"
	"strings"
	"syscall"
	"testing"

	"firstvolt/cmd/firstvolt/internal/judging"
	"firstvolt/cmd/firstvolt/internal/report"
	"firstvolt/rules"
)

// shelf are so many names of sheets.
func shelf(n int) (all []argument) {
	for i := range n {
		all = append(all, argument{file: fmt.Sprintf("shelf/%02d.yaml", i)})
	}
	return all
}

const torn = "torn"

// tears is a form with a fault at the sheet that is called torn.
type tears struct{ report.Form }

func (t tears) Sheet(s *judging.Sheet) []byte {
	if s.File == torn {
		panic("the page tore")
	}
	return t.Form.Sheet(s)
}

// A fault of the program at one sheet, while it is judged or while it is
// printed, is that sheet's: it is named, the others are judged and printed, and
// the exit status is that of a fault.
func TestFaultAtOneSheetLeavesTheOthers(t *testing.T) {
	book, problems, _ := judging.Book(nil)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	sound := judging.File(book, larkfield, "")
	for _, form := range []report.Form{report.Text{}, report.JSON{Version: "devel"}} {
		for what, bad := range map[string]func() *judging.Sheet{
			"judging":  func() *judging.Sheet { panic("the shelf fell") },
			"printing": func() *judging.Sheet { s := *sound; s.File = torn; return &s },
		} {
			var stdout, stderr bytes.Buffer
			tally, err := printAll(application(&stdout, &stderr), tears{form}, shelf(9), func(file string) *judging.Sheet {
				if file == "shelf/04.yaml" {
					return bad()
				}
				s := *sound
				s.File = file
				return &s
			})
			if err != nil || exitStatus(tally) != status(exitFault) || tally.Verdicts[rules.Cleared] != 8 {
				t.Errorf("%s, %T: %v, %v", what, form, err, tally)
			}
			if !strings.HasPrefix(stderr.String(), "shelf/04.yaml: internal fault: ") {
				t.Errorf("%s, %T: %s", what, form, stderr.String())
			}
			last := -1
			for _, f := range shelf(9) {
				at := strings.Index(stdout.String(), f.file)
				if at <= last {
					t.Errorf("%s, %T: %s is not in its place", what, form, f.file)
				}
				last = at
			}
			if _, is := form.(report.JSON); is && !json.Valid(stdout.Bytes()) {
				t.Errorf("%s: no JSON:\n%s", what, stdout.String())
			}
		}
	}
}

// closed is an output whose reader has gone after the first write.
type closed struct{ writes int }

func (c *closed) Write(text []byte) (int, error) {
	if c.writes++; c.writes > 2 {
		return 0, syscall.EPIPE
	}
	return len(text), nil
}

// A reader that goes early ends the run without a word, and what it has not
// read is no verdict.
func TestOutputClosedEarlyEndsQuietly(t *testing.T) {
	for _, format := range []string{"text", "json"} {
		var stderr bytes.Buffer
		args := append([]string{"check", "--format", format}, strings.Fields(strings.Repeat(larkfield+" ", 20))...)
		if got := run(args, &closed{}, &stderr); got != exitFault || stderr.Len() > 0 {
			t.Errorf("%s: exit status %d: %s", format, got, stderr.String())
		}
	}
}

// The same bytes come of a folder whatever the number of cores.
func TestFolderIsTheSameOnAnyNumberOfCores(t *testing.T) {
	on := func(cores int, format string) string {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(cores))
		var stdout, stderr bytes.Buffer
		run([]string{"check", "--format", format, "../../testdata/bad", larkfield, "../../testdata/sheets", "nowhere.yaml"}, &stdout, &stderr)
		return stdout.String() + stderr.String()
	}
	for _, format := range []string{"text", "json"} {
		if on(1, format) != on(4, format) {
			t.Errorf("%s differs", format)
		}
	}
}
