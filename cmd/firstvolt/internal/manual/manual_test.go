package manual

import (
	"strings"
	"testing"

	"github.com/mattn/go-runewidth"

	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
)

// TestEveryKeyHasItsPage: every key, kind and closed word of the format stands in
// the reference, on the page where a person looks for it.
func TestEveryKeyHasItsPage(t *testing.T) {
	on := func(page, key string) {
		t.Helper()
		text, ok := Page(page)
		if !ok || !strings.Contains(text, key) {
			t.Errorf("page %s does not name %s", page, key)
		}
	}
	words := func(page string, s *strict.Shape) {
		if s.Text != nil {
			for _, w := range s.Text.Words {
				on(page, w)
			}
		}
	}
	for _, k := range sheet.Shape().Map.Keys {
		s := k.Shape
		if s.List != nil {
			s = s.List.Item
		}
		if s.Map == nil || k.Name == "parts" {
			continue
		}
		keys := s.Map.Keys
		if s.Map.Any != nil {
			keys = s.Map.Any.Map.Keys
		}
		for _, inner := range keys {
			on(k.Name, inner.Name)
			words(k.Name, inner.Shape)
		}
	}
	for _, kind := range part.Kinds() {
		on("parts", kind.Name)
		for _, k := range kind.Keys {
			on(kind.Name, k.Name)
			words(kind.Name, k.Shape)
		}
	}
}

// TestPagesKeepTheirWidth: a page fits a terminal, an example as it stands aside.
func TestPagesKeepTheirWidth(t *testing.T) {
	columns := runewidth.Condition{}
	for _, name := range All() {
		text, _ := Page(name)
		for _, l := range strings.Split(text, "\n") {
			if columns.StringWidth(l) > 80 && !strings.HasPrefix(l, "    ") && strings.Contains(strings.TrimSpace(l), " ") {
				t.Errorf("%s: %q", name, l)
			}
			if strings.ContainsAny(l, "`") || strings.Contains(l, "**") {
				t.Errorf("%s: marks are left: %q", name, l)
			}
		}
	}
	if index := Index(); !strings.Contains(index, "readings") || strings.Contains(index, "barretter") {
		t.Errorf("the index is %s", index)
	}
	if _, ok := Page("no-such-page"); ok {
		t.Error("a page of no name")
	}
}

// TestPlain: the marks of a file become the form of a terminal.
func TestPlain(t *testing.T) {
	const in = "### A *head*\n\nSome `code` and [a link](x.md).\n\n- one\n  and more\n- two\n\n| key | what |\n|---|---|\n| **`a`** | its `x`\\|y |\n| `a-name-that-is-longer-than-the-column` | z |\n\n```yaml\na: 1\n\nb: 2\n```\n"
	const want = "A head\n\nSome code and a link.\n\n– one and more\n– two\n\n  *a  its x|y\n  a-name-that-is-longer-than-the-column\n      z\n  * must be there\n\n    a: 1\n\n    b: 2\n"
	if got := plain(in); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}
