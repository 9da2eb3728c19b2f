package report

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestWrapKeepsNumberAndUnitTogether(t *testing.T) {
	text := strings.Repeat("x", 73) + " at 0.1 Ω, then 4.7 nF and 60 Hz."
	lines := wrap(text, "", "")
	if len(lines) != 2 || !strings.HasPrefix(lines[1], "0.1 Ω, then 4.7 nF") {
		t.Errorf("%q", lines)
	}
}

func TestWrapHangs(t *testing.T) {
	lines := wrap("one two", "    Why      ", strings.Repeat(" ", 13))
	if len(lines) != 1 || lines[0] != "    Why      one two" {
		t.Errorf("%q", lines)
	}
	lines = wrap(strings.Repeat("µΩ– ", 40), "  – ", "    ")
	for i, l := range lines {
		if columns.StringWidth(l) > Width || !strings.HasPrefix(l, []string{"  – ", "    "}[min(i, 1)]) {
			t.Errorf("line %d: %q", i, l)
		}
	}
}

// No text loses a word, and no line that could break is too long.
func TestWrapProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOf(rapid.StringMatching(`[a-zΩµ–→0-9.]{1,100}`)).Draw(t, "words")
		lines := wrap(strings.Join(words, " "), "  – ", "    ")
		got := strings.Fields(strings.TrimPrefix(strings.Join(lines, " "), "  –"))
		if strings.Join(got, " ") != strings.Join(words, " ") {
			t.Fatalf("%q became %q", words, lines)
		}
		for _, l := range lines {
			if columns.StringWidth(l) > Width && strings.Contains(strings.TrimSpace(strings.TrimPrefix(l, "  – ")), " ") {
				if !numberUnit().MatchString(l) {
					t.Fatalf("too long: %q", l)
				}
			}
		}
	})
}

func TestCleanTakesWhatATerminalActsOn(t *testing.T) {
	if got := Clean("a\x1b[31mb\nc\u202ed\u009be 4.7 kΩ – µ"); got != "a?[31mb?c?d?e 4.7 kΩ – µ" {
		t.Errorf("%q", got)
	}
}
