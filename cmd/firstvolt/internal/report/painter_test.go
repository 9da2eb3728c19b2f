package report

import (
	"bytes"
	"os"
	"regexp"
	"testing"
)

func TestPainterDecidesForItsStream(t *testing.T) {
	pipe, w, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	defer pipe.Close()
	defer w.Close()
	for _, c := range []struct {
		when  string
		plain bool
	}{{"always", false}, {"never", true}, {"auto", true}} {
		if got := NewPainter(w, c.when).Strong("HOLD"); (got == "HOLD") != c.plain {
			t.Errorf("%s to a pipe: %q", c.when, got)
		}
		if got := NewPainter(&bytes.Buffer{}, c.when).Name("x"); (got == "x") != c.plain {
			t.Errorf("%s to a buffer: %q", c.when, got)
		}
	}
}

// escape is what paints and moves nothing.
var escape = regexp.MustCompile(`\x1b\[[0-9;]*m`)

func TestColourSaysNothingAlone(t *testing.T) {
	plain := All(Text{}, samples(t))
	painted := All(Text{Painter: Painter{on: true}}, samples(t))
	if bytes.Equal(plain, painted) {
		t.Fatal("nothing is painted")
	}
	if got := escape.ReplaceAll(painted, nil); !bytes.Equal(got, plain) {
		t.Errorf("without its colours the report differs:\n%s\n%s", got, plain)
	}
}
