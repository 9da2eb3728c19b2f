package strict

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// source is the text by lines, for the faults that a YAML tree no longer
// shows: directives, odd line breaks, comments, the common slips.
type source struct {
	lines   [][]rune
	whole   string       // all lines, as long as none is altered
	altered bool         // from what whole says
	refused map[Pos]bool // values reported already
}

// veil is added to a character that the YAML library would stop at, so that
// it reaches the tree and is refused there with its place.
const veil = 0xF0000

func unveil(r rune) rune {
	if r >= veil && r <= veil+0xFFFF {
		return r - veil
	}
	return r
}

// newSource splits the text, and takes out what would stop the library or
// move its places.
func newSource(text string) (*source, []Problem) {
	s := &source{whole: text, refused: map[Pos]bool{}}
	var out []Problem
	s.lines = make([][]rune, 0, strings.Count(text, "\n")+1)
	all := []rune(text)
	for start, end := 0, 0; end <= len(all); end++ {
		if end < len(all) && all[end] != '\n' {
			continue
		}
		line := all[start:end:end]
		for j, r := range line {
			switch {
			case r == '\u0085' || r == '\u2028' || r == '\u2029':
				out = append(out, Problem{Pos: Pos{len(s.lines) + 1, j + 1}, Wrong: fmt.Sprintf("a line break that is not a plain one (U+%04X)", r), Right: "replace it by a space or by Enter"})
				line[j], s.altered = ' ', true
			case r < ' ' && r != '\t' || r >= 0x7F && r < 0xA0 || r == 0xFFFE || r == 0xFFFF:
				line[j], s.altered = r+veil, true
			}
		}
		s.lines = append(s.lines, line)
		start = end + 1
	}
	for i, line := range s.lines {
		rest := strings.TrimSpace(string(line))
		if rest != "" && rest[0] != '#' && (len(line) == 0 || line[0] != '%') {
			break
		}
		if len(line) > 0 && line[0] == '%' {
			out = append(out, Problem{Pos: Pos{i + 1, 1}, Wrong: noDirective, Right: "remove the line"})
			for j := range line {
				line[j], s.altered = ' ', true // read on without it
			}
		}
	}
	return s, out
}

func (s *source) text() string {
	if !s.altered {
		return s.whole
	}
	return s.upTo(len(s.lines))
}

// upTo is the text of the first n lines.
func (s *source) upTo(n int) string {
	var b strings.Builder
	for i, line := range s.lines[:n] {
		if i > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(string(line))
	}
	return b.String()
}

// at is the character at p, or 0.
func (s *source) at(p Pos) rune {
	if p.Line < 1 || p.Line > len(s.lines) || p.Column < 1 || p.Column > len(s.lines[p.Line-1]) {
		return 0
	}
	return s.lines[p.Line-1][p.Column-1]
}

// stands tells whether value is written at p exactly as it is.
func (s *source) stands(p Pos, value string) bool {
	if p.Line < 1 || p.Line > len(s.lines) {
		return false
	}
	line := s.lines[p.Line-1]
	i := p.Column - 1
	for _, r := range value {
		if i < 0 || i >= len(line) || line[i] != r {
			return false
		}
		i++
	}
	return true
}

// placed is a scalar and where it begins.
type placed struct {
	at     Pos
	scalar *yaml.Node
	parent int // of a block scalar: the indent of what holds it
}

// comments goes through the first lines of the text outside its values, whose
// places are known by now, and looks at each comment.
func (w *walker) comments(lines int) {
	rest := w.scalars // those not come to yet: the tree was walked from top to bottom
	for line := 1; line <= lines; line++ {
		prev := ' '
		for column := 1; line <= lines && column <= len(w.src.lines[line-1]); column++ {
			text := w.src.lines[line-1]
			for len(rest) > 0 && (rest[0].at.Line < line || rest[0].at.Line == line && rest[0].at.Column < column) {
				rest = rest[1:]
			}
			if p := (Pos{line, column}); len(rest) > 0 && rest[0].at == p {
				y, parent := rest[0].scalar, rest[0].parent
				rest = rest[1:]
				if end := w.src.after(p, y, parent); end != p {
					if block := end.Line > line && end.Column == 1 && text[column-1] != '"' && text[column-1] != '\''; block {
						if i := strings.Index(string(text[column-1:]), " #"); i >= 0 {
							at := column + 1 + utf8.RuneCountInString(string(text[column-1:])[:i])
							w.comment(Pos{line, at}, text[at:]) // behind the | of a block
						}
					}
					line, column, prev = end.Line, end.Column-1, ']'
					continue
				}
			}
			r := text[column-1]
			if r != '#' || !strings.ContainsRune(" \t[{,]}", prev) {
				prev = r
				continue
			}
			w.comment(Pos{line, column}, text[column:])
			column = len(text)
		}
	}
}

func (w *walker) comment(p Pos, rest []rune) {
	if len(rest) > 0 && rest[0] != ' ' && rest[0] != '\t' {
		w.bad(p, lostComment, commentSpace)
	}
	for i, r := range rest {
		if r >= veil && r <= veil+0xFFFF {
			w.bad(Pos{p.Line, p.Column + 1 + i}, fmt.Sprintf("a comment holds a control mark (U+%04X)", unveil(r)), "remove it")
			return
		}
	}
}

// after is the place behind a scalar that begins at p.
func (s *source) after(p Pos, y *yaml.Node, parent int) Pos {
	line := s.lines[p.Line-1]
	switch {
	case y.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0:
		return s.afterBlock(p, parent)
	case y.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle) != 0:
		for p.Column <= len(line) && line[p.Column-1] != '"' && line[p.Column-1] != '\'' {
			p.Column++ // past an anchor or tag
		}
		return s.afterQuotes(p)
	case s.stands(p, y.Value):
		return Pos{p.Line, p.Column + utf8.RuneCountInString(y.Value)}
	}
	return p
}

func (s *source) afterQuotes(p Pos) Pos {
	if p.Column > len(s.lines[p.Line-1]) {
		return p
	}
	quote := s.lines[p.Line-1][p.Column-1]
	for p.Column++; p.Line <= len(s.lines); p = (Pos{p.Line + 1, 1}) {
		line := s.lines[p.Line-1]
		for ; p.Column <= len(line); p.Column++ {
			r := line[p.Column-1]
			switch {
			case quote == '"' && r == '\\':
				p.Column++
			case r == quote && quote == '\'' && p.Column < len(line) && line[p.Column] == quote:
				p.Column++
			case r == quote:
				return Pos{p.Line, p.Column + 1}
			}
		}
	}
	return Pos{len(s.lines) + 1, 1}
}

// afterBlock is the first line behind a block of text: one that is indented
// less than its first line, or no more than what holds it.
func (s *source) afterBlock(p Pos, parent int) Pos {
	least := parent + 1
	header := strings.TrimLeft(string(s.lines[p.Line-1][p.Column-1:]), "|>+-")
	explicit := header != "" && header[0] >= '1' && header[0] <= '9'
	for p.Line++; p.Line <= len(s.lines); p.Line++ {
		line := string(s.lines[p.Line-1])
		if strings.TrimSpace(line) == "" {
			continue
		}
		indent := len(line) - len(strings.TrimLeft(line, " "))
		if indent < least {
			break
		}
		if !explicit {
			least, explicit = indent, true
		}
	}
	return Pos{p.Line, 1}
}
