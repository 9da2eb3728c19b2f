package handbook

import (
	"math"

	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
)

// FuseColdResistance is what a good fuse may read in Ω at room temperature,
// by standard, speed, body ("" where not known) and rating in A. A tabled
// rating takes its makers' value with the spread of other makers; one between
// two takes the lower end of the larger and the upper end of the smaller; a UL
// fuse whose own value is not tabled is bounded from the IEC ones. Above and
// below the table there are bands; a fuse of less than 32 mA has no upper end.
func FuseColdResistance(standard, speed, body string, rating float64) (quantity.Range, figure.Basis, bool) {
	f := theFuses()
	none := quantity.Unknown(quantity.Resistance)
	spread, ok := f.spread[standard]
	if !ok || !(rating > 0) {
		return none, figure.Basis{}, false
	}
	hull := quantity.Range{Low: math.Inf(1), Dim: quantity.Resistance}
	basis := figure.Basis{}
	take := func(low, high float64, b figure.Basis) {
		hull.Low, hull.High = math.Min(hull.Low, low), math.Max(hull.High, high)
		basis = weaker(basis, b)
	}
	for _, row := range f.cold {
		if row.fits(standard, speed, body) && holds(row.ratings, rating) {
			own := f.spread["iec-60127"] // another maker of the same thing
			take(row.resistance*own.least, row.resistance*own.most, row.basis)
		}
	}
	if standard == "iec-60127" && basis.Source != "" {
		return hull, basis, true
	}
	between := f.from["between"]
	if standard != "iec-60127" {
		between = spread.basis
	}
	if standard != "iec-60127" && basis.Source != "" && speed != "" {
		return hull, basis, true
	}
	for _, kind := range f.kinds(speed, body) {
		smaller, larger := math.NaN(), math.NaN() // resistance at the tabled ratings on either side
		for _, row := range f.cold {              // rising ratings
			if !row.fits("iec-60127", kind.speed, kind.body) {
				continue
			}
			if row.ratings.High <= rating*(1+near) {
				smaller = row.resistance
			}
			if row.ratings.Low >= rating*(1-near) && math.IsNaN(larger) {
				larger = row.resistance
			}
		}
		if smaller > 0 && larger > 0 {
			take(larger*spread.least, smaller*spread.most, between)
		}
	}
	if basis.Source != "" {
		return hull, basis, true
	}
	for _, row := range f.bands {
		if holds(row.ratings, rating) {
			return row.resistance, row.basis, true
		}
	}
	return none, figure.Basis{}, false
}

// kinds are the tabled IEC kinds that the words fit, or all of them where the
// words fit none (a quick-acting ceramic fuse has no column).
func (f *fuses) kinds(speed, body string) []kindRow {
	collect := func(speed, body string) (out []kindRow) {
		last := kindRow{}
		for _, row := range f.cold {
			k := kindRow{speed: row.speed, body: row.body}
			if row.fits("iec-60127", speed, body) && k != last {
				out, last = append(out, k), k
			}
		}
		return out
	}
	if k := collect(speed, body); len(k) > 0 {
		return k
	}
	return collect("", "")
}

// Clearing of a heavy fault: at so many times its melting I²t the fuse is
// through, and the arc is out one half cycle of 50 Hz later.
const (
	meltingMargin = 3
	halfCycle     = 0.01
)

// FuseOpens bounds the time in s from the onset of a lasting current of amps
// until a fuse of the rating is open: from the gates on either side, and for a
// heavy current from its melting I²t. High is +Inf where nothing says that it
// opens at all. It does not look at breaking capacity.
func FuseOpens(standard, speed, body string, rating, amps float64) (quantity.Range, figure.Basis, bool) {
	gates, basis, ok := FuseGates(standard, speed, body, rating)
	if !ok || !(amps >= 0) {
		return quantity.Unknown(quantity.Time), figure.Basis{}, false
	}
	t := quantity.Unknown(quantity.Time)
	ratio := amps / rating
	for _, g := range gates { // rising multiples
		if ratio <= g.Multiple*(1+near) {
			t.Low = math.Max(t.Low, g.Min)
		}
		if ratio >= g.Multiple*(1-near) {
			t.High = math.Min(t.High, g.Max)
		}
	}
	if melting, b, ok := FuseMelting(standard, speed, body, rating); ok {
		// Without heat lost, which holds only while it is over this quickly.
		if over := meltingMargin * melting.High / (amps * amps); over <= halfCycle && over+halfCycle < t.High {
			t.High, basis = over+halfCycle, weaker(weaker(basis, b), theFuses().from["melting"])
		}
	}
	return t, basis, true
}

// FuseMelting is the melting I²t in A²s of a fuse where it is tabled for the
// kind, carried to other ratings by the square of the rating: the hull of all
// tabled values of the standard and speed. For a UL quick-acting fuse, which
// has none, that of the time-delay one is the upper end.
func FuseMelting(standard, speed, body string, rating float64) (quantity.Range, figure.Basis, bool) {
	r := quantity.Range{Low: math.Inf(1), Dim: quantity.Number}
	basis := figure.Basis{}
	quick := standard == "ul-248-14" && speed == "fast"
	if quick {
		speed = ""
	}
	for _, row := range theFuses().cold {
		if row.fits(standard, speed, body) {
			scaled := row.melting * math.Pow(rating/row.ratings.High, 2)
			if same(rating, row.ratings.High) {
				scaled = row.melting
			}
			r.Low, r.High = math.Min(r.Low, scaled), math.Max(r.High, scaled)
			basis = weaker(basis, row.basis)
		}
	}
	if basis.Source == "" {
		return quantity.Unknown(quantity.Number), basis, false
	}
	if quick {
		r.Low = 0
	}
	return r, figure.Basis{Status: figure.Computed, Source: "melting I²t by the square of the rating, from " + basis.Source}, true
}
