package checks_test

import (
	"slices"
	"strings"
	"testing"

	"firstvolt/rules"
)

// Every caution that is printed is true of the sheet: what must be out of its
// socket is named, what cannot be is not, and no plug is turned that goes in one
// way only.
func TestCautionsAreTrue(t *testing.T) {
	const larkfield = "larkfield-six-forty"
	const tail, wires, stage = "  C1: {kind", "  - T1.4 -> chassis", "stage: heaters"
	add := func(part, run string, more ...string) []string {
		return append([]string{tail, "  " + part + "\n" + tail, wires + "\n", wires + "\n  - " + run + "\n"}, more...)
	}
	five := "V5: {kind: rectifier, type: 5Y3-GT}"
	for _, c := range []struct {
		name, sheet string
		pairs       []string
		caution     string // or owed
		says, not   string // one that it holds and one that it does not; says empty: it is not printed
	}{
		{"rectifier tube at the heaters", larkfield, add(five, "T1.6 -> V5 -> T1.7"), "rectifier-out", "from its socket: V5.", "no rectifier"},
		{"none on the sheet", larkfield, nil, "rectifier-out", "no rectifier tube", "{"},
		{"a metal one is not to be pulled", larkfield, add("D1: {kind: rectifier, of: silicon}", "T1.3 -> D1.anode"), "rectifier-out", "no rectifier tube", "D1"},
		{"and is named as what stays", larkfield, add("D1: {kind: rectifier, of: silicon}", "T1.3 -> D1.anode"), "rectifier-soldered-in", "like a tube: D1.", "V5"},
		{"beside a tube each has its own", larkfield, add("D1: {kind: rectifier, of: selenium}\n  "+five, "T1.3 -> D1.anode\n  - T1.6 -> V5 -> T1.7"), "rectifier-out", "socket: V5.", "D1"},
		{"its capacitors charge at the heaters", larkfield, add("D1: {kind: rectifier, of: silicon}", "T1.3 -> D1.anode"), "discharge-before-touch", "at this stage too", "every run at stage rail"},
		{"no metal one", larkfield, add(five, "T1.6 -> V5 -> T1.7"), "rectifier-soldered-in", "", ""},
		{"nothing charges", larkfield, add(five, "T1.6 -> V5 -> T1.7"), "discharge-before-touch", "", ""},
		{"bare", larkfield, add(five+"\n  V1: {kind: tube, type: 6V6}", "T1.6 -> V5 -> T1.7\n  - T1.8 -> V1 -> T1.9", stage, "stage: bare"), "tubes-out", "sockets: V5, V1, and", "names none"},
		{"bare, none on the sheet", larkfield, []string{stage, "stage: bare"}, "tubes-out", "names none", "{"},
		{"bare is not the heaters", larkfield, []string{stage, "stage: bare"}, "rectifier-out", "", ""},
		{"rail", larkfield, add(five, "T1.6 -> V5 -> T1.7", stage, "stage: rail"), "tubes-in", "the rectifier too", "pull"},
		{"rail pulls none", larkfield, add(five, "T1.6 -> V5 -> T1.7", stage, "stage: rail"), "rectifier-out", "", ""},

		{"a plug that goes in one way", larkfield, nil, "owed", "each switch on and then off. The touch current must be at most", "turn round"},
		{"one that goes in both", larkfield, []string{"nema-5-15", "nema-1-15"}, "owed", "turn round the plug or whichever joint goes in both ways", "{"},
		{"a keyed plug on a cord with an inlet", larkfield, []string{"inlet: none", "inlet: iec-60320-c8"}, "owed", "whichever joint goes in both ways", "{"},
		{"the keyed plug is not said to go in both ways", larkfield, []string{"inlet: none", "inlet: iec-60320-c8"}, "plug-goes-both-ways", "or another joint", "The plug goes in both"},
		{"two lines: each side is hot either way", larkfield, []string{"region: north-america", "region: north-america\n  system: two-line"}, "plug-goes-both-ways", "", ""},
		{"a lamp on 120 V", larkfield, nil, "lamp-does-not-isolate", "60 W lamp on 120 V", "230 V"},
		{"a lamp on 230 V", "nettlecombe-console", nil, "lamp-does-not-isolate", "60 W lamp on 230 V", "120 V"},
		{"the lamp is of tungsten", larkfield, nil, "lamp-does-not-isolate", "tungsten filament", "230 V"},
		{"the lamp is of tungsten, on 230 V too", "nettlecombe-console", nil, "lamp-does-not-isolate", "tungsten filament", "120 V"},
		{"no meter finds hot behind a floating output", larkfield, []string{"nema-5-15", "nema-1-15", "    - {kind: lamp-box", "    - {kind: isolating-transformer, secondary: floating, earth: through}\n    - {kind: lamp-box"}, "plug-goes-both-ways", "no meter to ground can show which side is hot", "with a meter"},
		{"a switch that is off, one way round", larkfield, []string{"nema-5-15", "nema-1-15"}, "unplug-not-switch", "on all that lies behind it too", "{"},
		{"a switch that is off, in hot for good", larkfield, nil, "unplug-not-switch", "on all that lies ahead of it.", "behind it"},
		{"a switch of one or two poles", "nettlecombe-console", nil, "unplug-not-switch", "on its own lugs", "one side"},
	} {
		_, j := judged(t, c.sheet, c.pairs...)
		text := j.Owed.Text
		if c.caution != "owed" {
			text = ""
			if i := slices.IndexFunc(j.Cautions, func(k rules.Caution) bool { return k.Name == c.caution }); i >= 0 {
				text = j.Cautions[i].Text
			}
		}
		if (c.says == "") != (text == "") || !strings.Contains(text, c.says) || c.not != "" && strings.Contains(text, c.not) {
			t.Errorf("%s: %s says %q", c.name, c.caution, text)
		}
		for _, k := range j.Cautions {
			if strings.Contains(k.Text, "{") {
				t.Errorf("%s: %q", c.name, k.Text)
			}
		}
	}
}

