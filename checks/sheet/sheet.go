// Package sheet is the bench sheet, format 1: one set, one rebuild, one
// decision, read into typed parts with the place of everything kept. It says
// what stands there and refuses what cannot be read; it draws no conclusion.
package sheet

import (
	"crypto/sha256"
	"fmt"
	"slices"

	"firstvolt/checks/handbook"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
	"firstvolt/checks/strict"
)

// Sheet is one bench sheet as read.
type Sheet struct {
	File   string
	Digest string // sha256:… of the bytes
	Root   *strict.Node

	Name         string
	Construction string
	Rebuilt      string // date or ""
	Region       *handbook.RegionData
	Plug         handbook.Plug
	Instruments  map[string]*Instrument
	Parts        []*part.Part // in the order of the sheet
	byName       map[string]*part.Part
	Upstream     []*Link
	// UpstreamKnown tells an absent list of the bench chain from an empty one.
	UpstreamKnown bool
	Wires         []*Wire
	Readings      []*Reading
	Taken         string // date of the readings, or ""
	Ambient       quantity.Range
	Inspection    map[string]Answer
	FirstPower    string // stage asked for, or ""
}

// Wire is one wire: from terminal to terminal, as one hop of a run.
type Wire struct {
	Name    string // "wire 3", in the order of the sheet
	A, B    string // full terminal names
	Color   string
	Size    string         // as written
	Area    quantity.Range // of Size
	Joint   string         // at B
	Slack   string
	Changed string // date or ""
	At      strict.Pos
	Run     string // the run as written
}

// Link is one unit of the bench chain between receptacle and set.
type Link struct {
	Number int // from 1, supply end first
	Kind   string
	At     strict.Pos
	Node   *strict.Node
}

// Word is the word under key, or "".
func (l *Link) Word(key string) string { return l.Node.Word(key) }

// Value is the quantity under key.
func (l *Link) Value(key string) (quantity.Range, bool) { return part.ValueOf(l.Node.Get(key)) }

// Answer is one inspection answer.
type Answer struct {
	Word string // good, bad, not-seen
	At   strict.Pos
}

// Instrument is one meter.
type Instrument struct {
	Name     string
	At       strict.Pos
	Measures []string // empty if not said; resistance insulation capacitance voltage current
	// Accuracy is that of all that it measures; Own that of each thing by
	// itself, where the sheet gives each its own.
	Accuracy   *Accuracy
	Own        map[string]*Accuracy
	Leads      quantity.Range // Ω; valid if LeadsKnown
	LeadsKnown bool           // nulled or a resistance
	Nulled     bool
	Ceiling    quantity.Range // zero Range if absent
	HasCeiling bool
	Calibrated string // date or ""
}

// AccuracyOf is the accuracy of what a meter measures, nil where it is not said.
func (in *Instrument) AccuracyOf(measure string) *Accuracy {
	if in.Own != nil {
		return in.Own[measure]
	}
	return in.Accuracy
}

// Accuracy is a share of the reading plus an amount: a % + b, or a % + n
// digits of Digit each.
type Accuracy struct {
	Fraction float64
	Amount   float64 // in the unit of Of
	// Of is what Amount is counted in; Number where there is no amount. A meter
	// that measures several things has an amount for one of them only.
	Of quantity.Dim
	// DigitsKnown is false where the accuracy counts digits and the sheet does
	// not say what one digit is.
	DigitsKnown bool
}

// Part finds a part by name.
func (s *Sheet) Part(name string) *part.Part { return s.byName[name] }

// WireOf is the wire with that name, or nil.
func (s *Sheet) WireOf(name string) *Wire {
	for _, w := range s.Wires {
		if w.Name == name {
			return w
		}
	}
	return nil
}

// OnWire tells whether a wire ends at the terminal.
func (s *Sheet) OnWire(terminal string) bool {
	return slices.ContainsFunc(s.Wires, func(w *Wire) bool { return w.A == terminal || w.B == terminal })
}

// HasWiring tells whether any wire is on the sheet.
func (s *Sheet) HasWiring() bool { return len(s.Wires) > 0 }

// SeriesString tells whether the heaters are fed in series from the mains:
// line-connected and floating-chassis sets without a transformer on the sheet.
// Such a set has no stage before the rail.
func (s *Sheet) SeriesString() bool {
	return s.Construction != "transformer" && !slices.ContainsFunc(s.Parts, func(p *part.Part) bool { return p.Kind.Name == "transformer" })
}

// Cord is the node of the cord, nil if the sheet has none.
func (s *Sheet) Cord() *strict.Node { return s.Root.Get("cord") }

// CordValue is a quantity of the cord.
func (s *Sheet) CordValue(key string) (quantity.Range, bool) {
	return part.ValueOf(s.Cord().Get(key))
}

// Links are the units upstream of a kind, supply end first.
func (s *Sheet) Links(kind string) []*Link {
	var out []*Link
	for _, l := range s.Upstream {
		if l.Kind == kind {
			out = append(out, l)
		}
	}
	return out
}

// LastTaken is the day of the latest reading, "" where no day is said.
func (s *Sheet) LastTaken() string {
	latest := s.Taken
	for _, r := range s.Readings {
		latest = max(latest, r.Taken)
	}
	return latest
}

// Supply is the node of the supply.
func (s *Sheet) Supply() *strict.Node { return s.Root.Get("supply") }

// SetNode is the node of the set.
func (s *Sheet) SetNode() *strict.Node { return s.Root.Get("set") }

// Nameplate is a quantity of the nameplate: voltage, frequency, power, current.
func (s *Sheet) Nameplate(key string) (quantity.Range, bool) {
	return part.ValueOf(s.SetNode().Get("nameplate").Get(key))
}

// Read reads one sheet. With any problem the sheet is nil and nothing of it
// may be judged.
func Read(file string, data []byte) (*Sheet, []strict.Problem) {
	return ReadWith(handbook.Default(), file, data)
}

// ReadWith is Read with the regions of book.
func ReadWith(book *handbook.Book, file string, data []byte) (*Sheet, []strict.Problem) {
	root, problems := strict.Parse(data)
	s, problems := readTree(book, file, root, problems)
	if s != nil {
		s.Digest = fmt.Sprintf("sha256:%x", sha256.Sum256(data))
	}
	return s, problems
}

// OfTree reads a sheet from a tree that was altered in memory, as Read would
// from its text. The tree becomes the sheet's own; the sheet has no digest.
func OfTree(file string, root *strict.Node) (*Sheet, []strict.Problem) {
	return readTree(handbook.Default(), file, root, nil)
}

// readTree makes the sheet of a tree, with the problems found on the way to it.
func readTree(book *handbook.Book, file string, root *strict.Node, problems []strict.Problem) (*Sheet, []strict.Problem) {
	if root != nil {
		problems = append(problems, strict.Check(root, Shape())...)
	}
	s := &Sheet{File: file, Root: root,
		Instruments: map[string]*Instrument{}, byName: map[string]*part.Part{}, Inspection: map[string]Answer{}}
	if root != nil && root.Kind == strict.Map {
		r := reader{s: s, book: book}
		r.read()
		problems = append(problems, r.problems...)
	}
	problems = strict.Sorted(problems)
	for i := range problems {
		problems[i].File = file
	}
	if len(problems) > 0 {
		return nil, strict.Sorted(problems)
	}
	return s, nil
}
