package report

import (
	"strings"

	"github.com/mattn/go-runewidth"

	"firstvolt/checks/pattern"
)

// Width is the number of columns that every text keeps to.
const Width = 80

// columns measures text as terminals show it where Ω and – take one column.
var columns = &runewidth.Condition{EastAsianWidth: false}

// A number stays on the line of its unit.
var numberUnit = pattern.Of(`(\d) ([%°ΩVAWFHs]|[pnµmkMG][ΩVAWFHs]|°C|Hz|kHz|mm²|AWG)([\s,.;:)]|$)`)

const stay = "\u00a0" // stands for a space that no line breaks at

// Wrap is wrap for the commands that print something else than a judgement.
func Wrap(text, first, rest string) string {
	return strings.Join(wrap(text, first, rest), "\n") + "\n"
}

// Fill fills text up to n columns.
func Fill(text string, n int) string { return columns.FillRight(text, n) }

// wrap sets text in lines of at most Width columns. The first begins with
// first, the others with rest; a word longer than a line stands alone.
func wrap(text, first, rest string) []string {
	text = numberUnit().ReplaceAllString(text, "${1}"+stay+"${2}${3}")
	lead, used := first, columns.StringWidth(first)
	var lines []string
	var line []string
	flush := func() {
		lines = append(lines, strings.TrimRight(lead+strings.ReplaceAll(strings.Join(line, " "), stay, " "), " "))
		lead, used, line = rest, columns.StringWidth(rest), nil
	}
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == '\n' || r == '\t' }) {
		w := columns.StringWidth(word)
		if len(line) > 0 && used+1+w > Width {
			flush()
		}
		if len(line) > 0 {
			used++
		}
		used += w
		line = append(line, word)
	}
	flush()
	return lines
}

// Clean keeps out of a text what a terminal would act on: control and
// direction marks become a visible mark. File names may hold them.
func Clean(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r < ' ', r >= 0x7f && r < 0xa0, r == 0x200e, r == 0x200f, r >= 0x202a && r <= 0x202e, r >= 0x2066 && r <= 0x2069, r == 0xfffd:
			return '?'
		}
		return r
	}, text)
}
