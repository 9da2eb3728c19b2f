package bench

import (
	"fmt"
	"math"
	"slices"

	"firstvolt/checks/circuit"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
)

// holds tells whether a reading holds both pins and both ends of every primary
// against the metal, in every state that it may have been taken in.
func (b *Bench) holds(rd *sheet.Reading, terminal string) bool {
	states, ok := b.StatesOf(rd)
	return ok && !slices.ContainsFunc(states, func(st State) bool { return !b.holdsIn(st, rd, terminal) })
}

// holdsIn tells it of one state.
func (b *Bench) holdsIn(st State, rd *sheet.Reading, terminal string) bool {
	c := b.Circuit(st)
	side := func(x, y []string) bool {
		mains := c.Reach(x, Conductors)
		if !mains.Has(sheet.PlugHot) || !mains.Has(sheet.PlugNeutral) || !slices.Contains(y, terminal) && !c.Reach(y, Copper).Has(terminal) { // a probe touches what it is on, wired or not
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

// UnreadInsulation is what would tell the insulation of metal that no reading tells: how
// the switches stood for the reading that there is, what that lacks, or a reading.
func (b *Bench) UnreadInsulation(terminal string) figure.Need {
	for _, rd := range b.Sheet.Readings {
		if rd.Kind != "insulation" {
			continue
		}
		every := b.holds(rd, terminal)
		states, _ := b.StatesOf(rd)
		some := slices.ContainsFunc(states, func(st State) bool { return b.holdsIn(st, rd, terminal) })
		switch _, ok, why := rd.True(); {
		case some && !every:
			return figure.Need{What: "how switches and selectors stood for the insulation reading of " + rd.Name, How: "add switches: or positions: to the reading"}
		case every && !ok:
			return figure.Need{What: "an insulation reading of " + rd.Name + " that proves something", How: why}
		}
	}
	return figure.Need{What: "insulation between both pins of the plug and " + terminal, How: fmt.Sprintf("an insulation tester of %d V or more on both pins joined, with switches: closed", testVolts)}
}

// Insulation is the lowest resistance that the insulation readings leave to
// the metal, resistors that join it on the sheet taken off; infinite where none
// says less. What shows on a meter that proves nothing counts as half of it,
// against the metal alone: it is no reading, and read is false without another.
func (b *Bench) Insulation(terminal string) (ohms float64, read bool) {
	ohms = math.Inf(1)
	for _, rd := range b.Sheet.Readings {
		if rd.Kind != "insulation" || !b.holds(rd, terminal) {
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

// CapacitanceTo is what windings and wiring add to the capacitors on the sheet:
// what a reading leaves above the least that they are marked with, or where
// none was taken, the usual upper end.
func (b *Bench) CapacitanceTo(terminal string) (farads, atLeast float64) {
	usual := math.Inf(1)
	for _, rd := range b.Sheet.Readings {
		if rd.Kind != "capacitance" || !b.holds(rd, terminal) {
			continue
		}
		r, ok, _ := rd.True()
		states, _ := b.StatesOf(rd)
		if len(states) == 0 {
			continue
		}
		besides := func(farads float64) float64 { return math.Max(0, farads-marked(b.Circuit(states[0]), terminal)) }
		if shown := rd.Last().Value; !ok && shown.Bounded() {
			atLeast = math.Max(atLeast, besides(doubted*shown.High))
		}
		if ok && r.Bounded() {
			usual = math.Min(usual, besides(r.High))
		}
	}
	if math.IsInf(usual, 1) {
		return UsualFarads, atLeast
	}
	return usual, atLeast
}

// UsualFarads asks for the usual capacitance.
const UsualFarads = -1

// marked is the least that capacitors from the mains side straight to the
// metal may have. Two in series are left out of it.
func marked(c *circuit.Circuit, terminal string) float64 {
	mains := c.Reach([]string{sheet.PlugHot, sheet.PlugNeutral}, Conductors)
	here := c.Reach([]string{terminal}, Copper)
	sum := 0.0
	for _, e := range c.Elements() {
		if p := PartOfElement(&e); p == nil || !p.Is(part.Nonpolar) {
			continue
		}
		if mains.Has(e.A) && here.Has(e.B) || mains.Has(e.B) && here.Has(e.A) {
			sum += e.C.Low
		}
	}
	return sum
}
