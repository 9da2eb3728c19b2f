package part

import (
	"flag"
	"fmt"
	"math/bits"
	"os"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the matrix of kinds and traits anew")

// asked are the questions that rooms ask of kinds, in the order of traits.go.
var asked = []struct {
	name  string
	trait Trait
}{
	{"contact", Contact}, {"in line", InLine}, {"load", Load}, {"bridge", Bridge}, {"resister", Resister}, {"exposed", Exposed},
	{"fuses", Fuses}, {"switches", Switches}, {"selects", Selects}, {"mates", Mates}, {"ties", Ties},
	{"holds charge", HoldsCharge}, {"capacitor", Capacitors}, {"polar", Polar}, {"suppresses", Suppresses}, {"strikes", Strikes},
	{"track", Track}, {"tube", Tubes}, {"rectifies", Rectifies}, {"supplies", Supplies}, {"isolates", Isolates}, {"core", Cores},
	{"plugs in", PlugsIn}, {"ohms untold", OhmsUntold}, {"on line", OnLine}, {"volts", BearsVolts}, {"watts", BearsWatts}, {"amps", BearsAmps},
}

// TestEveryKindAnswers: a kind without a place, or without a deed, is asked nothing
// by the rooms and would be judged sound unseen.
func TestEveryKindAnswers(t *testing.T) {
	for _, k := range Kinds() {
		if n := bits.OnesCount64(uint64(k.Traits & Places)); n != 1 {
			t.Errorf("%s has %d places; one of contact, in line, load, bridge, resister, exposed", k.Name, n)
		}
		if k.Traits&Deeds == 0 {
			t.Errorf("%s does nothing: give it one of the traits from Fuses to Metal", k.Name)
		}
		if k.Traits&Exposed == 0 && k.Traits&Ties == 0 && k.Failures == nil {
			t.Errorf("%s cannot fail", k.Name)
		}
	}
}

func TestKindMatrix(t *testing.T) {
	const file = "testdata/kinds.txt"
	var got strings.Builder
	for _, k := range Kinds() {
		var yes []string
		for _, q := range asked {
			if k.Traits&q.trait != 0 {
				yes = append(yes, q.name)
			}
		}
		fmt.Fprintf(&got, "%s: %s; ground: %s; fails: %t\n", k.Name, strings.Join(yes, ", "), k.Ground, k.Failures != nil)
	}
	if *update {
		if err := os.WriteFile(file, []byte(got.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil || got.String() != string(want) {
		t.Errorf("the matrix of kinds is another (%v); run with -update and read the difference:\n%s", err, got.String())
	}
}
