package faults

import (
	"fmt"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/mains"
)

// chain is the mains side of one set and what may open it.
type chain struct {
	*mains.Chain
	devices devices
}

type chainKept struct{}

// chainsOf are those of a bench, one for each system of earthing that its supply
// may have.
func chainsOf(b *bench.Bench) []*chain {
	var out []*chain
	for _, system := range b.Earthings() {
		out = append(out, chainOf(b.Earthed(system)))
	}
	return out
}

// chainOf is that of a bench, made once. Where the sheet leaves the system of
// earthing open it is that on the first.
func chainOf(b *bench.Bench) *chain {
	return b.Keep(chainKept{}, func() any { return &chain{mains.Of(b), devicesOf(b)} }).(*chain)
}

// model is the circuit of one setup with the faults that it may have.
type model struct {
	*mains.Circuit
	chain *chain
	list  []fault // faults, once they were asked for
}

type modelKey struct{}

// model is that of a setup, made once.
func (r *chain) model(s mains.Setup) (*model, error) {
	c, err := r.Circuit(s)
	if err != nil {
		return nil, err
	}
	return c.Keep(modelKey{}, func() any { return &model{Circuit: c, chain: r} }).(*model), nil
}

// with is a circuit with the fault in it and what more is otherwise, lamps as
// cold as can be.
func (f fault) with(c *mains.Circuit, more ...circuit.Branch) (*circuit.Solved, *mains.Circuit, error) {
	by := f.Change
	by.Branches = append(by.Branches[:len(by.Branches):len(by.Branches)], more...)
	solved, at, err := c.With(by)
	return solved, at, f.wrap(err)
}

// warm is a circuit with the fault in it, lamps as warm as it makes them.
func (f fault) warm(c *mains.Circuit) (*circuit.Solved, *mains.Circuit, error) {
	solved, at, err := c.Warm(f.Change)
	return solved, at, f.wrap(err)
}

// wrap says of which fault an error is.
func (f fault) wrap(err error) error {
	if err != nil {
		return fmt.Errorf("%s: %w", f, err)
	}
	return nil
}
