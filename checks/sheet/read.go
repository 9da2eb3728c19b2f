package sheet

import (
	"fmt"
	"slices"
	"strings"

	"firstvolt/checks/handbook"
	"firstvolt/checks/part"
	"firstvolt/checks/strict"
)

// Plug terminals and the chassis are nodes of every sheet.
var PlugPins = []string{"hot", "neutral", "ground"}

// The nodes that are always there.
const (
	PlugHot     = "plug.hot"
	PlugNeutral = "plug.neutral"
	PlugGround  = "plug.ground"
	Chassis     = "chassis"
)

// reader turns the checked tree into a Sheet, collecting problems.
type reader struct {
	s        *Sheet
	book     *handbook.Book
	problems []strict.Problem
	wired    map[string]bool // parts met in a run
}

func (r *reader) bad(p strict.Pos, wrong, right string) {
	r.problems = append(r.problems, strict.Problem{Pos: p, Wrong: wrong, Right: right})
}

func (r *reader) read() {
	root := r.s.Root
	set := root.Get("set")
	r.s.Name = set.Word("name")
	r.s.Construction = set.Word("construction")
	r.s.Rebuilt = set.Word("rebuilt")
	r.supply(root.Get("supply"))
	r.instruments(root.Get("instruments"))
	r.parts(root.Get("parts"))
	r.loads()
	r.wiring(root.Get("wiring"))
	r.readings(root.Get("readings"))
	if n := root.Get("inspection"); n != nil {
		for _, e := range n.Entries {
			if e.Key != "note" {
				r.s.Inspection[e.Key] = Answer{Word: e.Value.Str(), At: e.Value.At()}
			}
		}
	}
	r.s.FirstPower = root.Get("first-power").Word("stage")
	if r.s.FirstPower != "" && r.s.FirstPower != "rail" && r.s.SeriesString() {
		r.bad(root.Get("first-power").Get("stage").At(), "a set with a series heater string has no stage "+r.s.FirstPower, "write stage: rail")
	}
}

func (r *reader) supply(n *strict.Node) {
	name := n.Get("region")
	if !word(name) {
		r.upstream(n.Get("upstream"))
		return
	}
	region, ok := r.book.Region(name.Text)
	if !ok {
		r.upstream(n.Get("upstream"))
		r.bad(name.Pos, fmt.Sprintf("the region %s is not known", name.Text), strict.Suggest(name.Text, r.book.Names(), "one of: "+strings.Join(r.book.Names(), ", ")))
		return
	}
	r.s.Region = region
	if plug := n.Get("plug"); word(plug) {
		var names []string
		found := false
		for _, p := range region.Plugs {
			names = append(names, p.Name)
			if p.Name == plug.Text {
				r.s.Plug, found = p, true
			}
		}
		if !found {
			r.bad(plug.Pos, fmt.Sprintf("the region %s has no plug %s", region.Name, plug.Text), otherPlug(plug.Text, names))
		}
	}
	r.upstream(n.Get("upstream"))
}

// otherPlug is the hint of a plug that the region does not have: those that it
// has, and before them those that the trade calls so.
func otherPlug(said string, names []string) string {
	all := "one of: " + strings.Join(names, ", ")
	t := strict.Trade(said, names)
	if t == "" {
		return all
	}
	likely := []string{t}
	for _, n := range names {
		if strings.HasPrefix(n, t+"-polarized") { // looks the same but for one wider blade
			likely = append(likely, n)
		}
	}
	return "did you mean " + strings.Join(likely, " or ") + "? " + all
}

func (r *reader) upstream(up *strict.Node) {
	if up != nil && up.Kind == strict.List {
		r.s.UpstreamKnown = true
		for i, item := range up.Items {
			r.s.Upstream = append(r.s.Upstream, &Link{Number: i + 1, Kind: item.Word("kind"), At: item.At(), Node: item})
		}
	}
}

// shapeless tells whether a section that names things stands on the sheet as no
// map: that is one error, and none for each thing that is then not found.
func (r *reader) shapeless(section string) bool {
	n := r.s.Root.Get(section)
	return n != nil && n.Kind != strict.Map
}

// word tells whether n is a value that can be read on.
func word(n *strict.Node) bool { return n != nil && n.Kind == strict.Text && !n.Refused }

func (r *reader) sameNames(what string, names []strict.Entry) {
	seen := map[string]string{}
	for _, e := range names {
		low := strings.ToLower(e.Key)
		if first, ok := seen[low]; ok && first != e.Key {
			r.bad(e.KeyPos, fmt.Sprintf("the %s %s and %s differ only in case", what, first, e.Key), "name one of them otherwise")
		}
		seen[low] = e.Key
	}
}

