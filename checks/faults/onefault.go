package faults

import (
	"math"
	"slices"

	"firstvolt/checks/sheet"
)

// judged is the worst of all single faults, those left out that something
// opens in its time and before what flows can kill: branch of those ahead of the
// first fuse that only the branch device can open and of those that are opened in
// their time but no sooner, other of all else.
type judged struct{ other, branch worst }

// ofOther and ofBranch are the two halves of judged, for one piece of metal.
func ofOther(r *room, t metal) (worst, error) {
	j, err := r.judged(t)
	return j.other, err
}

func ofBranch(r *room, t metal) (worst, error) {
	j, err := r.judged(t)
	return j.branch, err
}

type judgedKey struct{}

func (r *room) judged(t metal) (judged, error) {
	type result struct {
		of  map[string]*judged
		err error
	}
	v := r.b.Keep(judgedKey{}, func() any {
		of, err := oneFault(r)
		return result{of, err}
	}).(result)
	if v.err != nil {
		return judged{}, v.err
	}
	return *v.of[t.terminal], nil
}

// oneFault judges every piece of metal that is touched, position by position: no
// circuit of a position that was left is kept.
func oneFault(r *room) (map[string]*judged, error) {
	setups, err := r.setups(danger)
	if err != nil {
		return nil, err
	}
	if err := r.budget(setups, false); err != nil {
		return nil, err
	}
	of := map[string]*judged{}
	for _, t := range r.metals {
		of[t.terminal] = &judged{}
	}
	for _, s := range setups {
		m, err := r.model(s)
		if err != nil {
			return nil, err
		}
		for _, t := range r.metals {
			if !t.touched {
				continue
			}
			for _, f := range m.asked(t) {
				if err := of[t.terminal].take(m, f, t); err != nil {
					return nil, err
				}
			}
		}
	}
	return of, nil
}

// asked are the faults that judge a piece of metal, one of those that are one
// and the same change of the circuit.
func (m *model) asked(t metal) []fault {
	type change struct {
		a, b  int32
		z     complex128
		left  bool
		layer bool
	}
	c := m.b.Circuit(m.state)
	seen := map[change]bool{}
	var out []fault
	for _, f := range m.faults() {
		if !m.concerns(f, t) || m.limiter && f.to == "" && m.lampsInHot() {
			continue
		}
		if len(f.branches) == 1 && f.branches[0].In == "" && len(f.without) == 0 && !f.exchange() {
			b := f.branches[0]
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
func (m *model) concerns(f fault, t metal) bool {
	if f.leak() && m.limiter {
		return false // with a lamp nothing opens: dead is worst
	}
	here := f.to != "" && m.same(f.to, t.terminal)
	if !m.bonded(t.terminal) {
		w := m.b.Wired() // by what conducts: a fuse in the ground is no bond of wire, and no matter of that rule
		return !(f.layer() && here && w.Construction == "transformer" && w.Bonded != "yes" && m.same(t.terminal, sheet.Chassis))
	}
	switch {
	case f.to != "":
		return here
	case f.Kind == WireParted:
		return !m.bondedWithout(t.terminal, f.without[0])
	}
	return f.exchange() || len(f.branches) == 1 && f.branches[0].In == groundWire
}

// take counts one fault: nothing of it where something opens in its time.
func (j *judged) take(m *model, f fault, t metal) error {
	w := &j.other
	left := m.leftToBranch(f, t)
	if left {
		w = &j.branch
	}
	limit := limit("one-fault")
	h, err := m.find(f, t.terminal, math.Min(limit, w.high))
	if err != nil {
		return err
	}
	if h.amps <= limit {
		w.take(0, h.amps, func() (string, []string) { return h.at.tell(f, t, h.hand, opens{}), h.at.lines(t, h.hand) })
		return nil
	}
	e := m.settled(f, h, t)
	if left && !f.leak() && e.held != sure && !(e.device.Kind == BranchDevice && e.latest <= math.MaxFloat64) { // nor does that open it
		left, w = false, &j.other
	}
	low := 0.0
	switch {
	case e.held == sure && !e.lethal, left && m.devices.plugFuse > 0:
		return nil
	case e.held == sure: // it ends in its time, and what flows until then can kill
		w = &j.branch
	case e.held == no:
		low = m.leastTouch(m.setup, f, t)
	}
	w.take(low, h.amps, func() (string, []string) {
		f, h := m.orSound(f, t, h)
		return h.at.tell(f, t, h.hand, e.opens), h.at.lines(t, h.hand)
	})
	return nil
}

// settled is what opens with a fault, and how sure that is, with all that the
// sheet leaves open.
func (m *model) settled(f fault, h found, t metal) ending {
	limit := limit("one-fault")
	e := m.ends(f, h, t.terminal, limit)
	if e.held == sure && slices.ContainsFunc(m.metals, func(t metal) bool { return t.beside && !t.read }) {
		e.held = maybe // of insulation that nobody measured the middle endangers most
	}
	if e.held == sure && m.anyLamp {
		e.held = maybe // with a smaller lamp it may never open
	}
	if f.leak() {
		e.held = no // by its very resistance
		if r, ok := m.devices.residual(); ok && r.ignores <= limit {
			e.held = maybe
		}
	}
	return e
}

// leftToBranch tells whether a fault to bonded metal is ahead of the set's
// first fuse, so that only what stands ahead of the cord can open it, and no
// residual device does.
func (m *model) leftToBranch(f fault, t metal) bool {
	if r, ok := m.devices.residual(); ok && m.alive(r, f) {
		return false
	}
	return f.ahead && f.to != "" && m.earthing == "tn" && m.bonded(t.terminal)
}
