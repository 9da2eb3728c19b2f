package bench

import (
	"math"
	"slices"

	"firstvolt/checks/circuit"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
	"firstvolt/checks/sheet"
)

// Direct tells whether a resistance reading measures a stretch of one winding
// by itself: probes on two of its terminals, nothing else that conducts
// between them but what has many times the ohms. from and to are places in the
// winding's Order, from first.
func (b *Bench) Direct(rd *sheet.Reading) (w PartWinding, from, to int, ok bool) {
	d := b.direct(rd)
	return d.w, d.i, d.j, d.ok
}

// direct finds the sections of one winding that a resistance reading measures
// by itself: probes on two of its terminals, and nothing else that conducts
// between them but what has many times the ohms.
func (b *Bench) direct(rd *sheet.Reading) stretch {
	d, ok := b.directs[rd]
	if !ok {
		d = b.findDirect(rd)
		b.directs[rd] = d
	}
	return d
}

// stretch is what direct found: a winding from place i to place j in its order,
// and what lies beside it.
type stretch struct {
	w      PartWinding
	i, j   int
	beside circuit.Interval
	ok     bool
}

// besideLeast is how many times the ohms of a reading what lies beside a winding must
// have for the reading to be one of the winding.
const besideLeast = 4

func (b *Bench) findDirect(rd *sheet.Reading) stretch {
	none := stretch{}
	if rd.Kind != "resistance" || len(rd.A) != 1 || len(rd.B) != 1 {
		return none
	}
	states, ok := b.StatesOf(rd)
	if !ok {
		return none
	}
	for _, p := range b.Sheet.Parts {
		for _, w := range p.Windings {
			i := slices.IndexFunc(w.Order, func(t string) bool { return p.Full(t) == rd.A[0] })
			j := slices.IndexFunc(w.Order, func(t string) bool { return p.Full(t) == rd.B[0] })
			if i < 0 || j < 0 {
				continue
			}
			out := stretch{w: PartWinding{p, w}, i: min(i, j), j: max(i, j), beside: circuit.Interval{Low: math.Inf(1), High: 0}, ok: true}
			for _, st := range states {
				if b.Circuit(st).Reach(rd.A, Contacts).Has(rd.B[0]) {
					return none // a wire or contact lies across the probes
				}
				r, ok := b.beside(st, rd, func(q *part.Part) bool { return q == p })
				if !ok {
					return none
				}
				out.beside = circuit.Interval{Low: math.Min(out.beside.Low, r.Low), High: math.Max(out.beside.High, r.High)}
			}
			if r, ok, _ := rd.True(); ok && r.Bounded() && !(out.beside.Low >= besideLeast*r.High) {
				return none
			}
			return out
		}
	}
	return none
}

// beside is what conducts from probe to probe of a reading apart from the parts
// left out; without end where nothing does.
func (b *Bench) beside(st State, rd *sheet.Reading, left func(*part.Part) bool) (circuit.Interval, bool) {
	nothing := circuit.Interval{Low: math.Inf(1), High: math.Inf(1)}
	c := b.Circuit(st)
	others := slices.ContainsFunc(c.Between(rd.A, rd.B), func(e *circuit.Element) bool {
		q := PartOfElement(e)
		return q != nil && !left(q)
	})
	if !others {
		return nothing, true
	}
	var out []string
	for i := range c.Elements() {
		if q := PartOfElement(&c.Elements()[i]); q != nil && left(q) {
			out = append(out, c.Elements()[i].Name)
		}
	}
	res, err := c.Without(out...).Resistance(rd.A, rd.B)
	switch {
	case err != nil:
		return nothing, false
	case res.Open:
		return nothing, true
	}
	return res.R, true
}

// alone is what a winding has of itself, by a reading that saw something beside.
func (s stretch) alone(r quantity.Range) quantity.Range {
	of := func(x, beside float64) float64 {
		if math.IsInf(beside, 1) || math.IsInf(x, 1) {
			return x
		}
		return x / (1 - x/beside)
	}
	return quantity.Range{Low: of(r.Low, s.beside.High), High: of(r.High, s.beside.Low), Dim: r.Dim}
}

