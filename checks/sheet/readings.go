package sheet

import (
	"fmt"
	"maps"
	"slices"
	"sort"
	"strings"
	"unicode/utf8"

	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
	"firstvolt/checks/strict"
)

// Reading is one reading in its state.
type Reading struct {
	Kind string // resistance (a drop too), insulation, capacitance, voltage, leakage
	List string // the key under readings that it stands in
	At   strict.Pos
	Node *strict.Node
	// Name is "A – B" as written, red lead first, or the part or winding read across.
	Name string
	A, B []string // full terminals joined at each probe; A has the red lead
	// Across is set where the reading was taken across a part or winding.
	AcrossPart    *part.Part
	AcrossWinding *part.Winding
	GroupA        []string // the words of each probe as written
	GroupB        []string

	Switches  string            // open, closed or "" (every position)
	Switch    map[string]string // by switch name
	Fuses     map[string]string // in or out, by fuse name
	AllFuses  string            // in, out or ""
	Positions map[string]string // selector positions stated
	Lifted    []string          // full terminals lifted
	Without   []string          // parts taken out
	Shown     []Shown           // by time; one without time where there is no series
	Range     quantity.Range
	HasRange  bool
	Test      quantity.Range
	HasTest   bool
	Applied   *part.Part // voltage: the part whose winding was fed
	AppliedW  *part.Winding
	Volts     quantity.Range
	HasVolts  bool
	Drop      *Drop // set where the ohms are told by volts and amperes
	With      *Instrument
	Taken     string // its own date, or that of the readings
}

// Series tells whether the display was read several times while the test ran.
func (rd *Reading) Series() bool { return rd.Node.Get("reads").Str() == "" }

// Shown is one display of a reading, After the seconds the test had run.
type Shown struct {
	Display
	After float64 // s; 0 where not said
	At    strict.Pos
}

// Last is the display after the longest time: the value of the reading.
func (rd *Reading) Last() Shown { return rd.Shown[len(rd.Shown)-1] }

func (r *reader) readings(n *strict.Node) {
	r.s.Ambient = quantity.Between(10, 35, quantity.Temperature)
	if n == nil || n.Kind != strict.Map {
		return
	}
	r.s.Taken = n.Word("taken")
	if a, ok := part.ValueOf(n.Get("ambient")); ok {
		r.s.Ambient = a
	}
	for _, kind := range ReadingKinds {
		list := n.Get(kind)
		if list == nil || list.Kind != strict.List {
			continue
		}
		for _, item := range list.Items {
			if item.Kind == strict.Map {
				r.reading(kind, item)
			}
		}
	}
}

func (r *reader) reading(kind string, n *strict.Node) {
	rd := &Reading{Kind: kind, List: kind, At: n.Pos, Node: n, Taken: n.Word("taken"), Switch: map[string]string{}, Fuses: map[string]string{}, Positions: map[string]string{}}
	if rd.Taken == "" {
		rd.Taken = r.s.Taken
	}
	before := len(r.problems)
	r.probes(rd, n)
	r.state(rd, n)
	r.shown(rd, n.Get("reads"))
	rd.Range, rd.HasRange = part.ValueOf(n.Get("range"))
	rd.Test, rd.HasTest = part.ValueOf(n.Get("test"))
	rd.Volts, rd.HasVolts = part.ValueOf(n.Get("volts"))
	if a := n.Get("applied"); word(a) {
		p, ok := r.resolve(a.Text, a.Pos)
		switch {
		case ok && p.winding == nil && !p.skip:
			r.bad(a.Pos, fmt.Sprintf("%s is not a winding", a.Text), "name a winding, like T1.heater")
		case ok:
			rd.Applied, rd.AppliedW = p.part, p.winding
		}
	}
	rd.With = r.instrument(n.Get("with"))
	r.pastCeiling(rd)
	if kind == "drop" {
		r.drop(rd, n)
	}
	if len(r.problems) == before && len(rd.Shown) > 0 {
		r.s.Readings = append(r.s.Readings, rd)
	}
}

