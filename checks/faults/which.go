package faults

import (
	"fmt"
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/mains"
)

// Which names one case as a Case does. Zero stands for: sound, no latent
// fault, the first orientation, every pole closed in the first such position,
// no series lamp, nobody touching.
type Which struct {
	Fault  Fault
	Latent Fault // a second fault that nobody noticed before
	mains.Position
	Touch mains.Touch
}

// Same tells whether two name one case.
func (w Which) Same(v Which) bool {
	return w.Fault == v.Fault && w.Latent == v.Latent && w.Touch == v.Touch && w.Position.Same(v.Position)
}

// Layer is a set in one position with one latent fault, or with none, and what
// can come on top of it.
type Layer struct {
	Which          // without Fault and Touch
	Open   int     // how many switches are open
	Faults []Fault // in the order of the sheet
	of     layer
}

// Layers lists every layer of the set: the positions of switches and selectors,
// each way in which joints, connectors and units may stand, with and without
// lamps, as it is on the sheet first, and in each of these first no latent
// fault. It is an error where a circuit has no answer, or where there are more
// positions than are tried.
func Layers(b *bench.Bench) ([]Layer, error) {
	var out []Layer
	for _, r := range chainsOf(b) {
		setups, err := r.Setups(mains.Danger)
		if err != nil {
			return nil, err
		}
		if err := r.budget(setups, true); err != nil {
			return nil, err
		}
		for _, s := range setups {
			layers, err := r.layersOf(s)
			if err != nil {
				return nil, err
			}
			out = append(out, layers...)
		}
	}
	return out, nil
}

func (r *chain) layersOf(s mains.Setup) ([]Layer, error) {
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
		x := Layer{Which: Which{Latent: l.latent, Position: l.at}, of: l}
		for _, closed := range s.State.Closed {
			if !closed {
				x.Open++
			}
		}
		for _, f := range l.faults {
			if !slices.Contains(x.Faults, f.Fault) {
				x.Faults = append(x.Faults, f.Fault)
			}
		}
		out = append(out, x)
	}
	return out, nil
}

// Metals lists the metal of the set that a person may touch, by its names.
func Metals(b *bench.Bench) []string {
	var out []string
	for _, t := range chainOf(b).Metals {
		out = append(out, t.Terminal)
	}
	return out
}

// MainsOf is the circuit of a case. What names no case is an error, and so is a
// circuit without an answer.
func MainsOf(b *bench.Bench, w Which) (*Mains, error) {
	for _, r := range chainsOf(b) {
		setups, err := r.Setups(mains.Danger)
		if err != nil {
			return nil, err
		}
		i := slices.IndexFunc(setups, func(s mains.Setup) bool {
			p := s.Position()
			return p.Limiter == w.Limiter && (len(w.Places) == 0 || slices.Equal(p.Places, w.Places)) &&
				(slices.Equal(p.Stands, w.Stands) || len(w.Stands) == 0 && s.On())
		})
		if i < 0 {
			continue
		}
		layers, err := r.layersOf(setups[i])
		if err != nil {
			return nil, err
		}
		for _, l := range layers {
			if l.Latent == w.Latent {
				return l.Mains(w.Fault, w.Touch)
			}
		}
		return nil, fmt.Errorf("no latent fault %q", w.Latent.String())
	}
	return nil, fmt.Errorf("no such position: orientation %q, switches %q, series lamp %t", w.Orientation(), w.Switches(), w.Limiter)
}

// Mains is the circuit of the layer with a fault on top, zero for none, and a
// person who touches metal, zero for nobody. What names no case is an error,
// and so is a circuit without an answer.
func (l Layer) Mains(is Fault, touch mains.Touch) (*Mains, error) {
	i := slices.IndexFunc(l.of.faults, func(f fault) bool { return f.Fault == is })
	if i < 0 {
		return nil, fmt.Errorf("no fault %q", is.String())
	}
	f, m := l.of.faults[i], l.of.m
	var x found
	var err error
	if m.HasMetal(touch.Held) {
		x, err = m.worst(f, touch.Held)
	} else if at, e := m.warmedFor(f); e != nil {
		err = e
	} else {
		x.solved, x.at, err = f.warm(at)
	}
	if err != nil {
		return nil, err
	}
	w := l.Which
	w.Fault, w.Touch = is, touch
	return mainsOf(w, x)
}
