package ratings

import (
	"math"
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
)

// loadedTurns are the volts of a section under load: its stated share of
// `voltage`, of `no-load` only where nothing else is stated.
func loadedTurns(e *circuit.Element, w *part.Winding) float64 {
	turns := e.Turns.High
	loaded, okL := part.ValueOf(w.Node.Get("voltage"))
	idle, okI := part.ValueOf(w.Node.Get("no-load"))
	if okL && okI && idle.High > 0 {
		turns *= loaded.High / idle.High
	}
	return turns
}

// winding couples a section with the others of its transformer.
func (l *lasting) winding(e circuit.Element, p *part.Part) {
	w := p.WindingOf(e.Name)
	turns := loadedTurns(&e, w)
	switch {
	case p.Is(part.OutputCore):
		l.ohms(e, circuit.Anything(), figure.Need{What: p.Name + " on the line", How: "a winding of an output transformer is no load for the line"})
		return
	case !(turns > 0 && turns < 1e6):
		need := figure.Need{What: bench.PartWinding{Part: p, Winding: w}.Name() + " voltage", How: "volts of the winding as connected: its label, the diagram, a low voltage fed in"}
		if l.primary(p, w) || l.live.Has(e.A) || l.live.Has(e.B) { // what the line drives lifts all the others by nobody knows how much
			l.ohms(e, circuit.Anything(), need)
		}
		l.unsaid[w] = need
		return
	}
	if l.bare && !l.primary(p, w) {
		return
	}
	if !l.aiding(p, w) || l.turned == p.Name+"."+w.Name {
		e.A, e.B = e.B, e.A
	}
	e.Turns = circuit.Exactly(turns)
	v := value{Point: circuit.Point{R: 1e-7 * turns * turns, Turns: turns}}
	name := e.Name
	e.Conducts, e.R, e.C, e.L, e.Law = circuit.Conducting, circuit.Exactly(1), circuit.Interval{}, circuit.Interval{}, circuit.Linear
	l.es = append(l.es, e)
	if l.primary(p, w) && l.sections(p) > 1 {
		l.copper[name] = sectionCopper * turns * turns / l.size(p)
	}
	if l.primary(p, w) && !l.magnetised(e.Core) {
		v.Lm = turns * turns / idleShare / (2 * math.Pi * l.hertz())
	}
	l.fixed[name] = v
}

// sectionCopper is the resistance of a primary section, as a share of its rated
// impedance: what makes sections side by side share their current (common
// practice, half of the usual regulation of 6 % and more at most).
const sectionCopper = 0.03

// sections counts the primary windings of a transformer that the line comes to.
func (l *lasting) sections(p *part.Part) (n int) {
	for _, w := range l.b.Wired().Primaries {
		if w.Part == p {
			n++
		}
	}
	return n
}

// size is a transformer's VA, its own, the nameplate's, or that of a usual set.
func (l *lasting) size(p *part.Part) float64 {
	if q, ok := p.Value("power"); ok && q.Low > 0 && q.Bounded() {
		return q.Low
	}
	if q, ok := l.b.Sheet.Nameplate("power"); ok && q.Low > 0 && q.Bounded() {
		return q.Low
	}
	return 60
}

// idleShare is what a core takes for itself here, of a volt-ampere: next to
// nothing, as the nameplate counts it already.
const idleShare = 1e-3

func (l *lasting) hertz() float64 { return l.b.Sheet.Region.Frequency.Low }

func (l *lasting) magnetised(core string) bool {
	for i := range l.es {
		if l.es[i].Core == core && l.fixed[l.es[i].Name].Lm > 0 {
			return true
		}
	}
	return false
}

// primary tells a winding that the line comes to.
func (l *lasting) primary(p *part.Part, w *part.Winding) bool {
	return slices.ContainsFunc(l.b.Wired().Primaries, func(x bench.PartWinding) bool { return x.Part == p && x.Winding == w })
}

// aiding tells whether the ends of a winding on the line stand as the line
// comes to them: its sections are taken as rightly phased, which
// primary-sections-phased asks.
func (l *lasting) aiding(p *part.Part, w *part.Winding) bool {
	for _, f := range l.feeds {
		for _, s := range f.stretches {
			if s.winding.Part == p && s.winding.Winding == w {
				return s.forward
			}
		}
	}
	return true
}

