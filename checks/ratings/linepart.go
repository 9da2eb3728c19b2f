package ratings

import (
	"math"
	"slices"
	"strings"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
	"firstvolt/checks/sheet"
)

// borne is what one part bears in lasting operation, the worst of all states.
type borne struct {
	onLine, onWinding  bool
	volts, watts, amps quantity.Range // at the nominal supply, at its highest, at its highest
	needs              []figure.Need  // what would tell what is not known on the way
	failed             []figure.Need  // what could not be worked out at all
}

// bornes is what each rated part bears, done once.
func bornes(b *bench.Bench) map[*part.Part]*borne {
	return b.Keep(kept("borne"), func() any { return workBorne(b) }).(map[*part.Part]*borne)
}

// mostStates is how many states of switches and selectors are worked out: each
// costs some dozens of solutions.
const mostStates = 64

var tooManyStates = figure.Need{What: "every switch and selector position", How: "there are more than are worked out one by one: state how each selector is set"}

func workBorne(b *bench.Bench) map[*part.Part]*borne {
	out := map[*part.Part]*borne{}
	kinds := ratedParts(b)
	if len(kinds) == 0 || !b.Sheet.HasWiring() {
		return out
	}
	states, all := b.Combinations(bench.State{}, false)
	for n, st := range states {
		if n >= mostStates {
			all = false
			break
		}
		workState(b, st, kinds, out)
	}
	if !all {
		for _, p := range kinds {
			if out[p] == nil {
				out[p] = &borne{onLine: true, onWinding: true}
			}
			out[p].failed = append(out[p].failed, tooManyStates)
		}
	}
	return out
}

// ratedParts are the parts of the kinds that are asked what they bear.
func ratedParts(b *bench.Bench) (out []*part.Part) {
	for _, p := range b.Sheet.Parts {
		if b.Stage == "bare" && (p.Is(part.Tubes)) {
			continue // not in its socket yet
		}
		if slices.ContainsFunc(borneMarks, func(m borneMark) bool { return m.asks(p) }) {
			out = append(out, p)
		}
	}
	return out
}

// workState takes in one state: with neutral at earth, and, for what lies on the
// way to metal, with hot there, as behind a receptacle that nobody tested, and
// with as much between a conductor and earth as the bench may put there.
func workState(b *bench.Bench, st bench.State, rated []*part.Part, out map[*part.Part]*borne) {
	lines := b.Lines()
	grounds := []earthing{{conductor: lines[1]}, {conductor: lines[0]}}
	if most, _ := b.ToEarth(); most.High > 1.001*nominal(b).High {
		grounds = append(grounds, earthing{lines[1], most.High/nominal(b).High - 1})
	}
	for i, earthed := range grounds {
		l := newLasting(b, st, earthed, false, "")
		way := l.carrying(rated)
		if i > 0 && !way.earth || len(way.on)+len(way.across) == 0 {
			continue
		}
		l.take(way, out)
		for _, w := range way.crossed {
			l := newLasting(b, st, earthed, false, w)
			l.take(l.carrying(rated), out)
		}
	}
}

// ways is what carries current in one state.
type ways struct {
	on, across []*part.Part                 // rated parts from line to line, and along a secondary winding alone
	over       []*part.Part                 // of on: those that no way reaches but over a secondary
	crossed    []string                     // windings of a way along several: the sheet does not say their phase
	earth      bool                         // a way from the line leads over metal
	unsaid     map[*part.Part][]figure.Need // volts of windings that drive a part and that nobody knows
}