// Advice that would be wrong, or useless, on another construction is not given there.
func TestAdviceFitsConstruction(t *testing.T) {
	const copperbeck, lindwasser, larkfield = "copperbeck-five", "lindwasser-zweipol", "larkfield-six-forty"
	third := []string{"conductors: 2", "conductors: 3", "  - S1.2 -> NT.1\n", "  - S1.2 -> NT.1\n  - plug.ground -> chassis\n"}
	bare := []string{"    - {kind: rcd, rating: 30 mA, type: a, tested: 2026-02-15}\n", ""}
	for _, c := range []struct {
		name, sheet, finding string
		pairs                []string
		says, not            string // of the finding in full
	}{
		{"the switch first, on a transformer", larkfield, "hot-meets-fuse-first set", []string{"plug.hot -> F1.end, color: black}", "plug.hot -> S1 -> F1.end, color: black}", "F1.side -> S1 -> T1.1", "F1.side -> T1.1", "S1.2 -> C1", "F1.side -> C1"},
			"straight to the fuse", "fuse of 1 A or less in the plug"},
		{"a plug that has no contact for ground, nothing upstream", lindwasser, "unearthed-chassis-single-fault chassis", append(bare, third...), "has no ground contact", "Fit a cord with three"},
		{"and behind a residual device", lindwasser, "unearthed-chassis-single-fault chassis", third, "has no ground contact", "Fit a cord with three"},
		{"two conductors, nothing upstream", lindwasser, "unearthed-chassis-single-fault chassis", bare, "three conductors and a plug with a ground contact", "has no ground contact"},
		{"an aerial post on the line is not to be wired to the chassis as it is", larkfield, "accessible-parts-bonded Aerial",
			[]string{"  C1: {kind", "  Aerial: {kind: body}\n  C1: {kind", "  - T1.4 -> chassis\n", "  - T1.4 -> chassis\n  - Aerial -> F1.side\n"}, "nothing joins it to a line conductor", "{subject}"},
		{"an outlet cannot be put out of reach", larkfield, "accessible-parts-bonded X1",
			[]string{"  C1: {kind", "  X1: {kind: outlet, load: 0.5 A}\n  C1: {kind", "  - T1.4 -> chassis\n", "  - T1.4 -> chassis\n  - S1.2 -> X1.hot\n  - X1.neutral -> T1.2\n  - X1.ground -> T1.8\n"}, "from its ground contact", "out of reach"},
		{"a live chassis is never bonded", copperbeck, "touch-current-single-fault Aerial", []string{"C9: {kind: capacitor, value: 470 pF, class: Y1", "C9: {kind: capacitor, value: 100 nF, class: Y2",
			"    - {kind: isolating-transformer, secondary: floating, earth: stopped}\n", "", "    - {kind: gfci, form: receptacle, tested: 2026-11-12}\n", ""}, "Never bond", "Bond the metal"},
		{"a string has no primary", copperbeck, "neutral-runs-through set", []string{"F1.2 -> S1 -> J1", "F1.2 -> J1", "{run: plug.neutral -> chassis, color: white}", "{run: plug.neutral -> S1 -> chassis, color: white}"}, "straight to the load", "primary"},
		{"nor has its switch", copperbeck, "switch-opens-hot set", []string{"F1.2 -> S1 -> J1", "F1.2 -> J1", "{run: plug.neutral -> chassis, color: white}", "{run: plug.neutral -> S1 -> chassis, color: white}"}, "straight to the load", "primary"},
		{"a live chassis within reach is closed in", copperbeck, "line-chassis-enclosed chassis", []string{"chassis: enclosed", "chassis: exposed"}, "chassis: enclosed", "Y1 capacitor"},
		{"no fuse at all", lindwasser, "both-sides-fused set", []string{"plug.hot -> Si1 -> S1.1", "plug.hot -> S1.1", "plug.neutral -> Si2 -> S1.3", "plug.neutral -> S1.3", "  - S1.2 -> CX -> S1.4\n", "  - S1.2 -> CX -> S1.4\n  - NT.8 -> Si1 -> Si2 -> NT.9\n"}, "in each line conductor", "second fuse"},
		{"metal that the line is wired to is parted from it before it is bonded", larkfield, "touch-current-single-fault Aerial",
			[]string{"  C1: {kind", "  Aerial: {kind: body}\n  C1: {kind", "  - T1.4 -> chassis\n", "  - T1.4 -> chassis\n  - Aerial -> F1.side\n"}, "First part the metal from the mains", "upstream, or"},
		{"and no capacitor is moved behind the switch for it", larkfield, "touch-current-switched-off Aerial",
			[]string{"  C1: {kind", "  Aerial: {kind: body}\n  C1: {kind", "  - T1.4 -> chassis\n", "  - T1.4 -> chassis\n  - Aerial -> F1.side\n"}, "a wire that does not belong there", "{subject}"},
		{"the bond of a body is not the ground conductor of the cord", larkfield, "bond-resistance Frame",
			[]string{"  C1: {kind", "  Frame: {kind: body}\n  C1: {kind", "  - T1.4 -> chassis\n", "  - T1.4 -> chassis\n  - Frame -> chassis\n"}, "where its wire is fastened", "its own screw"},
		{"a plug that could fit one way", lindwasser, "both-sides-open set", []string{"S1: {kind: switch, poles: 2", "S1: {kind: switch, poles: 1", "{run: plug.neutral -> Si2 -> S1.3, color: blue}", "{run: plug.neutral -> Si2 -> NT.2, color: blue}", "  - S1.4 -> NT.2\n", "", "S1.2 -> CX -> S1.4", "S1.2 -> CX -> NT.2"}, "where the region has a plug that fits one way", "{"},
		{"an old capacitor", larkfield, "old-line-capacitor-gone old-line-capacitor-gone", []string{"old-line-capacitor-gone: good", "old-line-capacitor-gone: bad"}, "7.2 mA at 230 V and 50 Hz", "{"},
	} {
		_, j := judged(t, c.sheet, c.pairs...)
		i := slices.IndexFunc(j.Findings, func(f rules.Finding) bool { return f.Rule+" "+f.Subject.Name == c.finding })
		if i < 0 {
			t.Errorf("%s: no finding %s", c.name, c.finding)
			continue
		}
		f := j.Findings[i]
		if text := strings.Join([]string{string(f.Outcome), f.Says, f.Note, f.Why, f.Remedy}, "; "); f.Outcome == rules.Pass || !strings.Contains(text, c.says) || strings.Contains(text, c.not) {
			t.Errorf("%s: %s", c.name, text)
		}
	}
}