func (r *reader) parts(n *strict.Node) {
	if n == nil || n.Kind != strict.Map {
		return
	}
	r.sameNames("parts", n.Entries)
	for _, e := range n.Entries {
		if e.Value == nil || e.Value.Kind != strict.Map {
			r.s.byName[e.Key] = nil
			continue
		}
		p, problems := part.Read(e.Key, e.KeyPos, e.Value)
		r.problems = append(r.problems, problems...)
		if p == nil {
			r.s.byName[e.Key] = nil // declared, but of no kind known: not "unknown part" as well
			continue
		}
		r.s.Parts = append(r.s.Parts, p)
		r.s.byName[p.Name] = p
		r.terminalCase(p)
	}
}

// terminalCase refuses terminals and windings of one part that differ only in case.
func (r *reader) terminalCase(p *part.Part) {
	seen := map[string]string{}
	for _, t := range p.Terminals() {
		low := strings.ToLower(strict.Canon(t))
		if first, ok := seen[low]; ok && first != t && (strict.Canon(first) != strict.Canon(t) || len(p.Windings) == 0) {
			r.bad(p.At, fmt.Sprintf("the terminals %s and %s of %s are one name", first, t, p.Name), "name one of them otherwise")
		}
		seen[low] = t
	}
	var names []strict.Entry
	for _, w := range p.Windings {
		names = append(names, strict.Entry{Key: w.Name, KeyPos: w.At})
	}
	r.sameNames("windings", names)
}

// place is what one word of a run or a probe stands for.
type place struct {
	terminal string     // full name of a node
	part     *part.Part // set where the word is a bare part
	winding  *part.Winding
	skip     bool // refers to something already reported
}

// resolve finds what word names; pos is where the word stands.
func (r *reader) resolve(word string, pos strict.Pos) (place, bool) {
	if strings.ToLower(word) == Chassis {
		return place{terminal: Chassis}, true
	}
	name, terminal, dotted := strings.Cut(word, ".")
	if strings.EqualFold(name, "plug") {
		return r.plugPin(terminal, dotted, pos)
	}
	p, declared := r.s.byName[name]
	switch {
	case !declared && r.shapeless("parts"), declared && p == nil:
		return place{skip: true}, true
	case !declared:
		var names []string
		for _, q := range r.s.Parts {
			names = append(names, q.Name)
		}
		names = append(names, "plug", Chassis)
		r.bad(pos, fmt.Sprintf("there is no part %s", name), strict.Suggest(name, names, "name a part of this sheet"))
		return place{}, false
	case dotted:
		return r.inside(p, terminal, pos)
	case p.Bare():
		return place{terminal: p.Name, part: p}, true
	}
	return place{part: p}, true
}

// plugPin finds a pin of the plug.
func (r *reader) plugPin(pin string, dotted bool, pos strict.Pos) (place, bool) {
	right := "one of: plug.hot, plug.neutral, plug.ground"
	if !dotted {
		r.bad(pos, "plug is not a terminal", right)
		return place{}, false
	}
	if t, ok := strict.Known(pin, PlugPins); ok {
		return place{terminal: "plug." + t}, true
	}
	if t := strict.Likely(pin, PlugPins); t != "" {
		right = "did you mean plug." + t + "?"
	}
	r.bad(pos, fmt.Sprintf("the plug has no terminal %s", pin), right)
	return place{}, false
}

// inside finds a terminal or a winding of a part.
func (r *reader) inside(p *part.Part, name string, pos strict.Pos) (place, bool) {
	if p.Bare() {
		r.bad(pos, fmt.Sprintf("%s is a bare node without terminals", p.Name), "write "+p.Name)
		return place{}, false
	}
	if t, ok := p.Terminal(name); ok {
		return place{terminal: p.Full(t)}, true
	}
	if w := p.Winding(name); w != nil {
		return place{part: p, winding: w}, true
	}
	if p.Partial {
		return place{skip: true}, true
	}
	what, known := "terminal", slices.Clone(p.Terminals())
	for _, w := range p.Windings {
		what, known = "terminal or winding", append(known, w.Name)
	}
	switch t := middle(p, name); {
	case len(known) == 0:
		r.bad(pos, fmt.Sprintf("%s has no terminals yet", p.Name), "describe its terminals first")
	case t != "":
		r.bad(pos, fmt.Sprintf("%s has no terminal %s", p.Name, name), t)
	default:
		r.bad(pos, fmt.Sprintf("%s has no %s %s", p.Name, what, name), strict.Suggest(name, known, "one of: "+strings.Join(known, ", ")))
	}
	return place{}, false
}

// middle is the hint of a word that means the middle of a winding: the terminals
// that are one, or how to name it. "" where it means something else.
func middle(p *part.Part, word string) string {
	if len(p.Windings) == 0 || strict.Trade(word, []string{"tap"}) == "" {
		return ""
	}
	var taps []string
	for _, w := range p.Windings {
		if w.Tap != "" {
			taps = append(taps, p.Full(w.Tap))
		}
	}
	if len(taps) == 0 {
		return "name it under its winding first, like tap: " + word
	}
	return "did you mean " + strings.Join(taps, " or ") + "?"
}
