package main

import (
	"bytes"
	"fmt"

	"github.com/urfave/cli/v2"

	"firstvolt/checks/faults"
	"firstvolt/cmd/firstvolt/internal/report"
)

func faultsCommand() *cli.Command {
	return &cli.Command{
		Name: "faults", ArgsUsage: "SHEET", Usage: "every single fault: what a person would feel, what opens, and when",
		Description: "Worst first. It states what would be, and is no verdict: firstvolt check judges. The latent layer, a second fault that nobody noticed before, is printed and never judged.\n\nWith --all there are thousands of lines. The flags from --fault on narrow the table to the cases that are all of what they name, in the words that it prints itself; a pair of faults stands in it once, and either order finds it.\n\nExit status: 0 computed; 3 unreadable, not to be computed, or wrong use; 70 a fault of this program.",
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "format", Value: "text", Usage: "`FORMAT`: text or json; json has every case"},
			&cli.BoolFlag{Name: "all", Usage: "print every case, in every position of switches, joints and lamp"},
			&cli.StringFlag{Name: "fault", Usage: "only with the fault `NAME`, alone or with another"},
			&cli.StringFlag{Name: "latent", Usage: "only with this one `NAME` not noticed; none for one fault at most"},
			&cli.StringFlag{Name: "part", Usage: "only faults of the part `NAME` and its wires; chassis and plug count"},
			&cli.StringFlag{Name: "switches", Usage: "only in this `POSITION` of switches and selectors"},
			&cli.StringFlag{Name: "orientation", Usage: "only this `WAY` round: as wired, or exchanged"},
			&cli.BoolFlag{Name: "limiter", Usage: "only with the series lamps in"},
			&cli.StringFlag{Name: "touches", Usage: "only with a person touching this `METAL`"},
			colorFlag(),
		},
		Action: faultTable,
	}
}

func faultTable(c *cli.Context) error {
	format, err := oneOf(c, "format", "text", "json")
	if err != nil {
		return err
	}
	color, err := oneOf(c, "color", "auto", "always", "never")
	if err != nil {
		return err
	}
	if c.Args().Len() != 1 {
		return usage{"faults needs one sheet", "firstvolt faults SHEET"}
	}
	book, err := loadBook(c)
	if err != nil {
		return err
	}
	path := c.Args().First()
	s, words, err := wordsOf(c, path)
	if err != nil {
		return err
	}
	cases, err := faults.Table(s.Bench)
	if err != nil {
		return noAnswer(path, err)
	}
	cases, only, err := words.Some(typed(c), cases)
	if err != nil {
		return noAnswer(path, err)
	}
	table := report.Cases{
		Painter: report.NewPainter(c.App.Writer, color), All: c.Bool("all"), Only: only,
		With: book.Carried(s.Bench.Setting(), s.Bench.Stage),
	}
	var out bytes.Buffer
	if format == "json" {
		if err := table.JSON(&out, version(), s, cases); err != nil {
			return err
		}
	} else {
		out.Write(table.Sheet(s, cases))
	}
	if _, err := c.App.Writer.Write(out.Bytes()); err != nil {
		return fmt.Errorf("the cases could not be written: %w", err)
	}
	return nil
}
