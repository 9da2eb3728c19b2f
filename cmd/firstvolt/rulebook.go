package main

import (
	"bytes"
	"fmt"
	"strings"

	"github.com/urfave/cli/v2"

	"firstvolt/cmd/firstvolt/internal/report"
	"firstvolt/rules"
)

func rulebookCommand() *cli.Command {
	return &cli.Command{
		Name: "rulebook", Usage: "every rule in a line, or every limit with its source",
		Flags: []cli.Flag{&cli.BoolFlag{Name: "sources", Usage: "every clause with its limit and its source"}, rulesFlag(), colorFlag()},
		Action: func(c *cli.Context) error {
			color, err := oneOf(c, "color", "auto", "always", "never")
			if err != nil {
				return err
			}
			if c.Args().Present() {
				return usage{"rulebook takes no arguments", "for one rule: firstvolt why " + c.Args().First()}
			}
			book, err := loadBook(c)
			if err != nil {
				return err
			}
			_, err = c.App.Writer.Write(rulebookPage(book, c.Bool("sources"), report.NewPainter(c.App.Writer, color)))
			return err
		},
	}
}

// rulebookPage lists the rules by group, in the order of the groups.
func rulebookPage(book *rules.Book, sources bool, p report.Painter) []byte {
	var out bytes.Buffer
	if sources {
		out.WriteString(report.Wrap("Every clause of a rule must hold. What is not known leaves the rule unproven, unless the clause says otherwise; a should that is not met is a caution.", "", "") + "\n")
	}
	for _, g := range rules.Groups {
		var body bytes.Buffer
		n := 0
		for _, r := range book.Rules() {
			if r.Group != g {
				continue
			}
			n++
			if sources {
				body.WriteString("\n")
			}
			body.WriteString("  " + p.Name(r.Name) + ", " + string(r.Risk) + "\n")
			if !sources {
				body.WriteString(report.Wrap(r.Asks, "      ", "      "))
				continue
			}
			for _, c := range r.Clauses {
				for i, l := range clauseLines(c) {
					lead := "    – "
					if i > 0 {
						lead = "        "
					}
					body.WriteString(report.Wrap(l, lead, "        "))
				}
			}
			for _, b := range r.Basis {
				body.WriteString(report.Wrap(report.Source(b), "      ", "        "))
			}
		}
		if n > 0 {
			fmt.Fprintf(&out, "%s, %s\n%s\n", p.Strong(strings.ToUpper(g)), many(n, "rule"), body.String())
		}
	}
	out.WriteString(report.Wrap(fmt.Sprintf("%s. Digest of the rulebook: %s", many(len(book.Rules()), "rule"), book.Digest()), "", ""))
	return out.Bytes()
}

func many(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
