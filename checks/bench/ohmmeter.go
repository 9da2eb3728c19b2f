package bench

import (
	"fmt"
	"math"
	"slices"

	"firstvolt/checks/circuit"
	"firstvolt/checks/handbook"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
	"firstvolt/checks/sheet"
)

// leak is what insulation and open contacts count as in a prediction: 1 MΩ or
// more (design rule of the ohmmeter model; where danger is asked they count as
// measured).
var leak = circuit.Interval{Low: 1e6, High: math.Inf(1)}

// span is a resistance known by a meter: between low and high, wherever in it
// the true value lies.
type span struct{ low, high float64 }

// StatesOf lists the states in which a reading may have been taken: what it
// says of switches and selectors stands, what it does not say goes through
// every position. The list is the bench's own and not to be changed.
func (b *Bench) StatesOf(rd *sheet.Reading) (states []State, ok bool) {
	found := b.Keep(statesKey{rd}, func() any {
		states, ok := b.statesOf(rd)
		return statesFound{states, ok}
	}).(statesFound)
	return found.states, found.ok
}

type (
	statesKey   struct{ rd *sheet.Reading }
	statesFound struct {
		states []State
		ok     bool
	}
)

func (b *Bench) statesOf(rd *sheet.Reading) (states []State, ok bool) {
	s := State{Without: rd.Without, Lifted: rd.Lifted, AllOut: rd.AllFuses == "out"}
	if p := rd.AcrossPart; p != nil && slices.Contains(rd.Without, p.Name) {
		// Read across a part that is out of the set: of itself, in the hand.
		s.Without = slices.DeleteFunc(slices.Clone(rd.Without), func(name string) bool { return name == p.Name })
		s.Lifted = slices.Clone(rd.Lifted)
		for _, t := range p.Terminals() {
			s.Lifted = append(s.Lifted, p.Full(t))
		}
	}
	for name, st := range rd.Fuses {
		s.Out = with(s.Out, name, st == "out")
	}
	for name, pos := range rd.Positions {
		s.Position = with(s.Position, name, pos)
	}
	switch rd.Switches {
	case "closed":
		s.AllClosed = true
	case "open":
		for _, p := range b.Parts(part.Switches) {
			s.Closed = with(s.Closed, p.Name, false)
		}
	}
	for name, st := range rd.Switch {
		s.Closed = with(s.Closed, name, st == "closed")
	}
	return b.Combinations(s, false)
}

// pin is the far end of a cord conductor, where a meter touches the plug.
func pin(terminal string) string { return terminal + " (pin)" }

// CordConductor is the resistance of one cord conductor at the temperature of
// the room, from size and length; ok is false where the sheet does not say.
func (b *Bench) CordConductor() (quantity.Range, bool) { return b.CordConductorAt(b.Sheet.Ambient) }

// CordConductorAt is CordConductor at a temperature in °C.
func (b *Bench) CordConductorAt(temp quantity.Range) (quantity.Range, bool) {
	written, area, okA := b.Sheet.ConductorSize()
	length, okL := b.Sheet.CordValue("length")
	if !okA || !okL {
		return quantity.Unknown(quantity.Resistance), false
	}
	r, _, ok := handbook.ConductorResistance(written, area, length, temp)
	if !ok {
		return quantity.Unknown(quantity.Resistance), false
	}
	return r, true
}

// probes turns a reading's nodes into circuit terminals: the plug is touched at its pins.
func probes(ts []string) []string {
	out := make([]string, len(ts))
	for i, t := range ts {
		out[i] = t
		if t == sheet.PlugHot || t == sheet.PlugNeutral || t == sheet.PlugGround {
			out[i] = pin(t)
		}
	}
	return out
}

// reading end of a meter: which end of its span a winding is taken at.
type meterEnd int

const (
	lowEnd meterEnd = iota
	highEnd
)

