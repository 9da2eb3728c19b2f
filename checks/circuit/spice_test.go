package circuit

import (
	"bufio"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"firstvolt/checks/trial"
)

// simulated has ngspice run a deck and gives what it prints, by the name it
// prints it under.
func simulated(t testing.TB, deck string) map[string]complex128 {
	t.Helper()
	answers := map[string]complex128{}
	for lines := bufio.NewScanner(strings.NewReader(printed(t, deck))); lines.Scan(); {
		if node, volts, ok := trial.Volts(t, lines.Text()); ok {
			answers["v("+node+")"] = volts
		}
	}
	return answers
}

// printed is all that ngspice prints of a deck.
func printed(t testing.TB, deck string) string {
	t.Helper()
	spice := trial.Spice(t)
	file := filepath.Join(t.TempDir(), "deck.cir")
	if err := os.WriteFile(file, []byte(deck), 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(spice, "-b", file).CombinedOutput()
	if err != nil {
		t.Fatalf("ngspice: %v\n%s", err, out)
	}
	return string(out)
}

// The operating point by ngspice, an independent program, of 200 random
// networks: 1 A into one probe with the other on ground, so that the volts are
// the ohms. Its sparse solver subtracts, therefore only six decades of values;
// milliohms beside teraohms are for the exact arithmetic.
func TestAgainstSpice(t *testing.T) {
	const networks, allowed = 200, 1e-6
	r := rand.New(rand.NewPCG(5, 6))
	var deck, ask strings.Builder
	deck.WriteString("* driving-point resistances\n")
	want := make([]float64, networks)
	for i := range networks {
		list := joinedNetwork(r)
		got, err := New(list).Resistance([]string{"n1"}, []string{"n0"})
		if err != nil {
			t.Fatal(err)
		}
		if !near(got.R.Low, got.R.High, 1e-15) || got.Open || got.Unknown {
			t.Fatalf("exact values gave %+v", got)
		}
		want[i] = got.R.Low
		node := func(name string) string {
			if name == "n0" {
				return "0"
			}
			return fmt.Sprintf("c%d%s", i, name)
		}
		for _, e := range list {
			fmt.Fprintf(&deck, "r%d%s %s %s %.17g\n", i, e.Name, node(e.A), node(e.B), e.R.Low)
		}
		fmt.Fprintf(&deck, "i%d 0 %s 1\n", i, node("n1"))
		fmt.Fprintf(&ask, "print v(%s)\n", node("n1"))
	}
	fmt.Fprintf(&deck, ".options reltol=1e-9 gmin=1e-20\n.control\nset numdgt=14\nop\n%squit\n.endc\n.end\n", ask.String())
	answers := simulated(t, deck.String())
	for i, ohms := range want {
		got, ok := answers[fmt.Sprintf("v(c%dn1)", i)]
		if !ok {
			t.Fatalf("ngspice gave no answer for network %d", i)
		}
		if !(math.Abs(real(got)-ohms) <= allowed*ohms) {
			t.Errorf("network %d: %.9g Ω, ngspice %.9g Ω", i, ohms, real(got))
		}
	}
}

// joinedNetwork is a random network of resistances in which everything hangs
// together: a node without a way to ground is an error to ngspice.
func joinedNetwork(r *rand.Rand) []Element {
	nodes := 3 + r.IntN(12)
	value := func() float64 { return math.Pow(10, -1+6*r.Float64()) }
	name := func(n int) string { return "n" + strconv.Itoa(n) }
	var list []Element
	for n := 1; n < nodes; n++ {
		list = append(list, ohm("t"+strconv.Itoa(n), name(n), name(r.IntN(n)), value()))
	}
	for i := range r.IntN(2 * nodes) {
		a := r.IntN(nodes)
		b := (a + 1 + r.IntN(nodes-1)) % nodes
		list = append(list, ohm("x"+strconv.Itoa(i), name(a), name(b), value()))
	}
	return list
}
