package sheet

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"firstvolt/checks/handbook"
	"firstvolt/checks/part"
	"firstvolt/checks/pattern"
	"firstvolt/checks/quantity"
	"firstvolt/checks/strict"
)

// Constructions, stages, colors and the other closed lists of the format.
var (
	Constructions = []string{"transformer", "line-connected", "floating-chassis"}
	Stages        = []string{"bare", "heaters", "rail"}
	Answers       = []string{"good", "bad", "not-seen"}
	Colors        = handbook.Colors
	Marks         = handbook.Marks
	Inspections   = []string{
		"mains-side-traced", "cord-jacket", "strain-relief", "bushing", "conductor-bright", "mains-wiring-flexes",
		"clearances", "no-loose-hardware", "old-line-capacitor-gone",
		"knobs-insulated", "grub-screws-covered", "back-fitted", "chassis-screws-covered",
	}
	Measures = []string{"resistance", "insulation", "capacitance", "voltage", "current"}
	Joints   = []string{"own-screw", "own-solder-lug", "shared-screw", "spring", "soldered-to-chassis"}
)

// ReadingKinds are the lists under readings.
var ReadingKinds = []string{"resistance", "drop", "insulation", "capacitance", "voltage", "leakage"}

// valueDim is what a reading of each kind is counted in.
var valueDim = map[string]quantity.Dim{
	"resistance": quantity.Resistance, "insulation": quantity.Resistance,
	"capacitance": quantity.Capacitance, "voltage": quantity.Voltage, "current": quantity.Current,
	"drop": quantity.Voltage, "leakage": quantity.Current,
}

func k(name string, s *strict.Shape, doc string) strict.Key {
	return strict.Key{Name: name, Shape: s, Doc: doc}
}

func must(name string, s *strict.Shape, doc string) strict.Key {
	return strict.Key{Name: name, Shape: s, Required: true, Doc: doc}
}

func mapOf(keys ...strict.Key) *strict.Shape {
	return &strict.Shape{Map: &strict.MapShape{Keys: keys}}
}

// like is free text on one line with an example that says what is meant.
func like(example string) *strict.Shape {
	return &strict.Shape{Text: &strict.TextShape{Example: example, Type: "text"}}
}

func parsed(typ, example, pattern string, f func(string) (any, error)) *strict.Shape {
	return &strict.Shape{Text: &strict.TextShape{Parse: f, Example: example, Type: typ, Pattern: pattern}}
}

// Date is the shape of a day: 2026-11-20.
func Date() *strict.Shape {
	return parsed("date", "2026-11-20", `^\d{4}-\d{2}-\d{2}$`, func(text string) (any, error) {
		if _, err := time.Parse("2006-01-02", text); err != nil {
			return nil, &strict.Fault{Wrong: fmt.Sprintf("%q is not a day", text), Right: "year-month-day, like 2026-11-20"}
		}
		return text, nil
	})
}

var shape = buildShape()

// Shape is the shape of the whole sheet: reading, schema and templates all
// come from it.
func Shape() *strict.Shape { return shape }

func buildShape() *strict.Shape {
	version := &strict.Shape{Text: &strict.TextShape{Words: []string{"1"}, Example: "1"}}
	return mapOf(
		must("firstvolt", version, "the format of this sheet"),
		must("set", setShape(), "what set this is"),
		must("supply", supplyShape(), "what it will be plugged into"),
		k("instruments", &strict.Shape{Map: &strict.MapShape{Any: instrumentShape(), CheckKey: part.CheckName, KeyPattern: part.NamePattern}}, "the meters used"),
		k("cord", cordShape(), "the cord as it arrives in the set"),
		k("parts", &strict.Shape{Map: &strict.MapShape{Any: part.Shape(), CheckKey: checkPartName, KeyPattern: part.NamePattern}}, "every part of the mains entry and supply"),
		k("wiring", part.ListOf(runShape(), 0, 0), "every wire"),
		k("readings", readingsShape(), "what was measured, cold"),
		k("inspection", inspectionShape(), "what was looked at"),
		k("first-power", firstPowerShape(), "the stage asked for and the lamps at hand"),
	)
}

