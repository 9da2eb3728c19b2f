package manual

import (
	"strings"
	"unicode/utf8"

	"firstvolt/checks/pattern"
	"firstvolt/cmd/firstvolt/internal/report"
)

// most is the widest column of names; a longer name has a line of its own.
const most = 24

var (
	link      = pattern.Of(`\[([^\]]*)\]\([^)]*\)`)
	italic    = pattern.Of(`\*([a-z]+)\*`)
	cellParts = pattern.Of(`(?:[^|\\]|\\.)+`)
)

// plain sets Markdown for a terminal: the little of it that the manual uses.
func plain(markdown string) string {
	var out strings.Builder
	var para []string  // lines of a paragraph or of an item
	var table []string // rows
	flush := func() {
		if len(para) > 0 {
			text, lead := strings.Join(para, " "), ""
			if rest, ok := strings.CutPrefix(text, "- "); ok {
				text, lead = "– "+rest, "  "
			}
			out.WriteString(report.Wrap(bare(text), "", lead))
		}
		if len(table) > 0 {
			out.WriteString(columns(table))
		}
		para, table = nil, nil
	}
	fenced := false
	for _, l := range strings.Split(strings.TrimRight(markdown, "\n"), "\n") {
		switch {
		case strings.HasPrefix(l, "```"):
			flush()
			fenced = !fenced
		case fenced && l == "":
			out.WriteString("\n")
		case fenced:
			out.WriteString("    " + l + "\n")
		case strings.HasPrefix(l, "#"):
			flush()
			out.WriteString(bare(strings.TrimLeft(l, "# ")) + "\n")
		case strings.HasPrefix(l, "|"):
			table = append(table, l)
		case l == "":
			flush()
			out.WriteString("\n")
		case strings.HasPrefix(l, "- "):
			flush()
			para = append(para, l)
		default:
			para = append(para, strings.TrimSpace(l))
		}
	}
	flush()
	return out.String()
}

// bare is text without the marks of Markdown. What must be there has a star.
func bare(text string) string {
	text = strings.NewReplacer("**`", "*", "`**", "", "**", "", "`", "", `\|`, "|").Replace(text)
	return italic().ReplaceAllString(link().ReplaceAllString(text, "$1"), "$1")
}

// columns sets a table: the first cell as a name, the others beside it.
func columns(table []string) string {
	var out strings.Builder
	var cells [][]string
	wide := 0
	for _, l := range table[2:] { // without its head
		var row []string
		for _, c := range cellParts().FindAllString(l, -1) {
			if c = strings.TrimSpace(bare(c)); c != "" {
				row = append(row, c)
			}
		}
		cells = append(cells, row)
		if n := utf8.RuneCountInString(row[0]); n <= most {
			wide = max(wide, n)
		}
	}
	between := ": "
	if head := cellParts().FindAllString(table[0], -1); len(head) > 2 && strings.TrimSpace(head[2]) != "written" {
		between = "; " + strings.TrimSpace(head[2]) + ": "
	}
	starred := false
	for _, row := range cells {
		starred = starred || strings.HasPrefix(row[0], "*")
		rest := strings.Repeat(" ", wide+4)
		first := "  " + report.Fill(row[0], wide) + "  "
		if utf8.RuneCountInString(row[0]) > wide {
			out.WriteString("  " + row[0] + "\n")
			first = rest
		}
		out.WriteString(report.Wrap(strings.Join(row[1:], between), first, rest))
	}
	if starred {
		out.WriteString("  * must be there\n")
	}
	return out.String()
}
