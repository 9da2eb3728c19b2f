package bench

import (
	"slices"
	"strings"

	"firstvolt/checks/circuit"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
	"firstvolt/checks/sheet"
)

// Wired is what the wiring makes of the set, whatever the sheet calls it.
type Wired struct {
	Construction string // transformer, line-connected, floating-chassis; "" where nothing says
	// LiveChassis is how a line conductor reaches the chassis by something that
	// conducts, or nil.
	LiveChassis []string
	// LiveWinding is how a line conductor reaches a secondary winding of a mains
	// transformer by something that conducts, or nil.
	LiveWinding []string
	// Rail is the common rail of a floating chassis as terminals, or nil.
	Rail []string
	// Bonded: yes, no; "" where the sheet has no wiring.
	Bonded string
	// Orientation is fixed, both-ways, or "" where a joint does not say.
	Orientation string
	// Primaries are the windings whose role is primary and which a line
	// conductor reaches.
	Primaries []PartWinding
}

// PartWinding is a winding with its part.
type PartWinding struct {
	Part    *part.Part
	Winding *part.Winding
}

// Name is PART.WINDING.
func (w PartWinding) Name() string { return w.Part.Name + "." + w.Winding.Name }

// Wired tells what the wiring makes of the set.
func (b *Bench) Wired() Wired { return b.wired }

// Lines are the two line conductors as they arrive in the set.
func (b *Bench) Lines() [2]string { return [2]string{sheet.PlugHot, sheet.PlugNeutral} }

// FromPinToPin tells whether a reading is from one line conductor to the other,
// with nothing joined to either for it.
func (b *Bench) FromPinToPin(rd *sheet.Reading) bool {
	lines := b.Lines()
	are := func(x, y []string) bool { return slices.Equal(x, lines[:1]) && slices.Equal(y, lines[1:]) }
	return are(rd.A, rd.B) || are(rd.B, rd.A)
}

func (b *Bench) readWiring() Wired {
	var w Wired
	w.Orientation = b.orientation()
	if !b.Sheet.HasWiring() {
		w.Construction = b.Sheet.Construction
		return w
	}
	w.Bonded = "no"
	if r := b.Circuit(ClosedState()).Reach([]string{sheet.PlugGround}, GroundPath); b.Grounded() && r.Has(sheet.Chassis) {
		w.Bonded = "yes"
	}
	states, _ := b.Combinations(ClosedState(), true)
	reached := map[string]bool{}
	for _, st := range states {
		r := b.Circuit(st).Reach(b.linesOf(), Conductors)
		if more := b.throughOutlets(r); len(more) > 0 {
			r = b.Circuit(st).Reach(append(more, b.linesOf()...), Conductors)
		}
		if w.LiveWinding == nil {
			w.LiveWinding = b.liveWinding(st)
		}
		if w.LiveChassis == nil && r.Has(sheet.Chassis) && !b.protected(st) {
			w.LiveChassis = Trace(r.Path(sheet.Chassis))
		}
		// Cold, a tube passes nothing; warm, a chassis on a rectifier's cathode is as live as its plate.
		if warm := b.Circuit(st).Reach(b.linesOf(), warmTubes); w.LiveChassis == nil && warm.Has(sheet.Chassis) {
			w.LiveChassis = Trace(warm.Path(sheet.Chassis))
		}
		for _, t := range r.Terminals() {
			reached[t] = true
		}
	}
	for _, p := range b.Parts(part.Supplies) {
		for _, wd := range p.Windings {
			if (wd.Role == "primary" || wd.Role == "auto") && slices.ContainsFunc(wd.Order, func(t string) bool { return reached[p.Full(t)] }) {
				w.Primaries = append(w.Primaries, PartWinding{p, wd})
			}
		}
	}
	isolated := slices.ContainsFunc(w.Primaries, func(pw PartWinding) bool { return pw.Winding.Role == "primary" })
	switch {
	case w.LiveChassis != nil:
		w.Construction = "line-connected"
	case b.onLine(reached):
		w.Construction = "floating-chassis"
	case isolated && (w.LiveWinding == nil || b.Sheet.Construction == "transformer"): // where it says transformer, construction-agrees speaks
		w.Construction = "transformer"
	default:
		w.Construction = b.Sheet.Construction
	}
	if w.Construction == "floating-chassis" {
		w.Rail = b.commonRail()
	}
	return w
}

// throughOutlets lists the far contacts of the outlets that a line conductor
// reaches: what is plugged in there conducts from one contact to the other.
func (b *Bench) throughOutlets(r *circuit.Reach) []string {
	var out []string
	for _, p := range b.Parts(part.Feeds) {
		hot, neutral := p.Full("hot"), p.Full("neutral")
		switch {
		case r.Has(hot) && !r.Has(neutral):
			out = append(out, neutral)
		case r.Has(neutral) && !r.Has(hot):
			out = append(out, hot)
		}
	}
	return out
}

// liveWinding finds a way from a line conductor to a secondary winding of a
// mains transformer by anything that conducts but a protective impedance. What
// strikes conducts once its voltage is reached, and the line reaches it.
func (b *Bench) liveWinding(st State) []string {
	through := func(e *circuit.Element) bool {
		return (Conductors(e) || e.Law == circuit.Striking) && !ProtectiveResistor(e)
	}
	r := b.Circuit(st).Reach(b.linesOf(), through)
	if more := b.throughOutlets(r); len(more) > 0 {
		r = b.Circuit(st).Reach(append(b.linesOf(), more...), through)
	}
	for _, p := range b.Parts(part.MainsCore) {
		for _, w := range p.Windings {
			for _, t := range w.Order {
				if w.Role != "primary" && r.Has(p.Full(t)) {
					return Trace(r.Path(p.Full(t)))
				}
			}
		}
	}
	return nil
}

