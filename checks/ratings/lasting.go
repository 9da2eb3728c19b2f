package ratings

import (
	"math"
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/figure"
	"firstvolt/checks/handbook"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
	"firstvolt/checks/sheet"
)

// Lasting operation: what the mains side and the secondary windings carry while
// the set plays, in one state of its switches. Sources and windings are stiff,
// filaments hot, and what the sheet does not say may be anything it can be.

// unknown is one thing in the circuit that may be several ways, told together
// for all elements that hang on it.
type unknown struct {
	elements []string
	ways     []map[string]value
}

// value is what one element is: its point, and how its resistance follows the
// volts across it if it is a filament.
type value struct {
	circuit.Point
	filament *filament
}

func (v value) same(o value) bool {
	return v.Point == o.Point && (v.filament == nil) == (o.filament == nil) && (v.filament == nil || *v.filament == *o.filament)
}

// filament follows I = amps × (V ÷ volts)^exponent.
type filament struct{ volts, amps, exponent float64 }

func (f filament) ohms(v float64) float64 {
	if !(v > 1e-6*f.volts) {
		v = 1e-6 * f.volts
	}
	return v / (f.amps * math.Pow(v/f.volts, f.exponent))
}

// lasting is the circuit of one state.
type lasting struct {
	b        *bench.Bench
	es       []circuit.Element
	fixed    map[string]value
	unknowns []unknown
	needs    []figure.Need // what would tell the unknown
	past     float64       // of earthing
	bare     bool          // without what the set itself draws: its tubes, rectifiers, transformers' loads
	turned   string        // winding whose ends count the other way
	feeds    []feed
	// copper is the resistance of primary sections, where several share a current:
	// of no matter to volts, which are stated under load.
	copper map[string]float64
	unsaid map[*part.Winding]figure.Need // windings of volts that nobody knows, which are left out
	wired  *circuit.Circuit              // as the set is
	live   *circuit.Reach                // what the line comes to by next to nothing
	c      *circuit.Circuit
}

const (
	supplyElement = "the supply"
	earthElement  = "earth at "
	liftElement   = "earth beside the supply"
	theEarth      = "the earth"
	// next to nothing, in Ω: what joins metal to earth, and what a source has.
	almostNothing = 1e-6
	// next to no current, in Ω: what may as well not be there.
	almostOpen = 1e9
)

// earthing is what stands at earth: a conductor, or a point so far past it, as a
// share of the supply, as a unit of the bench that fits both ways may put it.
type earthing struct {
	conductor string
	past      float64
}

// newLasting makes the circuit of one state.
func newLasting(b *bench.Bench, st bench.State, ground earthing, bare bool, turned string) *lasting {
	l := &lasting{b: b, past: ground.past, fixed: map[string]value{}, bare: bare, turned: turned, feeds: feeds(b, st), copper: map[string]float64{},
		unsaid: map[*part.Winding]figure.Need{}}
	c := b.Circuit(st)
	l.wired = c
	lines := b.Lines()
	l.add(circuit.Element{Name: supplyElement, A: lines[0], B: lines[1]}, ohmic(almostNothing))
	l.earth(c, ground.conductor)
	es := c.Elements()
	for i := range es {
		l.element(es[i])
	}
	l.feeders(c)
	l.c = circuit.New(l.es, sheet.PlugHot, sheet.PlugNeutral, sheet.PlugGround, sheet.Chassis)
	return l
}

func ohmic(r float64) value { return value{Point: circuit.Point{R: r}} }

// add puts an element of known value into the circuit.
func (l *lasting) add(e circuit.Element, v value) {
	e.Conducts, e.R, e.C, e.L, e.Law = circuit.Conducting, circuit.Exactly(1), circuit.Interval{}, circuit.Interval{}, circuit.Linear
	l.es = append(l.es, e)
	l.fixed[e.Name] = v
}

// may puts an element into the circuit that may be any of several values.
func (l *lasting) may(e circuit.Element, ways ...value) {
	l.add(e, ways[0])
	u := unknown{elements: []string{e.Name}}
	for _, w := range ways {
		if u.ways == nil || !w.same(ways[0]) {
			u.ways = append(u.ways, map[string]value{e.Name: w})
		}
	}
	if len(u.ways) > 1 {
		l.unknowns = append(l.unknowns, u)
	}
}

// ohms puts a resistance between two bounds into the circuit; without an end
// it is taken for next to nothing or next to open, and needs says what tells.
func (l *lasting) ohms(e circuit.Element, r circuit.Interval, needs ...figure.Need) {
	low, high := math.Max(r.Low, 1e-3), math.Min(r.High, almostOpen)
	if r.High > almostOpen || r.Low < 1e-3 && r.High > 1 {
		l.need(needs...)
	}
	l.may(e, ohmic(math.Min(low, high)), ohmic(high))
}

func (l *lasting) need(needs ...figure.Need) {
	for _, n := range needs {
		if !slices.Contains(l.needs, n) {
			l.needs = append(l.needs, n)
		}
	}
}

