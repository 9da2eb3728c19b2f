package strict

import (
	"fmt"
	"strings"
	"testing"
)

// Every value is the text that stands there, whatever YAML makes of it.
func TestValuesAreTheirText(t *testing.T) {
	for _, text := range []string{"01", "1.10", "6E5", "80", "2026-11-20", "yes", "no", "on", "true", "0x1F", "0o17", "1_000", "1:30", ".nan", ".inf", "-1", "1e3", "=", "C#1", "a:b", "2026-11-20T10:00:00Z"} {
		for _, form := range []string{"k: %s\n", "{k: %s}\n", "k: \"%s\"\n", "k: '%s'\n", "\"k\": %s\n", "? k\n: %s\n"} {
			n, problems := Parse(fmt.Appendf(nil, form, text))
			if len(problems) > 0 || n.Word("k") != text {
				t.Errorf("%q in %q reads as %q, %v", text, form, n.Word("k"), problems)
			}
		}
	}
	for _, key := range []string{"01", "1.0", "true", "2026-11-20", "null-ish", "6E5"} {
		if n, problems := Parse([]byte(key + ": v\n")); len(problems) > 0 || n.Word(key) != "v" {
			t.Errorf("the key %q: %v", key, problems)
		}
	}
}

// One fault each, at its place.
func TestParseFaults(t *testing.T) {
	for text, want := range map[string]string{
		"":                            "1:1: the file is empty",
		" \n\n":                       "1:1: the file is empty",
		"# x\n":                       "1:1: the file holds nothing but comments",
		"---":                         "1:1: the file holds nothing",
		"a: 1\n--- \nb: 2\n":          "2:1: a second document begins here",
		"a: 1\n...\nb: 2\n":           "3:1: a second document begins here",
		"a: null\n":                   "1:4: a is null",
		"a: ~\n":                      "1:4: a is ~",
		"a:\nb: 1\n":                  "1:1: a has no value",
		"{a, b: 1}\n":                 "1:2: a has no value; write KEY: value, or several words of one key in brackets, like KEY: [A, B]",
		"a: ''\n":                     "1:4: the value is empty",
		"a: [b, ~]\n":                 "1:8: a value is missing here",
		"- a\n-\n":                    "2:2: a value is missing here",
		"? a\n":                       "1:3: a has no value",
		"? [a]\n: b\n":                "1:3: a key must be one word",
		": b\n":                       "1:1: a key is empty",
		"a: &x 1\n":                   "1:4: & begins an anchor",
		"a: *x\n":                     "1:4: * begins an alias",
		"a: !!str 1\n":                "1:4: ! begins a tag",
		"a: !mine 1\n":                "1:4: ! begins a tag",
		"a: ! 1\n":                    "1:4: ! begins a tag",
		"a: !!map {b: 1}\n":           "1:4: ! begins a tag",
		"<<: {a: 1}\n":                "1:1: << is a merge key",
		"%YAML 1.1\n---\na: 1\n":      "1:1: % begins a directive",
		"a: 1\n%TAG ! x\n":            "2:1: % begins a directive",
		"a: 1 #x\n":                   "1:6: a # here starts a comment",
		"#x\na: 1\n":                  "1:1: a # here starts a comment",
		"## x\na: 1\n":                "1:1: a # here starts a comment",
		"a: [b, #x\n  c]\n":           "1:8: a # here starts a comment",
		"a: {b: \"# x\"} #y\n":        "1:15: a # here starts a comment",
		"a: 'it''s # x' #y\n":         "1:16: a # here starts a comment",
		"a: \"b \\\" # x\" #y\n":      "1:15: a # here starts a comment",
		"a: b\u0085c\n":               "1:5: a line break that is not a plain one (U+0085)",
		"a: b\u2028c\n":               "1:5: a line break that is not a plain one (U+2028)",
		"a: b\u2029c\n":               "1:5: a line break that is not a plain one (U+2029)",
		"a: b\u202ec\n":               "1:4: the value holds a control or direction mark (U+202E)",
		"a: b\u200bc\n":               "1:4: the value holds a control or direction mark (U+200B)",
		"a: b\ufeffc\n":               "1:4: the value holds a control or direction mark (U+FEFF)",
		"a: b\x1b]0;c\n":              "1:4: the value holds a control or direction mark (U+001B)",
		"a: b\x7fc\n":                 "1:4: the value holds a control or direction mark (U+007F)",
		"a: b\u009bc\n":               "1:4: the value holds a control or direction mark (U+009B)",
		"a: \"b\\ec\"\n":              "1:4: the value holds a control or direction mark (U+001B)",
		"a: \"b\\tc\"\n":              "1:4: the value holds a control or direction mark (U+0009)",
		"a: \"b\\nc\"\n":              "1:4: the value goes over several lines",
		"a\u202eb: c\n":               "1:1: the key holds a control or direction mark (U+202E)",
		"a: b\x00\n":                  "1:5: a zero byte",
		"a: \xff\n":                   "1:4: the byte 0xFF is not UTF-8",
		"é: \xe9\n":                   "1:4: the byte 0xE9 is not UTF-8",
		"a: 1\rb: 2\r":                "1:5: a line end that is half of one",
		"a: 1 # \x07\n":               "1:8: a comment holds a control mark (U+0007)",
		"a: {b:c, d: 1}\n":            "1:5: no space after the colon of b",
		"a: {b: 1,5 mm, c: d}\n":      "1:8: b has a decimal comma",
		"a:\n  b: 1\n  c:2\n  d: 3\n": "3:3: no space after the colon of c",
		"a: {r: > 5 Ω}\n":             "1:8: a > without quotes",
		"a:\n  r: > 5 Ω\n":            "2:6: a > without quotes",
		"- run: A -> B, color: red\n": "1:3: the braces round this run are missing",
		"\ta: 1\n":                    "1:1: a tab in the indentation",
		"a:\n\tb: 1\n":                "2:1: a tab in the indentation",
		"a: {b: 1\nc: 2\n":            "1:1: a brace { is not closed",
		"a: [b, c\nd: 2\n":            "1:1: a bracket [ is not closed",
		"a: 1\nb: \"c\nd: 2\n":        "2:1: a quote is not closed",
		"a: 'b\n":                     "1:1: a quote is not closed",
		"a: 1\n b: 2\n":               "2:1: a colon stands where no key can be",
		"a:\n   b: 1\n  c: 2\n":       "3:1: this line does not fit the lines above it",
		"a: b: c\n":                   "1:1: a colon stands where no key can be",
		"a: @b\n":                     "1:1: a value cannot begin with this character",
		"a: \"\\q\"\n":                "1:1: a backslash in double quotes",
		"a: 1\nb\n":                   "2:1: this line is neither a key with a value",
		"a: - b\n":                    "1:1: the dash of a list stands where no list can begin",
		"a: }\n":                      "1:1: ",
		"\ufeffa: ~\n":                "1:4: a is ~",
		"a: 1\r\nb: ~\r\n":            "2:4: b is ~",
	} {
		_, problems := Parse([]byte(text))
		if len(problems) != 1 {
			t.Errorf("%q: %d problems: %v", text, len(problems), problems)
			continue
		}
		if got := strings.TrimPrefix(problems[0].String(), ":"); !strings.HasPrefix(got, want) {
			t.Errorf("%q:\n got %s\nwant %s", text, got, want)
		}
		if problems[0].Right == "" {
			t.Errorf("%q: nothing said of what would be right", text)
		}
	}
}

