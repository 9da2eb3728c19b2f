package faults

import (
	"cmp"
	"math"
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/handbook"
	"firstvolt/checks/mains"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
	"firstvolt/checks/sheet"
)

// Contained is the effect of a current that something ends in its time. The
// others are those of the handbook: not felt, felt, cannot let go, can kill.
const Contained = "contained"

// NotSolved is the effect where a rectifier or what strikes takes part, so that
// this circuit does not say what flows.
const NotSolved = "not solved"

// Case is what a person finds on one piece of metal with one thing at fault.
type Case struct {
	Which
	Inside bool // the metal is in reach only while the cabinet is off
	// Before and After are the current in A through the person, rms, before
	// anything opens and after: from what is certain to what may be. After is
	// Before where nothing opens.
	Before, After quantity.Range
	Opens         Device  // what opens; zero: nothing
	Earliest      float64 // s from the onset; 0 where not known
	Latest        float64 // s; +Inf where nothing need open
	MayFail       bool    // more flows than the fuse that opens is sure to interrupt
	Effect        string  // by published thresholds, or Contained, or NotSolved
	// Unsolved: a rectifier or what strikes takes part; Before is what is certain
	// besides, and that nothing opens is not said.
	Unsolved bool
	Heat     Heat // where nothing need open
}

// Table lists every case of the set: nothing and each single fault, alone and
// together with each latent one, in every switch position and orientation,
// with and without lamps, on each system of earthing that the sheet leaves open,
// for each piece of metal of the set, inside its
// cabinet too, and for the pins of the pulled plug. Worst first. Cases that
// nothing was to be found out of (a floating chassis behind a parted wire) are
// in it with no current. It is an error where a circuit has no answer, or where
// there are more positions than are tried.
func Table(b *bench.Bench) ([]Case, error) { return tableOf(b, (*model).layers) }

// Singles is the table without the latent layers: the cases that are judged.
func Singles(b *bench.Bench) ([]Case, error) {
	return tableOf(b, func(m *model) ([]layer, error) { return []layer{m.single()}, nil })
}

func tableOf(b *bench.Bench, layers func(*model) ([]layer, error)) ([]Case, error) {
	var out []Case
	for _, r := range chainsOf(b) {
		cases, err := r.table(layers)
		if err != nil {
			return nil, err
		}
		out = append(out, cases...)
	}
	slices.SortStableFunc(out, worse)
	return out, nil
}

func (r *chain) table(layers func(*model) ([]layer, error)) ([]Case, error) {
	setups, err := r.Setups(mains.Danger)
	if err != nil {
		return nil, err
	}
	if err := r.budget(setups, true); err != nil {
		return nil, err
	}
	var out []Case
	for _, s := range setups {
		m, err := r.model(s)
		if err != nil {
			return nil, err
		}
		if c, ok := m.unplugged(); ok {
			out = append(out, c)
		}
		of, err := layers(m)
		if err != nil {
			return nil, err
		}
		for _, l := range of {
			cases, err := l.cases()
			if err != nil {
				return nil, err
			}
			out = append(out, cases...)
		}
	}
	return out, nil
}

// worse puts the worse case first: by effect, then by current.
func worse(a, b Case) int {
	return cmp.Or(cmp.Compare(rank(b.Effect), rank(a.Effect)), cmp.Compare(b.Before.High, a.Before.High))
}

func rank(effect string) int {
	return slices.Index([]string{handbook.NotFelt, handbook.Felt, Contained, NotSolved, handbook.CannotLetGo, handbook.CanKill}, effect)
}

// layer is one latent fault, or none, and what can come on top of it.
type layer struct {
	m      *model // of what the receptacle does with it
	at     mains.Position
	latent Fault
	faults []fault
}

// all are the faults of m and the case without any.
func (m *model) all() []fault {
	return append([]fault{{}}, m.faults()...)
}

// single is no latent fault and what can come.
func (m *model) single() layer { return layer{m: m, at: m.Position(), faults: m.all()} }

// layers are no latent fault and each latent one. What is live in an exchanged
// receptacle is another list of wires: it is asked of the exchanged set.
func (m *model) layers() ([]layer, error) {
	all := m.all()
	out := []layer{m.single()}
	latents := append(slices.Clone(all), fault{Fault: Fault{Kind: DeviceDead}, deaf: true})
	for _, l := range latents {
		switch {
		case !l.latent():
			continue
		case l.exchange():
			s := m.Setup
			s.Exchange = !s.Exchange
			other, err := m.chain.model(s)
			if err != nil {
				return nil, err
			}
			on := layer{m: other, at: m.Position(), latent: l.Fault}
			for _, f := range other.all() {
				if !f.exchange() && !f.None() {
					on.faults = append(on.faults, f)
				}
			}
			out = append(out, on)
			continue
		}
		on := layer{m: m, at: m.Position(), latent: l.Fault}
		for _, f := range all {
			if two, ok := l.and(f); ok {
				on.faults = append(on.faults, two)
			}
		}
		out = append(out, on)
	}
	return out, nil
}

