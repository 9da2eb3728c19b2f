package faults

import (
	"math"
	"slices"

	"firstvolt/checks/mains"
	"firstvolt/checks/sheet"
)

// judged is the worst of all single faults, those left out that something
// opens in its time and before what flows can kill: branch of those ahead of the
// first fuse that only the branch device can open and of those that are opened in
// their time but no sooner, other of all else.
type judged struct{ other, branch worst }

// ofOther and ofBranch are the two halves of judged, for one piece of metal.
func ofOther(r *chain, t mains.Metal) (worst, error) {
	j, err := r.judged(t)
	return j.other, err
}

func ofBranch(r *chain, t mains.Metal) (worst, error) {
	j, err := r.judged(t)
	return j.branch, err
}

type judgedKey struct{}

func (r *chain) judged(t mains.Metal) (judged, error) {
	type result struct {
		of  map[string]*judged
		err error
	}
	v := r.Bench.Keep(judgedKey{}, func() any {
		of, err := oneFault(r)
		return result{of, err}
	}).(result)
	if v.err != nil {
		return judged{}, v.err
	}
	return *v.of[t.Terminal], nil
}

// oneFault judges every piece of metal that is touched, position by position: no
// circuit of a position that was left is kept.
func oneFault(r *chain) (map[string]*judged, error) {
	setups, err := r.Setups(mains.Danger)
	if err != nil {
		return nil, err
	}
	if err := r.budget(setups, false); err != nil {
		return nil, err
	}
	of := map[string]*judged{}
	for _, t := range r.Metals {
		of[t.Terminal] = &judged{}
	}
	for _, s := range setups {
		m, err := r.model(s)
		if err != nil {
			return nil, err
		}
		for _, t := range r.Metals {
			if !t.Touched {
				continue
			}
			for _, f := range m.asked(t) {
				if err := of[t.Terminal].take(m, f, t); err != nil {
					return nil, err
				}
			}
		}
	}
	return of, nil
}

// asked are the faults that judge a piece of metal, one of those that are one
// and the same change of the circuit.
func (m *model) asked(t mains.Metal) []fault {
	type change struct {
		a, b  int32
		z     complex128
		left  bool
		layer bool
	}
	c := m.Bench.Circuit(m.State)
	seen := map[change]bool{}
	var out []fault
	for _, f := range m.faults() {
		if !m.concerns(f, t) || m.Limiter && f.to == "" && m.LampsInHot() {
			continue
		}
		if len(f.Branches) == 1 && f.Branches[0].In == "" && len(f.Without) == 0 && !f.exchange() {
			b := f.Branches[0]
			k := change{c.NetOf(b.A), c.NetOf(b.B), b.Z, f.ahead, f.layer()}
			if seen[k] {
				continue
			}
			seen[k] = true
		}
		out = append(out, f)
	}
	return out
}

// concerns tells whether a fault can change what a hand finds on the metal, and
// is judged there. What a bond of wire holds down, only mains on itself or the
// loss of the bond lifts; the one layer round an unbonded chassis of a
// transformer set, and round what is wired to it, has a rule of its own.
func (m *model) concerns(f fault, t mains.Metal) bool {
	if f.leak() && m.Limiter {
		return false // with a lamp nothing opens: dead is worst
	}
	here := f.to != "" && m.Same(f.to, t.Terminal)
	if !m.Bonded(t.Terminal) {
		w := m.Bench.Wired() // by what conducts: a fuse in the ground is no bond of wire, and no matter of that rule
		return !(f.layer() && here && w.Construction == "transformer" && w.Bonded != "yes" && m.Same(t.Terminal, sheet.Chassis))
	}
	switch {
	case f.to != "":
		return here
	case f.Kind == WireParted:
		return !m.BondedWithout(t.Terminal, f.Without[0])
	}
	return f.exchange() || len(f.Branches) == 1 && f.Branches[0].In == mains.GroundWire
}

// take counts one fault: nothing of it where something opens in its time.
func (j *judged) take(m *model, f fault, t mains.Metal) error {
	w := &j.other
	left := m.leftToBranch(f, t)
	if left {
		w = &j.branch
	}
	limit := limit("one-fault")
	h, err := m.find(f, t.Terminal, math.Min(limit, w.high))
	if err != nil {
		return err
	}
	if h.Amps <= limit {
		w.take(0, h.Amps, func() (string, []string) { return tell(h.at, f, t, h.Hand, opens{}), lines(h.at, t, h.Hand) })
		return nil
	}
	e := m.settled(f, h, t)
	if left && !f.leak() && e.held != sure && !(e.device.Kind == BranchDevice && e.latest <= math.MaxFloat64) { // nor does that open it
		left, w = false, &j.other
	}
	low := 0.0
	switch {
	case e.held == sure && !e.lethal, left && m.chain.devices.plugFuse > 0:
		return nil
	case e.held == sure: // it ends in its time, and what flows until then can kill
		w = &j.branch
	case e.held == no:
		low = m.chain.leastTouch(m.Setup, f, t)
	}
	w.take(low, h.Amps, func() (string, []string) {
		f, h := m.orSound(f, t, h)
		return tell(h.at, f, t, h.Hand, e.opens), lines(h.at, t, h.Hand)
	})
	return nil
}

// settled is what opens with a fault, and how sure that is, with all that the
// sheet leaves open.
func (m *model) settled(f fault, h found, t mains.Metal) ending {
	limit := limit("one-fault")
	e := m.ends(f, h, t.Terminal, limit)
	if e.held == sure && slices.ContainsFunc(m.Metals, func(t mains.Metal) bool { return t.Beside && !t.Read }) {
		e.held = maybe // of insulation that nobody measured the middle endangers most
	}
	if e.held == sure && m.AnyLamp {
		e.held = maybe // with a smaller lamp it may never open
	}
	if f.leak() {
		e.held = no // by its very resistance
		if r, ok := m.chain.devices.residual(); ok && r.ignores <= limit {
			e.held = maybe
		}
	}
	return e
}

// leftToBranch tells whether a fault to bonded metal is ahead of the set's
// first fuse, so that only what stands ahead of the cord can open it, and no
// residual device does.
func (m *model) leftToBranch(f fault, t mains.Metal) bool {
	if r, ok := m.chain.devices.residual(); ok && m.alive(r, f) {
		return false
	}
	return f.ahead && f.to != "" && m.Earthing == "tn" && m.Bonded(t.Terminal)
}
