package faults

import (
	"math"
	"math/cmplx"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/mains"
	"firstvolt/checks/part"
)

// fault is one thing that goes wrong, as a change to a circuit.
type fault struct {
	Fault
	mains.Change
	deaf        bool   // no residual device opens
	neutralOpen bool   // a residual device that lives on the neutral is dead
	to          string // the metal that the mains side touches, or ""
	from        string // the terminal of the mains side that touches it
	ahead       bool   // of the first fuse, in the live conductor
	short       bool   // from one line conductor to the other
	through     bool   // to is reached through a winding, not dead
}

func (f fault) latent() bool   { return kinds[f.Kind].latent }
func (f fault) layer() bool    { return kinds[f.Kind].layer }
func (f fault) leak() bool     { return f.Kind == Leaking }   // at the resistance that endangers most while nothing opens
func (f fault) exchange() bool { return f.Kind == Exchanged } // the receptacle is wired the wrong way round

// opened is a fault that takes an element out of line.
func opened(f Fault, element string) fault {
	return fault{Fault: f, Change: mains.Change{Branches: []circuit.Branch{parted(element)}}}
}

// joined is a fault that joins two terminals by z Ω.
func joined(f Fault, a, b string, z float64) fault {
	return fault{Fault: f, Change: mains.Change{Branches: []circuit.Branch{{A: a, B: b, Z: complex(z, 0)}}}}
}

// parted takes an element out of line.
func parted(element string) circuit.Branch { return circuit.Branch{In: element, Z: cmplx.Inf()} }

// faults are the single faults of the set in the state of m, m being one with
// the dangerous end.
func (m *model) faults() []fault {
	if m.list != nil {
		return m.list
	}
	out := make([]fault, 0, 64)
	if m.Bench.Grounded() {
		out = append(out, opened(Fault{Kind: GroundOpen}, mains.GroundWire))
	}
	noNeutral := opened(Fault{Kind: NeutralOpen}, mains.NeutralWire)
	noNeutral.neutralOpen = true
	out = append(out, fault{Fault: Fault{Kind: Exchanged}, Change: mains.Change{Exchanged: true}}, noNeutral)
	for _, w := range m.Bench.Sheet.Wires {
		out = append(out, fault{Fault: Fault{Kind: WireParted, Of: w.A, Metal: w.B}, Change: mains.Change{Without: []string{w.Name}}})
	}
	out = append(out, m.touches()...)
	for _, p := range m.Bench.Sheet.Parts {
		out = append(out, m.ofPart(p)...)
	}
	m.list = out
	return out
}

// touches are a wire of the live conductor, and the mains insulation, on each
// piece of metal.
func (m *model) touches() []fault {
	var out []fault
	for _, t := range m.Metals {
		if !t.First {
			continue
		}
		for _, h := range m.Hot {
			if m.Same(h, t.Terminal) {
				continue
			}
			out = append(out, m.onto(WireTouches, h, t.Terminal, 0))
		}
		if m.Same(m.HotEnd, t.Terminal) || !t.Beside {
			continue
		}
		out = append(out, m.onto(BrokenDown, m.HotEnd, t.Terminal, 0))
		if r, ok := m.leak(t.Terminal); ok {
			out = append(out, m.onto(Leaking, m.HotEnd, t.Terminal, r))
		}
	}
	return out
}

// onto is a terminal of the mains side on metal, with r Ω between.
func (m *model) onto(k Kind, from, metal string, r float64) fault {
	f := joined(Fault{Kind: k, Of: from, Metal: metal}, from, metal, r)
	f.to, f.from, f.ahead = metal, from, m.Ahead(from)
	return f
}

