package ratings

import (
	"fmt"
	"math"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
)

// suppressed is where a varistor or arrester lies, in any switch position.
type suppressed struct {
	on      bool
	second  *part.Part // another in series with it
	metal   bool       // it lies from a conductor to metal: what a conductor has to earth counts
	witness []string
}

// suppressors is findSuppressors, done once.
func suppressors(b *bench.Bench) map[*part.Part]suppressed {
	return b.Keep(kept("suppressors"), func() any { return findSuppressors(b) }).(map[*part.Part]suppressed)
}

// findSuppressors finds where each varistor and arrester lies.
func findSuppressors(b *bench.Bench) map[*part.Part]suppressed {
	out := map[*part.Part]suppressed{}
	for _, st := range everyPosition(b) {
		e := newEnds(b, st)
		for _, p := range b.Parts(part.Suppresses) {
			s := e.suppressed(p)
			// By itself it meets all of the line; in series it shares.
			was := out[p]
			s.metal = s.metal || was.metal
			if s.on && (!was.on || was.second != nil && s.second == nil) {
				out[p] = s
			} else if s.on && s.metal {
				was.metal = true
				out[p] = was
			}
		}
	}
	return out
}

// suppressed tells where one lies in one state.
func (e ends) suppressed(p *part.Part) suppressed {
	t := p.Terminals()
	x, y := p.Full(t[0]), p.Full(t[1])
	if e.meets(x, y, p) {
		return suppressed{on: true, metal: e.on.At(x) == "" || e.on.At(y) == "", witness: []string{x, y}}
	}
	for _, q := range e.b.Parts(part.Suppresses) {
		if q == p {
			continue
		}
		u := q.Terminals()
		v, w := q.Full(u[0]), q.Full(u[1])
		for _, way := range [][4]string{{x, y, v, w}, {x, y, w, v}, {y, x, v, w}, {y, x, w, v}} {
			joined := e.c.Reach([]string{way[1]}, bench.Conductors).Has(way[2])
			if joined && e.meets(way[0], way[3], p, q) {
				return suppressed{on: true, second: q, metal: e.on.At(way[0]) == "" || e.on.At(way[3]) == "", witness: way[:]}
			}
		}
	}
	return suppressed{}
}

// meets tells whether the line lies between two points once the parts between
// them are taken away: on two conductors, on one that a contact parts, or on
// one and on metal.
func (e ends) meets(x, y string, without ...*part.Part) bool {
	on, and := e.on.At(x), e.on.At(y)
	switch {
	case on != "" && and != "":
		return on != and || e.on.Parted(x, y)
	case on == "" && and == "":
		return false
	case on == "":
		y = x
	}
	r := e.c.Reach([]string{y}, func(el *circuit.Element) bool {
		for _, p := range without {
			if bench.PartOfElement(el) == p {
				return false
			}
		}
		return bench.Warm(el)
	})
	far := e.metal(r)
	return far.chassis || far.accessible
}

var suppressorOn = bench.EachPart(figure.Def{
	Name: "suppressor-on-mains", Of: part.Named(part.Suppresses), Present: true,
	Says: "it lies between line conductors, across a contact in one, or from one to metal.",
}, func(b *bench.Bench, p *part.Part) figure.Figure {
	at := suppressors(b)[p]
	return searched(b, at.on, at.witness)
})

// suppressorVolts takes the better of two in series: as long as one stands the
// line, neither conducts.
var suppressorVolts = bench.EachPart(figure.Def{
	Name: "suppressor-volts-over-supply", Of: part.Named(part.Suppresses), Unit: quantity.Number,
	Says: "voltage that it is marked with, divided by the supply at its highest: for a varistor its rms value, for an arrester the peak.",
}, func(b *bench.Bench, p *part.Part) figure.Figure {
	at := suppressors(b)[p]
	meets := meetsVolts(b, at.metal)
	own, ok := stands(p, meets)
	trace := standsTrace(p, meets)
	if at.second != nil {
		other, known := stands(at.second, meets)
		ok = ok && known
		own = quantity.Between(math.Max(own.Low, other.Low), math.Max(own.High, other.High), quantity.Number)
		trace = append(trace, standsTrace(at.second, meets)...)
	}
	f := figure.Figure{Range: own, Trace: trace, At: p.Node.Get("voltage").At()}
	if meets.Low < meets.High {
		f.Settle = b.EarthSettles()
	}
	if !ok {
		f = figure.Lacking(lacks(p, "voltage", "read it off the part: a varistor is marked with the AC voltage that it stands all day, an arrester with that at which it strikes"))
	}
	f.Witness = at.witness
	return f
})

// meetsVolts are the highest that the line puts on a part: between its
// conductors, or from one to metal.
func meetsVolts(b *bench.Bench, metal bool) quantity.Range {
	if metal {
		_, highest := b.ToEarth()
		return highest
	}
	_, limits := b.Mains()
	return quantity.Exact(limits.High, quantity.Voltage)
}

// stands is a part's marked voltage over what the line puts on it at its
// highest: an arrester strikes on the peak.
func stands(p *part.Part, meets quantity.Range) (quantity.Range, bool) {
	v, ok := p.Value("voltage")
	if p.Is(part.Sparks) {
		meets = meets.Scale(math.Sqrt2)
	}
	return v.Div(meets, quantity.Number), ok
}

func standsTrace(p *part.Part, meets quantity.Range) []string {
	v, _ := p.Value("voltage")
	q, _ := stands(p, meets)
	line := meets.String()
	if p.Is(part.Sparks) {
		line = fmt.Sprintf("(√2 × %s)", meets)
	}
	return []string{fmt.Sprintf("%s: %s ÷ %s = %s", p.Name, v, line, q)}
}