// instrument finds the meter that a word names; nil where none is named.
func (r *reader) instrument(w *strict.Node) *Instrument {
	if !word(w) {
		return nil
	}
	in, ok := r.s.Instruments[w.Text]
	if !ok && !r.shapeless("instruments") {
		names := slices.Sorted(maps.Keys(r.s.Instruments))
		r.bad(w.Pos, fmt.Sprintf("there is no instrument %s", w.Text), strict.Suggest(w.Text, names, "describe it under instruments:"))
	}
	return in
}

func (r *reader) probes(rd *Reading, n *strict.Node) {
	between, across := n.Get("between"), n.Get("across")
	switch {
	case between == nil && across == nil:
		right := "add between: [A, B] or across: PART"
		switch rd.List {
		case "drop":
			right = "add between: [A, B]"
		case "leakage":
			right = "add across: PART"
		}
		r.bad(n.Pos, "this reading does not say what it is between", right)
		return
	case between != nil && across != nil:
		r.bad(across.Pos, "this reading has both between and across", "keep one of them")
		return
	}
	if across != nil {
		r.across(rd, across)
		return
	}
	if between.Kind != strict.List || len(between.Items) != 2 {
		return // reported by the shape
	}
	rd.A, rd.GroupA = r.group(between.Items[0])
	rd.B, rd.GroupB = r.group(between.Items[1])
	rd.Name = strings.Join(rd.GroupA, " + ") + " – " + strings.Join(rd.GroupB, " + ")
	for _, a := range rd.A {
		if slices.Contains(rd.B, a) {
			r.bad(between.Items[1].Pos, fmt.Sprintf("%s is at both probes", a), "name two different nodes")
			return
		}
	}
}

func (r *reader) across(rd *Reading, n *strict.Node) {
	if !word(n) {
		return
	}
	p, ok := r.resolve(n.Text, n.Pos)
	if !ok || p.skip {
		return
	}
	rd.Name = n.Text
	switch {
	case p.winding != nil:
		rd.AcrossPart, rd.AcrossWinding = p.part, p.winding
		rd.A = []string{p.part.Full(p.winding.Ends[0])}
		rd.B = []string{p.part.Full(p.winding.Ends[1])}
	case p.part != nil && p.terminal == "" && len(p.part.Terminals()) >= 2:
		rd.AcrossPart = p.part
		in, out, has := p.part.Kind.Through(p.part)
		if !has {
			r.bad(n.Pos, fmt.Sprintf("%s has more than two ends", n.Text), "say between which of its terminals")
			return
		}
		rd.A, rd.B = []string{p.part.Full(in)}, []string{p.part.Full(out)}
	default:
		r.bad(n.Pos, fmt.Sprintf("%s is a single node", n.Text), "name a part or a winding, or use between: [A, B]")
		return
	}
	rd.GroupA, rd.GroupB = rd.A, rd.B
}

// group resolves one probe: terminals joined by +; a winding is both its ends.
func (r *reader) group(n *strict.Node) (terminals, words []string) {
	if !word(n) {
		return nil, nil
	}
	offset := 0
	for _, piece := range strings.Split(n.Text, "+") {
		word := strings.TrimSpace(piece)
		pos := n.Offset(offset + utf8.RuneCountInString(piece) - utf8.RuneCountInString(strings.TrimLeft(piece, " ")))
		offset += utf8.RuneCountInString(piece) + 1
		if word == "" {
			r.bad(pos, "a node is missing beside the +", "write A + B")
			continue
		}
		p, ok := r.resolve(word, pos)
		switch {
		case !ok || p.skip:
			continue
		case p.terminal != "":
			terminals = append(terminals, p.terminal)
			words = append(words, p.terminal)
		case p.winding != nil:
			terminals = append(terminals, p.part.Full(p.winding.Ends[0]), p.part.Full(p.winding.Ends[1]))
			words = append(words, p.part.Full(p.winding.Name))
		default:
			r.bad(pos, fmt.Sprintf("%s is a part, not a node", word), "name one of its terminals, or use across: "+word)
		}
	}
	return terminals, words
}

