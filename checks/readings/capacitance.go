package readings

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

var capacitanceOff = figure.Def{
	Name: "capacitance-disagreement", Room: "readings", Of: []string{"chassis", "body", "reading"}, Unit: quantity.Number, Reading: true,
	Says: "capacitance that was read, less that which is marked on the capacitors, counted in allowances (2 nF and a quarter of that marked)",
}

var capacitanceElsewhere = figure.Def{
	Name: "capacitance-read-elsewhere", Room: "readings", Of: []string{"reading"}, Present: true,
	Says: "It is a capacitance reading other than from both pins to metal that a hand touches.",
}

// elsewhere tells whether a reading is one of capacitance that no metal's own
// finding takes, and that something predicts.
func elsewhere(b *bench.Bench, rd *sheet.Reading) bool {
	return rd.Kind == "capacitance" && !slices.ContainsFunc(plugMetal(b), func(metal string) bool {
		return mainsAgainst(b, rd, metal, true) == always
	}) && !readsFilter(b, rd)
}

// readsFilter tells whether a reading from pin to pin tells what a filter holds,
// which nothing else says: it bounds the charge on the pins, and nothing
// predicts it. Less than the marked capacitors beside the filter is another
// matter, and is judged.
func readsFilter(b *bench.Bench, rd *sheet.Reading) bool {
	r, known, _ := rd.True()
	states, told := b.StatesOf(rd)
	if !b.FromPinToPin(rd) || !known || !told {
		return false
	}
	return !slices.ContainsFunc(states, func(st bench.State) bool {
		beside, inside, needs := markedSum(b, b.Circuit(st), rd)
		return len(needs) > 0 || len(inside) == 0 || !(overMarked(r.High, beside.Low) >= -1)
	})
}

func computeCapacitanceElsewhere(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	for _, rd := range b.Sheet.Readings {
		out = append(out, figure.Is(&capacitanceElsewhere, subject(b, rd), elsewhere(b, rd)))
	}
	return out
}

// What windings and wiring add, and what marked values may be off by (rule of
// the readings).
const (
	strayFarads = 2e-9
	markedShare = 0.25
)

func computeCapacitance(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	for _, s := range b.Subjects(bench.Metalwork...) {
		var some *sheet.Reading
		none := true
		for _, rd := range ofKind(b, "capacitance") {
			switch mainsAgainst(b, rd, s.Name, true) {
			case partly:
				some = rd // judged by its own name; it stands for the metal only where nothing else does
			case always:
				none = false
				f := capacitanceOf(b, s, rd)
				f.At = rd.At
				out = append(out, f)
			}
		}
		switch {
		case none && some != nil:
			f := figure.NotKnown(&capacitanceOff, s, unsaid(some))
			f.At = some.At
			out = append(out, f)
		case none:
			out = append(out, figure.NotTaken(&capacitanceOff, s, figure.Need{
				What: fmt.Sprintf("capacitance between plug.hot + plug.neutral and %s, switches closed", s.Name),
				How:  "a capacitance meter at the pins of the plug, set unplugged"}))
		}
	}
	return append(out, capacitanceElsewhereOf(b)...)
}

// capacitanceElsewhereOf judges every other capacitance reading by its own name.
func capacitanceElsewhereOf(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	for _, rd := range ofKind(b, "capacitance") {
		if elsewhere(b, rd) {
			f := capacitanceOf(b, subject(b, rd), rd)
			f.At = rd.At
			out = append(out, f)
		}
	}
	return out
}

