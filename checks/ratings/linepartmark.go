package ratings

import (
	"fmt"
	"math"
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/handbook"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
)

// borneMark is one thing that a part bears, with the mark that says how much it
// may.
type borneMark struct {
	name string // volts, watts, amps
	of   part.Trait
	says string
	got  func(*borne) quantity.Range
	// key names the mark of a part; "" where this is not asked of it.
	key func(*part.Part) string
}

// asks tells whether this is asked of the part.
func (m borneMark) asks(p *part.Part) bool {
	return p.Is(m.of) && m.key(p) != ""
}

func always(key string) func(*part.Part) string { return func(*part.Part) string { return key } }

// neonKey is what of a neon lamp is rated: the unit where that is marked for the
// mains, else its resistor; one that says neither hangs on what else limits its
// current.
func neonKey(unit, resistor, neither string, others func(*part.Part) string) func(*part.Part) string {
	return func(p *part.Part) string {
		switch {
		case !p.Is(part.Glows):
			return others(p)
		case p.Node.Get("unit-voltage") != nil:
			return unit
		case p.Node.Get("resistor") != nil:
			return resistor
		}
		return neither
	}
}

// inHandbook stands for a mark that the handbook has and no part carries.
const inHandbook = "its data"

var borneMarks = []borneMark{
	{"volts", part.BearsVolts,
		"volts across it in lasting operation at the nominal supply, divided by those that it is marked for",
		func(o *borne) quantity.Range { return o.volts },
		neonKey("unit-voltage", "resistor-voltage", "", func(p *part.Part) string {
			switch {
			case p.Is(part.Amplifies):
				return inHandbook
			case !p.Is(part.Rectifies):
				return "voltage"
			case p.Word("of") == "":
				return inHandbook
			}
			return ""
		})},
	{"watts", part.BearsWatts,
		"watts in it in lasting operation at the highest supply, divided by those that it is marked for",
		func(o *borne) quantity.Range { return o.watts }, neonKey("", "power", "", always("power"))},
	{"amps", part.BearsAmps,
		"amperes through it in lasting operation at the highest supply, divided by those that it is marked for",
		func(o *borne) quantity.Range { return o.amps }, neonKey("", "", inHandbook, always("current"))},
}

// mark is how much the part may bear.
func (m borneMark) mark(b *bench.Bench, p *part.Part) (quantity.Range, *figure.Need) {
	key := m.key(p)
	if key != inHandbook {
		v, ok := p.Value(key)
		switch {
		case p.Is(part.Sounds):
			return v, &figure.Need{What: p.Name + " off the line and off the mains transformer", How: "a loudspeaker is marked for neither: join it to the output transformer"}
		case !ok:
			n := lacks(p, key, "read it off the part or its data; one without a mark comes out")
			return v, &n
		}
		if m.name == "volts" {
			v = v.Scale(1 / marksMore(b, p))
		}
		return v, nil
	}
	if p.Is(part.Glows) {
		amps, _ := handbook.NeonCurrent()
		return amps, nil
	}
	volts, _, ok := p.HeaterRating()
	if !ok {
		n := lacksHeater(p)
		return volts, &n
	}
	return volts, nil
}

// marksMore is how far the mark of a part stands above the volts, at the nominal
// supply, that it means: an arrester's and an unclassed capacitor's are of the
// peak, and these and a varistor meet the supply at its highest.
func marksMore(b *bench.Bench, p *part.Part) float64 {
	highest := highestVolts(b) / nominal(b).High
	switch {
	case p.Is(part.Nonpolar):
		if c := p.Word("class"); c == "" || c == "none" {
			return math.Sqrt2 * highest
		}
	case p.Is(part.Sparks):
		return math.Sqrt2 * highest
	case p.Is(part.Clamps):
		return highest
	}
	return 1
}

// borneChecks are the figures of one thing that parts bear: its share of the
// mark, and whether it is asked, of what hangs on the line and across a winding.
func borneChecks(m borneMark) []bench.Check {
	there := func(where, says string, is func(*borne) bool) bench.Check {
		return bench.EachPart(figure.Def{Name: where + "-part-" + m.name + "-asked", Of: part.Named(m.of), Present: true, Says: says},
			func(b *bench.Bench, p *part.Part) figure.Figure {
				o := bornes(b)[p]
				return figure.So(o != nil && m.asks(p) && is(o))
			})
	}
	return []bench.Check{
		there("line", "it hangs in or across the line.", func(o *borne) bool { return o.onLine }),
		there("winding", "it lies across a secondary winding.", func(o *borne) bool { return o.onWinding }),
		bench.EachPart(figure.Def{Name: "part-" + m.name + "-share", Of: part.Named(m.of), Unit: quantity.Number, Says: m.says + "."},
			func(b *bench.Bench, p *part.Part) []figure.Figure {
				if o := bornes(b)[p]; o != nil && m.asks(p) {
					return []figure.Figure{m.figure(b, p, o)}
				}
				return nil
			}).OnSupply(),
	}
}

// five is x to five digits: beyond them the solution leans on what stands for
// next to nothing in it.
func five(x float64) float64 {
	if x == 0 || math.IsInf(x, 0) || math.IsNaN(x) {
		return x
	}
	unit := math.Pow(10, math.Floor(math.Log10(math.Abs(x)))-4)
	return math.Round(x/unit) * unit
}

// upwards is x to three digits, never below it.
func upwards(x float64) float64 {
	if !(x > 0) || math.IsInf(x, 0) {
		return x
	}
	unit := math.Pow(10, math.Floor(math.Log10(x))-2)
	return math.Ceil(x/unit) * unit
}

// without says that a number this large has no upper end that means anything.
const without = 1e3

func (m borneMark) figure(b *bench.Bench, p *part.Part, o *borne) figure.Figure {
	mark, need := m.mark(b, p)
	needs := o.failed
	if need != nil {
		needs = append([]figure.Need{*need}, needs...)
	}
	got := m.got(o)
	enough := figure.Need{What: p.Name + " with a mark that carries what it bears", How: fmt.Sprintf("it bears up to %s here; at least that", quantity.Format(upwards(got.High), got.Dim))}
	bounded := !math.IsInf(got.High, 0) && got.High > 0
	if len(needs) > 0 {
		if need != nil && len(o.failed) == 0 && bounded && !p.Is(part.Sounds) {
			needs = append(needs, enough)
		}
		return figure.Lacking(needs...)
	}
	q := got.Div(mark, quantity.Number)
	q.Low, q.High = five(q.Low), five(q.High)
	if !(q.High < without) && len(o.needs) > 0 {
		q.High = math.Inf(1)
	}
	f := figure.Figure{Range: q, Trace: []string{fmt.Sprintf("%s ÷ %s = %s", got, mark, q)}, Settle: o.needs}
	if bounded {
		f.Settle = append(slices.Clone(o.needs), enough)
	}
	if at := p.Node.Get(m.key(p)); at != nil {
		f.At = at.At()
	}
	if m.name == "volts" && p.Is(part.Amplifies) || m.key(p) == inHandbook && p.Is(part.Rectifies) {
		if t, ok := handbook.Tube(p.Word("type")); ok {
			f.From = append(f.From, t.Basis)
		}
	}
	return f
}
