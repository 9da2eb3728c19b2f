// Package figure is the word that checks and rules share: what is so about
// one subject, with bounds, witness and source, and never what must be so.
package figure

import (
	"fmt"

	"firstvolt/checks/quantity"
	"firstvolt/checks/strict"
)

// Status says how well a fact is known.
type Status string

// The statuses of machine output.
const (
	Published      Status = "published"
	FromMemory     Status = "from-memory"
	CommonPractice Status = "common-practice"
	Computed       Status = "computed"
	Shop           Status = "shop"
)

// Basis is where a fact or a limit comes from.
type Basis struct {
	Status Status
	Source string
}

// Need is a reading, an inspection or a key that would settle a question.
type Need struct {
	What string // the thing missing, in the sheet's own names: "resistance between plug.ground and chassis"
	How  string // what would supply it: an instrument, a key, a look; may be empty
}

// Subject is what a figure is about, and what rules may ask of it.
type Subject struct {
	Name string // as in machine output: set, chassis, supply, plug, cord, PART, PART.TERMINAL, PART.WINDING, "upstream N", an instrument, an inspection key, a reading as "A – B"
	Kind string // what rules name under of: (set, chassis, supply, plug, cord, a part kind, winding, link, instrument, inspection, reading, body)
	Role string // the part it plays as wired (capacitor: line, chassis, accessible, other; winding: primary, plate, rectifier, heater, bias)
	// Reach is touchable or enclosed where a person may or may not touch it; else empty.
	Reach string
	At    strict.Pos // where it stands on the sheet; zero if nowhere
}

// Def describes a figure once, beside the function that computes it.
type Def struct {
	Name    string       // kebab-case, unique
	Room    string       // the group its rules belong to: entry ratings readings inspection high-tension faults firstpower
	Of      []string     // subject kinds it is computed for
	Says    string       // one plain sentence: what it is
	Unit    quantity.Dim // for a number
	Present bool         // true: the figure says present or absent, not a number
	Reading bool         // true: it stands on readings that may not have been taken, see NotTaken; only such a one may be asked if read
}

// Figure is one computed fact. Exactly one of three holds: Present is set (a
// Def with Present), Missing is not empty (not known), or Range is the value.
type Figure struct {
	Def     *Def
	Of      Subject
	Range   quantity.Range
	Present *bool
	Missing []Need   // why it is not known and what would supply it
	Untaken bool     // it is missing, and nobody took any reading of it: see NotTaken
	Settle  []Need   // of a known value that may lie astride a limit: what else than closer values would settle it
	Finer   *Need    // of a known value that may lie astride a limit: the finer reading that would settle it, where one is known
	Note    string   // one sentence for the finding where the bare number does not say enough
	Witness []string // the path as a finger would trace it, in the sheet's names
	Trace   []string // the arithmetic, line by line, so that a pencil can redo it
	From    []Basis  // facts used on the way
	At      strict.Pos
}

// Amount makes a figure that is a range; So one that says whether something is so.
// Their definition and subject are filled in by what goes through the subjects.
func Amount(r quantity.Range) Figure { return Figure{Range: r} }

// So makes a figure that says whether something is so.
func So(present bool) Figure { return Figure{Present: &present} }

// Lacking makes a figure that is not known, with what would supply it; without
// needs, what the figure is.
func Lacking(needs ...Need) Figure {
	if len(needs) == 0 {
		needs = []Need{{}}
	}
	return Figure{Missing: needs}
}

// Unread makes a figure that is not known because no reading of it is on the
// sheet, see NotTaken.
func Unread(needs ...Need) Figure {
	f := Lacking(needs...)
	f.Untaken = true
	return f
}

// Over makes the figure x ÷ y with its arithmetic, or one that lacks the needs.
func Over(x, y quantity.Range, needs ...Need) Figure {
	if len(needs) > 0 {
		return Lacking(needs...)
	}
	q := x.Div(y, quantity.Number)
	return Figure{Range: q, Trace: []string{fmt.Sprintf("%s ÷ %s = %s", x, y, q)}}
}

// Named is the figure with its definition and its subject.
func (f Figure) Named(d *Def, of Subject) Figure {
	f.Def, f.Of, f.Untaken = d, of, f.Untaken && d.Reading
	if len(f.Missing) == 1 && f.Missing[0] == (Need{}) {
		f.Missing = []Need{{What: d.Says}}
	}
	return f
}

// Number makes a figure that is a range.
func Number(d *Def, of Subject, r quantity.Range) Figure { return Figure{Def: d, Of: of, Range: r} }

// Is makes a figure that says whether something is so.
func Is(d *Def, of Subject, present bool) Figure { return Figure{Def: d, Of: of, Present: &present} }

// NotKnown makes a figure that is missing, with what would supply it.
func NotKnown(d *Def, of Subject, needs ...Need) Figure {
	if len(needs) == 0 {
		needs = []Need{{What: d.Says}}
	}
	return Figure{Def: d, Of: of, Missing: needs}
}

// NotTaken makes a figure of a Def with Reading that is missing because no
// reading of it is on the sheet. One that was taken and proves nothing, or that
// may be of something else, is NotKnown.
func NotTaken(d *Def, of Subject, needs ...Need) Figure {
	f := NotKnown(d, of, needs...)
	f.Untaken = d.Reading
	return f
}

// Known tells whether the figure carries a value.
func (f Figure) Known() bool { return len(f.Missing) == 0 }

// Fact is one thing that rules may ask for: a word or a range. The zero Fact
// is not known, and a rule that asks for it applies with its stricter limit.
type Fact struct {
	Word  string
	Range *quantity.Range
}

// Known tells whether the fact says anything.
func (f Fact) Known() bool { return f.Word != "" || f.Range != nil }

// Setting is everything a rulebook may ask of a set besides its figures.
type Setting struct {
	Facts    map[string]Fact // keys: the closed list Facts
	Subjects []Subject       // every subject of the set, so that a rule is asked of each, figure or not
	// AtBest, if not empty, says why the verdict is at best unproven whatever
	// the findings: "the sheet has no wiring".
	AtBest string
	// NotAsked names groups of rules that this set leaves nothing to ask of:
	// without wiring there is no routing and no rating to judge.
	NotAsked []string
}

// FactNames is the closed list of facts that a rule may name, with whether
// each is a range. kind, role and reach are the subject's own.
var FactNames = map[string]bool{
	"stage": false, "construction": false, "bonded": false, "plug-fits": false, "plug-ground": false,
	"plug-fuse": true, "system": false, "earthing": false, "earthing-said": false, "mains": true, "frequency": true,
	"fuse-standard": false, "branch-device": true, "chassis-reach": false, "soldered-supply": false,
	"kind": false, "role": false, "reach": false,
}
