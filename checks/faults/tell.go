package faults

import (
	"fmt"
	"math"
	"strings"

	"firstvolt/checks/quantity"
)

// tell is the case as one sentence.
func (m *model) tell(f fault, t metal, h hand, o opens) string {
	start := f.Happens()
	if f.None() && m.position().Switches() != "" {
		start += " (" + m.position().Switches() + ")"
	}
	volts, amps := quantity.Format(h.volts, quantity.Voltage), quantity.Format(h.amps, quantity.Current)
	s := fmt.Sprintf("%s, %s carries %s; a person holding it gets %s", start, The(t.terminal), volts, amps)
	if h.other != earth { // either of the two may be the one that is live
		s = fmt.Sprintf("%s, %s stand between %s and %s; a person holding both gets %s", start, volts, The(t.terminal), The(h.other), amps)
	}
	if f.None() || h.amps <= limit("one-fault") {
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
func (m *model) orSound(f fault, t metal, h found) (fault, found) {
	const asBad = 0.99
	if s, err := m.find(fault{}, t.terminal, asBad*h.amps); err == nil && s.amps >= asBad*h.amps {
		return fault{}, s
	}
	return f, h
}

// lines is the arithmetic of a case.
func (m *model) lines(t metal, h hand) []string {
	return append([]string{
		fmt.Sprintf("%s, supply %s at %s, system %s", m.position().Orientation(), quantity.Format(m.atSet(), quantity.Voltage), quantity.Format(m.hertz, quantity.Frequency), strings.ToUpper(m.earthing)),
		fmt.Sprintf("between %s and %s %s without a person, %s through one", The(t.terminal), The(h.other),
			quantity.Format(h.volts, quantity.Voltage), quantity.Format(h.amps, quantity.Current)),
	}, m.assumed...)
}

func seconds(s float64) string { return quantity.Format(quantity.Six(s), quantity.Time) }
