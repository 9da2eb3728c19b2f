package main

import (
	"bufio"
	"bytes"
	"flag"
	"fmt"
	"hash/fnv"
	"math"
	"math/cmplx"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync/atomic"
	"testing"

	"firstvolt/checks/faults"
	"firstvolt/checks/trial"
	"firstvolt/cmd/firstvolt/internal/judging"
)

var exhaustive = flag.Bool("exhaustive", false, "every case of every sound sheet against ngspice")

// nextDeck is printed between the answers to two decks.
const nextDeck = "next deck"

// simulated has one ngspice run decks after each other and gives the volts that
// it prints of each, by the node's name.
func simulated(t testing.TB, decks []string) []map[string]complex128 {
	t.Helper()
	volts := []map[string]complex128{{}}
	for lines := bufio.NewScanner(bytes.NewReader(inOneProcess(t, decks))); lines.Scan(); {
		if strings.TrimSpace(lines.Text()) == nextDeck {
			volts = append(volts, map[string]complex128{})
			continue
		}
		if node, v, ok := trial.Volts(t, lines.Text()); ok {
			volts[len(volts)-1][node] = v
		}
	}
	if len(volts) != len(decks)+1 {
		t.Fatalf("%d decks, %d answers", len(decks), len(volts)-1)
	}
	return volts[:len(decks)]
}

// inOneProcess has one ngspice run decks after each other and gives what it prints.
func inOneProcess(t testing.TB, decks []string) []byte {
	t.Helper()
	spice := trial.Spice(t)
	dir := t.TempDir()
	var all strings.Builder
	all.WriteString("* every deck\n.control\n")
	for i, deck := range decks {
		name := fmt.Sprintf("deck%d.cir", i)
		// A deck ends ngspice; here the next one follows.
		if err := os.WriteFile(filepath.Join(dir, name), []byte(strings.Replace(deck, "\nquit\n", "\necho "+nextDeck+"\n", 1)), 0o600); err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(&all, "source %s\nremcirc\ndestroy all\n", name)
	}
	all.WriteString("quit\n.endc\n.end\n")
	if err := os.WriteFile(filepath.Join(dir, "all.cir"), []byte(all.String()), 0o600); err != nil {
		t.Fatal(err)
	}
	run := exec.Command(spice, "-b", "all.cir")
	run.Dir = dir
	out, err := run.Output()
	if err != nil {
		t.Fatalf("ngspice: %v\n%s", err, out)
	}
	return out
}

// nodesOf reads from the deck's comments which terminals each node has: one
// group for each node, of node 0 one for each part that floats.
func nodesOf(deck string) (nodes []string, terminals [][]string) {
	for _, l := range strings.Split(deck, "\n") {
		node, list, ok := strings.Cut(strings.TrimPrefix(l, "* "), ": ")
		number := strings.TrimPrefix(node, "n")
		if _, err := strconv.Atoi(number); strings.HasPrefix(l, "* ") && ok && err == nil {
			nodes, terminals = append(nodes, node), append(terminals, strings.Split(list, ", "))
		}
	}
	return nodes, terminals
}

// TestEveryCaseAgainstSpice: every case of every sound sheet (without
// -exhaustive some of every fifth), its volts from net to net and the current through
// its person, against ngspice on the deck that netlist prints. The program
// works a fault out as a change to the sound circuit, the deck has it built in.
// A pulled plug is direct current and no deck.
func TestEveryCaseAgainstSpice(t *testing.T) {
	sheets, err := filepath.Glob("../../testdata/sheets/*.yaml")
	if err != nil || len(sheets) < 16 {
		t.Fatal(sheets, err)
	}
	var compared, inAll atomic.Int64
	t.Run("of", func(t *testing.T) {
		for i, path := range sheets {
			if !*exhaustive && i%5 != 0 {
				continue
			}
			t.Run(filepath.Base(path), func(t *testing.T) {
				t.Parallel()
				s := judging.Read(path)
				if s.Bench == nil {
					t.Fatal(s.Problems)
				}
				cases, err := faults.Table(s.Bench)
				if err != nil {
					t.Fatal(err)
				}
				inAll.Add(int64(len(cases)))
				for chosen := range slices.Chunk(some(cases, 100), 400) {
					compared.Add(int64(len(chosen)))
					againstSpice(t, s, chosen)
				}
			})
		}
	})
	t.Logf("%d of %d cases compared", compared.Load(), inAll.Load())
	if compared.Load() < inAll.Load()/200 {
		t.Errorf("only %d of %d cases", compared.Load(), inAll.Load())
	}
}

// some are all cases with a circuit, or without -exhaustive one in so many.
func some(cases []faults.Case, of uint32) []faults.Case {
	var out []faults.Case
	for _, c := range cases {
		h := fnv.New32a()
		fmt.Fprint(h, c.Which)
		if c.Fault.Kind != faults.Unplugged && (*exhaustive || h.Sum32()%of == 0) {
			out = append(out, c)
		}
	}
	return out
}

