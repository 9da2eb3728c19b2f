package bench

import (
	"slices"

	"firstvolt/checks/circuit"
	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
)

// role is the part that a part plays as wired, where rules may depend on it:
// what bridges, fuses and switches, and what rectifies or is a tube.
func (b *Bench) role(p *part.Part) string {
	switch {
	case p.Is(part.Bridge):
		return b.bridgeRole(p)
	case p.Is(part.Fuses | part.Switches):
		if b.onMains(p) {
			return "mains"
		}
		return "inside"
	case p.Is(part.Amplifies):
		return "tube"
	case p.Is(part.Rectifies):
		return b.rectifierRole(p)
	}
	return ""
}

// WindingRole is what a winding is by its name, but that a primary of a mains
// transformer is one only where the line comes to it: beside another that the
// line does come to, one that feeds something of the set, or is said to carry a
// load, is a secondary that nothing names. One that is spare stays a primary.
func (b *Bench) WindingRole(w PartWinding) string {
	is := func(v *part.Winding) bool {
		return slices.ContainsFunc(b.wired.Primaries, func(pw PartWinding) bool { return pw.Part == w.Part && pw.Winding == v })
	}
	if w.Winding.Role != "primary" || !w.Part.Is(part.MainsCore) || is(w.Winding) || !slices.ContainsFunc(w.Part.Windings, is) {
		return w.Winding.Role
	}
	if w.Winding.Node.Get("load") != nil || b.feeds(w) {
		return "other"
	}
	return w.Winding.Role
}

// feeds tells whether a winding is joined to the chassis, a body or a part that
// uses it, in some selector position: not to lugs, contacts and its own part alone.
func (b *Bench) feeds(w PartWinding) bool {
	states, _ := b.Combinations(ClosedState(), true)
	for _, st := range states {
		for _, end := range w.Winding.Order {
			for _, t := range b.Circuit(st).Reach([]string{w.Part.Full(end)}, Conductors).Terminals() {
				p := b.PartOf(t)
				switch {
				case p == w.Part:
				case p == nil, !p.Is(part.Contact):
					return true
				}
			}
		}
	}
	return false
}

// rectifierRole is tube for a rectifier that comes out of its socket, metal for
// one of silicon or selenium, which is wired in. Where the sheet says neither,
// its wires do; "" where they do not either.
func (b *Bench) rectifierRole(p *part.Part) string {
	wired := func(terminals ...string) bool {
		return slices.ContainsFunc(terminals, func(t string) bool { return b.Sheet.OnWire(p.Full(t)) })
	}
	switch {
	case p.Word("of") != "":
		return "metal"
	case p.Word("type") != "":
		return "tube"
	case wired("anode"):
		return "metal"
	case wired("h1", "h2", "h-tap", "plate", "plate-1", "plate-2"):
		return "tube"
	}
	return ""
}

// onMains tells whether a line conductor reaches the part before any load,
// with every switch closed and in some selector position: a fuse or switch of
// the mains entry.
func (b *Bench) onMains(p *part.Part) bool {
	states, _ := b.Combinations(ClosedState(), true)
	for _, st := range states {
		r := b.Circuit(st).Reach(b.linesOf(), Near)
		for _, t := range p.Terminals() {
			if r.Has(p.Full(t)) {
				return true
			}
		}
	}
	return false
}

// Conductor tells line conductors apart in one state of the set.
type Conductor struct {
	b            *Bench
	c            *circuit.Circuit
	Hot, Neutral *circuit.Reach // by what stands ahead of the loads (Near)
}

// Conductor is made for state st.
func (b *Bench) Conductor(st State) Conductor {
	c, lines := b.Circuit(st), b.Lines()
	return Conductor{b, c, c.Reach(lines[:1], Near), c.Reach(lines[1:], Near)}
}

// At is the line conductor that a terminal is on: a pin of the plug, the
// chassis or the common rail where they are one without hanging on a pin ahead
// of the loads; "" for a terminal that is inside, behind a load, or off line.
func (l Conductor) At(terminal string) string {
	switch {
	case l.Hot.Has(terminal):
		return sheet.PlugHot
	case l.Neutral.Has(terminal):
		return sheet.PlugNeutral
	case l.b.wired.LiveChassis != nil && l.c.SameNet(terminal, sheet.Chassis):
		return sheet.Chassis
	case slices.ContainsFunc(l.b.wired.Rail, func(r string) bool { return l.c.SameNet(terminal, r) }):
		return "rail"
	}
	return ""
}

