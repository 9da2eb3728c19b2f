package report

import (
	"fmt"
	"strings"

	"firstvolt/cmd/firstvolt/internal/judging"
	"firstvolt/rules"
)

// Form is how several sheets are printed, one after another as each is judged:
// what stands before them, each, between any two, and after them.
type Form interface {
	Before() []byte
	Sheet(*judging.Sheet) []byte // may be asked of several sheets at a time
	Between() string
	After(judging.Tally) string
}

// All prints the sheets in a form.
func All(f Form, sheets []*judging.Sheet) []byte {
	out := f.Before()
	var t judging.Tally
	for i, s := range sheets {
		if i > 0 {
			out = append(out, f.Between()...)
		}
		out = append(out, f.Sheet(s)...)
		t.Add(s.Ending())
	}
	return append(out, f.After(t)...)
}

// Before is empty: a page begins with its first sheet.
func (t Text) Before() []byte { return nil }

// Between is an empty line.
func (t Text) Between() string { return "\n" }

// After says of several sheets what came of them.
func (t Text) After(n judging.Tally) string {
	if n.Sheets < 2 {
		return ""
	}
	var parts []string
	add := func(n int, what string) {
		if n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", n, what))
		}
	}
	add(n.Unread, "unreadable")
	for _, v := range []rules.Verdict{rules.Hold, rules.Open, rules.Cleared} {
		add(n.Verdicts[v], string(v))
	}
	return fmt.Sprintf("\n%d sheets: %s.\n", n.Sheets, strings.Join(parts, ", "))
}