func againstSpice(t *testing.T, s *judging.Sheet, cases []faults.Case) {
	t.Helper()
	decks := make([]string, len(cases))
	mains := make([]*faults.Mains, len(cases))
	for i, c := range cases {
		var err error
		if mains[i], err = faults.MainsOf(s.Bench, c.Which); err != nil {
			t.Fatalf("%+v: %v", c, err)
		}
		if decks[i], err = mains[i].Deck("a set"); err != nil {
			t.Fatalf("%+v: %v", c, err)
		}
	}
	for i, volts := range simulated(t, decks) {
		what := fmt.Sprintf("%+v", cases[i].Which)
		if off := compare(t, what, mains[i], decks[i], volts, 1e-8); len(off) > 0 {
			// Where a milliohm stands beside a megohm ngspice's digits do not
			// reach: it must still be near, and more digits decide.
			for _, v := range append(compare(t, what, mains[i], decks[i], volts, 1e-5), compare(t, what, mains[i], decks[i], exact(t, decks[i]), 1e-10)...) {
				t.Error(v)
			}
		}
		// The table says how much the person of the deck gets.
		if want := cases[i].Before.High; !(math.Abs(mains[i].Person-want) <= 1e-9*want) {
			t.Errorf("%s: %g A, in the table %g A", what, mains[i].Person, want)
		}
		person(t, what, decks[i], volts, cases[i].Before.High)
	}
}

// compare lists the volts of a deck that are not the program's, to a millionth
// of themselves and floor of the largest: what is next to nothing beside the
// others is a difference of them and has fewer digits.
func compare(t *testing.T, what string, m *faults.Mains, deck string, volts map[string]complex128, floor float64) (off []string) {
	t.Helper()
	const allowed = 1e-6
	nodes, terminals := nodesOf(deck)
	most, n := most(volts), 0
	at := func(volts map[string]complex128, node string) complex128 {
		v, ok := volts[node]
		if !ok && node != "0" {
			t.Fatalf("%s: ngspice says nothing of node %s", what, node)
		}
		return v
	}
	var first []int // of each part that hangs together
	for i := range nodes {
		k := slices.IndexFunc(first, func(k int) bool { return m.Solved.Joined(terminals[i][0], terminals[k][0]) })
		if k < 0 {
			first = append(first, i)
			continue
		}
		k = first[k]
		want, err := m.Solved.Voltage(terminals[i][0], terminals[k][0])
		if err != nil {
			t.Fatal(what, err)
		}
		n++
		if got := at(volts, nodes[i]) - at(volts, nodes[k]); !(cmplx.Abs(got-want) <= allowed*cmplx.Abs(want)+floor*most) {
			off = append(off, fmt.Sprintf("%s: %s – %s: %v, by the deck %v", what, terminals[i][0], terminals[k][0], want, got))
		}
	}
	if !(most > 50) || n < 8 {
		t.Errorf("%s: only %d voltages, the largest %g V", what, n, most)
	}
	return off
}

// person holds the current through the person of a deck, from the volts across
// the body, to what the table says.
func person(t *testing.T, what, deck string, volts map[string]complex128, want float64) {
	t.Helper()
	_, lines, ok := strings.Cut(deck, "* the body of a person\n")
	if !ok {
		_, lines, ok = strings.Cut(deck, "* a person\n")
	}
	if !ok && want == 0 {
		return // dead metal
	}
	line, _, _ := strings.Cut(lines, "\n")
	f := strings.Fields(line) // rN a b ohms
	if !ok || len(f) != 4 {
		t.Fatalf("%s: no person in the deck", what)
	}
	ohms, err := strconv.ParseFloat(f[3], 64)
	if err != nil || !(ohms > 0) {
		t.Fatal(what, line, err)
	}
	if f[1] != f[2] && !strings.Contains(deck, "\nprint mag((") {
		t.Errorf("%s: the deck does not ask for the current", what)
	}
	if got := cmplx.Abs(volts[f[1]]-volts[f[2]]) / ohms; !(math.Abs(got-want) <= 1e-6*want+1e-8*most(volts)/ohms) {
		t.Errorf("%s: %g A, ngspice %g A", what, want, got)
	}
}

func most(volts map[string]complex128) float64 {
	m := 0.0
	for _, v := range volts {
		m = math.Max(m, cmplx.Abs(v))
	}
	return m
}

// obeyed is what a simulator obeys of a deck: all but the comments, which are
// set for a person. Its first line is its title, whatever it says.
func obeyed(deck string) string {
	var out []string
	for i, l := range strings.Split(deck, "\n") {
		if i > 0 && !strings.HasPrefix(l, "*") {
			out = append(out, l)
		}
	}
	return strings.Join(out, "\n")
}

// TestNetlistPrintsTheDeck: the command prints what was compared, whatever of a
// case its flags name.
func TestNetlistPrintsTheDeck(t *testing.T) {
	const path = "../../testdata/sheets/veldhoven-grand.yaml"
	s := judging.Read(path)
	if s.Bench == nil {
		t.Fatal(s.Problems)
	}
	cases, err := faults.Table(s.Bench)
	if err != nil {
		t.Fatal(err)
	}
	for i := 0; i < len(cases); i += 97 {
		w := cases[i].Which
		args := []string{"netlist", path, "--latent", latentName(w), "--orientation", w.Orientation(), "--switches", w.Switches(), "--touches", w.Touch.String()}
		if !w.Fault.None() {
			args = append(args, "--fault", w.Fault.String())
		}
		if w.Limiter {
			args = append(args, "--limiter")
		}
		if cases[i].Fault.Kind == faults.Unplugged {
			continue
		}
		var out, errs bytes.Buffer
		if code := run(args, &out, &errs); code != 0 {
			t.Fatal(args, code, errs.String())
		}
		m, err := faults.MainsOf(s.Bench, w)
		if err != nil {
			t.Fatal(err)
		}
		want, err := m.Deck("mains circuit of " + path)
		if err != nil || obeyed(out.String()) != obeyed(want) || !strings.HasSuffix(out.String(), "\nquit\n.endc\n.end\n") {
			t.Errorf("%v: another deck, %v", args, err)
		}
	}
}

// latentName is what --latent takes for the case.
func latentName(w faults.Which) string {
	if w.Latent.None() {
		return ""
	}
	return w.Latent.String()
}
