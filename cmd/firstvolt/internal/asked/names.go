// Package asked finds the cases of a set that a person names by the words that
// firstvolt faults prints of them: the region's own or the machine output's,
// however their spaces, dashes and capitals are typed. Where there is no such
// case it says what to name besides or instead. It solves nothing.
package asked

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"firstvolt/checks/faults"
	"firstvolt/checks/mains"
	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
	"firstvolt/cmd/firstvolt/internal/judging"
	"firstvolt/cmd/firstvolt/internal/report"
)

// Error is that nothing has the name or is like what was asked: what is wrong,
// and what would be right.
type Error struct{ Wrong, Hint string }

func (e *Error) Error() string { return e.Wrong }

// Words are the names of one set.
type Words struct {
	said     report.Words
	layers   []faults.Layer
	points   []point // their cases, at the index of the layer
	faults   []name[faults.Fault]
	latents  []name[faults.Fault]
	ways     []name[mains.Place]
	switches []name[mains.Stand]
	metals   []name[mains.Touch] // one, or two at once
	parts    []name[string]
}

// name is a thing of the program, and what a person may call it.
type name[T comparable] struct {
	own   T
	forms []string // the first is the one to show, the one in the middle the program's own
}

// Of makes the names of a sheet that was read, with wiring. It is an error where
// a circuit of the set has no answer.
func Of(s *judging.Sheet) (*Words, error) {
	layers, err := faults.Layers(s.Bench)
	if err != nil {
		return nil, err
	}
	w := &Words{said: report.WordsOf(s), layers: layers}

	add(w, &w.faults, nothing, nothing.String(), nothing.Name(), "sound")
	add(w, &w.latents, nothing, "none", nothing.String(), nothing.Name(), "")
	for i, l := range layers {
		for _, p := range l.Places {
			add(w, &w.ways, p, p.String(), "receptacle "+p.String())
		}
		for _, s := range l.Stands {
			add(w, &w.switches, s, s.String())
		}
		add(w, &w.latents, l.Latent, l.Latent.String())
		add(w, &w.faults, l.Latent, l.Latent.String())
		for _, f := range l.Faults {
			add(w, &w.faults, f, f.String())
			p := point{Which: l.Which, open: l.Open, at: i}
			p.Fault = f
			w.points = append(w.points, p)
		}
	}
	add(w, &w.faults, pulled, pulled.String())
	metals := faults.Metals(s.Bench)
	for _, a := range metals {
		add(w, &w.metals, mains.Touch{Held: a}, a, "the "+a)
		for _, b := range metals {
			if a != b {
				both := mains.Touch{Held: a, Other: b}
				add(w, &w.metals, both, both.String(), a+" and "+b, "the "+a+" and "+b, a+" and the "+b)
			}
		}
	}
	for _, p := range []string{"plug", sheet.Chassis} {
		add(w, &w.parts, p, p)
	}
	for _, p := range s.Read.Parts {
		add(w, &w.parts, p.Name, p.Name)
	}
	return w, nil
}

// add takes up a name and its forms in the region's words and in the program's,
// once.
func add[T comparable](w *Words, to *[]name[T], own T, forms ...string) {
	if slices.ContainsFunc(*to, func(n name[T]) bool { return n.own == own }) {
		return
	}
	n := name[T]{own: own}
	for _, f := range forms {
		n.forms = append(n.forms, w.said.Say(f))
	}
	n.forms = append(n.forms, forms...)
	*to = append(*to, n)
}

// fold is a name as it is compared: without spaces, line ends, dashes and
// capitals.
func fold(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) || unicode.Is(unicode.Pd, r) {
			return -1
		}
		return unicode.ToLower(r)
	}, s)
}

