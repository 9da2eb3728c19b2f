package handbook

import (
	"math"
	"slices"

	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
	"firstvolt/checks/strict"
)

// Gate is one point of a fuse's time–current limits: at Multiple times the
// rating it opens no sooner than Min and no later than Max seconds. Max is
// +Inf where the standard sets none.
type Gate struct{ Multiple, Min, Max float64 }

// fuses is the fuse table.
type fuses struct {
	gates    []gateRow
	series   map[string][]float64
	serial   map[string][]figure.Basis // beside series
	breaking []breakingRow
	cold     []coldRow
	bands    []bandRow
	spread   map[string]spreadRow
	from     sources
}

// kindRow is what a row is about; an empty word fits every fuse.
type kindRow struct {
	standard, speed, body string
	ratings               quantity.Range
	basis                 figure.Basis
}

type gateRow struct {
	kindRow
	gates []Gate
}

type breakingRow struct {
	kindRow            // body is the class: low, enhanced, high
	volts, amps, times float64
}

type coldRow struct {
	kindRow
	resistance, melting float64 // Ω, A²s
}

type bandRow struct {
	ratings, resistance quantity.Range
	basis               figure.Basis
}

type spreadRow struct {
	least, most float64
	basis       figure.Basis
}

func fuseTable() table {
	amps, number := of(quantity.Current), of(quantity.Number)
	standard, speed := words("ul-248-14", "iec-60127"), words("fast", "time-delay")
	body := words("glass", "ceramic", "enhanced")
	return open("fuse.yaml",
		must("gates", rowsOf(must("standard", standard), must("speed", speed), may("body", body), must("ratings", amps),
			must("opens", byKey(quantity.Number, quantity.Time)))),
		must("series", rowsOf(must("standard", standard), must("ratings", listOf(amps)))),
		must("breaking", rowsOf(must("standard", standard), may("class", words("low", "enhanced", "high")), must("ratings", amps),
			must("volts", of(quantity.Voltage)), must("amps", amps), may("times", number))),
		must("cold", rowsOf(must("standard", standard), must("speed", speed), may("body", body),
			must("resistance", byKey(quantity.Current, quantity.Resistance)), must("melting", byKey(quantity.Current, quantity.Number)))),
		must("bands", rowsOf(must("ratings", amps), must("resistance", of(quantity.Resistance)))),
		must("spread", rowsOf(must("standard", standard), must("least", number), must("most", number))))
}

var theFuses = sync1(func() *fuses {
	t := fuseTable()
	f := &fuses{series: map[string][]float64{}, serial: map[string][]figure.Basis{}, spread: map[string]spreadRow{}, from: t.from}
	kind := func(n *strict.Node) kindRow {
		r, _ := span(n, "ratings")
		return kindRow{n.Word("standard"), n.Word("speed"), n.Word("body"), r, t.basis(n)}
	}
	for _, n := range t.rows("gates") {
		row := gateRow{kindRow: kind(n)}
		for _, g := range pairs(n.Get("opens"), quantity.Number) {
			row.gates = append(row.gates, Gate{g.key, g.value.Low, g.value.High})
		}
		f.gates = append(f.gates, row)
	}
	for _, n := range t.rows("series") {
		for _, a := range values(n.Get("ratings")) {
			f.series[n.Word("standard")] = append(f.series[n.Word("standard")], a)
			f.serial[n.Word("standard")] = append(f.serial[n.Word("standard")], t.basis(n))
		}
	}
	for _, n := range t.rows("breaking") {
		row := breakingRow{kind(n), high(n, "volts", 0), high(n, "amps", 0), high(n, "times", 0)}
		row.body = n.Word("class")
		f.breaking = append(f.breaking, row)
	}
	for _, n := range t.rows("cold") {
		melting := pairs(n.Get("melting"), quantity.Current)
		for i, r := range pairs(n.Get("resistance"), quantity.Current) {
			row := coldRow{kind(n), r.value.High, melting[i].value.High}
			row.ratings = quantity.Exact(r.key, quantity.Current)
			f.cold = append(f.cold, row)
		}
	}
	for _, n := range t.rows("bands") {
		k := kind(n)
		r, _ := span(n, "resistance")
		f.bands = append(f.bands, bandRow{k.ratings, r, k.basis})
	}
	for _, n := range t.rows("spread") {
		f.spread[n.Word("standard")] = spreadRow{high(n, "least", 0), high(n, "most", 0), t.basis(n)}
	}
	return f
})

// fits tells whether the row speaks of such a fuse; a word that is not known
// fits every row.
func (k kindRow) fits(standard, speed, body string) bool {
	agree := func(a, b string) bool { return a == "" || b == "" || a == b }
	return k.standard == standard && agree(k.speed, speed) && agree(k.body, body)
}

