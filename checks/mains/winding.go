package mains

import (
	"fmt"
	"math"
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/figure"
	"firstvolt/checks/handbook"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
	"firstvolt/checks/sheet"
)

// winding puts one section of a winding into the circuit: coupled to the
// others of its part where the sheet says its volts, else as plain copper.
func (m *Circuit) winding(e circuit.Element, p *part.Part) {
	turns := e.Turns.High
	w := p.WindingOf(e.Name)
	r, read := m.ohms[e.Name]
	ohm := m.ohm(r.Low, r.High*copperHot)
	switch {
	case !read && m.Pick == Danger:
		ohm = m.leastOhms(p, w, turns)
	case !read:
		ohm = m.mostOhms(p, w, turns) * copperHot
	case m.Pick == Danger && w.Role != "plate":
		ohm = 0 // only the many turns of a plate winding keep a person's current down
	}
	if p.Is(part.OutputCore) || !SaysVolts(&e) {
		m.wire(e.Name, e.A, e.B, ohm)
		return
	}
	loaded := w.Node.Get("no-load") == nil && w.Role != "primary" && w.Role != "auto"
	if loaded && m.Pick == Danger {
		turns *= 1 + m.Source.Added.High
	}
	// Coupled windings of no resistance at all would share their current in
	// no known way; a part in a thousand of the rated impedance is less than
	// any copper has.
	va := m.size(p)
	e.R = circuit.Exactly(math.Max(ohm, 0.001*turns*turns/va))
	e.Turns = circuit.Exactly(turns)
	if m.Pick == Clearing {
		e.L = circuit.Exactly(m.Source.Leakage.High * turns * turns / va / (2 * math.Pi * m.Hertz) / 2)
	}
	if !m.magnetised(p) {
		idle := handbook.Idle().Current
		share := (idle.Low + idle.High) / 2
		e.Lm = circuit.Exactly(turns * turns / (share * va) / (2 * math.Pi * m.Hertz))
	}
	m.Elements = append(m.Elements, e)
}

// usualHalf is the volts from which on the halves of plate windings have their
// usual ohms; one of fewer volts has thicker wire as well as fewer turns, so that
// its ohms go by the square (common practice).
const usualHalf = 250.0

// leastOhms is what a section of a winding that nobody measured has at least: of
// a plate winding half the lowest usual value for each half of it, of another
// nothing.
func (m *Circuit) leastOhms(p *part.Part, w *part.Winding, turns float64) float64 {
	half, _, ok := handbook.WindingBand("half", 0, 0)
	volts, known := w.Volts()
	if w.Role != "plate" || !ok || !known || !(volts.High > 0) {
		return 0
	}
	least := half.Low / 2 * math.Pow(math.Min(1, volts.Low/2/usualHalf), 2)
	if text := fmt.Sprintf("%s.%s, which nobody measured, taken as %s a half or more: half the usual least",
		p.Name, w.Name, quantity.Format(least, quantity.Resistance)); !slices.Contains(m.Assumed, text) {
		m.Assumed = append(m.Assumed, text)
	}
	return least * turns / (volts.High / 2)
}

// UnreadPlates are the readings of plate windings that nobody took, for which the
// least that they may have counts.
func UnreadPlates(b *bench.Bench) (out []figure.Need) {
	for _, p := range b.Parts(part.MainsCore) {
		for _, w := range p.Windings {
			read := slices.ContainsFunc(b.Sheet.Readings, func(rd *sheet.Reading) bool {
				of, _, _, ok := b.Direct(rd)
				return ok && of.Winding == w
			})
			if w.Role == "plate" && !read {
				out = append(out, figure.Need{What: fmt.Sprintf("resistance across %s.%s", p.Name, w.Name),
					How: "an ohmmeter on the ends of the winding, set unplugged; the ohms say how much current one fault can bring"})
			}
		}
	}
	return out
}

// mostOhms is what a section of a winding that nobody measured has at most: the
// upper end of the handbook's band for its name, by its share of the volts. Of a
// name that has none, or of unknown volts, the most that any winding has.
func (m *Circuit) mostOhms(p *part.Part, w *part.Winding, turns float64) float64 {
	size := 0.0
	for _, of := range []func() (quantity.Range, bool){
		func() (quantity.Range, bool) { return p.Value("power") }, func() (quantity.Range, bool) { return m.Bench.Sheet.Nameplate("power") },
	} {
		if v, ok := of(); ok && size == 0 {
			size = v.High
		}
	}
	whole := 0.0
	if v, ok := w.Volts(); ok {
		whole = v.High
	}
	role := w.Role
	switch role {
	case "plate":
		role, whole = "half", whole/2
	case "auto":
		role = "primary"
	}
	band, _, ok := handbook.WindingBand(role, size, whole)
	if !ok {
		band, _, ok = handbook.WindingBand(role, 0, whole)
	}
	share := 1.0
	if ok && whole > 0 && turns > 0 && turns < 1e6 {
		share = turns / whole
	}
	if !ok {
		band, _, _ = handbook.WindingBand("half", 0, 0)
	}
	return band.High * share
}

