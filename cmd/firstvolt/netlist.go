package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/urfave/cli/v2"

	"firstvolt/checks/faults"
	"firstvolt/checks/strict"
	"firstvolt/cmd/firstvolt/internal/judging"
	"firstvolt/cmd/firstvolt/internal/report"
)

func netlistCommand() *cli.Command {
	return &cli.Command{
		Name: "netlist", ArgsUsage: "SHEET", Usage: "the mains circuit as a deck for ngspice, to check a number",
		Description: "The circuit from service to set as the program solves it, at the end of every value that endangers a person most. Without flags: sound, the first orientation, switched on, no series lamp, nobody touching. The flags take what firstvolt faults says of a case, so that every number of it can be checked. ngspice -b runs the deck unchanged and prints the volts of every net.\n\nExit status: 0 written; 3 unreadable, not to be computed, or wrong use; 70 a fault of this program.",
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "fault", Usage: "put the fault `NAME` in, as firstvolt faults --all names it"},
			&cli.StringFlag{Name: "latent", Usage: "and this one `NAME`, that nobody noticed before"},
			&cli.StringFlag{Name: "orientation", Usage: "which `WAY` round: as wired or exchanged"},
			&cli.StringFlag{Name: "switches", Usage: "`POSITION` of switches and selectors, as firstvolt faults says it"},
			&cli.BoolFlag{Name: "limiter", Usage: "the series lamps are in"},
			&cli.StringFlag{Name: "touches", Usage: "a person touches this `METAL`, and the earth or other metal: chassis, \"chassis to Tuner\""},
		},
		Action: netlist,
	}
}

func netlist(c *cli.Context) error {
	if c.Args().Len() != 1 {
		return usage{"netlist needs one sheet", "firstvolt netlist SHEET --fault NAME"}
	}
	path := c.Args().First()
	s, err := benchOf(c, path)
	if err != nil {
		return err
	}
	b := s.Bench
	which := faults.Which{
		Latent: c.String("latent"), Orientation: c.String("orientation"), Switches: c.String("switches"),
		Limiter: c.Bool("limiter"), Touches: c.String("touches"),
	}
	names, err := faults.FaultNames(b, which)
	if err != nil {
		return noAnswer(path, err)
	}
	if c.IsSet("fault") {
		if which.Fault, err = faultNamed(c.String("fault"), names); err != nil {
			return err
		}
	}
	m, err := faults.MainsOf(b, which)
	if err != nil {
		return noAnswer(path, err)
	}
	deck, err := m.Deck("mains circuit of " + path)
	if err != nil {
		return noAnswer(path, err)
	}
	_, err = io.WriteString(c.App.Writer, deck)
	return err
}

// faultNamed finds a fault by its name, however its dashes, spaces and capitals
// are typed.
func faultNamed(typed string, names []string) (string, error) {
	plain := strings.NewReplacer(" ", "", "–", "", "-", "", "—", "")
	fold := func(s string) string { return strings.ToLower(plain.Replace(s)) }
	for _, n := range names {
		if n == typed {
			return n, nil
		}
	}
	var like []string
	for _, n := range names {
		if fold(n) == fold(typed) {
			like = append(like, n)
		}
	}
	if len(like) == 1 {
		return like[0], nil
	}
	return "", usage{fmt.Sprintf("there is no fault %q", typed), strict.Suggest(typed, names, "firstvolt faults SHEET --all lists them")}
}

// benchOf reads one sheet with wiring and makes its bench; what is wrong with
// the sheet goes to standard error.
func benchOf(c *cli.Context, path string) (*judging.Sheet, error) {
	s := judging.Read(path)
	io.WriteString(c.App.ErrWriter, problemLines(s))
	switch {
	case len(s.Faults) > 0:
		return nil, status(exitFault)
	case s.Bench == nil:
		return nil, status(exitUsage)
	case !s.Read.HasWiring():
		return nil, unwired(path)
	}
	return s, nil
}

// unwired is the end of a command that needs the wiring.
func unwired(path string) error {
	return usage{report.Clean(path) + ": the sheet has no wiring, so that there is no circuit to solve", "write down every wire under wiring"}
}

// noAnswer is the end of a command that could not compute what it was asked.
func noAnswer(path string, err error) error {
	return usage{report.Clean(path) + ": this circuit cannot be solved: " + report.Clean(err.Error()), "look at the parts and values that it names"}
}
