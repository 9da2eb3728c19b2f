package main

import (
	"bytes"
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/urfave/cli/v2"

	"firstvolt/checks/strict"
	"firstvolt/cmd/firstvolt/internal/report"
	"firstvolt/rules"
)

func whyCommand() *cli.Command {
	return &cli.Command{
		Name: "why", ArgsUsage: "RULE", Usage: "what a rule asks, why, how to put it right, and its source",
		Flags: []cli.Flag{rulesFlag(), colorFlag()},
		Action: func(c *cli.Context) error {
			color, err := oneOf(c, "color", "auto", "always", "never")
			if err != nil {
				return err
			}
			if c.Args().Len() != 1 {
				return usage{"why needs the name of one rule", "firstvolt why RULE; firstvolt rulebook lists them"}
			}
			book, err := loadBook(c)
			if err != nil {
				return err
			}
			name := c.Args().First()
			r, ok := book.Rule(name)
			if !ok {
				r, ok = ofAnswer(book, name)
			}
			if !ok {
				var names []string
				for _, r := range book.Rules() {
					names = append(names, r.Name)
				}
				return usage{fmt.Sprintf("there is no rule %q", name), strict.Suggest(name, names, "firstvolt rulebook lists them")}
			}
			_, err = c.App.Writer.Write(rulePage(r, report.NewPainter(c.App.Writer, color)))
			return err
		},
	}
}

// ofAnswer is the rule that asks for an inspection answer, by the key of the answer.
func ofAnswer(book *rules.Book, key string) (*rules.Rule, bool) {
	for _, r := range book.Rules() {
		if slices.Contains(r.Of, "inspection") && r.When.String() == "role: "+key {
			return r, true
		}
	}
	return nil, false
}

// rulePage is everything that the rulebook says of one rule.
func rulePage(r *rules.Rule, p report.Painter) []byte {
	var out bytes.Buffer
	para := func(label, text string) {
		out.WriteString(report.Wrap(text, report.Fill(label, 9), strings.Repeat(" ", 9)))
	}
	out.WriteString(p.Strong(r.Name) + "\n")
	out.WriteString(report.Wrap(r.Asks, "", "") + "\n")
	para("Why", r.Why)
	para("Do this", r.Remedy)
	para("Guards", guards[r.Risk])
	para("Asked of", strings.ReplaceAll(strings.Join(r.Of, ", "), "link", "unit of the bench chain")+within(r.When))
	para("Stages", strings.Join(r.Stages, ", "))
	para("Group", r.Group)
	if r.AskedIf != "" {
		para("", "Not asked where this is known not to be so: "+strings.TrimSuffix(r.IfDef.Says, ".")+".")
	}
	out.WriteString("\n")
	for _, c := range r.Clauses {
		for i, l := range clauseLines(c) {
			lead := "  – "
			if i > 0 {
				lead = "      "
			}
			out.WriteString(report.Wrap(l, lead, "      "))
		}
	}
	out.WriteString("\n")
	for i, b := range r.Basis {
		label := ""
		if i == 0 {
			label = "Source"
		}
		para(label, report.Source(b))
	}
	out.WriteString("\n")
	sampleLines(&out, r.Example.Sound, "Sound")
	sampleLines(&out, r.Example.Unsound, "Unsound")
	if len(r.Example.Edges) > 0 {
		out.WriteString("\nA little to each side of its limits:\n")
	}
	for _, e := range r.Example.Edges {
		sampleLines(&out, e.Inside, "")
		sampleLines(&out, e.Outside, "")
	}
	return out.Bytes()
}

// sampleLines shows a sample: which sheet, what is changed on it, what comes of it.
func sampleLines(out *bytes.Buffer, s rules.Sample, label string) {
	if label != "" {
		out.WriteString(label + ":\n")
	}
	if s.Sheet == "" {
		out.WriteString(indented(s.Text))
		return
	}
	of := s.Of
	if of != "" {
		of += ": "
	}
	head := s.Sheet
	if len(s.Changes) == 0 {
		head += " as it stands"
	}
	out.WriteString(report.Wrap(fmt.Sprintf("%s → %s%s", head, of, s.Outcome), "    ", "        "))
	for _, c := range s.Changes {
		for i, l := range strings.Split(strings.TrimRight(c.Was, "\n"), "\n") {
			out.WriteString(report.Wrap(strings.TrimSpace(l), mark(i, "was"), "            "))
		}
		for i, l := range strings.Split(strings.TrimRight(c.Is, "\n"), "\n") {
			out.WriteString(report.Wrap(cmp.Or(strings.TrimSpace(l), "nothing"), mark(i, "is"), "            "))
		}
	}
}