func checkPartName(name string) error {
	switch strict.Canon(strings.ToLower(name)) {
	case "plug", "chassis", "tubes":
		return &strict.Fault{Wrong: fmt.Sprintf("the name %s is taken", name), Right: "name the part otherwise"}
	}
	return part.CheckName(name)
}

func setShape() *strict.Shape {
	return mapOf(
		must("name", like("the name of the set"), "maker's name or yours"),
		k("serial", part.Free(false), "serial number"),
		must("construction", part.Word(Constructions...), "how it is fed"),
		k("nameplate", mapOf(
			k("voltage", part.Above(quantity.Voltage), "volts on the nameplate"),
			k("frequency", part.Above(quantity.Frequency), "cycles on the nameplate"),
			k("power", part.Above(quantity.Power), "watts on the nameplate"),
			k("current", part.Above(quantity.Current), "amperes on the nameplate"),
		), "what the nameplate says"),
		k("chassis", part.Word("exposed", "enclosed"), "whether a hand can get to the chassis in use"),
		k("rebuilt", Date(), "the last day that wiring was changed"),
		part.Note,
	)
}

func supplyShape() *strict.Shape {
	return mapOf(
		must("region", like("north-america"), "where it will be used"),
		must("plug", like("nema-5-15"), "the plug on its cord"),
		k("voltage", part.Span(quantity.Voltage, 1, 1000), "volts measured at the receptacle"),
		k("receptacle", part.Word("tested", "untested"), "hot, neutral and ground proved where they should be"),
		k("system", part.Word("neutral", "two-line"), "one hot and a neutral, or two lines"),
		k("earthing", part.Word("tn", "tt", "it", "none", "unknown"), "how the supply is earthed"),
		k("branch", mapOf(
			k("rating", part.Above(quantity.Current), "amperes of the house breaker or fuse"),
			k("letter", part.Word("B", "C", "D"), "the letter before them on a breaker"),
		), "what guards the receptacle circuit"),
		k("upstream", part.ListOf(linkShape(), 0, 0), "the bench chain, supply end first"),
		part.Note,
	)
}

func linkShape() *strict.Shape {
	fits := k("fits", part.Word("one-way", "both-ways"), "whether it can be plugged either way round")
	earth := k("earth", part.Word("through", "stopped", "broken", "unknown"), "whether the ground goes through it")
	tested := k("tested", Date(), "the day its button was pressed and it tripped")
	m := &strict.MapShape{Case: "kind", Keys: []strict.Key{part.Note},
		Order: []string{"gfci", "rcd", "isolating-transformer", "autotransformer", "variac", "lamp-box", "adaptor"},
		Cases: map[string]*strict.MapShape{
			"gfci":                  {Keys: []strict.Key{k("form", part.Word("receptacle", "breaker", "portable"), "where it is built in"), tested}},
			"rcd":                   {Keys: []strict.Key{k("rating", part.Above(quantity.Current), "rated residual current"), k("type", part.Word("ac", "a", "b"), "what currents it sees"), tested}},
			"isolating-transformer": {Keys: []strict.Key{k("secondary", part.Word("floating", "bonded", "unknown"), "whether its output is tied to ground"), earth}},
			"autotransformer":       {Keys: []strict.Key{k("ratio", &strict.Shape{Text: &strict.TextShape{Parse: ratio, Example: "0.5", Type: "ratio", Pattern: ratioPattern}}, "output volts over input volts"), fits, earth}},
			"variac":                {Keys: []strict.Key{k("set", part.Span(quantity.Voltage, 0, 1000), "volts it will stand at when the stage ends; not said: all it can give"), earth}},
			"lamp-box": {Keys: []strict.Key{k("lamp", part.Above(quantity.Power), "watts of the lamp in it"), k("voltage", part.Above(quantity.Voltage), "volts of that lamp"),
				k("pole", part.Word("hot", "neutral", "unknown"), "the conductor that the lamp is in"), earth}},
			"adaptor": {Keys: []strict.Key{fits, earth}},
		}}
	return &strict.Shape{Map: m}
}

const ratioPattern = `^(\d+(?:\.\d+)?)(?:\s*:\s*(\d+(?:\.\d+)?))?$`

var ratioForm = pattern.Of(ratioPattern)

