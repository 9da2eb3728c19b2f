package strict

import (
	"errors"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// Parse reads one YAML document into a tree. It returns every fault it can
// find; the tree is nil if there is a fault that leaves no tree.
func Parse(data []byte) (*Node, []Problem) {
	if len(data) > MaxBytes {
		return nil, []Problem{{Pos: Pos{1, 1}, Wrong: fmt.Sprintf("the file is larger than %d KiB", MaxBytes>>10), Right: "a bench sheet is a few pages of text"}}
	}
	if p, ok := notText(data); ok {
		return nil, []Problem{p}
	}
	text := strings.TrimPrefix(string(data), "\ufeff")
	if strings.TrimSpace(text) == "" {
		return nil, []Problem{{Pos: Pos{1, 1}, Wrong: "the file is empty", Right: "start it with: firstvolt: 1"}}
	}
	src := newSource(text)
	problems := src.scan()
	if src.tooDeep {
		return nil, problems
	}
	dec := yaml.NewDecoder(strings.NewReader(text))
	var doc yaml.Node
	if err := decode(dec, &doc); err != nil {
		if errors.Is(err, io.EOF) {
			return nil, append(problems, Problem{Pos: Pos{1, 1}, Wrong: "the file holds nothing but comments", Right: "start it with: firstvolt: 1"})
		}
		if len(problems) == 0 {
			problems = append(problems, src.syntax(err))
		}
		return nil, Sorted(problems)
	}
	var next yaml.Node
	if err := decode(dec, &next); err == nil {
		problems = append(problems, Problem{Pos: Pos{next.Line, next.Column}, Wrong: "a second document begins here", Right: "one sheet, one file: remove the --- line and what follows"})
	} else if !errors.Is(err, io.EOF) {
		problems = append(problems, src.syntax(err))
	}
	w := walker{src: src, problems: problems}
	root := w.node(doc.Content[0], 1)
	return root, Sorted(w.problems)
}

// decode keeps a panic of the YAML library from reaching the person.
func decode(dec *yaml.Decoder, n *yaml.Node) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("yaml: line 1: not readable as YAML (%v)", r)
		}
	}()
	return dec.Decode(n)
}

// notText finds the first thing that makes the file no UTF-8 text.
func notText(data []byte) (Problem, bool) {
	pos := Pos{1, 1}
	for i := 0; i < len(data); {
		r, size := utf8.DecodeRune(data[i:])
		switch {
		case r == utf8.RuneError && size == 1:
			return Problem{Pos: pos, Wrong: fmt.Sprintf("the byte 0x%02X is not UTF-8 text", data[i]), Right: "save the sheet as UTF-8 text"}, true
		case r == 0:
			return Problem{Pos: pos, Wrong: "a zero byte: this is not a text file", Right: "a bench sheet is UTF-8 text"}, true
		}
		i += size
		if r == '\n' {
			pos = Pos{pos.Line + 1, 1}
		} else if i != size || r != '\ufeff' {
			pos.Column++
		}
	}
	return Problem{}, false
}

// walker turns yaml nodes into nodes, collecting what the format refuses.
type walker struct {
	src      *source
	problems []Problem
}

func (w *walker) bad(p Pos, wrong, right string) {
	w.problems = append(w.problems, Problem{Pos: p, Wrong: wrong, Right: right})
}

func (w *walker) node(y *yaml.Node, depth int) *Node {
	pos := Pos{y.Line, y.Column}
	n := &Node{Pos: pos}
	if depth > MaxDepth {
		w.bad(pos, fmt.Sprintf("nested deeper than %d", MaxDepth), "a bench sheet nests a few levels")
		return n
	}
	if y.Anchor != "" {
		w.bad(pos, "anchors are not part of the format", "write the value out")
	}
	if y.Style&yaml.TaggedStyle != 0 {
		w.bad(pos, "tags are not part of the format", "write the value alone")
	}
	switch y.Kind {
	case yaml.AliasNode:
		w.bad(pos, "aliases are not part of the format", "write the value out")
	case yaml.ScalarNode:
		w.scalar(n, y)
	case yaml.SequenceNode:
		n.Kind = List
		for _, c := range y.Content {
			n.Items = append(n.Items, w.node(c, depth+1))
		}
	case yaml.MappingNode:
		n.Kind = Map
		for i := 0; i+1 < len(y.Content); i += 2 {
			if e, ok := w.entry(n, y.Content[i], y.Content[i+1], depth); ok {
				n.Entries = append(n.Entries, e)
			}
		}
	}
	return n
}

