package ratings

import (
	"fmt"
	"math"
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
	"firstvolt/checks/sheet"
)

// more is by how much a capacitor may exceed its mark, or its own tolerance if
// that is more.
const more = 0.2

// metal are the kinds of subjects that are metal: their name is their terminal.
var metal = bench.Metalwork

// offLine tells whether the metal is asked for by itself. Bodies wired to the
// chassis or the ground pin are asked with the chassis.
func offLine(b *bench.Bench, terminal string) bool {
	if terminal == sheet.Chassis {
		return b.Wired().LiveChassis == nil
	}
	if p := b.Sheet.Part(terminal); p != nil && p.Word("reach") == "enclosed" {
		return false
	}
	r := b.Circuit(bench.ClosedState()).Reach([]string{terminal}, bench.GroundPath)
	lines := b.Lines()
	live := b.Circuit(bench.ClosedState()).Reach(lines[:], bench.Warm)
	return !r.Has(sheet.Chassis) && !r.Has(sheet.PlugGround) && !live.Has(terminal)
}

var leakageAsked = bench.EachSubject(figure.Def{
	Name: "metal-off-line", Of: metal, Present: true,
	Says: "it is metal by itself: no line conductor, and no wire joins it to metal that is asked already.",
}, func(b *bench.Bench, s figure.Subject) figure.Figure { return figure.So(offLine(b, s.Name)) })

var leakage = bench.EachSubject(figure.Def{
	Name: "capacitor-leakage", Of: metal, Unit: quantity.Current,
	Says: "current that the capacitors of one line conductor pass to it, at the highest supply and with 20 % more than marked.",
}, func(b *bench.Bench, s figure.Subject) figure.Figure {
	worst := passed{needs: untried(b)}
	for _, st := range everyPosition(b) {
		for _, p := range passedTo(b, newEnds(b, st), s.Name) {
			worst = worst.worse(p)
		}
	}
	if len(worst.needs) > 0 {
		return figure.Lacking(worst.needs...)
	}
	_, volts := b.ToEarth()
	hertz := b.Sheet.Region.Frequency.High
	amps := volts.Scale(2 * math.Pi * hertz * worst.farads)
	amps.Dim = quantity.Current
	amps = amps.Add(quantity.Exact(worst.amps, quantity.Current))
	return figure.Figure{Range: amps, Witness: worst.witness, Settle: b.EarthSettles(),
		Trace: append(worst.trace, fmt.Sprintf("2π × %g Hz × %s × %s + %s = %s", hertz, quantity.Format(worst.farads, quantity.Capacitance), volts, quantity.Format(worst.amps, quantity.Current), amps))}
})

// passed is what one line conductor passes to metal in one state.
type passed struct {
	farads, amps float64 // capacitors with 20 % added; filters by their labels
	trace        []string
	witness      []string
	needs        []figure.Need
}

func (p passed) worse(o passed) passed {
	if len(p.needs) == 0 && (len(o.needs) > 0 || o.farads+o.amps > p.farads+p.amps) {
		return o
	}
	return p
}

// passedTo adds up, for hot and for neutral, the capacitors from it to the
// metal. A live point that a load keeps from both counts for either.
func passedTo(b *bench.Bench, e ends, terminal string) [2]passed {
	var out [2]passed
	lines := b.Lines()
	metal := e.c.Reach([]string{terminal}, bench.Warm)
	reach := [2]*circuit.Reach{e.c.Reach(lines[:1], bench.Warm), e.c.Reach(lines[1:], bench.Warm)}
	add := func(live string, each func(*passed)) {
		near := [2]bool{e.hot.Has(live), e.neutral.Has(live)}
		if !near[0] && !near[1] {
			near = [2]bool{reach[0].Has(live), reach[1].Has(live)}
		}
		for i := range out {
			if near[i] {
				each(&out[i])
			}
		}
	}
	for _, p := range b.Parts(part.Capacitors) {
		t := p.Terminals()
		for i := range t {
			live, far := p.Full(t[i]), p.Full(t[1-i])
			if !e.live.Has(live) || metal.Has(live) || e.live.Has(far) {
				continue
			}
			farads, known, joins := toMetal(b, e, metal, p, far)
			if !joins {
				continue
			}
			add(live, func(s *passed) {
				if !known {
					s.needs = append(s.needs, lacks(p, "value", "read it off the capacitor"))
				}
				s.farads += farads
				s.witness = append(s.witness, live, far)
				s.trace = append(s.trace, fmt.Sprintf("%s with %g %% more: %s", p.Name, 100*more, quantity.Format(farads, quantity.Capacitance)))
			})
		}
	}
	for _, p := range b.Parts(part.Filters) {
		if !metal.Has(p.Full("case")) || !e.live.Has(p.Full("line-in")) && !e.live.Has(p.Full("neutral-in")) {
			continue
		}
		amps, ok := p.Value("leakage")
		for i := range out {
			if !ok {
				out[i].needs = append(out[i].needs, lacks(p, "leakage", "read it off its label"))
			}
			out[i].amps += amps.High
			out[i].trace = append(out[i].trace, fmt.Sprintf("%s by its label: %s", p.Name, amps))
		}
	}
	return out
}

// marked is a capacitor's value with what it may exceed it by.
func marked(p *part.Part) (float64, bool) {
	v, ok := p.Value("value")
	over := more
	if tol, said := p.Value("tolerance"); said {
		over = math.Max(over, tol.High)
	}
	return v.High * (1 + over), ok && v.Bounded()
}

// toMetal is the capacitance from a live point through p to the metal: its
// own, or that of two in series.
func toMetal(b *bench.Bench, e ends, metal *circuit.Reach, p *part.Part, far string) (farads float64, known, joins bool) {
	own, known := marked(p)
	if metal.Has(far) {
		return own, known, true
	}
	between := e.c.Reach([]string{far}, bench.Warm)
	sum := 0.0
	for _, q := range b.Parts(part.Capacitors) {
		t := q.Terminals()
		x, y := q.Full(t[0]), q.Full(t[1])
		if q == p || !(between.Has(x) && metal.Has(y) || between.Has(y) && metal.Has(x)) {
			continue
		}
		c, ok := marked(q)
		known, joins = known && ok, true
		sum += c
	}
	if !joins && slices.ContainsFunc(e.chain(p, far).Terminals(), metal.Has) {
		return own, known, true // three or more in series pass less than each
	}
	if !(own+sum > 0) {
		return 0, known, joins
	}
	return own * sum / (own + sum), known, joins
}
