package handbook

import (
	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
)

type windings struct {
	bands      []bandOfSize
	regulation []sizeShare
	parts      map[string]rangeRow
	factors    map[string]rangeRow
	halves     HalvesLimit
	idle       IdlePrimary
}

type bandOfSize struct {
	size  quantity.Range
	roles map[string]quantity.Range
	basis figure.Basis
}

type sizeShare struct {
	size  float64
	share quantity.Range
	basis figure.Basis
}

type rangeRow struct {
	value quantity.Range
	basis figure.Basis
}

// HalvesLimit is how unequal the resistances of two halves of a winding are,
// larger over smaller less one: usual up to Should, suspect beyond Must.
type HalvesLimit struct {
	Should, Must float64
	Basis        figure.Basis
}

// IdlePrimary is what a primary draws with nothing on the secondaries: shares
// of its rated current and of its size in VA, and the power factor.
type IdlePrimary struct {
	Current, Factor, Loss quantity.Range
	Basis                 figure.Basis
}

var bandRoles = []string{"primary-117", "primary-230", "half", "heater", "rectifier"}

func windingTable() table {
	ohms, share, number := of(quantity.Resistance), of(quantity.Fraction), of(quantity.Number)
	band := rowsOf(must("size", of(quantity.Power)), must("primary-117", ohms), must("primary-230", ohms), must("half", ohms), must("heater", ohms), must("rectifier", ohms))
	return open("winding.yaml",
		must("bands", band),
		must("regulation", rowsOf(must("size", of(quantity.Power)), must("share", share))),
		must("halves", rowsOf(must("should", share), must("must", share))),
		must("parts", rowsOf(must("kind", words("field-coil", "choke", "output-primary")), must("resistance", ohms))),
		must("idle", rowsOf(must("current", share), must("factor", number), must("loss", share))),
		must("factors", rowsOf(must("of", words("transformer", "string")), must("factor", number))))
}

var theWindings = sync1(func() *windings {
	t := windingTable()
	w := &windings{parts: map[string]rangeRow{}, factors: map[string]rangeRow{}}
	for _, n := range t.rows("bands") {
		b := bandOfSize{roles: map[string]quantity.Range{}, basis: t.basis(n)}
		b.size, _ = span(n, "size")
		for _, role := range bandRoles {
			b.roles[role], _ = span(n, role)
		}
		w.bands = append(w.bands, b)
	}
	for _, n := range t.rows("regulation") {
		s, _ := span(n, "share")
		w.regulation = append(w.regulation, sizeShare{high(n, "size", 0), s, t.basis(n)})
	}
	for _, n := range t.rows("parts") {
		r, _ := span(n, "resistance")
		w.parts[n.Word("kind")] = rangeRow{r, t.basis(n)}
	}
	for _, n := range t.rows("factors") {
		r, _ := span(n, "factor")
		w.factors[n.Word("of")] = rangeRow{r, t.basis(n)}
	}
	h, i := t.rows("halves")[0], t.rows("idle")[0]
	w.halves = HalvesLimit{high(h, "should", 0), high(h, "must", 0), t.basis(h)}
	w.idle.Current, _ = span(i, "current")
	w.idle.Factor, _ = span(i, "factor")
	w.idle.Loss, _ = span(i, "loss")
	w.idle.Basis = t.basis(i)
	return w
})

// WindingBand is the usual cold resistance in Ω of a winding of a radio power
// transformer by role: primary (with its volts), half (one half of the plate
// winding), heater (6.3 V) or rectifier (5 V), and the transformer's size in W
// or VA. Between two sizes both count; a size that is not known (0 or less)
// takes all of them; outside the table, and of a primary that is neither for
// 100 to 130 V nor for 200 to 260 V, nothing is known.
func WindingBand(role string, size, volts float64) (quantity.Range, figure.Basis, bool) {
	w := theWindings()
	none := quantity.Unknown(quantity.Resistance)
	if role == "primary" {
		switch {
		case volts >= 100 && volts <= 130:
			role = "primary-117"
		case volts >= 200 && volts <= 260:
			role = "primary-230"
		}
	}
	if _, ok := w.bands[0].roles[role]; !ok {
		return none, figure.Basis{}, false
	}
	first, last := w.bands[0].size.Low, w.bands[len(w.bands)-1].size.High
	known := size > 0
	if known && (size < first || size > last) {
		return none, figure.Basis{}, false
	}
	var out *quantity.Range
	for i, b := range w.bands {
		next := last
		if i+1 < len(w.bands) {
			next = w.bands[i+1].size.Low
		}
		before := first
		if i > 0 {
			before = w.bands[i-1].size.High
		}
		// A band reaches to where its neighbours begin, so that a size in a
		// gap takes both of them.
		if r := b.roles[role]; !known || size > before && size < next || holds(b.size, size) {
			if out != nil {
				r = out.Hull(r)
			}
			out = &r
		}
	}
	if out == nil {
		return none, figure.Basis{}, false
	}
	return *out, w.bands[0].basis, true
}

// Regulation is the usual (no-load − loaded volts)/loaded volts of a radio
// transformer by size in W or VA: that of the sizes on either side of it; a
// size that is not known, or outside the table, takes the hull of all, and ok
// is false.
func Regulation(size float64) (quantity.Range, figure.Basis, bool) {
	rows := theWindings().regulation
	hull, within := rows[0].share, false
	for _, r := range rows {
		hull = hull.Hull(r.share)
	}
	for i, r := range rows {
		switch {
		case same(size, r.size):
			return r.share, r.basis, true
		case i > 0 && size > rows[i-1].size && size < r.size:
			hull, within = r.share.Hull(rows[i-1].share), true
		}
	}
	return hull, rows[0].basis, within
}

// PartBand is the usual cold resistance in Ω of a field-coil, a filter choke
// or an output-primary.
func PartBand(kind string) (quantity.Range, figure.Basis, bool) {
	r, ok := theWindings().parts[kind]
	return r.value, r.basis, ok
}

// PowerFactor is the usual power factor of a radio with a power transformer
// ("transformer") or with its heaters in series on the line ("string").
func PowerFactor(of string) (quantity.Range, figure.Basis, bool) {
	r, ok := theWindings().factors[of]
	return r.value, r.basis, ok
}

// Halves is how unequal the halves of a winding may be.
func Halves() HalvesLimit { return theWindings().halves }

// Idle is what a primary draws without load.
func Idle() IdlePrimary { return theWindings().idle }