func (w *walker) entry(n *Node, k, v *yaml.Node, depth int) (Entry, bool) {
	pos := Pos{k.Line, k.Column}
	switch {
	case k.Kind != yaml.ScalarNode:
		w.bad(pos, "a key must be one word", "write KEY: value")
		return Entry{}, false
	case k.Tag == "!!merge":
		w.bad(pos, "merge keys are not part of the format", "write the keys out")
		return Entry{}, false
	case k.Anchor != "" || k.Style&yaml.TaggedStyle != 0:
		w.bad(pos, "anchors and tags are not part of the format", "write the key alone")
		return Entry{}, false
	}
	if v.Kind == yaml.ScalarNode && v.Tag == "!!null" && v.Style == 0 && v.Value == "" {
		if p, ok := w.src.slip(n, k); ok {
			w.problems = append(w.problems, p)
			return Entry{}, false
		}
	}
	w.marks(pos, k.Value, false)
	if k.Value == "" || (k.Tag == "!!null" && k.Style == 0) {
		w.bad(pos, "a key is empty", "write KEY: value")
		return Entry{}, false
	}
	e := Entry{Key: k.Value, KeyPos: pos}
	if v.Kind == yaml.ScalarNode && v.Tag == "!!null" && v.Style == 0 {
		if v.Value == "" {
			w.bad(pos, fmt.Sprintf("%s has no value", k.Value), "fill it in, or leave the whole line out")
		} else {
			w.bad(Pos{v.Line, v.Column}, fmt.Sprintf("%s is %s: nothing is not a value", k.Value, v.Value), "fill it in, or leave the whole line out")
		}
		return Entry{}, false
	}
	e.Value = w.node(v, depth+1)
	return e, true
}

func (w *walker) scalar(n *Node, y *yaml.Node) {
	n.Text = y.Value
	n.Block = y.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0
	n.Plain = y.Style == 0 && w.src.stands(n.Pos, y.Value)
	if y.Style == 0 && y.Tag == "!!null" {
		w.bad(n.Pos, "a value is missing here", "fill it in, or leave it out")
		return
	}
	if strings.TrimSpace(y.Value) == "" {
		w.bad(n.Pos, "the value is empty", "fill it in, or leave the whole line out")
	}
	w.marks(n.Pos, y.Value, n.Block)
}

// marks refuses characters that a person cannot see and a terminal might obey.
func (w *walker) marks(pos Pos, text string, block bool) {
	for _, r := range text {
		if block && (r == '\n' || r == '\t') {
			continue
		}
		if hidden(r) {
			w.bad(pos, fmt.Sprintf("the value holds a control or direction mark (U+%04X)", r), "remove it; write plain text on one line")
			return
		}
	}
}

func hidden(r rune) bool {
	return unicode.IsControl(r) || unicode.Is(unicode.Cf, r) || r == '\u2028' || r == '\u2029' || unicode.Is(unicode.Co, r)
}

var yamlLine = regexp.MustCompile(`line (\d+): `)

// syntax words an error of the YAML library: one line, at the first character
// of its line.
func (s *source) syntax(err error) Problem {
	line := 1
	msg := strings.TrimPrefix(err.Error(), "yaml: ")
	if m := yamlLine.FindStringSubmatch(msg); m != nil {
		line, _ = strconv.Atoi(m[1])
		msg = strings.Replace(msg, m[0], "", 1)
	}
	line = max(1, min(line, len(s.lines)))
	if p, ok := s.slipNear(line); ok {
		return p
	}
	return Problem{Pos: Pos{line, 1}, Wrong: "this is not readable as YAML (" + msg + ")", Right: "look at the indentation, the colons and the brackets of this line and the one before"}
}
