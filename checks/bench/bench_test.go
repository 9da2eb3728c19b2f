package bench

import (
	"os"
	"slices"
	"strings"
	"testing"

	"firstvolt/checks/circuit"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
	"firstvolt/checks/trial"
)

// larkfield is the whole example of the format's page with pairs of text
// replaced; each first must stand there.
func larkfield(t *testing.T, pairs ...string) *Bench {
	t.Helper()
	return altered(t, "larkfield-six-forty", pairs...)
}

// altered is the same of any sound sheet.
func altered(t *testing.T, name string, pairs ...string) *Bench {
	t.Helper()
	return benchOf(t, trial.Altered(t, trial.Sheet(t, name), pairs...))
}

func benchOf(t *testing.T, text string) *Bench {
	t.Helper()
	s, problems := sheet.Read("test.yaml", []byte(text))
	if s == nil {
		t.Fatal(problems)
	}
	return New(s)
}

func joined(b *Bench, st State, x, y string, through func(*circuit.Element) bool) bool {
	return b.Circuit(st).Reach([]string{x}, through).Has(y)
}

func TestStage(t *testing.T) {
	if b := larkfield(t); b.Stage != "heaters" || b.Fact("stage").Word != "heaters" {
		t.Errorf("stage %q", b.Stage)
	}
	if b := larkfield(t, "first-power: {stage: heaters}", "#"); b.Stage != "rail" {
		t.Errorf("without a stage: %q", b.Stage)
	}
	if b := ForStage(larkfield(t).Sheet, "bare"); b.Stage != "bare" {
		t.Errorf("asked for bare: %q", b.Stage)
	}
}

// Every fact that rules may name is a word or a range as the list says, and
// none is there that the list does not have.
func TestFacts(t *testing.T) {
	b := larkfield(t)
	for name, f := range b.Setting().Facts {
		ranged, listed := figure.FactNames[name]
		switch {
		case !listed:
			t.Errorf("%s is no fact", name)
		case ranged && f.Range == nil && f.Word == "", !ranged && f.Range != nil:
			t.Errorf("%s: %+v", name, f)
		}
	}
	for name, want := range map[string]string{"construction": "transformer", "bonded": "yes", "plug-fits": "one-way", "plug-ground": "present", "system": "neutral", "earthing": "tn", "chassis-reach": "touchable", "plug-fuse": "none"} {
		if got := b.Fact(name).Word; got != want {
			t.Errorf("%s is %q, want %q", name, got, want)
		}
	}
	if f := larkfield(t, "region: north-america", "region: north-america\n  earthing: unknown").Fact("earthing"); f.Known() {
		t.Errorf("an earthing that nobody knows: %+v", f)
	}
	if f := larkfield(t, "  chassis: exposed  ", "  #").Fact("chassis-reach"); f.Known() {
		t.Errorf("a chassis that nobody described: %+v", f)
	}
}

