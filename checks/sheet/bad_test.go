package sheet

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write testdata/bad/*.golden anew")

// Each bad sheet has a golden file beside it with every line it gets.
func TestBadSheets(t *testing.T) {
	files, err := filepath.Glob("../../testdata/bad/*.yaml")
	if err != nil || len(files) < 40 {
		t.Fatalf("%d bad sheets found, %v", len(files), err)
	}
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			data, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			s, problems := Read("sheet.yaml", data)
			if s != nil || len(problems) == 0 {
				t.Fatal("it reads, and should not")
			}
			var b strings.Builder
			for _, p := range problems {
				fmt.Fprintln(&b, strings.TrimPrefix(p.String(), "sheet.yaml:"))
			}
			golden := strings.TrimSuffix(file, ".yaml") + ".golden"
			if *update {
				if err := os.WriteFile(golden, []byte(b.String()), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(golden)
			if err != nil {
				t.Fatal(err)
			}
			if b.String() != string(want) {
				t.Errorf("got:\n%swant:\n%s", b.String(), want)
			}
		})
	}
}