// carrying finds the rated parts on some way from line to line, and those on
// some way along a secondary winding.
func (l *lasting) carrying(rated []*part.Part) (w ways) {
	w.unsaid = map[*part.Part][]figure.Need{}
	lines := l.b.Lines()
	live := map[string]bool{}
	list := func(es []*circuit.Element) (ps []*part.Part) {
		for _, e := range es {
			live[e.Name] = true
			if p := bench.PartOfElement(e); p != nil && slices.Contains(rated, p) && !slices.Contains(ps, p) {
				ps = append(ps, p)
			}
		}
		return ps
	}
	without := slices.DeleteFunc(slices.Clone(l.es), func(e circuit.Element) bool { return e.Name == supplyElement })
	c := circuit.New(without, lines[0], lines[1])
	between := c.Between(lines[:1], lines[1:])
	w.on = list(between)
	if len(w.on) > 0 { // a way from line to line that leads over a secondary: their phase is not on the sheet either
		w.crossed = slices.DeleteFunc(others(between, nil), func(name string) bool {
			return slices.ContainsFunc(l.b.Wired().Primaries, func(v bench.PartWinding) bool { return v.Name() == name })
		})
	}
	if len(w.crossed) > 0 {
		w.over = slices.DeleteFunc(slices.Clone(w.on), func(p *part.Part) bool {
			return slices.Contains(list(c.Without(elementsOf(between, w.crossed)...).Between(lines[:1], lines[1:])), p)
		})
	}
	for name := range live {
		w.earth = w.earth || strings.HasPrefix(name, earthElement)
	}
	for _, p := range l.b.Parts(part.MainsCore) {
		for _, v := range p.Windings {
			if l.primary(p, v) || !c.Has(p.Full(v.Ends[0])) || !c.Has(p.Full(v.Ends[1])) {
				continue
			}
			es := c.Between([]string{p.Full(v.Ends[0])}, []string{p.Full(v.Ends[1])})
			found := slices.DeleteFunc(list(es), func(q *part.Part) bool { return slices.Contains(w.on, q) })
			for _, q := range found {
				if !slices.Contains(w.across, q) {
					w.across = append(w.across, q)
				}
				if need, unsaid := l.unsaid[v]; unsaid {
					w.unsaid[q] = append(w.unsaid[q], need)
				}
			}
			if len(found) > 0 {
				w.crossed = append(w.crossed, others(es, v)...)
			}
		}
	}
	// What carries nothing need not be turned.
	l.unknowns = slices.DeleteFunc(l.unknowns, func(u unknown) bool {
		return !slices.ContainsFunc(u.elements, func(name string) bool { return live[name] })
	})
	slices.Sort(w.crossed)
	w.crossed = slices.Compact(w.crossed)
	return w
}

// elementsOf names those of elements that are of windings.
func elementsOf(es []*circuit.Element, windings []string) (out []string) {
	for _, e := range es {
		if p := bench.PartOfElement(e); p != nil && e.Core != "" && slices.Contains(windings, p.Name+"."+p.WindingOf(e.Name).Name) {
			out = append(out, e.Name)
		}
	}
	return out
}

// others names the further windings among elements: the sheet does not say how
// their phase stands to that of w.
func others(es []*circuit.Element, w *part.Winding) (out []string) {
	for _, e := range es {
		q := bench.PartOfElement(e)
		if q == nil || e.Core == "" {
			continue
		}
		if v := q.WindingOf(e.Name); v != w {
			out = append(out, q.Name+"."+v.Name)
		}
	}
	return out
}

// take works out the circuit and takes in what each part bears.
func (l *lasting) take(way ways, out map[*part.Part]*borne) {
	all := append(slices.Clone(way.on), way.across...)
	ask := func(f func(worked, *part.Part) float64) func(worked) []float64 {
		return func(w worked) (got []float64) {
			for _, p := range all {
				got = append(got, f(w, p))
			}
			return got
		}
	}
	highest := highestVolts(l.b)
	vLow, vHigh, errV := l.corners(nominal(l.b).High, false, len(all), ask(worked.across))
	iLow, iHigh, errI := l.corners(highest, true, len(all), ask(worked.through))
	wLow, wHigh, errW := l.corners(highest, true, len(all), ask(worked.heat))
	for i, p := range all {
		o := out[p]
		if o == nil {
			o = &borne{}
			out[p] = o
		}
		o.onLine, o.onWinding = o.onLine || i < len(way.on), o.onWinding || i >= len(way.on) || slices.Contains(way.over, p)
		for _, err := range []error{errV, errI, errW} {
			if err != nil {
				o.failed = append(o.failed, figure.Need{What: "a circuit that can be solved", How: err.Error()})
				break
			}
		}
		if errV != nil || errI != nil || errW != nil {
			continue
		}
		more := func(r *quantity.Range, low, high float64, d quantity.Dim) {
			if low < 1e-6*high {
				low = 0 // rounding
			}
			*r = quantity.Range{Low: math.Max(r.Low, low), High: math.Max(r.High, high), Dim: d}
		}
		more(&o.volts, vLow[i], vHigh[i], quantity.Voltage)
		more(&o.amps, iLow[i], iHigh[i], quantity.Current)
		more(&o.watts, wLow[i], wHigh[i], quantity.Power)
		for _, n := range way.unsaid[p] {
			if !slices.Contains(o.failed, n) {
				o.failed = append(o.failed, n)
			}
		}
		for _, n := range l.needs {
			if !slices.Contains(o.needs, n) {
				o.needs = append(o.needs, n)
			}
		}
	}
}

