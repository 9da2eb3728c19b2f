package strict

import (
	"fmt"
	"regexp"
	"strings"

	"gopkg.in/yaml.v3"
)

// source is the text by lines, for the faults that a YAML tree no longer
// shows: directives, comments without their space, the common slips.
type source struct {
	lines   [][]rune
	tooDeep bool
}

func newSource(text string) *source {
	s := &source{}
	text = strings.ReplaceAll(text, "\r\n", "\n")
	for _, l := range strings.Split(text, "\n") {
		s.lines = append(s.lines, []rune(l))
	}
	return s
}

// stands tells whether value is written at p exactly as it is.
func (s *source) stands(p Pos, value string) bool {
	if p.Line < 1 || p.Line > len(s.lines) {
		return false
	}
	line := s.lines[p.Line-1]
	return p.Column >= 1 && p.Column-1 <= len(line) && strings.HasPrefix(string(line[p.Column-1:]), value)
}

// scan goes through the raw text once: directives, odd line breaks, comments
// whose # has no space after it, and nesting too deep to hand on.
func (s *source) scan() []Problem {
	var out []Problem
	var quote rune    // inside a quoted scalar
	blockIndent := -1 // inside a block scalar whose key stands at this indent
	flow, started := 0, false
	for i, line := range s.lines {
		n := i + 1
		for j, r := range line {
			if r == '\u0085' || r == '\u2028' || r == '\u2029' {
				out = append(out, Problem{Pos: Pos{n, j + 1}, Wrong: fmt.Sprintf("a line break that is not a plain one (U+%04X)", r), Right: "replace it by a space or by Enter"})
			}
		}
		indent := 0
		for indent < len(line) && line[indent] == ' ' {
			indent++
		}
		blank := strings.TrimSpace(string(line)) == ""
		if blockIndent >= 0 {
			if blank || indent > blockIndent {
				continue
			}
			blockIndent = -1
		}
		if quote == 0 && flow == 0 && len(line) > 0 && line[0] == '%' && !started {
			out = append(out, Problem{Pos: Pos{n, 1}, Wrong: "directives are not part of the format", Right: "remove the line"})
			continue
		}
		if !blank && line[indent] != '#' {
			started = true
		}
		prev := ' '
		for j := 0; j < len(line); j++ {
			r := line[j]
			if quote != 0 {
				if quote == '"' && r == '\\' {
					j++
				} else if r == quote {
					if quote == '\'' && j+1 < len(line) && line[j+1] == '\'' {
						j++
					} else {
						quote = 0
					}
				}
				prev = 'x'
				continue
			}
			opens := prev == ' ' || prev == '\t' || strings.ContainsRune("[{,", prev)
			switch {
			case (r == '"' || r == '\'') && opens:
				quote = r
			case r == '#' && (prev == ' ' || prev == '\t'):
				if j+1 < len(line) && line[j+1] != ' ' && line[j+1] != '#' && line[j+1] != '\t' {
					out = append(out, Problem{Pos: Pos{n, j + 1}, Wrong: "a # here starts a comment, and what follows would be lost", Right: "put a space after the # of a comment, or quote the value"})
				}
				j = len(line)
				continue
			case r == '[' || r == '{':
				if flow > 0 || opens {
					flow++
				}
			case (r == ']' || r == '}') && flow > 0:
				flow--
			}
			if flow > MaxDepth {
				s.tooDeep = true
				return []Problem{{Pos: Pos{n, j + 1}, Wrong: fmt.Sprintf("nested deeper than %d", MaxDepth), Right: "a bench sheet nests a few levels"}}
			}
			prev = r
		}
		if quote == 0 && flow == 0 && blockStart.MatchString(string(line)) {
			blockIndent = indent
		}
	}
	return out
}

var (
	blockStart   = regexp.MustCompile(`(^|:|-)\s+[|>][+-]?\d?[+-]?\s*(#.*)?$`)
	noSpace      = regexp.MustCompile(`^(\s*(?:- )?\{?\s*)([A-Za-z][A-Za-z0-9_-]*):([^\s:/].*)$`)
	noBraces     = regexp.MustCompile(`^(\s*-\s+)run:\s+[^{}]*,\s*[a-z]+:\s`)
	bareOver     = regexp.MustCompile(`^(.*?[:\[,]\s*)>\s*[\d.]`)
	keyWithValue = regexp.MustCompile(`^([A-Za-z][A-Za-z0-9_-]*):(\S.*)$`)
	digitsFirst  = regexp.MustCompile(`^\d+(\s*\S+)?$`)
)

// slip recognises a map key without value that is really something else: a
// missing space after a colon, or the second half of a decimal comma.
func (s *source) slip(n *Node, k *yaml.Node) (Problem, bool) {
	pos := Pos{k.Line, k.Column}
	if m := keyWithValue.FindStringSubmatch(k.Value); m != nil {
		return Problem{Pos: pos, Wrong: fmt.Sprintf("no space after the colon of %s", m[1]), Right: fmt.Sprintf("write %s: %s", m[1], m[2])}, true
	}
	if len(n.Entries) > 0 && digitsFirst.MatchString(k.Value) {
		last := n.Entries[len(n.Entries)-1]
		if last.Value != nil && last.Value.Kind == Text && digitsFirst.MatchString(last.Value.Text) {
			return Problem{Pos: last.Value.Pos, Wrong: "a decimal comma", Right: fmt.Sprintf("write %s: %s.%s", last.Key, last.Value.Text, k.Value)}, true
		}
	}
	return Problem{}, false
}

// slipNear words the common slips that leave no YAML at all; line is where
// the library stumbled, which may be one off.
func (s *source) slipNear(line int) (Problem, bool) {
	for _, n := range []int{line, line + 1, line - 1} {
		if n < 1 || n > len(s.lines) {
			continue
		}
		text := string(s.lines[n-1])
		if m := bareOver.FindStringSubmatch(text); m != nil {
			return Problem{Pos: Pos{n, len([]rune(m[1])) + 1}, Wrong: "an unquoted > means something else in YAML", Right: "write over 500 MΩ, or quote it: \"> 500 MΩ\""}, true
		}
		if m := noBraces.FindStringSubmatch(text); m != nil {
			return Problem{Pos: Pos{n, len([]rune(m[1])) + 1}, Wrong: "the braces round run: are missing", Right: "write - {run: A -> B, color: black}"}, true
		}
		if m := noSpace.FindStringSubmatch(text); m != nil {
			return Problem{Pos: Pos{n, len([]rune(m[1])) + 1}, Wrong: fmt.Sprintf("no space after the colon of %s", m[2]), Right: fmt.Sprintf("write %s: %s", m[2], m[3])}, true
		}
		if strings.ContainsRune(text, '\t') && strings.HasPrefix(strings.TrimLeft(text, " "), "\t") {
			return Problem{Pos: Pos{n, 1}, Wrong: "a tab in the indentation", Right: "indent with spaces"}, true
		}
	}
	return Problem{}, false
}
