package readings

import (
	"fmt"
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/figure"
	"firstvolt/checks/sheet"
)

var fresh = figure.Def{
	Name: "reading-fresh", Room: "readings", Of: []string{"reading"}, Present: true,
	Says: "No wire on its path was changed after it was taken.",
}

// computeFresh compares the date of each reading with that of every wire on
// its path; the same day is fresh, a date that is missing is not known.
func computeFresh(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	for _, rd := range b.Sheet.Readings {
		f := freshOf(b, rd)
		f.At = rd.At
		out = append(out, f)
	}
	return out
}

func freshOf(b *bench.Bench, rd *sheet.Reading) figure.Figure {
	s := subject(b, rd)
	changed := []string{}
	if !b.Sheet.HasWiring() {
		changed = append(changed, b.Sheet.Rebuilt) // on what path, nobody knows
	}
	for _, w := range pathWires(b, rd) {
		date := w.Changed
		if date == "" {
			date = b.Sheet.Rebuilt
		}
		if date > rd.Taken && rd.Taken != "" {
			f := figure.Is(&fresh, s, false)
			f.Witness = []string{w.A, w.B}
			f.Note = fmt.Sprintf("taken %s, the wire changed %s", rd.Taken, date)
			return f
		}
		changed = append(changed, date)
	}
	var needs []figure.Need
	if slices.Contains(changed, "") {
		needs = append(needs, figure.Need{What: "set.rebuilt", How: "add the last day that wiring was changed"})
	}
	if len(changed) > 0 && rd.Taken == "" {
		needs = append(needs, figure.Need{What: "the day on which " + rd.Name + " was read", How: "add taken: to the readings, or to this one"})
	}
	if len(needs) > 0 {
		return figure.NotKnown(&fresh, s, needs...)
	}
	if !b.Sheet.HasWiring() && rd.Taken < b.Sheet.Rebuilt {
		return figure.Is(&fresh, s, false)
	}
	return figure.Is(&fresh, s, true)
}

// pathWires are the wires that a reading hangs on, in any state that it leaves
// open: those that carry its current where something conducts from probe to
// probe, else every wire that either probe touches through what conducts. A
// voltage induced from winding to winding passes none.
func pathWires(b *bench.Bench, rd *sheet.Reading) []*sheet.Wire {
	var out []*sheet.Wire
	if rd.Kind == "voltage" {
		return nil
	}
	states, _ := b.StatesOf(rd)
	for _, st := range states {
		c := b.Circuit(st)
		var es []*circuit.Element
		if separate(c, rd) {
			x, y := touched(c, rd.A, bench.Conductors), touched(c, rd.B, bench.Conductors)
			for i := range c.Elements() {
				if e := &c.Elements()[i]; x(e.A) || y(e.A) {
					es = append(es, e)
				}
			}
		} else {
			es = append(c.Between(rd.A, rd.B), c.Between(rd.B, rd.A)...)
		}
		for _, e := range es {
			if w := bench.WireOfElement(e); w != nil && !slices.Contains(out, w) {
				out = append(out, w)
			}
		}
	}
	return out
}
