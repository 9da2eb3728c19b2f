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

// solderedSupply tells whether something of the supply that no stage takes out
// hangs on what every stage energizes: a rectifier of metal that a winding or
// the line feeds, or an electrolytic across one of them: through resistors and
// chokes too.
func (b *Bench) solderedSupply() bool {
	c := b.Circuit(ClosedState())
	// What drives them: the line, and each winding by itself.
	type driver struct {
		ends    []string
		through func(*circuit.Element) bool // what leads on from it, both ways
	}
	sources := []driver{{[]string{sheet.PlugHot, sheet.PlugNeutral}, bothWays}}
	for _, p := range b.Parts(part.Supplies) {
		for _, w := range p.Windings {
			var ends []string
			for _, t := range w.Order {
				ends = append(ends, p.Full(t))
			}
			sources = append(sources, driver{ends, func(e *circuit.Element) bool {
				return bothWays(e) || secondCoil(e) && !(slices.Contains(ends, e.A) && slices.Contains(ends, e.B))
			}})
		}
	}
	var metal [][]string
	var filters []*part.Part
	for _, p := range b.Parts(part.Rectifies | part.Polar) {
		var ends []string
		for _, t := range p.Terminals() {
			ends = append(ends, p.Full(t))
		}
		switch {
		case p.Is(part.Polar):
			filters = append(filters, p)
		case b.rectifierRole(p) != "tube":
			metal = append(metal, ends)
		}
	}
	for _, source := range sources {
		if fed := c.Reach(source.ends, Conductors); slices.ContainsFunc(metal, func(ends []string) bool { return slices.ContainsFunc(ends, fed.Has) }) {
			return true
		}
		on := c.Reach(source.ends, source.through)
		if slices.ContainsFunc(filters, func(p *part.Part) bool {
			return on.Has(p.Full("plus")) && on.Has(p.Full("minus")) && alternates(c, p, source.ends, source.through)
		}) {
			return true
		}
	}
	return false
}

// alternates tells whether an electrolytic lies in a loop with a source of
// alternating current: its ends come to two different points of the source, the
// one without passing the other, through what conducts both ways.
func alternates(c *circuit.Circuit, p *part.Part, source []string, through func(*circuit.Element) bool) bool {
	plus, minus := p.Full("plus"), p.Full("minus")
	if c.SameNet(plus, minus) {
		return false
	}
	at := func(terminal string, nets ...string) bool {
		return slices.ContainsFunc(nets, func(n string) bool { return c.SameNet(terminal, n) })
	}
	points := func(from, other string) (out []string) {
		barred := func(t string) bool { return at(t, source...) && !at(t, from) || at(t, other) }
		r := c.Reach([]string{from}, func(e *circuit.Element) bool {
			return through(e) && !barred(e.A) && !barred(e.B)
		})
		es := c.Elements()
		for _, s := range source {
			comes := at(s, from) || slices.ContainsFunc(es, func(e circuit.Element) bool {
				return through(&e) && !at(s, other) && (r.Has(e.A) && at(e.B, s) || r.Has(e.B) && at(e.A, s))
			})
			if comes {
				out = append(out, s)
			}
		}
		return out
	}
	from, to := points(plus, minus), points(minus, plus)
	return slices.ContainsFunc(from, func(a string) bool {
		return slices.ContainsFunc(to, func(b string) bool { return !c.SameNet(a, b) })
	})
}

// secondCoil lets through the copper of a secondary: in series with another
// winding it is next to a wire.
func secondCoil(e *circuit.Element) bool {
	p := PartOfElement(e)
	return p != nil && p.Is(part.MainsCore) && e.Core != "" && !slices.ContainsFunc(p.Windings, func(w *part.Winding) bool {
		return w.Role == "primary" && slices.ContainsFunc(w.Order, func(t string) bool { return p.Full(t) == e.A })
	})
}

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
	if v, ok := part.ValueOf(s.Supply().Get("branch").Get("rating")); ok {
		f["branch-device"] = span2(v)
	}
	switch {
	case b.TooLarge(): // not known
	case b.solderedSupply():
		f["soldered-supply"] = word("present")
	default:
		f["soldered-supply"] = word("absent")
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
	f["earthing-said"] = word("yes")
	if all := b.Earthings(); len(all) > 1 {
		f["earthing-said"] = word("no")
	} else if all[0] != "unknown" {
		f["earthing"] = word(all[0])
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
	if b.TooLarge() {
		return out // and the verdict says why (Setting)
	}
	for _, p := range s.Parts {
		sub := figure.Subject{Name: p.Name, Kind: p.Kind.Name, Role: b.role(p), At: p.At}
		if p.Is(part.Metal) {
			sub.Reach = "touchable"
			if p.Word("reach") == "enclosed" {
				sub.Reach = "enclosed"
			}
		}
		out = append(out, sub)
		for _, w := range p.Windings {
			role := b.WindingRole(PartWinding{p, w})
			if p.Is(part.OutputCore) {
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