// What no stage takes out of its socket, and every stage energizes, is soldered
// in: a rectifier of metal behind anything that conducts, an electrolytic across
// a winding. A tube comes out.
func TestSolderedSupply(t *testing.T) {
	const parts, wires = "  C1: {kind", "  - T1.4 -> chassis"
	for _, c := range []struct{ name, part, run, role, want string }{
		{"no supply on the sheet", "Tie: {kind: tie}", "Tie -> chassis", "", "absent"},
		{"a tube", "X1: {kind: rectifier, type: 5Y3-GT}", "T1.3 -> X1.plate-1", "tube", "absent"},
		{"a tube of no type, by its wires", "X1: {kind: rectifier}", "T1.3 -> X1.plate-1", "tube", "absent"},
		{"silicon", "X1: {kind: rectifier, of: silicon}", "T1.3 -> X1 -> T1.5", "metal", "present"},
		{"metal, by its wires", "X1: {kind: rectifier}", "T1.3 -> X1.anode", "metal", "present"},
		{"by its wires neither", "X1: {kind: rectifier}", "T1.3 -> X1.cathode", "", "present"},
		{"behind a surge resistor", "X1: {kind: rectifier, of: silicon}\n  R1: {kind: resistor, value: 47 Ω}", "T1.3 -> R1 -> X1.anode", "metal", "present"},
		{"for a bias, behind a large one", "X1: {kind: rectifier, of: selenium}\n  R1: {kind: resistor, value: 47 kΩ}", "T1.3 -> R1 -> X1.anode", "metal", "present"},
		{"metal on nothing that a winding feeds", "X1: {kind: rectifier, of: silicon}\n  Tie: {kind: tie}", "Tie -> X1.anode", "metal", "absent"},
		{"an electrolytic across a winding", "X1: {kind: electrolytic, value: 16 µF}", "T1.3 -> X1 -> T1.5", "inside", "present"},
		{"one across a winding behind a resistor", "X1: {kind: electrolytic, value: 16 µF}\n  R1: {kind: resistor, value: 470 Ω}", "T1.3 -> R1 -> X1 -> chassis", "inside", "present"},
		{"one across a winding behind a lamp and a choke", "X1: {kind: electrolytic, value: 16 µF}\n  P1: {kind: lamp}\n  L1: {kind: choke}", "T1.8 -> P1 -> X1 -> L1 -> T1.9", "inside", "present"},
		{"one from the plate winding to a heater winding that is on the chassis", "X1: {kind: electrolytic, value: 16 µF}", "T1.9 -> chassis\n  - T1.3 -> X1 -> T1.8", "inside", "present"},
		{"one from there to a heater winding that is on nothing", "X1: {kind: electrolytic, value: 16 µF}", "T1.3 -> X1 -> T1.8", "inside", "absent"},
		{"one past the resistor of a filament winding's middle", "X1: {kind: electrolytic, value: 16 µF}\n  R1: {kind: resistor, value: 750 Ω}\n  R2: {kind: resistor, value: 25 Ω}\n  R3: {kind: resistor, value: 25 Ω}", "T1.8 -> R2 -> R1 -> chassis\n  - R2.2 -> R3 -> T1.9\n  - R2.2 -> X1 -> chassis", "inside", "absent"},
		{"one at the cathode of a tube rectifier, with a bleeder", "X1: {kind: electrolytic, value: 16 µF}\n  R1: {kind: resistor, value: 47 kΩ}\n  V1: {kind: rectifier, type: 5Y3-GT}", "T1.6 -> V1 -> T1.7\n  - T1.3 -> V1.plate-1\n  - T1.5 -> V1.plate-2\n  - T1.6 -> X1 -> chassis\n  - T1.6 -> R1 -> chassis", "inside", "absent"},
		{"one at a cathode of a tube heated by a winding with a tap on the chassis", "X1: {kind: electrolytic, value: 16 µF}\n  R1: {kind: resistor, value: 470 Ω}\n  V1: {kind: tube, type: 6V6}", "T1.8 -> V1 -> T1.9\n  - T1.9 -> chassis\n  - V1.cathode -> X1 -> chassis\n  - V1.cathode -> R1 -> chassis", "inside", "absent"},
		{"an electrolytic behind the rectifier", "X1: {kind: electrolytic, value: 16 µF}\n  Tie: {kind: tie}", "Tie -> X1 -> chassis", "inside", "absent"},
	} {
		b := larkfield(t, parts, "  "+c.part+"\n"+parts, wires, wires+"\n  - "+c.run)
		if got := b.Fact("soldered-supply").Word; got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
		if p := b.Sheet.Part("X1"); p != nil && b.Of(p).Role != c.role {
			t.Errorf("%s: X1 is %q, want %q", c.name, b.Of(p).Role, c.role)
		}
	}
}

