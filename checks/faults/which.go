package faults

import (
	"fmt"
	"slices"
	"strings"

	"firstvolt/checks/bench"
)

// Which names one case as a Case does. Zero stands for: sound, no latent
// fault, the first orientation, every pole closed in the first such position,
// no series lamp, nobody touching.
type Which struct {
	Fault       string // as Case.Name has it; empty: nothing
	Latent      string
	Orientation string
	Switches    string
	Limiter     bool
	Touches     string
}

// Which names the case. A pulled plug has no mains circuit.
func (c Case) Which() Which {
	w := Which{Latent: c.Latent, Orientation: c.Orientation, Switches: c.Switches, Limiter: c.Limiter, Touches: c.Touches}
	if c.Fault != Nothing {
		w.Fault = c.Name()
	}
	return w
}

// Layer is a set in one position with one latent fault, or with none, and what
// can come on top of it.
type Layer struct {
	Which           // without Fault and Touches
	Open   int      // how many switches are open
	Faults []string // as Which names them, in the order of the sheet
	of     layer
}

// Layers lists every layer of the set: the positions of switches and selectors,
// each way in which joints, connectors and units may stand, with and without
// lamps, as it is on the sheet first, and in each of these first no latent
// fault. It is an error where a circuit has no answer, or where there are more
// positions than are tried.
func Layers(b *bench.Bench) ([]Layer, error) {
	r := roomOf(b)
	setups, err := r.setups(danger)
	if err != nil {
		return nil, err
	}
	var out []Layer
	for _, s := range setups {
		layers, err := r.layersOf(s)
		if err != nil {
			return nil, err
		}
		out = append(out, layers...)
	}
	return out, nil
}

func (r *room) layersOf(s setup) ([]Layer, error) {
	m, err := r.model(s)
	if err != nil {
		return nil, err
	}
	layers, err := m.layers()
	if err != nil {
		return nil, err
	}
	var out []Layer
	for _, l := range layers {
		x := Layer{Which: Which{Latent: l.told, Orientation: l.way, Switches: s.stands(), Limiter: s.limiter}, of: l}
		for _, closed := range s.state.Closed {
			if !closed {
				x.Open++
			}
		}
		for _, f := range l.faults {
			if t := f.title(); !slices.Contains(x.Faults, t) {
				x.Faults = append(x.Faults, t)
			}
		}
		out = append(out, x)
	}
	return out, nil
}

// Metals lists the metal of the set that a person may touch, by its names.
func Metals(b *bench.Bench) []string {
	var out []string
	for _, t := range roomOf(b).metals {
		out = append(out, t.terminal)
	}
	return out
}

// title names a fault, unlike every other of the same state.
func (f fault) title() string {
	if f.name == Nothing {
		return ""
	}
	return f.told()
}

// MainsOf is the circuit of a case. What names no case is an error, and so is a
// circuit without an answer.
func MainsOf(b *bench.Bench, w Which) (*Mains, error) {
	r := roomOf(b)
	setups, err := r.setups(danger)
	if err != nil {
		return nil, err
	}
	i := slices.IndexFunc(setups, func(s setup) bool {
		return s.limiter == w.Limiter && (w.Orientation == "" || s.orientation() == w.Orientation) &&
			(w.Switches == s.stands() || w.Switches == "" && s.on())
	})
	if i < 0 {
		return nil, fmt.Errorf("no such position: orientation %q, switches %q, series lamp %t", w.Orientation, w.Switches, w.Limiter)
	}
	layers, err := r.layersOf(setups[i])
	if err != nil {
		return nil, err
	}
	for _, l := range layers {
		if l.Latent == w.Latent {
			return l.Mains(w.Fault, w.Touches)
		}
	}
	return nil, fmt.Errorf("no latent fault %q", w.Latent)
}

// Mains is the circuit of the layer with a fault on top, empty for none, and a
// person who touches metal, empty for nobody. What names no case is an error,
// and so is a circuit without an answer.
func (l Layer) Mains(title, touches string) (*Mains, error) {
	i := slices.IndexFunc(l.of.faults, func(f fault) bool { return f.title() == title })
	if i < 0 {
		return nil, fmt.Errorf("no fault %q", title)
	}
	f, at := l.of.faults[i], l.of.m
	var x found
	var err error
	if held, _, _ := strings.Cut(touches, " to "); at.room.has(held) {
		x, err = at.worst(f, held)
	} else {
		x.solved, x.at, err = at.changed(f)
	}
	if err != nil {
		return nil, err
	}
	w := l.Which
	w.Fault, w.Touches = title, touches
	return mainsOf(w, x)
}
