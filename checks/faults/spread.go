package faults

import (
	"math"
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/figure"
	"firstvolt/checks/sheet"
)

// metal is a piece of metal that a hand may find.
type metal struct {
	subject  figure.Subject
	terminal string
	touched  bool // asked for touch currents
	first    bool // the first of those that wires alone join
	live     bool // something that conducts joins it to a line conductor
	beside   bool // insulation stands between it and the mains side: the core's chassis, or metal of a live set
	// insulation in Ω to the mains side, and capacitance in F besides the
	// capacitors on the sheet; read tells whether a reading says the first.
	insulation float64
	read       bool
	farads     float64
	// atLeast is what a reading showed that proves nothing, 0 for none: it may
	// be more than is usual, and never makes that less.
	atLeast float64
}

// metalsOf lists chassis and bodies. A live chassis is touched where it is not
// enclosed, any other always: on the bench the cabinet is off.
func metalsOf(b *bench.Bench) []metal {
	var out []metal
	live := b.Circuit(bench.ClosedState()).Reach([]string{sheet.PlugHot, sheet.PlugNeutral}, func(e *circuit.Element) bool {
		return bench.Conductors(e) && !bench.ProtectiveResistor(e)
	})
	c := b.Circuit(bench.State{})
	for _, s := range slices.Concat(b.Subjects("chassis"), b.Subjects("body")) {
		t := metal{subject: s, terminal: s.Name, first: true, touched: s.Reach != "enclosed"}
		t.live = live.Has(s.Name)
		if s.Kind == "chassis" && !t.live {
			t.touched = true
		}
		for _, o := range out {
			if c.SameNet(o.terminal, s.Name) {
				t.first = false
			}
		}
		t.beside = !t.live && (s.Kind == "chassis" || b.Wired().Construction != "transformer")
		t.insulation, t.read = b.Insulation(s.Name)
		t.farads, t.atLeast = b.CapacitanceTo(s.Name)
		out = append(out, t)
	}
	return out
}

// spread places insulation and capacitance between the mains side and metal,
// all of it at the live end, or behind an isolating transformer at the end that
// stands farther from earth.
func (m *model) spread() {
	from := m.hotEnd
	if m.far {
		from = m.coldEnd
	}
	bit := 0
	for _, t := range m.metals {
		if !t.first {
			if len(m.without) > 0 || len(m.state.Turned) > 0 { // it may hang on nothing now
				m.farad("capacitance to "+t.terminal, from, t.terminal, math.Max(1e-15, m.strayFarads()))
			}
			continue
		}
		name := "insulation to " + t.terminal
		switch {
		case m.end != danger: // what may be perfect
		case !t.read && t.beside:
			if m.perfect>>min(bit, unreadBits-1)&1 == 0 {
				m.wire(name, from, t.terminal, 0.001)
			}
			bit++
		case !math.IsInf(t.insulation, 1):
			m.wire(name, from, t.terminal, math.Max(t.insulation, 0.001))
		}
		c := t.farads
		if c == bench.UsualFarads {
			c = m.strayFarads()
			if t.terminal == sheet.Chassis && len(m.b.Wired().Primaries) > 0 {
				c = m.source.Winding.High
			}
		}
		c = math.Max(c, t.atLeast)
		if m.end != danger {
			c = 1e-15 // next to none, and still a potential against the rest
		}
		m.farad("capacitance to "+t.terminal, from, t.terminal, math.Max(c, 1e-15))
	}
}

// strayFarads is what wiring adds to metal beside it.
func (m *model) strayFarads() float64 {
	if m.end != danger {
		return 0
	}
	return m.source.Stray.High
}
