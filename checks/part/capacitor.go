package part

import (
	"firstvolt/checks/circuit"
	"firstvolt/checks/quantity"
	"firstvolt/checks/strict"
)

var capacitor = &Kind{
	Name: "capacitor", Doc: "a capacitor that has no polarity", Swappable: true,
	Traits: Bridge | Nonpolar | BearsVolts,
	Keys: []strict.Key{
		key("value", Above(quantity.Capacitance), "marked value"),
		key("voltage", Above(quantity.Voltage), "marked voltage (AC for a class X or Y part)"),
		key("class", Word("X1", "X2", "X3", "Y1", "Y2", "Y3", "Y4", "none"), "safety class by IEC 60384-14; none: no X or Y mark on its body"),
		key("tolerance", Quantity(quantity.Fraction), "marked tolerance"),
		key("body", Word("film", "ceramic", "mica", "paper"), "what it is made of"),
	},
	Terminals: terminals("1", "2"), Through: through("1", "2"),
	Elements: func(p *Part, _ State) []circuit.Element {
		e := two(p, "1", "2", circuit.Bridging, circuit.Interval{})
		// IEC 60384-14 parts come to ±20 % (common practice, reference data sheets).
		if c, ok := toleranced(p, "value", 0.2); ok {
			e.C = circuit.Interval{Low: c.Low, High: c.High}
		}
		return []circuit.Element{e}
	},
	Failures: shortsOrOpens,
}