// Across tells whether part p, from terminal x to y, lies from one line
// conductor to another: by itself, or in series with what is no load of the set.
// What a short of p would leave on the line burns, be it a lamp or a resistor;
// a protective impedance does not.
func (l Conductor) Across(p *part.Part, x, y string) bool {
	for _, on := range l.toward(p, x) {
		for _, and := range l.toward(p, y) {
			if on != and {
				return true
			}
		}
	}
	return false
}

// toward lists the line conductors that a terminal of p hangs on beside p,
// through contacts and what may stand in series.
func (l Conductor) toward(p *part.Part, terminal string) []string {
	if on := l.At(terminal); on != "" {
		return []string{on}
	}
	through := func(e *circuit.Element) bool { return PartOfElement(e) != p && (Contacts(e) || inSeries(e)) }
	r := l.c.Reach([]string{terminal}, func(e *circuit.Element) bool {
		return through(e) && l.At(e.A) == "" && l.At(e.B) == ""
	})
	var out []string
	es := l.c.Elements()
	for i := range es {
		e := &es[i]
		if !through(e) {
			continue
		}
		for _, way := range [][2]string{{e.A, e.B}, {e.B, e.A}} {
			if on := l.At(way[1]); r.Has(way[0]) && on != "" && !slices.Contains(out, on) {
				out = append(out, on)
			}
		}
	}
	return out
}

// Parted tells two points that a contact or a fuse may part. A resistor between
// points of one conductor is a load of the set's own, as under a cathode.
func (l Conductor) Parted(x, y string) bool {
	whole := l.c.Reach([]string{x}, func(e *circuit.Element) bool { return AlongLine(e) })
	parts := l.c.Reach([]string{x}, func(e *circuit.Element) bool { return Copper(e) || InLine(e) })
	return whole.Has(y) && !parts.Has(y)
}

// Side is what one end of a part hangs on.
type Side struct {
	Line      bool // a line conductor, or chassis or rail that is one, through any load
	Chassis   bool // the chassis, not being a line conductor
	Touchable bool // a touchable body or an unbonded touchable chassis
	Ground    bool // the protective conductor
}

// SideOf tells what terminal hangs on through anything that conducts in the
// set switched on and warm: lines, chassis, touchable parts.
func (b *Bench) SideOf(terminal string) Side { return b.sideBeside(terminal, nil) }

// sideBeside is SideOf with one part taken away.
func (b *Bench) sideBeside(terminal string, p *part.Part) Side {
	states, _ := b.Combinations(ClosedState(), true)
	var s Side
	for _, st := range states {
		r := b.Circuit(st).Reach([]string{terminal}, func(e *circuit.Element) bool {
			return Warm(e) && (p == nil || PartOfElement(e) != p)
		})
		if r.Has(sheet.PlugHot) || r.Has(sheet.PlugNeutral) {
			s.Line = true
		}
		if r.Has(sheet.PlugGround) {
			s.Ground = true
		}
		if r.Has(sheet.Chassis) {
			s.Chassis = true
		}
		for _, body := range b.Parts(part.Metal) {
			if body.Word("reach") != "enclosed" && r.Has(body.Name) {
				s.Touchable = true
			}
		}
	}
	if s.Line {
		s.Chassis = false
	}
	return s
}

// bridgeRole tells what a capacitor or the like bridges: line (between line
// conductors), contact (points of one line conductor that a contact or fuse may
// part), chassis (line to a bonded chassis), accessible (line to a touchable
// part that is not bonded), series (line to a point that nothing else holds:
// one of two in series), or inside (all else, behind the loads too).
func (b *Bench) bridgeRole(p *part.Part) string {
	t := p.Terminals()
	if len(t) < 2 || !b.Sheet.HasWiring() {
		return ""
	}
	x, y := p.Full(t[0]), p.Full(t[1])
	if role := b.lineRole(p, x, y); role != "" {
		return role
	}
	near, far := b.sideBeside(x, p), b.sideBeside(y, p)
	if near.Line == far.Line {
		return "inside"
	}
	if far.Line {
		far = near
	}
	bonded := b.wired.Bonded == "yes"
	switch {
	case (far.Chassis || far.Ground) && bonded:
		return "chassis"
	case far.Touchable || far.Chassis:
		return "accessible" // an unbonded chassis that only a screwdriver reaches is still metal
	}
	return "series"
}

// lineRole tells a part across the line from one across a contact, in any
// selector position; "" for one that is neither.
func (b *Bench) lineRole(p *part.Part, x, y string) string {
	states, _ := b.Combinations(ClosedState(), true)
	role := ""
	for _, st := range states {
		l := b.Conductor(st)
		switch on, and := l.At(x), l.At(y); {
		case l.Across(p, x, y):
			return "line"
		case on != "" && on == and && l.Parted(x, y):
			role = "contact"
		}
	}
	return role
}
