package ratings

import (
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
)

// place is what a capacitor bridges in the set as wired.
type place struct {
	line       bool // line conductor to line conductor, or points of one that a contact parts
	chassis    bool // line to what is bonded to ground
	accessible bool // line to what a hand may touch and nothing bonds
	// second is the other capacitor where two in series make the bridge, in every
	// position in which there is one; direct tells that it makes one by itself.
	second  *part.Part
	direct  bool
	witness []string
}

// add takes over what o bridges.
func (p *place) add(o place) {
	if len(p.witness) == 0 {
		p.witness = o.witness
	}
	p.line, p.chassis, p.accessible = p.line || o.line, p.chassis || o.chassis, p.accessible || o.accessible
	p.direct = p.direct || o.direct || o.second == nil && (o.chassis || o.accessible)
	switch {
	case p.direct:
		p.second = nil
	case o.second != nil:
		p.second = o.second
	}
}

// kept names what this room works out once for several figures.
type kept string

// places is findPlaces, done once.
func places(b *bench.Bench) map[*part.Part]place {
	return b.Keep(kept("places"), func() any { return findPlaces(b) }).(map[*part.Part]place)
}

// findPlaces finds what each capacitor bridges, in any position of any switch
// or selector: the worst of them counts.
func findPlaces(b *bench.Bench) map[*part.Part]place {
	out := map[*part.Part]place{}
	for _, st := range everyPosition(b) {
		e := newEnds(b, st)
		for _, p := range b.Parts(part.Filters) {
			out[p] = e.inside(p, out[p])
		}
		for _, p := range b.Parts(part.Capacitors) {
			t, pl := p.Terminals(), out[p]
			pl.add(e.between(p, [2]string{p.Full(t[0]), p.Full(t[1])}))
			out[p] = pl
		}
	}
	return out
}

// inside adds what the capacitors of a filter bridge from the line to its case.
func (e ends) inside(p *part.Part, pl place) place {
	live := slices.ContainsFunc([]string{"line-in", "neutral-in", "line-out", "neutral-out"}, func(t string) bool { return e.live.Has(p.Full(t)) })
	if far := e.far(p.Full("case")); live && !e.live.Has(p.Full("case")) && far.accessible {
		far.witness = []string{p.Full("line-out"), p.Full("case")}
		pl.add(far)
	}
	return pl
}

// everyPosition lists the states of every switch and selector position; with
// too many, those of the selectors as set.
func everyPosition(b *bench.Bench) []bench.State {
	if !b.Sheet.HasWiring() {
		return nil
	}
	states, _ := b.Combinations(bench.State{}, true)
	return states
}

// ends tells, in one state, what a terminal hangs on.
type ends struct {
	b            *bench.Bench
	c            *circuit.Circuit
	on           bench.Conductor
	hot, neutral *circuit.Reach // by what stands ahead of the loads
	live         *circuit.Reach // by anything that conducts, from either line
	primary      *circuit.Reach // by what stands ahead of the loads, and along primary windings
}

func newEnds(b *bench.Bench, st bench.State) ends {
	c := b.Circuit(st)
	lines := b.Lines()
	on := b.Conductor(st)
	return ends{b, c, on, on.Hot, on.Neutral, c.Reach(lines[:], bench.Warm), c.Reach(lines[:], alongPrimary)}
}

// alongPrimary is what stands ahead of the loads, and the primary windings of
// mains transformers: what lies across part of one shorts that part when it fails.
func alongPrimary(e *circuit.Element) bool {
	if bench.Near(e) {
		return true
	}
	p := bench.PartOfElement(e)
	if p == nil || e.Law != circuit.Winding {
		return false
	}
	return slices.ContainsFunc(p.Windings, func(w *part.Winding) bool {
		return (w.Role == "primary" || w.Role == "auto") && slices.ContainsFunc(w.Order, func(t string) bool { return p.Full(t) == e.A })
	})
}

// between tells what a capacitor between the two terminals bridges.
func (e ends) between(p *part.Part, t [2]string) place {
	x, y := e.on.At(t[0]), e.on.At(t[1])
	if a, c := e.pastResistor(p, t[0]), e.pastResistor(p, t[1]); e.on.At(a) != "" && e.on.At(a) == e.on.At(c) && (a != t[0] || c != t[1]) && e.on.Parted(a, c) {
		return place{line: true, witness: t[:]} // a quencher: resistor and capacitor across a contact
	}
	switch {
	case x != "" && x == y:
		return place{line: e.on.Parted(t[0], t[1]), witness: t[:]}
	case e.on.Across(p, t[0], t[1]):
		return place{line: true, witness: t[:]}
	case e.primary.Has(t[0]) && e.primary.Has(t[1]) && !e.c.SameNet(t[0], t[1]):
		return place{line: true, witness: t[:]} // across part of a primary, or from its tap to the line
	case e.live.Has(t[0]) && e.live.Has(t[1]):
		return place{}
	case e.live.Has(t[0]):
		return e.across(p, t[0], t[1])
	case e.live.Has(t[1]):
		return e.across(p, t[1], t[0])
	}
	return place{}
}

