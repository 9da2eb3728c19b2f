package readings

import (
	"fmt"
	"math"
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
	"firstvolt/checks/sheet"
)

var turnsRatio = figure.Def{
	Name: "turns-ratio-disagreement", Room: "readings", Of: []string{"winding"}, Unit: quantity.Number, Reading: true,
	Says: "how far a voltage reading lies outside what the marked volts predict, in units of 10 %",
}

var turnsToCompare = figure.Def{
	Name: "turns-to-compare", Room: "readings", Of: []string{"winding"}, Present: true,
	Says: "Its volts stand against those of a primary: it is a secondary, or a section of a primary beside another.",
}

// addedNoLoad is how much a winding may give without load above the volts it
// is marked with under load (design rule of the ratio model: up to 20 %).
const addedNoLoad = 0.2

// turned is a voltage reading from one winding to another.
type turned struct {
	rd         *sheet.Reading
	fed, other bench.PartWinding
	share      float64 // of the other winding, that the meter spanned; 0 where the sheet does not tell it
}

// ratioReading finds the two windings of a voltage reading: the one fed and
// the one read, of the same part; of a primary fed as a whole also a stretch of it.
func ratioReading(b *bench.Bench, rd *sheet.Reading) (turned, bool) {
	t := turned{rd: rd, share: 1}
	if rd.Kind != "voltage" || rd.AppliedW == nil {
		return t, false
	}
	t.fed = bench.PartWinding{Part: rd.Applied, Winding: rd.AppliedW}
	for _, w := range rd.Applied.Windings {
		i, j := place(rd.Applied, w, rd.A), place(rd.Applied, w, rd.B)
		whole := i+j == len(w.Order)-1 && (i == 0 || j == 0)
		if i < 0 || j < 0 || i == j || w == rd.AppliedW && (whole || b.WindingRole(t.fed) != "primary") {
			continue
		}
		t.other = bench.PartWinding{Part: rd.Applied, Winding: w}
		if whole {
			return t, true
		}
		share, ok := w.TapVolts(w.Order[i], w.Order[j])
		t.share = share
		return t, ok && share > 0
	}
	return t, false
}

func place(p *part.Part, w *part.Winding, probe []string) int {
	if len(probe) != 1 {
		return -1
	}
	return slices.IndexFunc(w.Order, func(t string) bool { return p.Full(t) == probe[0] })
}

// emptyVolts are the volts of a winding without load: as marked for that, or
// the loaded ones with up to 20 % added. A primary carries what feeds it.
func emptyVolts(w bench.PartWinding) (quantity.Range, bool) {
	if v, ok := part.ValueOf(w.Winding.Node.Get("no-load")); ok {
		return v, true
	}
	v, ok := part.ValueOf(w.Winding.Node.Get("voltage"))
	if ok && w.Winding.Role != "primary" {
		v.High *= 1 + addedNoLoad
	}
	return v, ok && v.Low > 0
}

// turnsFound is a winding whose turns are asked for, with the readings that tell
// them.
type turnsFound struct {
	w    bench.PartWinding
	of   figure.Subject
	read []turned
}

// turnsAsked lists each secondary with the readings in which it was read, or fed
// and a primary read; and each of several sections of a primary, which are held
// against each other, a stretch of one only where it was read.
func turnsAsked(b *bench.Bench) []turnsFound {
	var out []turnsFound
	ws, subjects := windings(b)
	for i, w := range ws {
		found, sec := turnsFound{w: w, of: subjects[i]}, secondary(b, w)
		within := func(t turned) bool { return t.fed.Winding == t.other.Winding }
		section := !sec && isSection(b, w)
		for _, rd := range b.Sheet.Readings {
			t, ok := ratioReading(b, rd)
			primaries := ok && b.WindingRole(t.fed) == "primary" && b.WindingRole(t.other) == "primary"
			switch {
			case !ok:
				if (sec || section) && rd.Kind == "voltage" && place(w.Part, w.Winding, rd.A) >= 0 && place(w.Part, w.Winding, rd.B) >= 0 {
					found.read = append(found.read, turned{rd: rd, fed: t.fed, other: w}) // taken, and proves nothing
				}
			case sec && (t.other.Winding == w.Winding || t.fed.Winding == w.Winding && b.WindingRole(t.other) == "primary"),
				primaries && t.other.Winding == w.Winding && within(t),
				primaries && !within(t) && section && (t.other.Winding == w.Winding || t.fed.Winding == w.Winding):
				found.read = append(found.read, t)
			}
		}
		if sec || section || len(found.read) > 0 {
			out = append(out, found)
		}
	}
	return out
}

