package readings

import (
	"fmt"
	"math"
	"strings"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/handbook"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
	"firstvolt/checks/sheet"
)

var hasBand = figure.Def{
	Name: "winding-has-usual-ohms", Room: "readings", Of: []string{"winding"}, Present: true,
	Says: "Windings of its kind have a usual resistance.",
}

var outsideBand = figure.Def{
	Name: "winding-outside-usual", Room: "readings", Of: []string{"winding"}, Unit: quantity.Number,
	Says: "how far its resistance lies out of the usual, where 1 is the edge and 2 twice the highest or half the lowest",
}

var hasHalves = figure.Def{
	Name: "winding-has-halves", Room: "readings", Of: []string{"winding"}, Present: true,
	Says: "It is a plate winding with a middle tap.",
}

var halves = figure.Def{
	Name: "halves-unequal", Room: "readings", Of: []string{"winding"}, Unit: quantity.Fraction, Reading: true,
	Says: "resistance that the larger half has more than the smaller",
}

// stretch is what direct readings say of a winding from one place of its Order
// to another: the span that holds them all, by themselves or as a sum.
func stretch(b *bench.Bench, w bench.PartWinding, from, to int) (r quantity.Range, at *sheet.Reading, ok bool) {
	sum := quantity.Range{Dim: quantity.Resistance}
	whole := true
	for k := from; k < to; k++ {
		one, rd, ok := readAt(b, w, k, k+1)
		whole = whole && ok
		sum = sum.Add(one)
		if rd != nil {
			at = rd
		}
	}
	if own, rd, ok := readAt(b, w, from, to); ok {
		if whole {
			return own.Hull(sum), rd, true
		}
		return own, rd, true
	}
	return sum, at, whole && from < to
}

// readAt is the span of every direct reading from place to place.
func readAt(b *bench.Bench, w bench.PartWinding, from, to int) (r quantity.Range, at *sheet.Reading, ok bool) {
	for _, rd := range ofKind(b, "resistance") {
		v, i, j, direct := b.Direct(rd)
		if !direct || v.Winding != w.Winding || i != from || j != to {
			continue
		}
		one, proves, _ := b.DirectOhms(rd)
		if !proves {
			one = quantity.Unknown(quantity.Resistance)
		}
		if ok {
			one = one.Hull(r)
		}
		r, at, ok = one, rd, true
	}
	return r, at, ok
}

// tapPlace is the place of the middle tap in a winding's Order, 0 if none.
func tapPlace(w bench.PartWinding) int {
	for i, t := range w.Winding.Order {
		if w.Winding.Tap != "" && t == w.Winding.Tap {
			return i
		}
	}
	return 0
}

// plateLike tells a winding that is judged as a plate winding: one that is
// called so, one of a transformer whose name does not say what it is, unless
// its volts are too few for one, and one that is called another but has more
// than such a one. A name must not switch a rule off.
func plateLike(w bench.PartWinding, s figure.Subject) bool {
	const least, most = 50, 200 // V end to end: heaters have less; neither they nor a bias winding have more (common practice)
	v, known := w.Winding.Volts()
	switch s.Role {
	case "plate":
		return true
	case "other":
		return w.Part.Is(part.MainsCore) && !(known && v.High < least)
	case "heater", "rectifier", "bias":
		return known && v.High > most
	}
	return false
}

// unnamed says of a winding that is judged by its volts why that is so.
func unnamed(w bench.PartWinding, s figure.Subject) string {
	if s.Role == "plate" {
		return ""
	}
	if s.Role != "other" {
		return fmt.Sprintf("%s has the volts of a plate winding and is judged as one, whatever its name", w.Name())
	}
	return fmt.Sprintf("the name %s does not say what winding it is, so it is taken for a plate winding; begin the name with %s",
		w.Name(), strings.Join(part.Roles[1:], ", "))
}

func computeHasHalves(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	ws, subjects := windings(b)
	for i, w := range ws {
		out = append(out, figure.Is(&hasHalves, subjects[i], plateLike(w, subjects[i]) && tapPlace(w) > 0))
	}
	return out
}

