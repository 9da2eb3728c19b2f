package rules

import (
	"flag"
	"io/fs"
	"os"
	"slices"
	"strings"
	"testing"

	"firstvolt/checks/strict"
)

var update = flag.Bool("update", false, "pack the trees of the rulebook anew")

// The packed trees say what the files of the rulebook say, to the last place,
// and there is one for each.
func TestPackedIsTheBook(t *testing.T) {
	files, err := fs.Glob(Default(), "*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatal(files, err)
	}
	var want []string
	for _, file := range files {
		data, err := fs.ReadFile(Default(), file)
		if err != nil {
			t.Fatal(err)
		}
		rd := &reader{file: file}
		root := rd.parse(data, fileShape)
		if len(rd.problems) > 0 {
			t.Fatal(rd.problems)
		}
		name, packed := packedName(file), sum(data)+string(strict.Pack(root))
		want = append(want, strings.TrimPrefix(name, "packed/"))
		if *update {
			if err := os.WriteFile(name, []byte(packed), 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		if got, err := os.ReadFile(name); err != nil || string(got) != packed {
			t.Errorf("%s is not of %s as it stands; go test ./rules -run Packed -update makes it", name, file)
		}
	}
	left, err := os.ReadDir("packed")
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range left {
		if !slices.Contains(want, e.Name()) {
			t.Errorf("packed/%s is of no file of the rulebook", e.Name())
		}
	}
}

// A tree counts for the very bytes that it was made of and for no others.
func TestOldTreeSaysNothing(t *testing.T) {
	data, err := fs.ReadFile(Default(), "entry.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if unpacked("entry.yaml", sum(append(data, '#'))) != nil {
		t.Error("a tree is taken for other bytes than its own")
	}
	if unpacked("shop.yaml", sum(data)) != nil {
		t.Error("a tree is taken for a file of another name")
	}
}
