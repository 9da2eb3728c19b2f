package part

import (
	"math"
	"slices"
	"strings"
	"testing"

	"firstvolt/checks/circuit"
	"firstvolt/checks/strict"
)

// read makes one part of its text, or fails.
func read(t *testing.T, text string) *Part {
	t.Helper()
	p, problems := try(text)
	if len(problems) > 0 {
		t.Fatalf("%s: %v", text, problems)
	}
	return p
}

func try(text string) (*Part, []strict.Problem) {
	n, problems := strict.Parse([]byte(text))
	if n == nil {
		return nil, problems
	}
	problems = append(problems, strict.Check(n, Shape())...)
	p, more := Read("X1", strict.Pos{Line: 1, Column: 1}, n)
	return p, strict.Sorted(append(problems, more...))
}

// The table of the format: terminals, and the way of a run through a bare part.
func TestTerminalsAndWays(t *testing.T) {
	for text, want := range map[string]struct{ terminals, way string }{
		"{kind: fuse}":                                            {"1 2", "1 2"},
		"{kind: fuse, holder: in-line}":                           {"1 2", "1 2"},
		"{kind: fuse, holder: panel}":                             {"end side", "end side"},
		"{kind: fuse, holder: touch-proof}":                       {"end side", "end side"},
		"{kind: switch}":                                          {"1 2", "1 2"},
		"{kind: switch, poles: 1}":                                {"1 2", "1 2"},
		"{kind: switch, poles: 2}":                                {"1 2 3 4", ""},
		"{kind: selector, positions: {a: [[x, y]], b: [[y, z]]}}": {"x y z", ""},
		"{kind: capacitor}":                                       {"1 2", "1 2"},
		"{kind: electrolytic}":                                    {"plus minus", "plus minus"},
		"{kind: resistor}":                                        {"1 2", "1 2"},
		"{kind: resistor, taps: [a, b]}":                          {"1 2 a b", "1 2"},
		"{kind: resistor, taps: {a: 5 Ω}}":                        {"1 2 a", "1 2"},
		"{kind: potentiometer}":                                   {"1 2 wiper", "1 2"},
		"{kind: thermistor}":                                      {"1 2", "1 2"},
		"{kind: varistor}":                                        {"1 2", "1 2"},
		"{kind: arrester}":                                        {"1 2", "1 2"},
		"{kind: neon}":                                            {"1 2", "1 2"},
		"{kind: lamp}":                                            {"1 2", "1 2"},
		"{kind: choke}":                                           {"1 2", "1 2"},
		"{kind: field-coil}":                                      {"1 2", "1 2"},
		"{kind: transformer}":                                     {"", ""},
		"{kind: transformer, shield: S, windings: {primary: {ends: [1, 2]}, plate: {ends: [3, 5], tap: 4}}}": {"1 2 3 4 5 S", ""},
		"{kind: output-transformer, windings: {primary: {ends: [1, 2]}}}":                                    {"1 2", ""},
		"{kind: autotransformer}":                                       {"", ""},
		"{kind: autotransformer, taps: {com: 0 V}}":                     {"com", ""},
		"{kind: autotransformer, taps: {com: 0 V, a: 117 V, b: 230 V}}": {"com a b", ""},
		"{kind: rectifier, type: 5Y3-GT}":                               {"h1 h2 h-tap plate plate-1 plate-2 cathode", "h1 h2"},
		"{kind: rectifier, of: silicon}":                                {"anode cathode", "anode cathode"},
		"{kind: rectifier, of: selenium}":                               {"anode cathode", "anode cathode"},
		"{kind: tube, type: 6V6}":                                       {"h1 h2 plate screen grid cathode", "h1 h2"},
		"{kind: valve}":                                                 {"h1 h2 plate screen grid cathode", "h1 h2"},
		"{kind: barretter}":                                             {"1 2", "1 2"},
		"{kind: motor}":                                                 {"1 2 frame", "1 2"},
		"{kind: outlet}":                                                {"hot neutral ground", ""},
		"{kind: outlet, ground: none}":                                  {"hot neutral", ""},
		"{kind: speaker}":                                               {"1 2", "1 2"},
		"{kind: connector, pins: [a, b]}":                               {"a a-mate b b-mate", ""},
		"{kind: filter}":                                                {"line-in neutral-in line-out neutral-out case", ""},
		"{kind: body}":                                                  {"", ""},
		"{kind: tie}":                                                   {"", ""},
	} {
		p := read(t, text)
		if got := strings.Join(p.Terminals(), " "); got != want.terminals {
			t.Errorf("%s has the terminals %q, want %q", text, got, want.terminals)
		}
		in, out, ok := p.Kind.Through(p)
		if got := strings.TrimSpace(in + " " + out); ok != (want.way != "") || ok && got != want.way {
			t.Errorf("%s: the way through is %q (%v), want %q", text, got, ok, want.way)
		}
		if bare := p.Kind.Name == "body" || p.Kind.Name == "tie"; p.Bare() != bare {
			t.Errorf("%s: bare is %v", text, p.Bare())
		}
	}
}

