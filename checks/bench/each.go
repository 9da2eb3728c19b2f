package bench

import (
	"slices"

	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
)

// answer is what a check says of one thing: one figure, or as many as there are
// to say, none too. Definition and subject are filled in for it.
type answer interface {
	figure.Figure | []figure.Figure
}

// each makes a check that goes through a list. Place says of one thing which
// subject it is, and where a figure stands that does not say so itself.
func each[X any, A answer](d figure.Def, list func(*Bench) []X, place func(*Bench, X) (figure.Subject, strict.Pos), say func(*Bench, X) A) Check {
	return Check{Def: &d, Compute: func(b *Bench) (out []figure.Figure) {
		for _, x := range list(b) {
			s, at := place(b, x)
			add := func(f figure.Figure) {
				if f.At == (strict.Pos{}) {
					f.At = at
				}
				out = append(out, f.Named(&d, s))
			}
			switch said := any(say(b, x)).(type) {
			case figure.Figure:
				add(said)
			case []figure.Figure:
				for _, f := range said {
					add(f)
				}
			}
		}
		return out
	}}
}

// EachSubject is the check of a figure of every subject of its kinds.
func EachSubject[A answer](d figure.Def, say func(*Bench, figure.Subject) A) Check {
	list := func(b *Bench) []figure.Subject { return b.Subjects(d.Of...) }
	return each(d, list, func(_ *Bench, s figure.Subject) (figure.Subject, strict.Pos) { return s, strict.Pos{} }, say)
}

// EachPart is the check of a figure of every part of its kinds, in the order of
// the sheet.
func EachPart[A answer](d figure.Def, say func(*Bench, *part.Part) A) Check {
	list := func(b *Bench) []*part.Part { return b.PartsOf(&d) }
	return each(d, list, func(b *Bench, p *part.Part) (figure.Subject, strict.Pos) { return b.Of(p), strict.Pos{} }, say)
}

// EachReading is the check of a figure of every reading.
func EachReading[A answer](d figure.Def, say func(*Bench, *sheet.Reading) A) Check {
	list := func(b *Bench) []*sheet.Reading { return b.Sheet.Readings }
	return each(d, list, func(b *Bench, rd *sheet.Reading) (figure.Subject, strict.Pos) {
		s, _ := b.Subject("reading", rd.Name)
		return s, rd.At
	}, say)
}

// EachWinding is the check of a figure of every winding, and EachPrimary of
// those that the line comes to.
func EachWinding[A answer](d figure.Def, say func(*Bench, PartWinding) A) Check {
	return each(d, (*Bench).Windings, ofWinding, say)
}

// EachPrimary is the check of a figure of every winding that the line comes to.
func EachPrimary[A answer](d figure.Def, say func(*Bench, PartWinding) A) Check {
	return each(d, func(b *Bench) []PartWinding { return b.Wired().Primaries }, ofWinding, say)
}

func ofWinding(b *Bench, w PartWinding) (figure.Subject, strict.Pos) {
	return b.OfWinding(w), strict.Pos{}
}

// OfWinding is the subject of a winding.
func (b *Bench) OfWinding(w PartWinding) figure.Subject {
	s, _ := b.Subject("winding", w.Name())
	return s
}

// Windings lists every winding of the sheet.
func (b *Bench) Windings() (out []PartWinding) {
	for _, p := range b.Sheet.Parts {
		for _, w := range p.Windings {
			out = append(out, PartWinding{Part: p, Winding: w})
		}
	}
	return out
}

// Room puts checks into the room that their rules belong to, where they do not
// say another.
func Room(name string, checks ...[]Check) []Check {
	all := slices.Concat(checks...)
	for _, c := range all {
		if c.Def.Room == "" {
			c.Def.Room = name
		}
	}
	return all
}
