package mains

import (
	"math"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/figure"
	"firstvolt/checks/sheet"
)

// Metal is a piece of metal that a hand may find.
type Metal struct {
	Subject  figure.Subject
	Terminal string
	Touched  bool // asked for touch currents
	First    bool // the first of those that wires alone join
	live     bool // something that conducts joins it to a line conductor
	Beside   bool // insulation stands between it and the mains side: the core's chassis, or metal of a live set
	// Insulation in Ω to the mains side, and capacitance in F besides the
	// capacitors on the sheet; read tells whether a reading says the first.
	insulation float64
	Read       bool
	Farads     float64
	// atLeast is what a reading showed that proves nothing, 0 for none: it may
	// be more than is usual, and never makes that less.
	atLeast float64
}

// metalsOf lists chassis and bodies. A live chassis is touched where it is not
// enclosed, any other always: on the bench the cabinet is off.
func metalsOf(b *bench.Bench) []Metal {
	var out []Metal
	live := b.Circuit(bench.ClosedState()).Reach([]string{sheet.PlugHot, sheet.PlugNeutral}, func(e *circuit.Element) bool {
		return bench.Conductors(e) && !bench.ProtectiveResistor(e)
	})
	c := b.Circuit(bench.State{})
	for _, s := range b.Subjects(bench.Metalwork...) {
		t := Metal{Subject: s, Terminal: s.Name, First: true, Touched: s.Reach != "enclosed"}
		t.live = live.Has(s.Name)
		if s.Kind == "chassis" && !t.live {
			t.Touched = true
		}
		for _, o := range out {
			if c.SameNet(o.Terminal, s.Name) {
				t.First = false
			}
		}
		t.Beside = !t.live && (s.Kind == "chassis" || b.Wired().Construction != "transformer")
		t.insulation, t.Read = b.Insulation(s.Name)
		t.Farads, t.atLeast = b.CapacitanceTo(s.Name)
		out = append(out, t)
	}
	return out
}

// spread places insulation and capacitance between the mains side and metal,
// all of it at the live end, or behind an isolating transformer at the end that
// stands farther from earth.
func (m *Circuit) spread() {
	from := m.HotEnd
	if m.far {
		from = m.coldEnd
	}
	bit := 0
	for _, t := range m.Metals {
		if !t.First {
			if len(m.without) > 0 || len(m.State.Turned) > 0 { // it may hang on nothing now
				m.farad("capacitance to "+t.Terminal, from, t.Terminal, math.Max(1e-15, m.strayFarads()))
			}
			continue
		}
		name := "insulation to " + t.Terminal
		switch {
		case m.Pick != Danger: // what may be perfect
		case !t.Read && t.Beside:
			if m.perfect>>min(bit, unreadBits-1)&1 == 0 {
				m.wire(name, from, t.Terminal, 0.001)
			}
			bit++
		case !math.IsInf(t.insulation, 1):
			m.wire(name, from, t.Terminal, math.Max(t.insulation, 0.001))
		}
		c := t.Farads
		if c == bench.UsualFarads {
			c = m.strayFarads()
			if t.Terminal == sheet.Chassis && len(m.Bench.Wired().Primaries) > 0 {
				c = m.Source.Winding.High
			}
		}
		c = math.Max(c, t.atLeast)
		if m.Pick != Danger {
			c = 1e-15 // next to none, and still a potential against the rest
		}
		m.farad("capacitance to "+t.Terminal, from, t.Terminal, math.Max(c, 1e-15))
	}
}

// strayFarads is what wiring adds to metal beside it.
func (m *Circuit) strayFarads() float64 {
	if m.Pick != Danger {
		return 0
	}
	return m.Source.Stray.High
}
