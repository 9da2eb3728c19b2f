package part

import (
	"fmt"
	"math"

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
	Traits:    Resister | Resists | BearsVolts | BearsWatts,
	Keys:      resistorKeys,
	Terminals: func(p *Part) []string { return append([]string{"1", "2"}, p.taps()...) },
	Through:   through("1", "2"),
	Elements:  func(p *Part, _ State) []circuit.Element { return p.track() },
	Check:     (*Part).tapsInOrder,
	Failures:  shortsOrOpens,
}

var potentiometer = &Kind{
	Name: "potentiometer", Doc: "a variable resistor with a wiper", Swappable: true,
	Traits:    Resister | Adjusts | BearsVolts | BearsWatts,
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
	Check:    (*Part).tapsInOrder,
	Failures: shortsOrOpens,
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

// Without a stated tolerance 20 % is taken: the widest of the E6 series
// (IEC 60063) that unmarked parts were made to.
const unmarkedTolerance = 0.2

// track is the resistance from 1 to 2, in sections where taps are declared: each of
// its own ohms, where both its ends have theirs, else anything up to the whole.
func (p *Part) track() []circuit.Element {
	r, known := toleranced(p, "value", unmarkedTolerance)
	stops := append(append([]string{"1"}, p.taps()...), "2")
	if len(stops) == 2 {
		return []circuit.Element{two(p, "1", "2", circuit.Conducting, ohms(r, known))}
	}
	whole := r
	whole.Low = 0
	share := p.share("tolerance", unmarkedTolerance)
	var es []circuit.Element
	for i := 1; i < len(stops); i++ {
		section := ohms(whole, known)
		from, okFrom := p.stop(stops[i-1])
		to, okTo := p.stop(stops[i])
		if okFrom && okTo {
			section = ohms(quantity.Exact(math.Max(0, to-from), quantity.Resistance).Widen(share), true)
		}
		es = append(es, circuit.Element{Name: fmt.Sprintf("%s %s-%s", p.Name, stops[i-1], stops[i]),
			A: p.Full(stops[i-1]), B: p.Full(stops[i]), Conducts: circuit.Conducting, R: section})
	}
	return es
}

// stop is the ohms of a terminal of the track, counted from terminal 1.
func (p *Part) stop(terminal string) (float64, bool) {
	switch terminal {
	case "1":
		return 0, true
	case "2":
		v, ok := p.Value("value")
		return v.Low, ok
	}
	v, ok := ValueOf(p.Node.Get("taps").Get(terminal))
	return v.Low, ok
}

// tapsInOrder reports a tap whose ohms cannot be where it stands.
func (p *Part) tapsInOrder() (out []strict.Problem) {
	whole, limited := p.stop("2")
	last := 0.0
	for _, name := range p.taps() {
		at, ok := p.stop(name)
		if !ok {
			continue
		}
		bad := func(is string) {
			n := p.Node.Get("taps").Get(name)
			out = append(out, strict.Problem{Pos: n.At(), Wrong: fmt.Sprintf("tap %s is %s from terminal 1, %s", name, n.Text, is),
				Right: "write the ohms of each tap from terminal 1, in the order of the taps"})
		}
		switch {
		case !(at >= last):
			bad("less than what comes before it")
		case limited && !(at <= whole):
			bad("more than the whole, " + quantity.Exact(whole, quantity.Resistance).String())
		}
		last = math.Max(last, at)
	}
	return out
}
