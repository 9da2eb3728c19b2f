package checks_test

import (
	"go/build"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// house says which packages of the project each package may import, straight
// from the table in DEVELOPERS.md. Common words may be imported anywhere to
// their right.
var house = map[string]string{
	"checks/pattern":  "",
	"checks/quantity": "",
	"checks/strict":   "",
	"checks/figure":   "quantity strict",
	"checks/handbook": "figure quantity strict",
	"checks/circuit":  "",
	"checks/part":     "circuit handbook quantity strict",
	"checks/sheet":    "handbook part quantity strict",
	"checks/bench":    "sheet part circuit handbook figure quantity strict",
	"checks/entry":    "bench sheet part circuit handbook figure quantity strict",
	"checks/ratings":  "bench sheet part circuit handbook figure quantity strict",
	"checks/readings": "bench sheet part circuit handbook figure quantity strict",
	"checks/mains":    "bench sheet part circuit handbook figure quantity strict",
	"checks/faults":   "mains bench sheet part circuit handbook figure quantity strict",
	"checks/trial":    "", // for tests alone
	"checks/mistakes": "sheet part handbook quantity strict",
	"checks":          "bench entry ratings readings faults figure",
	"rules":           "figure quantity strict",
}

// TestHouse compares the imports of every package with the table: data flows
// one way, and nothing imports sideways.
func TestHouse(t *testing.T) {
	err := filepath.WalkDir("..", func(path string, d os.DirEntry, err error) error {
		if err != nil || !d.IsDir() {
			return err
		}
		if n := d.Name(); n != ".." && (strings.HasPrefix(n, ".") || n == "testdata") {
			return filepath.SkipDir
		}
		p, err := build.ImportDir(path, 0)
		if err != nil {
			return nil // no Go here
		}
		rel, err := filepath.Rel("..", path)
		if err != nil {
			return err
		}
		rel = filepath.ToSlash(rel)
		may, known := house[rel]
		if !known && !strings.HasPrefix(rel, "cmd/") {
			t.Errorf("%s is no room of the house", rel)
		}
		for _, i := range p.Imports {
			own, ok := strings.CutPrefix(i, "firstvolt/")
			if !ok || strings.HasPrefix(rel, "cmd/") {
				continue
			}
			if own == "checks/pattern" {
				continue // stands left of everything
			}
			if !slices.Contains(strings.Fields(may), strings.TrimPrefix(own, "checks/")) {
				t.Errorf("%s imports %s", rel, own)
			}
		}
		if slices.Contains(p.Imports, "gopkg.in/yaml.v3") && rel != "checks/strict" {
			t.Errorf("%s imports YAML; only checks/strict may", rel)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}