// earth puts a conductor of the supply at earth, with the ground pin, where that
// carries earth, and all metal that is no line conductor: a hand, an aerial or a
// bench joins it.
func (l *lasting) earth(c *circuit.Circuit, grounded string) {
	lines := l.b.Lines()
	l.live = c.Reach(lines[:], bench.Near)
	metal := []string{sheet.Chassis}
	l.add(circuit.Element{Name: liftElement, A: grounded, B: theEarth}, ohmic(almostNothing))
	if l.b.Grounded() {
		metal = append(metal, sheet.PlugGround)
	}
	for _, p := range l.b.Parts(part.Metal) {
		metal = append(metal, p.Name)
	}
	for _, t := range metal {
		if !l.live.Has(t) {
			l.add(circuit.Element{Name: earthElement + t, A: theEarth, B: t}, ohmic(almostNothing))
		}
	}
}

// element puts one element of the set into the circuit.
func (l *lasting) element(e circuit.Element) {
	p := bench.PartOfElement(&e)
	switch {
	case e.Conducts == circuit.Wire || e.Conducts == circuit.Joint:
		e.Conducts, e.R = circuit.Wire, circuit.Interval{}
		l.es = append(l.es, e)
		l.fixed[e.Name] = value{}
	case p == nil: // a cord whose third conductor resists
		l.ohms(e, e.R)
	case e.Conducts == circuit.OneWay || e.Law == circuit.ColdTube:
		// What a rectifier passes is put in by feeders.
	case e.Law == circuit.Winding:
		l.winding(e, p)
	case e.Law == circuit.Heater:
		if !l.bare {
			l.heater(e, p)
		}
	default:
		if put := putsOf(p); put != nil {
			put(l, e, p)
		} else if e.Conducts == circuit.Bridging {
			l.capacitor(e, p)
		} else {
			l.ohms(e, e.R)
		}
	}
}

// puts says how a kind of part carries current where its cold resistance or
// its capacitance is not the answer.
var puts = []struct {
	of  part.Trait
	put func(*lasting, circuit.Element, *part.Part)
}{
	{part.Lights, func(l *lasting, e circuit.Element, p *part.Part) { l.filament(e, p, "voltage", "current") }},
	{part.Ballasts, (*lasting).barretter},
	{part.Turns, (*lasting).motor},
	{part.LimitsInrush, (*lasting).thermistor},
	{part.Chokes | part.Excites, (*lasting).coil},
	{part.Filters, (*lasting).filter},
	{part.Glows, (*lasting).neon},
	{part.Suppresses, (*lasting).asleep},
	{part.Track, (*lasting).resistor},
}

func putsOf(p *part.Part) func(*lasting, circuit.Element, *part.Part) {
	for _, row := range puts {
		if p.Is(row.of) {
			return row.put
		}
	}
	return nil
}

func (l *lasting) filament(e circuit.Element, p *part.Part, keys ...string) {
	v, okV := p.Value(keys[0])
	i, okI := p.Value(keys[1])
	if !okV || !okI || !(v.Low > 0) || !(i.Low > 0) || !v.Bounded() || !i.Bounded() {
		l.ohms(e, circuit.Anything(), lacking(p, keys...)...)
		return
	}
	law := handbook.Lamp()
	l.may(e, hot(v.Low, i.High, law.Exponent), hot(v.High, i.Low, law.Exponent))
}

// hot is a filament of rated volts and amperes.
func hot(v, i, exponent float64) value {
	return value{circuit.Point{R: v / i}, &filament{v, i, exponent}}
}

func lacking(p *part.Part, keys ...string) (out []figure.Need) {
	for _, k := range keys {
		if p.Node.Get(k) == nil {
			out = append(out, lacks(p, k, "read it off the part or its data"))
		}
	}
	return out
}

// ironWire is the exponent of a ballast lamp that holds its current, next to none.
const ironWire = 0.05

// barretter is an iron wire, which holds its current, or a plain resistance.
func (l *lasting) barretter(e circuit.Element, p *part.Part) {
	v, okV := p.Value("voltage")
	i, okI := p.Value("current")
	if l.bare {
		return
	}
	if !okV || !okI || !(v.Low > 0) || !(i.Low > 0) || !v.Bounded() {
		l.ohms(e, circuit.Anything(), lacking(p, "voltage", "current")...)
		return
	}
	l.may(e, hot(v.Low, i.High, 1), hot(v.High, i.Low, ironWire), hot(v.High, i.Low, 1))
}

// The power factor of a small motor, recalled: shaded poles 0.5 and more.
const motorFactorLow = 0.5

// motorAmps is what a motor takes at its volts, or at the nominal supply.
func motorAmps(b *bench.Bench, p *part.Part) (amps, volts quantity.Range, ok bool) {
	volts, said := p.Value("voltage")
	if !said {
		volts = nominal(b)
	}
	if amps, ok = p.Value("current"); ok {
		return amps, volts, amps.Low > 0 && amps.Bounded() && volts.Low > 0
	}
	watts, ok := p.Value("power")
	amps = watts.Div(volts, quantity.Current)
	amps.High /= motorFactorLow
	return amps, volts, ok && amps.Low > 0 && amps.Bounded()
}

