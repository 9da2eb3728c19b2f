package main

import (
	"errors"
	"fmt"
	"io"
	"syscall"

	"github.com/urfave/cli/v2"

	"firstvolt/checks/strict"
	"firstvolt/cmd/firstvolt/internal/judging"
	"firstvolt/cmd/firstvolt/internal/report"
	"firstvolt/rules"
)

func checkCommand() *cli.Command {
	return &cli.Command{
		Name: "check", ArgsUsage: "SHEET…", Usage: "judge sheets: what fails, what is not proved, and the verdict",
		Description: "SHEET is a file, or a folder: every .yaml and .yml directly in it. Findings go to standard output, what is wrong with a file to standard error.\n\n" + exitStatuses,
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "stage", Usage: "judge for `STAGE` whatever the sheet says: bare, heaters or rail"},
			&cli.StringFlag{Name: "format", Value: "text", Usage: "`FORMAT`: text or json"},
			rulesFlag(),
			&cli.BoolFlag{Name: "all", Usage: "print passes in full too"},
			colorFlag(),
		},
		Action: check,
	}
}

func rulesFlag() cli.Flag {
	return &cli.StringSliceFlag{Name: "rules", Usage: "add the rules of a shop in `FILE`; they can only be stricter; may stand several times"}
}

func colorFlag() cli.Flag {
	return &cli.StringFlag{Name: "color", Value: "auto", Usage: "`WHEN`: auto (a terminal without NO_COLOR), always or never"}
}

func check(c *cli.Context) error {
	format, err := oneOf(c, "format", "text", "json")
	if err != nil {
		return err
	}
	color, err := oneOf(c, "color", "auto", "always", "never")
	if err != nil {
		return err
	}
	stage, err := stageAsked(c)
	if err != nil {
		return err
	}
	if !c.Args().Present() {
		return usage{"check needs a sheet", "firstvolt check SHEET…; a sheet is a file, or a folder of them"}
	}
	book, err := loadBook(c)
	if err != nil {
		return err
	}
	var form report.Form = report.Text{Painter: report.NewPainter(c.App.Writer, color), All: c.Bool("all")}
	if format == "json" {
		form = report.JSON{Version: version(), Rulebook: book.Digest()}
	}
	tally, err := printAll(c.App, form, sheetsOf(c.Args().Slice()), func(file string) *judging.Sheet {
		return judging.File(book, file, stage)
	})
	if err != nil {
		return err
	}
	return exitStatus(tally)
}

// printAll judges the sheets side by side and prints each in its turn.
func printAll(app *cli.App, form report.Form, files []argument, judge func(string) *judging.Sheet) (tally judging.Tally, err error) {
	write := func(text []byte) {
		if err == nil {
			_, err = app.Writer.Write(text)
		}
	}
	write(form.Before())
	for page := range judging.SideBySide(files, func(f argument) page { return pageOf(form, f, judge) }) {
		io.WriteString(app.ErrWriter, page.diagnostics)
		if tally.Sheets > 0 {
			page.text = append([]byte(form.Between()), page.text...)
		}
		write(page.text)
		tally.Add(page.ending)
		if err != nil {
			break // nobody reads what comes of the others
		}
	}
	write([]byte(form.After(tally)))
	switch {
	case errors.Is(err, syscall.EPIPE):
		return tally, status(exitFault) // the reader has seen what it wanted; what it has not seen is no verdict
	case err != nil:
		return tally, fmt.Errorf("the findings could not be written: %w", err)
	}
	return tally, nil
}

// page is what is printed of a sheet. The sheet itself is not kept.
type page struct {
	text        []byte
	diagnostics string
	ending      judging.Ending
}

// pageOf judges a sheet and prints it. A fault of the program on the way is the
// fault of this sheet alone, which then counts as not judged.
func pageOf(form report.Form, f argument, judge func(string) *judging.Sheet) (p page) {
	defer func() {
		if r := recover(); r != nil {
			s := &judging.Sheet{File: f.file, Faults: []string{fmt.Sprintf("internal fault: %v", r)}}
			p = page{form.Sheet(s), problemLines(s), s.Ending()}
		}
	}()
	s := &judging.Sheet{File: f.file}
	if f.problem != nil {
		s.Problems = []strict.Problem{*f.problem}
	} else {
		s = judge(f.file)
	}
	return page{form.Sheet(s), problemLines(s), s.Ending()}
}

// stageAsked is the stage that the option names, empty where it is not given.
func stageAsked(c *cli.Context) (string, error) {
	if !c.IsSet("stage") {
		return "", nil
	}
	return oneOf(c, "stage", rules.Stages...)
}

// loadBook is the rulebook with what the shops' files add.
func loadBook(c *cli.Context) (*rules.Book, error) {
	book, problems, own := judging.Book(c.StringSlice("rules"))
	if len(problems) == 0 {
		return book, nil
	}
	io.WriteString(c.App.ErrWriter, lines(problems))
	if own {
		return nil, fmt.Errorf("internal fault: the rulebook of this program cannot be read")
	}
	return nil, usage{"the rules of the shop cannot be read, so nothing was judged", ""}
}

// argument is a sheet that the command is given, or what is wrong with a name that gives none.
type argument struct {
	file    string
	problem *strict.Problem
}

// sheetsOf lists the sheets that the arguments name, in their order.
func sheetsOf(args []string) (all []argument) {
	for _, arg := range args {
		files, problems := judging.Files([]string{arg})
		for _, p := range problems {
			all = append(all, argument{p.File, &p})
		}
		for _, f := range files {
			all = append(all, argument{file: f})
		}
	}
	return all
}

func problemLines(s *judging.Sheet) string {
	out := lines(s.Problems)
	for _, f := range s.Faults {
		out += report.Clean(s.File+": "+f) + "\n"
	}
	return out
}

// exitStatus is that of all sheets together; nil for 0.
func exitStatus(t judging.Tally) error {
	switch {
	case t.Faulty > 0:
		return status(exitFault)
	case t.Sheets == 0, t.Unread > 0:
		return status(exitUsage)
	case t.Verdicts[rules.Hold] > 0:
		return status(exitHold)
	case t.Verdicts[rules.Cleared] == t.Sheets:
		return nil
	}
	return status(exitUnproven)
}
