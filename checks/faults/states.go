package faults

import (
	"fmt"
	"slices"
	"strings"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
)

// closed is the set switched on, for what hangs together by wire in any state.
var closed = bench.ClosedState()

// setups are the states of the set as it is, without fault, at one end: every
// switch and selector position, every way in which joints, connectors and units
// may stand, with and without lamps. It is an error where there are more than
// are tried.
func (r *room) setups(e end) (out []setup, err error) {
	if need := r.b.TooMuch(); need != nil {
		return nil, &TooMany{sheet: need}
	}
	limited := []bool{false}
	if len(r.b.Sheet.Links("lamp-box")) > 0 {
		limited = append(limited, true)
	}
	for _, limiter := range limited {
		ways, err := r.waysRound(e, limiter)
		if err != nil {
			return nil, err
		}
		for _, w := range ways {
			states, ok := r.b.Combinations(bench.State{Turned: w.mated}, false)
			if !ok {
				return nil, fmt.Errorf("more than %d switch and selector positions", bench.MaxCombinations)
			}
			for _, st := range states {
				out = append(out, setup{state: st, set: r.positions(st), way: w, exchange: slices.Contains(w.turned, atReceptacle), limiter: limiter, end: e})
			}
		}
	}
	return out, nil
}

// switchedOn is the set switched on, with its connectors in each way in which
// they may be mated.
func (r *room) switchedOn() (out []*circuit.Circuit) {
	ways, _ := r.waysRound(clearing, false) // too many: nothing is solved
	for i, w := range ways {
		if i > 0 && len(w.turned) > 0 {
			continue
		}
		st := closed
		st.Turned = w.mated
		out = append(out, r.b.Circuit(st))
	}
	if len(out) == 0 {
		out = append(out, r.b.Circuit(closed))
	}
	return out
}

// positions says how the switches and selectors stand, and on which system of
// earthing where the sheet leaves that open.
func (r *room) positions(st bench.State) (out []Stand) {
	for _, p := range r.b.Parts("switch") {
		word := "open"
		if st.Closed[p.Name] {
			word = "closed"
		}
		out = append(out, Stand{switchStands, p.Name, word})
	}
	for _, p := range r.b.Parts("selector") {
		at, ok := st.Position[p.Name]
		if !ok {
			at = p.Word("set")
		}
		if at != "" {
			out = append(out, Stand{selectorStands, p.Name, at})
		}
	}
	if r.b.Fact("earthing-said").Word == "no" {
		out = append(out, Stand{earthingStands, "", strings.ToUpper(r.earthing)})
	}
	return out
}

// off tells whether every switch of the state is open, and there is one.
func (s setup) off() bool {
	for _, on := range s.state.Closed {
		if on {
			return false
		}
	}
	return true
}

// lampsInHot tells whether every series lamp is in the hot conductor and hot
// is sure: only a fault to the metal itself is then worth asking with it, all
// else being less with less supply.
func (r *room) lampsInHot() bool {
	for _, l := range r.b.Sheet.Upstream {
		if l.Kind == "lamp-box" && l.Word("pole") != "hot" {
			return false
		}
	}
	return r.b.Wired().Orientation == "fixed"
}
