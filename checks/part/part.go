// Package part says, one file a kind, what a part is: the keys that describe
// it on a sheet, its terminals, the elements it puts into the circuit, and how
// it can fail. It does not know how parts are wired or what a set needs.
package part

import (
	"fmt"
	"math"
	"slices"

	"firstvolt/checks/circuit"
	"firstvolt/checks/pattern"
	"firstvolt/checks/quantity"
	"firstvolt/checks/strict"
)

// Kind is everything the house knows of one kind of part.
type Kind struct {
	Name string
	Doc  string // one plain sentence
	// Traits is what it is and does, as others ask for it; Ground the terminal
	// that ground must reach, or "".
	Traits Trait
	Ground string
	Keys   []strict.Key // besides kind and note
	// Terminals lists the terminal names of a part as described. A nil result
	// means the part is one bare node that carries the part's own name.
	Terminals func(p *Part) []string
	// Through gives the terminals at which a run enters and leaves the part
	// when it stands bare in the middle; ok is false if it has no way through.
	Through func(p *Part) (in, out string, ok bool)
	// Elements are what the part joins inside, in the given state of it.
	Elements func(p *Part, s State) []circuit.Element
	// Check reports faults that no single key shows.
	Check func(p *Part) []strict.Problem
	// Swappable tells whether exchanging its ends changes nothing.
	Swappable bool
	// Failures are the ways in which the part fails, for the fault table.
	Failures func(p *Part) []Failure
}

// State is the state of one part for one circuit. The zero State is: fuses
// in, switches open, connectors mated, selectors in no position.
type State struct {
	Closed   bool   // of a switch
	Out      bool   // of a fuse: taken out
	Position string // of a selector
	Unmated  bool   // of a connector
	Turned   bool   // of a connector: mated the other way round, pin k on pin n + 1 − k
}

// Part is one part as it stands on the sheet, checked against its Kind.
type Part struct {
	Name     string
	Kind     *Kind
	At       strict.Pos
	Node     *strict.Node
	Windings []*Winding // transformer, output-transformer, autotransformer
	// Partial tells that some winding could not be read, which is reported: that a
	// terminal is not found says nothing then.
	Partial bool
	// terminals are the names of its terminals; found gives the name for its
	// spelling, and for that with the synonyms made one.
	terminals []string
	found     map[string]string
}

// Winding is one winding of a transformer: its terminals in order from the
// first end to the second, with the no-load or loaded volts that stand there.
type Winding struct {
	Name  string
	Role  string // primary plate rectifier heater bias, or other
	At    strict.Pos
	Ends  [2]string
	Tap   string   // the middle, or ""
	Order []string // all terminals from end to end
	Node  *strict.Node
	// Share is, for each terminal of Order, the share of the winding's volts
	// that lies between the first end and it; nil where the sheet does not say.
	Share []float64
	// span is the volts from end to end of an autotransformer, by its taps.
	span float64
}

// Roles of windings, by the start of their names.
var Roles = []string{"primary", "plate", "rectifier", "heater", "bias"}

// Word is the word under key, or "".
func (p *Part) Word(key string) string { return p.Node.Word(key) }

// Value is the quantity under key.
func (p *Part) Value(key string) (quantity.Range, bool) { return ValueOf(p.Node.Get(key)) }

// ValueOf is the quantity that a checked node holds.
func ValueOf(n *strict.Node) (quantity.Range, bool) {
	if n == nil {
		return quantity.Range{}, false
	}
	r, ok := n.Data.(quantity.Range)
	return r, ok
}

// Terminals lists the part's terminals in their order; empty for a bare node.
func (p *Part) Terminals() []string {
	if p.found == nil {
		return p.Kind.Terminals(p)
	}
	return p.terminals
}

// Terminal finds a terminal by name, synonyms counted.
func (p *Part) Terminal(name string) (string, bool) {
	if p.found == nil {
		return strict.Known(name, p.Terminals())
	}
	t, ok := p.found[name]
	if !ok {
		t, ok = p.found[strict.Canon(name)]
	}
	return t, ok
}

