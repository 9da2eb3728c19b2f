package part

import (
	"fmt"

	"firstvolt/checks/circuit"
	"firstvolt/checks/handbook"
	"firstvolt/checks/quantity"
	"firstvolt/checks/strict"
)

var typeKey = key("type", &strict.Shape{Text: &strict.TextShape{Example: "6V6", Type: "tube-type"}}, "type number")

// A type that the handbook does not know has its heater on the sheet.
var (
	heaterVolts = key("heater-voltage", Above(quantity.Voltage), "volts of its heater by its data, for a type that firstvolt does not know")
	heaterAmps  = key("heater-current", Above(quantity.Current), "current of its heater by its data, for a type that firstvolt does not know")
)

var tube = &Kind{
	Name: "tube", Doc: "a tube; only its heater conducts while it is cold",
	Traits: Load | Amplifies | PlugsIn | OnLine | BearsVolts,
	Keys: []strict.Key{typeKey, heaterVolts, heaterAmps,
		key("plate-current", Quantity(quantity.Current), "direct current of its plate, if not as its type's usual"),
		key("screen-current", Quantity(quantity.Current), "direct current of its screen, if not as its type's usual"),
	},
	Terminals: terminals("h1", "h2", "plate", "screen", "grid", "cathode"),
	Through:   through("h1", "h2"),
	Elements: func(p *Part, _ State) []circuit.Element {
		es := []circuit.Element{p.heater("h1", "h2")}
		for _, t := range []string{"plate", "screen", "grid"} {
			es = append(es, circuit.Element{Name: p.Name + " " + t, A: p.Full(t), B: p.Full("cathode"), Conducts: circuit.Bridging, Law: circuit.ColdTube})
		}
		return es
	},
	Check:    (*Part).otherHeater,
	Failures: heaterFails,
}

var rectifier = &Kind{
	Name: "rectifier", Doc: "a rectifier: a tube by its type, or a silicon or selenium one",
	Traits: Load | Rectifies | PlugsIn | OnLine | BearsVolts,
	Keys: []strict.Key{
		typeKey, heaterVolts, heaterAmps,
		key("of", Word("silicon", "selenium"), "what it is made of, if it is no tube"),
		key("voltage", Above(quantity.Voltage), "inverse voltage that it may stand, of silicon or selenium"),
		key("current", Above(quantity.Current), "direct current that it may carry, of silicon or selenium"),
	},
	Terminals: func(p *Part) []string {
		if p.Word("of") != "" {
			return []string{"anode", "cathode"}
		}
		t := []string{"h1", "h2", "h-tap", "plate", "plate-1", "plate-2", "cathode"}
		if p.Word("type") == "" {
			return append(t, "anode") // what it is, the sheet does not say
		}
		return t
	},
	Through: func(p *Part) (string, string, bool) {
		if p.Word("of") != "" {
			return "anode", "cathode", true
		}
		return "h1", "h2", true
	},
	Elements: func(p *Part, _ State) []circuit.Element {
		metal := two(p, "anode", "cathode", circuit.OneWay, anyOhms())
		metal.Law = circuit.Diode
		if p.Word("of") != "" {
			return []circuit.Element{metal}
		}
		// A tapped heater is two stretches; without a wire on the tap they are
		// one heater all the same.
		whole := p.heater("h1", "h2").R
		piece := circuit.Interval{Low: 0, High: whole.High}
		es := []circuit.Element{
			p.heater("h1", "h2"),
			{Name: p.Name + " h1-h-tap", A: p.Full("h1"), B: p.Full("h-tap"), Conducts: circuit.Conducting, R: piece, Law: circuit.Heater},
			{Name: p.Name + " h-tap-h2", A: p.Full("h-tap"), B: p.Full("h2"), Conducts: circuit.Conducting, R: piece, Law: circuit.Heater},
		}
		for _, t := range []string{"plate", "plate-1", "plate-2"} {
			for _, k := range []string{"cathode", "h1"} {
				es = append(es, circuit.Element{Name: p.Name + " " + t + "-" + k, A: p.Full(t), B: p.Full(k), Conducts: circuit.Bridging, Law: circuit.ColdTube})
			}
		}
		if p.Word("type") == "" { // either: which, its wires will show
			es = append(es, metal)
		}
		return es
	},
	Check: func(p *Part) []strict.Problem {
		if p.Word("of") != "" && p.Word("type") != "" {
			return []strict.Problem{{Pos: p.Node.Get("of").At(), Wrong: p.Name + " has both a tube type and a material", Right: "keep type: for a tube, of: for silicon or selenium"}}
		}
		out := p.otherHeater()
		for _, k := range []string{"voltage", "current"} {
			if n := p.Node.Get(k); n != nil && p.Word("type") != "" {
				out = append(out, strict.Problem{Pos: n.At(), Wrong: fmt.Sprintf("%s is a tube, whose %s its type tells", p.Name, k), Right: "delete " + k + ": it is of silicon and selenium"})
			}
		}
		return out
	},
	Failures: rectifierFails,
}

