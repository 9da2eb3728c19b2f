package faults_test

import (
	"math"
	"math/cmplx"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"firstvolt/checks/bench"
	"firstvolt/checks/faults"
	"firstvolt/checks/trial"
)

// The decks of testdata/decks are written by hand from the text of a sheet, as
// a person at a desk would, and never by the program. Each says in comments
// what comes out of it, and which question to the program that answers:
//
//   - expect NAME NUMBER : FAULT : QUESTION
//
// FAULT is sound or as Fault.String has it. QUESTION is one of
//
//	person METAL         A through the unweighted network from metal to earth
//	person METAL OHMS    likewise, and through so much where the network does not stand for a person
//	volts A B            V between two terminals, or between A and earth
//	amps ELEMENT         A through an element of the circuit
//
// and may end in "within SHARE" where the deck says in what it is finer. Where
// the deck disagrees with the program, its comment says why, and before the
// question stands whether the program says "less" or "more": once it is mended
// the test asks for the word to be taken out.
type expected struct {
	name, fault string
	side        string // less or more, or empty where they agree
	question    []string
	number      float64
	within      float64
}

// asOne is how near two solutions of one circuit come: 1 part in 10⁶. A deck
// that says it is coarser is still run to within a tenth of a thousandth.
const asOne, runs = 1e-6, 1e-4

func expectations(t *testing.T, deck string) []expected {
	t.Helper()
	var out []expected
	for _, line := range strings.Split(deck, "\n") {
		rest, ok := strings.CutPrefix(line, "* expect ")
		if !ok {
			continue
		}
		fields := strings.SplitN(rest, " : ", 3)
		if len(fields) != 3 {
			t.Fatalf("%q: three fields between colons", line)
		}
		name, number, _ := strings.Cut(strings.TrimSpace(fields[0]), " ")
		e := expected{name: name, fault: strings.TrimSpace(fields[1]), within: asOne}
		if e.fault == "sound" {
			e.fault = ""
		}
		var err error
		if e.number, err = strconv.ParseFloat(number, 64); err != nil || !(e.number > 0) {
			t.Fatalf("%q: %q is no number above nothing", line, number)
		}
		question, share, wide := strings.Cut(fields[2], " within ")
		if wide {
			if e.within, err = strconv.ParseFloat(share, 64); err != nil || !(e.within > asOne && e.within < 0.02) {
				t.Fatalf("%q: within %q", line, share)
			}
		}
		e.question = strings.Fields(question)
		if len(e.question) > 1 && (e.question[0] == "less" || e.question[0] == "more") {
			e.side, e.question = e.question[0], e.question[1:]
		}
		out = append(out, e)
	}
	return out
}

// decks lists the decks by the names of their sheets.
func decks(t *testing.T) map[string]string {
	t.Helper()
	files, err := filepath.Glob("../../testdata/decks/*.cir")
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]string{}
	for _, f := range files {
		text, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		out[strings.TrimSuffix(filepath.Base(f), ".cir")] = string(text)
	}
	if len(out) < 12 {
		t.Fatalf("only %d decks", len(out))
	}
	return out
}

// answer is what the program says to the question.
func (e expected) answer(t *testing.T, b *bench.Bench) float64 {
	t.Helper()
	q := e.question
	w := faults.Which{Fault: faultOf(t, b, e.fault)}
	if q[0] == "person" {
		w.Touch.Held = q[1]
	}
	m, err := faults.MainsOf(b, w)
	if err != nil {
		t.Fatal(err)
	}
	var x complex128
	switch {
	case q[0] == "volts" && len(q) == 3:
		x, err = m.Solved.Voltage(q[1], strings.Replace(q[2], "earth", "the earth", 1))
	case q[0] == "amps" && len(q) > 1:
		x, err = m.Solved.Current(strings.Join(q[1:], " "))
	case q[0] == "person" && len(q) >= 2:
		return m.Person
	default:
		t.Fatalf("no question: %q", q)
	}
	if err != nil {
		t.Fatal(err)
	}
	return cmplx.Abs(x)
}

func agrees(got, want, within float64) bool { return math.Abs(got-want) <= within*math.Abs(want) }

// What the decks say they give is what the program gives.
func TestDecksByHand(t *testing.T) {
	sheets := sheetsOf(t)
	for name, deck := range decks(t) {
		t.Run(name, func(t *testing.T) {
			b := read(t, sheets[name+".yaml"])
			asked := 0
			seen := map[string]bool{}
			for _, e := range expectations(t, deck) {
				got := e.answer(t, b)
				if e.side != "" {
					if !(got < e.number*(1-asOne)) && e.side == "less" || !(got > e.number*(1+asOne)) && e.side == "more" {
						t.Errorf("%s (%q, %q): %.9g, by hand %.9g: no longer %s, so ask for it outright", e.name, e.fault, e.question, got, e.number, e.side)
					}
					continue
				}
				asked++
				seen[e.fault] = true
				if !agrees(got, e.number, e.within) {
					t.Errorf("%s (%q, %q): %.9g, by hand %.9g", e.name, e.fault, e.question, got, e.number)
				}
			}
			if !seen[""] || len(seen) < 3 || asked < 4 {
				t.Errorf("asked only %d questions of %d states", asked, len(seen))
			}
		})
	}
}

// The fault table's current before anything opens is the decks' where both
// have the same person in the same state.
func TestDecksAgainstTable(t *testing.T) {
	found := 0
	for name, deck := range decks(t) {
		cases := soundTable(t, name+".yaml")
		for _, e := range expectations(t, deck) {
			if e.question[0] != "person" || e.side != "" {
				continue
			}
			fault := e.fault
			if fault == "" {
				fault = "nothing at fault"
			}
			i := slices.IndexFunc(cases, func(c faults.Case) bool {
				return c.Fault.String() == fault && c.Latent.None() && !c.Limiter && !strings.Contains(c.Switches(), "open") && c.Orientation() == "as wired" && c.Touch.String() == e.question[1]
			})
			if i < 0 {
				continue
			}
			found++
			if got := cases[i].Before.High; !agrees(got, e.number, e.within) {
				t.Errorf("%s, %s of %s: %.9g A, by hand %.9g A", name, e.name, e.question[1], got, e.number)
			}
		}
	}
	if found < 30 {
		t.Errorf("only %d of the decks' currents stand in a table", found)
	}
}

// What the decks say they give is what ngspice, an independent program, makes
// of them.
func TestDecksRun(t *testing.T) {
	spice := trial.Spice(t)
	for name, deck := range decks(t) {
		out, err := exec.Command(spice, "-b", "../../testdata/decks/"+name+".cir").CombinedOutput()
		if err != nil {
			t.Fatalf("%s: %v\n%s", name, err, out)
		}
		printed := map[string]float64{}
		for _, line := range strings.Split(string(out), "\n") {
			if word, value, ok := strings.Cut(line, " = "); ok && !strings.Contains(word, " ") {
				if x, err := strconv.ParseFloat(strings.TrimSpace(value), 64); err == nil {
					printed[word] = x
				}
			}
		}
		list := expectations(t, deck)
		for _, e := range list {
			got, ok := printed[e.name]
			if !ok || !agrees(got, e.number, math.Min(e.within, runs)) {
				t.Errorf("%s: %s is %.9g, expected %.9g", name, e.name, got, e.number)
			}
		}
		if len(printed) != len(list) {
			t.Errorf("%s prints %d numbers and expects %d", name, len(printed), len(list))
		}
	}
}
