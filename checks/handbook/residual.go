package handbook

import (
	"math"

	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
	"firstvolt/checks/strict"
)

// residuals is the table of residual-current devices.
type residuals struct {
	ignores, trips, constant, exponent, fastest float64 // of a class A GFCI, A
	gfci, rcd                                   figure.Basis
	half, whole                                 float64 // of an RCD, multiples of its rating
	times                                       []residualTime
	halfWave                                    []halfWaveRow
	share                                       float64
	budget                                      figure.Basis
}

type residualTime struct {
	times, within float64
	basis         figure.Basis
}

type halfWaveRow struct {
	kind           string
	ignores, trips float64
	basis          figure.Basis
}

func residualTable() table {
	amps, number := of(quantity.Current), of(quantity.Number)
	return open("residual.yaml",
		must("gfci", rowsOf(must("ignores", amps), must("trips", amps), must("constant", amps), must("exponent", number), must("fastest", amps))),
		must("rcd", rowsOf(must("ignores", number), must("trips", number))),
		must("rcd-times", rowsOf(must("times", number), must("within", of(quantity.Time)))),
		must("half-wave", rowsOf(must("type", words("a", "b")), must("ignores", number), must("trips", number))),
		must("budget", rowsOf(must("share", of(quantity.Fraction)))))
}

var theResiduals = sync1(func() *residuals {
	t := residualTable()
	first := func(key string) *strict.Node { return t.rows(key)[0] }
	g, c, b := first("gfci"), first("rcd"), first("budget")
	r := &residuals{
		ignores: high(g, "ignores", 0), trips: high(g, "trips", 0), constant: high(g, "constant", 0), exponent: high(g, "exponent", 0), fastest: high(g, "fastest", 0),
		gfci: t.basis(g), half: high(c, "ignores", 0), whole: high(c, "trips", 0), rcd: t.basis(c), share: high(b, "share", 0), budget: t.basis(b),
	}
	for _, n := range t.rows("rcd-times") {
		r.times = append(r.times, residualTime{high(n, "times", 0), high(n, "within", 0), t.basis(n)})
	}
	for _, n := range t.rows("half-wave") {
		r.halfWave = append(r.halfWave, halfWaveRow{n.Word("type"), high(n, "ignores", 0), high(n, "trips", 0), t.basis(n)})
	}
	return r
})

// ResidualTrip is the band in A of sinusoidal residual current in which a
// device may or may not trip: below Low it must not, from High on it must.
// Kind is gfci (rating is not used) or rcd with its rating in A.
func ResidualTrip(kind string, rating float64) (quantity.Range, figure.Basis, bool) {
	r := theResiduals()
	switch {
	case kind == "gfci":
		return quantity.Between(r.ignores, r.trips, quantity.Current), r.gfci, true
	case kind == "rcd" && rating > 0:
		return quantity.Between(r.half*rating, r.whole*rating, quantity.Current), r.rcd, true
	}
	return quantity.Unknown(quantity.Current), figure.Basis{}, false
}

// ResidualTime is the longest time in s that a working device may take to open
// at a sinusoidal residual current of amps; +Inf where it need not open at
// all. It may always be quicker.
func ResidualTime(kind string, rating, amps float64) (float64, figure.Basis, bool) {
	r := theResiduals()
	switch {
	case kind == "gfci":
		if !(amps >= r.trips*(1-near)) {
			return math.Inf(1), r.gfci, true
		}
		return math.Pow(r.constant/math.Min(amps, r.fastest), r.exponent), r.gfci, true
	case kind == "rcd" && rating > 0:
		for _, row := range r.times { // falling multiples
			if amps >= row.times*rating*(1-near) {
				return row.within, row.basis, true
			}
		}
		return math.Inf(1), r.rcd, true
	}
	return math.Inf(1), figure.Basis{}, false
}

// ResidualHalfWave is the band in A of half-wave residual current for an RCD
// of the type (ac, a, b) and rating in A. It is not known of a type that need
// not see it, which is every type but a and b.
func ResidualHalfWave(kind string, rating float64) (quantity.Range, figure.Basis, bool) {
	for _, row := range theResiduals().halfWave {
		if row.kind == kind && rating > 0 {
			return quantity.Between(row.ignores*rating, row.trips*rating, quantity.Current), row.basis, true
		}
	}
	return quantity.Unknown(quantity.Current), figure.Basis{}, false
}

// ResidualBudget is the share of the current at which a device may trip that
// standing leakage should not exceed.
func ResidualBudget() (float64, figure.Basis) { return theResiduals().share, theResiduals().budget }
