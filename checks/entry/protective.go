package entry

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

var (
	impedanceThere = &figure.Def{Name: "impedance-to-line", Room: "entry", Of: bench.Metalwork, Present: true,
		Says: "resistors join it to a line conductor, and nothing else that conducts does"}
	impedanceParts = &figure.Def{Name: "impedance-components", Room: "entry", Of: bench.Metalwork, Unit: quantity.Number,
		Says: "resistors in series between it and the line, at least"}
	impedanceCurrent = &figure.Def{Name: "impedance-current-one-shorted", Room: "entry", Of: bench.Metalwork, Unit: quantity.Current,
		Says: "current through the protective impedance with its largest component shorted"}
)

// impedance is how resistors join metal to a line conductor in one state.
type impedance struct {
	c         *circuit.Circuit
	resistors []*circuit.Element
}

// impeded finds, for the chassis and each touchable body, the resistors that
// join it to a line conductor, switches closed, in each selector position;
// none where nothing does or something less does. What strikes counts as struck,
// and what a rectifier joins to the line as the line itself: it counts from there.
func impeded(b *bench.Bench) map[string][]impedance {
	out := map[string][]impedance{}
	states, _ := b.Combinations(bench.ClosedState(), true)
	for _, st := range states {
		c := warmed(b.Circuit(st))
		plain := c.Reach(lineList(b), unimpeded)
		all := c.Reach(lineList(b), bench.Conductors)
		for _, t := range append([]string{sheet.Chassis}, bodyNames(b)...) {
			if plain.Has(t) || !all.Has(t) {
				continue
			}
			found := impedance{c: c}
			for _, e := range c.Between(lineList(b), []string{t}) {
				if bench.ProtectiveResistor(e) {
					found.resistors = append(found.resistors, e)
				}
			}
			if len(found.resistors) > 0 {
				out[t] = append(out[t], found)
			}
		}
	}
	return out
}

// warmed is the circuit with every neon lamp, varistor and arrester conducting,
// as the voltage that each waits for is there, and every rectifier both ways.
func warmed(c *circuit.Circuit) *circuit.Circuit {
	conducts := func(e circuit.Element) bool {
		p := bench.PartOfElement(&e)
		return e.Law == circuit.Striking || p != nil && p.Is(part.Rectifies) && (e.Law == circuit.ColdTube || e.Conducts == circuit.OneWay)
	}
	if !slices.ContainsFunc(c.Elements(), conducts) {
		return c
	}
	es := slices.Clone(c.Elements())
	for i := range es {
		if conducts(es[i]) {
			es[i].Law, es[i].Conducts, es[i].R = circuit.Linear, circuit.Conducting, circuit.Interval{}
		}
	}
	return circuit.New(es)
}

func unimpeded(e *circuit.Element) bool {
	return bench.Conductors(e) && !bench.ProtectiveResistor(e)
}

func metalSubjects(b *bench.Bench) []figure.Subject {
	out := []figure.Subject{chassisOf(b)}
	for _, p := range bodies(b) {
		out = append(out, b.Of(p))
	}
	return out
}

// everyTried tells whether impeded saw every selector position.
func everyTried(b *bench.Bench) bool {
	_, all := b.Combinations(bench.ClosedState(), true)
	return all
}

func computeImpedanceThere(b *bench.Bench) (out []figure.Figure) {
	found := impeded(b)
	for _, s := range append([]figure.Subject{chassisOf(b)}, b.Subjects("body")...) { // none to what no hand gets to
		out = append(out, tried(everyTried(b) || s.Reach == "enclosed", figure.Is(impedanceThere, s, len(found[s.Name]) > 0)))
	}
	return out
}

// computeImpedanceParts counts, for each target, the fewest resistors on any
// way from line to it.
func computeImpedanceParts(b *bench.Bench) (out []figure.Figure) {
	found := impeded(b)
	for _, s := range metalSubjects(b) {
		fewest := math.MaxInt
		for _, i := range found[s.Name] {
			fewest = min(fewest, resistorsTo(i, lineList(b), s.Name))
		}
		switch {
		case len(found[s.Name]) > 0 && !everyTried(b):
			out = append(out, figure.NotKnown(impedanceParts, s, tooMany))
		case len(found[s.Name]) > 0:
			out = append(out, figure.Number(impedanceParts, s, quantity.Exact(float64(fewest), quantity.Number)))
		}
	}
	return out
}

// resistorsTo counts how many resistors lie between from and to at least.
func resistorsTo(i impedance, from []string, to string) int {
	n := 0
	for ; n <= len(i.resistors); n++ {
		r := i.c.Reach(from, unimpeded)
		if r.Has(to) {
			break
		}
		for _, e := range r.Touched() { // one resistor further
			if bench.ProtectiveResistor(e) {
				from = append(from, e.A, e.B)
			}
		}
	}
	return n
}

// computeImpedanceCurrent shorts each resistor in turn and takes the highest
// supply over what is left, every resistor at its low end.
func computeImpedanceCurrent(b *bench.Bench) (out []figure.Figure) {
	found := impeded(b)
	_, volts := b.ToEarth()
	for _, s := range metalSubjects(b) {
		if len(found[s.Name]) == 0 {
			continue
		}
		if !everyTried(b) {
			out = append(out, figure.NotKnown(impedanceCurrent, s, tooMany))
			continue
		}
		worst := quantity.Range{Dim: quantity.Current}
		var trace []string
		for _, at := range found[s.Name] {
			capacitors := at.bridging(lineList(b), s.Name)
			for _, shorted := range at.resistors {
				i, line := currentPast(at, shorted, lineList(b), s.Name, volts)
				if len(capacitors) > 0 {
					i, line = currentRound(b, at, shorted, capacitors, s.Name, volts)
				}
				worst = quantity.Range{Low: math.Max(worst.Low, i.Low), High: math.Max(worst.High, i.High), Dim: quantity.Current}
				trace = append(trace, line)
			}
		}
		f := figure.Number(impedanceCurrent, s, worst)
		slices.Sort(trace)
		f.Trace = slices.Compact(trace)
		out = append(out, f)
	}
	return out
}

// currentPast is the current to metal with one resistor shorted; unknown where
// the rest has no solution.
func currentPast(at impedance, shorted *circuit.Element, lines []string, metal string, volts quantity.Range) (quantity.Range, string) {
	es := slices.Clone(at.c.Elements())
	for i := range es {
		if es[i].Name == shorted.Name {
			es[i].R = circuit.Interval{}
		}
	}
	res, err := circuit.New(es).Resistance(lines, []string{metal})
	if err != nil {
		return quantity.Unknown(quantity.Current), fmt.Sprintf("%s shorted: %v", shorted.Owner, err)
	}
	r := quantity.Range{Low: res.R.Low, High: res.R.High, Dim: quantity.Resistance}
	i := volts.Div(r, quantity.Current)
	return i, fmt.Sprintf("%s shorted: %s ÷ %s = %s", shorted.Owner, volts, r, i)
}