// fed lists, net by net, the ends of rectifiers that the line comes to by what
// conducts, and the conductor that their current goes back to.
func (l *lasting) fed(c *circuit.Circuit) [][2]string {
	lines := l.b.Lines()
	r := c.Reach(lines[:], bothWays)
	hot := c.Reach(lines[:1], bench.Near)
	var out [][2]string
	es := c.Elements()
	for i := range es {
		e := &es[i]
		if p := bench.PartOfElement(e); !l.rectifies(p, e) {
			continue
		}
		for _, t := range []string{e.A, e.B} {
			if !r.Has(t) || slices.ContainsFunc(out, func(o [2]string) bool { return c.SameNet(o[0], t) }) {
				continue
			}
			back := lines[0]
			if hot.Has(t) || !c.Reach(lines[1:], bench.Near).Has(t) {
				back = lines[1]
			}
			if !c.SameNet(t, back) {
				out = append(out, [2]string{t, back})
			}
			break // the end that the line comes to first; the other is what it feeds
		}
	}
	return out
}

// rectifies tells an element from a plate or anode to what is the cathode there:
// the heater's end only where the sheet has none of its own.
func (l *lasting) rectifies(p *part.Part, e *circuit.Element) bool {
	if p == nil || !p.Is(part.Rectifies) || e.Conducts != circuit.OneWay && e.Law != circuit.ColdTube {
		return false
	}
	return e.B != p.Full("h1") || !l.b.Sheet.OnWire(p.Full("cathode"))
}

// bothWays lets through what carries alternating current beside rectifiers.
func bothWays(e *circuit.Element) bool { return bench.Conductors(e) && e.Conducts != circuit.OneWay }

// feeders puts in what the set draws by its nameplate beyond what the sheet has
// of it: through the transformers on the line, and through its rectifiers.
func (l *lasting) feeders(c *circuit.Circuit) {
	if l.bare {
		return
	}
	ends := l.fed(c)
	var cores []int
	for i := range l.es {
		p := bench.PartOfElement(&l.es[i])
		if l.fixed[l.es[i].Name].Lm > 0 && p.Is(part.MainsCore) {
			cores = append(cores, i)
		}
	}
	if len(ends)+len(cores) == 0 {
		return
	}
	volts := nominal(l.b).High
	plate := nameplate(l.b)
	least, most := plate.least.Low, plate.most.High
	if len(plate.needs) > 0 || !(most < math.Inf(1)) {
		least, most = 0, volts // 1 Ω across the line: more than any set
		l.need(plate.needs...)
	}
	known := 0.0
	if c := circuit.New(l.es); len(plate.needs) == 0 {
		if s, err := l.solve(c, nil, volts, true); err == nil {
			known = s.amps(supplyElement)
		}
	}
	more := quantity.Between(math.Max(least-known, 0), math.Max(most-known, 0), quantity.Current)
	if len(ends)+len(cores) > 1 {
		more.Low = 0 // how they share it, the sheet does not say
	}
	ohms := func(i float64) float64 { return math.Min(volts/i, almostOpen) }
	for n, t := range ends {
		e := circuit.Element{Name: "what rectifiers draw " + string(rune('a'+n%26)) + t[0], A: t[0], B: t[1]}
		l.may(e, ohmic(ohms(more.High)), ohmic(ohms(more.Low)))
	}
	for _, i := range cores {
		v := l.fixed[l.es[i].Name]
		loss := func(amps float64) value {
			w := v
			w.Rm = v.Turns * v.Turns / math.Max(amps*volts, v.Turns*v.Turns/almostOpen)
			return w
		}
		name := l.es[i].Name
		u := unknown{elements: []string{name}, ways: []map[string]value{{name: loss(more.High)}, {name: loss(more.Low)}}}
		if more.High > more.Low {
			l.unknowns = append(l.unknowns, u)
		}
		l.fixed[name] = u.ways[0][name]
	}
}
