package part

import (
	"fmt"

	"firstvolt/checks/circuit"
	"firstvolt/checks/quantity"
	"firstvolt/checks/strict"
)

var resistorKeys = []strict.Key{
	key("value", Quantity(quantity.Resistance), "marked value"),
	key("tolerance", Quantity(quantity.Fraction), "marked tolerance"),
	key("power", Above(quantity.Power), "watts it may take"),
	key("voltage", Above(quantity.Voltage), "voltage it may stand"),
	key("taps", &strict.Shape{
		List: &strict.ListShape{Item: Name()},
		Map:  &strict.MapShape{Any: Quantity(quantity.Resistance), CheckKey: CheckName, KeyPattern: NamePattern},
	}, "names of its taps, in order from terminal 1; or each with its ohms from terminal 1"),
}

var resistor = &Kind{
	Name: "resistor", Doc: "a resistor, with taps where declared", Swappable: true,
	Keys:      resistorKeys,
	Terminals: func(p *Part) []string { return append([]string{"1", "2"}, p.taps()...) },
	Through:   through("1", "2"),
	Elements:  func(p *Part, _ State) []circuit.Element { return p.track() },
	Failures:  []Failure{Short, Open, Leak},
}

var potentiometer = &Kind{
	Name: "potentiometer", Doc: "a variable resistor with a wiper", Swappable: true,
	Keys:      resistorKeys,
	Terminals: func(p *Part) []string { return append([]string{"1", "2", "wiper"}, p.taps()...) },
	Through:   through("1", "2"),
	Elements: func(p *Part, _ State) []circuit.Element {
		// The wiper may stand anywhere: each side is anything up to the whole.
		r, known := toleranced(p, "value", 0.2)
		r.Low = 0
		side := ohms(r, known)
		es := p.track()
		return append(es,
			circuit.Element{Name: p.Name + " 1-wiper", A: p.Full("1"), B: p.Full("wiper"), Conducts: circuit.Conducting, R: side},
			circuit.Element{Name: p.Name + " wiper-2", A: p.Full("wiper"), B: p.Full("2"), Conducts: circuit.Conducting, R: side})
	},
	Failures: []Failure{Open},
}

// taps lists declared tap names in their order.
func (p *Part) taps() []string {
	n := p.Node.Get("taps")
	var out []string
	if n == nil {
		return out
	}
	for _, e := range n.Entries {
		out = append(out, e.Key)
	}
	for _, i := range n.Items {
		out = append(out, i.Text)
	}
	return out
}

// track is the resistance from 1 to 2, in sections where taps are declared.
// Without a stated tolerance 20 % is taken: the widest of the E6 series
// (IEC 60063) that unmarked parts were made to.
func (p *Part) track() []circuit.Element {
	r, known := toleranced(p, "value", 0.2)
	stops := append(append([]string{"1"}, p.taps()...), "2")
	if len(stops) == 2 {
		return []circuit.Element{two(p, "1", "2", circuit.Conducting, ohms(r, known))}
	}
	var es []circuit.Element
	for i := 1; i < len(stops); i++ {
		part := r
		part.Low = 0
		es = append(es, circuit.Element{Name: fmt.Sprintf("%s %s-%s", p.Name, stops[i-1], stops[i]),
			A: p.Full(stops[i-1]), B: p.Full(stops[i]), Conducts: circuit.Conducting, R: ohms(part, known)})
	}
	return es
}