// pastResistor is the far end of a resistor that alone leads on from a
// terminal of p; else the terminal itself.
func (e ends) pastResistor(p *part.Part, terminal string) string {
	out, n := terminal, 0
	es := e.c.Elements()
	for i := range es {
		q := bench.PartOfElement(&es[i])
		if q == nil || q == p {
			continue
		}
		near, far := e.c.SameNet(es[i].A, terminal), e.c.SameNet(es[i].B, terminal)
		if near == far {
			continue
		}
		n++
		if q.Is(part.Resists) {
			out = es[i].B
			if far {
				out = es[i].A
			}
		}
	}
	if n != 1 {
		return terminal
	}
	return out
}

// across tells what a capacitor from a live terminal to one that is not live
// bridges; where nothing else holds that point, what the next capacitor adds.
func (e ends) across(p *part.Part, live, far string) place {
	if pl := e.far(far); pl.chassis || pl.accessible {
		pl.witness = []string{live, far}
		return pl
	}
	reach := e.c.Reach([]string{far}, bench.Warm)
	var out place
	for _, q := range e.b.Parts(part.Capacitors) {
		t := q.Terminals()
		if q == p {
			continue
		}
		for i := range t {
			near, beyond := q.Full(t[i]), q.Full(t[1-i])
			if !reach.Has(near) || reach.Has(beyond) {
				continue
			}
			pl := e.far(beyond)
			if e.live.Has(beyond) {
				pl = place{line: true}
			}
			if pl.line || pl.chassis || pl.accessible {
				pl.second, pl.witness = q, []string{live, far, near, beyond}
				out.add(pl)
			}
		}
	}
	if !out.line && !out.chassis && !out.accessible { // three and more in series: each is asked for itself
		out = e.metal(e.chain(p, far))
		out.witness = []string{live, far}
	}
	return out
}

// chain is what a point that is not live reaches through any number of
// capacitors beside p.
func (e ends) chain(p *part.Part, far string) *circuit.Reach {
	return e.c.Reach([]string{far}, func(el *circuit.Element) bool {
		q := bench.PartOfElement(el)
		further := q != nil && q != p && (q.Is(part.Capacitors))
		return (bench.Warm(el) || further) && !e.live.Has(el.A) && !e.live.Has(el.B)
	})
}

// far tells whether a point that is not live is bonded metal or metal that a
// hand may touch.
func (e ends) far(t string) place { return e.metal(e.c.Reach([]string{t}, bench.Warm)) }

// metal tells the same of all that was reached.
func (e ends) metal(r *circuit.Reach) place {
	bonded := e.b.Wired().Bonded == "yes"
	var out place
	if r.Has(sheet.PlugGround) && e.b.Sheet.Plug.Ground {
		out.chassis = true
	}
	if r.Has(sheet.Chassis) {
		// An unbonded chassis that only a screwdriver reaches is still metal.
		out.chassis, out.accessible = out.chassis || bonded, !bonded
	}
	for _, p := range e.b.Parts(part.MainsCore) {
		for _, w := range p.Windings {
			// What the rest of the set hangs on a secondary winding is not all on
			// the sheet; it ends on the chassis.
			role := e.b.WindingRole(bench.PartWinding{Part: p, Winding: w})
			if role != "primary" && slices.ContainsFunc(w.Order, func(t string) bool { return r.Has(p.Full(t)) }) {
				out.chassis, out.accessible = out.chassis || bonded, out.accessible || !bonded
			}
		}
	}
	for _, body := range e.b.Parts(part.Metal) {
		if body.Word("reach") == "enclosed" || !r.Has(body.Name) {
			continue
		}
		if !out.chassis || !e.c.Reach([]string{body.Name}, bench.GroundPath).Has(sheet.PlugGround) {
			out.accessible = true
		}
	}
	return out
}

// searched is the figure of what was looked for in every switch and selector
// position: not found where there are more than were tried is not known.
func searched(b *bench.Bench, found bool, witness []string) figure.Figure {
	f := figure.So(found)
	if needs := untried(b); !found && len(needs) > 0 {
		f = figure.Lacking(needs...)
	}
	f.Witness = witness
	return f
}

// untried is the need that stands where there are more switch and selector
// positions than were tried; none where all were.
func untried(b *bench.Bench) []figure.Need {
	if _, all := b.Combinations(bench.State{}, true); all {
		return nil
	}
	return []figure.Need{everyPositionNeed}
}

var everyPositionNeed = figure.Need{What: "every switch and selector position", How: "there are more than can be tried one by one: state how each selector is set"}

// bridges makes one presence figure of where each capacitor stands.
func bridges(name, says string, of []string, is func(place) bool) bench.Check {
	return bench.EachPart(figure.Def{Name: name, Of: of, Present: true, Says: says}, func(b *bench.Bench, p *part.Part) figure.Figure {
		pl := places(b)[p]
		return searched(b, is(pl), pl.witness)
	})
}

var bridging = []bench.Check{
	bridges("bridges-line", "it bridges the line conductors, or a contact in one of them.", capacitors,
		func(p place) bool { return p.line }),
	bridges("bridges-bonded-chassis", "it bridges a line conductor and metal that is bonded to ground.", capacitors,
		func(p place) bool { return p.chassis }),
	bridges("bridges-to-hand", "it, or what is inside it, bridges a line conductor and metal that a hand can touch and nothing bonds.", holds,
		func(p place) bool { return p.accessible }),
	bridges("bridges-mains", "it bridges a line conductor and another, the chassis or touchable metal.", capacitors,
		func(p place) bool { return p.line || p.chassis || p.accessible }),
}
