package main

import (
	"bytes"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"firstvolt/checks/strict"
	"firstvolt/cmd/firstvolt/internal/manual"
	"firstvolt/cmd/firstvolt/internal/report"
)

func helpCommand() *cli.Command {
	return &cli.Command{
		Name: "help", ArgsUsage: "[COMMAND]", Usage: "what the commands do, one of them in full, or, with sheet, how a sheet is written",
		Action: func(c *cli.Context) error {
			name := c.Args().First()
			if name == "sheet" {
				return helpSheet(c)
			}
			if c.Args().Len() > 1 {
				return usage{"help takes one command at a time", "firstvolt help " + name}
			}
			if name == "" {
				_, err := c.App.Writer.Write(helpOfAll(c.App))
				return err
			}
			i := slices.IndexFunc(c.App.Commands, func(o *cli.Command) bool { return o.Name == name })
			if i < 0 {
				return noSuchCommand(c.App, name)
			}
			_, err := c.App.Writer.Write(helpOf(c.App.Commands[i]))
			return err
		},
	}
}

// helpSheet is the reference of the sheet: how one is written, or one page of it.
func helpSheet(c *cli.Context) error {
	pages := c.Args().Slice()[1:]
	if len(pages) == 0 {
		text, _ := manual.Page("writing")
		_, err := io.WriteString(c.App.Writer, text+"\nMore pages: firstvolt help sheet PAGE. A kind of part, like fuse, has a page too.\n\n"+manual.Index())
		return err
	}
	text, ok := manual.Page(pages[0])
	if !ok || len(pages) > 1 {
		return usage{fmt.Sprintf("there is no page %q of the sheet", strings.Join(pages, " ")), strict.Suggest(pages[0], manual.All(), "see firstvolt help sheet")}
	}
	_, err := io.WriteString(c.App.Writer, text)
	return err
}

// helpOfAll lists the commands.
func helpOfAll(app *cli.App) []byte {
	var out bytes.Buffer
	out.WriteString("firstvolt – " + app.Usage + "\n\n")
	out.WriteString(report.Wrap("It reads the bench sheet of a mains valve radio under restoration, judges it against a sourced rulebook and says what is wrong, what is not known and why it matters.", "", ""))
	out.WriteString("\n")
	for _, c := range app.Commands {
		if !c.Hidden {
			out.WriteString(report.Wrap(c.Usage, "  "+report.Fill(strings.TrimSpace(c.Name+" "+c.ArgsUsage), 22)+"  ", strings.Repeat(" ", 26)))
		}
	}
	out.WriteString("\nfirstvolt help COMMAND says more of each; firstvolt help sheet says how a sheet\nis written; firstvolt demo shows the whole job.\n")
	return out.Bytes()
}

// helpOf is one command with its options.
func helpOf(c *cli.Command) []byte {
	var out bytes.Buffer
	out.WriteString("firstvolt " + strings.TrimSpace(c.Name+" "+c.ArgsUsage) + "\n")
	out.WriteString(report.Wrap(c.Usage, "  ", "  "))
	for _, para := range strings.Split(c.Description, "\n\n") {
		if para != "" {
			out.WriteString("\n" + report.Wrap(para, "  ", "  "))
		}
	}
	if len(c.Flags) > 0 {
		out.WriteString("\n")
	}
	type option struct{ name, use string }
	var options []option
	lead := 16
	for _, f := range c.Flags {
		doc, ok := f.(cli.DocGenerationFlag)
		if !ok {
			continue
		}
		name := "--" + f.Names()[0]
		use := doc.GetUsage()
		if doc.TakesValue() {
			// The word for the value stands in the usage between back quotes.
			value := "VALUE"
			if a, rest, found := strings.Cut(use, "`"); found {
				word, after, _ := strings.Cut(rest, "`")
				value, use = word, a+word+after
			}
			name += " " + value
		}
		options, lead = append(options, option{name, use}), max(lead, len(name))
	}
	for _, o := range options {
		out.WriteString(report.Wrap(o.use, "  "+report.Fill(o.name, lead)+"  ", strings.Repeat(" ", lead+4)))
	}
	return out.Bytes()
}

// exitStatuses is the part of the help that scripts need.
const exitStatuses = "Exit status: 0 all cleared; 1 any on hold; 2 any unproven and none on hold; 3 any unreadable, or wrong use; 70 a fault of this program. Of several the first in the order 70, 3, 1, 2, 0. A status counts only with a verdict printed: a program that was ended from outside has a status too."

// lines prints problems one a line, as editors like them.
func lines[T fmt.Stringer](all []T) string {
	var out strings.Builder
	for _, p := range all {
		out.WriteString(report.Clean(p.String()) + "\n")
	}
	return out.String()
}