// settle keeps the terminals, once all that makes them is read.
func (p *Part) settle() {
	p.terminals = slices.Clip(p.Kind.Terminals(p))
	p.found = make(map[string]string, 2*len(p.terminals))
	for _, t := range slices.Backward(p.terminals) {
		p.found[strict.Canon(t)] = t
	}
	for _, t := range p.terminals {
		p.found[t] = t
	}
}

// Bare tells whether the part is a single node without terminals.
func (p *Part) Bare() bool { return p.Terminals() == nil }

// Full is the terminal's name on the sheet: PART.TERMINAL.
func (p *Part) Full(terminal string) string { return p.Name + "." + terminal }

// Winding finds a winding by name.
func (p *Part) Winding(name string) *Winding {
	for _, w := range p.Windings {
		if w.Name == name {
			return w
		}
	}
	return nil
}

// Elements are the circuit elements of the part in state s.
func (p *Part) Elements(s State) []circuit.Element {
	if p.Kind.Elements == nil {
		return nil
	}
	es := p.Kind.Elements(p, s)
	for i := range es {
		es[i].Owner = p.Name
		if es[i].Tag == nil {
			es[i].Tag = p
		}
	}
	return es
}

// Kinds lists all kinds in the order of the format's page.
func Kinds() []*Kind { return kinds }

// Names lists the names of all kinds.
func Names() []string {
	var out []string
	for _, k := range kinds {
		out = append(out, k.Name)
	}
	return out
}

// KindOf finds a kind by its official name.
func KindOf(name string) *Kind {
	i := slices.IndexFunc(kinds, func(k *Kind) bool { return k.Name == name })
	if i < 0 {
		return nil
	}
	return kinds[i]
}

var kinds []*Kind

func init() {
	kinds = []*Kind{
		fuse, switchKind, selector, capacitor, electrolytic, resistor, potentiometer,
		thermistor, varistor, arrester, neon, lamp, choke, fieldCoil,
		transformer, outputTransformer, autotransformer, rectifier, tube,
		speaker, barretter, motor, outlet, connector, filter, body, tie,
	}
}

// NamePattern is the form of a name.
const NamePattern = "^[A-Za-z0-9]+(?:[_/-]+[A-Za-z0-9]+)*$"

var nameForm = pattern.Of(NamePattern)

// CheckName holds a name against the format: letters, digits, and _ - /
// between them, at most 40.
func CheckName(name string) error {
	if len(name) > 40 {
		return &strict.Fault{Wrong: fmt.Sprintf("the name %.20s… is longer than 40 characters", name), Right: "a short name, like F1"}
	}
	if !nameForm().MatchString(name) {
		return &strict.Fault{Wrong: fmt.Sprintf("%q is not a name", name), Right: "letters and digits, with _ - / between them, like F1"}
	}
	return nil
}

// --- helpers that the kinds share ---

func terminals(names ...string) func(*Part) []string {
	return func(*Part) []string { return names }
}

func through(in, out string) func(*Part) (string, string, bool) {
	return func(*Part) (string, string, bool) { return in, out, true }
}

// two is one element between terminals 1 and 2.
func two(p *Part, a, b string, c circuit.Conduct, r circuit.Interval) circuit.Element {
	return circuit.Element{Name: p.Name, A: p.Full(a), B: p.Full(b), Conducts: c, R: r}
}

func anyOhms() circuit.Interval { return circuit.Interval{Low: 0, High: math.Inf(1)} }

func ohms(r quantity.Range, known bool) circuit.Interval {
	if !known {
		return anyOhms()
	}
	return circuit.Interval{Low: r.Low, High: r.High}
}

// toleranced widens a marked value by the part's tolerance, or by what such a
// part has where the sheet does not say.
func toleranced(p *Part, key string, usual float64) (quantity.Range, bool) {
	r, ok := p.Value(key)
	if !ok {
		return r, false
	}
	return r.Widen(p.share("tolerance", usual)), true
}

// share is a share that is marked, 1 at most, or the usual one.
func (p *Part) share(key string, usual float64) float64 {
	if t, ok := p.Value(key); ok {
		usual = t.High
	}
	return math.Min(usual, 1)
}