// isSection tells a primary that shares the line with another of its
// transformer.
func isSection(b *bench.Bench, w bench.PartWinding) bool {
	var of []*part.Winding
	for _, p := range b.Wired().Primaries {
		if p.Part == w.Part && p.Winding.Role == "primary" {
			of = append(of, p.Winding)
		}
	}
	return len(of) > 1 && slices.Contains(of, w.Winding)
}

func computeTurnsToCompare(b *bench.Bench) []figure.Figure {
	asked := turnsAsked(b)
	var out []figure.Figure
	_, subjects := windings(b)
	for _, s := range subjects {
		out = append(out, figure.Is(&turnsToCompare, s, slices.ContainsFunc(asked, func(f turnsFound) bool { return f.of == s })))
	}
	return out
}

// computeTurns holds each of them to its marked volts.
func computeTurns(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	for _, found := range turnsAsked(b) {
		for _, t := range found.read {
			out = append(out, turnsOf(t, found.of))
		}
		if len(found.read) == 0 {
			out = append(out, figure.NotTaken(&turnsRatio, found.of, figure.Need{
				What: fmt.Sprintf("voltage across %s with a few volts applied to %s", found.w.Name(), primaryOf(b, found.w)),
				How:  "some volts AC from a bench transformer through a fuse or lamp, everything else taken off the windings; while it is fed, treat all the other windings and the plug's pins as live: hands off until the feed is off"}))
		}
	}
	return out
}

// primaryOf names the winding to feed: the first other primary of the transformer.
// Through a heater winding the same few volts would put full mains on it.
func primaryOf(b *bench.Bench, w bench.PartWinding) string {
	for _, p := range primariesOf(b, w) {
		if p.Winding != w.Winding {
			return p.Name()
		}
	}
	return "another winding"
}

func turnsOf(t turned, s figure.Subject) figure.Figure {
	missing := func(what, how string) figure.Figure {
		f := figure.NotKnown(&turnsRatio, s, figure.Need{What: what, How: how})
		f.At = t.rd.At
		return f
	}
	if t.share == 0 && (t.fed.Part != t.other.Part || t.fed.Winding == t.other.Winding) {
		return missing("winding that was fed in the voltage reading of "+t.rd.Name, "applied: another winding of the same transformer, a primary if it can be")
	}
	r, ok, why := t.rd.True()
	fedVolts, okFed := emptyVolts(t.fed)
	otherVolts, okOther := emptyVolts(t.other)
	switch {
	case !ok:
		return missing("a voltage reading of "+t.rd.Name+" that proves something", why)
	case !t.rd.HasVolts:
		return missing("volts of the voltage reading of "+t.rd.Name, "add volts: to the reading")
	case !okFed:
		return missing(t.fed.Name()+" voltage", "add it to the winding, or its no-load volts")
	case !okOther || t.share == 0:
		return missing(t.other.Name()+" voltage", "add it to the winding, or its no-load volts")
	}
	acc := t.rd.With.AccuracyOf("voltage")
	fed := quantity.Range{Low: math.Max(0, t.rd.Volts.Low*(1-acc.Fraction)-acc.Amount), High: t.rd.Volts.High*(1+acc.Fraction) + acc.Amount, Dim: quantity.Voltage}
	ratio := otherVolts.Scale(t.share).Div(fedVolts, quantity.Number)
	atLow, atHigh := ratio.Scale(fed.Low), ratio.Scale(fed.High)
	d := quantity.Range{Dim: quantity.Number}
	gap := math.Max(0, math.Max(atLow.Low-r.High, r.Low-atHigh.High))
	worst := math.Max(0, math.Max(atHigh.Low-r.Low, r.High-atLow.High))
	d.Low = gap / (allowShare * atHigh.High)
	d.High = math.Max(d.Low, worst/(allowShare*atLow.Low))
	f := figure.Number(&turnsRatio, s, d)
	if !(atLow.Low > 0) {
		f.Range.Low, f.Range.High = 0, math.Inf(1)
	}
	f.At = t.rd.At
	span := quantity.Range{Low: atLow.Low, High: atHigh.High, Dim: quantity.Voltage}
	f.Note = fmt.Sprintf("predicted %s from %s, read %s", span, t.fed.Name(), r)
	f.Trace = []string{fmt.Sprintf("fed %s, marked %s against %s without load", fed, otherVolts.Scale(t.share), fedVolts), f.Note, fmt.Sprintf("farthest outside: %.4g V", worst)}
	return f
}
