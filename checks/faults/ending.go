package faults

import (
	"math"
	"math/cmplx"

	"firstvolt/checks/circuit"
	"firstvolt/checks/handbook"
	"firstvolt/checks/mains"
)

// surety is how well it is known that something opens in its time.
type surety uint8

const (
	no surety = iota
	maybe
	sure
)

// ending is what opens with a fault while a person holds the metal, what that
// person gets afterwards in A at most, and how sure it is that all is over
// before it comes to harm.
type ending struct {
	opens
	held  surety
	after float64
	// lethal: what flows until then can kill by the row of its own duration.
	lethal bool
}

// until asks whether a current that flows until it ends can kill.
func (e ending) until(amps float64) ending {
	effect, _ := handbook.Effect("ac", amps, e.latest)
	e.lethal = effect == handbook.CanKill
	return e
}

// never is the end where nothing opens.
func never() ending { return ending{opens: opens{latest: math.Inf(1)}} }

// better prefers what opens for certain in its time, then what opens first.
func (e ending) better(than ending) bool {
	switch {
	case e.device.Kind == NoDevice || than.device.Kind == NoDevice:
		return e.device.Kind != NoDevice
	case e.held != than.held:
		return e.held > than.held
	}
	return e.latest < than.latest
}

// ends finds what opens with the fault with which a person finds x on the metal.
// A person who gets no more than limit afterwards has come to no harm.
func (m *model) ends(f fault, x found, terminal string, limit float64) ending {
	best := never()
	if !m.mayOpen(f, x.solved) {
		return best
	}
	s := m.Setup
	s.Pick = mains.Clearing
	slow, err := m.Chain.Circuit(s)
	if err != nil {
		return best
	}
	weak, _, err := f.warm(slow)
	if err != nil {
		return best
	}
	return m.race(f, x, weak, terminal, limit, min(len(m.Fuses), mostInTurn))
}

// mostInTurn is how many fuses that open one after another are asked for what
// opens next. What opens after more is taken for never.
const mostInTurn = 8

// race finds what opens first. A fuse in the wrong conductor may: what then
// still opens is asked again without it.
func (m *model) race(f fault, x found, weak *circuit.Solved, terminal string, limit float64, fuses int) ending {
	strong, at := x.solved, x.at
	best, wrong := never(), never()
	take := func(e ending) {
		if e.device.Kind != NoDevice && e.better(best) {
			best = e
		}
	}
	take(m.residualEnds(f, strong, weak, terminal, x.Other, limit))
	for _, name := range m.Fuses {
		e := m.fuseEnds(name, f, strong, weak, at, terminal, limit).until(x.Amps)
		if take(e); e.device.Kind != NoDevice && !(e.after <= limit) && e.earliest < wrong.latest {
			wrong = e
		}
	}
	// A plug fuse is known by its rating alone: at ten times that it opens in a
	// moment (common practice).
	line, err := weak.Current(mains.LineWire)
	if err != nil {
		return best
	}
	allowed := m.allowed()
	if m.chain.devices.plugFuse > 0 && cmplx.Abs(line) >= 10*m.chain.devices.plugFuse {
		e := ending{opens: opens{device: Device{Kind: PlugFuse}, latest: allowed, known: true}}
		if e.after = m.leftWithout(mains.CordHot, strong, at, terminal); e.after <= limit && m.Earthing == "tn" {
			e.held = sure
		}
		take(e.until(x.Amps))
	}
	if amps := cmplx.Abs(line); amps >= m.chain.devices.branch.Never() {
		latest := m.chain.devices.branch.OpensBy(amps, allowed)
		e := ending{opens: opens{device: Device{Kind: BranchDevice}, latest: latest, known: true}, held: maybe}
		take(e.until(x.Amps))
	}
	if wrong.device.Kind == NoDevice || best.device == wrong.device || !(wrong.earliest < best.latest) {
		return best
	}
	x.solved, err = strong.With(parted(wrong.device.Of))
	weak, err2 := weak.With(parted(wrong.device.Of))
	if err == nil && err2 == nil && fuses > 0 {
		switch e := m.race(f, x, weak, terminal, limit, fuses-1); {
		case e.held == sure:
			best.latest += e.latest
			return best.until(x.Amps)
		case best.held == maybe && e.held == maybe && e.device == best.device && e.device.Kind == BranchDevice:
			// It carries enough throughout, with that fuse and without it.
			best.latest = math.Max(best.latest, e.latest)
			return best.until(x.Amps)
		}
	}
	return wrong
}

// allowed is the longest that a fault to earth may last, in s.
func (m *model) allowed() float64 {
	t, _, ok := handbook.DisconnectWithin("tn", m.Bench.Sheet.Region.Nominal)
	if !ok {
		return 0
	}
	return t
}

// mayOpen tells whether any device carries enough, with the most that flows,
// to open at all: a fuse more than its rating, a residual device more than it
// must ignore.
func (m *model) mayOpen(f fault, strong *circuit.Solved) bool {
	if r, ok := m.chain.devices.residual(); ok && m.alive(r, f) {
		return true // a person alone may open it
	}
	line, err := strong.Current(mains.LineWire)
	if err != nil {
		return true
	}
	least := m.chain.devices.branch.Rating
	if m.chain.devices.plugFuse > 0 {
		least = math.Min(least, m.chain.devices.plugFuse)
	}
	for _, name := range m.Fuses {
		rating, ok := m.Bench.Sheet.Part(name).Value("rating")
		if !ok {
			return true
		}
		least = math.Min(least, rating.Low)
	}
	return !(cmplx.Abs(line) <= least)
}

// alive tells whether a residual device that counts works with the fault.
func (m *model) alive(r residual, f fault) bool {
	return !f.deaf && !(f.neutralOpen && r.kind == "gfci" && r.form != "portable")
}

