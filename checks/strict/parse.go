package strict

import (
	"errors"
	"fmt"
	"io"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"gopkg.in/yaml.v3"

	"firstvolt/checks/pattern"
)

// Parse reads one YAML document into a tree. It returns every fault it can
// find, sorted by place; the tree is nil if there is a fault that leaves no
// tree. A YAML syntax error stands alone.
func Parse(data []byte) (*Node, []Problem) {
	if len(data) > MaxBytes {
		return nil, []Problem{{Pos: Pos{1, 1}, Wrong: fmt.Sprintf("the file is larger than %d KiB", MaxBytes>>10), Right: "a bench sheet is a few pages of text"}}
	}
	if p, ok := notText(data); ok {
		return nil, []Problem{p}
	}
	text := strings.ReplaceAll(strings.TrimPrefix(string(data), "\ufeff"), "\r\n", "\n")
	if strings.TrimSpace(text) == "" {
		return nil, []Problem{{Pos: Pos{1, 1}, Wrong: "the file is empty", Right: "start it with: firstvolt: 1"}}
	}
	src, problems := newSource(text)
	doc, next, problems, err := src.documents(problems)
	switch {
	case errors.Is(err, io.EOF):
		return nil, []Problem{{Pos: Pos{1, 1}, Wrong: "the file holds nothing but comments", Right: "start it with: firstvolt: 1"}}
	case err != nil:
		p := src.syntax(err)
		for _, q := range problems { // an odd character on the line says more
			if q.Line == p.Line {
				p = q
				break
			}
		}
		return nil, []Problem{p}
	case next != nil:
		problems = append(problems, Problem{Pos: Pos{next.Line, next.Column}, Wrong: secondDocument, Right: "one sheet, one file: remove the --- line and what follows"})
	}
	if root := doc.Content[0]; isNull(root) && root.Value == "" && next == nil {
		return nil, []Problem{{Pos: Pos{1, 1}, Wrong: "the file holds nothing", Right: "start it with: firstvolt: 1"}}
	}
	w := walker{src: src, problems: problems}
	root := w.node(doc.Content[0], 1, 0)
	end := len(src.lines)
	if next != nil {
		end = next.Line - 1
	}
	w.comments(end)
	return root, Sorted(w.problems)
}

// documents decodes the first document, and the second if there is one. An
// alias to nothing, which stops the library, is made a word and reported.
func (s *source) documents(problems []Problem) (doc, next *yaml.Node, out []Problem, err error) {
	const most = 20 // names of aliases to nothing
	for i := 0; ; i++ {
		dec := yaml.NewDecoder(strings.NewReader(s.text()))
		doc, next = &yaml.Node{}, &yaml.Node{}
		err = decode(dec, doc)
		if err == nil {
			switch err = decode(dec, next); {
			case errors.Is(err, io.EOF):
				return doc, nil, problems, nil
			case err == nil:
				return doc, next, problems, nil
			}
		}
		m := unknownAnchor().FindStringSubmatch(err.Error())
		if m == nil || i == most {
			return nil, nil, problems, err
		}
		found := s.unalias(m[1])
		if len(found) == 0 {
			return nil, nil, problems, err
		}
		problems = append(problems, found...)
	}
}

var unknownAnchor = pattern.Of(`unknown anchor '(.*)' referenced`)

const (
	noAlias  = "* begins an alias, and aliases are not part of the format"
	noAnchor = "& begins an anchor, and anchors are not part of the format"
	noTag    = "! begins a tag, and tags are not part of the format"
	quoteIt  = "write the value out, or quote it if it begins so"
)

