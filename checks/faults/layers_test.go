package faults_test

import (
	"fmt"
	"strings"
	"testing"

	"firstvolt/checks/faults"
	"firstvolt/checks/mains"
)

// TestEveryCaseIsSaid finds words for every fault of two sheets, and a circuit
// under the name of each that the first layer has.
func TestEveryCaseIsSaid(t *testing.T) {
	for _, name := range []string{"larkfield-six-forty.yaml", "veldhoven-grand.yaml"} {
		b := read(t, sheetsOf(t)[name])
		cases := soundTable(t, name)
		if len(cases) < 100 {
			t.Fatal(name, len(cases))
		}
		tabled := map[faults.Fault]bool{}
		for _, c := range cases {
			tabled[c.Fault] = true
			says := c.Fault.Happens()
			if !strings.HasPrefix(says, "If ") && !c.Fault.None() && c.Fault.Kind != faults.Unplugged || strings.ContainsAny(says, "{}") || strings.Contains(says, "  ") {
				t.Errorf("%s: %s", name, says)
			}
		}
		layers, err := faults.Layers(b)
		if err != nil {
			t.Fatal(err)
		}
		for _, n := range layers[0].Faults {
			m, err := layers[0].Mains(n, mains.Touch{})
			if err != nil {
				t.Fatal(n, err)
			}
			says := n.String()
			if n.None() {
				says = "nothing"
			}
			if deck, err := m.Deck("a set"); err != nil || !tabled[m.Fault] || !strings.Contains(deck, "* at fault: "+says+"\n") {
				t.Errorf("%s: %s: %v, in the table %t", name, n, err, tabled[n])
			}
		}
		if _, err := faults.MainsOf(b, faults.Which{Fault: faults.Fault{Kind: faults.Shorted, Of: "no such thing"}}); err == nil {
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
		tabled := map[string]bool{}
		for _, c := range cases {
			w := c.Which
			w.Touch = mains.Touch{}
			tabled[fmt.Sprint(w)] = c.Fault.Kind != faults.Unplugged
		}
		layers, err := faults.Layers(b)
		if err != nil || len(layers) < 4 {
			t.Fatal(name, len(layers), err)
		}
		for _, l := range layers {
			for _, f := range l.Faults {
				w := l.Which
				w.Fault = f
				key := fmt.Sprint(w)
				if !tabled[key] {
					t.Errorf("%s: %s is not in the table, or twice in the layers", name, key)
				}
				delete(tabled, key)
			}
		}
		for w, circuit := range tabled {
			if circuit {
				t.Errorf("%s: no layer has %s", name, w)
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
		{"the branch device is slow", noDevice, "touch-current-left-to-branch", "chassis", "the branch device opens within 60 s", "breaks down"},
	} {
		if f := one(t, read(t, c.text), c.figure, c.subject); !strings.Contains(f.Note, c.says) || strings.Contains(f.Note, c.not) {
			t.Errorf("%s: %q", c.name, f.Note)
		}
	}
}
