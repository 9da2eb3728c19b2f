package strict

import (
	"errors"
	"fmt"
	"slices"
	"strings"
)

// Shape says what may stand in a place, by node kind: text, a map, a list.
// A nil field means that this kind of node may not stand there.
type Shape struct {
	Doc  string // one plain sentence for schema and templates
	Text *TextShape
	Map  *MapShape
	List *ListShape
}

// TextShape is a scalar. Words, if set, is the closed list of official
// spellings; Parse, if set, makes Node.Data of the text (its error may carry
// Wrong and Right by implementing Faulty). Note marks free text.
type TextShape struct {
	Words   []string
	Parse   func(text string) (any, error)
	Note    bool
	Example string
	Type    string // a name for the JSON Schema $defs (quantity name, "name", "date", …)
	Pattern string // the form that Parse takes, for the JSON Schema; "": any text
}

// MapShape is a map: fixed Keys, or free names (Names) each of shape Any, or
// both. Case, if set, names the key whose word chooses further keys.
type MapShape struct {
	Keys     []Key
	Any      *Shape
	CheckKey func(key string) error
	// KeyPattern is the form that CheckKey takes, for the JSON Schema.
	KeyPattern string
	Case       string
	Cases      map[string]*MapShape
	Order      []string // the words of Case in their order
}

// Key is one key of a MapShape.
type Key struct {
	Name     string
	Shape    *Shape
	Required bool
	Doc      string
}

// ListShape is a list of Item; Min and Max bound its length where not zero.
type ListShape struct {
	Item     *Shape
	Min, Max int
}

// Faulty is an error that knows what would be right.
type Faulty interface {
	error
	Fault() (wrong, right string)
}

// Fault is a ready Faulty.
type Fault struct{ Wrong, Right string }

func (f *Fault) Error() string                { return f.Wrong + "; " + f.Right }
func (f *Fault) Fault() (wrong, right string) { return f.Wrong, f.Right }

// Check holds the tree against the shape. It makes keys and words official,
// fills Data, and returns every fault with its place.
func Check(n *Node, s *Shape) []Problem {
	c := checker{root: s}
	c.node(n, s, "the sheet", Pos{1, 1})
	return c.problems
}

type checker struct {
	problems []Problem
	root     *Shape
}

func (c *checker) bad(p Pos, wrong, right string) {
	c.problems = append(c.problems, Problem{Pos: p, Wrong: wrong, Right: right})
}

func (c *checker) err(p Pos, what string, err error) {
	var f Faulty
	if errors.As(err, &f) {
		wrong, right := f.Fault()
		c.bad(p, what+wrong, right)
		return
	}
	c.bad(p, what+err.Error(), "")
}

// node checks n; owner is the place of the key (or list item) that holds it.
func (c *checker) node(n *Node, s *Shape, name string, owner Pos) {
	if n == nil || s == nil || n.Refused {
		return
	}
	switch {
	case n.Kind == Text && s.Text != nil:
		c.text(n, s.Text, name)
	case n.Kind == Map && s.Map != nil:
		c.mapping(n, s.Map, name, owner)
	case n.Kind == List && s.List != nil:
		c.list(n, s.List, name)
	default:
		if n.Kind == Text && s.Map != nil {
			if m := keyWithValue().FindStringSubmatch(n.Text); m != nil {
				c.bad(n.Pos, fmt.Sprintf("no space after the colon of %s", m[1]), fmt.Sprintf("write %s: %s", m[1], m[2]))
				return
			}
		}
		var want []string
		if s.Text != nil {
			want = append(want, Text.String())
		}
		if s.Map != nil {
			want = append(want, Map.String())
		}
		if s.List != nil {
			want = append(want, List.String())
		}
		if owner == (Pos{1, 1}) && len(s.Map.keys()) > 0 {
			c.bad(n.Pos, "this is not a list of keys with values", fmt.Sprintf("begin with %s:%s", s.Map.Keys[0].Name, hint(s.Map.Keys[0])))
			return
		}
		c.bad(n.Pos, fmt.Sprintf("%s cannot be %s", name, n.Kind), "write "+strings.Join(want, " or "))
	}
}

func (c *checker) text(n *Node, s *TextShape, name string) {
	if n.Block && !s.Note {
		c.bad(n.Pos, "a block of text may stand under note only", "write the value on one line")
		return
	}
	if s.Words != nil {
		w, ok := Known(n.Text, s.Words)
		if !ok {
			c.bad(n.Pos, fmt.Sprintf("%q is not a word for %s", n.Text, name), Suggest(n.Text, s.Words, "one of: "+strings.Join(s.Words, ", ")))
			n.Refused = true
			return
		}
		n.Text = w
	}
	if s.Parse != nil {
		data, err := s.Parse(n.Text)
		if err != nil {
			c.err(n.Pos, name+": ", err)
			n.Refused = true
			return
		}
		n.Data = data
	}
}

func (c *checker) list(n *Node, s *ListShape, name string) {
	if s.Min > 0 && len(n.Items) < s.Min || s.Max > 0 && len(n.Items) > s.Max {
		count := fmt.Sprintf("%d", s.Min)
		if s.Max != s.Min {
			count = fmt.Sprintf("%d or more", s.Min)
			if s.Max > 0 {
				count = fmt.Sprintf("%d to %d", s.Min, s.Max)
			}
		}
		c.bad(n.Pos, fmt.Sprintf("%s has %s", name, number(len(n.Items))), "write "+count)
	}
	for i := 0; i < len(n.Items); i++ {
		item, before := n.Items[i], len(c.problems)
		what := name
		if item != nil && item.Kind == Map {
			what = fmt.Sprintf("entry %d of %s", i+1, name)
		}
		c.node(item, s.Item, what, item.At())
		if len(c.problems) > before && i+1 < len(n.Items) && s.Item.Text != nil && s.Item.Text.Parse != nil {
			if p, ok := commaInList(item, n.Items[i+1]); ok {
				c.problems = append(c.problems[:before], p)
				i++
			}
		}
	}
}