// What a finding advises helps the sheet that it is printed for.
func TestAdviceFits(t *testing.T) {
	const unearthed = "unearthed-chassis-single-fault chassis"
	two := []string{"plug: nema-5-15", "plug: nema-1-15-polarized", "conductors: 3", "conductors: 2",
		"  - {run: plug.ground -> chassis, color: green, joint: own-screw, slack: longest}\n", ""}
	// A long cord may let too little through for the fuse to open in time.
	slow := []string{"length: 6 ft", "length: 60 ft"}
	floating := []string{"    - {kind: lamp-box", "    - {kind: isolating-transformer, secondary: floating, earth: through}\n    - {kind: lamp-box"}
	for _, c := range []struct {
		name, finding string
		pairs         []string
		says, not     string // of the finding in full
	}{
		{"a plug that fits both ways", "limiter-in-hot upstream 2", []string{"nema-5-15", "nema-1-15"}, "a lamp in each conductor", "Rewire"},
		{"and a lamp in neutral", "limiter-in-hot upstream 2", []string{"nema-5-15", "nema-1-15", "pole: hot", "pole: neutral"}, "a lamp in each conductor", "Rewire"},
		{"and the pole not on the sheet", "limiter-in-hot upstream 2", []string{"nema-5-15", "nema-1-15", "pole: hot, ", ""}, "a lamp in each conductor", "Rewire"},
		{"a lamp in neutral", "limiter-in-hot upstream 2", []string{"pole: hot", "pole: neutral"}, "Unplug the box. Rewire it", "exchange the lamp's wires"},
		{"a lamp in neutral is not behind a transformer", "limiter-in-hot upstream 2", []string{"pole: hot", "pole: neutral"}, "stands at full voltage to ground", "floats"},
		{"behind a floating output no meter finds the side", "limiter-in-hot upstream 3", append([]string{"nema-5-15", "nema-1-15"}, floating...), "No meter to ground can tell the sides apart", "set goes in"},
		{"and nothing stands at full voltage to ground", "limiter-in-hot upstream 3", append([]string{"nema-5-15", "nema-1-15", "pole: hot", "pole: neutral"}, floating...), "neither side is live to ground", "full voltage"},
		{"of a plug that fits one way the box can be put right", "limiter-in-hot upstream 3", append([]string{"pole: hot", "pole: neutral"}, floating...), "Unplug the box. Rewire it", "goes round the lamp."},
		{"and the finding says what holds while it floats", "limiter-in-hot upstream 3", append([]string{"pole: hot", "pole: neutral"}, floating...), "neither side is live to ground", "nothing else: the whole set"},
		{"an output that may be tied is taken as tied", "limiter-in-hot upstream 3", append([]string{"nema-5-15", "nema-1-15"}, append(floating, "floating", "unknown")...), "each side of the box's outlet to a good ground", "neither side is live to ground"},
		{"an open circuit is off by more than anyone counts", "plug-on-resistance plug", []string{"reads: 9.9 Ω", "reads: 4.7 MΩ"}, "this many times the allowance (1 Ω or 10 %, whichever is more): over 1000, must be at most 1", "in allowances of"},
		{"a share of an allowance is nothing to buy a meter by", "plug-on-resistance plug", []string{"reads: 9.9 Ω", "reads: 11.1 Ω"}, "better instrument", "good to"},
		{"a fuse too large", "fuse-size F1", []string{"rating: 1 A, voltage: 250 V, speed", "rating: 3 A, voltage: 250 V, speed"}, "divided by the largest that may stand here", "asks for"},
		{"a meter of no date", "instrument-in-date set", []string{", calibrated: 2026-05-04", ""}, "the day of the last calibration of dmm", "dmm calibrated"},
		{"a device tested long ago does not count, and the finding says so first", "touch-current-single-fault chassis", append(slow, "tested: 2026-11-20", "tested: 2020-01-01"), "needs: upstream 1 tested: press its button", "{"},
		{"one of which no test is on the sheet neither", "touch-current-single-fault chassis", append(slow, ", tested: 2026-11-20", ""), "needs: upstream 1 tested: press its button", "{"},
		{"and what is wrong with it is told", "touch-current-single-fault chassis", append(slow, "tested: 2026-11-20", "tested: 2020-01-01"), "the GFCI (upstream 1) does not count: it was tested on 2020-01-01, before the latest reading on 2026-11-20", "{"},
		{"the device itself is asked for its test", "residual-tested upstream 1", append(slow, "tested: 2026-11-20", "tested: 2020-01-01"), "unproven", "Without a bond"},
		{"with no device nothing of the kind is said", "touch-current-single-fault chassis", append(slow, "    - {kind: gfci, form: receptacle, tested: 2026-11-20}\n", ""), "unproven", "does not count"},
		{"without a bond too", "unearthed-chassis-single-fault chassis", append(two, "tested: 2026-11-20", "tested: 2020-01-01"), "does not count: it was tested on 2020-01-01", "behind it"},
		{"beside an isolating transformer no device counts", "unearthed-chassis-single-fault chassis", append(two, floating...), "may go on getting 0.73 mA; nothing opens", "residual device alone"},
		{"an LED tells nothing", "limiter-tells upstream 2", []string{"lamp: 60 W", "lamp: 300 W"}, "tungsten filament", "{"},
		{"behind a tested device", unearthed, two, "behind it only what stands upstream", "nothing opens"},
		{"behind none", unearthed, append([]string{"    - {kind: gfci, form: receptacle, tested: 2026-11-20}\n", ""}, two...), "tested GFCI/RCD of 30 mA", "behind this device"},
		{"the supply has been measured", "winding-voltage-fits-supply T1.primary", []string{"primary:   {ends: [1, 2], voltage: 117 V}", "primary:   {ends: [1, 2], voltage: 112 V}"},
			"if the supply ever rises", "highest that it may have, for"},
		{"the supply has not been measured", "winding-voltage-fits-supply T1.primary", []string{"primary:   {ends: [1, 2], voltage: 117 V}", "primary:   {ends: [1, 2], voltage: 112 V}", "  voltage: 121 V", "  # "},
			"write it as voltage under supply", "as stated on the sheet"},
		{"measured, and too much", "winding-voltage-fits-supply T1.primary", []string{"primary:   {ends: [1, 2], voltage: 117 V}", "primary:   {ends: [1, 2], voltage: 108 V}"},
			"as stated on the sheet", "write it as voltage"},
		{"the volts for each cycle, not measured", "frequency-fits-supply set", []string{"voltage: 117 V, frequency", "voltage: 112 V, frequency", "  voltage: 121 V", "  # "},
			"write it as voltage under supply", "as stated on the sheet"},
	} {
		_, j := judged(t, "larkfield-six-forty", c.pairs...)
		i := slices.IndexFunc(j.Findings, func(f rules.Finding) bool { return f.Rule+" "+f.Subject.Name == c.finding })
		if i < 0 {
			t.Errorf("%s: no finding %s", c.name, c.finding)
			continue
		}
		f := j.Findings[i]
		text := strings.Join([]string{string(f.Outcome), f.Says, f.Note, f.Why, f.Remedy}, "; ")
		for i, n := range f.Needs {
			text += map[bool]string{true: "; needs: ", false: "; "}[i == 0] + n.What + ": " + n.How
		}
		if f.Outcome == rules.Pass || !strings.Contains(text, c.says) || strings.Contains(text, c.not) {
			t.Errorf("%s: %s", c.name, text)
		}
	}
}
