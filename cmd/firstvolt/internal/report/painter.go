package report

import (
	"io"
	"os"

	"github.com/fatih/color"
	"github.com/mattn/go-isatty"
)

// Painter colours text for one stream. Colour repeats what a word says and
// never says anything alone, so a report without it has lost nothing. There is
// no red, amber or green: those would say more than a verdict can hold.
type Painter struct{ on bool }

// NewPainter decides for the stream w: always, never, or auto, which is a
// terminal and neither NO_COLOR nor a dumb terminal in the environment.
func NewPainter(w io.Writer, when string) Painter {
	switch when {
	case "always":
		return Painter{true}
	case "never":
		return Painter{}
	}
	f, ok := w.(*os.File)
	terminal := ok && (isatty.IsTerminal(f.Fd()) || isatty.IsCygwinTerminal(f.Fd()))
	return Painter{terminal && os.Getenv("NO_COLOR") == "" && os.Getenv("TERM") != "dumb"}
}

func (p Painter) paint(text string, how ...color.Attribute) string {
	if !p.on || text == "" {
		return text
	}
	c := color.New(how...)
	c.EnableColor() // this painter alone decides, not the library's global switch
	return c.Sprint(text)
}

// Strong is for verdicts and outcomes.
func (p Painter) Strong(text string) string { return p.paint(text, color.Bold) }

// Name is for the names of rules.
func (p Painter) Name(text string) string { return p.paint(text, color.FgCyan) }

// Quiet is for what is read last: sources and places.
func (p Painter) Quiet(text string) string { return p.paint(text, color.Faint) }