// DirectOhms is what a direct reading says of its stretch of the winding: what
// lies beside it is taken off. ok is false where the reading proves nothing.
func (b *Bench) DirectOhms(rd *sheet.Reading) (r quantity.Range, ok bool, why string) {
	if r, ok, why = rd.True(); !ok {
		return r, ok, why
	}
	return b.direct(rd).alone(r), true, ""
}

// ofUnknownOhms tells an element whose resistance no key tells: a reading over the
// part alone does.
func ofUnknownOhms(e *circuit.Element) bool {
	p := PartOfElement(e)
	return p != nil && e.Conducts == circuit.Conducting && e.Law != circuit.Winding &&
		(math.IsInf(e.R.High, 1) || p.Is(part.OhmsUntold))
}

// Over is the element of a part of unknown ohms that a resistance reading is
// over, with no other way from probe to probe, or "".
func (b *Bench) Over(rd *sheet.Reading) string {
	return b.Keep(overKey{rd}, func() any { return b.findOver(rd) }).(string)
}

type overKey struct{ rd *sheet.Reading }

func (b *Bench) findOver(rd *sheet.Reading) string {
	states, ok := b.StatesOf(rd)
	if rd.Kind != "resistance" || !ok || len(rd.A) != 1 || len(rd.B) != 1 {
		return ""
	}
	name := ""
	for _, st := range states {
		c := b.Circuit(st)
		es := c.Elements()
		i := slices.IndexFunc(es, func(e circuit.Element) bool {
			return ofUnknownOhms(&e) &&
				(e.A == rd.A[0] && e.B == rd.B[0] || e.A == rd.B[0] && e.B == rd.A[0])
		})
		if i < 0 {
			return ""
		}
		name = es[i].Name
		if c.Reach(rd.A, func(e *circuit.Element) bool { return e.Name != name && Conductors(e) }).Has(rd.B[0]) {
			return ""
		}
	}
	return name
}

// windingOhms gives, by element name, what direct readings other than without
// say of a section, or of a part of unknown ohms. Several readings of one section: the span that holds them all.
func (b *Bench) windingOhms(without *sheet.Reading) map[string]span {
	return b.windingReads(without).ohms
}

// longReads are the direct readings other than without over several sections,
// the shortest stretch first.
func (b *Bench) longReads(without *sheet.Reading) []longRead { return b.windingReads(without).long }

// windingReads is what direct readings say of windings.
type windingReads struct {
	ohms map[string]span // by section
	long []longRead
}

func (b *Bench) windingReads(without *sheet.Reading) windingReads {
	if m, ok := b.windings[without]; ok {
		return m
	}
	m := map[string]span{}
	var long []longRead
	for _, rd := range b.Sheet.Readings {
		if rd == without {
			continue
		}
		d, over := b.direct(rd), b.Over(rd)
		if !d.ok && over == "" {
			continue
		}
		r, ok, _ := rd.True()
		if d.ok {
			r, ok, _ = b.DirectOhms(rd)
		}
		if !ok || !r.Bounded() {
			continue
		}
		s := span{r.Low, r.High}
		if d.ok && d.j > d.i+1 {
			long = append(long, longRead{d, s})
			continue
		}
		name := over
		if d.ok {
			name = d.w.Part.SectionName(d.w.Winding, d.j)
		}
		if old, ok := m[name]; ok {
			s = span{math.Min(s.low, old.low), math.Max(s.high, old.high)}
		}
		m[name] = s
	}
	slices.SortStableFunc(long, func(a, c longRead) int { return (a.j - a.i) - (c.j - c.i) })
	// A reading over several sections leaves to the one section not read what
	// the others do not take.
	for _, l := range long {
		if missing, rest := l.unread(m); len(missing) == 1 {
			m[missing[0]] = rest
		}
	}
	out := windingReads{m, long}
	b.windings[without] = out
	return out
}
