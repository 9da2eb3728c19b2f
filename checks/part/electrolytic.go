package part

import (
	"firstvolt/checks/circuit"
	"firstvolt/checks/quantity"
	"firstvolt/checks/strict"
)

var electrolytic = &Kind{
	Name: "electrolytic", Doc: "an electrolytic capacitor or one section of a can",
	Traits: Bridge | Polar | OnLine,
	Keys: []strict.Key{
		key("value", Above(quantity.Capacitance), "marked value"),
		key("voltage", Above(quantity.Voltage), "working voltage"),
		key("surge", Above(quantity.Voltage), "surge voltage"),
		key("can", Name(), "the can that holds this section"),
		key("mark", Word("half-round", "square", "triangle", "plain"), "the mark at the lug"),
		key("was", Above(quantity.Capacitance), "value of the original section"),
		key("state", Word("new", "kept", "reformed"), "what was done about it"),
	},
	Terminals: terminals("plus", "minus"), Through: through("plus", "minus"),
	Elements: func(p *Part, _ State) []circuit.Element {
		e := two(p, "plus", "minus", circuit.Bridging, circuit.Interval{})
		e.Law = circuit.Electrolytic
		if c, ok := toleranced(p, "value", 0.5); ok {
			e.C = circuit.Interval{Low: c.Low, High: c.High}
		}
		return []circuit.Element{e}
	},
	Failures: shortsOrOpens,
}
