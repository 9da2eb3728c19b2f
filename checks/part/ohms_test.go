package part

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"firstvolt/checks/circuit"
)

// What each kind is to an ohmmeter, by hand from its keys: joints, conducting
// parts with their tolerance, bridging parts. A key that is missing leaves
// anything from nothing to open.
func TestElements(t *testing.T) {
	const open = "0 to +Inf"
	for _, c := range []struct {
		text string
		st   State
		want []string
	}{
		{"{kind: resistor, value: 100 Ω, tolerance: 5 %}", State{}, []string{"X1 1-2 95 to 105"}},
		{"{kind: resistor, value: 100 Ω}", State{}, []string{"X1 1-2 80 to 120"}},
		{"{kind: resistor}", State{}, []string{"X1 1-2 " + open}},
		{"{kind: resistor, value: 100 Ω, taps: [a]}", State{}, []string{"X1 1-a 1-a 0 to 120", "X1 a-2 a-2 0 to 120"}},
		{"{kind: resistor, value: 100 Ω, tolerance: 5 %, taps: {a: 80 Ω}}", State{}, []string{"X1 1-a 1-a 76 to 84", "X1 a-2 a-2 19 to 21"}},
		{"{kind: resistor, value: 100 Ω, tolerance: 5 %, taps: {a: 80 Ω, b: 100 Ω}}", State{}, []string{"X1 1-a 1-a 76 to 84", "X1 a-b a-b 19 to 21", "X1 b-2 b-2 0 to 0"}},
		{"{kind: resistor, taps: {a: 80 Ω}}", State{}, []string{"X1 1-a 1-a 64 to 96", "X1 a-2 a-2 " + open}},
		{"{kind: potentiometer, value: 100 Ω, tolerance: 10 %, taps: {a: 50 Ω}}", State{}, []string{"X1 1-a 1-a 45 to 55", "X1 1-wiper 1-wiper 0 to 110", "X1 a-2 a-2 45 to 55", "X1 wiper-2 wiper-2 0 to 110"}},
		{"{kind: thermistor, cold: 50 Ω}", State{}, []string{"X1 1-2 40 to 60"}},
		{"{kind: thermistor}", State{}, []string{"X1 1-2 " + open}},
		{"{kind: lamp, voltage: 6 V, current: 0.3 A}", State{}, []string{"X1 1-2 1.33333 to 20"}},
		{"{kind: lamp, voltage: 6 V}", State{}, []string{"X1 1-2 " + open}},
		{"{kind: speaker, resistance: 3 Ω}", State{}, []string{"X1 1-2 2.4 to 3.6"}},
		{"{kind: speaker, impedance: 4 Ω}", State{}, []string{"X1 1-2 0 to 4"}},
		{"{kind: speaker}", State{}, []string{"X1 1-2 " + open}},
		{"{kind: barretter, voltage: 50 V, current: 0.3 A}", State{}, []string{"X1 1-2 11.1111 to 166.667"}},
		{"{kind: choke, resistance: 300 Ω}", State{}, []string{"X1 1-2 240 to 360"}},
		{"{kind: choke}", State{}, []string{"X1 1-2 " + open}},
		{"{kind: field-coil, resistance: 1000 Ω}", State{}, []string{"X1 1-2 800 to 1200"}},
		{"{kind: motor}", State{}, []string{"X1 1-2 " + open}},
		{"{kind: fuse}", State{}, []string{"X1 1-2 " + open}},
		{"{kind: fuse}", State{Out: true}, nil},
		{"{kind: switch}", State{Closed: true}, []string{"X1 1-2 1-2 0 to 0.1"}},
		{"{kind: switch}", State{}, nil},
		{"{kind: outlet}", State{}, nil},
		{"{kind: tie}", State{}, nil},
		{"{kind: transformer, windings: {primary: {ends: [1, 2]}, plate: {ends: [3, 5], tap: 4}}}", State{}, []string{"X1.plate 3-4 3-4 " + open, "X1.plate 4-5 4-5 " + open, "X1.primary 1-2 " + open}},
	} {
		p := read(t, c.text)
		var got []string
		for _, e := range p.Kind.Elements(p, c.st) {
			got = append(got, fmt.Sprintf("%s %s-%s %.6g to %.6g", e.Name, strings.TrimPrefix(e.A, "X1."), strings.TrimPrefix(e.B, "X1."), e.R.Low, e.R.High))
		}
		slices.Sort(got)
		if !slices.Equal(got, c.want) {
			t.Errorf("%s %+v: %q, want %q", c.text, c.st, got, c.want)
		}
	}
}

