package blank

import (
	"fmt"
	"slices"

	"firstvolt/checks/handbook"
	"firstvolt/checks/strict"
)

// pins are the names of the plug's pins in the region's words, where the sheet
// takes them.
func pins(r *handbook.RegionData) (hot, ground string) {
	hot, ground = "hot", "ground"
	if slices.Contains(strict.Spellings("hot"), r.Words["hot"]) {
		hot = r.Words["hot"]
	}
	if slices.Contains(strict.Spellings("ground"), r.Words["ground"]) {
		ground = r.Words["ground"]
	}
	return "plug." + hot, "plug." + ground
}

func (w *writer) block(key string) { w.later("", key+":", doc(key)) }

func (w *writer) instruments(k Kind) {
	w.block("instruments")
	for _, m := range []struct{ name, measures, accuracy, more string }{
		{"multimeter", "resistance", "0.9 % + 2 digits", ", digit: " + w.value("0.1 Ω") + ", leads: " + w.value("nulled") + ", ceiling: " + w.value("40 MΩ")},
		{"milliohm", "resistance", "1 % + 2 mΩ", ", leads: " + w.value("nulled")},
		{"tester", "insulation", "5 %", ", ceiling: " + w.value("1 GΩ")},
		{"bridge", "capacitance", "2 % + 0.1 nF", ""},
		{"volts", "voltage", "1.5 %", ""},
	} {
		w.later("", fmt.Sprintf("  %s: {measures: %s, accuracy: %s%s}", m.name, m.measures, w.value(m.accuracy), m.more), "")
	}
	if k.poles == 3 {
		w.later("", fmt.Sprintf("  hand: {measures: {resistance: %s, voltage: %s}, digits: {resistance: %s, voltage: %s}}",
			w.value("0.9 % + 2 digits"), w.value("0.5 % + 2 digits"), w.value("0.1 Ω"), w.value("0.1 mV")), "a meter for several things")
		w.later("", fmt.Sprintf("  feed: {measures: current, accuracy: %s}", w.value("1 %")), "on a bench supply")
	}
	for _, key := range []string{"accuracy", "digit", "leads", "ceiling"} {
		w.prose("# " + key + ": " + doc("instruments", "*", key))
	}
	w.WriteString("\n")
}

func (w *writer) cord(k Kind, r *handbook.RegionData) {
	w.WriteString("cord:\n")
	w.line(fmt.Sprintf("  conductors: %d", k.poles), doc("cord", "conductors"))
	w.keysOf("  ", []string{"cord"}, "size", "18 AWG", "length", "6 ft", "insulation", "double", "inlet", "none")
	if plugOf(k, r).Fuse != nil {
		w.keysOf("  ", []string{"cord"}, "plug-fuse", "3 A")
	}
	w.WriteString("\n")
}

// run writes a run with its color and, for the ground wire, its joint.
func (w *writer) run(path, color string, more ...string) {
	text := "  - {run: " + path + ", color: " + w.value(color)
	for i := 0; i < len(more); i += 2 {
		text += ", " + more[i] + ": " + w.value(more[i+1])
	}
	w.later("", text+"}", "")
}

const wiringTip = "# This only shows how to write it. Do not copy it: follow each wire of your set, and write where it ends."

// notOwed marks a reading that no rule requires before the rail (see if-read in
// the rulebook): a caution while it is not taken.
const notOwed = "not owed before the rail"

func (w *writer) readingsHead() {
	w.block("readings")
	w.prose("# Each reading below is required, but for those that are " + notOwed + ": not taken, such a one is a caution; taken, it counts like any other.")
	w.later("", "  taken: "+w.value("2026-11-20"), doc("readings", "taken"))
	w.later("", "  ambient: "+w.value("22 °C"), doc("readings", "ambient"))
}

// reading writes one reading; the rest are its other keys.
func (w *writer) reading(state, example, with, what string) {
	w.later("", "    - {"+state+", reads: "+w.value(example)+", with: "+with+"}", what)
}

func (w *writer) fuseAndSwitch(r *handbook.RegionData) {
	w.block("parts")
	w.part("F1", "fuse", "rating", "1 A", "voltage", "250 V", "speed", "time-delay", "standard", r.FuseStandard, "holder", "panel")
	w.part("S1", "switch", "poles", "1", "rating", "3 A", "voltage", "250 V")
}

