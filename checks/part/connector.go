package part

import (
	"fmt"

	"firstvolt/checks/circuit"
	"firstvolt/checks/quantity"
	"firstvolt/checks/strict"
)

const mate = "-mate"

var connector = &Kind{
	Name: "connector", Doc: "a plug and socket inside the set; PIN is on the supply's half, PIN-mate on the other",
	Traits: Contact | Mates,
	Keys: []strict.Key{
		key("pins", ListOf(Name(), 1, 0), "its pins in order"),
		key("jumpers", ListOf(pairShape, 0, 0), "pins joined inside the mate half"),
		key("fits", Word("one-way", "both-ways"), "whether it can be plugged either way round"),
	},
	Terminals: func(p *Part) []string {
		t := []string{}
		for _, pin := range p.Pins() {
			t = append(t, pin, pin+mate)
		}
		return t
	},
	Through: func(p *Part) (string, string, bool) {
		pins := p.Pins()
		if len(pins) != 1 {
			return "", "", false
		}
		return pins[0], pins[0] + mate, true
	},
	Elements: func(p *Part, s State) []circuit.Element {
		var es []circuit.Element
		if !s.Unmated {
			pins := p.Pins()
			for i, pin := range pins {
				meets := pin
				if s.Turned {
					meets = pins[len(pins)-1-i]
				}
				es = append(es, circuit.Element{Name: fmt.Sprintf("%s %s", p.Name, pin), A: p.Full(pin), B: p.Full(meets + mate), Conducts: circuit.Joint, R: contactOhms})
			}
		}
		for _, j := range pairs(p.Node.Get("jumpers")) {
			es = append(es, circuit.Element{Name: fmt.Sprintf("%s jumper %s-%s", p.Name, j[0], j[1]), A: p.Full(j[0] + mate), B: p.Full(j[1] + mate), Conducts: circuit.Wire})
		}
		return es
	},
	Check: func(p *Part) []strict.Problem {
		var out []strict.Problem
		pins, seen := p.Pins(), map[string]bool{}
		for i, pin := range pins {
			if seen[pin] {
				out = append(out, strict.Problem{Pos: p.Node.Get("pins").Items[i].At(), Wrong: fmt.Sprintf("%s has pin %s twice", p.Name, pin), Right: "name each pin once, in order"})
			}
			seen[pin] = true
		}
		for i, j := range pairs(p.Node.Get("jumpers")) {
			at := p.Node.Get("jumpers").Items[i].At()
			if j[0] == j[1] {
				out = append(out, strict.Problem{Pos: at, Wrong: fmt.Sprintf("a jumper of %s from pin %s to itself", p.Name, j[0]), Right: "name two pins"})
			}
			for _, pin := range j {
				if !seen[pin] {
					out = append(out, strict.Problem{Pos: at, Wrong: fmt.Sprintf("%s has no pin %s", p.Name, pin), Right: strict.Suggest(pin, pins, "name one of its pins")})
				}
			}
		}
		return out
	},
	Failures: pinsPart,
}

// Pins lists a connector's pins in order.
func (p *Part) Pins() []string {
	var out []string
	if n := p.Node.Get("pins"); n != nil {
		for _, i := range n.Items {
			out = append(out, i.Text)
		}
	}
	return out
}

var filter = &Kind{
	Name: "filter", Doc: "a bought mains filter; it holds capacitors of unknown value across and to its case",
	Traits: InLine | Filters | OhmsUntold | BearsVolts | BearsAmps, Ground: "case",
	Keys: []strict.Key{
		key("current", Above(quantity.Current), "rated current"),
		key("voltage", Above(quantity.Voltage), "rated voltage"),
		key("leakage", Quantity(quantity.Current), "leakage to its case, from its label"),
	},
	Terminals: terminals("line-in", "neutral-in", "line-out", "neutral-out", "case"),
	Through:   func(*Part) (string, string, bool) { return "", "", false },
	Elements: func(p *Part, _ State) []circuit.Element {
		// Its windings are a fraction of an ohm, but the sheet does not say how much.
		coil := func(name, a, b string) circuit.Element {
			return circuit.Element{Name: p.Name + " " + name, A: p.Full(a), B: p.Full(b), Conducts: circuit.Conducting, R: anyOhms()}
		}
		inside := func(name, a, b string) circuit.Element {
			return circuit.Element{Name: p.Name + " " + name, A: p.Full(a), B: p.Full(b), Conducts: circuit.Bridging, C: anyOhms()}
		}
		return []circuit.Element{
			coil("line", "line-in", "line-out"), coil("neutral", "neutral-in", "neutral-out"),
			inside("across", "line-in", "neutral-in"), inside("line-case", "line-out", "case"), inside("neutral-case", "neutral-out", "case"),
		}
	},
	Failures: fails(Failure{Way: ToCase, A: "line-out", B: "case"}, Failure{Way: Across, A: "line-in", B: "neutral-in"}),
}