// Every kind of the format's page is there, with a sentence, and every key
// with its own; every key name is taken.
func TestEveryKindIsDescribed(t *testing.T) {
	want := strings.Fields("fuse switch selector capacitor electrolytic resistor potentiometer thermistor varistor arrester neon lamp choke field-coil transformer " +
		"output-transformer autotransformer rectifier tube speaker barretter motor outlet connector filter body tie")
	if !slices.Equal(Names(), want) {
		t.Errorf("kinds: %v", Names())
	}
	for _, k := range Kinds() {
		if k.Doc == "" || KindOf(k.Name) != k || k.Terminals == nil || k.Through == nil {
			t.Errorf("%s is not whole", k.Name)
		}
		for _, key := range k.Keys {
			if key.Doc == "" || key.Shape == nil {
				t.Errorf("%s.%s is not described", k.Name, key.Name)
			}
			if key.Required {
				t.Errorf("%s.%s is required, and only the kind may be", k.Name, key.Name)
			}
		}
	}
	if KindOf("no-such-kind") != nil {
		t.Error("a kind of no name")
	}
}

// The keys of the format's table, each with a value that reads.
func TestEveryKeyReads(t *testing.T) {
	for _, text := range []string{
		"{kind: fuse, rating: 1 A, voltage: 250 V, speed: time-delay, standard: iec-60127, breaking: 1500 A, body: ceramic, holder: pigtail, note: x}",
		"{kind: fuse, speed: fast, standard: ul-248-14, breaking: low, body: glass, holder: clips}",
		"{kind: switch, poles: 2, rating: 3 A, voltage: 125 V, form: on-control, frame: none}",
		"{kind: selector, positions: {117: [[A, B], [C, D]], 230: [[B, C]]}, set: 117}",
		"{kind: capacitor, value: 4.7 nF, voltage: 250 V, class: Y2, tolerance: 20 %, body: film}",
		"{kind: electrolytic, value: 22 µF, voltage: 450 V, surge: 500 V, can: C1, mark: half-round, was: 16 µF, state: reformed}",
		"{kind: resistor, value: 1 kΩ, tolerance: 5 %, power: 2 W, voltage: 350 V, taps: [a]}",
		"{kind: potentiometer, value: 500 kΩ, tolerance: 20 %, power: 0.5 W, voltage: 250 V, taps: [loud]}",
		"{kind: thermistor, cold: 50 Ω, hot: 2 Ω, current: 1 A}",
		"{kind: varistor, voltage: 150 V}", "{kind: arrester, voltage: 600 V}", "{kind: neon, voltage: 90 V, resistor: 220 kΩ}",
		"{kind: lamp, voltage: 6.3 V, current: 150 mA}",
		"{kind: choke, inductance: 8 H, resistance: 200 Ω, current: 80 mA}", "{kind: field-coil, inductance: 8 H, resistance: 1.2 kΩ, current: 60 mA}",
		"{kind: transformer, power: 60 VA, shield: s, windings: {primary: {ends: [1, 2], taps: {3: 110 V}, voltage: 117 V, no-load: 117 V, load: 0.5 A, dot: 1, note: x}}}",
		"{kind: output-transformer, windings: {primary: {ends: [1, 2], tap: 3}}}",
		"{kind: rectifier, type: XZ1, heater-voltage: 4 V, heater-current: 1.1 A}", "{kind: tube, type: XL9, heater-voltage: 45 V, heater-current: 100 mA}",
		"{kind: tube, type: 6V6, heater-voltage: 6.3 V, heater-current: 0.45 A}",
		"{kind: rectifier, type: 5Y3-GT}", "{kind: rectifier, of: selenium}", "{kind: tube, type: 6V6}",
		"{kind: barretter, current: 300 mA, voltage: 100 V, power: 30 W}", "{kind: motor, current: 0.2 A, voltage: 115 V, power: 15 W}",
		"{kind: capacitor, class: none}", "{kind: neon, voltage: 90 V, resistor: 220 kΩ, power: 0.25 W, resistor-voltage: 350 V}", "{kind: neon, unit-voltage: 250 V}",
		"{kind: rectifier, of: silicon, voltage: 1000 V, current: 1 A}", "{kind: tube, type: 6V6, plate-current: 45 mA, screen-current: 0 mA}",
		"{kind: speaker, resistance: 3.2 Ω, impedance: 4 Ω}", "{kind: outlet, load: 0 W, ground: none}",
		"{kind: outlet, load: 1 A}", "{kind: outlet, load: 100 W}",
		"{kind: connector, pins: [1, 2], jumpers: [[1, 2]], fits: both-ways}",
		"{kind: filter, current: 1 A, voltage: 250 V, leakage: 0.5 mA}", "{kind: body, reach: enclosed}", "{kind: tie}",
	} {
		read(t, text)
	}
}

