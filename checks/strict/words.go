package strict

import (
	"strings"

	"github.com/xrash/smetrics"
)

// synonyms are the spellings that the format takes for one and the same word,
// in keys, kinds, terminals and colors, and inside hyphenated words.
var synonyms = map[string]string{
	"colour": "color", "colours": "colors", "gray": "grey", "antenna": "aerial",
	"ground": "earth", "live": "hot", "line": "hot", "valve": "tube", "valves": "tubes",
}

// Canon is the form in which two words are compared: synonyms made one.
func Canon(word string) string {
	if !strings.Contains(word, "-") {
		if s, ok := synonyms[word]; ok {
			return s
		}
		return word
	}
	parts := strings.Split(word, "-")
	for i, p := range parts {
		if s, ok := synonyms[p]; ok {
			parts[i] = s
		}
	}
	return strings.Join(parts, "-")
}

// Known finds word among the official spellings, synonyms counted.
func Known(word string, official []string) (string, bool) {
	c := Canon(word)
	for _, o := range official {
		if o == word || Canon(o) == c {
			return o, true
		}
	}
	return "", false
}

// Nearest is the official word most like word, or "" if none is like it.
func Nearest(word string, official []string) string {
	best, distance := "", len(word)/2+2
	for _, o := range official {
		d := smetrics.WagnerFischer(strings.ToLower(word), strings.ToLower(o), 1, 1, 1)
		if d < distance {
			best, distance = o, d
		}
	}
	return best
}

// Suggest words the hint of an unknown word: the nearest, or the whole list
// where it is short, or help.
func Suggest(word string, official []string, help string) string {
	if n := Nearest(word, official); n != "" {
		return "did you mean " + n + "?"
	}
	if len(official) > 0 && len(official) <= 14 {
		return "one of: " + strings.Join(official, ", ")
	}
	return help
}
