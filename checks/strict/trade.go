package strict

import (
	"slices"
	"strings"
)

// trade is what people in the trade call a thing beside the words of the
// format. It makes hints and no more: a sheet that says so is still mended by
// its owner. One word may mean several things; of the rows whose word is known
// where it stands, the first counts. What is said is in small letters, with
// hyphens for spaces; the colour codes are those of IEC 60757. Yes and no stand
// for nothing here: what they answer, nobody can tell.
var trade = []struct{ word, said string }{
	// kinds of part
	{"fuse", "fuse-link fuse-holder"},
	{"capacitor", "cap condenser y-capacitor x-capacitor safety-capacitor"},
	{"electrolytic", "electrolytic-capacitor filter-capacitor smoothing-capacitor reservoir can elco elko"},
	{"potentiometer", "pot volume-control volume variable-resistor rheostat"},
	{"thermistor", "ntc inrush-limiter surge-limiter"},
	{"varistor", "mov vdr surge-absorber"},
	{"arrester", "spark-gap gas-discharge-tube gdt"},
	{"lamp", "bulb pilot pilot-lamp dial-lamp dial-light"},
	{"choke", "inductor coil smoothing-choke filter-choke"},
	{"field-coil", "field field-winding energizing-coil speaker-field"},
	{"transformer", "mains-transformer power-transformer supply-transformer"},
	{"output-transformer", "output audio-transformer speaker-transformer opt"},
	{"autotransformer", "auto step-down step-down-transformer stepdown"},
	{"rectifier", "diode bridge rectifier-tube rectifier-valve metal-rectifier"},
	{"barretter", "ballast ballast-tube ballast-lamp iron-hydrogen resistance-lamp"},
	{"outlet", "socket receptacle convenience-outlet accessory-outlet"},
	{"connector", "plug-and-socket plug-socket coupler"},
	{"filter", "mains-filter line-filter rfi-filter emi-filter"},
	{"selector", "voltage-selector voltage-changer tap-selector"},
	{"tie", "lug tag tag-strip tie-point terminal-strip node rail"},
	{"body", "metalwork metal shaft escutcheon"},
	// units of the bench chain
	{"lamp-box", "lamp bulb series-lamp dim-bulb dim-bulb-tester dim-bulb-box bulb-tester lamp-tester series-lamp-tester lamp-limiter limiter vorschaltlampe"},
	{"variac", "variable-transformer variable-autotransformer"},
	{"isolating-transformer", "isolation-transformer isolator iso trenntrafo trenntransformator"},
	{"gfci", "gfi"},
	{"rcd", "rccb rcbo elcb safety-switch residual-current-device earth-leakage-breaker fi fi-schalter fi-schutzschalter"},
	{"adaptor", "adapter cheater travel-adaptor"},
	// plugs; one with as many pins may be several, and the region tells them apart
	{"cee-7-4", "schuko schuko-plug schuko-stecker schukostecker type-f 3-pin three-pin"}, {"cee-7-16", "euro europlug euro-plug eurostecker type-c 2-pin two-pin"}, {"cee-7-17", "contour contour-plug konturenstecker"},
	{"nema-5-15", "3-prong three-prong 3-pin three-pin 3-wire grounded type-b u-ground"}, {"nema-1-15", "2-prong two-prong 2-pin two-pin ungrounded type-a"}, {"nema-1-15-polarized", "polarized polarised polarized-2-prong"},
	{"bs-1363", "13a 13-a 13-amp 13-amp-plug 3-pin three-pin type-g"},
	{"as-3112", "3-pin three-pin type-i"}, {"as-3112-two-pole", "2-pin two-pin 2-prong"},
	{"jis-c-8303", "2-pin two-pin 2-prong two-prong type-a"}, {"jis-c-8303-earthed", "3-pin three-pin 3-prong three-prong type-b"},
	{"bs-546", "15a 15-a 15-amp 5a 5-amp round-pin type-d type-m"}, {"cei-23-50", "type-l s11 s17 italian italian-plug"}, {"cee-7-6", "type-e french french-plug"},
	{"two-pole-other", "other-two-pole two-pole 2-pole"}, {"earthed-other", "other-earthed"},
	{"sev-1011", "t12 type-12 type-j 3-pin three-pin"},
	// terminals
	{"plate-1", "a1 a' p1 anode-1 anode1"},
	{"plate-2", "a2 a'' p2 anode-2 anode2"},
	{"plate", "a p a1 a2 p1 p2 anode"},
	{"anode", "a a1 p plate plus +"},
	{"cathode", "k k1 c minus -"},
	{"grid", "g g1 control-grid grid-1"},
	{"screen", "g2 screen-grid grid-2 s"},
	{"h1", "h f f1 fil-1 filament-1 heater-1 heater"},
	{"h2", "f2 fil-2 filament-2 heater-2"},
	{"h-tap", "ht hct h-ct heater-tap heater-ct f-tap"},
	{"plus", "+ pos positive anode a"},
	{"minus", "- neg negative cathode k can case"},
	{"end", "tip cap centre center"},
	{"side", "body shell ring barrel"},
	{"wiper", "slider w moving-contact arm"},
	{"hot", "l phase p active"},
	{"neutral", "n cold return"},
	{"ground", "e g pe protective-earth gnd"},
	{"case", "earth ground e g frame"},
	{"frame", "earth ground e g case"},
	{"line-in", "l-in l1 in-l"}, {"neutral-in", "n-in n1 in-n"}, {"line-out", "l-out l2 out-l"}, {"neutral-out", "n-out n2 out-n"},
	// windings, by the start of their names
	{"primary", "pri mains line"},
	{"heater", "filament fil lt"},
	// words of keys
	{"time-delay", "anti-surge antisurge time-lag timelag slow slow-blow delay delayed surge-proof t träge traege"},
	{"fast", "quick quick-blow quick-acting fast-acting fast-blow normal-blow f flink"},
	{"ul-248-14", "ul ul-248 csa"}, {"iec-60127", "iec iec-127 iec60127"},
	{"high", "h hbc hrc high-breaking"}, {"low", "l lbc low-breaking"},
	{"glass", "clear"}, {"ceramic", "sand sand-filled porcelain disc disk"},
	{"panel", "panel-mount chassis-mount panel-mounted bayonet screw-cap"},
	{"in-line", "cable line-holder flying"}, {"clips", "clip open cradle"},
	{"pigtail", "leads wire-ended wired soldered soldered-in"}, {"touch-proof", "shrouded finger-safe finger-proof safe shock-safe"},
	{"on-control", "volume-control volume on-volume on-volume-control with-volume on-pot pot potentiometer tone-control tone control"},
	{"toggle", "tumbler dolly lever"}, {"rotary", "wafer turn knob"}, {"slide", "slider"},
	{"film", "polyester polypropylene plastic foil metallized-film"}, {"paper", "wax waxed oil oil-filled waxed-paper"}, {"mica", "silver-mica silvered-mica"},
	{"silicon", "si semiconductor solid-state diode"}, {"selenium", "se metal"},
	{"line-connected", "ac-dc ac/dc acdc universal transformerless live-chassis hot-chassis series-string"},
	{"floating-chassis", "isolated-chassis floating-ground"},
	{"transformer", "ac isolated mains-transformer"},
	{"exposed", "open touchable bare"}, {"enclosed", "closed covered cabinet"}, {"touchable", "exposed open"},
	{"own-screw", "own-bolt stud own-stud"}, {"soldered-to-chassis", "chassis"}, {"own-solder-lug", "lug own-lug own-tag"}, {"shared-screw", "shared shared-bolt transformer-bolt"},
	{"longest", "longer long"}, {"equal", "same"}, {"shorter", "short shortest"},
	{"iec-60320-c14", "c14 c13 iec kettle"}, {"iec-60320-c8", "c8 c7 figure-8 figure-eight figure-of-eight"},
	{"one-way", "keyed polarized polarised"}, {"both-ways", "reversible unpolarized unpolarised either-way"},
	{"double", "double-insulated two reinforced sheathed"}, {"single", "basic one"},
	{"resistance", "ohms ohm r"}, {"insulation", "megohms meg"}, {"capacitance", "capacity farads c"}, {"voltage", "volts volt v"},
	{"tested", "ok proved checked"}, {"untested", "unknown not-tested"},
	{"good", "ok okay pass fine sound"}, {"bad", "fail poor faulty"}, {"not-seen", "unknown n/a na not-checked unchecked not-tested"},
	{"open", "off broken opened aus offen"}, {"closed", "on made shut ein an zu geschlossen"}, {"out", "removed pulled"}, {"in", "fitted"},
	{"through", "continuous passed connected"}, {"broken", "none open lifted"}, {"stopped", "none open"},
	{"two-line", "two-phase 2-phase split-phase"}, {"neutral", "single-phase one-phase grounded"},
	{"north-america", "us usa america canada"}, {"united-kingdom", "uk gb britain england ireland"}, {"europe", "eu germany france"}, {"australia", "au new-zealand nz"}, {"switzerland", "ch swiss"}, {"japan", "jp"},
	// keys
	{"tap", "ct c.t. center-tap centre-tap centertap centretap middle mittelanzapfung"}, {"taps", "tappings anzapfungen"},
	{"value", "capacitance resistance ohms farads"}, {"power", "watts wattage w"}, {"rating", "current amps amperes rated"},
	{"current", "amps amperes rating load"}, {"load", "current amps amperes"}, {"voltage", "volts rated-voltage v"}, {"breaking", "breaking-capacity"},
	{"reads", "reading value shows"}, {"with", "instrument meter using"}, {"between", "from points"},
	{"receptacle", "socket outlet power-point wall-socket wall-outlet"}, {"taken", "date day"}, {"tested", "date checked"}, {"note", "comment notes remark"},
	// colours of wires
	{"black", "bk blk schwarz"}, {"brown", "bn brn braun"}, {"red", "rd rot"}, {"orange", "og or"}, {"yellow", "ye yel gelb"}, {"green", "gn grn grün gruen"},
	{"blue", "bu blu light-blue blau"}, {"violet", "vt purple violett lila"}, {"grey", "gy gry grau"}, {"white", "wh wht weiß weiss"}, {"pink", "pk rosa"},
	{"green-yellow", "gnye gn/ye ye/gn g/y y/g grün-gelb gelb-grün"},
}

// Trade is the official word for what the trade calls word, or "".
func Trade(word string, official []string) string {
	said := strings.NewReplacer(" ", "-", "_", "-").Replace(strings.ToLower(word))
	for _, t := range trade {
		if slices.Contains(official, t.word) && slices.Contains(strings.Fields(t.said), said) {
			return t.word
		}
	}
	return ""
}

// Likely is the official word that was most likely meant: what the trade calls
// so, else the one most like it, else "".
func Likely(word string, official []string) string {
	if t := Trade(word, official); t != "" {
		return t
	}
	return Nearest(word, official)
}
