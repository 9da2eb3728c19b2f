package rules

import (
	"strings"
	"testing"

	"firstvolt/checks/figure"
)

// TestDefaultShape reads the program's own rulebook against an empty list of
// figures: nothing but the figures may be unknown. That the figures exist is
// tested where they are computed.
func TestDefaultShape(t *testing.T) {
	_, problems := Load(Default(), nil)
	for _, p := range problems {
		if !strings.HasPrefix(p.Wrong, "no figure is called") {
			t.Error(p)
		}
	}
	book, problems := Load(Default(), []figure.Def{{Name: "hot-without-fuse", Of: []string{"set"}, Says: "hot reaches something ahead of the fuse", Present: true}})
	for _, p := range problems {
		if strings.HasPrefix(p.File, "entry") && strings.Contains(p.Wrong, "hot-without-fuse") {
			t.Error(p, book)
		}
	}
}
