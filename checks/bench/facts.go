package bench

import (
	"fmt"
	"slices"

	"firstvolt/checks/circuit"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
)

func word(w string) figure.Fact { return figure.Fact{Word: w} }

func span2(r quantity.Range) figure.Fact { return figure.Fact{Range: &r} }

// readFacts fills the closed list of facts (figure.FactNames).
func (b *Bench) readFacts() map[string]figure.Fact {
	s := b.Sheet
	nominal, _ := b.Mains()
	f := map[string]figure.Fact{
		"stage":         word(b.Stage),
		"construction":  word(b.wired.Construction),
		"bonded":        word(b.wired.Bonded),
		"plug-fits":     word("one-way"),
		"plug-ground":   word("absent"),
		"system":        word(b.System()),
		"mains":         span2(quantity.Exact(nominal, quantity.Voltage)),
		"frequency":     span2(s.Region.Frequency),
		"fuse-standard": word(s.Region.FuseStandard),
		"branch-device": span2(s.Region.BranchDevice),
		"plug-fuse":     word("none"),
	}
	if b.SupplyNeed() != nil {
		delete(f, "mains")
	}
	switch b.wired.Orientation {
	case "both-ways":
		f["plug-fits"] = word("both-ways")
	case "": // what is asked of either is asked
		delete(f, "plug-fits")
	}
	if b.Grounded() {
		f["plug-ground"] = word("present")
	}
	if e := s.Supply().Word("earthing"); e != "" && e != "unknown" {
		f["earthing"] = word(e)
	} else if e == "" && s.Region.Earthing != "unknown" {
		f["earthing"] = word(s.Region.Earthing)
	}
	if s.Plug.Fuse != nil {
		f["plug-fuse"] = span2(*s.Plug.Fuse)
	}
	if v, ok := s.CordValue("plug-fuse"); ok {
		f["plug-fuse"] = span2(v)
	}
	switch s.SetNode().Word("chassis") {
	case "exposed":
		f["chassis-reach"] = word("touchable")
	case "enclosed":
		f["chassis-reach"] = word("enclosed")
	}
	return f
}

// readSubjects lists everything that rules may be asked of.
func (b *Bench) readSubjects() []figure.Subject {
	s := b.Sheet
	reach := b.facts["chassis-reach"].Word
	at := func(n *strict.Node) strict.Pos { return n.At() }
	out := []figure.Subject{
		{Name: "set", Kind: "set", At: at(s.SetNode())},
		{Name: "chassis", Kind: "chassis", Reach: reach, At: at(s.SetNode())},
		{Name: "supply", Kind: "supply", At: at(s.Supply())},
		{Name: "plug", Kind: "plug", At: at(s.Supply().Get("plug"))},
		{Name: "cord", Kind: "cord", At: at(s.Cord())},
	}
	for _, p := range s.Parts {
		sub := figure.Subject{Name: p.Name, Kind: p.Kind.Name, Role: b.role(p), At: p.At}
		if p.Kind.Name == "body" {
			sub.Reach = "touchable"
			if p.Word("reach") == "enclosed" {
				sub.Reach = "enclosed"
			}
		}
		out = append(out, sub)
		for _, w := range p.Windings {
			role := w.Role
			if p.Kind.Name == "output-transformer" {
				role = "output"
			}
			out = append(out, figure.Subject{Name: p.Name + "." + w.Name, Kind: "winding", Role: role, At: w.At})
		}
	}
	for _, l := range s.Upstream {
		out = append(out, figure.Subject{Name: fmt.Sprintf("upstream %d", l.Number), Kind: "link", Role: l.Kind, At: l.At})
	}
	var names []string
	for n := range s.Instruments {
		names = append(names, n)
	}
	slices.Sort(names)
	for _, n := range names {
		out = append(out, figure.Subject{Name: n, Kind: "instrument", At: s.Instruments[n].At})
	}
	for _, key := range sheet.Inspections {
		sub := figure.Subject{Name: key, Kind: "inspection", Role: key}
		if a, ok := s.Inspection[key]; ok {
			sub.At = a.At
		}
		out = append(out, sub)
	}
	seen := map[string]bool{}
	for _, rd := range s.Readings {
		if !seen[rd.Name] {
			seen[rd.Name] = true
			out = append(out, figure.Subject{Name: rd.Name, Kind: "reading", Role: rd.Kind, At: rd.At})
		}
	}
	return out
}

