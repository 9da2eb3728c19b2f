package blank

import (
	"bytes"
	"fmt"
	"strings"

	"firstvolt/checks/strict"
	"firstvolt/cmd/firstvolt/internal/report"
)

// Open stands for a value that the person is to write. No value of a sheet may
// be so written, so that what was left open is refused and never judged.
const Open = "…"

// writer writes the lines of a sheet. In a filled one, which is for the tests,
// no line is commented out and every open value is an example.
type writer struct {
	bytes.Buffer
	filled bool
}

// value is an example where the sheet is filled, else left open.
func (w *writer) value(example string) string {
	if w.filled {
		return example
	}
	return Open
}

// line writes a line that holds as it stands.
func (w *writer) line(text, doc string) { w.commented("", text, doc) }

// later writes a line that holds once the "# " behind lead is taken away.
func (w *writer) later(lead, text, doc string) {
	if !w.filled {
		lead += "# "
	}
	w.commented(lead, text, doc)
}

// commented writes a line with its comment behind it, or above where there is
// no room. Above a line that is commented out the comment stays one when the
// first "# " goes.
func (w *writer) commented(lead, text, doc string) {
	if doc == "" {
		w.WriteString(broken(lead, text))
		return
	}
	behind := report.Fill(lead+text, 34) + " # " + doc
	if len([]rune(behind)) <= report.Width {
		fmt.Fprintln(w, behind)
		return
	}
	inner := lead + text[:len(text)-len(strings.TrimLeft(text, " "))]
	w.WriteString(report.Wrap(doc, inner+"# ", inner+"# "))
	w.WriteString(broken(lead, text))
}

// broken is the line with its end, or several where it is too wide and has
// braces: they go on below the first key in them.
func broken(lead, text string) string {
	open := strings.Index(text, "{")
	if len([]rune(lead+text)) <= report.Width || open < 0 {
		return lead + text + "\n"
	}
	var out strings.Builder
	line := lead + text[:open+1]
	below := lead + strings.Repeat(" ", len([]rune(text[:open+1])))
	depth := 0
	keys := strings.FieldsFunc(text[open+1:], func(r rune) bool {
		depth += strings.Count("[{", string(r)) - strings.Count("]}", string(r))
		return r == ',' && depth == 0
	})
	for i, key := range keys {
		key = strings.TrimSpace(key)
		if i < len(keys)-1 {
			key += ","
		}
		switch {
		case i == 0:
			line += key
		case len([]rune(line+" "+key)) > report.Width:
			out.WriteString(line + "\n")
			line = below + key
		default:
			line += " " + key
		}
	}
	return out.String() + line + "\n"
}

// prose writes a comment between the lines that are commented out.
//
// A text that begins with "# " stays a comment when the first one goes.
func (w *writer) prose(text string) {
	lead := "# "
	if strings.HasPrefix(text, lead) {
		lead += lead
	}
	w.WriteString(report.Wrap(strings.TrimPrefix(text, "# "), lead, lead))
}

// doc is what the key at path means. A path that leads nowhere is a fault of
// the program; the tests write every sheet.
func doc(path ...string) string {
	k, ok := keyAt(path...)
	if !ok {
		panic("the sheet has no key " + strings.Join(path, "."))
	}
	return about(k)
}

// part writes a part with every key of its kind, but for those whose example
// is empty. In a filled sheet only
// those with an example stand there.
func (w *writer) part(name, kind string, examples ...string) {
	w.later("", "  "+name+":", "")
	k, _ := keyAt("parts")
	w.later("", "    kind: "+kind, kindDoc(kind))
	for _, key := range k.Shape.Map.Any.Map.Cases[kind].Keys {
		given, left := "", false
		for i := 0; i < len(examples); i += 2 {
			if examples[i] == key.Name {
				given, left = examples[i+1], examples[i+1] == ""
			}
		}
		if left || key.Shape.Text == nil || w.filled && given == "" {
			continue
		}
		w.later("", "    "+key.Name+": "+w.value(given), about(key))
	}
}

// keysOf writes keys of one map, each with an example.
func (w *writer) keysOf(lead string, at []string, examples ...string) {
	for i := 0; i < len(examples); i += 2 {
		w.later(lead, examples[i]+": "+w.value(examples[i+1]), doc(append(append([]string{}, at...), examples[i])...))
	}
}

// quoted is text as one value of the sheet.
func quoted(text string) string {
	return strings.TrimSuffix(string(strict.Write(strict.TextNode(text))), "\n")
}
