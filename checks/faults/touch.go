package faults

import (
	"maps"
	"math"
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/figure"
	"firstvolt/checks/handbook"
	"firstvolt/checks/mains"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
	"firstvolt/checks/sheet"
)

var (
	reachedDef = &figure.Def{Name: "hand-finds-it", Room: "faults", Of: bench.Metalwork, Present: true,
		Says: "on the bench a hand can touch it"}
	soundDef = &figure.Def{Name: "touch-current", Room: "faults", Of: bench.Metalwork, Unit: quantity.Current,
		Says: "most current through a person who touches it, switched on and nothing at fault"}
	offDef = &figure.Def{Name: "touch-current-off", Room: "faults", Of: bench.Metalwork, Unit: quantity.Current,
		Says: "most current through a person who touches it, plugged in and switched off"}
	faultDef = &figure.Def{Name: "touch-current-one-fault", Room: "faults", Of: bench.Metalwork, Unit: quantity.Current,
		Says: "most current through a person who touches it, with any one fault that nothing opens in its time"}
	branchTouchDef = &figure.Def{Name: "touch-current-left-to-branch", Room: "faults", Of: bench.Metalwork, Unit: quantity.Current,
		Says: "most current through a person who touches it, with a fault that only the branch device can open, or that something opens in its time but no sooner than it can kill"}
)

func computeReached(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	for _, t := range chainOf(b).Metals {
		out = append(out, figure.Is(reachedDef, t.Subject, t.Touched))
	}
	return out
}

// touched computes a figure of every piece of metal that a hand finds.
func touched(d *figure.Def, compute func(*chain, mains.Metal) (worst, error)) func(*bench.Bench) []figure.Figure {
	return func(b *bench.Bench) []figure.Figure {
		var out []figure.Figure
		r := chainOf(b)
		ofFaults := d == faultDef || d == branchTouchDef
		untold := r.Bench.Keep(untoldKey{}, func() any { return r.UntoldWinding() }).(mains.UnknownVolts)
		for _, t := range r.Metals {
			if !t.Touched {
				continue
			}
			w, err := compute(r, t)
			gap := r.gap(t)
			switch {
			case gap.winding.Name != "":
				out = append(out, figure.NotKnown(d, t.Subject, gap.winding.Need("it reaches this metal")))
			case ofFaults && untold.Name != "":
				out = append(out, figure.NotKnown(d, t.Subject, untold.Need("the insulation beside it may break down")))
			case !b.Sheet.HasWiring():
				out = append(out, figure.NotKnown(d, t.Subject, figure.Need{What: "the wiring"}))
			case err != nil:
				out = append(out, figure.NotKnown(d, t.Subject, unsolvable(err)))
			case gap.direct:
				out = append(out, figure.NotKnown(d, t.Subject, figure.Need{What: "the current that a rectifier or a part that strikes brings to " + t.Terminal, How: "no key says it; measure it, or keep hands away"}))
			default:
				f := figure.Number(d, t.Subject, w.range_())
				f.Note, f.Trace, f.From = w.note, w.trace, r.from(t)
				if u, stands := r.uncounted(); stands && ofFaults && !(w.high <= limit("one-fault")) {
					f.Note, f.Settle = f.Note+"; "+u.note, u.needs
				}
				if ofFaults && !(w.high <= limit("one-fault")) {
					f.Settle = append(slices.Clone(f.Settle), mains.UnreadPlates(b)...)
				}
				if t.Beside && !t.Read {
					f.Settle = append(slices.Clone(f.Settle), b.UnreadInsulation(t.Terminal))
				}
				out = append(out, f)
			}
		}
		return out
	}
}

