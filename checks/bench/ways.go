package bench

import (
	"firstvolt/checks/circuit"
	"firstvolt/checks/part"
)

// The ways through a set: what a question follows from one terminal to the next.
// Each lets elements of its sort through; all of them stand here.
// Wire < GroundPath < Contacts < AlongLine < Near < Conductors < Warm, but that
// Near takes small resistors alone and Warm no protective impedance.

// Copper lets only wire through.
func Copper(e *circuit.Element) bool { return e.Conducts == circuit.Wire }

// GroundPath lets through what counts as wire in the ground path: wire, and
// mated connector pins (a rated inlet's tab and a module's ground path are
// wires on the sheet).
func GroundPath(e *circuit.Element) bool {
	if e.Conducts == circuit.Wire {
		return true
	}
	p := PartOfElement(e)
	return p != nil && e.Conducts == circuit.Joint && p.Is(part.Mates)
}

// Contacts lets wire and contacts through, no load.
func Contacts(e *circuit.Element) bool {
	return e.Conducts == circuit.Wire || e.Conducts == circuit.Joint
}

// InLine lets through what stands in a line conductor beside contacts and leaves it
// its volts: coils of a filter, chokes, inrush limiters. A resistor is left out: it
// may be a bleeder from one conductor to the other.
func InLine(e *circuit.Element) bool {
	p := PartOfElement(e)
	return p != nil && e.Conducts == circuit.Conducting && p.Is(part.InLine)
}

// AlongLine lets through what carries a line conductor along and does not bridge
// it to the other: contacts and what stands in line.
func AlongLine(e *circuit.Element) bool { return Contacts(e) || InLine(e) }

// small is the most resistance, in Ω, behind which a point still counts as on
// the line: a surge or dropping resistor, never a bleeder (common practice:
// the former are below 1 kΩ, the latter above 100 kΩ).
const small = 1e3

// Near lets through what stands between the cord and the loads of a set: what
// goes along the line, and small resistors and a cord that resists. Windings,
// heaters, lamps and rectifiers are loads.
func Near(e *circuit.Element) bool {
	if AlongLine(e) {
		return true
	}
	p := PartOfElement(e) // none: the cord's third conductor
	return e.Conducts == circuit.Conducting && (p == nil || p.Is(part.Resists)) && e.R.High <= small
}

// inSeries lets through what conducts or strikes and is no load of the set:
// neither a heater nor a motor, rectifier or winding of a mains transformer. Through
// an output transformer the line still comes, if it comes there at all.
func inSeries(e *circuit.Element) bool {
	p := PartOfElement(e)
	return p != nil && !ProtectiveResistor(e) && (e.Conducts == circuit.Conducting || e.Law == circuit.Striking) &&
		(!Loads(e) || p.Is(part.OutputCore))
}

// Conductors lets everything through that conducts direct current either way:
// wire, contacts, fuses, windings, resistors, heaters, rectifiers of metal.
func Conductors(e *circuit.Element) bool {
	switch e.Conducts {
	case circuit.Wire, circuit.Joint, circuit.Conducting, circuit.OneWay:
		return true
	}
	return false
}

// bothWays lets through what conducts alternating current and is no winding of
// a mains transformer.
func bothWays(e *circuit.Element) bool {
	p := PartOfElement(e)
	coil := p != nil && p.Is(part.Supplies)
	return Contacts(e) || e.Conducts == circuit.Conducting && !coil
}

// Warm lets everything through that conducts in a set that is warm, tubes and
// what strikes too, but a protective impedance.
func Warm(e *circuit.Element) bool {
	return (Conductors(e) || e.Law == circuit.ColdTube || e.Law == circuit.Striking) && !ProtectiveResistor(e)
}

// warmTubes lets through what conducts, and tubes, but no protective impedance.
func warmTubes(e *circuit.Element) bool {
	return Warm(e) && e.Law != circuit.Striking
}

// ProtectiveResistor tells a resistor large enough to be meant as a protective
// impedance: 100 kΩ or more (common practice for chassis resistors of old
// series sets, 150 to 470 kΩ).
func ProtectiveResistor(e *circuit.Element) bool {
	p := PartOfElement(e)
	return p != nil && p.Is(part.Resists) && e.R.Low >= 80e3
}

// Loads tells what uses the mains: windings on a core, heaters, ballasts, motors,
// and rectifiers fed straight from the line.
func Loads(e *circuit.Element) bool {
	p := PartOfElement(e)
	return p != nil && p.Is(part.Load)
}