// magnetised tells whether a section of the part gives the magnetising branch
// already.
func (m *Circuit) magnetised(p *part.Part) bool {
	for i := range m.Elements {
		if m.Elements[i].Core == p.Name && m.Elements[i].Lm.High > 0 {
			return true
		}
	}
	return false
}

// size is a transformer's VA: its own, the nameplate's, else that of a usual
// radio. It sets what next to nothing hangs on: magnetising current, leakage.
func (m *Circuit) size(p *part.Part) float64 {
	if m.Pick == Danger {
		return 60
	}
	if v, ok := p.Value("power"); ok && v.High > 0 {
		return v.High
	}
	if v, ok := m.Bench.Sheet.Nameplate("power"); ok && v.High > 0 {
		return v.High
	}
	return 60
}

// UncoupledWinding names what is not known of a winding of unknown volts that hangs on
// the mains side by something that conducts: what it puts on metal is then not
// known either.
func (r *Chain) UncoupledWinding() UnknownVolts {
	for _, c := range r.SwitchedOn() {
		live := c.Reach([]string{sheet.PlugHot, sheet.PlugNeutral}, bench.Conductors)
		es := c.Elements()
		for i := range es {
			e := &es[i]
			p := bench.PartOfElement(e)
			if e.Law != circuit.Winding || p.Is(part.OutputCore) || SaysVolts(e) || !live.Has(e.A) && !live.Has(e.B) {
				continue
			}
			return UnknownVoltsOf(p, e)
		}
	}
	return UnknownVolts{}
}

// UntoldWinding names what is not known of another winding of a transformer on the
// line: the insulation between the two may break down, and what it then puts on
// metal may be any ratio of the line.
func (r *Chain) UntoldWinding() UnknownVolts {
	for _, c := range r.SwitchedOn() {
		live := c.Reach([]string{sheet.PlugHot, sheet.PlugNeutral}, bench.Contacts)
		es := c.Elements()
		onLine := func(p *part.Part) bool {
			return slices.ContainsFunc(es, func(e circuit.Element) bool {
				return e.Law == circuit.Winding && bench.PartOfElement(&e) == p && (live.Has(e.A) || live.Has(e.B))
			})
		}
		for i := range es {
			e := &es[i]
			p := bench.PartOfElement(e)
			if e.Law != circuit.Winding || SaysVolts(e) || !p.Is(part.MainsCore) || !onLine(p) {
				continue
			}
			if wired := func(t string) bool { return len(c.Reach([]string{t}, bench.Copper).Terminals()) > 1 }; wired(e.A) || wired(e.B) {
				return UnknownVoltsOf(p, e)
			}
		}
	}
	return UnknownVolts{}
}

// UnknownVolts is a winding of which the sheet does not say the volts of a section.
type UnknownVolts struct {
	Name  string // of what is not known; "" where all is
	clash string // why the volts that the sheet has do not say it; "" where it has none
}

// UnknownVoltsOf says why the volts of a section are not known.
func UnknownVoltsOf(p *part.Part, e *circuit.Element) UnknownVolts {
	if p.Is(part.TappedCore) {
		return UnknownVolts{p.Name + " taps", ""}
	}
	w := p.WindingOf(e.Name)
	n := UnknownVolts{p.Name + "." + w.Name + " voltage", ""}
	v, ok := w.Volts()
	if !ok || !(v.High > 0) || w.Share == nil {
		return n
	}
	for i := 1; i < len(w.Order); i++ {
		if p.SectionName(w, i) == e.Name {
			n.clash = fmt.Sprintf("%s and %s both lie at %s on the sheet: voltage is from end to end, of the whole winding, and taps count from its first end, %s",
				w.Order[i-1], w.Order[i], quantity.FormatTo(v.High*w.Share[i], quantity.Voltage, 4), w.Ends[0])
		}
	}
	return n
}

// Need is what would tell the volts; matters says why they count.
func (n UnknownVolts) Need(matters string) figure.Need {
	if n.clash != "" {
		return figure.Need{What: n.Name, How: n.clash}
	}
	return figure.Need{What: n.Name, How: matters + ": the volts between its ends"}
}

// SaysVolts tells whether the sheet says the volts of a section.
func SaysVolts(e *circuit.Element) bool { return e.Turns.High > 0 && e.Turns.High < 1e6 }