func capacitanceOf(b *bench.Bench, s figure.Subject, rd *sheet.Reading) figure.Figure {
	r, ok, why := rd.True()
	if !ok {
		return figure.NotKnown(&capacitanceOff, s, useless(rd, why))
	}
	if !b.Sheet.HasWiring() {
		return figure.NotKnown(&capacitanceOff, s, figure.Need{What: "the wiring", How: "which capacitors the reading sees hangs on it"})
	}
	var out figure.Figure
	states, told := b.StatesOf(rd)
	if !told {
		return figure.NotKnown(&capacitanceOff, s, unsaid(rd))
	}
	for i, st := range states {
		sum, inside, needs := markedSum(b, b.Circuit(st), rd)
		if len(needs) > 0 {
			return figure.NotKnown(&capacitanceOff, s, append(inside, needs...)...)
		}
		// The quotient falls as the sum rises.
		d := quantity.Range{Low: overMarked(r.Low, sum.High), High: overMarked(r.High, sum.Low), Dim: quantity.Number}
		if i > 0 {
			d = d.Hull(out.Range)
		}
		out = figure.Number(&capacitanceOff, s, d)
		out.Trace = []string{fmt.Sprintf("read %s, marked %s", r, sum), fmt.Sprintf("(read − marked) over (2 nF + a quarter of marked): %s", d)}
		one := quantity.Range{Low: strayFarads + markedShare*sum.Low, High: strayFarads + markedShare*sum.High, Dim: quantity.Capacitance}
		out.Note = fmt.Sprintf("read %s, marked %s, one allowance %s", r, sum, one)
		if len(inside) > 0 {
			out.Note, out.Settle = "", inside
		}
	}
	return out
}

func overMarked(read, sum float64) float64 {
	if math.IsInf(sum, 1) {
		return -1 / markedShare
	}
	return (read - sum) / (strayFarads + markedShare*sum)
}

// markedSum is the capacitance between the probes by the marked values: a
// capacitor is taken as a resistance of 1/C, so that series and parallel come
// out by the network; whatever conducts joins, but for a protective resistor,
// behind which a meter sees next to nothing of a capacitor. Where something
// conducts from probe to probe, what lies across counts and no winding joins.
// inside is what lies in filters besides, of which the sum has anything.
func markedSum(b *bench.Bench, c *circuit.Circuit, rd *sheet.Reading) (sum quantity.Range, inside, needs []figure.Need) {
	sum.Dim = quantity.Capacitance
	var es []circuit.Element
	apart := separate(c, rd)
	if slices.ContainsFunc(rd.B, touched(c, rd.A, bench.Contacts)) {
		return sum, nil, []figure.Need{{What: "capacitance of " + rd.Name + " with nothing that joins the probes", How: "a wire or contact lies across them, so that no capacitance can be read there"}}
	}
	for _, e := range c.Elements() {
		p := bench.PartOfElement(&e)
		switch {
		case p != nil && (e.Conducts == circuit.Bridging && (p.Is(part.Nonpolar|part.Filters)) || e.Law == circuit.Electrolytic):
			v, ok := p.Value("value")
			if ok && v.Low > 0 {
				e.R = circuit.Interval{Low: 1 / v.High, High: 1 / v.Low}
			} else if !ok {
				e.R = circuit.Anything()
			} else {
				continue
			}
			e.Conducts = circuit.Conducting
		case bench.Contacts(&e), apart && bench.Conductors(&e) && !bench.ProtectiveResistor(&e):
			e.Conducts, e.R = circuit.Wire, circuit.Interval{}
		default:
			continue
		}
		es = append(es, e)
	}
	net := circuit.New(es, append(slices.Clone(rd.A), rd.B...)...)
	for _, e := range net.Between(rd.A, rd.B) {
		if p := bench.PartOfElement(e); p != nil && e.Conducts == circuit.Conducting {
			switch _, ok := p.Value("value"); {
			case p.Is(part.Filters):
				inside = append(inside, figure.Need{What: "the capacitors inside " + p.Name, How: fmt.Sprintf("no key says them; read with %s lifted (without: [%s]) and the primary joined to both pins at the probe", p.Name, p.Name)})
			case !ok:
				needs = append(needs, figure.Need{What: p.Name + " value", How: "add it to the part"})
			}
		}
	}
	if len(needs) > 0 {
		return sum, inside, slices.Compact(needs)
	}
	res, err := net.Resistance(rd.A, rd.B)
	switch {
	case err != nil:
		return sum, inside, []figure.Need{{What: "a sum of the marked capacitors", How: err.Error()}}
	case !res.Open:
		sum.Low, sum.High = 1/res.R.High, 1/res.R.Low
	}
	return sum, slices.Compact(inside), nil
}