// leak is the resistance between the mains side and metal at which a person
// gets most while nothing ever opens. Without a bond the current is the
// person's own: where no residual device watches it, no resistance is worse
// than none.
func (m *model) leak(terminal string) (float64, bool) {
	volts, err := m.Solved.Voltage(m.HotEnd, terminal)
	z, err2 := m.Solved.Impedance(m.HotEnd, terminal)
	if err != nil || err2 != nil {
		return 0, false
	}
	r, guarded := m.chain.devices.residual()
	if !m.Bonded(terminal) {
		if !guarded {
			return 0, false
		}
		return m.underTrip(r.trips, terminal)
	}
	amps := m.chain.devices.branch.Never()
	if m.chain.devices.plugFuse > 0 {
		amps = math.Min(amps, 1.9*m.chain.devices.plugFuse) // a plug fuse's fusing factor (BS 1362, recalled, not looked up)
	}
	if guarded {
		amps = math.Min(amps, r.trips)
	}
	if dead, err := m.Solved.With(circuit.Branch{A: m.HotEnd, B: terminal}); err == nil {
		for _, f := range m.Fuses {
			if i, err := dead.Current(f); err == nil && cmplx.Abs(i) > 0.5*cmplx.Abs(volts/z) {
				amps = math.Min(amps, m.chain.carries(f))
			}
		}
	}
	whole := cmplx.Abs(volts) / amps
	ohms := math.Sqrt(math.Max(0, whole*whole-imag(z)*imag(z))) - real(z)
	return ohms, ohms > 0
}

// underTrip is the resistance between the mains side and metal on no bond at
// which a person gets just less than a residual device opens at, if there is
// one.
func (m *model) underTrip(trips float64, terminal string) (float64, bool) {
	gets := func(ohms float64) float64 {
		s, err := m.Solved.With(circuit.Branch{A: m.HotEnd, B: terminal, Z: complex(ohms, 0)})
		if err != nil {
			return math.NaN()
		}
		v, err := s.Voltage(terminal, mains.Earth)
		z, err2 := s.Impedance(terminal, mains.Earth)
		if err != nil || err2 != nil {
			return math.NaN()
		}
		return m.Person.Current(v, z)
	}
	// From zero up, and never from what stands there without a fault: a set whose
	// capacitance holds its metal near the live end has next to no volts there.
	const least, most = 1.0, 1e9
	if !(gets(0) > trips) {
		return 0, false
	}
	low, high := 0.0, least
	for ; gets(high) > trips; high *= 4 {
		if low = high; high > most {
			return 0, false
		}
	}
	for range 30 {
		if at := (low + high) / 2; gets(at) > trips {
			low = at
		} else {
			high = at
		}
	}
	return high, true
}

// ofPart are the faults of one part.
func (m *model) ofPart(p *part.Part) []fault {
	var out []fault
	short := func(is Fault, a, b string) {
		is.Of = p.Name
		f := joined(is, a, b, 0)
		f.short = m.OnHot(a) && m.OnCold(b) || m.OnHot(b) && m.OnCold(a)
		f.ahead = m.Ahead(a) || m.Ahead(b)
		for _, metal := range m.Metals {
			for _, pair := range [][2]string{{a, b}, {b, a}} {
				if m.OnHot(pair[0]) && m.Same(pair[1], metal.Terminal) && f.to == "" {
					f.to, f.from, f.ahead = metal.Terminal, pair[0], m.Ahead(pair[0])
				}
			}
		}
		out = append(out, f)
	}
	for _, f := range p.Failures() {
		a, b := p.Full(f.A), p.Full(f.B)
		switch f.Way {
		case part.Short:
			if m.Wired(a) && m.Wired(b) && !m.trusted(p) {
				short(Fault{Kind: Shorted}, a, b)
			}
		case part.Inside:
			if m.Bench.Sheet.OnWire(a) && m.Bench.Sheet.OnWire(b) {
				short(Fault{Kind: JoinedInside, From: f.A, To: f.B}, a, b)
			}
		case part.Open:
			m.takesOut(&out, Fault{Kind: Open, Of: p.Name}, f.Element)
		case part.Parted:
			m.takesOut(&out, Fault{Kind: PinParted, Of: p.Name, From: f.A}, f.Element)
		case part.ToCase:
			short(Fault{Kind: LineToCase}, a, b)
		case part.Across:
			short(Fault{Kind: ShortedAcross}, a, b)
		case part.ToFrame:
			short(Fault{Kind: FrameBroken}, a, b)
		case part.Bridged:
			if !m.State.AllOut {
				out = append(out, joined(Fault{Kind: Bridged, Of: p.Name}, a, b, 0))
			}
		case part.Stuck:
			out = append(out, m.sticks(f, a, b, Fault{Kind: StuckOpen, Of: p.Name, Pole: f.Pole}, Fault{Kind: StuckClosed, Of: p.Name, Pole: f.Pole})...)
		case part.ContactStuck:
			of := Fault{Kind: ContactOpen, Of: p.Name, From: f.A, To: f.B}
			closed := of
			closed.Kind = ContactClosed
			out = append(out, m.sticks(f, a, b, of, closed)...)
		case part.Insulated:
			out = append(out, m.betweenWindings(p)...)
			m.windings(p, short)
		}
	}
	return out
}

