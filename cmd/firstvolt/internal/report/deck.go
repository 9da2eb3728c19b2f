package report

import "strings"

// Deck sets the comments of a deck for a person: in the words of the region,
// and in lines that keep to Width. The lines that a simulator obeys stay as they
// are.
func Deck(deck string, words Words) string {
	var out strings.Builder
	for i, l := range strings.SplitAfter(deck, "\n") {
		if text, ok := strings.CutPrefix(l, "* "); ok {
			if i > 0 { // the title has the name of a file
				text = words.Say(text)
			}
			l = Wrap(text, "* ", "*   ")
		}
		out.WriteString(l)
	}
	return out.String()
}
