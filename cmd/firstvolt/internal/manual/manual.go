// Package manual is the reference of the bench sheet: how one is written, and
// every key and word of it, made from the table that reads the sheet. A page is
// Markdown, for a file, or set for a terminal.
package manual

import (
	_ "embed"
	"fmt"
	"slices"
	"strings"

	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
	"firstvolt/cmd/firstvolt/internal/report"
)

// Prose is how a sheet is written, in Markdown: what no table can say.
//
//go:embed writing.md
var Prose string

// page is one section: a name to ask for it by, a title, and its Markdown.
type page struct{ name, title, body string }

// pages lists the sections in their order; kinds of part have one each, which
// stand behind parts.
func pages(prose string) []page {
	out := []page{{"writing", "How to write a sheet", prose}}
	for _, k := range sheet.Shape().Map.Keys {
		switch {
		case k.Shape.Map == nil && k.Shape.List == nil:
		case k.Name == "parts":
			out = append(out, page{k.Name, k.Name + ": " + k.Doc, partsTable()})
			for _, kind := range part.Kinds() {
				out = append(out, page{kind.Name, kind.Name + ": " + kind.Doc, kindPage(kind)})
			}
		default:
			out = append(out, page{k.Name, k.Name + ": " + k.Doc, section(k)})
		}
	}
	return append(out, page{"words", "Words that mean the same", spellings()})
}

// Names lists the sections that [Page] knows, kinds of part left out.
func Names() (out []string) {
	for _, p := range pages("") {
		if part.KindOf(p.name) == nil {
			out = append(out, p.name)
		}
	}
	return out
}

// All lists everything that [Page] knows.
func All() (out []string) {
	for _, p := range pages("") {
		out = append(out, p.name)
	}
	return append(out, "all")
}

// Page is one section for a terminal, or all of them.
func Page(name string) (string, bool) {
	ps := pages(Prose)
	if name == "all" {
		var out strings.Builder
		for _, p := range ps {
			out.WriteString(p.plain() + "\n")
		}
		return out.String(), true
	}
	i := slices.IndexFunc(ps, func(p page) bool { return p.name == name })
	if i < 0 {
		return "", false
	}
	return ps[i].plain(), true
}

func (p page) plain() string {
	name, doc, of := strings.Cut(p.title, ": ")
	if of {
		doc = ": " + doc
	}
	return report.Wrap(strings.ToUpper(name)+doc, "", "  ") + "\n" + plain(p.body)
}

// Index lists the sections, one a line.
func Index() string {
	var out strings.Builder
	for _, p := range pages("") {
		if part.KindOf(p.name) == nil {
			fmt.Fprintf(&out, "| `%s` | %s |\n", p.name, strings.TrimPrefix(p.title, p.name+": "))
		}
	}
	return plain("| page | what |\n|---|---|\n" + out.String() + "| `all` | all of it |\n")
}

// Markdown is the whole reference for a file, with prose in the place of [Prose].
func Markdown(prose string) string {
	var out strings.Builder
	out.WriteString("# The bench sheet\n\n" +
		"Made by the program, as `firstvolt help sheet` prints it; not to be written by hand.\n")
	for _, p := range pages(prose) {
		level := "##"
		if part.KindOf(p.name) != nil {
			level = "###"
		}
		out.WriteString("\n" + level + " " + p.title + "\n\n" + p.body)
	}
	return out.String()
}
