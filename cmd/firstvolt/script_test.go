package main

import (
	"errors"
	"flag"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"firstvolt/cmd/firstvolt/internal/judging"
)

var update = flag.Bool("update", false, "write what the scripts compare with anew")

func TestMain(m *testing.M) {
	judging.Brief()
	testscript.Main(m, map[string]func(){"firstvolt": main})
}

// TestScripts runs the program as a person would, one file for each subject.
// The sheets of testdata/sheets stand in $SHEETS.
func TestScripts(t *testing.T) {
	sheets, err := filepath.Abs("../../testdata/sheets")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir:                 "../../testdata/scripts",
		UpdateScripts:       *update,
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Setup: func(e *testscript.Env) error {
			e.Setenv("SHEETS", sheets)
			program, err := os.Executable()
			if err != nil {
				return err
			}
			e.Setenv("PROGRAM", program) // a file that is no text
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"exitcode": exitcode, "alter": alter, "nowhere": nowhere,
		},
	})
}

// exitcode N COMMAND… runs the command and wants exactly that status, so that
// a verdict and a crash differ.
func exitcode(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exitcode N COMMAND…")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	err = ts.Exec(args[1], args[2:]...)
	got := 0
	if err != nil {
		var ended *exec.ExitError
		if !errors.As(err, &ended) {
			ts.Fatalf("%v", err)
		}
		got = ended.ExitCode()
	}
	if got != want {
		ts.Fatalf("exit status %d, want %d", got, want)
	}
}

// alter FROM TO OLD NEW copies a file with one piece of its text replaced;
// the piece must stand there exactly once.
func alter(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 4 {
		ts.Fatalf("usage: alter FROM TO OLD NEW")
	}
	text := ts.ReadFile(args[0])
	if n := strings.Count(text, args[2]); n != 1 {
		ts.Fatalf("%q stands %d times in %s, not once", args[2], n, args[0])
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[1]), []byte(strings.Replace(text, args[2], args[3], 1)), 0o644))
}

// nowhere TEXT wants TEXT neither on standard output nor on standard error.
func nowhere(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: nowhere TEXT")
	}
	for _, stream := range []string{"stdout", "stderr"} {
		if strings.Count(ts.ReadFile(stream), args[0]) > 0 {
			ts.Fatalf("%q stands on %s", args[0], stream)
		}
	}
}