// The ohms of taps count from terminal 1 and never fall, nor pass the whole.
func TestTapsInOrder(t *testing.T) {
	for text, want := range map[string]string{
		"{kind: resistor, value: 100 Ω, taps: {a: 50 Ω, b: 80 Ω}}": "",
		"{kind: resistor, value: 100 Ω, taps: {a: 50 Ω, b: 40 Ω}}": "tap b is 40 Ω from terminal 1, less than what comes before it",
		"{kind: resistor, value: 100 Ω, taps: {a: 120 Ω}}":         "tap a is 120 Ω from terminal 1, more than the whole, 100 Ω",
	} {
		_, got := try(text)
		if (want == "") != (len(got) == 0) || want != "" && got[0].Wrong != want {
			t.Errorf("%s: %v, want %q", text, got, want)
		}
	}
}

// Turns go as the volts between taps.
func TestSections(t *testing.T) {
	p := read(t, "{kind: autotransformer, taps: {com: 0 V, a: 117 V, b: 230 V}}")
	es := p.Kind.Elements(p, State{})
	if len(es) != 2 || es[0].A != "X1.com" || es[0].B != "X1.a" || es[1].B != "X1.b" {
		t.Fatalf("%+v", es)
	}
	for i, want := range []float64{117, 113} {
		if got := es[i].Turns.High; math.Abs(got-want) > 1e-9 || es[i].Law != circuit.Winding || es[i].Core != "X1" {
			t.Errorf("section %d: %g turns, want %g", i, got, want)
		}
	}
	w := read(t, "{kind: transformer, windings: {plate: {ends: [3, 5], tap: 4, voltage: 600 V, no-load: 640 V}}}")
	v, ok := w.Winding("plate").Volts()
	if !ok || v.High != 640 || w.Winding("none") != nil {
		t.Errorf("no-load volts come first: %s", v)
	}
	if w.SectionName(w.Winding("plate"), 2) != "X1.plate 4-5" {
		t.Errorf("named %s", w.SectionName(w.Winding("plate"), 2))
	}
}

// Parts that strike or charge conduct nothing in a circuit.
func TestBridging(t *testing.T) {
	for _, text := range []string{"{kind: varistor, voltage: 275 V}", "{kind: arrester}", "{kind: neon}", "{kind: capacitor, value: 10 nF}"} {
		p := read(t, text)
		for _, e := range p.Kind.Elements(p, State{}) {
			if e.Conducts != circuit.Bridging {
				t.Errorf("%s conducts", text)
			}
		}
	}
}

// A fuse's cold resistance by one maker's table (testdata/published/fuse-cold.txt):
// a 5 × 20 mm time-lag glass fuse of 1 A has 0.117 Ω nominal.
func TestFuseOhms(t *testing.T) {
	p := read(t, "{kind: fuse, rating: 1 A, speed: time-delay, standard: iec-60127, body: glass}")
	e := p.Kind.Elements(p, State{})[0]
	if !(e.R.Low < 0.117 && e.R.High > 0.117) || e.R.High > 1 {
		t.Errorf("%g to %g Ω", e.R.Low, e.R.High)
	}
	if e := read(t, "{kind: fuse, rating: 1 A}"); e.fuseOhms().High < 0.117 {
		t.Errorf("less known and narrower: %+v", e.fuseOhms())
	}
	for text, ok := range map[string]bool{"high": true, "low": true, "150 A": true, "medium": false} {
		if _, err := breaking(text); (err == nil) != ok {
			t.Errorf("breaking: %s: %v", text, err)
		}
	}
}

// What would make a part's resistance predictable, and only what is not there.
func TestOhmsNeed(t *testing.T) {
	for text, want := range map[string]string{
		"{kind: resistor}": "value", "{kind: resistor, value: 1 kΩ}": "", "{kind: potentiometer}": "value", "{kind: thermistor}": "cold",
		"{kind: lamp}": "voltage current", "{kind: lamp, current: 0.1 A}": "voltage", "{kind: barretter, voltage: 40 V}": "current",
		"{kind: choke}": "resistance", "{kind: field-coil, resistance: 1 kΩ}": "", "{kind: tube}": "type",
		"{kind: rectifier}": "type", "{kind: rectifier, of: silicon}": "", "{kind: motor}": "", "{kind: fuse}": "",
	} {
		p, problems := try(text)
		if p == nil {
			t.Errorf("%s: %v", text, problems)
			continue
		}
		if got := strings.Join(p.OhmsNeed(), " "); got != want {
			t.Errorf("%s needs %q, want %q", text, got, want)
		}
	}
}

// A rectifier of which the sheet says neither type nor material is whatever its
// wires make of it: a tube with a heater, or a diode.
func TestRectifierOfUnknownKind(t *testing.T) {
	p, problems := try("{kind: rectifier}")
	if p == nil {
		t.Fatal(problems)
	}
	ways := map[string]bool{}
	for _, e := range p.Elements(State{}) {
		ways[e.A+" "+e.B] = true
	}
	for _, way := range []string{"h1 h2", "plate cathode", "anode cathode"} {
		a, b, _ := strings.Cut(way, " ")
		if !ways[p.Full(a)+" "+p.Full(b)] {
			t.Errorf("nothing from %s to %s", a, b)
		}
	}
}
