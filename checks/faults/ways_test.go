package faults_test

import (
	"fmt"
	"strings"
	"sync"
	"testing"

	"firstvolt/checks/bench"
	"firstvolt/checks/faults"
)

// TestJointsTogether: two connectors that do no harm when either is turned
// round bring the line to metal when both are.
func TestJointsTogether(t *testing.T) {
	set := func(one, other string) string {
		return head + wires2 + `
parts:
  Knob: {kind: body}
  Lug: {kind: tie}
  K1: {kind: connector, pins: [1, 2, 3]` + one + `}
  K2: {kind: connector, pins: [1, 2, 3]` + other + `}
  R1: {kind: resistor, value: 1 kΩ, tolerance: 0 %}
wiring: [plug.hot -> K1.1, K1.1-mate -> K2.2, K1.3-mate -> K2.1, K2.3-mate -> Knob, K2.2-mate -> R1 -> plug.neutral, chassis -> Lug]
`
	}
	const both, single = ", fits: both-ways", ", fits: one-way"
	for _, c := range []struct {
		one, other    string
		least, atMost float64 // A
	}{
		{single, single, 0, 10e-6},
		{both, single, 0, 10e-6},
		{single, both, 0, 10e-6},
		{both, both, 0.05, 1},
		{"", both, 0, 1}, // nobody says: may be
	} {
		r := one(t, read(t, set(c.one, c.other)), "touch-current", "Knob").Range
		if !(r.Low >= c.least) || !(r.High <= c.atMost) || c.atMost == 1 && !(r.High > 0.05) || c.least == 0 && r.Low > 0 {
			t.Errorf("K1%s, K2%s: %s", c.one, c.other, r)
		}
	}
	many := set(both, both)
	for k := range 6 {
		many = strings.Replace(many, "  R1:", fmt.Sprintf("  M%d: {kind: connector, pins: [1, 2], fits: both-ways}\n  R1:", k), 1)
		many = strings.Replace(many, "chassis -> Lug", fmt.Sprintf("chassis -> Lug, Lug -> M%d.1", k), 1)
	}
	if f := one(t, read(t, many), "touch-current", "Knob"); f.Known() {
		t.Errorf("eight connectors that fit both ways: %s", f.Range)
	}
}

// TestTurnedBehindUnits: behind a transformer whose secondary is bonded, and
// behind a step-down unit, it is the set's own plug that makes hot of neutral.
func TestTurnedBehindUnits(t *testing.T) {
	set := func(unit, plug string) string {
		supply := "supply: {region: europe, plug: " + plug + ", upstream: [{" + unit + "}]}\n" + two
		return strings.Replace(head, "construction: transformer, chassis: exposed", "construction: line-connected, chassis: exposed", 1) + supply + `
parts: {R1: {kind: resistor, value: 1 kΩ, tolerance: 0 %}}
wiring: [plug.hot -> R1 -> chassis, plug.neutral -> chassis]
`
	}
	for _, c := range []struct {
		unit string
		low  float64
	}{
		{"kind: isolating-transformer, secondary: bonded, earth: stopped", 0.05},
		{"kind: lamp-box, lamp: 60 W, voltage: 230 V, pole: hot, earth: broken", 0.05},
		{"kind: autotransformer, ratio: 0.5, fits: one-way, earth: stopped", 0.03},
	} {
		f := one(t, read(t, set(c.unit, "cee-7-17")), "touch-current", "chassis")
		if !(f.Range.Low > c.low) {
			t.Errorf("%s: %s, %s", c.unit, f.Range, f.Note)
		}
	}
}

// TestTurnedNames: each way has a name of its own, and the deck of a case is
// that of its way.
func TestTurnedNames(t *testing.T) {
	text := head + "supply: {region: europe, plug: cee-7-17, earthing: tn, upstream: [{kind: isolating-transformer, earth: stopped}]}\n" + two + `
parts: {K1: {kind: connector, pins: [1, 2], fits: both-ways}, R1: {kind: resistor, value: 1 kΩ}}
wiring: [plug.hot -> K1.1, plug.neutral -> K1.2, K1.1-mate -> R1 -> K1.2-mate, K1.2-mate -> chassis]
`
	b := read(t, text)
	names := map[string]bool{}
	for _, c := range tableOf(t, b) {
		if c.Latent.None() && c.Fault.None() {
			name := c.Orientation() + "; " + c.Switches()
			if names[name] {
				t.Errorf("%s stands twice", name)
			}
			names[name] = true
			sameInDeck(t, b, c)
		}
	}
	for _, want := range []string{
		"as wired; upstream 1 bonded", "exchanged, turned at the plug; K1 turned round, upstream 1 floating",
	} {
		if !names[want] {
			t.Errorf("no case %q in %v", want, names)
		}
	}
	if len(names) != 16 {
		t.Errorf("%d ways, not 2 × 2 × 2 × 2: %v", len(names), names)
	}
}

var soundTables sync.Map // by sheet: func() ([]faults.Case, error)

// soundTable is the table of a sound sheet by its name, made once.
func soundTable(t *testing.T, name string) []faults.Case {
	t.Helper()
	make, _ := soundTables.LoadOrStore(name, sync.OnceValues(func() ([]faults.Case, error) { return faults.Table(read(t, sheetsOf(t)[name])) }))
	cases, err := make.(func() ([]faults.Case, error))()
	if err != nil {
		t.Fatal(name, err)
	}
	return cases
}

func tableOf(t *testing.T, b *bench.Bench) []faults.Case {
	t.Helper()
	cases, err := faults.Table(b)
	if err != nil {
		t.Fatal(err)
	}
	return cases
}

// sameInDeck solves the case by its names again.
func sameInDeck(t *testing.T, b *bench.Bench, c faults.Case) {
	t.Helper()
	m, err := faults.MainsOf(b, c.Which)
	if err != nil {
		t.Fatal(err)
	}
	near(t, c.Orientation()+", "+c.Switches(), m.Person, c.Before.High, 1e-9)
}
