package faults

import (
	"fmt"
	"math"
	"math/cmplx"
	"slices"
	"strconv"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
)

// fault is one thing that goes wrong, as a change to a circuit.
type fault struct {
	Fault
	branches    []circuit.Branch
	without     []string // wires and contacts that are parted
	deaf        bool     // no residual device opens
	neutralOpen bool     // a residual device that lives on the neutral is dead
	to          string   // the metal that the mains side touches, or ""
	from        string   // the terminal of the mains side that touches it
	ahead       bool     // of the first fuse, in the live conductor
	short       bool     // from one line conductor to the other
	through     bool     // to is reached through a winding, not dead
}

func (f fault) latent() bool   { return kinds[f.Kind].latent }
func (f fault) layer() bool    { return kinds[f.Kind].layer }
func (f fault) leak() bool     { return f.Kind == Leaking }   // at the resistance that endangers most while nothing opens
func (f fault) exchange() bool { return f.Kind == Exchanged } // the receptacle is wired the wrong way round

// opened is a fault that takes an element out of line.
func opened(f Fault, element string) fault {
	return fault{Fault: f, branches: []circuit.Branch{parted(element)}}
}

// joined is a fault that joins two terminals by z Ω.
func joined(f Fault, a, b string, z float64) fault {
	return fault{Fault: f, branches: []circuit.Branch{{A: a, B: b, Z: complex(z, 0)}}}
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
	if m.b.Grounded() {
		out = append(out, opened(Fault{Kind: GroundOpen}, groundWire))
	}
	noNeutral := opened(Fault{Kind: NeutralOpen}, neutralWire)
	noNeutral.neutralOpen = true
	out = append(out, fault{Fault: Fault{Kind: Exchanged}}, noNeutral)
	for _, w := range m.b.Sheet.Wires {
		out = append(out, fault{Fault: Fault{Kind: WireParted, Of: w.A, Metal: w.B}, without: []string{w.Name}})
	}
	out = append(out, m.touches()...)
	for _, p := range m.b.Sheet.Parts {
		out = append(out, m.ofPart(p)...)
	}
	m.list = out
	return out
}

// touches are a wire of the live conductor, and the mains insulation, on each
// piece of metal.
func (m *model) touches() []fault {
	var out []fault
	for _, t := range m.metals {
		if !t.first {
			continue
		}
		for _, h := range m.hot {
			if m.same(h, t.terminal) {
				continue
			}
			out = append(out, m.onto(WireTouches, h, t.terminal, 0))
		}
		if m.same(m.hotEnd, t.terminal) || !t.beside {
			continue
		}
		out = append(out, m.onto(BrokenDown, m.hotEnd, t.terminal, 0))
		if r, ok := m.leak(t.terminal); ok {
			out = append(out, m.onto(Leaking, m.hotEnd, t.terminal, r))
		}
	}
	return out
}

// onto is a terminal of the mains side on metal, with r Ω between.
func (m *model) onto(k Kind, from, metal string, r float64) fault {
	f := joined(Fault{Kind: k, Of: from, Metal: metal}, from, metal, r)
	f.to, f.from, f.ahead = metal, from, m.ahead(from)
	return f
}

// same tells whether two terminals are one net in this state.
func (m *model) same(a, b string) bool { return m.b.Circuit(m.state).SameNet(a, b) }

// ahead tells whether the live conductor reaches the terminal past no fuse.
func (m *model) ahead(terminal string) bool {
	if m.unfused == nil {
		live := sheet.PlugHot
		if m.crossed {
			live = sheet.PlugNeutral
		}
		m.unfused = m.b.Circuit(m.state).Reach([]string{live}, func(e *circuit.Element) bool {
			p := bench.PartOfElement(e)
			return (bench.Contacts(e) || inLine(e)) && (p == nil || p.Kind.Name != "fuse")
		})
	}
	return m.unfused.Has(terminal)
}