func (b *Bench) linesOf() []string { l := b.Lines(); return l[:] }

// protected tells whether line reaches the chassis in state st through
// resistors only: a protective impedance, judged by its own rule, which does
// not make the chassis a line conductor.
func (b *Bench) protected(st State) bool {
	r := b.Circuit(st).Reach(b.linesOf(), func(e *circuit.Element) bool {
		return Conductors(e) && !ProtectiveResistor(e)
	})
	return !r.Has(sheet.Chassis)
}

// onLine tells whether the set's own circuits hang on the line by anything but
// a transformer: a tube's heater, a rectifier or a filter capacitor does.
func (b *Bench) onLine(reached map[string]bool) bool {
	for _, p := range b.Parts(part.OnLine) {
		for _, t := range p.Terminals() {
			if reached[p.Full(t)] {
				return true
			}
		}
	}
	return false
}

// commonRail is what stands in the place of the chassis where that floats: of
// the nets that a line conductor reaches by contacts alone, the one that holds
// most negative ends of filter capacitors, then cathodes, then other parts.
// A net that feeds a rectifier's plate is the line itself and never the rail.
func (b *Bench) commonRail() []string {
	c := b.Circuit(ClosedState())
	var best []string
	score := 0
	seen := map[int32]bool{}
	for _, t := range c.Reach(b.linesOf(), Contacts).Terminals() {
		if seen[c.NetOf(t)] {
			continue
		}
		seen[c.NetOf(t)] = true
		net := c.Net(t)
		n := 0
		for _, u := range net {
			n += railWeight(b.PartOf(u), u)
		}
		if n > score {
			best, score = net, n
		}
	}
	return best
}

func railWeight(p *part.Part, terminal string) int {
	if p == nil {
		return 0
	}
	_, t, _ := strings.Cut(terminal, ".")
	switch {
	case p.Is(part.Polar) && t == "minus":
		return 1000
	case p.Is(part.Rectifies) && (strings.HasPrefix(t, "plate") || t == "anode"):
		return -1000000
	case p.Is(part.Amplifies) && t == "cathode":
		return 100
	case p.Is(part.Amplifies | part.Nonpolar | part.Resists):
		return 1
	}
	return 0
}

// orientation is the product of all separable joints: plug, adaptors and
// units upstream, the inlet, connectors that carry line. One known to fit both
// ways decides it; else one that does not say leaves it open ("").
func (b *Bench) orientation() string {
	s := b.Sheet
	if b.System() == "two-line" || s.Plug.Fits == "both-ways" {
		return "both-ways"
	}
	var joints []string
	for _, l := range s.Upstream {
		// Which end of an isolating transformer's floating secondary is hot,
		// nobody can say; but for the set on its own receptacle the plug decides.
		if l.Kind == "adaptor" || l.Kind == "autotransformer" {
			joints = append(joints, l.Word("fits"))
		}
	}
	switch cord := s.Cord(); cord.Word("inlet") {
	case "none":
	case "iec-60320-c8":
		joints = append(joints, "both-ways")
	case "iec-60320-c14":
		if cord.Word("inlet-fits") == "both-ways" {
			joints = append(joints, "both-ways")
		}
	case "other":
		joints = append(joints, cord.Word("inlet-fits"))
	default:
		joints = append(joints, "")
	}
	for _, p := range b.Parts(part.Mates) {
		if b.carriesLine(p) {
			joints = append(joints, p.Word("fits"))
		}
	}
	switch {
	case slices.Contains(joints, "both-ways"):
		return "both-ways"
	case slices.Contains(joints, ""):
		return ""
	}
	return "fixed"
}

// carriesLine tells whether a line conductor reaches the supply's half of a
// connector by contacts alone.
func (b *Bench) carriesLine(p *part.Part) bool {
	mates := func(e *circuit.Element) bool {
		return PartOfElement(e) == p && strings.HasSuffix(e.A, "-mate") != strings.HasSuffix(e.B, "-mate")
	}
	// One circuit for all of them, and none for each that would be kept.
	r := b.Circuit(ClosedState()).Reach(b.linesOf(), func(e *circuit.Element) bool { return Contacts(e) && !mates(e) })
	for _, pin := range p.Pins() {
		if r.Has(p.Full(pin)) {
			return true
		}
	}
	return false
}

// Grounded tells whether a protective conductor arrives in the set: the plug
// has a ground contact, the cord a third conductor that is no resistance, and
// the inlet is none of two poles.
func (b *Bench) Grounded() bool {
	_, resists := b.ThirdConductor()
	cord := b.Sheet.Cord()
	return b.Sheet.Plug.Ground && cord.Word("conductors") != "2" && cord.Word("inlet") != "iec-60320-c8" && !resists
}

// ThirdConductor is the resistance of a cord whose third conductor is a
// dropping resistance from the hot pin; ok is false where it is not.
func (b *Bench) ThirdConductor() (r quantity.Range, ok bool) { return b.Sheet.CordValue("third") }
