package faults

import (
	"maps"
	"math"
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/figure"
	"firstvolt/checks/handbook"
	"firstvolt/checks/quantity"
	"firstvolt/checks/sheet"
)

var (
	reachedDef = &figure.Def{Name: "hand-finds-it", Room: "faults", Of: []string{"chassis", "body"}, Present: true,
		Says: "on the bench a hand can touch it"}
	soundDef = &figure.Def{Name: "touch-current", Room: "faults", Of: []string{"chassis", "body"}, Unit: quantity.Current,
		Says: "most current through a person who touches it, switched on and nothing at fault"}
	offDef = &figure.Def{Name: "touch-current-off", Room: "faults", Of: []string{"chassis", "body"}, Unit: quantity.Current,
		Says: "most current through a person who touches it, plugged in and switched off"}
	faultDef = &figure.Def{Name: "touch-current-one-fault", Room: "faults", Of: []string{"chassis", "body"}, Unit: quantity.Current,
		Says: "most current through a person who touches it, with any one fault that nothing opens in its time"}
	branchTouchDef = &figure.Def{Name: "touch-current-left-to-branch", Room: "faults", Of: []string{"chassis", "body"}, Unit: quantity.Current,
		Says: "most current through a person who touches it, with a fault that only the branch device can open, or that something opens in its time but no sooner than it can kill"}
)

func computeReached(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	for _, t := range roomOf(b).metals {
		out = append(out, figure.Is(reachedDef, t.subject, t.touched))
	}
	return out
}

// touched computes a figure of every piece of metal that a hand finds.
func touched(d *figure.Def, compute func(*room, metal) (worst, error)) func(*bench.Bench) []figure.Figure {
	return func(b *bench.Bench) []figure.Figure {
		var out []figure.Figure
		r := roomOf(b)
		ofFaults := d == faultDef || d == branchTouchDef
		untold := r.b.Keep(untoldKey{}, func() any { return r.untold() }).(noVolts)
		for _, t := range r.metals {
			if !t.touched {
				continue
			}
			w, err := compute(r, t)
			gap := r.gap(t)
			switch {
			case gap.winding.name != "":
				out = append(out, figure.NotKnown(d, t.subject, gap.winding.need("it reaches this metal")))
			case ofFaults && untold.name != "":
				out = append(out, figure.NotKnown(d, t.subject, untold.need("the insulation beside it may break down")))
			case !b.Sheet.HasWiring():
				out = append(out, figure.NotKnown(d, t.subject, figure.Need{What: "the wiring"}))
			case err != nil:
				out = append(out, figure.NotKnown(d, t.subject, unsolvable(err)))
			case gap.direct:
				out = append(out, figure.NotKnown(d, t.subject, figure.Need{What: "the current that a rectifier or a part that strikes brings to " + t.terminal, How: "no key says it; measure it, or keep hands away"}))
			default:
				f := figure.Number(d, t.subject, w.range_())
				f.Note, f.Trace, f.From = w.note, w.trace, r.from(t)
				if u, stands := r.uncounted(); stands && ofFaults && !(w.high <= limit("one-fault")) {
					f.Note, f.Settle = f.Note+"; "+u.note, u.needs
				}
				if ofFaults && !(w.high <= limit("one-fault")) {
					f.Settle = append(slices.Clone(f.Settle), unreadPlates(b)...)
				}
				if t.beside && !t.read {
					f.Settle = append(slices.Clone(f.Settle), b.UnreadInsulation(t.terminal))
				}
				out = append(out, f)
			}
		}
		return out
	}
}

// from lists where the assumptions are from that count for a piece of metal of
// this set.
func (r *room) from(t metal) []figure.Basis {
	of := []string{"conductor"}
	switch r.earthing {
	case "tn", "none":
	case "it":
		of = append(of, "installation", "impedance")
	default:
		of = append(of, "installation", "service")
	}
	if t.farads == bench.UsualFarads && t.terminal == sheet.Chassis && len(r.b.Wired().Primaries) > 0 {
		of = append(of, "winding")
	} else if t.farads == bench.UsualFarads {
		of = append(of, "stray")
	}
	if len(r.b.Sheet.Links("isolating-transformer")) > 0 {
		of = append(of, "isolator")
	}
	if len(r.b.Parts("filter")) > 0 {
		of = append(of, "filter")
	}
	var out []figure.Basis
	for _, what := range of {
		out = append(out, r.source.From[what])
	}
	return out
}