// Comments, quotes and blocks that are right stay without a word.
func TestParseTakes(t *testing.T) {
	for text, want := range map[string]string{
		"a: b # c\n":                 "b",
		"a: b #\tc\n":                "b",
		"a: b\n#\n# c\n":             "b",
		"a: \"b #c\"\n":              "b #c",
		"a: 'b #c'\n":                "b #c",
		"a: b#c\n":                   "b#c",
		"a: \"b\n  #c\"\n":           "b #c",
		"a: |\n  #b\n   #c\n":        "#b\n #c\n",
		"a: >-\n  b\n  #c\n# d\n":    "b #c",
		"a: |2\n   #b\n  #c\nd: e\n": " #b\n#c\n",
		"x:\n- a\n- |\n  #b\na: c\n": "c",
		"a: \"b\\u00e9\"\n":          "bé",
		"---\na: b\n":                "b",
		"a: b\n...\n":                "b",
		"a: b\n  c\n":                "b c",
		"# \u202e in a comment harms nothing\na: b\n": "b",
		"a: b\r\n# c\r\n": "b",
		"\ufeffa: b":      "b",
	} {
		n, problems := Parse([]byte(text))
		if len(problems) > 0 || n.Word("a") != want {
			t.Errorf("%q reads as %q, %v", text, n.Word("a"), problems)
		}
	}
}

