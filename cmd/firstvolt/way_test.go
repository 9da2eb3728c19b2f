package main

import (
	"os"
	"slices"
	"strings"
	"testing"

	"firstvolt/checks/sheet"
)

// The way follows the wires, through parts in either direction, and stops at
// what is not joined.
func TestWay(t *testing.T) {
	data, err := os.ReadFile(larkfield)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ old, new, want string }{
		{"", "", "F1 S1 T1"},
		{"plug.hot -> F1.end", "plug.hot -> F1.side", "S1 T1"}, // past the fuse
		{"F1.side -> S1 -> T1.1", "F1.side -> S1.2", "F1 S1"},
		{"F1.side -> S1 -> T1.1", "F1.side -> S1.1", ""},
	} {
		text := strings.Replace(string(data), c.old, c.new, 1)
		if c.want == "F1 S1" { // S1 turned round, and from it straight to neutral
			text = strings.Replace(text, "plug.neutral -> T1.2", "plug.neutral -> S1.1", 1)
		}
		s, problems := sheet.Read("x.yaml", []byte(text))
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		if got := way(s); !slices.Equal(got, strings.Fields(c.want)) {
			t.Errorf("%q: %v, want %s", c.new, got, c.want)
		}
	}
}