// holds tells whether the row's ratings take in the rating.
func holds(r quantity.Range, rating float64) bool {
	return rating >= r.Low*(1-near) && rating <= r.High*(1+near)
}

// FuseSeries are the standard ratings in A of a standard, rising; nil where
// the standard is not known.
func FuseSeries(standard string) []float64 { return slices.Clone(theFuses().series[standard]) }

// NextStandard is the smallest standard rating in A that is at least amps, or
// NaN where there is none: a limit of NaN is met by nothing.
func NextStandard(standard string, amps float64) float64 {
	for _, r := range theFuses().series[standard] {
		if amps <= r*(1+near) {
			return r
		}
	}
	return math.NaN()
}

// SeriesBasis is where a standard rating stands.
func SeriesBasis(standard string, rating float64) (figure.Basis, bool) {
	for i, r := range theFuses().series[standard] {
		if same(rating, r) {
			return theFuses().serial[standard][i], true
		}
	}
	return figure.Basis{}, false
}

// FuseGates are the time–current gates of a fuse by standard, speed (fast,
// time-delay), body (glass is low breaking capacity, ceramic high; enhanced)
// and rating in A. A speed or body that is not known ("") takes the wider of
// what fits. Not known: another standard, or a rating that the sheets of the
// standard do not reach.
func FuseGates(standard, speed, body string, rating float64) ([]Gate, figure.Basis, bool) {
	var gates []Gate
	var basis figure.Basis
	for _, row := range theFuses().gates {
		if !row.fits(standard, speed, body) || !holds(row.ratings, rating) {
			continue
		}
		basis = weaker(basis, row.basis)
		if gates == nil {
			gates = slices.Clone(row.gates)
			continue
		}
		for _, g := range row.gates {
			i := slices.IndexFunc(gates, func(o Gate) bool { return same(o.Multiple, g.Multiple) })
			if i < 0 {
				gates = append(gates, g)
				continue
			}
			gates[i].Min = math.Min(gates[i].Min, g.Min)
			gates[i].Max = math.Max(gates[i].Max, g.Max)
		}
	}
	return gates, basis, len(gates) > 0
}

// FuseHold is the multiple of its rating that every fuse of a standard carries
// for an hour, whatever its speed, body and rating: the least of all sheets, so
// that it serves for a rating between or below those that a sheet tables.
func FuseHold(standard string) (float64, figure.Basis, bool) {
	hold, basis := math.Inf(1), figure.Basis{}
	for _, row := range theFuses().gates {
		if row.standard != standard {
			continue
		}
		basis = weaker(basis, row.basis)
		most := 0.0
		for _, g := range row.gates {
			if g.Min >= 3600 {
				most = math.Max(most, g.Multiple)
			}
		}
		hold = math.Min(hold, most)
	}
	return hold, basis, hold > 0 && !math.IsInf(hold, 1)
}

// BreakingCapacity is the greatest current in A that a fuse interrupts for
// certain at that voltage: class is low, enhanced or high, or a body (glass,
// ceramic) that stands for one by IEC 60127, or "" where neither is known, which
// takes the least. Not known above the voltage or outside the ratings of the standard.
func BreakingCapacity(standard, class string, rating, volts float64) (float64, figure.Basis, bool) {
	switch {
	case standard == "ul-248-14" && (class == "glass" || class == "ceramic"):
		class = "" // its table goes by rating and voltage: the fuse of 10 000 A is of glass
	case class == "glass":
		class = "low"
	case class == "ceramic":
		class = "high"
	}
	best, basis, ok := math.Inf(1), figure.Basis{}, false
	found := math.Inf(1) // the lowest tabled voltage that covers volts
	for _, row := range theFuses().breaking {
		if row.standard != standard || row.body != "" && class != "" && row.body != class || !holds(row.ratings, rating) || !(volts <= row.volts) || row.volts > found {
			continue
		}
		if row.volts < found {
			found, best = row.volts, math.Inf(1)
		}
		if a := math.Max(row.amps, row.times*rating); a < best {
			best, basis, ok = a, row.basis, true
		}
	}
	if ok && standard == "ul-248-14" && class == "low" && best > 35 {
		// Marked low: no more than a low-breaking fuse of any standard.
		a, b, _ := BreakingCapacity("iec-60127", "low", math.Min(math.Max(rating, 0.032), 10), volts)
		return math.Min(a, best), b, true
	}
	if !ok {
		return 0, figure.Basis{}, false
	}
	return best, basis, true
}

// weaker is the basis that is known less well of two; an empty one yields.
func weaker(a, b figure.Basis) figure.Basis {
	order := []figure.Status{figure.Published, figure.Computed, figure.FromMemory, figure.CommonPractice, figure.Shop}
	if a.Status == "" || b.Status != "" && slices.Index(order, b.Status) > slices.Index(order, a.Status) {
		return b
	}
	return a
}