// worst gathers the worst case of a question.
type worst struct {
	low, high float64
	note      string
	trace     []string
}

func (w worst) range_() quantity.Range {
	high := twoDigits(math.Max(w.high, untold))
	return quantity.Range{Low: math.Min(w.low, high), High: high, Dim: quantity.Current}
}

// twoDigits is the next number of two significant digits that is not less. No
// more is known: insulation and capacitance are placed at one end of what they
// are spread over, and partly cancel what stands at another.
func twoDigits(x float64) float64 {
	if !(x > 0) || math.IsInf(x, 1) {
		return x
	}
	unit := math.Pow(10, math.Floor(math.Log10(x))-1)
	return quantity.Six(math.Ceil(x/unit*(1-1e-9)) * unit)
}

// untold is the current in A below which nothing is told apart: a fiftieth of
// what can be felt.
const untold = 10e-6

// take counts a case: between low and high, and how it reads.
func (w *worst) take(low, high float64, note func() (string, []string)) {
	w.low = math.Max(w.low, low)
	if high > w.high || w.note == "" && high >= w.high {
		w.high = high
		w.note, w.trace = note()
	}
}

// limit of touch current, in A; one that is not tabled is met by nothing.
func limit(state string) float64 {
	amps, _, _ := handbook.TouchLimit(state, "ac")
	return amps
}

type soundlyKey struct{ off bool }

// soundly is the worst with nothing at fault, switched on or off.
func soundly(off bool) func(*room, metal) (worst, error) {
	type result struct {
		of  map[string]*worst
		err error
	}
	return func(r *room, t metal) (worst, error) {
		v := r.b.Keep(soundlyKey{off}, func() any {
			of, err := r.soundly(off)
			return result{of, err}
		}).(result)
		if v.err != nil {
			return worst{}, v.err
		}
		return *v.of[t.terminal], nil
	}
}

func (r *room) soundly(off bool) (map[string]*worst, error) {
	of := map[string]*worst{}
	for _, t := range r.metals {
		of[t.terminal] = &worst{}
	}
	setups, err := r.setups(danger)
	if err != nil {
		return nil, err
	}
	for _, s := range setups {
		if s.limiter && r.lampsInHot() || s.off() != off && !(len(s.state.Closed) == 0) {
			continue
		}
		for _, t := range r.metals {
			if !t.touched {
				continue
			}
			if err := of[t.terminal].add(r, s, fault{}, t, limit("normal")); err != nil {
				return nil, err
			}
		}
	}
	return of, nil
}

// add counts what a person finds in one setup with one fault, nothing opening.
func (w *worst) add(r *room, s setup, f fault, t metal, limit float64) error {
	m, err := r.model(s)
	if err != nil {
		return err
	}
	h, err := m.find(f, t.terminal, math.Min(limit, w.high))
	if err != nil {
		return err
	}
	low := 0.0
	if !(h.amps <= limit) {
		low = r.leastTouch(s, f, t)
	}
	w.take(low, h.amps, func() (string, []string) { return m.tell(f, t, h.hand, opens{}), m.lines(t, h.hand) })
	return nil
}

// leastTouch is what a person finds for certain, 0 where nothing is certain:
// with every unit that does not say what it does, whatever that is. On a bench
// chain or a supply of which nothing is said, something may open a fault or
// leave it no way back.
func (r *room) leastTouch(s setup, f fault, t metal) float64 {
	if s.way.doubted || !f.sound() && (!r.b.Sheet.UpstreamKnown || r.earthing == "unknown") {
		return 0
	}
	least := math.Inf(1)
	ways, err := r.waysRound(s.end, s.limiter)
	for _, w := range ways {
		if !slices.Equal(w.turned, s.way.turned) || !maps.Equal(w.mated, s.way.mated) {
			continue
		}
		o := s
		o.way.stands = w.stands
		least = math.Min(least, r.leastIn(o, f, t))
	}
	if err != nil || math.IsInf(least, 1) {
		return 0
	}
	return least
}

