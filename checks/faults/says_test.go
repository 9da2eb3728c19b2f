package faults_test

import (
	"math"
	"strings"
	"testing"

	"firstvolt/checks/faults"
	"firstvolt/checks/quantity"
)

func amps(low, high float64) quantity.Range {
	return quantity.Range{Low: low, High: high, Dim: quantity.Current}
}

// TestSays holds the sentences to what a restorer reads.
func TestSays(t *testing.T) {
	for _, c := range []struct {
		c    faults.Case
		want string
	}{
		{faults.Case{Fault: "shorted", Subject: "C1", Latent: "ground open", Touches: "chassis", Before: amps(0.057, 0.057), After: amps(0.057, 0.057), Latest: math.Inf(1)},
			"If C1 shorts while the ground is open, a person who holds the chassis gets 57 mA; nothing opens"},
		{faults.Case{Fault: "wire touches chassis", Subject: "F1.end", Latent: "S1 pole 1 stuck open", Touches: "chassis to Tuner", Before: amps(0.01, 0.1), Opens: "F1", Earliest: 0.01, Latest: 0.1, After: amps(0, 0)},
			"If the wire at F1.end touches the chassis while pole 1 of S1 is stuck open, a person who holds the chassis and Tuner gets 10 mA to 100 mA; F1 opens after 0.01 s to 0.1 s, and nothing is left"},
		{faults.Case{Fault: "hot and neutral exchanged", Subject: "supply", Touches: "chassis", Before: amps(0, 0.001), Opens: "F1", Latest: math.NaN(), After: amps(0, 0.001)},
			"If hot and neutral are exchanged at the receptacle, a person who holds the chassis gets 0 A to 1 mA; F1 need not open"},
		{faults.Case{Fault: "primary shorted from 1 to 2", Subject: "T1", Latent: "residual device dead", Touches: "Knob", Before: amps(0, 0.001), Opens: "F1", Latest: 1, After: amps(0, 0.001)},
			"If the primary of T1 is shorted from 1 to 2 while the residual device is dead, a person who holds Knob gets 0 A to 1 mA; F1 opens within 1 s, and then 0 A to 1 mA"},
		{faults.Case{Fault: "insulation to chassis leaking", Subject: "T1.1", Touches: "chassis", Before: amps(0, 0)},
			"If the insulation between T1.1 and the chassis leaks just less than would open anything, a person who holds the chassis gets 0 A; nothing opens"},
		{faults.Case{Fault: "nothing", Subject: "set", Touches: "chassis", Before: amps(0, 0)},
			"With nothing at fault, a person who holds the chassis gets 0 A; nothing opens"},
	} {
		if got := c.c.Says(); got != c.want {
			t.Errorf("%s\nwant %s", got, c.want)
		}
	}
}

// TestAmps never prints what nobody feels as a row of noughts, nor a certain
// current as more than it is.
func TestAmps(t *testing.T) {
	for _, c := range []struct {
		low, high float64
		want      string
	}{{0, 0, "0 A"}, {0, 4e-21, "less than 1 µA"}, {1e-15, 2e-3, "0 A to 2 mA"}, {2e-3, 2e-3, "2 mA"}, {1e-3, 0.25, "1 mA to 250 mA"}} {
		if got := faults.Amps(amps(c.low, c.high)); got != c.want {
			t.Errorf("%g to %g: %s, want %s", c.low, c.high, got, c.want)
		}
	}
}

// TestEveryCaseIsSaid finds words for every fault of two sheets, and a circuit
// under the name of each that the first layer has.
func TestEveryCaseIsSaid(t *testing.T) {
	for _, name := range []string{"larkfield-six-forty.yaml", "veldhoven-grand.yaml"} {
		b := read(t, sheetsOf(t)[name])
		cases := soundTable(t, name)
		if len(cases) < 100 {
			t.Fatal(name, len(cases))
		}
		tabled := map[string]bool{}
		for _, c := range cases {
			tabled[c.Which().Fault] = true
			says := c.Says()
			if !strings.HasPrefix(says, "If ") && c.Fault != "nothing" || strings.Contains(says, "  ") || strings.Contains(says, "Inf") {
				t.Errorf("%s: %s", name, says)
			}
		}
		layers, err := faults.Layers(b)
		if err != nil {
			t.Fatal(err)
		}
		for _, n := range layers[0].Faults {
			m, err := layers[0].Mains(n, "")
			if err != nil {
				t.Fatal(n, err)
			}
			says := n
			if n == "" {
				says = "nothing"
			}
			if deck, err := m.Deck("a set"); err != nil || !tabled[m.Fault] || !strings.Contains(deck, "* at fault: "+says+"\n") {
				t.Errorf("%s: %s: %v, in the table %t", name, n, err, tabled[n])
			}
		}
		if _, err := faults.MainsOf(b, faults.Which{Fault: "no such thing"}); err == nil {
			t.Error("a fault that is none has a circuit")
		}
	}
}

// TestLayersAreTheTable: the layers have the cases of the table, each once, and
// none besides.
func TestLayersAreTheTable(t *testing.T) {
	for _, name := range []string{"larkfield-six-forty.yaml", "teaselglen-three-way.yaml"} {
		b := read(t, sheetsOf(t)[name])
		cases := soundTable(t, name)
		tabled := map[faults.Which]bool{}
		for _, c := range cases {
			w := c.Which()
			w.Touches = ""
			tabled[w] = c.Fault != faults.Unplugged
		}
		layers, err := faults.Layers(b)
		if err != nil || len(layers) < 4 {
			t.Fatal(name, len(layers), err)
		}
		for _, l := range layers {
			for _, f := range l.Faults {
				w := l.Which
				w.Fault = f
				if !tabled[w] {
					t.Errorf("%s: %+v is not in the table, or twice in the layers", name, w)
				}
				delete(tabled, w)
			}
		}
		for w, circuit := range tabled {
			if circuit {
				t.Errorf("%s: no layer has %+v", name, w)
			}
		}
	}
}

// TestTold holds the sentence of a finding to what is so: the fault by its own
// name, both hands where the current goes from metal to metal, and no fault to
// blame for what stands there with nothing at fault.
func TestTold(t *testing.T) {
	text := sheetsOf(t)["larkfield-six-forty.yaml"]
	onHot := strings.NewReplacer("\nparts:\n", "\nparts:\n  Knob: {kind: body}\n", "\nwiring:\n", "\nwiring:\n  - F1.side -> Knob\n").Replace(text)
	noDevice := strings.Replace(text, "    - {kind: gfci, form: receptacle, tested: 2026-11-20}\n", "", 1)
	for _, c := range []struct{ name, text, figure, subject, says, not string }{
		{"between two metals", onHot, "touch-current", "chassis", "127 V stand between the chassis and Knob; a person holding both gets", "carries"},
		{"to the earth", onHot, "touch-current", "Knob", "Knob carries 127 V; a person holding it gets", "both"},
		{"no fault is to blame", onHot, "touch-current-one-fault", "Knob", "With nothing at fault", "If "},
		{"a leak is no breakdown", noDevice, "touch-current-left-to-branch", "chassis", "leaks just less than would open anything", "breaks down"},
	} {
		if f := one(t, read(t, c.text), c.figure, c.subject); !strings.Contains(f.Note, c.says) || strings.Contains(f.Note, c.not) {
			t.Errorf("%s: %q", c.name, f.Note)
		}
	}
}