// role is the part that a part plays as wired, where rules depend on it:
// capacitors, and the resistors and bodies that touch line.
func (b *Bench) role(p *part.Part) string {
	switch p.Kind.Name {
	case "capacitor", "electrolytic", "varistor", "neon", "arrester":
		return b.bridgeRole(p)
	case "fuse", "switch":
		if b.onMains(p) {
			return "mains"
		}
		return "inside"
	}
	return ""
}

// onMains tells whether a line conductor reaches the part before any load,
// with every switch closed and in some selector position: a fuse or switch of
// the mains entry.
func (b *Bench) onMains(p *part.Part) bool {
	states, _ := b.Combinations(ClosedState(), true)
	for _, st := range states {
		r := b.Circuit(st).Reach(b.linesOf(), Near)
		for _, t := range p.Terminals() {
			if r.Has(p.Full(t)) {
				return true
			}
		}
	}
	return false
}

// Side is what one end of a part hangs on.
type Side struct {
	Line      bool // a line conductor, or chassis or rail that is one
	Chassis   bool // the chassis, not being a line conductor
	Touchable bool // a touchable body or an unbonded touchable chassis
	Ground    bool // the protective conductor
}

// SideOf tells what terminal hangs on through anything that conducts, in the
// set switched on: lines, chassis, touchable parts.
func (b *Bench) SideOf(terminal string) Side {
	states, _ := b.Combinations(ClosedState(), true)
	var s Side
	for _, st := range states {
		r := b.Circuit(st).Reach([]string{terminal}, func(e *circuit.Element) bool {
			return Conductors(e) && !ProtectiveResistor(e)
		})
		if r.Has(sheet.PlugHot) || r.Has(sheet.PlugNeutral) {
			s.Line = true
		}
		if r.Has(sheet.PlugGround) {
			s.Ground = true
		}
		if r.Has(sheet.Chassis) {
			s.Chassis = true
		}
		for _, body := range b.Parts("body") {
			if body.Word("reach") != "enclosed" && r.Has(body.Name) {
				s.Touchable = true
			}
		}
	}
	if s.Line {
		s.Chassis = false
	}
	return s
}

// bridgeRole tells what a capacitor or the like bridges: line (between line
// conductors), chassis (line to a bonded chassis), accessible (line to a
// touchable part that is not bonded), contact (across a switch or between
// points of one line conductor), or inside (neither end on line).
func (b *Bench) bridgeRole(p *part.Part) string {
	t := p.Terminals()
	if len(t) < 2 || !b.Sheet.HasWiring() {
		return ""
	}
	x, y := b.SideOf(p.Full(t[0])), b.SideOf(p.Full(t[1]))
	if !x.Line && !y.Line {
		return "inside"
	}
	if x.Line && y.Line {
		return b.lineRole(p)
	}
	far := y
	if y.Line {
		far = x
	}
	bonded := b.wired.Bonded == "yes"
	switch {
	case (far.Chassis || far.Ground) && bonded:
		return "chassis"
	case far.Touchable || far.Chassis && b.facts["chassis-reach"].Word != "enclosed":
		return "accessible"
	case far.Chassis:
		return "accessible" // an unbonded chassis that only a screwdriver reaches is still metal
	}
	return "series" // from line to a node that nothing else holds: one of two in series
}

// lineRole tells a capacitor across the line from one across a contact: with
// the windings and other loads taken away, its two ends hang on different
// line conductors or on one.
func (b *Bench) lineRole(p *part.Part) string {
	c := b.Circuit(ClosedState())
	t := p.Terminals()
	one := c.Reach([]string{p.Full(t[0])}, Contacts)
	if one.Has(p.Full(t[1])) {
		return "contact"
	}
	return "line"
}
