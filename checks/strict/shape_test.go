package strict

import (
	"errors"
	"fmt"
	"strings"
	"testing"
)

var errPlain = errors.New("never right")

// A small shape with one of everything: words, parsed text, notes, lists with
// bounds, free names, a key that chooses further keys.
func sample() *Shape {
	word := func(words ...string) *Shape { return &Shape{Text: &TextShape{Words: words}} }
	number := &Shape{Text: &TextShape{Example: "7", Parse: func(s string) (any, error) {
		switch {
		case s == "plain":
			return nil, errPlain
		case strings.Trim(s, "0123456789") != "":
			return nil, &Fault{Wrong: fmt.Sprintf("%q is no count", s), Right: "write digits, like 7"}
		}
		return "n" + s, nil
	}}}
	return &Shape{Map: &MapShape{Keys: []Key{
		{Name: "count", Shape: number, Required: true},
		{Name: "color", Shape: word("black", "grey")},
		{Name: "note", Shape: &Shape{Text: &TextShape{Note: true}}},
		{Name: "pair", Shape: &Shape{List: &ListShape{Item: number, Min: 2, Max: 2}}},
		{Name: "some", Shape: &Shape{List: &ListShape{Item: number, Min: 2}}},
		{Name: "few", Shape: &Shape{List: &ListShape{Item: number, Min: 1, Max: 2}}},
		{Name: "either", Shape: &Shape{Text: &TextShape{}, List: &ListShape{Item: number}}},
		{Name: "names", Shape: &Shape{Map: &MapShape{Any: number, CheckKey: func(k string) error {
			if strings.Contains(k, "!") {
				return &Fault{Wrong: k + " is no name", Right: "leave off the mark"}
			}
			return nil
		}}}},
		{Name: "box", Shape: &Shape{Map: &MapShape{Keys: []Key{{Name: "b", Shape: number}}}}},
		{Name: "part", Shape: &Shape{Map: &MapShape{Case: "kind", Order: []string{"fuse", "tube"}, Keys: []Key{{Name: "label", Shape: &Shape{Text: &TextShape{}}}},
			Cases: map[string]*MapShape{"fuse": {Keys: []Key{{Name: "rating", Shape: number}}}, "tube": {Keys: []Key{{Name: "type", Shape: &Shape{Text: &TextShape{}}}}}}}}},
	}}}
}