// and is a latent fault with another one; ok is false where they are one and
// the same, or where the pair is listed the other way round.
func (f fault) and(g fault) (fault, bool) {
	if f.Fault == g.Fault || g.exchange() || g.latent() && !f.deaf && f.String() > g.String() {
		return g, false
	}
	g.Branches = append(slices.Clone(f.Branches), g.Branches...)
	g.Without = append(slices.Clone(f.Without), g.Without...)
	g.neutralOpen = g.neutralOpen || f.neutralOpen
	g.deaf = g.deaf || f.deaf
	return g, true
}

func (l layer) cases() ([]Case, error) {
	var out []Case
	for _, f := range l.faults {
		heat, asked := Heat{}, false
		for _, t := range l.m.Metals {
			if !t.First {
				continue
			}
			c, err := l.m.tabled(f, t)
			if err != nil {
				return nil, err
			}
			c.Latent, c.Position = l.latent, l.at
			if !(c.Latest <= math.MaxFloat64) {
				if !asked { // the same whoever touches what
					heat, asked = l.m.heat(f), true
				}
				c.Heat = heat
			}
			out = append(out, c)
		}
	}
	return out, nil
}

// tabled is one case: before, what opens, after, effect.
func (m *model) tabled(f fault, t mains.Metal) (Case, error) {
	c := Case{Which: Which{Fault: f.Fault, Position: m.Position(), Touch: mains.Touch{Held: t.Terminal}}, Inside: !t.Touched, Latest: math.Inf(1)}
	h, err := m.worst(f, t.Terminal)
	if err != nil {
		return c, err
	}
	if h.Other != mains.Earth {
		c.Touch.Other = h.Other
	}
	low := math.Min(m.chain.leastTouch(m.Setup, f, t), h.Amps)
	c.Before = quantity.Range{Low: low, High: h.Amps, Dim: quantity.Current}
	c.After = c.Before
	c.Effect, _ = handbook.Effect("ac", h.Amps, math.Inf(1))
	if c.Unsolved = m.unsolved(f, t); c.Unsolved && rank(c.Effect) < rank(NotSolved) {
		c.Effect = NotSolved
	}
	e := m.ends(f, h, t.Terminal, limit("one-fault"))
	if e.device.Kind == NoDevice {
		return c, nil
	}
	c.Opens, c.Earliest, c.Latest, c.MayFail = e.device, e.earliest, e.latest, e.mayFail
	if f.leak() {
		e.held = no // at the very resistance at which nothing need open
		c.Latest = math.Inf(1)
	}
	c.After = quantity.Range{Low: 0, High: math.Min(e.after, h.Amps), Dim: quantity.Current}
	if e.after > h.Amps { // what opened was in the wrong place
		c.After.High = e.after
	}
	switch {
	case e.held == sure && !e.lethal && !c.Unsolved && h.Amps > limit("one-fault"):
		c.Effect = Contained
	case !(c.Latest <= math.MaxFloat64):
		c.After.High = math.Max(c.After.High, h.Amps) // it may stay
	}
	if worst, _ := handbook.Effect("ac", c.After.High, math.Inf(1)); rank(worst) > rank(c.Effect) {
		c.Effect = worst
	}
	return c, nil
}

// unplugged is what the capacitors from line to line put through a person who
// holds the pins of the plug just pulled: ok is false where there are none. Of
// a discharge into 500 Ω the peak over √6, for three time constants, counts
// like alternating current of that rms and duration (IEC 60479-2, recalled, not
// looked up). Nothing else is taken to discharge them.
func (m *model) unplugged() (Case, bool) {
	pins := mains.Touch{Held: sheet.PlugHot, Other: sheet.PlugNeutral}
	c := Case{Which: Which{Fault: Fault{Kind: Unplugged}, Position: m.Position(), Touch: pins}, Latest: math.Inf(1)}
	if m.Exchange || m.Limiter || m.Arrangement.Again || len(m.Arrangement.Turned) > 0 {
		return c, false // the same as without
	}
	farads := m.acrossLine()
	n, ok := handbook.BodyNetwork("unweighted")
	if !(farads > 0) || !ok {
		return c, false
	}
	amps := math.Sqrt2 * m.AtSet() / n.Body / math.Sqrt(6)
	c.Before = quantity.Range{High: amps, Dim: quantity.Current}
	c.After = quantity.Range{Dim: quantity.Current}
	c.Opens, c.Earliest, c.Latest = Device{Kind: Discharge}, 0, 3*n.Body*farads
	c.Effect, _ = handbook.Effect("ac", amps, c.Latest)
	if c.Effect == handbook.CannotLetGo && c.Latest < 10e-3 {
		c.Effect = handbook.Felt // a jolt that is over before a hand can close
	}
	return c, true
}

// acrossLine is the capacitance from line to line in F.
func (m *model) acrossLine() float64 {
	sum := 0.0
	for _, e := range m.Bench.Circuit(m.State).Elements() {
		if e.Conducts != circuit.Bridging || !(m.OnHot(e.A) && m.OnCold(e.B) || m.OnHot(e.B) && m.OnCold(e.A)) {
			continue
		}
		switch p := bench.PartOfElement(&e); {
		case p == nil, !p.Is(part.Nonpolar | part.Filters | part.Polar):
		case e.C.High > 0 && !math.IsInf(e.C.High, 1):
			sum += e.C.High
		default:
			sum += mains.UnknownFarads
		}
	}
	return sum
}
