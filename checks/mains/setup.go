package mains

import (
	"fmt"
	"slices"
	"strings"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/part"
)

// closed is the set switched on, for what hangs together by wire in any state.
var closed = bench.ClosedState()

// Setups are the states of the set as it is, without fault, at one end: every
// switch and selector position, every way in which joints, connectors and units
// may stand, with and without lamps. It is an error where there are more than
// are tried.
func (r *Chain) Setups(pick Pick) (out []Setup, err error) {
	if need := r.Bench.TooMuch(); need != nil {
		return nil, &TooMany{sheet: need}
	}
	limited := []bool{false}
	if len(r.Bench.Sheet.Links("lamp-box")) > 0 {
		limited = append(limited, true)
	}
	for _, limiter := range limited {
		ways, err := r.Arrangements(pick, limiter)
		if err != nil {
			return nil, err
		}
		for _, w := range ways {
			states, ok := r.Bench.Combinations(bench.State{Turned: w.Mated}, false)
			if !ok {
				return nil, fmt.Errorf("more than %d switch and selector positions", bench.MaxCombinations)
			}
			for _, st := range states {
				out = append(out, Setup{State: st, set: r.positions(st), Arrangement: w, Exchange: slices.Contains(w.Turned, atReceptacle), Limiter: limiter, Pick: pick})
			}
		}
	}
	return out, nil
}

// SwitchedOn is the set switched on, with its connectors in each way in which
// they may be mated.
func (r *Chain) SwitchedOn() (out []*circuit.Circuit) {
	ways, _ := r.Arrangements(Clearing, false) // too many: nothing is solved
	for i, w := range ways {
		if i > 0 && len(w.Turned) > 0 {
			continue
		}
		st := closed
		st.Turned = w.Mated
		out = append(out, r.Bench.Circuit(st))
	}
	if len(out) == 0 {
		out = append(out, r.Bench.Circuit(closed))
	}
	return out
}

// positions says how the switches and selectors stand, and on which system of
// earthing where the sheet leaves that open.
func (r *Chain) positions(st bench.State) (out []Stand) {
	for _, p := range r.Bench.Parts(part.Switches) {
		word := "open"
		if st.Closed[p.Name] {
			word = "closed"
		}
		out = append(out, Stand{switchStands, p.Name, word})
	}
	for _, p := range r.Bench.Parts(part.Selects) {
		at, ok := st.Position[p.Name]
		if !ok {
			at = p.Word("set")
		}
		if at != "" {
			out = append(out, Stand{selectorStands, p.Name, at})
		}
	}
	if r.Bench.Fact("earthing-said").Word == "no" {
		out = append(out, Stand{earthingStands, "", strings.ToUpper(r.Earthing)})
	}
	return out
}

// Off tells whether every switch of the state is open, and there is one.
func (s Setup) Off() bool {
	for _, on := range s.State.Closed {
		if on {
			return false
		}
	}
	return true
}

// LampsInHot tells whether every series lamp is in the hot conductor and hot
// is sure: only a fault to the metal itself is then worth asking with it, all
// else being less with less supply.
func (r *Chain) LampsInHot() bool {
	for _, l := range r.Bench.Sheet.Upstream {
		if l.Kind == "lamp-box" && l.Word("pole") != "hot" {
			return false
		}
	}
	return r.Bench.Wired().Orientation == "fixed"
}

// On tells whether every switch of the state is closed.
func (s Setup) On() bool {
	for _, on := range s.State.Closed {
		if !on {
			return false
		}
	}
	return true
}
