package circuit

import (
	"errors"
	"fmt"
	"math/cmplx"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"
)

// deckVolts are the volts that the deck's node names stand for, by AC.
func deckVolts(t testing.TB, c *Circuit, prefix string, freq float64) map[string]complex128 {
	t.Helper()
	s, err := c.AC(freq, AtLow)
	if err != nil {
		t.Fatal(err)
	}
	all := map[string]complex128{}
	for i, n := range s.sys.node {
		if n >= 0 {
			all[fmt.Sprintf("v(%sn%d)", prefix, s.sys.net[i])] = s.unknown(n)
		}
	}
	return all
}

// A thousand random circuits against ngspice, an independent program: half of
// them with windings, of six decades of values as its solver subtracts, at the
// mains frequencies and above, fifty in one deck: to find a node by its name
// takes ngspice the longer the more there are.
func TestACAgainstSpice(t *testing.T) {
	const decks, each, allowed = 20, 50, 1e-6
	r := rand.New(rand.NewPCG(15, 16))
	for number := range decks {
		freq := []float64{50, 60, 400, 10e3}[number%4]
		w := deckWriter{}
		w.line("* random circuits")
		var asked []string
		want := map[string]complex128{}
		most := map[string]float64{}
		for i := range each {
			m := mixture{low: -1, high: 5, freq: freq, reactive: true, windings: i % 2 * 3}
			var c *Circuit
			for { // until it does not resonate
				c = New(acNetwork(r, 2+r.IntN(9), m))
				if _, err := c.AC(freq, AtLow); err == nil {
					break
				} else if !errors.Is(err, ErrSingular) {
					t.Fatal(err)
				}
			}
			prefix := fmt.Sprintf("c%d", i)
			nodes, err := c.deck(&w, prefix, freq, AtLow)
			if err != nil {
				t.Fatal(err)
			}
			asked = append(asked, nodes...)
			for name, v := range deckVolts(t, c, prefix, freq) {
				want[name] = v
				most[prefix] = max(most[prefix], cmplx.Abs(v))
			}
		}
		w.run(freq, asked)
		got := simulated(t, w.text.String())
		if len(want) < 5*each || len(got) != len(want) {
			t.Fatalf("%g Hz: %d answers, ngspice %d", freq, len(want), len(got))
		}
		for name, v := range want {
			x, known := got[name]
			prefix, _, _ := strings.Cut(strings.TrimPrefix(name, "v("), "n")
			// A voltage next to zero beside the others is a difference of them.
			if !known || !(cmplx.Abs(x-v) <= allowed*cmplx.Abs(v)+1e-10*most[prefix]) {
				t.Errorf("%g Hz, %s: %v, ngspice %v (%t), largest %g", freq, name, v, x, known, most[prefix])
			}
		}
	}
}

// The deck as it is written for a person is run unchanged.
func TestDeck(t *testing.T) {
	list := append(house(), joint("link", "chassis", "bracket"),
		Element{Name: "odd\n.control\nshell false", A: "hot", B: "terminal\nquit", R: Exactly(1), Conducts: Conducting})
	c := New(list, "lonely")
	deck, err := c.Deck("a set\nquit", 60, AtLow)
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range strings.Split(deck, "\n") {
		if strings.HasPrefix(line, "shell") || strings.HasPrefix(line, "quit") && line != "quit" {
			t.Errorf("a name became the line %q", line)
		}
	}
	if strings.Count(deck, ".control") != 2 || !strings.Contains(deck, "* odd .control shell false\n") ||
		!strings.Contains(deck, ": bracket, chassis\n") || !strings.Contains(deck, "\n.ac lin 1 60 60\n") {
		t.Errorf("deck:\n%s", deck)
	}
	got := simulated(t, deck)
	want := deckVolts(t, c, "", 60)
	if len(got) != len(want) || len(want) < 6 {
		t.Fatalf("%d answers, ngspice %d:\n%s", len(want), len(got), deck)
	}
	for name, v := range want {
		if x := got[name]; !(cmplx.Abs(x-v) <= 1e-9*cmplx.Abs(v)) {
			t.Errorf("%s: %v, ngspice %v", name, v, x)
		}
	}

	for says, refused := range map[string]func() (string, error){
		"no alternating current": func() (string, error) { return c.Deck("", 0, AtLow) },
		"two elements": func() (string, error) {
			return New([]Element{ohm("R", "a", "b", 1), ohm("R", "a", "b", 1)}).Deck("", 50, AtLow)
		},
		"volts are not known": func() (string, error) {
			return New([]Element{winding("P", "T", "a", "b", 0, 1, 1)}).Deck("", 50, AtLow)
		},
	} {
		if text, err := refused(); text != "" || err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%q, %v; want an error with %q", text, err, says)
		}
	}
}

// The current through a resistance is what the program says, and is asked of
// nothing else.
func TestDeckCurrent(t *testing.T) {
	list := append(house(), ohm("hand", "hot", "chassis", 900), ohm("idle", "chassis", "chassis", 5))
	c := New(list)
	deck, err := c.Deck("a hand", 60, AtLow, "hand", "idle")
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(deck, "echo A through idle\necho 0\n") {
		t.Error(deck)
	}
	for _, name := range []string{"service", "primary", "filter", "nobody"} {
		if _, err := c.Deck("a hand", 60, AtLow, name); err == nil {
			t.Errorf("the current of %s was asked", name)
		}
	}
	s, err := c.AC(60, AtLow)
	if err != nil {
		t.Fatal(err)
	}
	amps, err := s.Current("hand")
	if err != nil || cmplx.Abs(amps) == 0 {
		t.Fatal(amps, err)
	}
	_, after, ok := strings.Cut(printed(t, deck), "A through hand\n")
	_, value, _ := strings.Cut(after, ") = ")
	value, _, _ = strings.Cut(value, "\n")
	got, err := strconv.ParseFloat(strings.TrimSpace(value), 64)
	if !ok || err != nil || !near(got, cmplx.Abs(amps), 1e-6) {
		t.Errorf("ngspice printed %q, want %g A", after, cmplx.Abs(amps))
	}
}
