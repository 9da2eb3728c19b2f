package ratings

import (
	"slices"

	"firstvolt/checks/circuit"
	"firstvolt/checks/handbook"
	"firstvolt/checks/part"
)

// heater is the heater of a tube, hot; of one whose tap is wired, its two pieces.
func (l *lasting) heater(e circuit.Element, p *part.Part) {
	tapped := p.Is(part.Rectifies) && l.b.Sheet.OnWire(p.Full("h-tap"))
	whole := e.A == p.Full("h1") && e.B == p.Full("h2")
	v, i, ok := p.HeaterRating()
	tube, _ := handbook.Tube(p.Word("type"))
	law := handbook.Lamp()
	switch {
	case whole == tapped:
	case !ok || tapped && !(tube.TapVolts > 0 && tube.TapVolts < v.Low):
		l.ohms(e, circuit.Anything(), lacksHeater(p))
	case tapped && e.A != p.Full("h1"):
		// Made with the first piece.
	case tapped:
		l.pieces(e, p, hot(tube.TapVolts, i.High, law.Exponent), hot(v.Low-tube.TapVolts, i.High, law.Exponent))
	default:
		l.may(e, hot(v.Low, i.High, law.Exponent), hot(v.High, i.Low, law.Exponent))
	}
}

// pieces puts both pieces of a tapped heater into the circuit: the small one is
// that with the panel lamp across it; where neither has one, or both, it may be
// either, and the other is the rest.
func (l *lasting) pieces(first circuit.Element, p *part.Part, small, rest value) {
	second := circuit.Element{Name: p.Name + " h-tap-h2", A: p.Full("h-tap"), B: p.Full("h2"), Owner: first.Owner, Tag: first.Tag}
	ways := []map[string]value{{first.Name: small, second.Name: rest}, {first.Name: rest, second.Name: small}}
	switch at1, at2 := l.lampAcross(p.Full("h1"), p.Full("h-tap")), l.lampAcross(p.Full("h2"), p.Full("h-tap")); {
	case at1 && !at2:
		ways = ways[:1]
	case at2 && !at1:
		ways = ways[1:]
	default:
		l.unknowns = append(l.unknowns, unknown{elements: []string{first.Name, second.Name}, ways: ways})
	}
	l.add(first, ways[0][first.Name])
	l.add(second, ways[0][second.Name])
}

// lampAcross tells whether a lamp lies across two terminals, by wire alone.
func (l *lasting) lampAcross(a, c string) bool {
	return slices.ContainsFunc(l.b.Parts(part.Lights), func(p *part.Part) bool {
		one, two := p.Full("1"), p.Full("2")
		return l.wired.SameNet(one, a) && l.wired.SameNet(two, c) || l.wired.SameNet(one, c) && l.wired.SameNet(two, a)
	})
}
