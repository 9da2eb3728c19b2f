package strict

import (
	"fmt"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	"firstvolt/checks/pattern"
)

var (
	noSpace      = pattern.Of(`^(\s*(?:- +)*[{\[]?\s*)([A-Za-z][A-Za-z0-9_-]*):([^\s:/].*)$`)
	noBraces     = pattern.Of(`^(\s*-\s+)(run:\s+)?([^{}#"']*->[^{},#]*),\s*([a-z]+):`)
	bareOver     = pattern.Of(`^(.*?(?:[:,]\s|-\s|\[)\s*)>=?\s*[\d.]`)
	hashNoSpace  = pattern.Of(`^(.*?[{\[].*?\s)#[^\s#]`)
	keyWithValue = pattern.Of(`^([A-Za-z][A-Za-z0-9_-]*):(\S.*)$`)
	endsInDigit  = pattern.Of(`(^|\s)\d+$`)
	stampedFuse  = pattern.Of(`^(FF|F|TT|T|M) ?(\d+)$`) // T0,63A is slow and for 0.63 A
	stampedRest  = pattern.Of(`^(\d+)\s*(m?A)`)
	digitsFirst  = pattern.Of(`^\d+(\s.*|[^\d.].*)?$`)
)

// slip recognises a map key without value that is really something else: a
// missing space after a colon, or the second half of a decimal comma. It may
// give an entry to keep in its stead.
func (s *source) slip(n *Node, k *yaml.Node) (Problem, Entry, bool) {
	pos := Pos{k.Line, k.Column}
	if m := keyWithValue().FindStringSubmatch(k.Value); m != nil && k.Style == 0 {
		p := Problem{Pos: pos, Wrong: fmt.Sprintf("no space after the colon of %s", m[1]), Right: fmt.Sprintf("write %s: %s", m[1], m[2])}
		return p, Entry{Key: m[1], KeyPos: pos, Value: &Node{Pos: pos, Refused: true}}, true
	}
	if len(n.Entries) > 0 && digitsFirst().MatchString(k.Value) {
		last := n.Entries[len(n.Entries)-1]
		if v := last.Value; v != nil && v.Kind == Text {
			if m, amperes := stampedFuse().FindStringSubmatch(v.Text), stampedRest().FindStringSubmatch(k.Value); m != nil && amperes != nil {
				v.Refused = true
				right := fmt.Sprintf("write %s: %s.%s %s", last.Key, m[2], amperes[1], amperes[2])
				if speed := map[string]string{"T": "time-delay", "F": "fast"}[m[1]]; speed != "" {
					right += ", speed: " + speed
				}
				return Problem{Pos: v.Pos, Wrong: fmt.Sprintf("%s is a stamp with a decimal comma", last.Key), Right: right}, Entry{}, true
			}
		}
		if v := last.Value; v != nil && v.Kind == Text && endsInDigit().MatchString(v.Text) {
			v.Refused = true
			return Problem{Pos: v.Pos, Wrong: fmt.Sprintf("%s has a decimal comma", last.Key), Right: fmt.Sprintf("write %s: %s.%s", last.Key, v.Text, k.Value)}, Entry{}, true
		}
	}
	return Problem{}, Entry{}, false
}

// commaInList recognises a decimal comma that YAML took for the comma between
// two items of a list: [0,5 A, 1 A].
func commaInList(a, b *Node) (Problem, bool) {
	if a.Kind != Text || b.Kind != Text || !a.Plain || !b.Plain || a.Pos.Line != b.Pos.Line ||
		b.Pos.Column != a.Offset(len([]rune(a.Text))).Column+1 || !endsInDigit().MatchString(a.Text) || !digitsFirst().MatchString(b.Text) {
		return Problem{}, false
	}
	return Problem{Pos: a.Pos, Wrong: "a decimal comma", Right: fmt.Sprintf("write %s.%s", a.Text, b.Text)}, true
}

const (
	lostComment  = "a # here starts a comment, and what follows it would be lost"
	commentSpace = "put a space after the # of a comment, or quote the value"
)

const secondDocument = "a second document begins here"

const noDirective = "% begins a directive, and directives are not part of the format"

// slipAt words the common slips that leave no YAML at all.
func (s *source) slipAt(n int) (Problem, bool) {
	if n < 1 || n > len(s.lines) {
		return Problem{}, false
	}
	text := string(s.lines[n-1])
	at := func(before string) Pos { return Pos{n, len([]rune(before)) + 1} }
	if strings.HasPrefix(text, "%") {
		return Problem{Pos: Pos{n, 1}, Wrong: noDirective, Right: "remove the line"}, true
	}
	if n > 1 && strings.HasPrefix(string(s.lines[n-2]), "...") {
		return Problem{Pos: Pos{n, 1}, Wrong: secondDocument, Right: "one sheet, one file: remove the ... line and what follows"}, true
	}
	if bare := strings.TrimLeft(text, " "); strings.HasPrefix(bare, ": ") {
		return Problem{Pos: at(text[:len(text)-len(bare)]), Wrong: "a key is empty", Right: "write KEY: value"}, true
	}
	if strings.HasPrefix(strings.TrimLeft(text, " "), "\t") {
		return Problem{Pos: Pos{n, 1}, Wrong: "a tab in the indentation", Right: "indent with spaces"}, true
	}
	if m := bareOver().FindStringSubmatch(text); m != nil {
		return Problem{Pos: at(m[1]), Wrong: "a > without quotes means something else in YAML", Right: `write it like over 500 MΩ, or in quotes like "> 500 MΩ"`}, true
	}
	if m := noBraces().FindStringSubmatch(text); m != nil {
		return Problem{Pos: at(m[1]), Wrong: NoBraces, Right: fmt.Sprintf("write - {run: %s, %s: …}", strings.TrimSpace(m[3]), m[4])}, true
	}
	if m := hashNoSpace().FindStringSubmatch(text); m != nil && strings.Count(m[1], `"`)%2 == 0 && strings.Count(m[1], "'")%2 == 0 {
		return Problem{Pos: at(m[1]), Wrong: lostComment, Right: commentSpace}, true
	}
	if m := noSpace().FindStringSubmatch(text); m != nil {
		return Problem{Pos: at(m[1]), Wrong: fmt.Sprintf("no space after the colon of %s", m[2]), Right: fmt.Sprintf("write %s: %s", m[2], m[3])}, true
	}
	return Problem{}, false
}

