package main

import (
	"errors"
	"io"

	"github.com/urfave/cli/v2"

	"firstvolt/checks/mains"
	"firstvolt/cmd/firstvolt/internal/asked"
	"firstvolt/cmd/firstvolt/internal/judging"
	"firstvolt/cmd/firstvolt/internal/report"
)

func netlistCommand() *cli.Command {
	return &cli.Command{
		Name: "netlist", ArgsUsage: "SHEET", Usage: "the mains circuit as a deck for ngspice, to check a number",
		Description: "The circuit from service to set as the program solves it, at the end of every value that endangers a person most. Without flags: sound, the first orientation, switched on, no series lamp, nobody touching. The flags take the words that firstvolt faults prints of a case, the last of them under When, or those of its machine output, so that every number of it can be checked. ngspice -b runs the deck unchanged and prints the volts of every net; with --touches the last line is the current through the person, in A.\n\nExit status: 0 written; 3 unreadable, not to be computed, or wrong use; 70 a fault of this program.",
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "fault", Usage: "put the fault `NAME` in"},
			&cli.StringFlag{Name: "latent", Usage: "and this one `NAME`, that nobody noticed before"},
			&cli.StringFlag{Name: "orientation", Usage: "which `WAY` round: as wired, or exchanged"},
			&cli.StringFlag{Name: "switches", Usage: "`POSITION` of switches and selectors; of one or some of them, the others closed"},
			&cli.BoolFlag{Name: "limiter", Usage: "the series lamps are in"},
			&cli.StringFlag{Name: "touches", Usage: "a person touches this `METAL`, and the earth or other metal: chassis, \"chassis and Tuner\""},
		},
		Action: netlist,
	}
}

func netlist(c *cli.Context) error {
	if c.Args().Len() != 1 {
		return usage{"netlist needs one sheet", "firstvolt netlist SHEET --fault NAME"}
	}
	path := c.Args().First()
	s, words, err := wordsOf(c, path)
	if err != nil {
		return err
	}
	layer, fault, touches, err := words.One(typed(c))
	if err != nil {
		return noAnswer(path, err)
	}
	m, err := layer.Mains(fault, touches)
	if err != nil {
		return noAnswer(path, err)
	}
	deck, err := m.Deck("mains circuit of " + path)
	if err != nil {
		return noAnswer(path, err)
	}
	_, err = io.WriteString(c.App.Writer, report.Deck(deck, report.WordsOf(s)))
	return err
}

// typed are the options that name a case.
func typed(c *cli.Context) asked.Typed {
	text := func(option string) *string {
		v := c.String(option)
		if !c.IsSet(option) || v == "" && option != "fault" && option != "latent" {
			return nil
		}
		return &v
	}
	t := asked.Typed{Fault: text("fault"), Latent: text("latent"), Part: text("part"), Switches: text("switches"), Orientation: text("orientation"), Touches: text("touches")}
	if c.IsSet("limiter") {
		in := c.Bool("limiter")
		t.Limiter = &in
	}
	return t
}

// wordsOf reads one sheet with wiring, makes its bench and lists the names of
// its cases; what is wrong with the sheet goes to standard error.
func wordsOf(c *cli.Context, path string) (*judging.Sheet, *asked.Words, error) {
	s := judging.Read(path)
	io.WriteString(c.App.ErrWriter, problemLines(s))
	switch {
	case len(s.Faults) > 0:
		return nil, nil, status(exitFault)
	case s.Bench == nil:
		return nil, nil, status(exitUsage)
	case !s.Read.HasWiring():
		return nil, nil, unwired(path)
	}
	words, err := asked.Of(s)
	if err != nil {
		return nil, nil, noAnswer(path, err)
	}
	return s, words, nil
}

// unwired is the end of a command that needs the wiring.
func unwired(path string) error {
	return usage{report.Clean(path) + ": the sheet has no wiring, so that there is no circuit to solve", "write down every wire under wiring"}
}

// noAnswer is the end of a command that found nothing by the names it was
// given, or could not compute what it was asked.
func noAnswer(path string, err error) error {
	var none *asked.Error
	if errors.As(err, &none) {
		return usage{report.Clean(path) + ": " + none.Wrong, none.Hint}
	}
	var many *mains.TooMany
	if errors.As(err, &many) {
		return usage{report.Clean(path) + ": " + many.Error(), many.Narrow()}
	}
	return usage{report.Clean(path) + ": this circuit cannot be solved: " + report.Clean(err.Error()), "look at the parts and values that it names"}
}
