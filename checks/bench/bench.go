// Package bench makes a set ready once for all checks: the facts that rules
// may ask for, the subjects that they ask about, and one circuit for each
// state of switches, selectors, fuses and lifted leads. It computes no figure
// and knows no limit.
package bench

import (
	"slices"
	"strings"

	"firstvolt/checks/circuit"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
)

// Bench is one set on the bench.
type Bench struct {
	Sheet *sheet.Sheet
	Stage string // the stage judged: bare, heaters, rail

	earthing string // the one that is taken (Earthed); "": as the sheet says

	circuits map[string]*circuit.Circuit
	key      []byte            // scratch of Circuit
	scratch  []circuit.Element // of elements
	wires    []circuit.Element
	facts    map[string]figure.Fact
	subjects []figure.Subject
	wired    Wired
	windings map[*sheet.Reading]windingReads // cache of windingReads by reading left out
	directs  map[*sheet.Reading]stretch      // cache of direct
	foretold map[*sheet.Reading][]Prediction // cache of Predict
	kept     map[any]any                     // cache of Keep
}

// New makes the bench for the stage that stands on the sheet, rail if none.
func New(s *sheet.Sheet) *Bench { return ForStage(s, "") }

// ForStage makes the bench for stage; empty means the sheet's own, else rail.
func ForStage(s *sheet.Sheet, stage string) *Bench {
	if stage == "" {
		stage = s.FirstPower
	}
	if stage == "" {
		stage = "rail"
	}
	b := &Bench{Sheet: s, Stage: stage, circuits: map[string]*circuit.Circuit{}, windings: map[*sheet.Reading]windingReads{},
		directs: map[*sheet.Reading]stretch{}, foretold: map[*sheet.Reading][]Prediction{},
		kept: map[any]any{}}
	for _, w := range s.Wires {
		b.wires = append(b.wires, circuit.Element{Name: w.Name, A: w.A, B: w.B, Conducts: circuit.Wire, Tag: w})
	}
	if r, ok := b.ThirdConductor(); ok {
		// A resistance wire is good to 10 % (common practice for line cords).
		r = r.Widen(0.1)
		b.wires = append(b.wires, circuit.Element{Name: "cord resistance", A: sheet.PlugHot, B: sheet.PlugGround,
			Conducts: circuit.Conducting, R: circuit.Interval{Low: r.Low, High: r.High}})
	}
	if !b.TooLarge() {
		b.wired = b.readWiring()
	}
	b.facts = b.readFacts()
	b.subjects = b.readSubjects()
	return b
}

// Keep is what make gives, made once for each key: what several figures of a
// room share. It is not for several goroutines at once, as nothing of a bench.
func (b *Bench) Keep(key any, make func() any) any {
	if v, ok := b.kept[key]; ok {
		return v
	}
	v := make()
	b.kept[key] = v
	return v
}

// Setting is what a rulebook may ask of the set.
func (b *Bench) Setting() figure.Setting {
	set := figure.Setting{Facts: b.facts, Subjects: b.subjects}
	if !b.Sheet.HasWiring() {
		set.AtBest = "the sheet has no wiring"
		set.NotAsked = []string{"entry", "ratings", "high-tension", "faults"}
	}
	if b.TooLarge() {
		need := b.TooMuch()
		set.AtBest = need.What + ": " + need.How
	}
	return set
}

// Fact is one fact by name.
func (b *Bench) Fact(name string) figure.Fact { return b.facts[name] }

// Metalwork are the kinds of subject that are metal of the set itself.
var Metalwork = append([]string{"chassis"}, part.Named(part.Metal)...)

// Subjects lists the subjects of the given kinds, kind by kind.
func (b *Bench) Subjects(kinds ...string) []figure.Subject {
	var out []figure.Subject
	for _, kind := range kinds {
		for _, s := range b.subjects {
			if s.Kind == kind {
				out = append(out, s)
			}
		}
	}
	return out
}

// Subject finds a subject by name and kind.
func (b *Bench) Subject(kind, name string) (figure.Subject, bool) {
	for _, s := range b.subjects {
		if s.Kind == kind && s.Name == name {
			return s, true
		}
	}
	return figure.Subject{}, false
}

// Of is the subject of a part.
func (b *Bench) Of(p *part.Part) figure.Subject {
	s, _ := b.Subject(p.Kind.Name, p.Name)
	return s
}

// Set is the set itself as a subject.
func (b *Bench) Set() figure.Subject { s, _ := b.Subject("set", "set"); return s }

// Parts lists the parts that have one of the traits, in the order of the sheet.
func (b *Bench) Parts(t part.Trait) []*part.Part {
	var out []*part.Part
	for _, p := range b.Sheet.Parts {
		if p.Is(t) {
			out = append(out, p)
		}
	}
	return out
}

// PartsOf lists the parts that a figure is of, in the order of the sheet.
func (b *Bench) PartsOf(d *figure.Def) []*part.Part {
	return slices.DeleteFunc(slices.Clone(b.Sheet.Parts), func(p *part.Part) bool { return !slices.Contains(d.Of, p.Kind.Name) })
}

// PartOf is the part that a terminal belongs to, nil for plug and chassis.
func (b *Bench) PartOf(terminal string) *part.Part {
	name, _, _ := strings.Cut(terminal, ".")
	return b.Sheet.Part(name)
}

// PartOfElement is the part behind a circuit element, nil for a wire.
func PartOfElement(e *circuit.Element) *part.Part {
	p, _ := e.Tag.(*part.Part)
	return p
}

// WireOfElement is the wire behind a circuit element, nil for a part.
func WireOfElement(e *circuit.Element) *sheet.Wire {
	w, _ := e.Tag.(*sheet.Wire)
	return w
}

// Trace is a witness path in the sheet's own names, terminal by terminal.
func Trace(steps []circuit.Step) []string {
	var out []string
	for _, s := range steps {
		out = append(out, s.Terminal)
	}
	return out
}