// plainWords says what the YAML library means, by a piece of its message.
var plainWords = []struct{ piece, wrong, right string }{
	{"exceeded max depth", "nested deeper than " + strconv.Itoa(MaxDepth), "a bench sheet nests a few levels"},
	{"unknown anchor", noAlias, quoteIt},
	{"mapping values are not allowed", "a colon stands where no key can be", "one key on each line; put quotes round a value that holds a colon and a space"},
	{"block sequence entries are not allowed", "the dash of a list stands where no list can begin", "put each dash on a line of its own"},
	{"did not find expected ',' or '}'", "a brace { is not closed, or a comma is missing", "write it like {kind: fuse, rating: 1 A}"},
	{"did not find expected ',' or ']'", "a bracket [ is not closed, or a comma is missing", "write it like [A, B]"},
	{"found unexpected end of stream", "a quote is not closed", "close it, or leave the quotes out"},
	{"found unexpected document indicator", "a quote is not closed", "close it, or leave the quotes out"},
	{"found unknown escape character", "a backslash in double quotes means something else in YAML", "leave the backslash out, or use single quotes"},
	{"did not find expected hexdecimal number", "a backslash in double quotes means something else in YAML", "leave the backslash out, or use single quotes"},
	{"found character that cannot start any token", "a value cannot begin with this character", "put it in quotes"},
	{"did not find expected alphabetic or numeric character", "a value cannot begin with & or *", "put it in quotes"},
	{"did not find expected comment or line break", "a value cannot begin with | or >", "put it in quotes, or write over 500 MΩ"},
	{"could not find expected ':'", "this line is neither a key with a value nor part of the line above", "write KEY: value, and look at the indentation"},
	{"did not find expected key", "this line does not fit the lines above it", "look at its indentation, and at brackets and quotes above"},
	{"did not find expected '-' indicator", "this line does not fit the list above it", "begin it with a dash, or indent it less"},
	{"did not find expected node content", "a value is missing here", "look at the commas and brackets"},
	{"did not find expected <document start>", "this line does not belong to the sheet above it", "look at its indentation"},
	{"tag", noTag, quoteIt},
}

// syntax words an error of the YAML library: one line, at the first character
// of its line if no better place is known.
func (s *source) syntax(err error) Problem {
	msg := err.Error()
	line := s.errorLine(msg)
	deep := plainWords[0]
	if p, ok := s.tooDeep(line); ok || strings.Contains(msg, deep.piece) {
		return Problem{Pos: p, Wrong: deep.wrong, Right: deep.right}
	}
	for _, n := range []int{line, line - 1} {
		if p, ok := s.slipAt(n); ok {
			return p
		}
	}
	for _, w := range plainWords {
		if strings.Contains(msg, w.piece) {
			return Problem{Pos: Pos{line, 1}, Wrong: w.wrong, Right: w.right}
		}
	}
	return Problem{Pos: Pos{line, 1}, Wrong: "this is not readable as YAML", Right: "look at the indentation, the colons and the brackets of this line and the one before"}
}

var yamlLine = pattern.Of(`line (\d+): `)

// errorLine finds the line at which the text stops being YAML. The library
// tells the line where the structure around the fault began, or one too few;
// so the longest readable beginning is looked for. What begins on the line
// behind it cannot be read to its end. A text too long to try is taken at the
// library's word.
func (s *source) errorLine(msg string) int {
	const affordable = 1 << 21 // bytes read in all tries together
	total, cost := len(s.lines), 0
	size := len(s.text())
	readable := func(n int) bool {
		cost += size * n / total
		dec := yaml.NewDecoder(strings.NewReader(s.upTo(n)))
		for {
			var y yaml.Node
			if err := decode(dec, &y); err != nil {
				return err.Error() == "EOF"
			}
		}
	}
	good := 0
	for again := true; again && cost < affordable; {
		again = false
		for step := total; step > 0 && cost < affordable; step /= 2 {
			if n := good + step; n < total && readable(n) {
				good, again = n, true
			}
		}
		for n := good + 2; n <= good+12 && n < total && !again && cost < affordable; n++ {
			if readable(n) {
				good, again = n, true
			}
		}
	}
	if cost >= affordable && good == 0 {
		if m := yamlLine().FindStringSubmatch(msg); m != nil {
			n, _ := strconv.Atoi(m[1])
			return max(1, min(n, total))
		}
	}
	line := good + 1
	for line < total && strings.TrimSpace(string(s.lines[line-1])) == "" {
		line++
	}
	return line
}

// tooDeep is the place of the bracket or dash on a line that goes too deep;
// without one, the beginning of the line.
func (s *source) tooDeep(n int) (Pos, bool) {
	line := s.lines[n-1]
	depth := 0
	for j, r := range line {
		if r == '#' && depth == 0 {
			break
		}
		if r == '[' || r == '{' || (r == '-' || r == '?') && j+1 < len(line) && line[j+1] == ' ' {
			depth++
		}
		if depth > MaxDepth {
			return Pos{n, j + 1}, true
		}
	}
	return Pos{n, 1}, false
}