// ratio reads "0.5" or "230:115" (input to output). A slash is refused: one reads
// it as a label's input to output, another as a fraction.
func ratio(text string) (any, error) {
	m := ratioForm().FindStringSubmatch(strings.TrimSpace(text))
	fault := &strict.Fault{Wrong: fmt.Sprintf("%q is not a ratio", text), Right: "output over input, like 0.5, or 230:115"}
	if m == nil {
		return nil, fault
	}
	a, err := quantity.Parse(m[1], quantity.Number)
	if err != nil {
		return nil, err
	}
	if m[2] != "" {
		b, err := quantity.Parse(m[2], quantity.Number)
		if err != nil {
			return nil, err
		}
		if !(a.High > 0) {
			return nil, fault
		}
		a = quantity.Exact(b.High/a.High, quantity.Number)
	}
	if !(a.High > 0) {
		return nil, fault
	}
	return a, nil
}

func instrumentShape() *strict.Shape {
	word := &strict.Shape{Text: &strict.TextShape{Words: Measures, Example: "resistance"}}
	accuracy := parsed("accuracy", "0.9 % + 2 digits", `^ *±?[0-9. ]+%( *\+.+)?$`, parseAccuracy)
	var own, digits []strict.Key
	for _, m := range Measures {
		own = append(own, k(m, accuracy, "its accuracy for "+m))
		digits = append(digits, k(m, part.Quantity(valueDim[m]), "one digit of the last place, of "+m))
	}
	return mapOf(
		k("measures", &strict.Shape{Text: word.Text, List: &strict.ListShape{Item: word, Min: 1}, Map: &strict.MapShape{Keys: own}}, "what it measures; of several things each with its own accuracy"),
		k("accuracy", accuracy, "from its data: a %, a % + b Ω, or a % + n digits"),
		k("digit", part.Free(false), "what one digit of the last place is"),
		k("digits", mapOf(digits...), "the same, of each thing that it measures"),
		k("leads", parsed("leads", "nulled", "^nulled$|"+quantity.Resistance.Pattern(), func(text string) (any, error) {
			if text == "nulled" {
				return text, nil
			}
			r, err := quantity.Parse(text, quantity.Resistance)
			if err != nil {
				return nil, &strict.Fault{Wrong: fmt.Sprintf("%q is neither nulled nor a resistance", text), Right: "nulled, or their resistance, like 0.2 Ω"}
			}
			return r, nil
		}), "nulled, or the resistance of its leads"),
		k("ceiling", part.Free(false), "the most it can show"),
		k("calibrated", Date(), "the day of its last calibration"),
		part.Note,
	)
}

func cordShape() *strict.Shape {
	return mapOf(
		k("conductors", part.Word("2", "3"), "how many conductors"),
		k("size", part.Above(quantity.Area), "size of its conductors"),
		k("length", part.Above(quantity.Length), "length from plug to set"),
		k("insulation", part.Word("single", "double"), "one layer, or cores inside a jacket"),
		k("inlet", part.Word("none", "iec-60320-c14", "iec-60320-c8", "other"), "the appliance inlet of the set"),
		k("inlet-fits", part.Word("one-way", "both-ways"), "whether the inlet takes the cord either way round"),
		k("third", parsed("third", "earth", "^(earth|ground)$|"+quantity.Resistance.Pattern(), func(text string) (any, error) {
			if strict.Canon(text) == "earth" {
				return "earth", nil
			}
			r, err := quantity.Parse(text, quantity.Resistance)
			if err != nil {
				return nil, &strict.Fault{Wrong: fmt.Sprintf("%q is neither earth nor a resistance", text), Right: "earth, or the ohms of a resistance wire, like 160 Ω"}
			}
			return r, nil
		}), "what the third conductor is: earth, or a resistance"),
		k("plug-fuse", part.Above(quantity.Current), "the fuse in the plug"),
		part.Note,
	)
}

// twoColors are two words joined as no sheet joins them: green/yellow.
var twoColors = pattern.Of(`^([a-z]+)(?: and | with |[ ]*[/+&, _][ ]*)([a-z]+)$`)