// leak is the resistance between the mains side and metal at which a person
// gets most while nothing ever opens. Without a bond the current is the
// person's own: where no residual device watches it, no resistance is worse
// than none.
func (m *model) leak(terminal string) (float64, bool) {
	volts, err := m.solved.Voltage(m.hotEnd, terminal)
	z, err2 := m.solved.Impedance(m.hotEnd, terminal)
	if err != nil || err2 != nil {
		return 0, false
	}
	r, guarded := m.devices.residual()
	if !m.bonded(terminal) {
		if !guarded {
			return 0, false
		}
		return m.underTrip(r.trips, terminal)
	}
	amps := m.devices.branch.Never()
	if m.devices.plugFuse > 0 {
		amps = math.Min(amps, 1.9*m.devices.plugFuse) // a plug fuse's fusing factor (BS 1362, recalled, not looked up)
	}
	if guarded {
		amps = math.Min(amps, r.trips)
	}
	if dead, err := m.solved.With(circuit.Branch{A: m.hotEnd, B: terminal}); err == nil {
		for _, f := range m.fuses {
			if i, err := dead.Current(f); err == nil && cmplx.Abs(i) > 0.5*cmplx.Abs(volts/z) {
				amps = math.Min(amps, m.carries(f))
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
		s, err := m.solved.With(circuit.Branch{A: m.hotEnd, B: terminal, Z: complex(ohms, 0)})
		if err != nil {
			return math.NaN()
		}
		v, err := s.Voltage(terminal, earth)
		z, err2 := s.Impedance(terminal, earth)
		if err != nil || err2 != nil {
			return math.NaN()
		}
		return m.person.current(v, z)
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

// bonded tells whether wire alone joins the metal to the ground pin.
func (m *model) bonded(terminal string) bool {
	if m.grounded == nil {
		m.grounded = m.b.Circuit(m.state).Reach([]string{sheet.PlugGround}, bench.GroundPath)
	}
	return m.b.Grounded() && m.grounded.Has(terminal)
}

// bondedWithout is bonded with one wire parted.
func (m *model) bondedWithout(terminal, wire string) bool {
	return m.bonded(terminal) && m.b.Circuit(m.state).Reach([]string{sheet.PlugGround}, func(e *circuit.Element) bool {
		return e.Name != wire && bench.GroundPath(e)
	}).Has(terminal)
}

// ofPart are the faults of one part.
func (m *model) ofPart(p *part.Part) []fault {
	var out []fault
	t := p.Terminals()
	short := func(is Fault, a, b string) {
		is.Of = p.Name
		f := joined(is, a, b, 0)
		f.short = m.onHot(a) && m.onCold(b) || m.onHot(b) && m.onCold(a)
		f.ahead = m.ahead(a) || m.ahead(b)
		for _, metal := range m.metals {
			for _, pair := range [][2]string{{a, b}, {b, a}} {
				if m.onHot(pair[0]) && m.same(pair[1], metal.terminal) && f.to == "" {
					f.to, f.from, f.ahead = metal.terminal, pair[0], m.ahead(pair[0])
				}
			}
		}
		out = append(out, f)
	}
	switch p.Kind.Name {
	case "capacitor", "electrolytic", "varistor", "neon", "arrester", "resistor", "thermistor", "choke":
		if len(t) >= 2 && m.wired(p.Full(t[0])) && m.wired(p.Full(t[1])) {
			if !m.trusted(p) {
				short(Fault{Kind: Shorted}, p.Full(t[0]), p.Full(t[1]))
			}
			if m.has(p.Name) {
				out = append(out, opened(Fault{Kind: Open, Of: p.Name}, p.Name))
			}
		}
	case "filter":
		short(Fault{Kind: LineToCase}, p.Full("line-out"), p.Full("case"))
		short(Fault{Kind: ShortedAcross}, p.Full("line-in"), p.Full("neutral-in"))
	case "fuse":
		if !m.state.AllOut && len(t) == 2 {
			out = append(out, joined(Fault{Kind: Bridged, Of: p.Name}, p.Full(t[0]), p.Full(t[1]), 0))
		}
	case "switch":
		for k := 1; k <= p.Poles(); k++ {
			a, b := p.Full(strconv.Itoa(2*k-1)), p.Full(strconv.Itoa(2*k))
			contact := fmt.Sprintf("%s %d-%d", p.Name, 2*k-1, 2*k)
			if m.has(contact) {
				out = append(out, fault{Fault: Fault{Kind: StuckOpen, Of: p.Name, Pole: k}, without: []string{contact}})
			} else if m.wired(a) && m.wired(b) {
				out = append(out, joined(Fault{Kind: StuckClosed, Of: p.Name, Pole: k}, a, b, 0))
			}
		}
	case "transformer", "output-transformer", "autotransformer":
		out = append(out, m.betweenWindings(p)...)
		for _, w := range p.Windings {
			for i := 1; i < len(w.Order); i++ {
				if a, b := p.Full(w.Order[i-1]), p.Full(w.Order[i]); m.wired(a) && m.wired(b) && len(w.Order) > 2 {
					short(Fault{Kind: SectionShorted, Winding: w.Name, From: w.Order[i-1], To: w.Order[i]}, a, b)
				}
			}
			if a, b := p.Full(w.Ends[0]), p.Full(w.Ends[1]); m.wired(a) && m.wired(b) {
				short(Fault{Kind: WindingShorted, Winding: w.Name}, a, b)
			}
		}
	case "motor":
		short(Fault{Kind: Shorted}, p.Full("1"), p.Full("2"))
		short(Fault{Kind: FrameBroken}, p.Full("1"), p.Full("frame"))
	}
	return out
}

// betweenWindings are the insulation of a primary to each other winding of the
// part broken down, at either end of it.
func (m *model) betweenWindings(p *part.Part) []fault {
	if m.b.PartOf(m.hotEnd) != p {
		return nil
	}
	var out []fault
	c := m.b.Circuit(m.state)
	for _, w := range p.Windings {
		if m.b.WindingRole(bench.PartWinding{Part: p, Winding: w}) == "primary" {
			continue
		}
		for _, end := range w.Ends {
			at := p.Full(end)
			if !m.wired(at) || m.same(at, m.hotEnd) {
				continue
			}
			f := m.onto(BrokenDown, m.hotEnd, at, 0)
			f.to = ""
			reach := c.Reach([]string{at}, bench.Conductors)
			for _, t := range m.metals {
				if f.to == "" && t.first && reach.Has(t.terminal) {
					f.to, f.through = t.terminal, !m.same(at, t.terminal)
				}
			}
			out = append(out, f)
		}
	}
	return out
}

// onHot and onCold tell whether the live or the other conductor reaches a
// terminal by contacts and the like.
func (m *model) onHot(t string) bool {
	return slices.ContainsFunc(m.hot, func(h string) bool { return m.same(h, t) })
}

func (m *model) onCold(t string) bool {
	return slices.ContainsFunc(m.cold, func(h string) bool { return m.same(h, t) })
}

// has tells whether the element is in the circuit.
func (m *model) has(element string) bool {
	return slices.ContainsFunc(m.es, func(e circuit.Element) bool { return e.Name == element })
}

// wired tells whether anything in the circuit has the terminal.
func (m *model) wired(terminal string) bool {
	if m.joined == nil {
		m.joined = make(map[string]bool, len(m.es))
		for i := range m.es {
			m.joined[m.es[i].A], m.joined[m.es[i].B] = true, true
		}
	}
	return m.joined[terminal]
}

// trusted tells a capacitor that is not taken to short: class Y1 within its
// rated voltage (IEC 60384-14; IEC 62368-1 annex G counts it as reinforced).
func (m *model) trusted(p *part.Part) bool {
	v, ok := p.Value("voltage")
	nominal, _ := m.b.ToEarth()
	return p.Kind.Name == "capacitor" && p.Word("class") == "Y1" && ok && v.Low >= nominal.High
}

// sound tells whether nothing at all is changed.
func (f fault) sound() bool {
	return f.None() && len(f.branches) == 0 && len(f.without) == 0 && !f.deaf
}
