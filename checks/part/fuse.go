package part

import (
	"fmt"
	"strings"

	"firstvolt/checks/circuit"
	"firstvolt/checks/handbook"
	"firstvolt/checks/pattern"
	"firstvolt/checks/quantity"
	"firstvolt/checks/strict"
)

var fuse = &Kind{
	Name: "fuse", Doc: "a fuse in its holder", Swappable: true,
	Traits: Contact | Fuses | PlugsIn,
	Keys: []strict.Key{
		key("rating", stampedAmperes(), "current stamped on it"),
		key("voltage", Above(quantity.Voltage), "voltage stamped on it"),
		key("speed", Word("fast", "time-delay"), "how it opens"),
		key("standard", Word("ul-248-14", "iec-60127"), "the standard it is made to"),
		key("breaking", &strict.Shape{Text: &strict.TextShape{Parse: breaking, Example: "high", Type: "breaking", Pattern: "^(low|high)$|" + quantity.Current.Pattern()}}, "what it can interrupt: low, high, or amperes"),
		key("body", Word("glass", "ceramic"), "what its body is made of"),
		key("holder", Word("panel", "in-line", "clips", "pigtail", "touch-proof"), "how it is held"),
	},
	Terminals: func(p *Part) []string {
		if n := p.Node.Get("holder"); n != nil && n.Refused {
			return []string{"end", "side", "1", "2"} // which, nobody knows; the word is reported
		}
		switch p.Word("holder") {
		case "panel", "touch-proof":
			return []string{"end", "side"}
		}
		return []string{"1", "2"}
	},
	Through: func(p *Part) (string, string, bool) {
		t := p.Terminals()
		return t[0], t[1], true
	},
	Elements: func(p *Part, s State) []circuit.Element {
		if s.Out {
			return nil
		}
		t := p.Terminals()
		return []circuit.Element{two(p, t[0], t[1], circuit.Joint, p.fuseOhms())}
	},
	Failures: func(p *Part) []Failure { t := p.Terminals(); return []Failure{{Way: Bridged, A: t[0], B: t[1]}} },
}

// stamp is what is stamped on a fuse-link: speed, amperes, breaking, volts.
var stamp = pattern.Of(`^(FF|F|TT|T|M)\s*(\d+(?:[.,]\d+)?)\s*(m?A)?\s*([LH])?\s*/?\s*(?:(\d+)\s*V)?$`)

// stampedAmperes is the shape of a fuse's rating. A whole stamp is told apart.
func stampedAmperes() *strict.Shape {
	s := Above(quantity.Current)
	plain := s.Text.Parse
	s.Text.Parse = func(text string) (any, error) {
		m := stamp().FindStringSubmatch(text)
		if m == nil {
			return plain(text)
		}
		unit := m[3]
		if unit == "" {
			unit = "A"
		}
		r, err := quantity.Parse(strings.Replace(m[2], ",", ".", 1)+" "+unit, quantity.Current)
		if err != nil {
			return plain(text)
		}
		right := "write rating: " + quantity.FormatTo(r.Low, quantity.Current, 6)
		if speed := map[string]string{"F": "fast", "T": "time-delay"}[m[1]]; speed != "" {
			right += ", speed: " + speed
		}
		if breaking := map[string]string{"L": "low", "H": "high"}[m[4]]; breaking != "" {
			right += ", breaking: " + breaking
		}
		if m[5] != "" {
			right += ", voltage: " + m[5] + " V"
		}
		return nil, &strict.Fault{Wrong: fmt.Sprintf("%q is more than the current", text), Right: right}
	}
	return s
}

func breaking(text string) (any, error) {
	switch text {
	case "low", "high":
		return text, nil
	}
	r, err := quantity.Parse(text, quantity.Current)
	if err != nil {
		return nil, &strict.Fault{Wrong: fmt.Sprintf("%q is neither low, high nor a current", text), Right: "low, high, or amperes, like 1500 A"}
	}
	return r, nil
}

// fuseOhms is the cold resistance by the fuse makers' tables.
func (p *Part) fuseOhms() circuit.Interval {
	rating, ok := p.Value("rating")
	if !ok {
		return anyOhms()
	}
	low, _, okLow := handbook.FuseColdResistance(p.Word("standard"), p.Word("speed"), p.Word("body"), rating.High)
	high, _, okHigh := handbook.FuseColdResistance(p.Word("standard"), p.Word("speed"), p.Word("body"), rating.Low)
	if !okLow || !okHigh {
		return anyOhms()
	}
	return ohms(low.Hull(high), true)
}
