package ratings

import (
	"fmt"
	"math"
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
)

// windingVolts compares what the line puts across each primary with what is
// stated between the terminals that it is on, selectors as set; volts picks
// the voltage of the supply.
func windingVolts(name, says string, volts func(*bench.Bench) float64) bench.Check {
	return ofPrimaries(figure.Def{Name: name, Unit: quantity.Number, Says: says}, volts,
		func(b *bench.Bench, _ bench.PartWinding, q quantity.Range, trace []string) figure.Figure {
			return figure.Figure{Range: q, Trace: append(tooLow(b), trace...), Note: unset(b)}
		})
}

var windingsVolts = []bench.Check{
	windingVolts("supply-over-winding", "the supply, at its stated voltage or else its highest, divided by what is stated for the winding as connected.", highestArriving),
	windingVolts("highest-supply-over-winding", "the highest voltage of the supply, divided by what is stated for the winding as connected.", highestVolts),
}

// highestArriving is the highest that arrives with every variac where it stands.
func highestArriving(b *bench.Bench) float64 { return b.Arriving().High }

// unset says that a variac does not say where it will stand, and what counts in
// its place.
func unset(b *bench.Bench) string {
	if n := b.UnsetVariac(); n > 0 {
		return fmt.Sprintf("upstream %d does not say at how many volts it is set, so that all it gets counts", n)
	}
	return ""
}

// ofPrimaries is a figure of each primary, made of what volts are over what it
// is connected for; not known where that is not.
func ofPrimaries(d figure.Def, volts func(*bench.Bench) float64, value func(b *bench.Bench, w bench.PartWinding, q quantity.Range, trace []string) figure.Figure) bench.Check {
	d.Of = []string{"winding"}
	return bench.EachPrimary(d, func(b *bench.Bench, w bench.PartWinding) figure.Figure {
		q, trace, need := overWinding(b, w, volts(b))
		if need != nil {
			return figure.Lacking(*need)
		}
		f := value(b, w, q, trace)
		f.Settle = append(f.Settle, divided(b, w)...)
		return f
	}).OnSupply()
}

// divided is what is asked where the line goes through another transformer too.
func divided(b *bench.Bench, w bench.PartWinding) []figure.Need {
	for _, st := range switchedOn(b) {
		for _, f := range feeds(b, st) {
			if i := slices.IndexFunc(f.stretches, func(s stretch) bool { return s.winding.Part != w.Part }); f.has(w) && i >= 0 {
				return []figure.Need{{What: fmt.Sprintf("how the supply divides between %s and %s", w.Name(), f.stretches[i].winding.Name()),
					How: "two transformers one after the other share the line as their iron and their loads have it, which no mark tells: lay each across the whole line, one that is made for it"}}
			}
		}
	}
	return nil
}

// tooLow says that the supply is stated lower than it ever is here, and what
// counts in its place.
func tooLow(b *bench.Bench) []string {
	v, ok := part.ValueOf(b.Sheet.Supply().Get("voltage"))
	least := b.Sheet.Region.Limits.Low
	if !ok || !(v.High < least) {
		return nil
	}
	return []string{fmt.Sprintf("the supply is stated with %s; it never stands below %s here, and that counts", v, quantity.Format(least, quantity.Voltage))}
}

// supplyUnsaid lets a rule speak of what is not measured where the highest
// voltage of the supply stands for it.
var supplyUnsaid = bench.EachSubject(figure.Def{
	Name: "supply-not-measured", Of: []string{"set", "winding"}, Present: true,
	Says: "the sheet does not state the voltage of the supply.",
}, func(b *bench.Bench, _ figure.Subject) figure.Figure { return figure.So(!b.VoltsStated()) })

// highestVolts is the upper end of the supply at the set; of one behind a
// variac that is set, no more than that.
func highestVolts(b *bench.Bench) float64 {
	_, limits := b.Mains()
	if len(b.Sheet.Links("variac")) > 0 && b.UnsetVariac() == 0 {
		return b.Arriving().High
	}
	return limits.High
}

// overWinding is volts over what the winding is made for, in every selector
// position that it may stand in.
func overWinding(b *bench.Bench, w bench.PartWinding, volts float64) (quantity.Range, []string, *figure.Need) {
	q := quantity.Range{Low: math.Inf(1), High: math.Inf(-1), Dim: quantity.Number}
	var trace []string
	for _, st := range switchedOn(b) {
		met := false
		for _, f := range feeds(b, st) {
			if !f.has(w) {
				continue
			}
			stated := f.volts()
			if !(stated > 0) {
				return q, nil, &figure.Need{What: w.Name() + " voltage", How: "volts of the winding as connected: its label, the diagram, or the nameplate if the transformer is the set's own"}
			}
			met = true
			r := volts * f.share / stated
			q.Low, q.High = math.Min(q.Low, r), math.Max(q.High, r)
			trace = append(trace, fmt.Sprintf("%g V × %.4g ÷ %g V = %.4g", volts, f.share, stated, r))
			if own := f.voltsOf(w.Part); own < stated { // it may get all
				q.High = math.Max(q.High, volts*f.share/own)
				trace = append(trace, fmt.Sprintf("all of it on %s: %g V × %.4g ÷ %g V = %.4g", w.Name(), volts, f.share, own, volts*f.share/own))
			}
		}
		if !met {
			return q, nil, &figure.Need{What: "how " + w.Name() + " lies on the line", How: "the wiring and selector position that put it between the line conductors"}
		}
	}
	return q, trace, nil
}
