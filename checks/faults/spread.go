package faults

import (
	"fmt"
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
		t.insulation, t.read = insulation(b, s.Name)
		t.farads, t.atLeast = capacitance(b, s.Name)
		out = append(out, t)
	}
	return out
}

// holds tells whether a reading holds both pins and both ends of every primary
// against the metal, in every state that it may have been taken in.
func holds(b *bench.Bench, rd *sheet.Reading, terminal string) bool {
	states, ok := b.StatesOf(rd)
	return ok && !slices.ContainsFunc(states, func(st bench.State) bool { return !holdsIn(b, st, rd, terminal) })
}

// holdsIn tells it of one state.
func holdsIn(b *bench.Bench, st bench.State, rd *sheet.Reading, terminal string) bool {
	c := b.Circuit(st)
	side := func(x, y []string) bool {
		mains := c.Reach(x, bench.Conductors)
		if !mains.Has(sheet.PlugHot) || !mains.Has(sheet.PlugNeutral) || !slices.Contains(y, terminal) && !c.Reach(y, bench.Copper).Has(terminal) { // a probe touches what it is on, wired or not
			return false
		}
		for _, w := range b.Wired().Primaries {
			for _, t := range w.Winding.Order {
				if !mains.Has(w.Part.Full(t)) {
					return false
				}
			}
		}
		return true
	}
	return side(rd.A, rd.B) || side(rd.B, rd.A)
}

// unread is what would tell the insulation of metal that no reading tells: how
// the switches stood for the reading that there is, what that lacks, or a reading.
func unread(b *bench.Bench, terminal string) figure.Need {
	for _, rd := range b.Sheet.Readings {
		if rd.Kind != "insulation" {
			continue
		}
		every := holds(b, rd, terminal)
		states, _ := b.StatesOf(rd)
		some := slices.ContainsFunc(states, func(st bench.State) bool { return holdsIn(b, st, rd, terminal) })
		switch _, ok, why := rd.True(); {
		case some && !every:
			return figure.Need{What: "how switches and selectors stood for the insulation reading of " + rd.Name, How: "add switches: or positions: to the reading"}
		case every && !ok:
			return figure.Need{What: "an insulation reading of " + rd.Name + " that proves something", How: why}
		}
	}
	return figure.Need{What: "insulation between both pins of the plug and " + terminal, How: fmt.Sprintf("an insulation tester of %d V or more on both pins joined, with switches: closed", testVolts)}
}

// insulation is the lowest resistance that the insulation readings leave to
// the metal, resistors that join it on the sheet taken off; infinite where none
// says less. What shows on a meter that proves nothing counts as half of it,
// against the metal alone: it is no reading, and read is false without another.
func insulation(b *bench.Bench, terminal string) (ohms float64, read bool) {
	ohms = math.Inf(1)
	for _, rd := range b.Sheet.Readings {
		if rd.Kind != "insulation" || !holds(b, rd, terminal) {
			continue
		}
		r, ok, _ := rd.True()
		least := r.Low
		if !ok || !rd.HasTest || rd.Test.Low < testVolts {
			shown := rd.Last()
			if shown.OL || !shown.Value.Valid() {
				continue
			}
			least, ok = shown.Value.Low/doubted, false
		}
		read = read || ok
		siemens := 1 / least // of 0 Ω: infinite
		if states, ok := b.StatesOf(rd); ok {
			if res, err := b.Circuit(states[0]).Resistance(rd.A, rd.B); err == nil && res.R.High > 0 && !math.IsInf(res.R.High, 1) {
				siemens -= 1 / res.R.High
			}
		}
		if siemens > 0 {
			ohms = math.Min(ohms, 1/siemens)
		}
	}
	return ohms, read
}

// doubted is by how much a meter that proves nothing may at least be off, where
// what it shows is bad: a factor of two, more than any accuracy that is stated.
const doubted = 2

// testVolts is the least test that proves anything of mains insulation: 250 V,
// the lower of the two test voltages of VDE 0701-0702 (recalled, not looked up).
const testVolts = 250

// capacitance is what windings and wiring add to the capacitors on the sheet:
// what a reading leaves above the least that they are marked with, or where
// none was taken, the usual upper end.
func capacitance(b *bench.Bench, terminal string) (farads, atLeast float64) {
	usual := math.Inf(1)
	for _, rd := range b.Sheet.Readings {
		if rd.Kind != "capacitance" || !holds(b, rd, terminal) {
			continue
		}
		r, ok, _ := rd.True()
		states, _ := b.StatesOf(rd)
		if len(states) == 0 {
			continue
		}
		besides := func(farads float64) float64 { return math.Max(0, farads-marked(b, b.Circuit(states[0]), terminal)) }
		if shown := rd.Last().Value; !ok && shown.Bounded() {
			atLeast = math.Max(atLeast, besides(doubted*shown.High))
		}
		if ok && r.Bounded() {
			usual = math.Min(usual, besides(r.High))
		}
	}
	if math.IsInf(usual, 1) {
		return defaultFarads, atLeast
	}
	return usual, atLeast
}

// defaultFarads asks for the usual capacitance.
const defaultFarads = -1

// marked is the least that capacitors from the mains side straight to the
// metal may have. Two in series are left out of it.
func marked(b *bench.Bench, c *circuit.Circuit, terminal string) float64 {
	mains := c.Reach([]string{sheet.PlugHot, sheet.PlugNeutral}, bench.Conductors)
	here := c.Reach([]string{terminal}, bench.Copper)
	sum := 0.0
	for _, e := range c.Elements() {
		if p := bench.PartOfElement(&e); p == nil || p.Kind.Name != "capacitor" {
			continue
		}
		if mains.Has(e.A) && here.Has(e.B) || mains.Has(e.B) && here.Has(e.A) {
			sum += e.C.Low
		}
	}
	return sum
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
		if c == defaultFarads {
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