func TestFaultsOfParts(t *testing.T) {
	for text, want := range map[string]string{
		"{kind: fuse, breaking: much}":                                          `:1:24: breaking: "much" is neither low, high nor a current; low, high, or amperes, like 1500 A`,
		"{kind: switch, poles: 5}":                                              ":1:23: \"5\" is not a word for poles; one of: 1, 2, 3, 4",
		"{kind: rectifier, type: 5Y3-GT, voltage: 900 V}":                       ":1:42: X1 is a tube, whose voltage its type tells; delete voltage: it is of silicon and selenium",
		"{kind: capacitor, class: no}":                                          `:1:26: "no" is not a word for class; one of: X1, X2, X3, Y1, Y2, Y3, Y4, none`,
		"{kind: resistor, power: 0 W}":                                          `:1:25: power: "0 W" cannot be; write a value of more than zero, or leave the key out where it is not known`,
		"{kind: outlet, ground: yes}":                                           `:1:24: ground: "yes" is not none; write none where it has two poles; delete the key where it has a ground contact`,
		"{kind: body, load: 1 A}":                                               ":1:14: load is not a key of the sheet; one of: kind, note, reach",
		"{kind: rectifier, type: 5Y3-GT, of: silicon}":                          ":1:37: X1 has both a tube type and a material; keep type: for a tube, of: for silicon or selenium",
		"{kind: transformer, windings: {a: {ends: [1, 2]}, b: {ends: [2, 3]}}}": ":1:62: terminal 2 of X1 belongs to a already; give each winding its own ends",
		"{kind: transformer, windings: {a: {ends: [1, 2], dot: 3}}}":            ":1:55: the dot of X1.a is at 3, which is not one of its ends; one of: 1, 2",
		"{kind: transformer, windings: {a: {ends: [1]}}}":                       ":1:42: ends has 1 entry; write 2",
		"{kind: selector, positions: {a: [[x, y]]}, set: b}":                    ":1:49: X1 has no position b; write a",
		"{kind: connector, pins: [1], jumpers: [[1, 2]]}":                       ":1:40: X1 has no pin 2; write 1",
		"{kind: autotransformer, taps: {a: 0 V, b: 9 V, c: 5 V}}":               ":1:51: the taps of X1 are not in order; write them from the lowest volts to the highest",
	} {
		_, problems := try(text)
		if len(problems) != 1 {
			t.Errorf("%s: %d problems: %v", text, len(problems), problems)
			continue
		}
		if want != problems[0].String() {
			t.Errorf("%s:\n got %s\nwant %s", text, problems[0], want)
		}
	}
}

// A tap between taps whose volts are not all known still reads; no share of
// the winding is then claimed.
func TestOrderOfTaps(t *testing.T) {
	p := read(t, "{kind: transformer, windings: {primary: {ends: [1, 2], tap: m, taps: {b: 90 V, a: 10 V}, voltage: 100 V}}}")
	w := p.Winding("primary")
	if !slices.Equal(w.Order, []string{"1", "a", "m", "b", "2"}) || !slices.Equal(w.Share, []float64{0, .1, .5, .9, 1}) {
		t.Errorf("order %v, shares %v", w.Order, w.Share)
	}
	if share, ok := w.TapVolts("b", "a"); !ok || share < .799 || share > .801 {
		t.Errorf("from b to a: %v, %v", share, ok)
	}
	p = read(t, "{kind: transformer, windings: {primary: {ends: [1, 2], tap: m, taps: {a: 10 V, b: 90 V}}}}")
	if w := p.Winding("primary"); w.Share != nil || len(w.Order) != 5 || w.Role != "primary" {
		t.Errorf("without its voltage: %+v", w)
	}
	for name, role := range map[string]string{"primary-2": "primary", "Heater-b": "heater", "plate": "plate", "bias": "bias", "other": "other", "rectifier": "rectifier"} {
		if got := roleOf(name); got != role {
			t.Errorf("%s has the role %s, want %s", name, got, role)
		}
	}
}

