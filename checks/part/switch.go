package part

import (
	"fmt"
	"strconv"

	"firstvolt/checks/circuit"
	"firstvolt/checks/quantity"
	"firstvolt/checks/strict"
)

// contactOhms is the resistance of one sound contact: common practice, good
// contacts read well under 0.1 Ω.
var contactOhms = circuit.Interval{Low: 0, High: 0.1}

var poleWords = []string{"1", "2", "3", "4"}

var switchKind = &Kind{
	Name: "switch", Doc: "a mains switch; pole k joins terminals 2k-1 and 2k",
	Traits: Contact | Switches,
	Keys: []strict.Key{
		key("poles", &strict.Shape{Text: &strict.TextShape{Words: poleWords, Example: "1"}}, "how many contacts move together"),
		key("rating", Above(quantity.Current), "current it may switch"),
		key("voltage", Above(quantity.Voltage), "voltage it may switch"),
		key("form", Word("toggle", "slide", "rotary", "on-control"), "what moves it"),
		key("frame", Word("chassis", "none"), "what its metal frame is fastened to"),
	},
	Terminals: func(p *Part) []string {
		var t []string
		for i := 1; i <= 2*p.Poles(); i++ {
			t = append(t, strconv.Itoa(i))
		}
		return t
	},
	Through: func(p *Part) (string, string, bool) { return "1", "2", p.Poles() == 1 || p.polesRefused() },
	Elements: func(p *Part, s State) []circuit.Element {
		if !s.Closed {
			return nil
		}
		var es []circuit.Element
		for k := 1; k <= p.Poles(); k++ {
			a, b := strconv.Itoa(2*k-1), strconv.Itoa(2*k)
			es = append(es, circuit.Element{Name: fmt.Sprintf("%s %s-%s", p.Name, a, b), A: p.Full(a), B: p.Full(b), Conducts: circuit.Joint, R: contactOhms})
		}
		return es
	},
	Failures: polesStick,
}

// polesRefused tells whether the sheet says a number that no switch has; that is
// reported, and nothing that follows from it.
func (p *Part) polesRefused() bool {
	n := p.Node.Get("poles")
	return n != nil && n.Refused
}

// Poles is the number of poles of a switch; one where the sheet does not say,
// the most that a switch has where what it says was refused.
func (p *Part) Poles() int {
	if p.polesRefused() {
		return len(poleWords)
	}
	n, err := strconv.Atoi(p.Word("poles"))
	if err != nil {
		return 1
	}
	return n
}