// from lists where the assumptions are from that count for a piece of metal of
// this set.
func (r *chain) from(t mains.Metal) []figure.Basis {
	of := []string{"conductor"}
	switch r.Earthing {
	case "tn", "none":
	case "it":
		of = append(of, "installation", "impedance")
	default:
		of = append(of, "installation", "service")
	}
	if t.Farads == bench.UsualFarads && t.Terminal == sheet.Chassis && len(r.Bench.Wired().Primaries) > 0 {
		of = append(of, "winding")
	} else if t.Farads == bench.UsualFarads {
		of = append(of, "stray")
	}
	if len(r.Bench.Sheet.Links("isolating-transformer")) > 0 {
		of = append(of, "isolator")
	}
	if len(r.Bench.Parts(part.Filters)) > 0 {
		of = append(of, "filter")
	}
	var out []figure.Basis
	for _, what := range of {
		out = append(out, r.Source.From[what])
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
func soundly(off bool) func(*chain, mains.Metal) (worst, error) {
	type result struct {
		of  map[string]*worst
		err error
	}
	return func(r *chain, t mains.Metal) (worst, error) {
		v := r.Bench.Keep(soundlyKey{off}, func() any {
			of, err := r.soundly(off)
			return result{of, err}
		}).(result)
		if v.err != nil {
			return worst{}, v.err
		}
		return *v.of[t.Terminal], nil
	}
}

func (r *chain) soundly(off bool) (map[string]*worst, error) {
	of := map[string]*worst{}
	for _, t := range r.Metals {
		of[t.Terminal] = &worst{}
	}
	setups, err := r.Setups(mains.Danger)
	if err != nil {
		return nil, err
	}
	for _, s := range setups {
		if s.Limiter && r.LampsInHot() || s.Off() != off && !(len(s.State.Closed) == 0) {
			continue
		}
		for _, t := range r.Metals {
			if !t.Touched {
				continue
			}
			if err := of[t.Terminal].add(r, s, fault{}, t, limit("normal")); err != nil {
				return nil, err
			}
		}
	}
	return of, nil
}

// add counts what a person finds in one setup with one fault, nothing opening.
func (w *worst) add(r *chain, s mains.Setup, f fault, t mains.Metal, limit float64) error {
	m, err := r.model(s)
	if err != nil {
		return err
	}
	h, err := m.find(f, t.Terminal, math.Min(limit, w.high))
	if err != nil {
		return err
	}
	low := 0.0
	if !(h.Amps <= limit) {
		low = r.leastTouch(s, f, t)
	}
	w.take(low, h.Amps, func() (string, []string) { return tell(m.Circuit, f, t, h.Hand, opens{}), lines(m.Circuit, t, h.Hand) })
	return nil
}

// leastTouch is what a person finds for certain, 0 where nothing is certain:
// with every unit that does not say what it does, whatever that is. On a bench
// chain or a supply of which nothing is said, something may open a fault or
// leave it no way back.
func (r *chain) leastTouch(s mains.Setup, f fault, t mains.Metal) float64 {
	if s.Arrangement.Doubted || !f.sound() && (!r.Bench.Sheet.UpstreamKnown || r.Earthing == "unknown") {
		return 0
	}
	least := math.Inf(1)
	ways, err := r.Arrangements(s.Pick, s.Limiter)
	for _, w := range ways {
		if !slices.Equal(w.Turned, s.Arrangement.Turned) || !maps.Equal(w.Mated, s.Arrangement.Mated) {
			continue
		}
		o := s
		o.Arrangement.Stands = w.Stands
		least = math.Min(least, r.leastIn(o, f, t))
	}
	if err != nil || math.IsInf(least, 1) {
		return 0
	}
	return least
}

func (r *chain) leastIn(s mains.Setup, f fault, t mains.Metal) float64 {
	s = steady(s, f)
	s.Pick = mains.Least
	m, err := r.Circuit(s)
	if err != nil {
		return 0
	}
	solved, at, err := f.warm(m)
	if err != nil {
		return 0
	}
	h, err := at.Touch(solved, t.Terminal)
	if err != nil {
		return 0
	}
	return h.Amps
}

// gap is what of a piece of metal is not solved.
type gap struct {
	winding mains.UnknownVolts // that reaches it
	direct  bool               // a rectifier, or what strikes, brings current to it
}

type (
	gapKey       struct{ terminal string }
	uncoupledKey struct{}
	untoldKey    struct{}
)

func (r *chain) gap(t mains.Metal) gap {
	return r.Bench.Keep(gapKey{t.Terminal}, func() any {
		var g gap
		for _, c := range r.SwitchedOn() {
			g.direct = g.direct || r.direct(c, t)
			if g.winding.Name == "" {
				g.winding = r.unknownBetween(c, t)
			}
		}
		if w := r.Bench.Keep(uncoupledKey{}, func() any { return r.UncoupledWinding() }).(mains.UnknownVolts); w.Name != "" {
			g.winding = w
		}
		return g
	}).(gap)
}

// direct tells whether a rectifier brings current to the metal from the mains
// side, where nothing else that conducts joins it, or to metal beside the
// chassis from a winding: what is no alternating current is not solved here.
func (r *chain) direct(c *circuit.Circuit, t mains.Metal) bool {
	lines := []string{sheet.PlugHot, sheet.PlugNeutral}
	way := func(rectifiers bool) bool {
		return c.Reach(lines, func(e *circuit.Element) bool {
			return bench.Conductors(e) && (rectifiers || e.Conducts != circuit.OneWay)
		}).Has(t.Terminal)
	}
	if way(true) && !way(false) {
		return true
	}
	if c.SameNet(t.Terminal, sheet.Chassis) {
		return false
	}
	// Past the chassis everything hangs together.
	beside := c.Reach([]string{t.Terminal}, func(e *circuit.Element) bool {
		return bench.Conductors(e) && e.Conducts != circuit.OneWay && !c.SameNet(e.A, sheet.Chassis) && !c.SameNet(e.B, sheet.Chassis)
	})
	es := c.Elements()
	return slices.ContainsFunc(es, func(e circuit.Element) bool {
		rectifies := e.Conducts == circuit.OneWay || e.Law == circuit.ColdTube && r.Bench.Stage != "bare" && r.Bench.Stage != "heaters"
		return (rectifies || r.strikes(&e)) && (beside.Has(e.A) || beside.Has(e.B))
	})
}

// strikes tells whether something that conducts from a voltage on may reach it:
// the highest of line and windings, at its peak.
func (r *chain) strikes(e *circuit.Element) bool {
	p := bench.PartOfElement(e)
	if e.Law != circuit.Striking || p == nil || p.Is(part.Glows) {
		return false // a neon is in the circuit
	}
	_, limits := r.Bench.Mains()
	most := limits.High
	for _, q := range r.Bench.Parts(part.Supplies) {
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
func (r *chain) unknownBetween(c *circuit.Circuit, t mains.Metal) mains.UnknownVolts {
	known := func(e *circuit.Element) bool {
		return bench.Conductors(e) && (e.Law != circuit.Winding || mains.SaysVolts(e))
	}
	here := c.Reach([]string{t.Terminal}, known)
	for _, u := range r.Metals {
		if c.SameNet(u.Terminal, t.Terminal) {
			continue
		}
		there := c.Reach([]string{u.Terminal}, known)
		es := c.Elements()
		for i := range es {
			e := &es[i]
			if e.Law != circuit.Winding || mains.SaysVolts(e) || !(here.Has(e.A) && there.Has(e.B) || here.Has(e.B) && there.Has(e.A)) {
				continue
			}
			if p := bench.PartOfElement(e); !p.Is(part.OutputCore) {
				return mains.UnknownVoltsOf(p, e)
			}
		}
	}
	return mains.UnknownVolts{}
}
