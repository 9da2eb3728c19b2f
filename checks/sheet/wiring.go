package sheet

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"firstvolt/checks/part"
	"firstvolt/checks/pattern"
	"firstvolt/checks/quantity"
	"firstvolt/checks/strict"
)

// wiring reads the runs into single wires and finds parts that none reaches.
func (r *reader) wiring(n *strict.Node) {
	r.wired = map[string]bool{}
	if n != nil && n.Kind == strict.List {
		for _, item := range n.Items {
			run := item
			if item.Kind == strict.Map {
				run = item.Get("run")
			}
			if !word(run) {
				continue
			}
			r.run(item, run)
		}
	}
	if n == nil || len(n.Items) == 0 {
		return // nothing is called unwired where nothing is wired yet
	}
	for _, p := range r.s.Parts {
		if !r.wired[p.Name] {
			r.bad(p.At, fmt.Sprintf("%s is on no run", p.Name), "write its wires under wiring, or delete it if the set does not have it")
		}
	}
}

var (
	names     = pattern.Of(`[A-Za-z0-9][A-Za-z0-9_/.-]*`)
	keyBehind = pattern.Of(`,\s*(?:colou?r|size|joint|slack|changed|note):`)
)

func withArticle(kind string) string {
	if strings.ContainsRune("aeiou", rune(kind[0])) {
		return "an " + kind
	}
	return "a " + kind
}

// hop is one word of a run with its place.
type hop struct {
	word string
	pos  strict.Pos
}

// hops splits a run at its arrows, keeping the place of each word.
func hops(n *strict.Node) []hop {
	var out []hop
	offset := 0
	for _, piece := range strings.Split(n.Text, "->") {
		word := strings.TrimSpace(piece)
		lead := utf8.RuneCountInString(piece) - utf8.RuneCountInString(strings.TrimLeft(piece, " "))
		out = append(out, hop{word, n.Offset(offset + lead)})
		offset += utf8.RuneCountInString(piece) + 2
	}
	return out
}

func (r *reader) run(item, run *strict.Node) {
	hs := hops(run)
	for _, name := range names().FindAllString(run.Text, -1) {
		// Named, if wrongly: it is not called unwired as well.
		name, _, _ = strings.Cut(name, ".")
		r.wired[name] = true
	}
	if m := keyBehind().FindStringIndex(run.Text); m != nil {
		r.bad(run.Offset(utf8.RuneCountInString(run.Text[:m[0]+1])), strict.NoBraces, "write - {run: A -> B, color: black}")
		return
	}
	if len(hs) < 2 {
		r.bad(run.Pos, fmt.Sprintf("%q is not a run", run.Text), "a chain of at least two places: plug.hot -> F1.end")
		return
	}
	if stops, ok := r.stops(hs); ok {
		r.wires(item, run, hs, stops)
	}
}

// stop is a place of a run: the terminals at which the run comes to it and
// leaves it.
type stop struct{ in, out string }

// stops resolves the places of a run.
func (r *reader) stops(hs []hop) (stops []stop, ok bool) {
	ok = true
	for i, h := range hs {
		s, good := r.stop(h, i == 0 || i == len(hs)-1)
		ok = ok && good
		stops = append(stops, s)
	}
	return stops, ok
}

func (r *reader) stop(h hop, atEnd bool) (stop, bool) {
	switch {
	case h.word == "":
		r.bad(h.pos, "a place is missing in this run", "name a terminal on each side of ->")
		return stop{}, false
	case strings.ContainsAny(h.word, " →=>,"):
		r.bad(h.pos, fmt.Sprintf("%q is not one place", h.word), "put -> between the places of a run")
		return stop{}, false
	}
	p, found := r.resolve(h.word, h.pos)
	switch {
	case !found || p.skip:
		return stop{}, false
	case p.winding != nil:
		r.bad(h.pos, fmt.Sprintf("%s is a winding, not a terminal", h.word), "one of its ends: "+p.part.Full(p.winding.Ends[0])+", "+p.part.Full(p.winding.Ends[1]))
		return stop{}, false
	case p.terminal == "":
		return r.through(p.part, h, atEnd)
	case p.part != nil:
		r.wired[p.part.Name] = true
	}
	return stop{p.terminal, p.terminal}, true
}

// wires are the wires between the stops of a run, with what item says of them.
func (r *reader) wires(item, run *strict.Node, hs []hop, stops []stop) {
	for i := 1; i < len(stops); i++ {
		w := &Wire{A: stops[i-1].out, B: stops[i].in, At: hs[i-1].pos, Run: run.Text}
		if w.A == w.B {
			r.bad(hs[i].pos, fmt.Sprintf("a wire from %s to itself", w.A), "name two different places")
			continue
		}
		w.Name = fmt.Sprintf("wire %d", len(r.s.Wires)+1)
		if item.Kind == strict.Map {
			w.Slack, w.Changed = item.Word("slack"), item.Word("changed")
			if c, ok := item.Get("color").DataWord(); ok {
				w.Color = c
			}
			if a, ok := part.ValueOf(item.Get("size")); ok {
				w.Size, w.Area = item.Word("size"), a
			}
			if i == len(stops)-1 {
				w.Joint = item.Word("joint")
			}
		}
		r.s.Wires = append(r.s.Wires, w)
	}
}

// through finds the way of a run through a bare part.
func (r *reader) through(p *part.Part, h hop, atEnd bool) (s stop, ok bool) {
	r.wired[p.Name] = true
	in, out, has := p.Kind.Through(p)
	options := p.Terminals()
	var full []string
	for _, t := range options {
		full = append(full, p.Full(t))
	}
	list := strings.Join(full, ", ")
	switch {
	case !has:
		r.bad(h.pos, fmt.Sprintf("a run cannot pass through %s, which is %s", p.Name, withArticle(p.Kind.Name)), "name its terminals: "+list+poles(p))
		return s, false
	case atEnd:
		r.bad(h.pos, fmt.Sprintf("a run cannot end at bare %s", p.Name), "name the terminal: "+list)
		return s, false
	}
	s.in, s.out = p.Full(in), p.Full(out)
	return s, true
}

// poles says which terminals each pole of a switch joins.
func poles(p *part.Part) string {
	if p.Kind.Name != "switch" {
		return ""
	}
	var joined []string
	for i, t := 0, p.Terminals(); i+1 < len(t); i += 2 {
		joined = append(joined, p.Full(t[i])+" with "+p.Full(t[i+1]))
	}
	return "; its poles join " + strings.Join(joined, ", ")
}

// ConductorSize is the size of a cord conductor or wire as written, with its area.
func (s *Sheet) ConductorSize() (written string, area quantity.Range, ok bool) {
	n := s.Cord().Get("size")
	a, ok := part.ValueOf(n)
	return n.Str(), a, ok
}
