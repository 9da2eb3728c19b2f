package main

import (
	"bytes"
	"embed"
	"fmt"
	"strings"

	"github.com/urfave/cli/v2"

	"firstvolt/cmd/firstvolt/internal/judging"
	"firstvolt/cmd/firstvolt/internal/report"
	"firstvolt/rules"
)

//go:embed demo/*.yaml
var demoSheets embed.FS

func demoCommand() *cli.Command {
	return &cli.Command{
		Name: "demo", Usage: "the whole job on an invented set: a faulty rewire, then put right",
		Description: "Judges two sheets that the program carries, as check would, and says what to learn from them. Ends with 0 only if the first is held and the second cleared.",
		Flags:       []cli.Flag{colorFlag()},
		Action:      demo,
	}
}

func demo(c *cli.Context) error {
	color, err := oneOf(c, "color", "auto", "always", "never")
	if err != nil {
		return err
	}
	if c.Args().Present() {
		return usage{"demo takes no arguments", "to judge a sheet of yours: firstvolt check " + c.Args().First()}
	}
	book, err := loadBook(c)
	if err != nil {
		return err
	}
	p := report.NewPainter(c.App.Writer, color)
	var out bytes.Buffer
	out.WriteString(report.Wrap("A table set came back from a rewire. Its sheet says what is wired to what, what the meters read and what was looked at. The set is invented; the judging is the same as for yours.", "", "") + "\n")
	out.WriteString(p.Strong("THE ORDER IT OUGHT TO HAVE, AND WHY") + "\n")
	for i, l := range order {
		out.WriteString(report.Wrap(l, fmt.Sprintf("  %d. ", i+1), "     "))
	}
	var both []*judging.Sheet
	for _, one := range []struct {
		file, title string
		part        bool // the cautions come once, with the set that gets its voltage
	}{
		{"merrowdale-as-found.yaml", "THE REWIRE AS IT WAS FOUND", true},
		{"merrowdale-put-right.yaml", "THE SAME SET, PUT RIGHT", false},
	} {
		data, err := demoSheets.ReadFile("demo/" + one.file)
		if err != nil {
			return err
		}
		s := judging.Bytes(book, one.file, data, "")
		both = append(both, s)
		c.App.ErrWriter.Write([]byte(problemLines(s)))
		text := report.Text{Painter: p, Part: one.part}.Sheet(s)
		fmt.Fprintf(&out, "\n%s\n\n%s%s\n%s", p.Strong(one.title), inLine(s), section(string(data), "wiring"), text)
	}
	out.WriteString("\n" + p.Strong("WHAT THIS SHOWS") + "\n")
	for _, l := range lessons(both[0], both[1]) {
		out.WriteString(report.Wrap(l, "  – ", "    "))
	}
	if _, err := c.App.Writer.Write(out.Bytes()); err != nil {
		return fmt.Errorf("the demonstration could not be written: %w", err)
	}
	if !asItShould(both[0], rules.Hold) || !asItShould(both[1], rules.Cleared) {
		return fmt.Errorf("internal fault: the demonstration did not end in hold and then cleared; trust no verdict of this program")
	}
	return nil
}

func asItShould(s *judging.Sheet, want rules.Verdict) bool {
	return s.Judged() && len(s.Faults) == 0 && s.Judgement.Verdict == want
}

// order is what the demonstration teaches first.
var order = []string{
	"Live meets the fuse first, with nothing before it. A short to the earthed chassis anywhere behind the fuse then blows it, and all behind it is dead. A fuse in the neutral never sees such a short; and when something else blows it, the whole set stays live, and silent.",
	"Then the switch, in live as well. Off then means off, and a short in the switch or its leads has the fuse before it.",
	"Then the primary, and from there neutral runs straight back. Nothing opens neutral alone.",
	"Earth goes to the chassis by itself, and nothing ever opens it.",
}

// inLine draws what the mains current meets, in one line.
func inLine(s *judging.Sheet) string {
	if !s.Judged() {
		return ""
	}
	names := map[string]string{"fuse": "fuse", "switch": "switch", "transformer": "primary of"}
	out := "live"
	for _, name := range way(s.Read) {
		out += " ── " + strings.TrimSpace(names[s.Read.Part(name).Kind.Name]+" "+name)
	}
	return out + " ── neutral\n\n"
}

// section is the lines of a top-level key of a sheet.
func section(text, key string) string {
	_, rest, _ := strings.Cut(text, "\n"+key+":\n")
	body, _, _ := strings.Cut(rest, "\n\n")
	return key + ":\n" + strings.TrimRight(body, "\n") + "\n"
}

// lessons says what became of each thing that stood in the way, and what no
// sheet can say.
func lessons(found, right *judging.Sheet) []string {
	var out []string
	for _, f := range found.Judgement.Findings {
		if f.Outcome != rules.Fail {
			continue
		}
		became := "is not asked"
		for _, g := range right.Judgement.Findings {
			if g.Rule == f.Rule && g.Subject.Name == f.Subject.Name {
				became = "then: " + string(g.Outcome)
			}
		}
		out = append(out, fmt.Sprintf("%s guards %s. As found: fail; %s.", f.Rule, guards[f.Risk], became))
	}
	return append(out,
		"Both sheets carry the same readings. At the pins of the plug an ohmmeter cannot tell a fuse in the neutral from one in the live conductor: only tracing the wires can, and the rules on the wiring are there for that.",
		"Cleared means one first power-up behind a limiter at that stage. What is still owed, and what the law asks, stands under every verdict.",
		"firstvolt why RULE explains any rule named here, with its source.")
}