// takesOut adds a fault that takes an element out, where it is there and used.
func (m *model) takesOut(out *[]fault, f Fault, element string) {
	if m.Has(element) {
		*out = append(*out, opened(f, element))
	}
}

// sticks is a contact that no longer moves: open where it is closed, and closed
// where it is open and wired.
func (m *model) sticks(f part.Failure, a, b string, open, closed Fault) []fault {
	switch {
	case m.Has(f.Element):
		return []fault{{Fault: open, Change: mains.Change{Without: []string{f.Element}}}}
	case m.Wired(a) && m.Wired(b):
		return []fault{joined(closed, a, b, 0)}
	}
	return nil
}

// windings are those of a part, each shorted, and each of its sections.
func (m *model) windings(p *part.Part, short func(is Fault, a, b string)) {
	for _, w := range p.Windings {
		for i := 1; i < len(w.Order); i++ {
			if a, b := p.Full(w.Order[i-1]), p.Full(w.Order[i]); m.Wired(a) && m.Wired(b) && len(w.Order) > 2 {
				short(Fault{Kind: SectionShorted, Winding: w.Name, From: w.Order[i-1], To: w.Order[i]}, a, b)
			}
		}
		if a, b := p.Full(w.Ends[0]), p.Full(w.Ends[1]); m.Wired(a) && m.Wired(b) {
			short(Fault{Kind: WindingShorted, Winding: w.Name}, a, b)
		}
	}
}

// betweenWindings are the insulation of a primary to each other winding of the
// part broken down, at either end of it.
func (m *model) betweenWindings(p *part.Part) []fault {
	if m.Bench.PartOf(m.HotEnd) != p {
		return nil
	}
	var out []fault
	c := m.Bench.Circuit(m.State)
	for _, w := range p.Windings {
		if m.Bench.WindingRole(bench.PartWinding{Part: p, Winding: w}) == "primary" {
			continue
		}
		for _, end := range w.Ends {
			at := p.Full(end)
			if !m.Wired(at) || m.Same(at, m.HotEnd) {
				continue
			}
			f := m.onto(BrokenDown, m.HotEnd, at, 0)
			f.to = ""
			reach := c.Reach([]string{at}, bench.Conductors)
			for _, t := range m.Metals {
				if f.to == "" && t.First && reach.Has(t.Terminal) {
					f.to, f.through = t.Terminal, !m.Same(at, t.Terminal)
				}
			}
			out = append(out, f)
		}
	}
	return out
}

// trusted tells a capacitor that is not taken to short: class Y1 within its
// rated voltage (IEC 60384-14; IEC 62368-1 annex G counts it as reinforced).
func (m *model) trusted(p *part.Part) bool {
	v, ok := p.Value("voltage")
	nominal, _ := m.Bench.ToEarth()
	return p.Is(part.Nonpolar) && p.Word("class") == "Y1" && ok && v.Low >= nominal.High
}

// sound tells whether nothing at all is changed.
func (f fault) sound() bool {
	return f.None() && len(f.Branches) == 0 && len(f.Without) == 0 && !f.deaf
}