// metered is the circuit that a meter sees in state st: the set's, insulation
// as leaks, the cord to the pins. Windings have no resistance of their own yet.
func (b *Bench) metered(st State) *circuit.Circuit {
	return b.Keep(meteredKey(st.key(nil)), func() any {
		var leaks []circuit.Element
		for _, p := range b.Sheet.Parts {
			leaks = b.leaks(leaks, p, st)
		}
		const conductors = 3 // of the cord
		es := append(b.elements(st, len(leaks)+conductors), leaks...)
		for i := range es {
			switch {
			case es[i].Law == circuit.Electrolytic:
				// It charges, leaks and, the wrong way round, conducts: anything.
				es[i].Conducts = circuit.Conducting
				es[i].R = circuit.Interval{Low: 0, High: math.Inf(1)}
			case es[i].Conducts == circuit.Bridging:
				es[i].R = leak
			case filterCoil(&es[i]):
				coil := handbook.MainsSource().Filter
				es[i].R = circuit.Interval{Low: coil.Low, High: coil.High}
			}
		}
		cord, known := b.CordConductor()
		r := circuit.Interval{Low: cord.Low, High: cord.High}
		if !known {
			r = circuit.Interval{Low: 0, High: math.Inf(1)}
		}
		for _, t := range []string{sheet.PlugHot, sheet.PlugNeutral, sheet.PlugGround} {
			es = append(es, circuit.Element{Name: "cord " + t, A: pin(t), B: t, Conducts: circuit.Conducting, R: r})
		}
		return circuit.New(es)
	}).(*circuit.Circuit)
}

type meteredKey string

// filterCoil tells a winding of a mains filter, whose ohms are usual.
func filterCoil(e *circuit.Element) bool {
	p := PartOfElement(e)
	return p != nil && p.Is(part.Filters) && e.Conducts == circuit.Conducting
}

// read are the metered elements with the windings as their readings say.
func read(metered *circuit.Circuit, ohms map[string]span) []circuit.Element {
	es := slices.Clone(metered.Elements())
	for i := range es {
		if s, ok := ohms[es[i].Name]; ok {
			es[i].R = circuit.Interval{Low: s.low, High: s.high}
		}
	}
	return es
}

// tight are the resistances of elements as read gives them, with the windings
// at one end of their meters and with what the parts most likely are: their
// marked value where no tolerance is written.
func (b *Bench) tight(read []circuit.Element, ohms map[string]span, end meterEnd) []circuit.Interval {
	out := make([]circuit.Interval, len(read))
	_, cord := b.CordConductor()
	for i := range read {
		e := &read[i]
		out[i] = e.R
		p := PartOfElement(e)
		s, measured := ohms[e.Name]
		switch {
		case measured && end == lowEnd:
			out[i].High = s.low
		case measured:
			out[i].Low = s.high
		case e.Law == circuit.Winding:
		case e.Law == circuit.Electrolytic, e.Conducts == circuit.Bridging:
		case filterCoil(e):
			out[i].High = out[i].Low // what nobody read belongs to no prediction
		case p == nil:
			if !cord && e.Conducts == circuit.Conducting && math.IsInf(e.R.High, 1) {
				out[i].High = 0
			}
		case p.Is(part.Track):
			// What is known of a track lies as far above its mark as below it.
			if mark := (e.R.Low + e.R.High) / 2; (e.R.Low > 0 || len(p.Terminals()) == 2) && !math.IsInf(mark, 1) {
				out[i] = circuit.Interval{Low: math.Max(e.R.Low, mark*(1-b.tolerance(p))), High: math.Min(e.R.High, mark*(1+b.tolerance(p)))}
			}
		case p.Is(part.Fuses) && (!b.said(p, "rating", "speed", "standard", "body")):
			out[i].High = out[i].Low
		}
	}
	return out
}

// mostTolerance is the widest tolerance that belongs to a prediction; a wider one
// only makes it less certain (rule of the readings).
const mostTolerance = 0.1

// tolerance is the share of a marked value that belongs to a prediction: nothing
// where it is not marked.
func (b *Bench) tolerance(p *part.Part) float64 {
	t, ok := part.ValueOf(p.Node.Get("tolerance"))
	if !ok {
		return 0
	}
	return math.Min(t.High, mostTolerance)
}

func (b *Bench) said(p *part.Part, keys ...string) bool {
	for _, k := range keys {
		if p.Node.Get(k) == nil {
			return false
		}
	}
	return true
}

