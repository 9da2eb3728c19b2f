package bench

import (
	"maps"
	"math"
	"slices"

	"firstvolt/checks/circuit"
	"firstvolt/checks/sheet"
)

// longRead is a reading over several sections of one winding.
type longRead struct {
	stretch
	span
}

// sections are the names of the sections of a stretch, from its first end.
func (s stretch) sections() (names []string) {
	for k := s.i + 1; k <= s.j; k++ {
		names = append(names, s.w.Part.SectionName(s.w.Winding, k))
	}
	return names
}

// unread are the sections of a long reading that no ohms are known of, and what
// the reading leaves to them together.
func (l longRead) unread(ohms map[string]span) (missing []string, rest span) {
	rest = l.span
	for _, name := range l.sections() {
		if s, ok := ohms[name]; ok {
			rest.low, rest.high = rest.low-s.high, rest.high-s.low
		} else {
			missing = append(missing, name)
		}
	}
	return missing, span{math.Max(0, rest.low), math.Max(0, rest.high)}
}

// ohmsIn are windingOhms as far as a meter at these probes needs them: where no
// current can turn off inside a stretch, only the sum of its sections counts, and
// a reading over the whole of it tells that. The parts they get are equal.
func (b *Bench) ohmsIn(c *circuit.Circuit, probes []string, without *sheet.Reading) map[string]span {
	ohms, copied := b.windingOhms(without), false
	for _, l := range b.longReads(without) {
		missing, rest := l.unread(ohms)
		if len(missing) == 0 || !l.undivided(c, probes) {
			continue
		}
		if !copied {
			ohms, copied = maps.Clone(ohms), true
		}
		n := float64(len(missing))
		for _, name := range missing {
			ohms[name] = span{rest.low / n, rest.high / n}
		}
	}
	return ohms
}

// undivided tells whether all of a meter's current that enters a stretch at one
// end leaves it at the other: from none of the terminals between does anything
// but the stretch itself lead to a probe or back to the stretch.
func (s stretch) undivided(c *circuit.Circuit, probes []string) bool {
	own := s.sections()
	around := func(e *circuit.Element) bool { return Conductors(e) && !slices.Contains(own, e.Name) }
	var others []string
	for k := s.i; k <= s.j; k++ {
		others = append(others, s.w.Part.Full(s.w.Winding.Order[k]))
	}
	for k := s.i + 1; k < s.j; k++ {
		t := s.w.Part.Full(s.w.Winding.Order[k])
		r := c.Reach([]string{t}, around)
		if slices.ContainsFunc(probes, r.Has) || slices.ContainsFunc(others, func(o string) bool { return o != t && r.Has(o) }) {
			return false
		}
	}
	return true
}

// unreadStretches are the ends of the windings on a path whose ohms nobody read:
// of sections that the meter's current crosses one after the other, the ends of
// them all.
func (b *Bench) unreadStretches(c *circuit.Circuit, probes []string, path []*circuit.Element) (out [][2]string) {
	unread := map[string]bool{}
	for _, e := range path {
		unread[e.Name] = e.Law == circuit.Winding && math.IsInf(e.R.High, 1)
	}
	for _, p := range b.Sheet.Parts {
		for _, w := range p.Windings {
			pw := PartWinding{p, w}
			for i := 0; i+1 < len(w.Order); i++ {
				j := i
				for j+1 < len(w.Order) && unread[p.SectionName(w, j+1)] && (j == i || (stretch{w: pw, i: i, j: j + 1}).undivided(c, probes)) {
					j++
				}
				if j > i {
					out = append(out, [2]string{p.Full(w.Order[i]), p.Full(w.Order[j])})
					i = j - 1
				}
			}
		}
	}
	return out
}
