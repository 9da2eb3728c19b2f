package bench

import (
	"math"

	"firstvolt/checks/circuit"
)

// WindingOhms are the sections that a resistance reading measures directly, and
// the coils of filters.
func (b *Bench) WindingOhms() map[string]circuit.Interval {
	m := map[string]circuit.Interval{}
	for _, rd := range b.Sheet.Readings {
		name := b.Over(rd)
		r, ok, _ := rd.True()
		if w, i, j, direct := b.Direct(rd); direct && j == i+1 {
			name = w.Part.SectionName(w.Winding, j)
			r, ok, _ = b.DirectOhms(rd)
		}
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
