package faults

import (
	"fmt"
	"math"
	"strings"

	"firstvolt/checks/mains"
	"firstvolt/checks/quantity"
)

// tell is the case as one sentence.
func tell(m *mains.Circuit, f fault, t mains.Metal, h mains.Hand, o opens) string {
	start := f.Happens()
	if f.None() && m.Position().Switches() != "" {
		start += " (" + m.Position().Switches() + ")"
	}
	volts, amps := quantity.Format(h.Volts, quantity.Voltage), quantity.Format(h.Amps, quantity.Current)
	s := fmt.Sprintf("%s, %s carries %s; a person holding it gets %s", start, The(t.Terminal), volts, amps)
	if h.Other != mains.Earth { // either of the two may be the one that is live
		s = fmt.Sprintf("%s, %s stand between %s and %s; a person holding both gets %s", start, volts, The(t.Terminal), The(h.Other), amps)
	}
	if f.None() || h.Amps <= limit("one-fault") {
		return s
	}
	return s + "; " + o.tell()
}

// tell says what opens and when.
func (o opens) tell() string {
	switch {
	case o.device.Kind == NoDevice:
		return "nothing opens"
	case !o.known:
		return "when " + o.device.String() + " opens is not known"
	case math.IsInf(o.latest, 1):
		return o.device.String() + " need not open at all"
	}
	return fmt.Sprintf("%s opens within %s", o.device, quantity.Format(quantity.Six(o.latest), quantity.Time))
}

// orSound is what a person finds with a fault, or, where that is no worse than
// with nothing at fault, what is found then: no fault is blamed for it.
func (m *model) orSound(f fault, t mains.Metal, h found) (fault, found) {
	const asBad = 0.99
	if s, err := m.find(fault{}, t.Terminal, asBad*h.Amps); err == nil && s.Amps >= asBad*h.Amps {
		return fault{}, s
	}
	return f, h
}

// lines is the arithmetic of a case.
func lines(m *mains.Circuit, t mains.Metal, h mains.Hand) []string {
	return append([]string{
		fmt.Sprintf("%s, supply %s at %s, system %s", m.Position().Orientation(), quantity.Format(m.AtSet(), quantity.Voltage), quantity.Format(m.Hertz, quantity.Frequency), strings.ToUpper(m.Earthing)),
		fmt.Sprintf("between %s and %s %s without a person, %s through one", The(t.Terminal), The(h.Other),
			quantity.Format(h.Volts, quantity.Voltage), quantity.Format(h.Amps, quantity.Current)),
	}, m.Assumed...)
}

func seconds(s float64) string { return quantity.Format(quantity.Six(s), quantity.Time) }
