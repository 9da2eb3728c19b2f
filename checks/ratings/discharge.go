package ratings

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
)

var onPins = bench.EachPart(figure.Def{
	Name: "across-pins", Of: holds, Present: true,
	Says: "it lies between the pins of the plug, through anything that conducts, in some switch position.",
}, func(b *bench.Bench, p *part.Part) figure.Figure { return searched(b, discharges(b)[p].across, nil) })

var unbled = bench.EachPart(figure.Def{
	Name: "unbled-capacitance", Of: holds, Unit: quantity.Capacitance,
	Says: "capacitance between the pins, with its tolerance, that still holds more than 34 V one second after the plug is pulled.",
}, func(b *bench.Bench, p *part.Part) figure.Figure {
	h := discharges(b)[p]
	f := figure.Amount(h.farads)
	if needs := slices.Concat(h.needs, untried(b)); len(needs) > 0 || !h.across {
		f = figure.Lacking(needs...)
	}
	f.Trace, f.From = h.trace, []figure.Basis{heldBasis}
	if p.Is(part.Filters) {
		f.Settle = []figure.Need{{What: "capacitance between plug.hot and plug.neutral, switches open", How: "a capacitance meter at the pins of the plug, set unplugged: it bounds what " + p.Name + " holds"}}
	}
	return f
})

// capacitors are the kinds that are one, holds those that keep a charge: a filter
// has capacitors inside.
var capacitors, holds = part.Named(part.Capacitors), part.Named(part.HoldsCharge)

// What counts as discharged: 34 V after 1 s, the strictest of the published
// limits at plug pins (IEC 60335-1, 22.5).
const heldVolts, afterSeconds = 34.0, 1.0

var heldBasis = figure.Basis{Status: figure.Published, Source: "IEC 60335-1, 22.5: at most 34 V between the pins after 1 s, capacitors of less than 0.1 µF with their tolerance exempt, as quoted"}

// loadOhms bounds a winding, heater, lamp or motor across the line from above
// where no reading does: one that draws 1 W at 100 V has 10 kΩ.
const loadOhms = 10e3

// bleeding lets through what takes charge off: everything that conducts both
// ways, cold.
func bleeding(e *circuit.Element) bool {
	return bench.Conductors(e) && e.Conducts != circuit.OneWay
}

// drained is the circuit of one state as a charge sees it that runs off.
func drained(b *bench.Bench, st bench.State) *circuit.Circuit {
	var es []circuit.Element
	for _, e := range b.Circuit(st).Elements() {
		if !bleeding(&e) && !passes(&e) {
			continue
		}
		if p := bench.PartOfElement(&e); p != nil && !p.Is(part.Track) && e.Conducts == circuit.Conducting {
			e.R.High = math.Min(e.R.High, loadOhms)
		}
		es = append(es, e)
	}
	lines := b.Lines()
	return circuit.New(es, lines[:]...)
}

// passes tells a capacitor that, in series with another, lets a charge show at
// the pins: one of the exempt size keeps what is left of it exempt.
func passes(e *circuit.Element) bool {
	p := bench.PartOfElement(e)
	return p != nil && p.Is(part.Nonpolar) && !(e.C.High > 0 && e.C.High < exempt)
}

const exempt = 0.1e-6

// heldEnds are the points that a part keeps its charge between.
func heldEnds(p *part.Part) [2]string {
	if p.Is(part.Filters) {
		return [2]string{p.Full("line-in"), p.Full("neutral-in")}
	}
	t := p.Terminals()
	return [2]string{p.Full(t[0]), p.Full(t[1])}
}

// filterFarads is what a filter may hold between the conductors, unless a
// reading between the pins bounds it: no label says it.
const filterFarads = 10e-6

// insideFilter bounds the capacitance of a filter by the readings that were
// taken between the pins while it hung on both.
func insideFilter(b *bench.Bench, p *part.Part) float64 {
	most := filterFarads
	for _, rd := range b.Sheet.Readings {
		states, ok := b.StatesOf(rd)
		v, known, _ := rd.True()
		if rd.Kind != "capacitance" || !ok || !known || !b.FromPinToPin(rd) || !v.Bounded() {
			continue
		}
		seen := len(states) > 0
		for _, st := range states {
			seen = seen && acrossPins(b, drained(b, st), p)
		}
		if seen {
			most = math.Min(most, v.High)
		}
	}
	return most
}

