package main

import (
	"math"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"firstvolt/checks/bench"
	"firstvolt/checks/faults"
	"firstvolt/checks/handbook"
	"firstvolt/checks/mains"
	"firstvolt/cmd/firstvolt/internal/asked"
	"firstvolt/cmd/firstvolt/internal/judging"
	"firstvolt/cmd/firstvolt/internal/report"
)

// printed is a case as the table says it.
type printed struct{ fault, latent, touches, switches, orientation, limiter string }

var (
	heading = regexp.MustCompile(`^(?:CAN KILL|CANNOT LET GO|CUT OFF IN TIME|FELT|NOT FELT)(?:, latent layer: (.*?), and (.*)|: (.*))$`)
	held    = regexp.MustCompile(`, a person who holds (.*?)(?: inside the cabinet)?(?: and (.*?))? gets `)
	when    = regexp.MustCompile(`^(?:(.*), )?([^,]+ (?:as wired|exchanged)(?:, turned at [^,]+)*), (with(?:out|) .*)$`)
)

// printedCases reads what faults --all prints, as a person does: whatever is
// broken over lines is put together again.
func printedCases(t *testing.T, text string) []printed {
	t.Helper()
	var out []printed
	var of printed
	for _, block := range strings.Split(text, "\n\n") {
		lines := strings.Split(block, "\n")
		n := 1
		for n < len(lines) && !strings.HasPrefix(lines[n], "    ") {
			n++ // of the heading
		}
		m := heading.FindStringSubmatch(oneLine(lines[:n]))
		if m == nil {
			continue
		}
		of = printed{latent: m[1], fault: m[2] + m[3]}
		i := slices.IndexFunc(lines, func(l string) bool { return strings.HasPrefix(l, "    Before ") })
		j := slices.IndexFunc(lines, func(l string) bool { return strings.HasPrefix(l, "    When ") })
		if i < n || j < i {
			t.Fatalf("no case: %s", block)
		}
		h := held.FindStringSubmatch(oneLine(lines[n:i]))
		w := when.FindStringSubmatch(strings.TrimPrefix(oneLine(lines[j:]), "When "))
		if h == nil || w == nil {
			t.Fatalf("no case: %s", block)
		}
		if of.touches = h[1]; h[2] != "" {
			of.touches += " and " + h[2]
		}
		of.switches, of.orientation, of.limiter = w[1], w[2], w[3]
		out = append(out, of)
	}
	return out
}

// named are cases that have every name of the set: with -exhaustive those of
// its table, else one for every name, not solved, which is printed alike.
func named(t *testing.T, b *bench.Bench) []faults.Case {
	t.Helper()
	if *exhaustive {
		cases, err := faults.Table(b)
		if err != nil {
			t.Fatal(err)
		}
		return cases
	}
	layers, err := faults.Layers(b)
	if err != nil {
		t.Fatal(err)
	}
	metals := faults.Metals(b)
	var touches []mains.Touch
	for i, m := range metals {
		if touches = append(touches, mains.Touch{Held: m}); i > 0 {
			touches = append(touches, mains.Touch{Held: metals[0], Other: m})
		}
	}
	var cases []faults.Case
	seen := map[string]bool{}
	for _, l := range layers {
		for i, f := range l.Faults {
			c := faults.Case{Which: faults.Which{Fault: f, Latent: l.Latent, Position: l.Position, Touch: touches[i%len(touches)]},
				Latest: math.Inf(1), Effect: handbook.NotFelt}
			n := len(seen)
			for _, word := range []string{"fault " + f.String(), "latent " + l.Latent.String(), c.Touch.String(), l.Switches(), l.Orientation()} {
				seen[word] = true
			}
			if len(seen) > n {
				cases = append(cases, c)
			}
		}
	}
	return cases
}

// typed are the words behind the options of netlist.
func (p printed) typed(limiter bool) asked.Typed {
	t := asked.Typed{Latent: &p.latent, Orientation: &p.orientation, Touches: &p.touches, Limiter: &limiter}
	if p.fault != "" {
		t.Fault = &p.fault
	}
	if p.switches != "" {
		t.Switches = &p.switches
	}
	return t
}

func oneLine(lines []string) string {
	return strings.Join(strings.Fields(strings.Join(lines, " ")), " ")
}

// TestEveryPrintedNameIsTaken: of every sound sheet netlist takes every word
// that faults --all prints of a case, and means that case; so it does by the
// words of the machine output.
func TestEveryPrintedNameIsTaken(t *testing.T) {
	sheets, err := filepath.Glob("../../testdata/sheets/*.yaml")
	if err != nil || len(sheets) < 16 {
		t.Fatal(sheets, err)
	}
	for _, path := range sheets {
		t.Run(filepath.Base(path), func(t *testing.T) {
			t.Parallel()
			s := judging.Read(path)
			if s.Bench == nil {
				t.Fatal(s.Problems)
			}
			cases := named(t, s.Bench)
			words, err := asked.Of(s)
			if err != nil {
				t.Fatal(err)
			}
			all := printedCases(t, string(report.Cases{All: true}.Sheet(s, cases)))
			if len(all) != len(cases) || len(all) < 10 {
				t.Fatalf("%d cases, %d printed", len(cases), len(all))
			}
			for i, c := range cases {
				w := c.Which
				if c.Fault.Kind == faults.Unplugged {
					continue
				}
				for _, p := range []printed{all[i], {w.Fault.String(), latentName(w), w.Touch.String(), w.Switches(), w.Orientation(), ""}} {
					l, fault, touches, err := words.One(p.typed(w.Limiter))
					if err != nil {
						t.Fatalf("%+v: %v", p, err)
					}
					got := l.Which
					if got.Fault, got.Touch = fault, touches; !got.Same(w) {
						t.Fatalf("%+v: %+v, want %+v", p, got, w)
					}
				}
				if in := all[i].limiter == "with the series lamp"; in != w.Limiter {
					t.Errorf("%+v: %q", w, all[i].limiter)
				}
			}
		})
	}
}

// TestDeckComments: no comment of a deck of a sound sheet is wider than a
// screen.
func TestDeckComments(t *testing.T) {
	sheets, err := filepath.Glob("../../testdata/sheets/*.yaml")
	if err != nil || len(sheets) < 16 {
		t.Fatal(sheets, err)
	}
	for _, path := range sheets {
		s := judging.Read(path)
		if s.Bench == nil {
			t.Fatal(s.Problems)
		}
		layers, err := faults.Layers(s.Bench)
		if err != nil {
			t.Fatal(err)
		}
		comments, decks := 0, 0
		for i, l := range layers {
			if !*exhaustive && i%4 > 0 {
				continue
			}
			decks++
			m, err := l.Mains(l.Faults[i%len(l.Faults)], mains.Touch{Held: "chassis"})
			if err != nil {
				t.Fatal(err)
			}
			deck, err := m.Deck("mains circuit of " + path)
			if err != nil {
				t.Fatal(err)
			}
			for _, line := range strings.Split(report.Deck(deck, report.WordsOf(s)), "\n") {
				if !strings.HasPrefix(line, "*") {
					continue
				}
				if comments++; utf8.RuneCountInString(line) > report.Width {
					t.Errorf("%s: %s", path, line)
				}
			}
		}
		if decks == 0 || comments < 20*decks {
			t.Errorf("%s: only %d comments in %d decks", path, comments, decks)
		}
	}
}