// The names of subjects are what machine output carries.
func TestSubjects(t *testing.T) {
	b := larkfield(t, "  C1: {kind", "  Knob: {kind: body}\n  Bracket: {kind: body, reach: enclosed}\n  C1: {kind", "  - T1.4 -> chassis", "  - T1.4 -> chassis -> Knob\n  - chassis -> Bracket")
	for _, c := range []struct{ kind, name, role, reach string }{
		{"set", "set", "", ""}, {"chassis", "chassis", "", "touchable"}, {"supply", "supply", "", ""}, {"plug", "plug", "", ""}, {"cord", "cord", "", ""},
		{"fuse", "F1", "mains", ""}, {"switch", "S1", "mains", ""}, {"capacitor", "C1", "chassis", ""},
		{"winding", "T1.primary", "primary", ""}, {"winding", "T1.heater", "heater", ""},
		{"link", "upstream 2", "lamp-box", ""}, {"instrument", "dmm", "", ""}, {"inspection", "bushing", "bushing", ""},
		{"reading", "plug.ground – chassis", "resistance", ""},
		{"body", "Knob", "", "touchable"}, {"body", "Bracket", "", "enclosed"},
	} {
		s, ok := b.Subject(c.kind, c.name)
		if !ok || s.Role != c.role || s.Reach != c.reach {
			t.Errorf("%s %s: %+v, %v", c.kind, c.name, s, ok)
		}
	}
	if _, ok := b.Subject("fuse", "F9"); ok {
		t.Error("a fuse that is not there")
	}
	seen := map[string]bool{}
	for _, s := range b.Setting().Subjects {
		if seen[s.Kind+" "+s.Name] {
			t.Errorf("%s %s twice", s.Kind, s.Name)
		}
		seen[s.Kind+" "+s.Name] = true
	}
	if b.Set().Name != "set" || b.Of(b.Sheet.Part("F1")).Name != "F1" || len(b.Parts(part.Fuses|part.Switches)) != 2 {
		t.Error("set, part and kinds")
	}
	if b.PartOf("T1.1") != b.Sheet.Part("T1") || b.PartOf("chassis") != nil || b.PartOf("plug.hot") != nil {
		t.Error("the part of a terminal")
	}
}

// Two readings of one name are one subject.
func TestReadingTwice(t *testing.T) {
	line := "    - {across: T1.primary, reads: 9.7 Ω, with: dmm}\n"
	if n := len(larkfield(t, line, line+line).Subjects("reading")); n != len(larkfield(t).Subjects("reading")) {
		t.Errorf("%d readings", n)
	}
}

// Without wiring the verdict is at best unproven, and what rests on wiring is
// not asked.
func TestNoWiring(t *testing.T) {
	data, err := os.ReadFile("../../testdata/sheets/larkfield-six-forty.yaml")
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	b := benchOf(t, text[:strings.Index(text, "wiring:\n")]+text[strings.Index(text, "readings:\n"):])
	set := b.Setting()
	if set.AtBest == "" || !slices.Contains(set.NotAsked, "entry") || slices.Contains(set.NotAsked, "readings") {
		t.Errorf("%q, %v", set.AtBest, set.NotAsked)
	}
	if w := b.Wired(); w.Construction != "transformer" || w.Bonded != "" {
		t.Errorf("%+v", w)
	}
	if s, _ := b.Subject("capacitor", "C1"); s.Role != "" {
		t.Errorf("C1 is %q", s.Role)
	}
	if set := larkfield(t).Setting(); set.AtBest != "" || len(set.NotAsked) > 0 {
		t.Error("with wiring something is left out")
	}
}

// A check that panics leaves its figure missing for every subject of its kinds.
func TestCheckPanics(t *testing.T) {
	b := larkfield(t)
	c := Check{Def: &figure.Def{Name: "x", Of: []string{"fuse", "switch"}, Present: true}, Compute: func(*Bench) []figure.Figure { panic("broken") }}
	figures, fault := c.Run(b)
	if len(figures) != 2 || !strings.Contains(fault, "broken") {
		t.Fatalf("%d figures, %q", len(figures), fault)
	}
	for _, f := range figures {
		if f.Known() {
			t.Errorf("%s is known", f.Of.Name)
		}
	}
	sound := Check{Def: c.Def, Compute: func(b *Bench) []figure.Figure {
		return []figure.Figure{figure.Is(c.Def, b.Of(b.Sheet.Part("F1")), true)}
	}}
	if figures, fault := sound.Run(b); len(figures) != 1 || fault != "" || !figures[0].Known() {
		t.Errorf("%v, %q", figures, fault)
	}
}
