package report

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"firstvolt/checks/pattern"
	"firstvolt/checks/strict"
)

// Words puts a text into the trade words of a region: earth or ground, valve
// or tube. Names that the sheet gives its own things stay as they are.
type Words struct {
	region map[string]string
	keep   map[string]bool
}

// NewWords takes a region's words and the names to leave alone.
func NewWords(region map[string]string, keep ...string) Words {
	w := Words{region: region, keep: map[string]bool{}}
	for _, k := range keep {
		w.keep[k] = true
	}
	return w
}

// A token is what may be a trade word, with the letters and joints around it:
// the words inside a rule's name or a file's are no trade words.
var (
	token = pattern.Of(`[\p{L}\p{N}_./-]*[\p{L}\p{N}_]`)
	// hot is a word of temperature too, and stays where it is one. Beside neutral
	// it never is.
	warmAfter  = pattern.Of(`^\s+(?:current|switching|resistance|filament|spot|air|ohms|value|enough|iron)\b`)
	warmBefore = pattern.Of(`(?i)\b(?:red|runs|run|running|gets|get|getting|too|its|cold or|cold and|when|while)\s+$`)
	besideCold = pattern.Of(`^\s+(?:and|or) neutral\b`)
)

// said lists the words of the rulebook by the key of the region's own word.
var said = map[string]string{
	"ground": "ground", "earth": "ground", "hot": "hot", "tube": "tube", "valve": "tube",
	"receptacle": "receptacle", "cord": "cord", "aerial": "aerial", "antenna": "aerial", "mains": "mains", "colour": "color", "color": "color",
	"gfci/rcd": "residual", // what is to be bought; a device on the sheet keeps its own name
}

// Say is the text in the region's words.
func (w Words) Say(text string) string {
	if len(w.region) == 0 {
		return text
	}
	var out strings.Builder
	last := 0
	for _, at := range token().FindAllStringIndex(text, -1) {
		word := text[at[0]:at[1]]
		out.WriteString(text[last:at[0]])
		last = at[1]
		if strings.EqualFold(word, "hot") && warm(tail(text[:at[0]]), text[at[1]:]) {
			out.WriteString(word)
			continue
		}
		own := w.word(word)
		if named().MatchString(tail(text[:at[0]])) && strings.HasPrefix(text[at[1]:], ":") && !spelled(own, word) {
			own = word
		}
		if before := out.String(); own != word && article().MatchString(tail(before)) {
			out.Reset()
			out.WriteString(article().ReplaceAllString(before, "${1}"+articleOf(own)))
		}
		out.WriteString(own)
	}
	out.WriteString(text[last:])
	return out.String()
}

// tail is the end of a text, longer than what any pattern looks for there: a
// search through all that was said before each word takes long in a long text.
func tail(text string) string { return text[max(0, len(text)-40):] }

// named is what stands before a key that is named in passing: "add cord:". A
// region's own word for it may stand there only where the sheet takes that.
var named = pattern.Of(`(?i)(?:^|[({]|\b(?:add|under|and|or|out|key|write|say)\s+)$`)

// spelled tells whether a word of the sheet may be spelled as own.
func spelled(own, word string) bool {
	_, ok := strict.Known(strings.ToLower(own), []string{strings.ToLower(word)})
	return ok
}

// article is an a or an that the text so far ends in.
var article = pattern.Of(`(\b[Aa])n? $`)

// articleOf ends the article in front of a region's word: "a hot wire", but
// "an active wire".
func articleOf(word string) string {
	if strings.ContainsAny(word[:1], "aeiouAEIOU") {
		return "n "
	}
	return " "
}

// warm tells whether hot between two texts is a word of temperature.
func warm(before, after string) bool {
	return warmAfter().MatchString(after) || warmBefore().MatchString(before) && !besideCold().MatchString(after)
}

// word puts one word into the region's, its plural and its capital kept. Behind
// a point, where a terminal or a key stands, it has to be one that the sheet
// takes.
func (w Words) word(word string) string {
	if w.keep[word] {
		return word
	}
	if part, terminal, ok := strings.Cut(word, "."); ok {
		if own := w.own(terminal); own != "" && spelled(own, terminal) && !strings.ContainsAny(part, "/") {
			return part + "." + own
		}
		return word
	}
	own := w.own(strings.ToLower(word))
	if own == "" {
		return word
	}
	if first, _ := utf8.DecodeRuneInString(word); unicode.IsUpper(first) {
		r, n := utf8.DecodeRuneInString(own)
		own = string(unicode.ToUpper(r)) + own[n:]
	}
	return own
}

// own is the region's word for one in small letters, or "".
func (w Words) own(word string) string {
	if own := w.region[said[word]]; own != "" {
		return own
	}
	for _, ending := range []struct{ ours, theirs string }{{"s", "s"}, {"ed", "ed"}, {"ing", "ing"}} {
		stem, ok := strings.CutSuffix(word, ending.ours)
		if ok && (ending.ours == "s" || said[stem] == "ground") && w.region[said[stem]] != "" {
			return w.region[said[stem]] + ending.theirs
		}
	}
	return ""
}
