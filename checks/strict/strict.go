// Package strict reads YAML as a bench sheet needs it: every value is the text
// that stands there, every fault is reported with its place, all in one pass,
// and nothing that YAML would invent (booleans, nulls, anchors, tags, further
// documents) gets through. It is the only package that knows YAML.
//
// Parse gives the bare tree; Check holds the tree against a Shape, which is
// also where a JSON Schema and a template come from.
package strict

import (
	"cmp"
	"fmt"
	"slices"
)

// Limits of what is read at all.
const (
	MaxBytes = 1 << 20
	MaxDepth = 50
)

// Pos is a place in a text, in characters from 1. The zero Pos is no place.
type Pos struct {
	Line   int `json:"line"`
	Column int `json:"column"`
}

// Problem is one fault of a file: what is wrong and what would be right.
type Problem struct {
	File string
	Pos
	Wrong, Right string
}

// String gives FILE:LINE:COLUMN: what is wrong; what would be right.
func (p Problem) String() string {
	if p.Line == 0 {
		return fmt.Sprintf("%s: %s", p.File, p.Says())
	}
	return fmt.Sprintf("%s:%d:%d: %s", p.File, p.Line, p.Column, p.Says())
}

// Says is the sentence without its place, fit to be shown: what a file holds
// in control or direction marks is spelled out.
func (p Problem) Says() string {
	const most = 400 // characters of each half: a value may be a whole file
	if p.Right == "" {
		return Visible(short(p.Wrong, most))
	}
	return Visible(short(p.Wrong, most) + "; " + short(p.Right, most))
}

func short(s string, most int) string {
	if len(s) <= most {
		return s
	}
	r := []rune(s[:most])
	return string(r[:len(r)-1]) + "…" // the last may be half a character
}

// Sorted gives the problems by place, without exact repeats.
func Sorted(ps []Problem) []Problem {
	slices.SortStableFunc(ps, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.File, b.File), cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
	return slices.Compact(ps)
}

// Kind tells the three sorts of node apart.
type Kind uint8

// The node kinds.
const (
	Text Kind = iota
	Map
	List
)

func (k Kind) String() string { return [...]string{"a value", "keys with values", "a list"}[k] }

// Node is a piece of the file. A nil Node answers every method as if empty.
type Node struct {
	Kind    Kind
	Pos     Pos
	Text    string // of a scalar, as it stands
	Plain   bool   // scalar without quotes on one line: its words stand at Pos + offset
	Block   bool   // block scalar
	Entries []Entry
	Items   []*Node
	Data    any // what the Shape's Parse made of the text
	// Refused: a fault of the value itself has been reported; nothing more is
	// to be said of it.
	Refused bool
}

// Entry is one key of a map with its value. After Check the key is in its
// official spelling.
type Entry struct {
	Key    string
	KeyPos Pos
	Value  *Node
}

// Get is the value under key, or nil.
func (n *Node) Get(key string) *Node {
	if n == nil {
		return nil
	}
	for i := range n.Entries {
		if n.Entries[i].Key == key {
			return n.Entries[i].Value
		}
	}
	return nil
}

// Word is the text under key, or "".
func (n *Node) Word(key string) string { return n.Get(key).Str() }

// Str is the text of a scalar, or "" where it was refused.
func (n *Node) Str() string {
	if n == nil || n.Refused {
		return ""
	}
	return n.Text
}

// At is the node's place, or the zero Pos.
func (n *Node) At() Pos {
	if n == nil {
		return Pos{}
	}
	return n.Pos
}

// Offset is the place of the character at rune offset i of the node's text:
// inside a plain scalar the very character, else the node itself.
func (n *Node) Offset(i int) Pos {
	if n == nil || !n.Plain {
		return n.At()
	}
	return Pos{n.Pos.Line, n.Pos.Column + i}
}

// DataWord is the word that the shape's Parse made of the node.
func (n *Node) DataWord() (string, bool) {
	if n == nil {
		return "", false
	}
	w, ok := n.Data.(string)
	return w, ok
}