// find is what the program calls the thing that was typed; kind says what it
// ought to be one of, help what lists them all.
func find[T comparable](typed, kind string, names []name[T], help string) (none T, err error) {
	var like []name[T]
	var shown []string
	for _, n := range names {
		if slices.Contains(n.forms, typed) {
			return n.own, nil
		}
		if slices.ContainsFunc(n.forms, func(f string) bool { return fold(f) == fold(typed) }) {
			like = append(like, n)
		}
		shown = append(shown, n.forms[0])
	}
	switch {
	case len(like) == 1:
		return like[0].own, nil
	case len(like) > 1:
		var all []string
		for _, n := range like {
			all = append(all, n.forms[len(n.forms)/2])
		}
		return none, &Error{fmt.Sprintf("%q may be any of %s", typed, strings.Join(all, "; ")), "type its spaces and dashes as they stand there"}
	case len(shown) == 0:
		return none, &Error{fmt.Sprintf("there is no %s %q, and no other", kind, typed), "leave it out"}
	case len(shown) == 1:
		return none, &Error{fmt.Sprintf("there is no %s %q", kind, typed), "there is only " + shown[0]}
	}
	return none, &Error{fmt.Sprintf("there is no %s %q", kind, typed), suggest(typed, shown, help)}
}

// suggest is the hint of a name that is not known. A word of it that the trade
// uses for one of the program's counts as that: "S1 on" is S1 closed, much as
// its letters are like S1 open. Where only the last word tells names apart, as
// open and closed do, it is never guessed from the letters of the whole.
func suggest(typed string, shown []string, help string) string {
	var words []string
	for _, s := range shown {
		words = append(words, strings.Fields(s)...)
	}
	said := strings.Fields(typed)
	spelled, called := slices.Clone(said), slices.Clone(said)
	for i, s := range said {
		if known, ok := strict.Known(s, words); ok {
			spelled[i], called[i] = known, known
		}
		if t := strict.Trade(s, words); t != "" { // broken, which is open, also stands in "broken down"
			called[i] = t
		}
	}
	for _, way := range [][]string{spelled, called} {
		for _, s := range shown {
			if fold(s) == fold(strings.Join(way, " ")) {
				return "did you mean " + s + "?"
			}
		}
	}
	if near := strict.Nearest(typed, shown); near != "" && len(said) > 0 {
		var ends []string // of the names that are the same but for the last word
		head, end := cutLast(near)
		for _, s := range shown {
			if h, e := cutLast(s); h == head {
				ends = append(ends, e)
			}
		}
		if len(ends) > 1 && strict.Nearest(said[len(said)-1], ends) != end {
			return "one of: " + head + " " + strings.Join(ends, ", "+head+" ")
		}
	}
	return strict.Suggest(typed, shown, help)
}

// cutLast parts the last word of a name from what stands before it.
func cutLast(name string) (head, last string) {
	i := strings.LastIndex(name, " ")
	return name[:max(i, 0)], name[i+1:]
}

// each finds all of the things that were typed between commas.
func each[T comparable](typed, kind string, names []name[T], help string) ([]T, error) {
	var all []T
	for _, one := range strings.Split(typed, ",") {
		own, err := find(strings.TrimSpace(one), kind, names, help)
		if err != nil {
			return nil, err
		}
		all = append(all, own)
	}
	return all, nil
}

// hasEach tells whether a list has all of these.
func hasEach[T comparable](list, all []T) bool {
	return !slices.ContainsFunc(all, func(one T) bool { return !slices.Contains(list, one) })
}

// related lists the faults of the part that an unknown fault names, those of the
// part itself first, as the hint in place of another.
func (w *Words) related(typed *string, hint string) string {
	if typed == nil {
		return hint
	}
	i := slices.IndexFunc(w.parts, func(p name[string]) bool { return of(strings.ToLower(*typed), strings.ToLower(p.own)) })
	if i < 0 {
		return hint
	}
	part := w.parts[i].own
	var itself, wires []string // faults of the part, and of what hangs on it
	for _, f := range w.faults {
		switch about, own := f.own.About(part); {
		case own:
			itself = append(itself, f.forms[0])
		case about:
			wires = append(wires, f.forms[0])
		}
	}
	all := append(itself, wires...)
	switch n := len(all); {
	case n == 0:
		return hint
	case n > most:
		return fmt.Sprintf("one of: %s; or %d more: firstvolt faults SHEET --all --part %s", strings.Join(all[:most], "; "), n-most, part)
	}
	return "one of: " + strings.Join(all, "; ")
}

// of tells whether what was typed has the part, or a terminal of it.
func of(typed, part string) bool {
	return slices.ContainsFunc(strings.Fields(typed), func(word string) bool {
		owner, _, _ := strings.Cut(word, ".")
		return word == part || owner == part
	})
}
