package strict

import (
	"slices"
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

// Spellings lists every way to write word, itself first: line-in, hot-in,
// live-in.
func Spellings(word string) []string {
	out := []string{""}
	for i, piece := range strings.Split(word, "-") {
		ways := []string{piece}
		c := Canon(piece)
		for _, s := range append([]string{c}, spelledAs[c]...) {
			if s != piece {
				ways = append(ways, s)
			}
		}
		var next []string
		for _, before := range out {
			for _, w := range ways {
				if i > 0 {
					w = before + "-" + w
				}
				next = append(next, w)
			}
		}
		out = next
	}
	return out
}

// spelledAs is synonyms the other way round, sorted.
var spelledAs = func() map[string][]string {
	out := map[string][]string{}
	for s, c := range synonyms {
		out[c] = append(out[c], s)
	}
	for _, s := range out {
		slices.Sort(s)
	}
	return out
}()

// Known finds word among the official spellings, synonyms counted.
func Known(word string, official []string) (string, bool) {
	if slices.Contains(official, word) {
		return word, true
	}
	c := Canon(word)
	for _, o := range official {
		if Canon(o) == c {
			return o, true
		}
	}
	return "", false
}

// Nearest is the official word most like word, or "" if none is like it: the
// same but for case, the beginning of one, or a slip or two of the pen, fewer
// in a short word.
func Nearest(word string, official []string) string {
	w := strings.ToLower(Canon(word))
	slips := 0
	switch n := len([]rune(w)); {
	case n > 8:
		slips = 3
	case n > 4:
		slips = 2
	case n > 1:
		slips = 1
	}
	best, distance := "", slips+1
	for _, o := range official {
		l := strings.ToLower(Canon(o))
		if len(w) >= 3 && distance > 1 && (strings.HasPrefix(l, w) || len(l) >= 4 && strings.HasPrefix(w, l)) {
			best, distance = o, 1
			continue
		}
		if d := len(l) - len(w); d >= distance || -d >= 4*distance {
			continue
		}
		if d := smetrics.WagnerFischer(w, l, 1, 1, 1); d < distance && d < len(l) {
			best, distance = o, d
		}
	}
	return best
}

// few is how many words a hint lists.
const few = 14

// Suggest words the hint of an unknown word: the likely one, or the whole list
// where it is short, or help.
func Suggest(word string, official []string, help string) string {
	if len(official) == 1 {
		return "write " + official[0]
	}
	if len(word) <= 60 && len(official) <= 400 {
		if n := Likely(word, official); n != "" {
			return "did you mean " + n + "?"
		}
	}
	if len(official) > 0 && len(official) <= few {
		return "one of: " + strings.Join(official, ", ")
	}
	return help
}