// Several faults come in one pass, by place.
func TestParseTellsAllAtOnce(t *testing.T) {
	_, problems := Parse([]byte("d: ~\na: &x 1\nb: *x\nc: 1 #y\ne: \"\\e\"\n"))
	var got []string
	for _, p := range problems {
		got = append(got, fmt.Sprintf("%d:%d", p.Line, p.Column))
	}
	if s := strings.Join(got, " "); s != "1:4 2:4 3:4 4:6 5:4" {
		t.Errorf("faults at %s: %v", s, problems)
	}
}

func TestDepth(t *testing.T) {
	nest := func(open, in, end string, n int) string {
		return strings.Repeat(open, n) + in + strings.Repeat(end, n)
	}
	for _, c := range []struct {
		text  string
		reads bool
	}{
		{"a: " + nest("[", "x", "]", MaxDepth-2), true},
		{"a: " + nest("[", "x", "]", MaxDepth), false},
		{"a: " + nest("[", "x", "]", 20000), false},
		{"a: " + nest("{b: ", "x", "}", 20000), false},
		{nest("- ", "x", "", 20000), false},
		{nest("- ", "x", "", MaxDepth-1), true},
	} {
		_, problems := Parse([]byte(c.text))
		deep := len(problems) == 1 && strings.Contains(problems[0].Wrong, "nested deeper than 50")
		if c.reads != (len(problems) == 0) || deep == c.reads {
			t.Errorf("%.20q…: %v", c.text, problems)
		}
	}
}

// What a person is shown never holds what a terminal would obey, nor a file.
func TestSaysIsFitToShow(t *testing.T) {
	p := Problem{Wrong: "x\x1b[31m\u202e" + strings.Repeat("é", 5000), Right: "y\u200b"}
	if s := p.Says(); strings.ContainsAny(s, "\x1b\u202e\u200b") || len(s) > 1000 || !strings.Contains(s, "<U+001B>") || !strings.Contains(s, "; y<U+200B>") {
		t.Errorf("%q", s)
	}
}

func TestNearest(t *testing.T) {
	kinds := strings.Fields("fuse switch selector capacitor electrolytic resistor lamp choke field-coil transformer rectifier tube motor F1 C12 T1")
	for word, want := range map[string]string{
		"resistr": "resistor", "Fuse": "fuse", "f1": "F1", "F2": "F1", "C13": "C12", "transf": "transformer", "capacitors": "capacitor", "feild-coil": "field-coil",
		"valvе": "", "xyz": "", "condenser": "", "Q7": "", "": "", "x": "", "line-in": "", "valv": "", "fuses": "fuse", "swich": "switch",
	} {
		if got := Nearest(word, kinds); got != want {
			t.Errorf("%q is nearest to %q, want %q", word, got, want)
		}
	}
	if got := Suggest("q", []string{"1"}, ""); got != "write 1" {
		t.Error(got)
	}
}

func TestSpellings(t *testing.T) {
	for word, want := range map[string]string{
		"tube": "tube valve", "color": "color colour", "ground": "ground earth", "hot": "hot line live", "line-in": "line-in hot-in live-in", "grey": "grey gray",
		"aerial": "aerial antenna", "fuse": "fuse", "plug": "plug",
	} {
		got := Spellings(word)
		if strings.Join(got, " ") != want {
			t.Errorf("%s: %v", word, got)
		}
		for _, s := range got {
			if k, ok := Known(s, []string{word}); !ok || k != word {
				t.Errorf("%s is not known as %s", s, word)
			}
		}
	}
}