// unalias takes the star off every *name and remembers where it stood.
func (s *source) unalias(name string) []Problem {
	var out []Problem
	form := regexp.MustCompile(`(^|[\s\[{,])\*` + regexp.QuoteMeta(name) + `([\s\]},:]|$)`)
	for i, line := range s.lines {
		text := string(line)
		if !strings.Contains(text, "*"+name) {
			continue
		}
		for _, m := range form.FindAllStringSubmatchIndex(text, -1) {
			at := utf8.RuneCountInString(text[:m[3]])
			line[at], s.altered = '_', true
			p := Pos{i + 1, at + 1}
			s.refused[p] = true
			out = append(out, Problem{Pos: p, Wrong: noAlias, Right: quoteIt})
		}
	}
	return out
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

// notText finds the first thing that makes the file no UTF-8 text of lines.
func notText(data []byte) (Problem, bool) {
	pos := Pos{1, 1}
	for i := 0; i < len(data); {
		r, size := utf8.DecodeRune(data[i:])
		switch {
		case r == utf8.RuneError && size == 1:
			return Problem{Pos: pos, Wrong: fmt.Sprintf("the byte 0x%02X is not UTF-8 text", data[i]), Right: "save the sheet as UTF-8 text"}, true
		case r == 0:
			return Problem{Pos: pos, Wrong: "a zero byte: this is not a text file", Right: "a bench sheet is UTF-8 text"}, true
		case r == '\r' && (i+1 == len(data) || data[i+1] != '\n'):
			return Problem{Pos: pos, Wrong: "a line end that is half of one (U+000D)", Right: "save the sheet with plain line ends"}, true
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
	scalars  []placed // from top to bottom
	room     []Node   // made at once, as there are many
}

func (w *walker) bad(p Pos, wrong, right string) {
	w.problems = append(w.problems, Problem{Pos: p, Wrong: wrong, Right: right})
}

// new makes a node.
func (w *walker) new(pos Pos, refused bool) *Node {
	if len(w.room) == 0 {
		w.room = make([]Node, 64)
	}
	n := &w.room[0]
	w.room = w.room[1:]
	n.Pos, n.Refused = pos, refused
	return n
}

// node makes a node of y, which lies at that depth in what is indented so far.
func (w *walker) node(y *yaml.Node, depth, indent int) *Node {
	pos := Pos{y.Line, y.Column}
	n := w.new(pos, w.src.refused[pos])
	if depth > MaxDepth {
		w.bad(pos, fmt.Sprintf("nested deeper than %d", MaxDepth), "a bench sheet nests a few levels")
		n.Refused = true
		return n
	}
	w.properties(y)
	switch y.Kind {
	case yaml.AliasNode:
		w.bad(pos, noAlias, quoteIt)
		n.Refused = true
	case yaml.ScalarNode:
		w.scalar(n, y, indent)
	case yaml.SequenceNode:
		n.Kind = List
		if len(y.Content) > 0 {
			n.Items = make([]*Node, 0, len(y.Content))
		}
		for _, c := range y.Content {
			n.Items = append(n.Items, w.node(c, depth+1, y.Column-1))
		}
	case yaml.MappingNode:
		n.Kind = Map
		if len(y.Content) > 0 {
			n.Entries = make([]Entry, 0, len(y.Content)/2)
		}
		for i := 0; i+1 < len(y.Content); i += 2 {
			k, v := y.Content[i], y.Content[i+1]
			if e, ok := w.entry(n, k, v, depth, y); ok {
				n.Entries = append(n.Entries, e)
			}
		}
	}
	return n
}

// properties refuses anchors and tags.
func (w *walker) properties(y *yaml.Node) {
	pos := Pos{y.Line, y.Column}
	if y.Anchor != "" {
		w.bad(pos, noAnchor, quoteIt)
	}
	if y.Style&yaml.TaggedStyle != 0 || w.src.at(pos) == '!' {
		w.bad(pos, noTag, quoteIt)
	}
}

func isNull(y *yaml.Node) bool {
	return y.Kind == yaml.ScalarNode && y.Tag == "!!null" && y.Style == 0
}

func (w *walker) entry(n *Node, k, v *yaml.Node, depth int, owner *yaml.Node) (Entry, bool) {
	pos := Pos{k.Line, k.Column}
	switch {
	case k.Kind == yaml.AliasNode:
		w.bad(pos, noAlias, quoteIt)
		return Entry{}, false
	case k.Kind != yaml.ScalarNode:
		w.bad(pos, "a key must be one word", "write KEY: value")
		return Entry{}, false
	case k.Tag == "!!merge":
		w.bad(pos, "<< is a merge key, and merge keys are not part of the format", "write the keys out")
		return Entry{}, false
	}
	w.scalars = append(w.scalars, placed{pos, k, 0})
	w.properties(k)
	if v.Value == "" && isNull(v) {
		if p, refuse, ok := w.src.slip(n, k); ok {
			w.problems = append(w.problems, p)
			return refuse, refuse.Key != ""
		}
	}
	if w.marks(pos, "the key", k.Value) {
		return Entry{}, false
	}
	if k.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0 {
		w.bad(pos, "a block of text cannot be a key", "write KEY: value")
		return Entry{}, false
	}
	if k.Value == "" || isNull(k) {
		w.bad(pos, "a key is empty", "write KEY: value")
		return Entry{}, false
	}
	e := Entry{Key: k.Value, KeyPos: pos}
	if isNull(v) {
		// The key stays, so that it is not also called missing.
		e.Value = w.new(pos, true)
		switch {
		case v.Value == "" && owner.Style&yaml.FlowStyle != 0:
			w.bad(pos, fmt.Sprintf("%s has no value", k.Value), "write KEY: value, or several words of one key in brackets, like KEY: [A, B]")
		case v.Value == "":
			w.bad(pos, fmt.Sprintf("%s has no value", k.Value), "fill it in, or leave it out")
		default:
			w.bad(Pos{v.Line, v.Column}, fmt.Sprintf("%s is %s, and nothing is not a value", k.Value, v.Value), "fill it in, or leave it out")
		}
		return e, true
	}
	e.Value = w.node(v, depth+1, owner.Column-1)
	return e, true
}

func (w *walker) scalar(n *Node, y *yaml.Node, indent int) {
	if y.Value != "" || y.Style != 0 {
		w.scalars = append(w.scalars, placed{n.Pos, y, indent})
	}
	n.Text = y.Value
	n.Block = y.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0
	n.Plain = y.Style == 0 && w.src.stands(n.Pos, y.Value)
	switch {
	case n.Refused:
		return
	case isNull(y):
		w.bad(n.Pos, "a value is missing here", "fill it in, or leave it out")
		n.Refused = true
		return
	case strings.TrimSpace(y.Value) == "":
		w.bad(n.Pos, "the value is empty", "fill it in, or leave it out")
		n.Refused = true
		return
	}
	if n.Block {
		w.marks(n.Pos, "the text", strings.NewReplacer("\n", "", "\t", "").Replace(y.Value))
		return
	}
	n.Refused = w.marks(n.Pos, "the value", y.Value)
}

// marks refuses characters that a person cannot see and a terminal might obey.
func (w *walker) marks(pos Pos, what, text string) bool {
	for _, r := range text {
		switch {
		case r == '\n':
			w.bad(pos, what+" goes over several lines", "write it on one line; only a note may be a block of text")
			return true
		case hidden(r):
			w.bad(pos, fmt.Sprintf("%s holds a control or direction mark (U+%04X)", what, unveil(r)), "remove it, or write it anew as plain text")
			return true
		}
	}
	return false
}

// hidden tells whether r is a control, direction or private mark.
func hidden(r rune) bool {
	if r >= ' ' && r <= '~' {
		return false
	}
	return unicode.IsControl(r) || unicode.Is(unicode.Cf, r) || r == '\u2028' || r == '\u2029' || unicode.Is(unicode.Co, r) || r&0xFFFE == 0xFFFE
}

// Visible is text with every hidden mark spelled out, so that it can be shown.
func Visible(text string) string {
	if strings.IndexFunc(text, hidden) < 0 {
		return text
	}
	var b strings.Builder
	for _, r := range text {
		if hidden(r) {
			fmt.Fprintf(&b, "<U+%04X>", unveil(r))
		} else {
			b.WriteRune(r)
		}
	}
	return b.String()
}
