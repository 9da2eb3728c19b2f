package entry

import (
	"fmt"
	"math"
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
	"firstvolt/checks/sheet"
)

var (
	impedanceThere = &figure.Def{Name: "impedance-to-line", Room: "entry", Of: []string{"chassis", "body"}, Present: true,
		Says: "resistors join it to a line conductor, and nothing else that conducts does"}
	impedanceParts = &figure.Def{Name: "impedance-components", Room: "entry", Of: []string{"chassis", "body"}, Unit: quantity.Number,
		Says: "resistors in series between it and the line, at least"}
	impedanceCurrent = &figure.Def{Name: "impedance-current-one-shorted", Room: "entry", Of: []string{"chassis", "body"}, Unit: quantity.Current,
		Says: "current through the protective impedance with its largest component shorted"}
)

// impeded finds, for the chassis and each touchable body, the resistors that
// join it to a line conductor; nil where none do or something less does.
func impeded(b *bench.Bench) map[string][]*circuit.Element {
	out := map[string][]*circuit.Element{}
	c := b.Circuit(bench.ClosedState())
	plain := c.Reach(lineList(b), func(e *circuit.Element) bool { return bench.Conductors(e) && !bench.ProtectiveResistor(e) })
	all := c.Reach(lineList(b), bench.Conductors)
	for _, t := range append([]string{sheet.Chassis}, bodyNames(b)...) {
		if plain.Has(t) || !all.Has(t) {
			continue
		}
		for _, e := range c.Between(lineList(b), []string{t}) {
			if bench.ProtectiveResistor(e) {
				out[t] = append(out[t], e)
			}
		}
	}
	return out
}

func metalSubjects(b *bench.Bench) []figure.Subject {
	out := []figure.Subject{chassisOf(b)}
	for _, p := range bodies(b) {
		out = append(out, b.Of(p))
	}
	return out
}

func computeImpedanceThere(b *bench.Bench) (out []figure.Figure) {
	found := impeded(b)
	for _, s := range append([]figure.Subject{chassisOf(b)}, b.Subjects("body")...) { // none to what no hand gets to
		out = append(out, figure.Is(impedanceThere, s, len(found[s.Name]) > 0))
	}
	return out
}

// computeImpedanceParts counts, for each target, the fewest resistors on any
// way from line to it.
func computeImpedanceParts(b *bench.Bench) (out []figure.Figure) {
	found := impeded(b)
	c := b.Circuit(bench.ClosedState())
	for _, s := range metalSubjects(b) {
		if len(found[s.Name]) == 0 {
			continue
		}
		from := lineList(b)
		n := 0
		for ; n <= len(found[s.Name]); n++ {
			r := c.Reach(from, func(e *circuit.Element) bool { return bench.Conductors(e) && !bench.ProtectiveResistor(e) })
			if r.Has(s.Name) {
				break
			}
			for _, e := range r.Touched() { // one resistor further
				if bench.ProtectiveResistor(e) {
					from = append(from, e.A, e.B)
				}
			}
		}
		out = append(out, figure.Number(impedanceParts, s, quantity.Exact(float64(n), quantity.Number)))
	}
	return out
}

// computeImpedanceCurrent shorts each resistor in turn and takes the highest
// supply over what is left, every resistor at its low end.
func computeImpedanceCurrent(b *bench.Bench) (out []figure.Figure) {
	found := impeded(b)
	_, limits := b.Mains()
	c := b.Circuit(bench.ClosedState())
	for _, s := range metalSubjects(b) {
		if len(found[s.Name]) == 0 {
			continue
		}
		worst := quantity.Range{Dim: quantity.Current}
		var trace []string
		for _, shorted := range found[s.Name] {
			es := slices.Clone(c.Elements())
			for i := range es {
				if es[i].Name == shorted.Name {
					es[i].R = circuit.Interval{}
				}
			}
			res, err := circuit.New(es).Resistance(lineList(b), []string{s.Name})
			if err != nil {
				worst = quantity.Unknown(quantity.Current)
				break
			}
			i := quantity.Exact(limits.High, quantity.Voltage).Div(quantity.Range{Low: res.R.Low, High: res.R.High}, quantity.Current)
			worst = quantity.Range{Low: math.Max(worst.Low, i.Low), High: math.Max(worst.High, i.High), Dim: quantity.Current}
			trace = append(trace, fmt.Sprintf("%s shorted: %s ÷ %s = %s", shorted.Owner, quantity.Format(limits.High, quantity.Voltage),
				quantity.Range{Low: res.R.Low, High: res.R.High, Dim: quantity.Resistance}, i))
		}
		f := figure.Number(impedanceCurrent, s, worst)
		f.Trace = trace
		out = append(out, f)
	}
	return out
}