func TestCheckFaults(t *testing.T) {
	for text, want := range map[string]string{
		"count: 7":                                "",
		"color: black":                            "1:1: the sheet has no count; write what is there, in a form like count: 7",
		"count: x":                                "1:8: count: \"x\" is no count; write digits, like 7",
		"count: plain":                            "1:8: count: never right",
		"count: {a: 1}":                           "1:8: count cannot be keys with values; write a value",
		"count: 7\npair: 1":                       "2:7: pair cannot be a value; write a list",
		"count: 7\npair: [1]":                     "2:7: pair has 1 entry; write 2",
		"count: 7\npair: [1, 2, 3]":               "2:7: pair has 3 entries; write 2",
		"count: 7\nsome: [1]":                     "2:7: some has 1 entry; write 2 or more",
		"count: 7\nfew: [1, 2, 3]":                "2:6: few has 3 entries; write 1 to 2",
		"count: 7\nsome: [1, x]":                  "2:11: some: \"x\" is no count; write digits, like 7",
		"count: 7\neither: {a: 1}":                "2:9: either cannot be keys with values; write a value or a list",
		"count: 7\ncolor: puce":                   "2:8: \"puce\" is not a word for color; one of: black, grey",
		"count: 7\ncolor: blakc":                  "2:8: \"blakc\" is not a word for color; did you mean black?",
		"count: 7\ncolour: gray":                  "",
		"count: 7\ncolor: grey\ncolour: gray":     "3:1: colour stands here a second time (first in line 2); keep one of them",
		"count: 7\ncolor: |\n  black":             "2:8: a block of text may stand under note only; write the value on one line",
		"count: 7\nnote: |\n  any words: at all":  "",
		"count: 7\nnames: {a: 1, b!: 2}":          "2:15: b! is no name; leave off the mark",
		"count: 7\npart: {label: x}":              "2:1: part has no kind; add kind: one of: fuse, tube",
		"count: 7\npart: {kind: [fuse]}":          "2:14: kind cannot be a list; one of: fuse, tube",
		"count: 7\npart: {kind: fuze}":            "2:14: \"fuze\" is not a kind known here; did you mean fuse?",
		"count: 7\npart: {kind: valve, type: 80}": "",
		"count: 7\npart: {kind: fuse, type: 80}":  "2:20: type is not a key of part; one of: kind, label, rating",
		"count: 7\ncuont: 8":                      "2:1: cuont is not a key of the sheet; did you mean count?",
		"count: 7\npart: {kind: fuse, few: [1]}":  "2:20: few is not a key of part; one of: kind, label, rating",
		"count: 7\npart: {kind: fuse, b: 1}":      "2:20: b is not a key of part; it stands under box:",
		"- count: 7":                              "1:1: this is not a list of keys with values; begin with count: 7",
		"count: 7\npart: kind:fuse":               "2:7: no space after the colon of kind; write kind: fuse",
	} {
		n, problems := Parse([]byte(text + "\n"))
		if n != nil {
			problems = append(problems, Check(n, sample())...)
		}
		var got []string
		for _, p := range Sorted(problems) {
			got = append(got, fmt.Sprintf("%d:%d: %s", p.Line, p.Column, p.Says()))
		}
		if strings.Join(got, "\n") != want {
			t.Errorf("%q:\n got %s\nwant %s", text, strings.Join(got, "\n     "), want)
		}
	}
}

// Check makes keys and words official and keeps what was parsed.
func TestCheckMakesOfficial(t *testing.T) {
	n, problems := Parse([]byte("count: 12\ncolour: gray\npart: {kind: valve, type: 6V6}\n"))
	if problems = append(problems, Check(n, sample())...); len(problems) > 0 {
		t.Fatal(problems)
	}
	if w, ok := n.Get("count").DataWord(); !ok || w != "n12" {
		t.Errorf("count parsed to %q", w)
	}
	if n.Word("color") != "grey" || n.Get("part").Word("kind") != "tube" {
		t.Errorf("color %q, kind %q", n.Word("color"), n.Get("part").Word("kind"))
	}
}

// A nil node answers everything as if empty.
func TestNilNode(t *testing.T) {
	var n *Node
	if _, ok := n.DataWord(); ok || n.Get("x") != nil || n.Word("x") != "" || n.Str() != "" || n.At() != (Pos{}) || n.Offset(3) != (Pos{}) {
		t.Error("a nil node says something")
	}
	m, _ := Parse([]byte("a: word\nb: \"word\"\n"))
	if got := m.Get("a").Offset(2); got != (Pos{1, 6}) {
		t.Errorf("third character of a plain value at %v", got)
	}
	if got := m.Get("b").Offset(2); got != m.Get("b").Pos {
		t.Errorf("of a quoted one at %v", got)
	}
	if (&Fault{Wrong: "a", Right: "b"}).Error() != "a; b" {
		t.Error("a fault says both halves")
	}
}

func TestSuggest(t *testing.T) {
	long := strings.Fields("alpha bravo charlie delta echo foxtrot golf hotel india juliet kilo lima mike november oscar")
	for _, c := range []struct {
		word     string
		official []string
		want     string
	}{
		{"x", []string{"only"}, "write only"},
		{"bravp", long, "did you mean bravo?"},
		{"zzzzzz", long, "see the list"},
		{"zzzzzz", long[:3], "one of: alpha, bravo, charlie"},
		{strings.Repeat("z", 61), long[:3], "one of: alpha, bravo, charlie"},
	} {
		if got := Suggest(c.word, c.official, "see the list"); got != c.want {
			t.Errorf("%s: %q, want %q", c.word, got, c.want)
		}
	}
}