func colorShape() *strict.Shape {
	var all []string
	for _, c := range Colors {
		all = append(all, strict.Spellings(c)...)
	}
	colors := "(" + strings.Join(all, "|") + ")"
	return parsed("color", "black", "^("+colors+"(-"+colors+")?|"+strings.Join(Marks, "|")+")$", func(text string) (any, error) {
		if m := twoColors().FindStringSubmatch(strings.ToLower(text)); m != nil {
			one, ok := strict.Known(m[1], Colors)
			other, and := strict.Known(m[2], Colors)
			if ok && and {
				return nil, &strict.Fault{Wrong: fmt.Sprintf("%q is not a color", text), Right: "two are joined by a hyphen: " + one + "-" + other}
			}
		}
		if slices.Contains(Marks, text) {
			return text, nil
		}
		parts := strings.Split(text, "-")
		if len(parts) > 2 {
			return nil, &strict.Fault{Wrong: fmt.Sprintf("%q is not a color", text), Right: "one or two of: " + strings.Join(Colors, ", ")}
		}
		for i, p := range parts {
			w, ok := strict.Known(p, Colors)
			switch {
			case !ok && len(parts) > 1 && slices.Contains(Marks, p):
				return nil, &strict.Fault{Wrong: fmt.Sprintf("%q joins a color and a mark", text), Right: "keep one of them: " + strings.Join(Marks, " or ") + " where the cores are alike in color"}
			case !ok:
				known := append(append(slices.Clone(Colors), "green-yellow"), Marks...)
				return nil, &strict.Fault{Wrong: fmt.Sprintf("%q is not a color known here", p), Right: strict.Suggest(p, known, "one of: "+strings.Join(append(slices.Clone(Colors), Marks...), ", "))}
			}
			parts[i] = w
		}
		return strings.Join(parts, "-"), nil
	})
}

func runShape() *strict.Shape {
	run := part.Free(false).Text
	return &strict.Shape{Text: run, Map: &strict.MapShape{Keys: []strict.Key{
		must("run", &strict.Shape{Text: run}, "a chain: plug.hot -> F1 -> S1 -> T1.1"),
		k("color", colorShape(), "color of the wire"),
		k("size", part.Above(quantity.Area), "size of the wire"),
		k("joint", part.Word(Joints...), "how the last end is fastened"),
		k("slack", part.Word("longest", "equal", "shorter"), "how it hangs beside the other cord conductors"),
		k("changed", Date(), "the day this run was changed"),
		part.Note,
	}}}
}

// inspected says of each inspection what to look at.
var inspected = map[string]string{
	"mains-side-traced":       "every wire of the mains side followed by eye and finger, and the sheet agrees",
	"cord-jacket":             "jacket whole, supple, no old rubber or cloth",
	"strain-relief":           "a pull on the cord does not reach its joints",
	"bushing":                 "the cord passes the chassis through a bushing",
	"conductor-bright":        "bright copper at every joint, no cut strands",
	"mains-wiring-flexes":     "every mains wire in the set bends without cracking, new or old",
	"clearances":              "nothing live near metal or a loose end",
	"no-loose-hardware":       "no loose screw, washer or blob of solder inside",
	"old-line-capacitor-gone": "no old capacitor left between mains and chassis, or across the mains",
	"knobs-insulated":         "every knob insulates, none missing",
	"grub-screws-covered":     "no grub screw of a knob can be touched",
	"back-fitted":             "the back is on, and a finger does not get through",
	"chassis-screws-covered":  "no screw that goes to the chassis can be touched",
}

func inspectionShape() *strict.Shape {
	var keys []strict.Key
	for _, name := range Inspections {
		keys = append(keys, k(name, part.Word(Answers...), inspected[name]))
	}
	keys = append(keys, part.Note)
	return mapOf(keys...)
}

func firstPowerShape() *strict.Shape {
	seen := mapOf(k("step", part.Free(false), "the step of the plan"), k("line", part.Quantity(quantity.Voltage), "line volts"),
		k("lamp", part.Free(false), "what the lamp did"), k("rail", part.Quantity(quantity.Voltage), "rail volts"),
		k("set", part.Quantity(quantity.Voltage), "volts at the set"), k("current", part.Quantity(quantity.Current), "line current"),
		k("heater", part.Quantity(quantity.Voltage), "heater volts"), part.Note)
	return mapOf(
		k("stage", part.Word(Stages...), "the stage asked for"),
		k("shelf", part.ListOf(part.Above(quantity.Power), 0, 0), "the lamps at hand"),
		k("seen", part.ListOf(seen, 0, 0), "what was seen at each step"),
		part.Note,
	)
}
