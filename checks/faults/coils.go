package faults

import (
	"math"
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/sheet"
)

// windingOhms are the sections that a resistance reading measures directly, and
// the coils of filters.
func windingOhms(b *bench.Bench) map[string]circuit.Interval {
	m := map[string]circuit.Interval{}
	for _, rd := range b.Sheet.Readings {
		name := filterCoil(b, rd)
		if w, i, j, ok := b.Direct(rd); ok && j == i+1 {
			name = w.Part.SectionName(w.Winding, j)
		}
		r, ok, _ := rd.True()
		if name == "" || !ok || !r.Bounded() {
			continue
		}
		v := circuit.Interval{Low: r.Low, High: r.High}
		if old, known := m[name]; known {
			v = circuit.Interval{Low: math.Min(v.Low, old.Low), High: math.Max(v.High, old.High)}
		}
		m[name] = v
	}
	return m
}

// filterCoil is the element of a filter that a resistance reading is over, with
// no other way from one probe to the other, or "".
func filterCoil(b *bench.Bench, rd *sheet.Reading) string {
	states, ok := b.StatesOf(rd)
	if rd.Kind != "resistance" || !ok || len(rd.A) != 1 || len(rd.B) != 1 {
		return ""
	}
	name := ""
	for _, st := range states {
		c := b.Circuit(st)
		es := c.Elements()
		i := slices.IndexFunc(es, func(e circuit.Element) bool {
			p := bench.PartOfElement(&e)
			return p != nil && p.Kind.Name == "filter" && e.Conducts == circuit.Conducting &&
				(e.A == rd.A[0] && e.B == rd.B[0] || e.A == rd.B[0] && e.B == rd.A[0])
		})
		if i < 0 {
			return ""
		}
		name = es[i].Name
		if c.Reach(rd.A, func(e *circuit.Element) bool { return e.Name != name && bench.Conductors(e) }).Has(rd.B[0]) {
			return ""
		}
	}
	return name
}
