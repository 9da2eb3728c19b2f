package bench

import (
	"fmt"
	"strings"
	"testing"

	"firstvolt/checks/circuit"
)

func all(*circuit.Element) bool { return true }

// What each state joins, by hand from the wiring of the whole example.
func TestStates(t *testing.T) {
	b := larkfield(t)
	closed := ClosedState()
	for _, c := range []struct {
		name string
		st   State
		x, y string
		want bool
	}{
		{"switched on, hot reaches the primary", closed, "plug.hot", "T1.1", true},
		{"switched off, it does not", State{}, "plug.hot", "T1.1", false},
		{"this switch open", State{AllClosed: true, Closed: map[string]bool{"S1": false}}, "plug.hot", "T1.1", false},
		{"this switch closed", State{Closed: map[string]bool{"S1": true}}, "plug.hot", "T1.1", true},
		{"fuse out", State{AllClosed: true, Out: map[string]bool{"F1": true}}, "plug.hot", "S1.1", false},
		{"every fuse out", State{AllClosed: true, AllOut: true}, "plug.hot", "S1.1", false},
		{"through the primary", closed, "plug.hot", "plug.neutral", true},
		{"the fuse gone", State{AllClosed: true, Without: []string{"F1"}}, "plug.hot", "S1.1", false},
		{"the transformer lifted whole", State{AllClosed: true, Without: []string{"T1"}}, "plug.hot", "plug.neutral", false},
		{"a lead lifted", State{AllClosed: true, Lifted: []string{"T1.1"}}, "plug.hot", "plug.neutral", false},
		{"and the winding past it", State{AllClosed: true, Lifted: []string{"T1.1"}}, "plug.neutral", "T1.1", true},
		{"the tap lifted off the chassis", State{Lifted: []string{"T1.4"}}, "T1.3", "chassis", false},
		{"and both halves still one", State{Lifted: []string{"T1.4"}}, "T1.3", "T1.5", true},
	} {
		if got := joined(b, c.st, c.x, c.y, Conductors); got != c.want {
			t.Errorf("%s: %v", c.name, got)
		}
	}
}

// To lift a part's lead leaves the wires that met there joined.
func TestLiftedLeadLeavesWires(t *testing.T) {
	b := larkfield(t)
	st := State{AllClosed: true, Lifted: []string{"C1.1"}}
	if !joined(b, st, "S1.2", "T1.1", Copper) || joined(b, st, "S1.2", "C1.1", all) {
		t.Error("S1.2 goes to T1.1 whether C1 is lifted or not, and not to the lifted lead")
	}
	// Three wires that meet on one terminal of the part.
	b = larkfield(t, "  - F1.side -> S1 -> T1.1\n", "  - F1.side -> C1.1\n  - C1.1 -> S1 -> T1.1\n", "  - S1.2 -> C1 -> chassis\n", "  - C1.2 -> chassis\n")
	if st := (State{Lifted: []string{"C1.1"}}); !joined(b, st, "F1.side", "S1.1", Copper) {
		t.Error("wires that met on the lifted lead came apart")
	}
}

// A tube out of its socket leaves the socket to the probes; another part lifted
// whole takes its leads along.
func TestWithoutTubes(t *testing.T) {
	b := larkfield(t, "  C1: {kind", "  V1: {kind: tube, type: 6V6}\n  C1: {kind", "  - T1.4 -> chassis", "  - T1.4 -> chassis\n  - T1.8 -> V1 -> T1.9")
	if !joined(b, State{}, "V1.h1", "T1.8", Copper) || !joined(b, State{Without: []string{"V1"}}, "V1.h1", "T1.8", Copper) {
		t.Error("the socket of V1 is wired to T1.8")
	}
	heater := func(st State) bool {
		for _, e := range b.Circuit(st).Elements() {
			if p := PartOfElement(&e); p != nil && p.Name == "V1" && Conductors(&e) {
				return true
			}
		}
		return false
	}
	if !heater(State{}) || heater(State{Without: []string{"V1"}}) {
		t.Error("the heater of V1 conducts where the tube is in, and nowhere else")
	}
}

func TestKeyTellsStatesApart(t *testing.T) {
	states := []State{{}, ClosedState(), {AllOut: true}, {Closed: map[string]bool{"S1": true}}, {Closed: map[string]bool{"S1": false}},
		{Closed: map[string]bool{"S1": true, "S2": false}}, {Closed: map[string]bool{"S1": false, "S2": true}},
		{Out: map[string]bool{"S1": true}}, {Unmated: map[string]bool{"S1": true}}, {Turned: map[string]bool{"S1": true}}, {Position: map[string]string{"S1": "1"}},
		{Position: map[string]string{"S1": "2"}}, {Lifted: []string{"S1"}}, {Lifted: []string{"S1.1"}}}
	seen := map[string]int{}
	for i, s := range states {
		if j, ok := seen[string(s.key(nil))]; ok {
			t.Errorf("states %d and %d have one key %q", j, i, s.key(nil))
		}
		seen[string(s.key(nil))] = i
	}
}

func TestCombinations(t *testing.T) {
	b := larkfield(t, "  C1: {kind", "  SEL: {kind: selector, positions: {a: [[x, y]], b: [[x, z]], c: [[y, z]]}, set: b}\n  C1: {kind", "  - T1.4 -> chassis", "  - T1.4 -> chassis\n  - T1.6 -> SEL.x\n  - T1.7 -> SEL.y\n  - T1.8 -> SEL.z")
	for _, c := range []struct {
		name  string
		base  State
		every bool
		want  int
	}{
		{"switch either way, selector as set", State{}, false, 2},
		{"and in every position", State{}, true, 6},
		{"all closed", ClosedState(), true, 3},
		{"switch named", State{Closed: map[string]bool{"S1": false}}, false, 1},
		{"position named", State{Position: map[string]string{"SEL": "a"}}, true, 2},
	} {
		if got, ok := b.Combinations(c.base, c.every); !ok || len(got) != c.want {
			t.Errorf("%s: %d states, %v; want %d", c.name, len(got), ok, c.want)
		}
	}
}

// More than 2¹⁰ combinations are not tried, and the answer says so.
func TestTooManyCombinations(t *testing.T) {
	var parts, runs strings.Builder
	for i := range 11 {
		fmt.Fprintf(&parts, "  X%d: {kind: switch, poles: 1}\n", i)
		fmt.Fprintf(&runs, "\n  - T1.6 -> X%d -> T1.7", i)
	}
	b := larkfield(t, "  C1: {kind", parts.String()+"  C1: {kind", "  - T1.4 -> chassis", "  - T1.4 -> chassis"+runs.String())
	if states, ok := b.Combinations(State{}, true); ok || len(states) > MaxCombinations {
		t.Errorf("%d states, %v", len(states), ok)
	}
}