// heater is the heater between two terminals, cold. A heater in two halves
// may be wired side by side, which the sheet does not say: from there to end
// to end.
func (p *Part) heater(a, b string) circuit.Element {
	r := anyOhms()
	if t, ok := p.heaterData(); ok {
		cold, _ := t.ColdHeater()
		if t.HalfVolts > 0 {
			cold.Low /= 4
		}
		r = ohms(cold, true)
	}
	return circuit.Element{Name: p.Name + " heater", A: p.Full(a), B: p.Full(b), Conducts: circuit.Conducting, R: r, Law: circuit.Heater}
}

// heaterData is what the handbook has of the type; where it does not know the
// type, the heater that the sheet states.
func (p *Part) heaterData() (handbook.TubeData, bool) {
	if t, ok := handbook.Tube(p.Word("type")); ok {
		return t, true
	}
	volts, okV := p.Value(heaterVolts.Name)
	amps, okA := p.Value(heaterAmps.Name)
	return handbook.TubeData{Volts: volts.Low, Amps: amps.Low}, okV && okA
}

// HeaterRating is the published heater voltage and current of the part's
// type, both ways of wiring it where it comes in two halves.
func (p *Part) HeaterRating() (volts, amps quantity.Range, ok bool) {
	t, ok := p.heaterData()
	if !ok {
		return volts, amps, false
	}
	volts, amps = quantity.Exact(t.Volts, quantity.Voltage), quantity.Exact(t.Amps, quantity.Current)
	if t.HalfVolts > 0 {
		volts.Low, amps.High = t.HalfVolts, 2*t.Amps
	}
	return volts, amps, true
}

// sameHeater is how far, as a share, two data books may differ about one heater
// (common practice: 12 V and 12.6 V are written of the same tubes).
const sameHeater = 0.1

// otherHeater reports a heater on the sheet that the type does not have.
func (p *Part) otherHeater() []strict.Problem {
	volts, amps, known := p.HeaterRating()
	var out []strict.Problem
	for _, k := range []struct {
		name string
		has  quantity.Range
	}{{heaterVolts.Name, volts}, {heaterAmps.Name, amps}} {
		n, v := p.Node.Get(k.name), quantity.Range{}
		if v, _ = p.Value(k.name); n == nil {
			continue
		}
		switch {
		case p.Word("of") != "":
			out = append(out, strict.Problem{Pos: n.At(), Wrong: fmt.Sprintf("%s is of a tube, and %s is of %s", k.name, p.Name, p.Word("of")), Right: "delete " + k.name})
		case known && !(v.Low >= k.has.Low*(1-sameHeater) && v.High <= k.has.High*(1+sameHeater)):
			out = append(out, strict.Problem{Pos: n.At(), Wrong: fmt.Sprintf("%s is %s, but a %s has %s", k.name, v, p.Word("type"), k.has),
				Right: "write the type that is printed on the tube; the heater of this one is known, so that " + k.name + " may be left out"})
		}
	}
	return out
}