func (r *reader) state(rd *Reading, n *strict.Node) {
	named := func(at *strict.Node, e strict.Entry, kind string) *part.Part {
		p, declared := r.s.byName[e.Key]
		if !declared || p == nil {
			if !declared && !r.shapeless("parts") {
				r.bad(e.KeyPos, fmt.Sprintf("there is no part %s", e.Key), "name a "+kind+" of this sheet")
			}
			return nil
		}
		if p.Kind.Name != kind {
			r.bad(e.KeyPos, fmt.Sprintf("%s is %s, not a %s", e.Key, withArticle(p.Kind.Name), kind), "name a "+kind+" of this sheet")
			return nil
		}
		return p
	}
	if sw := n.Get("switches"); sw != nil {
		rd.Switches = sw.Text
		for _, e := range sw.Entries {
			if p := named(sw, e, "switch"); p != nil {
				rd.Switch[p.Name] = e.Value.Str()
			}
		}
	}
	if fu := n.Get("fuses"); fu != nil {
		rd.AllFuses = fu.Text
		for _, e := range fu.Entries {
			if p := named(fu, e, "fuse"); p != nil {
				rd.Fuses[p.Name] = e.Value.Str()
			}
		}
	}
	if po := n.Get("positions"); po != nil {
		for _, e := range po.Entries {
			p := named(po, e, "selector")
			if p == nil || !word(e.Value) {
				continue
			}
			if !slices.Contains(p.Positions(), e.Value.Str()) {
				r.bad(e.Value.At(), fmt.Sprintf("%s has no position %s", p.Name, e.Value.Str()), strict.Suggest(e.Value.Str(), p.Positions(), "name one of its positions"))
				continue
			}
			rd.Positions[p.Name] = e.Value.Str()
		}
	}
	if wo := n.Get("without"); wo != nil {
		for _, item := range wo.Items {
			r.without(rd, item)
		}
	}
}

// without reads one thing taken out: a part, a lifted terminal, or all tubes.
func (r *reader) without(rd *Reading, n *strict.Node) {
	if !word(n) {
		return
	}
	if strict.Canon(n.Text) == "tubes" {
		for _, p := range r.s.Parts {
			if p.Kind.Name == "tube" || p.Kind.Name == "rectifier" && p.Word("of") == "" {
				rd.Without = append(rd.Without, p.Name)
			}
		}
		return
	}
	p, ok := r.resolve(n.Text, n.Pos)
	switch {
	case !ok || p.skip:
	case p.winding != nil:
		for _, t := range p.winding.Order {
			rd.Lifted = append(rd.Lifted, p.part.Full(t))
		}
	case p.part != nil:
		rd.Without = append(rd.Without, p.part.Name)
	case strings.HasPrefix(p.terminal, "plug.") || p.terminal == Chassis:
		r.bad(n.Pos, fmt.Sprintf("%s cannot be lifted", n.Text), "name a part or one of its terminals")
	default:
		rd.Lifted = append(rd.Lifted, p.terminal)
	}
}

func (r *reader) shown(rd *Reading, n *strict.Node) {
	if n == nil {
		return
	}
	if d, ok := n.Data.(Display); ok {
		rd.Shown = []Shown{{Display: d, At: n.Pos}}
		return
	}
	for _, e := range n.Entries {
		d, ok := e.Value.Data.(Display)
		t, err := quantity.Parse(e.Key, quantity.Time)
		if ok && err == nil {
			if slices.ContainsFunc(rd.Shown, func(s Shown) bool { return s.After == t.High }) {
				r.bad(e.KeyPos, fmt.Sprintf("%s is in the series twice", e.Key), "give each time once")
			}
			rd.Shown = append(rd.Shown, Shown{Display: d, After: t.High, At: e.Value.Pos})
		}
	}
	if n.Kind == strict.Map && len(n.Entries) == 0 {
		r.bad(n.Pos, "the series of readings is empty", "write it like {15 s: 180 MΩ, 60 s: 300 MΩ}")
	}
	sort.SliceStable(rd.Shown, func(i, j int) bool { return rd.Shown[i].After < rd.Shown[j].After })
}
