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

// The power factor of a radio: a transformer set with a tube rectifier 0.85 to
// 0.95, a series string 0.9 to 0.98, recalled, not looked up.
const factorLow, factorHigh = 0.85, 1.0

var factorBasis = figure.Basis{Status: figure.FromMemory, Source: "power factor of a set with transformer and tube rectifier 0.85 to 0.95, of a series string 0.9 to 0.98, recalled, not looked up; 0.85 to 1 is taken"}

// draw is what a set takes from the line by its nameplate, outlets added.
type draw struct {
	least, most quantity.Range // A, at a power factor of 1 and of 0.85
	trace       []string
	from        []figure.Basis
	needs       []figure.Need // not empty: not known
}

// span is the running current, at whatever the power factor is.
func (d draw) span() quantity.Range {
	return quantity.Range{Low: d.least.Low, High: d.most.High, Dim: quantity.Current}
}

// explains puts what the current is made of before the arithmetic of a figure.
func (d draw) explains(f figure.Figure) figure.Figure {
	f.Trace, f.From = slices.Concat(d.trace, f.Trace), append(f.From, d.from...)
	return f
}

// running is the current of the set in use: by its nameplate, and with what
// hangs across its line beside it. Whether a nameplate counts a motor or a lamp
// of the set, nobody can say: the current lies between without and with.
func running(b *bench.Bench) draw {
	return b.Keep(kept("running"), func() any { return drawn(b) }).(draw)
}

func drawn(b *bench.Bench) draw {
	d := nameplate(b)
	d.add(hanging(b))
	for _, p := range b.Parts(part.Feeds) {
		load, ok := outletLoad(b, p)
		if !ok {
			d.needs = append(d.needs, lacksLoad(p))
			continue
		}
		d.least, d.most = d.least.Add(load), d.most.Add(load)
		d.trace = append(d.trace, fmt.Sprintf("and %s %s", p.Name, load))
	}
	if len(d.needs) == 0 && !(d.least.Low > 0 && d.most.Bounded()) {
		d.needs = append(d.needs, figure.Need{What: "nameplate power", How: "a value above zero with an upper end"})
	}
	return d
}

// add takes in what hangs across the line: at least the larger of the two.
func (d *draw) add(more quantity.Range, needs []figure.Need) {
	d.needs = append(d.needs, needs...)
	if !(more.High > 0) {
		return
	}
	larger := func(r quantity.Range) quantity.Range {
		return quantity.Range{Low: math.Max(r.Low, more.Low), High: math.Max(r.High, more.High), Dim: r.Dim}
	}
	d.least, d.most = larger(d.least), quantity.Range{Low: math.Max(d.most.Low, more.Low), High: d.most.High + more.High, Dim: d.most.Dim}
	d.trace = append(d.trace, fmt.Sprintf("beside it, motors, lamps and resistors across the line: up to %s", more))
}

// nameplate is the current of the set by its nameplate: amperes, else its watts
// over its volts and the power factor. A nameplate without volts is taken over
// the region's limits, so that leaving volts off never narrows it.
func nameplate(b *bench.Bench) draw {
	var d draw
	if amps, ok := b.Sheet.Nameplate("current"); ok {
		d.least, d.most = amps, amps
		d.trace = append(d.trace, fmt.Sprintf("nameplate current %s", amps))
	} else if watts, ok := b.Sheet.Nameplate("power"); ok {
		volts, stated := b.Sheet.Nameplate("voltage")
		words := "nameplate"
		if used, ok := setFor(b); stated && ok && used.Low >= volts.Low && used.High <= volts.High {
			volts, words = used, "as it is connected, of "+volts.String()+" on the nameplate"
		}
		if !stated {
			_, volts = b.Mains()
			words = "the supply's limits, none on the nameplate"
		}
		d.least = watts.Div(volts, quantity.Current).Scale(1 / factorHigh)
		d.most = watts.Div(volts, quantity.Current).Scale(1 / factorLow)
		d.from = append(d.from, factorBasis)
		d.trace = append(d.trace,
			fmt.Sprintf("%s ÷ %s (%s) ÷ %g = %s", watts, volts, words, factorHigh, d.least),
			fmt.Sprintf("%s ÷ %s (%s) ÷ %g = %s", watts, volts, words, factorLow, d.most))
	} else {
		d.needs = append(d.needs, figure.Need{What: "nameplate power", How: "watts or amperes from the nameplate or the maker's data, under set.nameplate"})
	}
	return d
}

// setFor are the volts that the primaries are connected for, where taps and
// selectors leave a choice; ok is false where they leave none or do not say.
func setFor(b *bench.Bench) (used quantity.Range, ok bool) {
	used = quantity.Range{Low: math.Inf(1), High: math.Inf(-1), Dim: quantity.Voltage}
	const one = 1.0
	for _, w := range b.Wired().Primaries {
		q, _, need := overWinding(b, w, one)
		if need != nil || !(q.Low > 0) || len(choices(b, w)) < 2 {
			return used, false
		}
		used.Low, used.High = math.Min(used.Low, quantity.Six(one/q.High)), math.Max(used.High, quantity.Six(one/q.Low))
	}
	return used, used.Low <= used.High
}

// outletLoad is the load of an outlet in A: watts are taken over the region's
// nominal voltage.
func outletLoad(b *bench.Bench, p *part.Part) (quantity.Range, bool) {
	load, ok := p.Value("load")
	if ok && load.Dim == quantity.Power {
		ok = b.SupplyNeed() == nil
		load = load.Div(nominal(b), quantity.Current)
	}
	return load, ok
}