// across are the volts on a part, the most between any two of its terminals
// that are rated together.
func (w worked) across(p *part.Part) float64 {
	most := 0.0
	for _, pair := range ratedPairs(p) {
		if w.l.c.Has(p.Full(pair[0])) && w.l.c.Has(p.Full(pair[1])) {
			most = math.Max(most, w.volts(p.Full(pair[0]), p.Full(pair[1])))
		}
	}
	return most
}

func ratedPairs(p *part.Part) (out [][2]string) {
	t := p.Terminals()
	switch {
	case p.Is(part.Filters):
		return [][2]string{{"line-in", "neutral-in"}, {"line-out", "neutral-out"}, {"line-out", "case"}, {"neutral-out", "case"}, {"line-in", "case"}, {"neutral-in", "case"}}
	case p.Is(part.Tubes):
		return [][2]string{{"h1", "h2"}}
	case p.Is(part.Turns):
		return [][2]string{{"1", "2"}}
	}
	for i := range t {
		for _, u := range t[i+1:] {
			out = append(out, [2]string{t[i], u})
		}
	}
	return out
}

// through is the most that flows through an element of a part.
func (w worked) through(p *part.Part) float64 {
	most := 0.0
	for i := range w.l.es {
		if bench.PartOfElement(&w.l.es[i]) == p {
			if a := w.amps(w.l.es[i].Name); !(a <= most) {
				most = a
			}
		}
	}
	return most
}

// heat is the power in a part: of a resistor as if all of its track carried
// what the most loaded piece of it does, as its rating means it.
func (w worked) heat(p *part.Part) float64 {
	most, whole := 0.0, 0.0
	for i := range w.l.es {
		e := &w.l.es[i]
		if bench.PartOfElement(e) != p {
			continue
		}
		whole += w.ohms[e.Name]
		if a := w.amps(e.Name); !(a <= most) {
			most = a
		}
	}
	return most * most * whole
}

// hanging is what lies across the line beside the set's own load, in A.
func hanging(b *bench.Bench) (quantity.Range, []figure.Need) {
	none := quantity.Exact(0, quantity.Current)
	if !b.Sheet.HasWiring() || len(b.Parts(part.Track|part.Turns|part.Lights|part.Chokes|part.Excites|part.Glows)) == 0 {
		return none, nil
	}
	l := newLasting(b, bench.ClosedState(), earthing{conductor: sheet.PlugNeutral}, true, "")
	way := l.carrying(b.Parts(part.Track | part.Turns | part.Lights | part.Chokes | part.Excites))
	if len(way.on) == 0 {
		return none, nil
	}
	low, high, err := l.corners(nominal(b).High, true, 1, func(w worked) []float64 { return []float64{w.amps(supplyElement)} })
	if err != nil {
		return none, []figure.Need{{What: "what hangs across the line", How: err.Error()}}
	}
	more := quantity.Between(low[0], high[0], quantity.Current)
	if len(l.needs) > 0 && !(more.High < 2*math.Max(more.Low, 0.05)) {
		return none, l.needs
	}
	return more, nil
}
