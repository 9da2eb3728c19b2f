package strict

import (
	"bytes"
	"fmt"
	"strings"
	"unicode/utf8"

	"firstvolt/checks/pattern"
)

// Write gives the tree as YAML that Parse reads to the same tree (Same):
// plain where that is safe, in double quotes elsewhere, short maps and lists
// of single values on one line, blocks of text as blocks. Comments and the
// places of a file are not kept: a person's own file is altered in its text.
func Write(n *Node) []byte {
	w := writer{}
	switch {
	case n == nil:
	case n.Kind == Text:
		w.text(n, 0)
		w.WriteByte('\n')
	case len(n.Entries) == 0 && len(n.Items) == 0:
		w.flow(n)
		w.WriteByte('\n')
	default:
		w.block(n, 0)
	}
	return w.Bytes()
}

// The longest map or list, and item of a list, that is put on one line.
const (
	flowWidth = 100
	flowWord  = 18
)

type writer struct{ bytes.Buffer }

// block writes a map or list in lines that begin at indent; the first line
// begins where the writer stands.
func (w *writer) block(n *Node, indent int) {
	for i, e := range n.Entries {
		if i > 0 {
			w.pad(indent)
		}
		w.WriteString(scalar(e.Key, true) + ":")
		w.under(e.Value, indent)
	}
	for i, item := range n.Items {
		if i > 0 {
			w.pad(indent)
		}
		w.WriteByte('-')
		if item != nil && item.Kind != Text && !w.flows(item) {
			w.WriteByte(' ')
			w.block(item, indent+2)
			continue
		}
		w.under(item, indent)
	}
}

func (w *writer) pad(indent int) { w.WriteString(strings.Repeat(" ", indent)) }

// under writes a value after "key:" or "-".
func (w *writer) under(n *Node, indent int) {
	switch {
	case n == nil:
		w.WriteByte('\n')
	case n.Kind == Text:
		w.WriteByte(' ')
		w.text(n, indent)
		w.WriteByte('\n')
	case w.flows(n):
		w.WriteByte(' ')
		w.flow(n)
		w.WriteByte('\n')
	default:
		w.WriteByte('\n')
		w.pad(indent + 2)
		w.block(n, indent+2)
	}
}

// text writes a scalar without the line end that follows it.
func (w *writer) text(n *Node, indent int) {
	if !n.Block || strings.TrimSpace(n.Text) == "" || !printable(n.Text) {
		w.WriteString(scalar(n.Text, false))
		return
	}
	// An explicit indent keeps leading spaces and blank lines; + and - keep
	// exactly the line ends that the text has.
	body, mark := n.Text, "-"
	if rest, ok := strings.CutSuffix(n.Text, "\n"); ok {
		body, mark = rest, "+"
	}
	fmt.Fprintf(w, "|2%s", mark)
	for _, line := range strings.Split(body, "\n") {
		w.WriteByte('\n')
		if line != "" {
			w.pad(indent + 2)
			w.WriteString(line)
		}
	}
}

// flows tells whether n goes on one line: empty, a short map of single values
// and short lists, or a list of short words and pairs of them.
func (w *writer) flows(n *Node) bool {
	if n.Kind == Map {
		width, ok := flowSize(n, 3)
		return ok && width <= flowWidth
	}
	for _, item := range n.Items {
		if width, ok := flowSize(item, 1); !ok || width > flowWord {
			return false
		}
	}
	width, ok := flowSize(n, 2)
	return ok && width <= flowWidth
}

// flowSize is the width of n on one line; ok is false where it cannot go there.
func flowSize(n *Node, levels int) (width int, ok bool) {
	if n == nil || n.Kind == Text {
		return len(n.Str()) + 2, n != nil && !n.Block
	}
	if levels == 0 {
		return 0, false
	}
	for _, e := range n.Entries {
		inner, ok := flowSize(e.Value, levels-1)
		if !ok {
			return 0, false
		}
		width += len(e.Key) + 2 + inner
	}
	for _, item := range n.Items {
		inner, ok := flowSize(item, levels-1)
		if !ok {
			return 0, false
		}
		width += inner
	}
	return width + 2, true
}

func (w *writer) flow(n *Node) {
	switch n.Kind {
	case Text:
		w.WriteString(scalar(n.Text, false))
	case Map:
		w.WriteByte('{')
		for i, e := range n.Entries {
			if i > 0 {
				w.WriteString(", ")
			}
			w.WriteString(scalar(e.Key, true) + ": ")
			w.flow(e.Value)
		}
		w.WriteByte('}')
	case List:
		w.WriteByte('[')
		for i, item := range n.Items {
			if i > 0 {
				w.WriteString(", ")
			}
			w.flow(item)
		}
		w.WriteByte(']')
	}
}

// plainForm is what may stand without quotes anywhere, a key or inside a flow
// too: words of safe characters parted by single spaces. It is narrower than
// YAML on purpose. The arrow of a run is a word.
var plainForm = pattern.Of(`^[\pL\pN](?:[\pL\pN_./%²°+()-]*[\pL\pN_./%²°+()])?(?: (?:[\pL\pN_./²°+()]|->|±|%)[\pL\pN_./%²°+()-]*)*$`)

// scalar is a text on one line, in double quotes where it needs them.
func scalar(s string, key bool) string {
	switch s {
	case "null", "Null", "NULL":
		return `"` + s + `"`
	}
	if plainForm().MatchString(s) && printable(s) && !(key && len(s) > 100) {
		return s
	}
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r == '\n':
			b.WriteString(`\n`)
		case r == utf8.RuneError || hidden(r) || r == 0xFEFF:
			if r > 0xFFFF {
				fmt.Fprintf(&b, `\U%08X`, r)
			} else {
				fmt.Fprintf(&b, `\u%04X`, r)
			}
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

// printable tells whether a text may stand in a file as it is.
func printable(s string) bool {
	for _, r := range s {
		if r != '\n' && r != '\t' && (hidden(r) || r == utf8.RuneError) {
			return false
		}
	}
	return true
}