// sweep is in how many steps a person's impedance goes from the least that few
// have at a high voltage to that of the measuring network.
const sweep = 6

// residualEnds asks the residual device: one that guards people and opens within
// the time that its standard gives it holds. With less impedance a person gets
// more and it opens sooner, with more it may never: of all impedances from the
// least to the network's the worst pair of current and time counts, at the end
// of all values that most flows at and at the end that least does.
func (m *model) residualEnds(f fault, strong, weak *circuit.Solved, terminal, other string, limit float64) ending {
	r, ok := m.chain.devices.residual()
	if !ok || !m.alive(r, f) {
		return never()
	}
	e, most := ending{opens: opens{device: r.device(), known: true}, held: sure}, 0.0
	for _, s := range []*circuit.Solved{strong, weak} {
		p, err := m.port(s, terminal, other)
		if err != nil {
			return never()
		}
		low, high := m.Person.Lowest(p.volts, p.z), m.Person.Z
		for k := range sweep {
			part := float64(k) / (sweep - 1)
			z := cmplx.Rect(math.Pow(low, 1-part)*math.Pow(cmplx.Abs(high), part), cmplx.Phase(high)*part)
			amps := p.volts / (p.z + z)
			seen := cmplx.Abs(p.escaping + p.share*amps)
			t, _, ok := handbook.ResidualTime(r.kind, r.rating, seen)
			if !ok {
				t = math.Inf(1)
			}
			e.latest, most = math.Max(e.latest, t), math.Max(most, seen)
			effect, _ := handbook.Effect("ac", cmplx.Abs(amps), t)
			e.lethal = e.lethal || effect == handbook.CanKill
			switch {
			case cmplx.Abs(amps) <= limit:
			case math.IsInf(t, 1) && seen > r.ignores && rank(effect) < rank(handbook.CanKill):
				e.held = min(e.held, maybe)
			case math.IsInf(t, 1), !r.guardsFor(r.low) && effect == handbook.CanKill:
				e.held = no
			case !r.guardsFor(r.rating) && effect == handbook.CanKill:
				e.held = min(e.held, maybe)
			}
		}
	}
	if !(most > r.ignores) {
		return never()
	}
	return e
}

// port is what a person closes: volts and impedance between two pieces of
// metal, what escapes without a person, and how much of a person's current
// escapes as well.
type port struct {
	volts, z, escaping, share complex128
}

func (m *model) port(s *circuit.Solved, a, b string) (p port, err error) {
	if p.volts, err = s.Voltage(a, b); err != nil {
		return p, err
	}
	if p.z, err = s.Impedance(a, b); err != nil {
		return p, err
	}
	p.escaping = escapes(s)
	with, err := s.With(circuit.Branch{A: a, B: b, Z: m.Person.Z})
	if err != nil {
		return p, err
	}
	if amps := p.volts / (p.z + m.Person.Z); amps != 0 {
		p.share = (escapes(with) - p.escaping) / amps
	}
	return p, nil
}

// fuseEnds asks one fuse of the set, between the least and the most that it
// carries.
func (m *model) fuseEnds(name string, f fault, strong, weak *circuit.Solved, at *mains.Circuit, terminal string, limit float64) ending {
	low, err := weak.Current(name)
	high, err2 := m.surgeThrough(name, f, strong)
	if err != nil || err2 != nil {
		return ending{opens: opens{device: Device{Kind: Fuse, Of: name}, latest: math.Inf(1)}, held: maybe, after: math.Inf(1)}
	}
	e := ending{opens: m.chain.fuse(name, cmplx.Abs(low), cmplx.Abs(high))}
	if rating, ok := m.Bench.Sheet.Part(name).Value("rating"); ok && cmplx.Abs(high) <= rating.Low {
		return never()
	}
	e.after = m.leftWithout(name, strong, at, terminal)
	allowed := m.allowed()
	switch {
	case m.Earthing != "tn" || !(e.after <= limit): // no fuse clears without neutral at earth, or one in the wrong conductor
	case e.known && e.latest <= allowed:
		e.held = sure
	case !e.known || e.earliest <= allowed:
		e.held = maybe
	}
	return e
}

// surgeThrough is the most current through a fuse: that of strong, unless the
// way back is taken long there, as behind a live chassis.
func (m *model) surgeThrough(name string, f fault, strong *circuit.Solved) (complex128, error) {
	amps, err := strong.Current(name)
	if err != nil || !m.LiveMetal() {
		return amps, err
	}
	s := m.Setup
	s.Surge = true
	most, err := m.Chain.Circuit(s)
	if err != nil {
		return amps, err
	}
	solved, _, err := f.warm(most)
	if err != nil {
		return amps, err
	}
	other, err := solved.Current(name)
	if cmplx.Abs(other) > cmplx.Abs(amps) {
		amps = other
	}
	return amps, err
}

// leftWithout is what a person gets once an element has opened, in A.
func (m *model) leftWithout(element string, s *circuit.Solved, at *mains.Circuit, terminal string) float64 {
	after, err := s.With(parted(element))
	if err != nil {
		return math.Inf(1)
	}
	h, err := at.Touch(after, terminal)
	if err != nil {
		return math.Inf(1)
	}
	return h.Amps
}

// escapes is the current in A that a residual device sees: what goes out
// through the line conductors and does not come back by them.
func escapes(s *circuit.Solved) complex128 {
	a, err := s.Current(mains.LineWire)
	b, err2 := s.Current(mains.NeutralWire)
	if err != nil || err2 != nil {
		return 0
	}
	return a + b
}

func escaping(s *circuit.Solved) float64 { return cmplx.Abs(escapes(s)) }
