package main

import (
	"bytes"
	"fmt"
	"io"
	"slices"

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
	sheets := judge(book, c.Args().Slice(), stage)
	for _, s := range sheets {
		io.WriteString(c.App.ErrWriter, problemLines(s))
	}
	var out bytes.Buffer
	if format == "json" {
		if err := report.JSON(&out, version(), book.Digest(), sheets); err != nil {
			return err
		}
	} else {
		out.Write(report.Text{Painter: report.NewPainter(c.App.Writer, color), All: c.Bool("all")}.Sheets(sheets))
	}
	if _, err := c.App.Writer.Write(out.Bytes()); err != nil {
		return fmt.Errorf("the findings could not be written: %w", err)
	}
	return exitStatus(sheets)
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

// judge judges every sheet that the arguments name, in their order.
func judge(book *rules.Book, args []string, stage string) []*judging.Sheet {
	var sheets []*judging.Sheet
	for _, arg := range args {
		files, problems := judging.Files([]string{arg})
		for _, p := range problems {
			sheets = append(sheets, &judging.Sheet{File: p.File, Problems: []strict.Problem{p}})
		}
		for _, f := range files {
			sheets = append(sheets, judging.File(book, f, stage))
		}
	}
	return sheets
}

func problemLines(s *judging.Sheet) string {
	out := lines(s.Problems)
	for _, f := range s.Faults {
		out += report.Clean(s.File+": "+f) + "\n"
	}
	return out
}

// exitStatus is that of all sheets together; nil for 0.
func exitStatus(sheets []*judging.Sheet) error {
	any := func(is func(*judging.Sheet) bool) bool { return slices.ContainsFunc(sheets, is) }
	verdict := func(v rules.Verdict) func(*judging.Sheet) bool {
		return func(s *judging.Sheet) bool { return s.Judged() && s.Judgement.Verdict == v }
	}
	switch {
	case any(func(s *judging.Sheet) bool { return len(s.Faults) > 0 }):
		return status(exitFault)
	case len(sheets) == 0, any(func(s *judging.Sheet) bool { return !s.Judged() }):
		return status(exitUsage)
	case any(verdict(rules.Hold)):
		return status(exitHold)
	case !any(func(s *judging.Sheet) bool { return !verdict(rules.Cleared)(s) }):
		return nil
	}
	return status(exitUnproven)
}
