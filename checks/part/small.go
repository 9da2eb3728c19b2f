package part

import (
	"fmt"

	"firstvolt/checks/circuit"
	"firstvolt/checks/quantity"
	"firstvolt/checks/strict"
)

var thermistor = &Kind{
	Name: "thermistor", Doc: "an inrush limiter", Swappable: true,
	Traits: InLine | LimitsInrush | BearsAmps,
	Keys: []strict.Key{
		key("cold", Above(quantity.Resistance), "resistance cold"),
		key("hot", Quantity(quantity.Resistance), "resistance at its current"),
		key("current", Above(quantity.Current), "current it may carry"),
	},
	Terminals: terminals("1", "2"), Through: through("1", "2"),
	Elements: func(p *Part, _ State) []circuit.Element {
		// Makers' usual tolerance of the cold value is ±20 % (common practice).
		r, known := toleranced(p, "cold", 0.2)
		return []circuit.Element{two(p, "1", "2", circuit.Conducting, ohms(r, known))}
	},
	Failures: shortsOrOpens,
}

// striking is a part that does not conduct until its voltage is reached.
func striking(name string, traits Trait, doc string, keys ...strict.Key) *Kind {
	return &Kind{
		Name: name, Traits: traits, Doc: doc, Swappable: true, Keys: keys,
		Terminals: terminals("1", "2"), Through: through("1", "2"),
		Elements: func(p *Part, _ State) []circuit.Element {
			e := two(p, "1", "2", circuit.Bridging, circuit.Interval{})
			e.Law = circuit.Striking
			return []circuit.Element{e}
		},
		Failures: shortsOrOpens,
	}
}

var (
	varistor = striking("varistor", Bridge|Clamps|BearsVolts, "a surge absorber", key("voltage", Above(quantity.Voltage), "AC voltage it stands all day"))
	arrester = striking("arrester", Bridge|Sparks|BearsVolts, "a gas or spark arrester", key("voltage", Above(quantity.Voltage), "voltage at which it strikes"))
	neon     = striking("neon", Bridge|Glows|PlugsIn|BearsVolts|BearsWatts|BearsAmps, "a neon lamp with its resistor",
		key("voltage", Above(quantity.Voltage), "voltage it lights at"),
		key("resistor", Quantity(quantity.Resistance), "its series resistor"),
		key("power", Above(quantity.Power), "watts that its resistor may take"),
		key("resistor-voltage", Above(quantity.Voltage), "voltage that its resistor may stand"),
		key("unit-voltage", Above(quantity.Voltage), "mains voltage marked on the whole, lamp and resistor in one"))
)

// loaded is a two-terminal part that conducts with a resistance not known cold.
func loaded(name string, traits Trait, doc string, keys ...strict.Key) *Kind {
	return &Kind{
		Name: name, Traits: traits, Doc: doc, Swappable: true, Keys: keys,
		Terminals: terminals("1", "2"), Through: through("1", "2"),
		Elements: func(p *Part, _ State) []circuit.Element {
			return []circuit.Element{two(p, "1", "2", circuit.Conducting, p.hotColdOhms(15))}
		},
		Failures: shortsOrOpens,
	}
}

var (
	lamp = loaded("lamp", Resister|Lights|PlugsIn|BearsVolts|BearsAmps, "a pilot or dial lamp",
		key("voltage", Above(quantity.Voltage), "voltage it is made for"),
		key("current", Above(quantity.Current), "current at that voltage"))
	barretter = loaded("barretter", Load|Ballasts|PlugsIn|OhmsUntold|OnLine|BearsWatts|BearsAmps, "an iron-wire ballast or resistance tube",
		key("current", Above(quantity.Current), "current it holds"),
		key("voltage", Above(quantity.Voltage), "voltage it takes up"),
		key("power", Above(quantity.Power), "watts it may take"))
)

// hotColdOhms is the span from the cold resistance (hot ÷ ratio) to the hot
// one of a part described by volts and amperes; filaments and ballasts lie
// between (tungsten cold about 1/15 of hot: published, encyclopaedia figure).
func (p *Part) hotColdOhms(ratio float64) circuit.Interval {
	v, okV := p.Value("voltage")
	i, okI := p.Value("current")
	if !okV || !okI || !(i.Low > 0) {
		return anyOhms()
	}
	hot := v.Div(i, quantity.Resistance)
	return circuit.Interval{Low: hot.Low / ratio, High: hot.High}
}

// wound is a coil with a resistance written on the sheet.
func wound(name string, traits Trait, doc string) *Kind {
	return &Kind{
		Name: name, Traits: traits, Doc: doc, Swappable: true,
		Keys: []strict.Key{
			key("inductance", Above(quantity.Inductance), "marked inductance"),
			key("resistance", Quantity(quantity.Resistance), "its resistance by diagram or label"),
			key("current", Above(quantity.Current), "current it may carry"),
		},
		Terminals: terminals("1", "2"), Through: through("1", "2"),
		Elements: func(p *Part, _ State) []circuit.Element {
			// A label's ohms are good to ±20 % (common practice for chokes and fields).
			r, known := p.Value("resistance")
			return []circuit.Element{two(p, "1", "2", circuit.Conducting, ohms(r.Widen(0.2), known))}
		},
		Failures: shortsOrOpens,
	}
}