func (c *checker) mapping(n *Node, s *MapShape, name string, owner Pos) {
	keys, caseKnown := c.keysOf(n, s, name, owner)
	names := make([]string, len(keys))
	for i, k := range keys {
		names[i] = k.Name
	}
	seen := map[string]Pos{}
	kept := n.Entries[:0]
	for _, e := range n.Entries {
		official, known := Known(e.Key, names)
		id := e.Key
		if known {
			id = official
		}
		if first, twice := seen[id]; twice {
			c.bad(e.KeyPos, fmt.Sprintf("%s stands here a second time (first in line %d)", e.Key, first.Line), "keep one of them")
			continue
		}
		seen[id] = e.KeyPos
		switch {
		case known:
			e.Key = official
			c.node(e.Value, keys[slices.Index(names, official)].Shape, official, e.KeyPos)
		case s.Any != nil:
			if s.CheckKey != nil {
				if err := s.CheckKey(e.Key); err != nil {
					c.err(e.KeyPos, "", err)
				}
			}
			c.node(e.Value, s.Any, e.Key, e.KeyPos)
		case strings.Contains(e.Key, "->"):
			c.bad(e.KeyPos, NoBraces, "write - {run: A -> B, color: black}")
			return // nothing else is what it seems
		case caseKnown:
			c.noKey(e, names, name)
			continue
		}
		kept = append(kept, e)
	}
	n.Entries = kept
	for _, k := range keys {
		if _, ok := seen[k.Name]; k.Required && !ok {
			c.bad(owner, fmt.Sprintf("%s has no %s", name, k.Name), form(k))
		}
	}
}

// keysOf are the keys that a map may have, those that its case brings
// included; known is false where its case cannot be told.
func (c *checker) keysOf(n *Node, s *MapShape, name string, owner Pos) (keys []Key, known bool) {
	if s.Case == "" {
		return s.Keys, true
	}
	word := n.Get(s.Case)
	if word == nil {
		for i := range n.Entries {
			if k, ok := Known(n.Entries[i].Key, []string{s.Case}); ok {
				n.Entries[i].Key = k
				word = n.Entries[i].Value
			}
		}
	}
	oneOf := "one of: " + strings.Join(s.Order, ", ")
	switch {
	case word != nil && word.Refused:
	case word == nil:
		c.bad(owner, fmt.Sprintf("%s has no %s", name, s.Case), "add "+s.Case+": "+oneOf)
	case word.Kind != Text:
		c.bad(word.Pos, fmt.Sprintf("%s cannot be %s", s.Case, word.Kind), oneOf)
	default:
		w, ok := Known(word.Text, s.Order)
		if !ok {
			c.bad(word.Pos, fmt.Sprintf("%q is not a %s known here", word.Text, s.Case), Suggest(word.Text, s.Order, oneOf))
			break
		}
		word.Text = w
		own := Key{Name: s.Case, Shape: &Shape{Text: &TextShape{Words: s.Order}}}
		return slices.Concat([]Key{own}, s.Keys, s.Cases[w].Keys), true
	}
	return s.Keys, false
}

// noKey reports a key that the map does not have, with where it would stand.
func (c *checker) noKey(e Entry, names []string, name string) {
	right := Suggest(e.Key, names, "one of: "+strings.Join(names, ", "))
	if home := c.home(e.Key); home != "" {
		right = fmt.Sprintf("it stands under %s:", home)
	}
	c.bad(e.KeyPos, fmt.Sprintf("%s is not a key of %s", e.Key, name), right)
}

// home is the one section of the sheet that has a value by that key, "" where none or
// several have it.
func (c *checker) home(key string) string {
	var homes []string
	for _, section := range c.root.Map.keys() {
		for _, k := range section.Shape.mapped().keys() {
			if _, ok := Known(key, []string{k.Name}); ok && k.Shape != nil && k.Shape.Text != nil {
				homes = append(homes, section.Name)
			}
		}
	}
	if len(homes) != 1 {
		return ""
	}
	return homes[0]
}

func (s *Shape) mapped() *MapShape {
	if s == nil {
		return nil
	}
	return s.Map
}

// NoBraces is what is wrong with a run that has keys behind it but no braces.
const NoBraces = "the braces round this run are missing"

func (s *MapShape) keys() []Key {
	if s == nil {
		return nil
	}
	return s.Keys
}

func number(n int) string {
	if n == 1 {
		return "1 entry"
	}
	return fmt.Sprintf("%d entries", n)
}

// form says what to write for a key that is missing: the form of its value,
// which is never to be taken for the value itself.
func form(k Key) string {
	text := k.Shape.Text
	switch {
	case text != nil && len(text.Words) > 1:
		return "write " + k.Name + ": one of: " + strings.Join(text.Words, ", ")
	case text != nil && text.Parse == nil || hint(k) == "":
		return "write " + k.Name + ":" + hint(k)
	}
	return "write what is there, in a form like " + k.Name + ":" + hint(k)
}

func hint(k Key) string {
	switch {
	case k.Shape == nil:
		return ""
	case k.Shape.Text == nil && k.Shape.List != nil && k.Shape.List.Min == 2:
		return " [A, B]"
	case k.Shape.Text == nil:
		return ""
	}
	if k.Shape.Text.Example != "" {
		return " " + k.Shape.Text.Example
	}
	if k.Shape.Text.Words != nil {
		return " " + strings.Join(k.Shape.Text.Words, " | ")
	}
	return ""
}
