package readings

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
)

var continuous = figure.Def{
	Name: "winding-continuous", Room: "readings", Of: []string{"winding"}, Present: true, Reading: true,
	Says: "A meter saw through the winding from end to end.",
}

// computeContinuous: a reading of no more than ten times what is usual that can
// only have passed through a section proves it, also past a bleeder that would
// have read more by itself. A reading of the winding alone that shows more proves
// a break, whatever else says; one that proves nothing leaves it open.
func computeContinuous(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	ws, subjects := windings(b)
	for i, w := range ws {
		out = append(out, continuityOf(b, w, subjects[i]))
	}
	return out
}

func continuityOf(b *bench.Bench, w bench.PartWinding, s figure.Subject) figure.Figure {
	seen := make([]*sheet.Reading, len(w.Winding.Order)) // by section, from 1
	through, open := limitOfContinuity(b, w, s)
	var needs []figure.Need
	// A reading across the winding alone says it with least to follow.
	readings := ofKind(b, "resistance")
	slices.SortStableFunc(readings, func(x, y *sheet.Reading) int {
		return cmp.Compare(ofWinding(b, x, w), ofWinding(b, y, w))
	})
	for _, rd := range readings {
		r, ok, why := rd.True()
		if v, _, _, direct := b.Direct(rd); direct && v.Winding == w.Winding {
			switch {
			case !ok:
				needs = append(needs, useless(rd, why))
			case r.Low >= open:
				f := figure.Is(&continuous, s, false)
				f.At, f.Witness = rd.At, []string{rd.A[0], rd.B[0]}
				f.Trace = []string{fmt.Sprintf("%s read %s", rd.Name, r)}
				return f
			case !(r.High < through):
				needs = append(needs, figure.Need{What: fmt.Sprintf("resistance of %s, known to be that of a whole winding", rd.Name),
					How: fmt.Sprintf("it read %s, and from %s on it counts as open; the volts of the winding and the power of the set tell more closely", r, ohmsOf(through))})
			}
		}
		if !ok || !(r.High < through) {
			continue
		}
		for k := 1; k < len(w.Winding.Order); k++ {
			if seen[k] == nil && passes(b, rd, w.Part, w.Part.SectionName(w.Winding, k), r.High) {
				seen[k] = rd
			}
		}
	}
	tried := len(needs) > 0
	f := figure.Is(&continuous, s, true)
	for k := 1; k < len(w.Winding.Order); k++ {
		if seen[k] == nil {
			needs, tried = append(needs, sectionNeed(b, w, k, readings)), tried || spannedBy(w, k, readings)
			continue
		}
		f.At = seen[k].At
		f.Trace = append(f.Trace, fmt.Sprintf("%s, below %s, passes through %s", seen[k].Name, ohmsOf(through), w.Part.SectionName(w.Winding, k)))
	}
	if len(needs) > 0 {
		return missing(tried)(&continuous, s, needs...)
	}
	f.Trace = slices.Compact(f.Trace)
	return f
}

// spannedBy tells whether an ohmmeter was across section k, whatever it proves.
func spannedBy(w bench.PartWinding, k int, readings []*sheet.Reading) bool {
	return slices.ContainsFunc(readings, func(rd *sheet.Reading) bool { return spans(w, k, rd) })
}

// spans tells whether the probes of a reading are on the winding, with section k
// between them.
func spans(w bench.PartWinding, k int, rd *sheet.Reading) bool {
	i, j := place(w.Part, w.Winding, rd.A), place(w.Part, w.Winding, rd.B)
	return i >= 0 && j >= 0 && min(i, j) < k && max(i, j) >= k
}

// sectionNeed is what would prove section k of a winding. Where it was read with
// something else across it, that is to be out.
func sectionNeed(b *bench.Bench, w bench.PartWinding, k int, readings []*sheet.Reading) figure.Need {
	ends := fmt.Sprintf("%s and %s", w.Part.Full(w.Winding.Order[k-1]), w.Part.Full(w.Winding.Order[k]))
	for _, rd := range readings {
		if !spans(w, k, rd) {
			continue
		}
		if r, ok, _ := rd.True(); !ok || !(r.High < megohm) {
			continue
		}
		if across := liesAcross(b, rd, w); len(across) > 0 {
			list := strings.Join(across, ", ")
			lies := "lies"
			if len(across) > 1 {
				lies = "lie"
			}
			return figure.Need{What: fmt.Sprintf("resistance between %s with %s out", ends, list),
				How: fmt.Sprintf("%s %s across the winding in the reading of %s, and the meter may have seen that; read without and add without: [%s], or add that alone if it was so", list, lies, rd.Name, list)}
		}
	}
	return figure.Need{What: "resistance between " + ends, How: "an ohmmeter on the terminals of the winding, set unplugged"}
}

// liesAcross lists the parts other than the transformer that conduct from probe to
// probe of a reading beside the winding, in any state that it leaves open.
func liesAcross(b *bench.Bench, rd *sheet.Reading, w bench.PartWinding) []string {
	var out []string
	states, _ := b.StatesOf(rd)
	for _, st := range states {
		c := b.Circuit(st)
		var sections []string
		for k := 1; k < len(w.Winding.Order); k++ {
			sections = append(sections, w.Part.SectionName(w.Winding, k))
		}
		for _, e := range c.Without(sections...).Between(rd.A, rd.B) {
			if bench.Conductors(e) && e.Conducts == circuit.Conducting && e.Owner != "" && e.Owner != w.Part.Name && !slices.Contains(out, e.Owner) {
				out = append(out, e.Owner)
			}
		}
	}
	slices.Sort(out)
	return out
}

// ofWinding is 0 for a reading across stretches of the winding, 1 for others.
func ofWinding(b *bench.Bench, rd *sheet.Reading, w bench.PartWinding) int {
	if v, _, _, direct := b.Direct(rd); direct && v.Winding == w.Winding {
		return 0
	}
	return 1
}

// passes tells whether a reading of at most high Ω can only have passed through
// the section, in every state that it leaves open: without the section nothing
// conducts from probe to probe, or what does (a bleeder, say), with 1 MΩ of
// insulation beside it, would have read more.
func passes(b *bench.Bench, rd *sheet.Reading, p *part.Part, section string, high float64) bool {
	return inStates(b, rd, func(st bench.State) bool {
		c := b.Circuit(st)
		e := c.Element(section)
		if e == nil || e.Owner != p.Name || !slices.ContainsFunc(rd.B, touched(c, rd.A, bench.Conductors)) {
			return false
		}
		other := func(e *circuit.Element) bool { return bench.Conductors(e) && e.Name != section }
		if !slices.ContainsFunc(rd.B, touched(c, rd.A, other)) {
			return true
		}
		around, err := c.Without(section).Resistance(rd.A, rd.B)
		return err == nil && high < 1/(1/around.R.Low+1/megohm)
	}) == always
}