var (
	choke     = wound("choke", InLine|Chokes|OhmsUntold|BearsAmps, "a filter choke")
	fieldCoil = wound("field-coil", Resister|Excites|OhmsUntold|BearsAmps, "a loudspeaker field that serves as choke")
)

var motor = &Kind{
	Name: "motor", Doc: "a turntable or fan motor",
	Traits: Load | Turns | OhmsUntold | BearsVolts, Ground: "frame",
	Keys: []strict.Key{
		key("current", Above(quantity.Current), "running current"),
		key("voltage", Above(quantity.Voltage), "marked voltage"),
		key("power", Above(quantity.Power), "running watts"),
	},
	Terminals: terminals("1", "2", "frame"),
	Through:   through("1", "2"),
	Elements: func(p *Part, _ State) []circuit.Element {
		return []circuit.Element{two(p, "1", "2", circuit.Conducting, anyOhms())}
	},
	Failures: func(p *Part) []Failure { return append(shortsOrOpens(p), Failure{Way: ToFrame, A: "1", B: "frame"}) },
}

var outlet = &Kind{
	Name: "outlet", Doc: "a mains outlet on the set for another unit",
	Traits: Exposed | Feeds, Ground: "ground",
	Keys: []strict.Key{key("load", &strict.Shape{Text: &strict.TextShape{Parse: ampsOrWatts, Example: "1 A", Type: "load", Pattern: quantity.Power.Pattern() + "|" + quantity.Current.Pattern()}}, "what is plugged into it at most, amperes or watts"),
		key("ground", noContact, "none: it has two poles and no ground contact")},
	Terminals: func(p *Part) []string {
		if p.Word("ground") == "none" {
			return []string{"hot", "neutral"}
		}
		return []string{"hot", "neutral", "ground"}
	},
	Through:  func(*Part) (string, string, bool) { return "", "", false },
	Elements: func(*Part, State) []circuit.Element { return nil },
}

// noContact takes none and nothing else: that there is a contact is what is
// taken without the key.
var noContact = &strict.Shape{Text: &strict.TextShape{Example: "none", Type: "no-contact", Pattern: "^none$", Parse: func(text string) (any, error) {
	if text != "none" {
		return nil, &strict.Fault{Wrong: fmt.Sprintf("%q is not none", text), Right: "write none where it has two poles; delete the key where it has a ground contact"}
	}
	return text, nil
}}}

func ampsOrWatts(text string) (any, error) {
	if r, err := quantity.Parse(text, quantity.Power); err == nil {
		return r, nil
	}
	return quantity.Parse(text, quantity.Current)
}

// speaker is a voice coil; what it holds to the output winding, its ohms.
var speaker = &Kind{
	Name: "speaker", Doc: "the voice coil of a loudspeaker", Swappable: true,
	Traits: Resister | Sounds | BearsWatts,
	Keys: []strict.Key{
		key("resistance", Above(quantity.Resistance), "resistance of its voice coil"),
		key("impedance", Above(quantity.Resistance), "impedance marked on it"),
	},
	Terminals: terminals("1", "2"), Through: through("1", "2"),
	Elements: func(p *Part, _ State) []circuit.Element {
		return []circuit.Element{two(p, "1", "2", circuit.Conducting, p.coilOhms())}
	},
	Failures: shortsOrOpens,
}

// coilOhms is the resistance of a voice coil: as written, ±20 % like any other
// coil's, or anything up to the impedance, as it lies below that (common
// practice).
func (p *Part) coilOhms() circuit.Interval {
	if r, ok := p.Value("resistance"); ok {
		return ohms(r.Widen(0.2), true)
	}
	z, ok := p.Value("impedance")
	z.Low = 0
	return ohms(z, ok)
}

// node is a kind that is one bare piece of metal.
func node(name string, traits Trait, doc string, keys ...strict.Key) *Kind {
	return &Kind{
		Name: name, Traits: traits, Doc: doc, Keys: keys,
		Terminals: func(*Part) []string { return nil },
		Through:   func(*Part) (string, string, bool) { return "", "", false },
		Elements:  func(*Part, State) []circuit.Element { return nil },
	}
}

var (
	body = node("body", Exposed|Metal, "a conductive thing that a person can touch: a shaft, an aerial terminal, a second chassis, a speaker frame",
		key("reach", Word("touchable", "enclosed"), "whether a hand can get to it"))
	tie = node("tie", Contact|Ties, "a terminal-strip lug or common rail, bare")
)
