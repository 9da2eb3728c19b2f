package handbook

import (
	"slices"
	"strings"

	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
)

// wire is the conductor table.
type wire struct {
	resistivity           float64 // Ω·m at 20 °C
	zero                  float64 // °C, K: below it copper would have no resistance
	stranding, allowance  float64 // fractions
	copper, awg           figure.Basis
	class5                []classRow
	byGauge, byMillimeter []ampacityRow
}

type classRow struct {
	area, plain float64 // m², Ω/m
	basis       figure.Basis
}

type ampacityRow struct {
	area     float64 // m²
	carrying int
	amps     float64
	basis    figure.Basis
}

// near is the slack in comparing areas and ratings: a written value against
// the same written value, never a tolerance of the thing.
const near = 1e-6

func wireTable() table {
	number := of(quantity.Number)
	ampacity := rowsOf(must("size", of(quantity.Area)), must("carrying", words("2", "3")), must("amps", of(quantity.Current)))
	return open("wire.yaml",
		must("copper", rowsOf(must("resistivity", number), must("zero", of(quantity.Temperature)), must("stranding", of(quantity.Fraction)), must("allowance", of(quantity.Fraction)))),
		must("class-5", rowsOf(must("size", of(quantity.Area)), must("plain", number), may("tinned", number))),
		must("ampacity-awg", ampacity), must("ampacity-metric", ampacity))
}

var theWire = sync1(func() *wire {
	t := wireTable()
	c := t.rows("copper")[0]
	w := &wire{
		resistivity: high(c, "resistivity", 0) * 1e-9, zero: high(c, "zero", 0),
		stranding: high(c, "stranding", 0), allowance: high(c, "allowance", 0),
		copper: t.basis(c), awg: t.from["astm"],
	}
	for _, n := range t.rows("class-5") {
		w.class5 = append(w.class5, classRow{high(n, "size", 0), high(n, "plain", 0) / 1000, t.basis(n)})
	}
	for key, to := range map[string]*[]ampacityRow{"ampacity-awg": &w.byGauge, "ampacity-metric": &w.byMillimeter} {
		for _, n := range t.rows(key) {
			*to = append(*to, ampacityRow{high(n, "size", 0), int(n.Word("carrying")[0] - '0'), high(n, "amps", 0), t.basis(n)})
		}
	}
	return w
})

// CopperAt is the resistance in Ω at t °C of copper that has r20 at 20 °C.
func CopperAt(r20, t float64) float64 { return CopperFrom(r20, 20, t) }

// CopperFrom carries a copper resistance from one temperature to another,
// both in °C: R₂ = R₁·(K + t₂)/(K + t₁), K = 234.5 (the rise-by-resistance
// clause of appliance standards; 235 in machine standards changes a 50 K rise
// by 0.1 K).
func CopperFrom(r, from, to float64) float64 {
	k := theWire().zero
	return r * (k + to) / (k + from)
}

// CopperBasis is the source of CopperAt.
func CopperBasis() figure.Basis { return theWire().copper }

// ConductorResistance is the resistance in Ω of one conductor of a cord: size
// as written on the sheet and its area, length in m, copper temperature in °C.
// An AWG size runs from the solid formula value to 5 % more for stranding; a
// metric size from its nominal area of pure copper to the published maximum of
// a class 5 conductor, or to the worse of its neighbours' where its own is not
// tabled. It is not known outside 0.5 to 2.5 mm², nor without size or length.
func ConductorResistance(written string, area, length, temp quantity.Range) (quantity.Range, figure.Basis, bool) {
	w := theWire()
	if !(area.Valid() && area.Low > 0 && length.Valid() && length.Low >= 0 && temp.Valid() && temp.Low > -w.zero) {
		return quantity.Unknown(quantity.Resistance), figure.Basis{}, false
	}
	basis := w.awg
	most := w.resistivity / area.Low * (1 + w.stranding)
	least := w.resistivity / area.High
	if !IsGauge(written) {
		var ok bool
		if most, basis, ok = w.classMost(area.Low); !ok {
			return quantity.Unknown(quantity.Resistance), figure.Basis{}, false
		}
		least *= 1 - w.allowance
	}
	r := quantity.Range{
		Low:  CopperAt(least, temp.Low) * length.Low,
		High: CopperAt(most, temp.High) * length.High,
		Dim:  quantity.Resistance,
	}
	return r, basis, r.Valid()
}

// classMost is the greatest Ω/m of a class 5 conductor of the area at 20 °C.
func (w *wire) classMost(area float64) (float64, figure.Basis, bool) {
	for i, row := range w.class5 {
		switch {
		case same(area, row.area):
			return row.plain, row.basis, true
		case area < row.area && i > 0:
			below := w.class5[i-1]
			// Ω/m times area: how far the standard lets a conductor fall short
			// of its nominal area; the worse of the two neighbours.
			return max(row.plain*row.area, below.plain*below.area) / area, figure.Basis{
				Status: figure.Computed, Source: "IEC 60228 class 5 maxima of the neighbouring sizes, by area",
			}, true
		case area < row.area:
			return 0, figure.Basis{}, false
		}
	}
	return 0, figure.Basis{}, false
}

// Ampacity is the current in A that a cord conductor of the size may carry
// with that many conductors carrying current (the ground conductor not
// counted; one counts as two). A size that is not tabled takes the next
// smaller one; below the smallest, or with more conductors than the table
// knows, nothing is known.
func Ampacity(written string, area quantity.Range, carrying int) (float64, figure.Basis, bool) {
	w := theWire()
	if !(area.Valid() && area.Low > 0) || carrying < 1 {
		return 0, figure.Basis{}, false
	}
	rows := w.byMillimeter
	if IsGauge(written) {
		rows = w.byGauge
	}
	best := ampacityRow{}
	for _, row := range rows {
		if row.carrying == max(carrying, 2) && (row.area <= area.Low || same(row.area, area.Low)) && row.area > best.area {
			best = row
		}
	}
	return best.amps, best.basis, best.area > 0
}

// AmpacityAtMost is what a conductor that the tables do not know cannot carry
// more than, in A: the least of what those carry that are as thick or thicker,
// with no more of them carrying current.
func AmpacityAtMost(area quantity.Range, carrying int) (amps float64, basis figure.Basis, ok bool) {
	if !area.Valid() || !(area.High > 0) {
		return 0, figure.Basis{}, false
	}
	w := theWire()
	for _, row := range slices.Concat(w.byGauge, w.byMillimeter) {
		thicker := row.area >= area.High || same(row.area, area.High)
		if thicker && row.carrying <= max(carrying, 2) && (!ok || row.amps < amps) {
			amps, basis, ok = row.amps, row.basis, true
		}
	}
	return amps, basis, ok
}

// IsGauge tells whether a size is written as an AWG number.
func IsGauge(written string) bool { return strings.Contains(strings.ToUpper(written), "AWG") }

func same(a, b float64) bool { return a-b <= near*b && b-a <= near*b }
