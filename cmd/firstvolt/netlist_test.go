package main

import (
	"bufio"
	"bytes"
	"fmt"
	"math"
	"math/cmplx"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"firstvolt/checks/faults"
	"firstvolt/cmd/firstvolt/internal/judging"
)

// simulated has ngspice run a deck and gives the volts that it prints, by the
// node's name. Without ngspice the test is skipped, or fails where the
// environment says FIRSTVOLT_REFERENCES=required.
func simulated(t *testing.T, deck string) map[string]complex128 {
	t.Helper()
	spice, err := exec.LookPath("ngspice")
	if err != nil {
		if os.Getenv("FIRSTVOLT_REFERENCES") == "required" {
			t.Fatal("ngspice is required and not installed")
		}
		t.Skip("ngspice is not installed")
	}
	file := filepath.Join(t.TempDir(), "deck.cir")
	if err := os.WriteFile(file, []byte(deck), 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(spice, "-b", file).CombinedOutput()
	if err != nil {
		t.Fatalf("ngspice: %v\n%s", err, out)
	}
	volts := map[string]complex128{}
	for lines := bufio.NewScanner(bytes.NewReader(out)); lines.Scan(); {
		name, value, ok := strings.Cut(lines.Text(), ") = ")
		if !ok || !strings.HasPrefix(name, "v(") {
			continue
		}
		re, im, _ := strings.Cut(strings.TrimSpace(value), ",")
		x, err1 := strconv.ParseFloat(re, 64)
		y, err2 := strconv.ParseFloat(im, 64)
		if err1 != nil || err2 != nil {
			t.Fatalf("ngspice printed %q", lines.Text())
		}
		volts[strings.TrimPrefix(name, "v(")] = complex(x, y)
	}
	return volts
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

// The program's volts between every two nets that hang together, sound and
// with faults, against ngspice on the deck that netlist prints. The program
// works a fault out as a change to the sound circuit, the deck has it built in.
func TestNetlistAgainstSpice(t *testing.T) {
	for _, name := range []string{"larkfield-six-forty", "marlow-bay-seven", "tannerfold-88"} {
		path := "../../testdata/sheets/" + name + ".yaml"
		s := judging.Read(path)
		if s.Bench == nil {
			t.Fatal(s.Problems)
		}
		names, err := faults.FaultNames(s.Bench)
		if err != nil || len(names) < 10 {
			t.Fatal(name, names, err)
		}
		// Some of every kind: the first that ends as each kind does.
		asked := []string{""}
		for _, kind := range []string{"ground open", "exchanged", "neutral open", "parted", "touches chassis", "broken down", "leaking", " shorted", " open", "bridged", "stuck open"} {
			if i := slices.IndexFunc(names, func(n string) bool { return strings.HasSuffix(n, kind) && !slices.Contains(asked, n) }); i >= 0 {
				asked = append(asked, names[i])
			}
		}
		if len(asked) < 8 {
			t.Errorf("%s: only the faults %q", name, asked)
		}
		for _, fault := range asked {
			t.Run(fmt.Sprintf("%s %s", name, fault), func(t *testing.T) {
				args := []string{"netlist", path}
				if fault != "" {
					args = append(args, "--fault", fault)
				}
				var out, errs bytes.Buffer
				if code := run(args, &out, &errs); code != 0 {
					t.Fatal(code, errs.String())
				}
				m, err := faults.MainsWith(s.Bench, fault)
				if err != nil {
					t.Fatal(err)
				}
				compare(t, m, out.String())
			})
		}
	}
}

// compare holds the volts of a deck to the program's, to a millionth. What is
// next to nothing beside the others is a difference of them, of which ngspice,
// whose solver subtracts milliohms from gigaohms, has fewer digits.
func compare(t *testing.T, m *faults.Mains, deck string) {
	t.Helper()
	const allowed = 1e-6
	volts := simulated(t, deck)
	nodes, terminals := nodesOf(deck)
	most, n := 0.0, 0
	for _, v := range volts {
		most = math.Max(most, cmplx.Abs(v))
	}
	for i := range nodes {
		for k := range i {
			a, b := terminals[i][0], terminals[k][0]
			if !m.Solved.Joined(a, b) {
				continue
			}
			want, err := m.Solved.Voltage(a, b)
			if err != nil {
				t.Fatal(err)
			}
			at := func(node string) complex128 {
				v, ok := volts[node]
				if !ok && node != "0" {
					t.Fatalf("ngspice says nothing of node %s", node)
				}
				return v
			}
			n++
			if got := at(nodes[i]) - at(nodes[k]); !(cmplx.Abs(got-want) <= allowed*cmplx.Abs(want)+1e-8*most) {
				t.Errorf("%s – %s: %v, ngspice %v", a, b, want, got)
			}
		}
	}
	if !(most > 50) || n < 20 {
		t.Errorf("only %d voltages, the largest %g V", n, most)
	}
}

// The current through a person in the table, against ngspice on the deck with
// the person put in as its own comment says.
func TestPersonAgainstSpice(t *testing.T) {
	s := judging.Read("../../testdata/sheets/larkfield-six-forty.yaml")
	if s.Bench == nil {
		t.Fatal(s.Problems)
	}
	cases, err := faults.Table(s.Bench)
	if err != nil {
		t.Fatal(err)
	}
	for _, fault := range []string{"nothing at fault", "ground open", "neutral open", "plug.ground – chassis wire parted"} {
		i := slices.IndexFunc(cases, func(c faults.Case) bool {
			return c.Name() == fault && c.Latent == "" && !c.Limiter && c.Switches == "S1 closed" && c.Orientation == "as wired" && c.Touches == "chassis"
		})
		if i < 0 {
			t.Fatal("no case", fault)
		}
		want := cases[i].Before.High
		if !(want < 10e-3) {
			t.Fatalf("%s: %g A is beyond the network", fault, want)
		}
		m, err := faults.MainsWith(s.Bench, strings.TrimPrefix(fault, "nothing at fault"))
		if err != nil {
			t.Fatal(err)
		}
		deck, err := m.Deck("a set")
		if err != nil {
			t.Fatal(err)
		}
		line := deck[strings.Index(deck, "rskin A p"):]
		line, _, _ = strings.Cut(line, "\n")
		nodes, terminals := nodesOf(deck)
		at := func(terminal string) string {
			k := slices.IndexFunc(terminals, func(all []string) bool { return slices.Contains(all, terminal) })
			if k < 0 {
				t.Fatalf("no net of %s", terminal)
			}
			return nodes[k]
		}
		person := strings.NewReplacer(", ", "\n", " A ", " "+at("chassis")+" ", " B ", " "+at("the earth")+" ").Replace(line)
		deck = strings.Replace(deck, ".options", person+"\n.options", 1)
		deck = strings.Replace(deck, "\nrun\n", "\nrun\nprint v(p)\n", 1)
		volts := simulated(t, deck)
		_, ohms, _ := strings.Cut(line, " B ")
		body, err := strconv.ParseFloat(ohms, 64)
		if err != nil || !(body > 0) {
			t.Fatal(line, err)
		}
		across := volts["p"] - volts[at("the earth")] // of net 0 there is none: 0
		if got := cmplx.Abs(across) / body; !(math.Abs(got-want) <= 1e-6*want+1e-12) {
			t.Errorf("%s: %g A, ngspice %g A", fault, want, got)
		}
	}
}

// A fault is found however its dashes and capitals are typed.
func TestFaultNamed(t *testing.T) {
	names := []string{"C1 shorted", "C1 open", "plug.hot – F1.1 wire parted"}
	for typed, want := range map[string]string{
		"C1 shorted": "C1 shorted", "c1 SHORTED": "C1 shorted", "plug.hot - F1.1 wire parted": "plug.hot – F1.1 wire parted",
		"plug.hot-F1.1 wire parted": "plug.hot – F1.1 wire parted", "C1": "", "": "",
	} {
		if got, err := faultNamed(typed, names); got != want || (err == nil) != (want != "") {
			t.Errorf("%q: %q, %v", typed, got, err)
		}
	}
}