func (l *lasting) motor(e circuit.Element, p *part.Part) {
	amps, volts, ok := motorAmps(l.b, p)
	if !ok {
		l.ohms(e, circuit.Anything(), lacks(p, "current", "amperes from its plate, or watts under power:"))
		return
	}
	l.ohms(e, circuit.Interval{Low: volts.Low / amps.High, High: volts.High / amps.Low})
}

// thermistor is hot in lasting operation; one whose hot resistance nobody
// stated may have anything up to its cold one.
func (l *lasting) thermistor(e circuit.Element, p *part.Part) {
	if hot, ok := p.Value("hot"); ok && hot.Bounded() {
		l.ohms(e, circuit.Interval{Low: hot.Low, High: hot.High})
		return
	}
	l.ohms(e, circuit.Interval{High: e.R.High}, lacks(p, "hot", "ohms at its current, from its data"))
}

func (l *lasting) coil(e circuit.Element, p *part.Part) {
	r, henries := e.R, circuit.Anything()
	if h, ok := p.Value("inductance"); ok && h.Bounded() {
		w := h.Widen(0.2)
		henries = circuit.Interval{Low: w.Low, High: w.High}
	}
	at := func(r, h float64) value {
		return value{Point: circuit.Point{R: math.Max(math.Min(r, almostOpen), 1e-3), L: math.Min(h, 1e6)}}
	}
	if math.IsInf(henries.High, 1) || math.IsInf(r.High, 1) {
		l.need(lacking(p, "inductance", "resistance")...)
	}
	l.may(e, at(r.Low, henries.Low), at(r.High, henries.High))
}

func (l *lasting) filter(e circuit.Element, p *part.Part) {
	if e.Conducts == circuit.Bridging {
		return // its capacitors take next to nothing beside a load
	}
	r := handbook.MainsSource().Filter
	l.ohms(e, circuit.Interval{Low: math.Max(r.Low, 1e-3), High: r.High})
}

// neon is struck: then only its resistor limits.
func (l *lasting) neon(e circuit.Element, p *part.Part) {
	struck := 1e-3
	if r, ok := p.Value("resistor"); ok {
		struck = r.Low
	} else if p.Node.Get("unit-voltage") != nil {
		struck = unitNeonOhms
	}
	l.add(e, ohmic(math.Max(struck, 1e-3)))
}

// asleep is a varistor or arrester that does not conduct.
func (l *lasting) asleep(e circuit.Element, _ *part.Part) { l.add(e, ohmic(almostOpen)) }

// unitNeonOhms stands for the resistor inside an indicator that is marked for
// the mains, at least (common practice: 100 kΩ to 270 kΩ).
const unitNeonOhms = 47e3

func (l *lasting) capacitor(e circuit.Element, p *part.Part) {
	c := e.C
	if !(c.High > 0) || math.IsInf(c.High, 1) {
		l.need(lacking(p, "value")...)
		c = circuit.Interval{High: 10e-6}
	}
	at := func(c float64) value { return value{Point: circuit.Point{R: math.Inf(1), C: math.Max(c, 1e-15)}} }
	l.may(e, at(c.Low), at(c.High))
}

// resistor is the track; a wiper that is wired stands anywhere on it.
func (l *lasting) resistor(e circuit.Element, p *part.Part) {
	missing := lacking(p, "value")
	if taps := p.Node.Get("taps"); taps != nil && len(taps.Items) > 0 {
		missing = append(missing, lacks(p, "taps", "each tap with its ohms from terminal 1"))
	}
	if !p.Is(part.Adjusts) || !l.b.Sheet.OnWire(p.Full("wiper")) {
		if e.A != p.Full("wiper") && e.B != p.Full("wiper") {
			l.ohms(e, e.R, missing...)
		}
		return
	}
	if e.A != p.Full("1") || e.B != p.Full("wiper") {
		return // made with its first side
	}
	if len(missing) > 0 {
		l.need(missing...)
	}
	whole := math.Min(e.R.High, almostOpen)
	far := circuit.Element{Name: p.Name + " wiper-2", A: p.Full("wiper"), B: p.Full("2"), Owner: e.Owner, Tag: e.Tag}
	u := unknown{elements: []string{e.Name, far.Name}}
	for _, x := range []float64{0.5, 0, 0.1, 0.9, 1} {
		u.ways = append(u.ways, map[string]value{e.Name: ohmic(math.Max(x*whole, 1e-3)), far.Name: ohmic(math.Max((1-x)*whole, 1e-3))})
	}
	l.add(e, u.ways[0][e.Name])
	l.add(far, u.ways[0][far.Name])
	l.unknowns = append(l.unknowns, u)
}
