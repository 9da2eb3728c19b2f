// Package trial opens what the tests stand on: the sound sheets of
// testdata/sheets, a sheet altered in its text, the tables of
// testdata/published, ngspice. Tests alone import it; it knows nothing of the
// project, so that any package's tests can.
package trial

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// path is a file or folder of testdata, found from the package under test.
func path(t testing.TB, parts ...string) string {
	t.Helper()
	for up := "."; len(up) < 40; up = filepath.Join(up, "..") {
		if _, err := os.Stat(filepath.Join(up, "go.mod")); err == nil {
			return filepath.Join(append([]string{up, "testdata"}, parts...)...)
		}
	}
	t.Fatal("no go.mod above the test")
	return ""
}

func read(t testing.TB, file string) string {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// Sheet is the text of a sound sheet, named without its .yaml.
func Sheet(t testing.TB, name string) string {
	t.Helper()
	return read(t, path(t, "sheets", name+".yaml"))
}

// Sheets are the texts of all sound sheets by name.
func Sheets(t testing.TB) map[string]string {
	t.Helper()
	files, err := filepath.Glob(path(t, "sheets", "*.yaml"))
	if err != nil || len(files) == 0 {
		t.Fatal("no sheets", err)
	}
	out := map[string]string{}
	for _, f := range files {
		out[strings.TrimSuffix(filepath.Base(f), ".yaml")] = read(t, f)
	}
	return out
}

// Altered is text with each first of the pairs replaced by its second, in
// order. Each must stand there once when its turn comes, so that no change
// lands elsewhere than meant.
func Altered(t testing.TB, text string, pairs ...string) string {
	t.Helper()
	for i := 0; i+1 < len(pairs); i += 2 {
		if n := strings.Count(text, pairs[i]); n != 1 {
			t.Fatalf("%q stands %d times in the text, not once", pairs[i], n)
		}
		text = strings.Replace(text, pairs[i], pairs[i+1], 1)
	}
	return text
}

// Rows are the rows of a table of testdata/published, each of as many cells as
// the table has columns. A table names its source and has rows.
func Rows(t testing.TB, file string, columns int) [][]string {
	t.Helper()
	var rows [][]string
	sourced := false
	for i, line := range strings.Split(read(t, path(t, "published", file)), "\n") {
		sourced = sourced || strings.HasPrefix(line, "# Source: ")
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		cells := strings.Split(line, " | ")
		if len(cells) != columns {
			t.Fatalf("%s:%d: %d cells, want %d", file, i+1, len(cells), columns)
		}
		rows = append(rows, cells)
	}
	if !sourced || len(rows) == 0 {
		t.Fatalf("%s: no source or no rows", file)
	}
	return rows
}