// mark leads the first line of a change with its word.
func mark(line int, word string) string {
	if line > 0 {
		word = ""
	}
	return "      " + report.Fill(word, 6)
}

// guards words each risk.
var guards = map[rules.Risk]string{
	rules.Shock: "against shock", rules.Fire: "against fire", rules.Set: "the set against damage",
	rules.Advice: "nothing by itself: advice, never more than a caution",
}

func within(when rules.Condition) string {
	if len(when) == 0 {
		return ""
	}
	return " (where " + when.String() + ")"
}

// clauseLines are the demands of one clause: its own, and those that stand in
// their place where other facts hold.
func clauseLines(c rules.Clause) []string {
	first := strings.TrimSuffix(cmp.Or(strings.ReplaceAll(c.Says.Number, "{subject}", "it"), c.Def.Says), ".")
	if len(c.When) > 0 {
		first += " (where " + c.When.String() + ")"
	}
	if c.AskedIf != "" {
		first += " (where " + strings.TrimSuffix(c.IfDef.Says, ".") + ")"
	}
	if d := demand(c.Demand); d != "" {
		first += ": " + d
	}
	if c.Shop {
		first += "; asked by the shop"
	}
	out := []string{first}
	for _, k := range c.Limits {
		out = append(out, "where "+k.When.String()+": "+demand(k.Demand))
	}
	if c.Why != "" {
		out = append(out, "why: "+c.Why)
	}
	if c.Remedy != "" {
		out = append(out, "do this: "+c.Remedy)
	}
	if c.Unproven != "" {
		out = append(out, "where it is not proved, do this: "+c.Unproven)
	}
	for _, b := range c.Basis {
		out = append(out, report.Source(b))
	}
	return out
}

func demand(d rules.Demand) string {
	var parts []string
	if d.Must != nil {
		parts = append(parts, "must "+bind(d.Must))
	}
	if d.IfRead != nil {
		parts = append(parts, "must "+bind(d.IfRead)+" if it is read")
	}
	if d.Should != nil {
		parts = append(parts, "should "+bind(d.Should))
	}
	return strings.Join(parts, ", ")
}

// bind words a limit behind must or should.
func bind(l *rules.Limit) string {
	switch {
	case l.Present == nil:
		return "be " + l.String()
	case *l.Present:
		return "be so"
	}
	return "not be so"
}

// indented sets a piece of a sheet. A line that is too long is broken behind a
// comma, where YAML in braces lets it go on; its comment then stands above it.
func indented(text string) string {
	const indent = "    "
	var out strings.Builder
	for _, l := range strings.Split(strings.TrimRight(text, "\n"), "\n") {
		lead := indent + l[:len(l)-len(strings.TrimLeft(l, " "))]
		l = strings.TrimLeft(l, " ")
		if body, comment, ok := strings.Cut(l, " # "); ok && utf8.RuneCountInString(lead+l) > report.Width {
			out.WriteString(lead + "# " + strings.TrimSpace(comment) + "\n")
			l = strings.TrimRight(body, " ")
		}
		for broken := false; ; {
			i := breakAt(l, report.Width-utf8.RuneCountInString(lead))
			if i < 0 {
				break
			}
			out.WriteString(lead + l[:i] + "\n")
			l = l[i+1:]
			if !broken {
				lead, broken = lead+"    ", true
			}
		}
		out.WriteString(lead + l + "\n")
	}
	return out.String()
}

// breakAt is the place behind the last comma and before a space that keeps
// what stands before it within room; -1 where the line need not or cannot break.
func breakAt(l string, room int) int {
	if utf8.RuneCountInString(l) <= room {
		return -1
	}
	best, n := -1, 0
	for i, r := range l {
		if n++; n > room {
			break
		}
		if r == ',' && strings.HasPrefix(l[i+1:], " ") {
			best = i + 1
		}
	}
	return best
}
