package mains

import (
	"fmt"
	"slices"
	"strings"
)

// Touch is what a person holds: metal and, where Other is not empty, other metal
// than the earth. Zero is nobody.
type Touch struct{ Held, Other string }

// String is what is held: "chassis", "chassis to Tuner".
func (t Touch) String() string {
	if t.Other == "" {
		return t.Held
	}
	return t.Held + " to " + t.Other
}

// Position is how all that may stand in more than one way stands.
type Position struct {
	Stands  []Stand // switches, selectors, connectors that are turned, units that do not say it
	Places  []Place // the receptacle first, then the joints behind it that are turned
	Limiter bool    // the series lamps of the bench are in the circuit
}

// Same tells whether two positions are one.
func (p Position) Same(q Position) bool {
	return p.Limiter == q.Limiter && slices.Equal(p.Stands, q.Stands) && slices.Equal(p.Places, q.Places)
}

// Switches says how switches and selectors stand, which connectors are turned
// and what units are taken to do; empty where there are none.
func (p Position) Switches() string { return listed(p.Stands) }

// Orientation says which way round the receptacle is, and which joints behind it
// are turned.
func (p Position) Orientation() string { return listed(p.Places) }

func listed[T fmt.Stringer](all []T) string {
	words := make([]string, len(all))
	for i, x := range all {
		words[i] = x.String()
	}
	return strings.Join(words, ", ")
}

// Stand is how one thing stands: a switch open, a selector at a position.
type Stand struct {
	Form string // with %s for the name, and another for the word
	Name string // of the part, or the number of the unit
	Word string
}

// The forms of a Stand.
const (
	switchStands   = "%s %s"
	selectorStands = "%s at %s"
	turnedRound    = "%s turned %s"
	groundStands   = "ground%s %s upstream"
	secondary      = "upstream %s %s"
	lampPole       = "lamp of upstream %s in %s"
	earthingStands = "on%s %s"
)

// String is how the thing stands: "S1 closed".
func (s Stand) String() string { return fmt.Sprintf(s.Form, s.Name, s.Word) }

// Place is one place at which the line conductors may change over, and whether
// they do.
type Place struct {
	At     int // the number of a unit upstream, or one of the places of the set
	Turned bool
}

// String is which way round the place is: "as wired", "turned at the plug".
func (p Place) String() string {
	switch p.At {
	case atReceptacle:
		if p.Turned {
			return "exchanged"
		}
		return "as wired"
	case atPlug:
		return "turned at the plug"
	case atInlet:
		return "turned at the inlet"
	}
	return fmt.Sprintf("turned at upstream %d", p.At)
}
