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
	name, subject string
	branches      []circuit.Branch
	without       []string // wires and contacts that are parted
	exchange      bool     // the receptacle is wired the wrong way round
	deaf          bool     // no residual device opens
	neutralOpen   bool     // a residual device that lives on the neutral is dead
	to            string   // the metal that the mains side touches, or ""
	from          string   // the terminal of the mains side that touches it
	layer         bool     // a wire or insulation that touches metal: what one layer kept apart
	ahead         bool     // of the first fuse, in the live conductor
	leak          bool     // at the resistance that endangers most while nothing opens
	short         bool     // from one line conductor to the other
	latent        bool     // one that nobody notices
	through       bool     // to is reached through a winding, not dead
	line          bool     // in the supply or the wiring: it can change what metal carries
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
		out = append(out, fault{name: "ground open", subject: "supply", branches: []circuit.Branch{parted(groundWire)}, latent: true, line: true})
	}
	out = append(out,
		fault{name: "hot and neutral exchanged", subject: "supply", exchange: true, latent: true, line: true},
		fault{name: "neutral open", subject: "supply", branches: []circuit.Branch{parted(neutralWire)}, neutralOpen: true, latent: true, line: true})
	for _, w := range m.b.Sheet.Wires {
		out = append(out, fault{name: "wire parted", subject: w.A + " – " + w.B, without: []string{w.Name}, line: true})
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
			out = append(out, fault{name: "wire touches " + t.terminal, subject: h, to: t.terminal, from: h, layer: true,
				ahead: m.ahead(h), branches: []circuit.Branch{{A: h, B: t.terminal}}})
		}
		if m.same(m.hotEnd, t.terminal) || !t.beside {
			continue
		}
		broken := fault{name: "insulation to " + t.terminal + " broken down", subject: m.hotEnd, to: t.terminal, from: m.hotEnd, layer: true,
			ahead: m.ahead(m.hotEnd), branches: []circuit.Branch{{A: m.hotEnd, B: t.terminal}}}
		out = append(out, broken)
		if r, ok := m.leak(t.terminal); ok {
			broken.name = "insulation to " + t.terminal + " leaking"
			broken.leak = true
			broken.branches = []circuit.Branch{{A: m.hotEnd, B: t.terminal, Z: complex(r, 0)}}
			out = append(out, broken)
		}
	}
	return out
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
		return m.underTrip(r.trips, terminal, cmplx.Abs(volts))
	}
	amps := 1.45 * m.devices.branch // a breaker's conventional tripping current (IEC 60898, recalled, not looked up)
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
func (m *model) underTrip(trips float64, terminal string, volts float64) (float64, bool) {
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
	low, high := 0.0, volts/trips
	if !(gets(low) > trips) || !(gets(high) <= trips) {
		return 0, false
	}
	for range 20 {
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
	short := func(name, a, b string) {
		f := fault{name: name, subject: p.Name, branches: []circuit.Branch{{A: a, B: b}}}
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
				short("shorted", p.Full(t[0]), p.Full(t[1]))
			}
			if m.has(p.Name) {
				out = append(out, fault{name: "open", subject: p.Name, branches: []circuit.Branch{parted(p.Name)}, line: true})
			}
		}
	case "filter":
		short("line shorted to case", p.Full("line-out"), p.Full("case"))
		short("shorted across", p.Full("line-in"), p.Full("neutral-in"))
	case "fuse":
		if !m.state.AllOut && len(t) == 2 {
			out = append(out, fault{name: "bridged", subject: p.Name, branches: []circuit.Branch{{A: p.Full(t[0]), B: p.Full(t[1])}}})
		}
	case "switch":
		for k := 1; k <= p.Poles(); k++ {
			a, b := p.Full(strconv.Itoa(2*k-1)), p.Full(strconv.Itoa(2*k))
			contact := fmt.Sprintf("%s %d-%d", p.Name, 2*k-1, 2*k)
			if m.has(contact) {
				out = append(out, fault{name: fmt.Sprintf("pole %d stuck open", k), subject: p.Name, without: []string{contact}, latent: true, line: true})
			} else if m.wired(a) && m.wired(b) {
				out = append(out, fault{name: fmt.Sprintf("pole %d stuck closed", k), subject: p.Name, branches: []circuit.Branch{{A: a, B: b}}, latent: true, line: true})
			}
		}
	case "transformer", "output-transformer", "autotransformer":
		out = append(out, m.betweenWindings(p)...)
		for _, w := range p.Windings {
			for i := 1; i < len(w.Order); i++ {
				if a, b := p.Full(w.Order[i-1]), p.Full(w.Order[i]); m.wired(a) && m.wired(b) && len(w.Order) > 2 {
					short(fmt.Sprintf("%s shorted from %s to %s", w.Name, w.Order[i-1], w.Order[i]), a, b)
				}
			}
			if a, b := p.Full(w.Ends[0]), p.Full(w.Ends[1]); m.wired(a) && m.wired(b) {
				short(w.Name+" shorted", a, b)
			}
		}
	case "motor":
		short("shorted", p.Full("1"), p.Full("2"))
		short("insulation to frame broken down", p.Full("1"), p.Full("frame"))
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
			f := fault{name: "insulation to " + at + " broken down", subject: m.hotEnd, from: m.hotEnd, layer: true,
				ahead: m.ahead(m.hotEnd), branches: []circuit.Branch{{A: m.hotEnd, B: at}}}
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
	return p.Kind.Name == "capacitor" && p.Word("class") == "Y1" && ok && v.Low >= m.b.Sheet.Region.Nominal
}