func transformerSet(w *writer, k Kind, r *handbook.RegionData) {
	hot, ground := pins(r)
	both := hot + " + plug.neutral"
	w.instruments(k)
	w.cord(k, r)
	w.fuseAndSwitch(r)
	w.part("T1", "transformer", "power", "60 W")
	w.later("", "    windings:", "the name of each begins with primary, plate, rectifier, heater or bias")
	w.later("", "      primary:   {ends: [1, 2], voltage: "+w.value("117 V")+"}", "ends are two terminals")
	w.later("", "      plate:     {ends: [3, 5], tap: 4, voltage: "+w.value("600 V")+"}", "end to end; tap is its middle")
	w.later("", "      rectifier: {ends: [6, 7], voltage: "+w.value("5 V")+", load: "+w.value("2 A")+"}", "load in amperes")
	w.later("", "      heater:    {ends: [8, 9], voltage: "+w.value("6.3 V")+", load: "+w.value("2.4 A")+"}", "")
	w.WriteString("\n")
	w.block("wiring")
	w.prose(wiringTip)
	s := r.Schemes[0]
	w.run(hot+" -> F1.end", s.Hot[0])
	w.later("", "  - F1.side -> S1 -> T1.1", "the fuse in clips or in-line: F1.1 and F1.2")
	w.prose("# A switch of two poles: S1.1 with S1.2 is one, S1.3 with S1.4 the other.")
	w.run("plug.neutral -> T1.2", s.Neutral[0])
	if k.poles == 3 {
		w.run(ground+" -> chassis", s.Ground[0], "joint", "own-screw", "slack", "longest")
	}
	w.later("", "  - T1.4 -> chassis", "")
	w.WriteString("\n")
	w.readingsHead()
	w.later("", "  resistance:", "set unplugged; without: names what was out while the meter read, so that nothing lies beside the winding")
	if k.poles == 3 {
		w.reading("between: ["+ground+", chassis]", "0.06 Ω", "milliohm", "the bond")
	}
	w.mainsResistance(hot, both)
	w.reading("across: T1.primary", "9.7 Ω", "multimeter", "")
	w.reading("between: [T1.3, T1.4], without: [tubes]", "104 Ω", "multimeter", "each half; with no tested GFCI or RCD upstream, what one fault brings is told by these; else "+notOwed)
	w.reading("between: [T1.4, T1.5], without: [tubes]", "112 Ω", "multimeter", "")
	w.reading("across: T1.rectifier, without: [tubes]", "0.2 Ω", "multimeter", notOwed)
	w.reading("across: T1.heater, without: [tubes]", "0.2 Ω", "multimeter", notOwed)
	if k.poles == 3 {
		w.later("", "  drop:", "the bond by a bench supply, in the place of the reading by milliohm: set unplugged, the probes on pin and metal inside the clips that bring the current")
		w.reading("between: ["+ground+", chassis], current: "+w.value("1 A")+", fed-by: feed", "58 mV", "hand", "")
	}
	w.mainsInsulation(both, "")
	w.reading("between: [T1.primary, T1.plate], without: [T1.4], test: "+w.value("500 V"), "300 MΩ", "tester", "")
	w.reading("between: [T1.primary, T1.rectifier + T1.heater], test: "+w.value("500 V"), "over 500 MΩ", "tester", "")
	bonded := ""
	if k.poles == 3 {
		bonded = notOwed
	}
	w.mainsCapacitance(both, "", bonded)
	w.later("", "  voltage:", notOwed+": a few volts AC fed to the primary, through a fuse or lamp, nothing else on the windings. "+
		"While it is fed, treat all the other windings and the plug's pins as live: hands off until the feed is off. "+
		"Never feed a heater winding: the same few volts there put full mains on the primary.")
	for _, s := range [][2]string{{"plate", "31.5 V"}, {"rectifier", "0.27 V"}, {"heater", "0.35 V"}} {
		w.reading("applied: T1.primary, volts: "+w.value("6 V")+", across: T1."+s[0], s[1], "volts", "")
	}
}

func (w *writer) mainsResistance(hot, both string) {
	w.reading("between: ["+hot+", plug.neutral], switches: closed", "9.9 Ω", "multimeter", "")
	w.reading("between: ["+hot+", plug.neutral], switches: open", "OL", "multimeter", "")
	w.reading("between: ["+both+", chassis], switches: closed", "OL", "multimeter", "")
}

// mainsInsulation and mainsCapacitance are taken with what conducts to the chassis
// lifted, which lifted names.
func (w *writer) mainsInsulation(both, lifted string) {
	w.later("", "  insulation:", "last; discharge everything after it; test: the tester's volts")
	w.reading("between: ["+both+", chassis], switches: closed"+lifted+", test: "+w.value("500 V"), "240 MΩ", "tester", "")
}

func (w *writer) mainsCapacitance(both, lifted, what string) {
	w.later("", "  capacitance:", what)
	w.reading("between: ["+both+", chassis], switches: closed"+lifted, "1.2 nF", "bridge", "")
}

// seriesSet is a set whose heaters hang in series on the mains.
func seriesSet(w *writer, k Kind, r *handbook.RegionData) {
	hot, _ := pins(r)
	both := hot + " + plug.neutral"
	floating := k.construction == "floating-chassis"
	w.instruments(k)
	w.cord(k, r)
	w.fuseAndSwitch(r)
	w.part("V1", "rectifier", "type", "35W4", "of", "")
	for _, v := range [][2]string{{"V2", "50C5"}, {"V3", "12BA6"}} {
		w.part(v[0], "tube", "type", v[1])
	}
	w.part("C1", "electrolytic", "value", "47 µF", "voltage", "450 V", "state", "new")
	back := "chassis"
	if floating {
		back = "B0" // the return, apart from the chassis
		w.part(back, "tie")
		w.part("C2", "capacitor", "value", "47 nF", "voltage", "250 V", "class", "Y2")
		w.part("R1", "resistor", "value", "220 kΩ")
	}
	w.WriteString("\n")
	w.block("wiring")
	w.prose(wiringTip)
	s := r.Schemes[0]
	w.run(hot+" -> F1.end", s.Hot[0])
	w.later("", "  - F1.side -> S1 -> V1 -> V2 -> V3 -> "+back, "the heaters in their order")
	w.later("", "  - V1.plate -> V1.h1", "")
	w.later("", "  - V1.cathode -> C1.plus", "")
	w.later("", "  - C1.minus -> "+back, "")
	w.run("plug.neutral -> "+back, s.Neutral[0])
	if floating {
		w.later("", "  - "+back+" -> C2 -> chassis", "")
		w.later("", "  - "+back+" -> R1 -> chassis", "")
	}
	w.WriteString("\n")
	w.readingsHead()
	w.later("", "  resistance:", "set unplugged")
	w.mainsResistance(hot, both)
	for _, v := range []string{"V1", "V2", "V3"} {
		w.reading("across: "+v+", without: ["+v+"]", "18 Ω", "multimeter", "its heater, out of the set")
	}
	if floating {
		const lifted = ", without: [R1]"
		w.mainsInsulation(both, lifted)
		w.mainsCapacitance(both, lifted, "")
	}
}
