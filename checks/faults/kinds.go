package faults

import (
	"strconv"
	"strings"

	"firstvolt/checks/mains"
	"firstvolt/checks/sheet"
)

// Kind is a kind of fault.
type Kind uint8

// The kinds of fault. Nothing and Unplugged are none of the set's: everything is
// sound; the plug is pulled, and its pins are held.
const (
	Nothing Kind = iota
	Unplugged
	GroundOpen
	Exchanged
	NeutralOpen
	DeviceDead
	WireParted
	WireTouches
	BrokenDown
	Leaking
	FrameBroken
	Shorted
	Open
	LineToCase
	ShortedAcross
	Bridged
	StuckOpen
	StuckClosed
	WindingShorted
	SectionShorted
	JoinedInside
	PinParted
	ContactOpen
	ContactClosed
)

// Fault is one thing that goes wrong, as a value: what, of what, and what it
// reaches. Zero is nothing.
type Fault struct {
	Kind  Kind
	Of    string // the part, the terminal on the mains side, or one end of the wire; empty of the supply
	Metal string // the metal or terminal that it reaches, or the other end of the wire
	// Winding, and of a section of it, or of what is inside a part, the terminals
	// that it lies between.
	Winding, From, To string
	Pole              int // of a switch, from 1
}

// kinds says of each kind its name beside what it is of, and the clause of a
// sentence. {of}, {metal}, {winding}, {from}, {to} and {pole} stand for what the
// fault has, {the metal} for metal with its article.
var kinds = [...]struct {
	name, clause string
	latent       bool // nobody notices it
	layer        bool // a wire or insulation that touches metal: what one layer kept apart
	line         bool // in the supply: it has no subject but that
}{
	Nothing:        {name: "nothing", clause: "nothing is at fault"},
	Unplugged:      {name: "unplugged", clause: "the plug was just pulled", line: true},
	GroundOpen:     {name: "ground open", clause: "the ground is open", latent: true, line: true},
	Exchanged:      {name: "hot and neutral exchanged", clause: "hot and neutral are exchanged at the receptacle", latent: true, line: true},
	NeutralOpen:    {name: "neutral open", clause: "the neutral is open", latent: true, line: true},
	DeviceDead:     {name: "residual device dead", clause: "the residual device is dead", latent: true, line: true},
	WireParted:     {name: "wire parted", clause: "the wire {of} – {metal} parts"},
	WireTouches:    {name: "wire touches {metal}", clause: "the wire at {of} touches {the metal}", layer: true},
	BrokenDown:     {name: "insulation to {metal} broken down", clause: "the insulation between {of} and {the metal} breaks down", layer: true},
	Leaking:        {name: "insulation to {metal} leaking", clause: "the insulation between {of} and {the metal} leaks just less than would open anything", layer: true},
	FrameBroken:    {name: "insulation to frame broken down", clause: "the insulation of {of} to its frame breaks down"},
	Shorted:        {name: "shorted", clause: "{of} shorts"},
	Open:           {name: "open", clause: "{of} opens"},
	LineToCase:     {name: "line shorted to case", clause: "the line of {of} is shorted to case"},
	ShortedAcross:  {name: "shorted across", clause: "{of} is shorted across"},
	Bridged:        {name: "bridged", clause: "{of} is bridged"},
	StuckOpen:      {name: "pole {pole} stuck open", clause: "pole {pole} of {of} is stuck open", latent: true},
	StuckClosed:    {name: "pole {pole} stuck closed", clause: "pole {pole} of {of} is stuck closed", latent: true},
	WindingShorted: {name: "{winding} shorted", clause: "the {winding} of {of} is shorted"},
	JoinedInside:   {name: "{from} shorted to {to}", clause: "in {of} {from} is shorted to {to}"},
	PinParted:      {name: "pin {from} parted", clause: "pin {from} of {of} parts"},
	ContactOpen:    {name: "contact {from}-{to} stuck open", clause: "the contact {from}-{to} of {of} stays open"},
	ContactClosed:  {name: "contact {from}-{to} stuck closed", clause: "the contact {from}-{to} of {of} stays closed"},
	SectionShorted: {name: "{winding} shorted from {from} to {to}", clause: "the {winding} of {of} is shorted from {from} to {to}"},
}

func (f Fault) fill(form string) string {
	return strings.NewReplacer("{of}", f.Of, "{metal}", f.Metal, "{the metal}", The(f.Metal), "{winding}", f.Winding,
		"{from}", f.From, "{to}", f.To, "{pole}", strconv.Itoa(f.Pole)).Replace(form)
}

// Name is what goes wrong, without what it is of: "wire touches chassis".
func (f Fault) Name() string { return f.fill(kinds[f.Kind].name) }

// Subject is what the fault is of: a part, a terminal, "A – B" of a wire, supply,
// or of nothing the set.
func (f Fault) Subject() string {
	switch {
	case f.Kind == Nothing:
		return "set"
	case kinds[f.Kind].line:
		return "supply"
	case f.Kind == WireParted:
		return f.Of + " – " + f.Metal
	}
	return f.Of
}

// String is the fault by its whole name: "F1.end wire touches chassis".
func (f Fault) String() string {
	switch {
	case f.Kind == Nothing:
		return "nothing at fault"
	case f.Kind == Unplugged:
		return "plug pulled"
	case kinds[f.Kind].line:
		return f.Name()
	}
	return f.Subject() + " " + f.Name()
}

// Clause is the fault as a clause: "the wire at F1.end touches the chassis".
func (f Fault) Clause() string { return f.fill(kinds[f.Kind].clause) }

// Happens is the fault as the first half of a sentence.
func (f Fault) Happens() string {
	switch f.Kind {
	case Nothing:
		return "With nothing at fault"
	case Unplugged:
		return "With the plug just pulled"
	}
	return "If " + f.Clause()
}

// None tells whether nothing is at fault.
func (f Fault) None() bool { return f.Kind == Nothing }

// About tells whether the fault is of the part, or of what hangs on a terminal
// of it; itself, whether of the part alone.
func (f Fault) About(part string) (about, itself bool) {
	if kinds[f.Kind].line || f.None() {
		return false, false
	}
	of := func(terminal string) bool { return terminal == part || strings.HasPrefix(terminal, part+".") }
	return of(f.Of) || of(f.Metal), f.Of == part
}

// The puts the article before the chassis and the earth, and leaves names alone.
func The(terminal string) string {
	if terminal == sheet.Chassis || terminal == mains.Earth {
		return "the " + strings.TrimPrefix(terminal, "the ")
	}
	return terminal
}