// leaks adds the insulation of one part as an ohmmeter may see it: open
// contacts, winding to winding, winding to core.
func (b *Bench) leaks(es []circuit.Element, p *part.Part, st State) []circuit.Element {
	add := func(a, c string) {
		es = append(es, circuit.Element{Name: "leak " + a + "-" + c, Owner: p.Name, A: a, B: c, Conducts: circuit.Bridging, R: leak})
	}
	switch {
	case p.Is(part.Switches):
		if !st.of(p).Closed {
			t := p.Terminals()
			for i := 0; i+1 < len(t); i += 2 {
				add(p.Full(t[i]), p.Full(t[i+1]))
			}
		}
	case p.Is(part.Isolates):
		for i, w := range p.Windings {
			add(p.Full(w.Ends[0]), sheet.Chassis)
			for _, v := range p.Windings[i+1:] {
				add(p.Full(w.Ends[0]), p.Full(v.Ends[0]))
			}
		}
	}
	return es
}

// Prediction is what an ohmmeter should show by everything but the reading
// itself, in one state.
type Prediction struct {
	State State
	// Open: no conducting path joins the probes.
	Open bool
	// Low and High are the prediction with every winding at the low and at the
	// high end of its own meter; what lies inside each is the parts' spread.
	Low, High quantity.Range
	// Wide holds everything that is possible.
	Wide quantity.Range
	// Unknown: a conducting path of unknown value, or nothing that predicts.
	Unknown bool
	// Needs lists keys that would make it known: "V1 type".
	Needs []string
	// Path holds the parts that carry the meter's current.
	Path []*circuit.Element
	// Unread are the ends of the windings on the path that nobody read.
	Unread [][2]string
}

// Predict predicts a resistance (or insulation) reading with itself left out,
// in every state that it may have been taken in.
func (b *Bench) Predict(rd *sheet.Reading) ([]Prediction, error) {
	if out, ok := b.foretold[rd]; ok {
		return out, nil
	}
	states, ok := b.StatesOf(rd)
	if !ok {
		return nil, fmt.Errorf("more than %d switch and selector positions", MaxCombinations)
	}
	var out []Prediction
	for _, st := range states {
		p, err := b.predict(rd, st)
		if err != nil {
			return nil, err
		}
		out = append(out, p)
	}
	b.foretold[rd] = out
	return out, nil
}

func (b *Bench) predict(rd *sheet.Reading, st State) (Prediction, error) {
	plus, minus := probes(rd.A), probes(rd.B)
	p := Prediction{State: st}
	seen := b.metered(st)
	if idle := backward(seen, plus, minus); len(idle) > 0 {
		seen = seen.Without(idle...)
	}
	seen = settled(seen, plus, minus)
	ohms := b.ohmsIn(seen, slices.Concat(plus, minus), rd)
	elements := read(seen, ohms)
	wide := seen.Revalued(elements)
	p.Path = wide.Between(plus, minus)
	p.Unread = b.unreadStretches(wide, slices.Concat(plus, minus), p.Path)
	conducts := wide.Reach(plus, Conductors)
	p.Open = !slices.ContainsFunc(minus, conducts.Has)
	r, err := wide.Bounds(plus, minus, nil)
	if err != nil {
		return p, err
	}
	p.Wide = quantity.Range{Low: r.Low, High: r.High, Dim: quantity.Resistance}
	if p.Open {
		p.Low, p.High = p.Wide, p.Wide
		return p, nil
	}
	for _, e := range p.Path {
		if q := PartOfElement(e); q != nil && e.Conducts != circuit.Bridging {
			for _, key := range q.OhmsNeed() {
				p.Needs = append(p.Needs, q.Name+" "+key)
			}
		}
	}
	p.Needs = slices.Compact(p.Needs)
	p.Unknown = math.IsInf(p.Wide.High, 1)
	for end, to := range map[meterEnd]*quantity.Range{lowEnd: &p.Low, highEnd: &p.High} {
		r, err := wide.Bounds(plus, minus, b.tight(elements, ohms, end))
		if err != nil {
			return p, err
		}
		*to = quantity.Range{Low: r.Low, High: r.High, Dim: quantity.Resistance}
	}
	return p, nil
}
