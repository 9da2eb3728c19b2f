package part

import (
	"fmt"
	"math"

	"firstvolt/checks/quantity"
	"firstvolt/checks/strict"
)

// Quantity is the shape of a value of dimension d.
func Quantity(d quantity.Dim) *strict.Shape {
	return &strict.Shape{Text: &strict.TextShape{
		Parse:   func(text string) (any, error) { return quantity.Parse(text, d) },
		Example: d.Example(),
		Type:    d.Name(),
		Pattern: d.Pattern(),
	}}
}

// Above is the shape of a value of dimension d that cannot be zero: a rating, a
// size, the end of a meter.
func Above(d quantity.Dim) *strict.Shape {
	return bounded(d, "more than zero", func(r quantity.Range) bool { return r.Low > 0 })
}

// Span is the shape of a value of dimension d from least to most, in the unit
// of d: what lies outside cannot be.
func Span(d quantity.Dim, least, most float64) *strict.Shape {
	right := quantity.Format(least, d) + " to " + quantity.Format(most, d)
	return bounded(d, right, func(r quantity.Range) bool {
		return r.Low >= least && r.Low <= most && (r.High <= most || math.IsInf(r.High, 1))
	})
}

// bounded is the shape of a value that is well written only where it can be.
func bounded(d quantity.Dim, right string, can func(quantity.Range) bool) *strict.Shape {
	s := Quantity(d)
	plain := s.Text.Parse
	s.Text.Parse = func(text string) (any, error) {
		data, err := plain(text)
		if r, ok := data.(quantity.Range); err == nil && ok && !can(r) {
			return nil, &strict.Fault{Wrong: fmt.Sprintf("%q cannot be", text), Right: "write a value of " + right + ", or leave the key out where it is not known"}
		}
		return data, err
	}
	return s
}

// Word is the shape of one word of a closed list.
func Word(words ...string) *strict.Shape {
	return &strict.Shape{Text: &strict.TextShape{Words: words}}
}

// Name is the shape of a name.
func Name() *strict.Shape {
	return &strict.Shape{Text: &strict.TextShape{
		Parse: func(text string) (any, error) { return text, CheckName(text) }, Example: "T1", Type: "name", Pattern: NamePattern}}
}

// Free is the shape of free text on one line or, with note set, a block.
func Free(note bool) *strict.Shape {
	return &strict.Shape{Text: &strict.TextShape{Note: note, Example: "free text", Type: "text"}}
}

// ListOf is a list of one shape, with its least and greatest length (0: none).
func ListOf(item *strict.Shape, least, most int) *strict.Shape {
	return &strict.Shape{List: &strict.ListShape{Item: item, Min: least, Max: most}}
}

// MapOf is a map with free names as keys.
func MapOf(item *strict.Shape) *strict.Shape {
	return &strict.Shape{Map: &strict.MapShape{Any: item, CheckKey: CheckName, KeyPattern: NamePattern}}
}

func key(name string, s *strict.Shape, doc string) strict.Key {
	return strict.Key{Name: name, Shape: s, Doc: doc}
}

// Note is the key that every part, run, reading and the set may carry.
var Note = strict.Key{Name: "note", Shape: Free(true), Doc: "free text for people"}

// Shape is the shape of a part on the sheet: its kind chooses its keys.
func Shape() *strict.Shape {
	m := &strict.MapShape{Keys: []strict.Key{Note}, Case: "kind", Cases: map[string]*strict.MapShape{}, Order: Names()}
	for _, k := range kinds {
		m.Cases[k.Name] = &strict.MapShape{Keys: k.Keys}
	}
	return &strict.Shape{Map: m}
}

// Read makes a part of its checked node. The node's kind must be official.
func Read(name string, at strict.Pos, n *strict.Node) (*Part, []strict.Problem) {
	p := &Part{Name: name, Kind: KindOf(n.Word("kind")), At: at, Node: n}
	if p.Kind == nil {
		return nil, nil // reported by the shape
	}
	problems := p.readWindings()
	p.settle()
	if p.Kind.Check != nil {
		problems = append(problems, p.Kind.Check(p)...)
	}
	return p, problems
}