func (r *room) leastIn(s setup, f fault, t metal) float64 {
	s = s.steady(f)
	s.end = least
	m, err := r.model(s)
	if err != nil {
		return 0
	}
	solved, at, err := m.changed(f)
	if err != nil {
		return 0
	}
	h, err := at.touch(solved, t.terminal)
	if err != nil {
		return 0
	}
	return h.amps
}

// gap is what of a piece of metal is not solved.
type gap struct {
	winding noVolts // that reaches it
	direct  bool    // a rectifier, or what strikes, brings current to it
}

type (
	gapKey       struct{ terminal string }
	uncoupledKey struct{}
	untoldKey    struct{}
)

func (r *room) gap(t metal) gap {
	return r.b.Keep(gapKey{t.terminal}, func() any {
		var g gap
		for _, c := range r.switchedOn() {
			g.direct = g.direct || r.direct(c, t)
			if g.winding.name == "" {
				g.winding = r.unknownBetween(c, t)
			}
		}
		if w := r.b.Keep(uncoupledKey{}, func() any { return r.uncoupled() }).(noVolts); w.name != "" {
			g.winding = w
		}
		return g
	}).(gap)
}

// direct tells whether a rectifier brings current to the metal from the mains
// side, where nothing else that conducts joins it, or to metal beside the
// chassis from a winding: what is no alternating current is not solved here.
func (r *room) direct(c *circuit.Circuit, t metal) bool {
	lines := []string{sheet.PlugHot, sheet.PlugNeutral}
	way := func(rectifiers bool) bool {
		return c.Reach(lines, func(e *circuit.Element) bool {
			return bench.Conductors(e) && (rectifiers || e.Conducts != circuit.OneWay)
		}).Has(t.terminal)
	}
	if way(true) && !way(false) {
		return true
	}
	if c.SameNet(t.terminal, sheet.Chassis) {
		return false
	}
	// Past the chassis everything hangs together.
	beside := c.Reach([]string{t.terminal}, func(e *circuit.Element) bool {
		return bench.Conductors(e) && e.Conducts != circuit.OneWay && !c.SameNet(e.A, sheet.Chassis) && !c.SameNet(e.B, sheet.Chassis)
	})
	es := c.Elements()
	return slices.ContainsFunc(es, func(e circuit.Element) bool {
		rectifies := e.Conducts == circuit.OneWay || e.Law == circuit.ColdTube && r.b.Stage != "bare" && r.b.Stage != "heaters"
		return (rectifies || r.strikes(&e)) && (beside.Has(e.A) || beside.Has(e.B))
	})
}

// strikes tells whether something that conducts from a voltage on may reach it:
// the highest of line and windings, at its peak.
func (r *room) strikes(e *circuit.Element) bool {
	p := bench.PartOfElement(e)
	if e.Law != circuit.Striking || p == nil || p.Kind.Name == "neon" {
		return false // a neon is in the circuit
	}
	_, limits := r.b.Mains()
	most := limits.High
	for _, q := range r.b.Parts("transformer", "autotransformer") {
		for _, w := range q.Windings {
			if v, ok := w.Volts(); ok {
				most = math.Max(most, v.High)
			}
		}
	}
	v, ok := p.Value("voltage")
	return !ok || !(v.Low >= math.Sqrt2*most)
}

// unknownBetween names what is not known of a winding that lies between the
// metal and other metal.
func (r *room) unknownBetween(c *circuit.Circuit, t metal) noVolts {
	known := func(e *circuit.Element) bool {
		return bench.Conductors(e) && (e.Law != circuit.Winding || coupled(e))
	}
	here := c.Reach([]string{t.terminal}, known)
	for _, u := range r.metals {
		if c.SameNet(u.terminal, t.terminal) {
			continue
		}
		there := c.Reach([]string{u.terminal}, known)
		es := c.Elements()
		for i := range es {
			e := &es[i]
			if e.Law != circuit.Winding || coupled(e) || !(here.Has(e.A) && there.Has(e.B) || here.Has(e.B) && there.Has(e.A)) {
				continue
			}
			if p := bench.PartOfElement(e); p.Kind.Name != "output-transformer" {
				return noVoltsOf(p, e)
			}
		}
	}
	return noVolts{}
}
