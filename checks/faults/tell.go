package faults

import (
	"fmt"
	"math"
	"strings"

	"firstvolt/checks/quantity"
	"firstvolt/checks/sheet"
)

// happens says what a fault is, as the first half of a sentence; empty for
// none.
func (f fault) happens() string {
	switch {
	case f.name == "":
		return ""
	case f.to != "" && f.from != "" && f.layer && strings.HasPrefix(f.name, "wire"):
		return fmt.Sprintf("If the wire at %s touches %s", f.subject, the(f.to))
	case f.layer:
		other := strings.TrimSuffix(strings.TrimSuffix(strings.TrimPrefix(f.name, "insulation to "), " broken down"), " leaking")
		return fmt.Sprintf("If the insulation between %s and %s breaks down", f.subject, the(other))
	case f.subject == "supply":
		return "With " + f.name
	case f.name == "wire parted":
		return fmt.Sprintf("If the wire %s parts", f.subject)
	case f.name == "shorted":
		return fmt.Sprintf("If %s shorts", f.subject)
	case f.name == "open":
		return fmt.Sprintf("If %s opens", f.subject)
	}
	if winding, rest, ok := strings.Cut(f.name, " shorted"); ok {
		return fmt.Sprintf("If the %s of %s is shorted%s", winding, f.subject, rest)
	}
	return fmt.Sprintf("If %s is %s", f.subject, f.name)
}

// the puts the article before the chassis, and leaves names alone.
func the(terminal string) string {
	if terminal == sheet.Chassis || terminal == earth {
		return "the " + strings.TrimPrefix(terminal, "the ")
	}
	return terminal
}

// tell is the case as one sentence.
func (m *model) tell(f fault, t metal, h hand, o opens) string {
	start := f.happens()
	if start == "" {
		start = "With nothing at fault"
		if m.stands() != "" {
			start += " (" + m.stands() + ")"
		}
	}
	s := fmt.Sprintf("%s, %s carries %s; a person holding it gets %s", start, the(t.terminal),
		quantity.Format(h.volts, quantity.Voltage), quantity.Format(h.amps, quantity.Current))
	if h.other != earth {
		s += " to " + h.other
	}
	if f.name == "" || h.amps <= limit("one-fault") {
		return s
	}
	return s + "; " + o.tell()
}

// tell says what opens and when.
func (o opens) tell() string {
	switch {
	case o.device == "":
		return "nothing opens"
	case !o.known:
		return "when " + o.device + " opens is not known"
	case math.IsInf(o.latest, 1):
		return o.device + " need not open at all"
	}
	return fmt.Sprintf("%s opens within %s", o.device, quantity.Format(quantity.Six(o.latest), quantity.Time))
}

// lines is the arithmetic of a case.
func (m *model) lines(t metal, h hand) []string {
	return append([]string{
		fmt.Sprintf("%s, supply %s at %s, earthing %s", m.orientation(), quantity.Format(m.atSet(), quantity.Voltage), quantity.Format(m.hertz, quantity.Frequency), m.earthing),
		fmt.Sprintf("between %s and %s %s without a person, %s through one", the(t.terminal), the(h.other),
			quantity.Format(h.volts, quantity.Voltage), quantity.Format(h.amps, quantity.Current)),
	}, m.assumed...)
}