// acrossPins tells whether a charge on p shows at the pins: one pin leads to one
// end without passing the other end, the second pin to the other.
func acrossPins(b *bench.Bench, c *circuit.Circuit, p *part.Part) bool {
	ends, lines := heldEnds(p), b.Lines()
	leads := func(pin, end, barred string) bool {
		shut := c.Net(barred)
		r := c.Reach([]string{pin}, func(e *circuit.Element) bool {
			return bench.PartOfElement(e) != p && (bleeding(e) || passes(e)) && !slices.Contains(shut, e.A) && !slices.Contains(shut, e.B)
		})
		return r.Has(end) && !slices.Contains(shut, pin)
	}
	if !c.Has(ends[0]) || !c.Has(ends[1]) || c.SameNet(ends[0], ends[1]) {
		return false
	}
	for i := range ends {
		if leads(lines[0], ends[i], ends[1-i]) && leads(lines[1], ends[1-i], ends[i]) {
			return true
		}
	}
	return false
}

// held is what one capacitor does after the plug is pulled, worst state first.
type held struct {
	across bool
	farads quantity.Range
	trace  []string
	needs  []figure.Need
}

// discharges is workOut, done once.
func discharges(b *bench.Bench) map[*part.Part]held {
	return b.Keep(kept("discharges"), func() any { return workOut(b) }).(map[*part.Part]held)
}

// workOut works out every capacitor in every switch position.
func workOut(b *bench.Bench) map[*part.Part]held {
	out := map[*part.Part]held{}
	for _, st := range everyPosition(b) {
		c := drained(b, st)
		var group []*part.Part
		rated, most := 0.0, 0.0
		var needs []figure.Need
		for _, p := range b.Parts(part.HoldsCharge) {
			if !acrossPins(b, c, p) {
				continue
			}
			group = append(group, p)
			if p.Is(part.Filters) {
				most += insideFilter(b, p)
				continue
			}
			v, ok := p.Value("value")
			if !ok || !v.Bounded() {
				needs = append(needs, lacks(p, "value", "read it off the capacitor"))
			}
			low, high := withTolerance(p, v)
			rated, most = rated+low, most+high
		}
		for _, p := range group {
			h := out[p]
			h.add(b, c, p, rated, most, needs)
			out[p] = h
		}
	}
	return out
}

// withTolerance is the marked value with its tolerance on top, F; where the
// sheet does not say one, from none to the usual 20 %.
func withTolerance(p *part.Part, v quantity.Range) (low, high float64) {
	if t, said := p.Value("tolerance"); said {
		return v.High * (1 + t.High), v.High * (1 + t.High)
	}
	return v.High, v.High * (1 + more)
}

// add takes in one state; the one that leaves most counts.
func (h *held) add(b *bench.Bench, c *circuit.Circuit, p *part.Part, rated, most float64, needs []figure.Need) {
	first := !h.across
	h.across = true
	h.needs = append(h.needs, needs...)
	ends, lines := heldEnds(p), b.Lines()
	res, err := c.Resistance(ends[:1], ends[1:])
	if err == nil && math.IsInf(res.R.High, 1) { // in series with another: the pins see both
		if over, failed := c.Resistance(lines[:1], lines[1:]); failed == nil {
			res = over
		}
	}
	if err != nil || len(needs) > 0 {
		if err != nil {
			h.needs = append(h.needs, figure.Need{What: "what discharges " + p.Name, How: err.Error()})
		}
		return
	}
	_, limits := b.Mains()
	peak := math.Sqrt2 * limits.High
	left := func(ohms, farads float64) float64 { return peak * math.Exp(-afterSeconds/(ohms*farads)) }
	f := quantity.Range{Dim: quantity.Capacitance}
	if rated > 0 && !(left(res.R.Low, rated) <= heldVolts) {
		f.Low = rated
	}
	if !(left(res.R.High, most) <= heldVolts) {
		f.High = most
	}
	if first || f.High > h.farads.High || f.High == h.farads.High && f.Low > h.farads.Low {
		h.farads = f
		ohms := quantity.Range{Low: res.R.Low, High: res.R.High, Dim: quantity.Resistance}
		h.trace = []string{
			fmt.Sprintf("√2 × %g V = %.4g V; %s marked, up to %s, %s", limits.High, peak, quantity.Format(rated, quantity.Capacitance), quantity.Format(most, quantity.Capacitance), throughWhat(ohms)),
			fmt.Sprintf("after %g s at most %.3g V", afterSeconds, left(res.R.High, most)),
		}
	}
}

// throughWhat says what the charge leaves through: no ohms are known above an
// open way, and none below it either.
func throughWhat(ohms quantity.Range) string {
	if math.IsInf(ohms.Low, 1) {
		return "with nothing across it that discharges it"
	}
	return "through " + strings.Replace(ohms.String(), "over", "more than", 1)
}
