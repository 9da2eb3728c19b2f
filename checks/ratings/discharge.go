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
)

var (
	acrossPinsDef = &figure.Def{
		Name: "across-pins", Room: "ratings", Of: []string{"capacitor", "electrolytic"}, Present: true,
		Says: "it lies between the pins of the plug, through anything that conducts, in some switch position.",
	}
	unbledDef = &figure.Def{
		Name: "unbled-capacitance", Room: "ratings", Of: []string{"capacitor", "electrolytic"}, Unit: quantity.Capacitance,
		Says: "capacitance between the pins, with its tolerance, that still holds more than 34 V one second after the plug is pulled.",
	}
)

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
		if !bleeding(&e) {
			continue
		}
		if p := bench.PartOfElement(&e); p != nil && p.Kind.Name != "resistor" && p.Kind.Name != "potentiometer" && e.Conducts == circuit.Conducting {
			e.R.High = math.Min(e.R.High, loadOhms)
		}
		es = append(es, e)
	}
	lines := b.Lines()
	return circuit.New(es, lines[:]...)
}

// acrossPins tells whether a charge on p shows at the pins: one pin leads to one
// end without passing the other end, the second pin to the other.
func acrossPins(b *bench.Bench, c *circuit.Circuit, p *part.Part) bool {
	t, lines := p.Terminals(), b.Lines()
	ends := [2]string{p.Full(t[0]), p.Full(t[1])}
	leads := func(pin, end, barred string) bool {
		shut := c.Net(barred)
		r := c.Reach([]string{pin}, func(e *circuit.Element) bool {
			return bleeding(e) && !slices.Contains(shut, e.A) && !slices.Contains(shut, e.B)
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
		for _, p := range b.Parts("capacitor", "electrolytic") {
			if !acrossPins(b, c, p) {
				continue
			}
			group = append(group, p)
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
	t := p.Terminals()
	res, err := c.Resistance([]string{p.Full(t[0])}, []string{p.Full(t[1])})
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
	if !(left(res.R.Low, rated) <= heldVolts) {
		f.Low = rated
	}
	if !(left(res.R.High, most) <= heldVolts) {
		f.High = most
	}
	if first || f.High > h.farads.High || f.High == h.farads.High && f.Low > h.farads.Low {
		h.farads = f
		ohms := quantity.Range{Low: res.R.Low, High: res.R.High, Dim: quantity.Resistance}
		h.trace = []string{
			fmt.Sprintf("√2 × %g V = %.4g V; %s marked, up to %s, through %s", limits.High, peak, quantity.Format(rated, quantity.Capacitance), quantity.Format(most, quantity.Capacitance), ohms),
			fmt.Sprintf("after %g s at most %.3g V", afterSeconds, left(res.R.High, most)),
		}
	}
}

func acrossPinsCheck(b *bench.Bench) []figure.Figure {
	at := discharges(b)
	var out []figure.Figure
	for _, p := range b.Parts("capacitor", "electrolytic") {
		out = append(out, searched(b, figure.Is(acrossPinsDef, b.Of(p), at[p].across)))
	}
	return out
}

func unbled(b *bench.Bench) []figure.Figure {
	at := discharges(b)
	var out []figure.Figure
	for _, p := range b.Parts("capacitor", "electrolytic") {
		h := at[p]
		f := figure.Number(unbledDef, b.Of(p), h.farads)
		if needs := slices.Concat(h.needs, untried(b)); len(needs) > 0 || !h.across {
			f = figure.NotKnown(unbledDef, b.Of(p), needs...)
		}
		f.Trace, f.From = h.trace, []figure.Basis{heldBasis}
		out = append(out, f)
	}
	return out
}
