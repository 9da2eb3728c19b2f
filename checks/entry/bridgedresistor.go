package entry

import (
	"fmt"
	"math"
	"math/cmplx"
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
)

// within is what lies inside a chain of protective resistors: between them, off
// line and metal, by anything that lets alternating current through.
func (at impedance) within(lines []string, metal string) net {
	line := at.c.Reach(lines, unimpeded)
	outside := func(t string) bool { return line.Has(t) || at.c.SameNet(t, metal) }
	var from []string
	for _, e := range at.resistors {
		for _, t := range []string{e.A, e.B} {
			if !outside(t) {
				from = append(from, t)
			}
		}
	}
	return at.c.Reach(from, func(e *circuit.Element) bool {
		return (bench.Conductors(e) || capacitive(e)) && !outside(e.A) && !outside(e.B)
	})
}

func capacitive(e *circuit.Element) bool {
	p := bench.PartOfElement(e)
	return p != nil && e.Conducts != circuit.Conducting && p.Is(part.HoldsCharge)
}

// bridging are the capacitors that hang on the inside of a chain of protective
// resistors: one past a resistor passes alternating current round it. One from
// line straight to the metal is the matter of leakage and of its class.
func (at impedance) bridging(lines []string, metal string) (out []*circuit.Element) {
	in := at.within(lines, metal)
	for i, e := range at.c.Elements() {
		if capacitive(&e) && (in.Has(e.A) || in.Has(e.B)) {
			out = append(out, &at.c.Elements()[i])
		}
	}
	return out
}

// siemens is what passes from line to metal at the supply's frequency with one
// resistor shorted, in S: its least and its most.
func (at impedance) siemens(shorted *circuit.Element, capacitors []*circuit.Element, lines []string, metal string, hertz float64) (quantity.Range, error) {
	const source = "a volt from line to metal"
	es := []circuit.Element{
		{Name: source, A: lines[0], B: metal, Conducts: circuit.Conducting, EMF: 1},
		{Name: "line to line", A: lines[0], B: lines[1], Conducts: circuit.Wire},
	}
	for _, e := range at.c.Elements() {
		wire := circuit.Element{Name: e.Name, A: e.A, B: e.B, Conducts: circuit.Wire}
		named := func(o *circuit.Element) bool { return o.Name == e.Name }
		switch {
		case e.Name == shorted.Name, unimpeded(&e):
			es = append(es, wire)
		case bench.ProtectiveResistor(&e):
			wire.Conducts, wire.R = circuit.Conducting, e.R
			es = append(es, wire)
		case slices.ContainsFunc(capacitors, named):
			wire.Conducts, wire.R, wire.C = circuit.Bridging, circuit.Anything(), e.C
			es = append(es, wire)
		}
	}
	c, out := circuit.New(es), quantity.Range{}
	for end, pick := range map[*float64]func(*circuit.Element) circuit.Point{
		&out.Low:  func(e *circuit.Element) circuit.Point { return circuit.Point{R: e.R.High, C: e.C.Low, EMF: e.EMF} },
		&out.High: func(e *circuit.Element) circuit.Point { return circuit.Point{R: e.R.Low, C: e.C.High, EMF: e.EMF} },
	} {
		solved, err := c.AC(hertz, func(e *circuit.Element) circuit.Point {
			p := pick(e)
			if e.Conducts == circuit.Bridging {
				p.R = math.Inf(1)
			}
			return p
		})
		if err != nil {
			return out, err
		}
		i, err := solved.Current(source)
		if err != nil {
			return out, err
		}
		*end = cmplx.Abs(i)
	}
	return out, nil
}

// currentRound is currentPast where capacitors let current round the resistors.
func currentRound(b *bench.Bench, at impedance, shorted *circuit.Element, capacitors []*circuit.Element, metal string, volts quantity.Range) (quantity.Range, string) {
	unknown := func(why any) (quantity.Range, string) {
		return quantity.Unknown(quantity.Current), fmt.Sprintf("%s shorted: %v", shorted.Owner, why)
	}
	for _, e := range capacitors {
		if !(e.C.High > 0) || math.IsInf(e.C.High, 1) {
			return unknown("the value of " + e.Owner + " is not known")
		}
	}
	s, err := at.siemens(shorted, capacitors, lineList(b), metal, b.Sheet.Region.Frequency.High)
	if err != nil {
		return unknown(err)
	}
	i := quantity.Between(volts.Low*s.Low, volts.High*s.High, quantity.Current)
	return i, fmt.Sprintf("%s shorted: %s × %.4g S, past %s too, = %s", shorted.Owner, volts, s.High, capacitors[0].Owner, i)
}