func computeHalves(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	ws, subjects := windings(b)
	for i, w := range ws {
		tap, last := tapPlace(w), len(w.Winding.Order)-1
		if tap == 0 || !plateLike(w, subjects[i]) {
			continue
		}
		x, at, okX := stretch(b, w, 0, tap)
		y, _, okY := stretch(b, w, tap, last)
		var needs []figure.Need
		tried := false
		if !okX {
			needs, tried = append(needs, halfNeed(w, w.Winding.Order[0])), triedOn(b, w, 0, tap)
		}
		if !okY {
			needs, tried = append(needs, halfNeed(w, w.Winding.Order[last])), tried || triedOn(b, w, tap, last)
		}
		if len(needs) > 0 {
			f := missing(tried)(&halves, subjects[i], needs...)
			f.Note = unnamed(w, subjects[i])
			out = append(out, f)
			continue
		}
		one, other := x.Div(y, quantity.Fraction), y.Div(x, quantity.Fraction)
		r := quantity.Range{Low: math.Max(0, math.Max(one.Low, other.Low)-1), High: math.Max(one.High, other.High) - 1, Dim: quantity.Fraction}
		f := figure.Number(&halves, subjects[i], r)
		f.At, f.Note = at.At, unnamed(w, subjects[i])
		f.Trace = []string{fmt.Sprintf("halves %s and %s", x, y), fmt.Sprintf("larger over smaller, less one: %s", r)}
		out = append(out, f)
	}
	return out
}

func halfNeed(w bench.PartWinding, end string) figure.Need {
	return figure.Need{What: fmt.Sprintf("resistance between %s and %s", w.Part.Full(end), w.Part.Full(w.Winding.Tap)),
		How: "an ohmmeter with a known error, from the end of the winding to its tap"}
}

// bandsOf are the usual resistances of a winding: one where the size of the
// transformer is known, else those of every size. Of a plate winding with a
// tap the table has the half; it is doubled here.
func bandsOf(b *bench.Bench, w bench.PartWinding, s figure.Subject) (bands []quantity.Range, basis figure.Basis) {
	if !w.Part.Is(part.MainsCore) {
		return nil, basis
	}
	size, known := w.Part.Value("power")
	if !known {
		size, known = b.Sheet.Nameplate("power")
	}
	volts := 0.0
	if v, ok := w.Winding.Volts(); ok {
		volts = v.High
	}
	role, times := s.Role, 1.0
	if plateLike(w, s) {
		role = "plate"
	}
	switch {
	case role == "plate" && tapPlace(w) > 0:
		role, times = "half", 2
	case role == "plate", role == "heater" && (volts < 6 || volts > 8), role == "rectifier" && (volts < 4.8 || volts > 6):
		return nil, basis // the table has windings of 6.3 V and 5 V
	}
	add := func(watts float64) {
		band, from, ok := handbook.WindingBand(role, watts, volts)
		if !ok {
			return
		}
		if role == "heater" || role == "rectifier" {
			band.Low, band.High = 0, math.Max(band.High, lowWinding)
		}
		bands, basis = append(bands, band.Scale(times)), from
	}
	if known {
		add(size.High)
		return bands, basis
	}
	for watts := 5.0; watts <= 500; watts += 5 {
		add(watts)
	}
	return bands, basis
}

// lowWinding is the resistance below which a heater winding is as it should
// be: two leads and a hand meter cannot tell more (common practice).
const lowWinding = 1

func computeHasBand(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	ws, subjects := windings(b)
	for i, w := range ws {
		bands, _ := bandsOf(b, w, subjects[i])
		out = append(out, figure.Is(&hasBand, subjects[i], len(bands) > 0))
	}
	return out
}

func computeOutsideBand(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	ws, subjects := windings(b)
	for i, w := range ws {
		bands, basis := bandsOf(b, w, subjects[i])
		if len(bands) == 0 {
			continue
		}
		last := len(w.Winding.Order) - 1
		r, at, ok := stretch(b, w, 0, last)
		if !ok {
			out = append(out, figure.NotKnown(&outsideBand, subjects[i], figure.Need{
				What: fmt.Sprintf("resistance across %s", w.Name()), How: "an ohmmeter on the ends of the winding, set unplugged"}))
			continue
		}
		f := figure.Number(&outsideBand, subjects[i], outsideOf(r, bands[0]))
		usual := bands[0]
		for _, band := range bands[1:] {
			f.Range, usual = f.Range.Hull(outsideOf(r, band)), usual.Hull(band)
		}
		f.At, f.From = at.At, []figure.Basis{basis}
		f.Note = fmt.Sprintf("it has %s; usual is %s", r, usual)
		if len(bands) > 1 {
			f.Note = fmt.Sprintf("it has %s; usual is %s, by the size of the transformer, which is not on the sheet", r, usual)
		}
		f.Trace = []string{f.Note}
		out = append(out, f)
	}
	return out
}

// outsideOf is the resistance over the highest of a band, or the lowest over
// it, whichever is more.
func outsideOf(r, band quantity.Range) quantity.Range {
	over := r.Div(quantity.Exact(band.High, quantity.Resistance), quantity.Number)
	under := quantity.Range{Dim: quantity.Number}
	if band.Low > 0 {
		under = quantity.Exact(band.Low, quantity.Resistance).Div(r, quantity.Number)
	}
	return quantity.Range{Low: math.Max(over.Low, under.Low), High: math.Max(over.High, under.High), Dim: quantity.Number}
}