// What each part joins in each state of it.
func TestElementsByState(t *testing.T) {
	count := func(text string, s State) (joints int) {
		for _, e := range read(t, text).Elements(s) {
			if e.Owner != "X1" {
				t.Errorf("%s: element %s belongs to %q", text, e.Name, e.Owner)
			}
			if e.Conducts == circuit.Joint {
				joints++
			}
		}
		return joints
	}
	for _, c := range []struct {
		text  string
		state State
		want  int
	}{
		{"{kind: fuse}", State{}, 1}, {"{kind: fuse}", State{Out: true}, 0},
		{"{kind: switch, poles: 2}", State{}, 0}, {"{kind: switch, poles: 2}", State{Closed: true}, 2},
		{"{kind: selector, positions: {a: [[x, y]], b: []}}", State{}, 0},
		{"{kind: selector, positions: {a: [[x, y]], b: []}}", State{Position: "a"}, 1},
		{"{kind: connector, pins: [a, b]}", State{}, 2}, {"{kind: connector, pins: [a, b]}", State{Unmated: true}, 0},
	} {
		if got := count(c.text, c.state); got != c.want {
			t.Errorf("%s in %+v joins %d pairs, want %d", c.text, c.state, got, c.want)
		}
	}
}

// A cold heater reads a fifth to a tenth of its hot resistance; wired in
// halves side by side a quarter of that.
func TestHeaterOhms(t *testing.T) {
	e := read(t, "{kind: tube, type: 6V6}").Elements(State{})[0]
	hot := 6.3 / 0.45 // its published heater rating, 6.3 V 0.45 A
	if e.R.Low < hot/10-.01 || e.R.High > hot/5+.01 || !(e.R.Low < e.R.High) {
		t.Errorf("cold heater %v to %v Ω, hot %v", e.R.Low, e.R.High, hot)
	}
	if v, i, ok := read(t, "{kind: tube, type: 6V6}").HeaterRating(); !ok || v.Low != 6.3 || i.Low != .45 {
		t.Errorf("rating %v, %v", v, i)
	}
	if _, _, ok := read(t, "{kind: tube}").HeaterRating(); ok {
		t.Error("a tube of no type has a heater rating")
	}
}

// What the handbook does not know of a heater, its data tell; where the handbook
// knows it, both must say the same.
func TestHeaterByItsData(t *testing.T) {
	p := read(t, "{kind: tube, type: XL9, heater-voltage: 45 V, heater-current: 100 mA}")
	if v, i, ok := p.HeaterRating(); !ok || v.Low != 45 || v.High != 45 || i.High != .1 {
		t.Errorf("rating %v, %v, %v", v, i, ok)
	}
	if r := p.Elements(State{})[0].R; !(math.Abs(r.Low-45) < .1 && math.Abs(r.High-90) < .1) {
		t.Errorf("cold %v to %v Ω of 450 Ω hot", r.Low, r.High)
	}
	if need := p.OhmsNeed(); len(need) > 0 {
		t.Errorf("needs %v", need)
	}
	for _, half := range []string{"{kind: tube, type: XL9, heater-voltage: 45 V}", "{kind: tube, type: XL9, heater-current: 100 mA}"} {
		if _, _, ok := read(t, half).HeaterRating(); ok {
			t.Errorf("%s has a rating", half)
		}
	}
	for _, c := range []struct{ text, want string }{
		{"{kind: tube, type: 6V6, heater-voltage: 12.6 V}", "heater-voltage is 12.6 V, but a 6V6 has 6.3 V"},
		{"{kind: tube, type: 6V6, heater-voltage: 6.3 V, heater-current: 4.5 A}", "heater-current is 4.5 A, but a 6V6 has 450 mA"},
		{"{kind: rectifier, type: 5Y3, heater-current: 0.2 A}", "heater-current is 200 mA, but a 5Y3 has 2 A"},
		{"{kind: tube, type: 12AX7, heater-voltage: 6.3 V, heater-current: 0.3 A}", ""},
		{"{kind: tube, type: 12AX7, heater-voltage: 12.6 V, heater-current: 0.15 A}", ""},
		{"{kind: rectifier, of: silicon, heater-voltage: 5 V}", "heater-voltage is of a tube"},
	} {
		_, got := try(c.text)
		if (c.want == "") != (len(got) == 0) || c.want != "" && !strings.Contains(got[0].Wrong, c.want) {
			t.Errorf("%s: %v, want %q", c.text, got, c.want)
		}
	}
}

func TestNames(t *testing.T) {
	for _, name := range []string{"F1", "1", "a_b", "a-b/c", "A--b", strings.Repeat("x", 40)} {
		if err := CheckName(name); err != nil {
			t.Errorf("%q: %v", name, err)
		}
	}
	for _, name := range []string{"", "-a", "a-", "a b", "a.b", "é", "a+b", "a\x1b", strings.Repeat("x", 41)} {
		if CheckName(name) == nil {
			t.Errorf("%q is taken for a name", name)
		}
	}
}
