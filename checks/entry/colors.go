package entry

import (
	"fmt"
	"slices"
	"strings"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/handbook"
	"firstvolt/checks/sheet"
)

// duty is what a wire carries by where it hangs: hot, neutral or ground.
type duty struct {
	wire *sheet.Wire
	duty string
}

// cordDuties lists the wires that are cord conductors: those at the plug. A
// third conductor that is a resistance has the duty of none of the schemes.
func cordDuties(b *bench.Bench) (out []duty) {
	_, resists := b.ThirdConductor()
	for _, w := range b.Sheet.Wires {
		for _, d := range sheet.PlugPins {
			if d == "ground" && resists {
				continue
			}
			if w.A == "plug."+d || w.B == "plug."+d {
				out = append(out, duty{w, d})
			}
		}
	}
	return out
}

// fits tells whether every colour that is given has its duty in the scheme;
// swapped takes hot and neutral the other way round.
func fits(s handbook.Scheme, ds []duty, swapped bool) bool {
	for _, d := range ds {
		if d.wire.Color == "" {
			continue
		}
		var want []string
		switch {
		case d.duty == "ground":
			want = s.Ground
		case (d.duty == "hot") != swapped:
			want = s.Hot
		default:
			want = s.Neutral
		}
		if !slices.ContainsFunc(want, func(c string) bool { return sameColor(c, d.wire.Color) }) {
			return false
		}
	}
	return true
}

// sameColor compares two colours; green-yellow is yellow-green.
func sameColor(a, c string) bool {
	x, y := strings.Split(a, "-"), strings.Split(c, "-")
	slices.Sort(x)
	slices.Sort(y)
	return slices.Equal(x, y)
}

func schemeFits(b *bench.Bench, schemes []handbook.Scheme, ds []duty) bool {
	return slices.ContainsFunc(schemes, func(s handbook.Scheme) bool {
		return fits(s, ds, false) || b.Wired().Orientation == "both-ways" && fits(s, ds, true)
	})
}

var (
	colorWrong = &figure.Def{Name: "color-on-another-duty", Room: "entry", Of: []string{"cord"}, Present: true,
		Says: "a conductor of the cord has a colour that no recognised scheme gives its duty, or that the region gives another"}
	colorsMixed = &figure.Def{Name: "colors-of-no-scheme", Room: "entry", Of: []string{"cord"}, Present: true,
		Says: "the colours of the cord's conductors, taken together, belong to no recognised scheme"}
	colorsForeign = &figure.Def{Name: "colors-of-another-region", Room: "entry", Of: []string{"cord"}, Present: true,
		Says: "the colours of the cord's conductors are those of another region"}
	colorsUsed = &figure.Def{Name: "line-wire-in-ground-color", Room: "entry", Of: []string{"cord"}, Present: true,
		Says: "a wire behind the cord that carries line has the colour of a ground wire"}
)

func cordSubject(b *bench.Bench) figure.Subject { s, _ := b.Subject("cord", "cord"); return s }

func colorWords(ds []duty) string {
	var out []string
	for _, d := range ds {
		c := d.wire.Color
		if c == "" {
			c = "not given"
		}
		out = append(out, d.duty+" "+c)
	}
	return strings.Join(out, ", ")
}

// recognised are the schemes of every region, and the sheet's own.
func recognised(b *bench.Bench) []handbook.Scheme {
	return append(handbook.Default().Schemes(), b.Sheet.Region.Schemes...)
}

// gives lists the duties that the schemes give a colour.
func gives(schemes []handbook.Scheme, color string) (duties []string) {
	for _, s := range schemes {
		for duty, colors := range map[string][]string{"hot": s.Hot, "neutral": s.Neutral, "ground": s.Ground} {
			if slices.ContainsFunc(colors, func(c string) bool { return sameColor(c, color) }) && !slices.Contains(duties, duty) {
				duties = append(duties, duty)
			}
		}
	}
	return duties
}

// misplaced finds the first wire whose colour is on another duty: one that the
// region's schemes give elsewhere only, or, where the region does not know the
// colour, one that no scheme at all gives this duty; or a colour that is on two
// duties. swapped takes hot and neutral the other way round.
func misplaced(b *bench.Bench, ds []duty, swapped bool) *duty {
	for i, d := range ds {
		if d.wire.Color == "" {
			continue
		}
		for _, o := range ds[:i] {
			if o.duty != d.duty && o.wire.Color != "" && sameColor(o.wire.Color, d.wire.Color) {
				return &ds[i]
			}
		}
		on := d.duty
		if swapped && on != "ground" {
			on = map[string]string{"hot": "neutral", "neutral": "hot"}[on]
		}
		duties := gives(b.Sheet.Region.Schemes, d.wire.Color)
		if len(duties) == 0 {
			duties = gives(recognised(b), d.wire.Color)
		}
		if !slices.Contains(duties, on) {
			return &ds[i]
		}
	}
	return nil
}

func computeColorWrong(b *bench.Bench) []figure.Figure {
	ds := cordDuties(b)
	wrong := misplaced(b, ds, false)
	if b.Wired().Orientation == "both-ways" && misplaced(b, ds, true) == nil {
		wrong = nil
	}
	if wrong == nil || schemeFits(b, recognised(b), ds) {
		return []figure.Figure{complete(b, colorWrong, ds)}
	}
	f := figure.Is(colorWrong, cordSubject(b), true)
	f.At = wrong.wire.At
	f.Note = fmt.Sprintf("%s on %s; the cord's conductors: %s", wrong.wire.Color, wrong.duty, colorWords(ds))
	return []figure.Figure{f}
}

func computeColorsMixed(b *bench.Bench) []figure.Figure {
	ds := cordDuties(b)
	if schemeFits(b, recognised(b), ds) {
		return []figure.Figure{complete(b, colorsMixed, ds)}
	}
	f := figure.Is(colorsMixed, cordSubject(b), true)
	f.Note = "the cord's conductors: " + colorWords(ds)
	return []figure.Figure{f}
}

// computeColorsForeign says nothing of what belongs to no scheme at all.
func computeColorsForeign(b *bench.Bench) []figure.Figure {
	ds := cordDuties(b)
	if schemeFits(b, b.Sheet.Region.Schemes, ds) || !schemeFits(b, recognised(b), ds) {
		return []figure.Figure{complete(b, colorsForeign, ds)}
	}
	f := figure.Is(colorsForeign, cordSubject(b), true)
	f.Note = fmt.Sprintf("the cord's conductors: %s; not a scheme of %s", colorWords(ds), b.Sheet.Region.Name)
	return []figure.Figure{f}
}

// complete says absent only where every colour is given.
func complete(b *bench.Bench, d *figure.Def, ds []duty) figure.Figure {
	for _, x := range ds {
		if x.wire.Color == "" {
			return figure.NotKnown(d, cordSubject(b), figure.Need{What: "color of the wire at plug." + x.duty, How: "color: on its run"})
		}
	}
	f := figure.Is(d, cordSubject(b), false)
	f.Note = "the cord's conductors: " + colorWords(ds)
	return f
}

// computeColorsUsed looks at the wires behind the cord that a line conductor
// reaches by contacts; the leads of a transformer have colours of their own.
func computeColorsUsed(b *bench.Bench) []figure.Figure {
	c := b.Circuit(bench.ClosedState())
	lines := b.Lines()
	r := c.Reach(lines[:], bench.Contacts)
	isGround := func(color string) bool {
		hot, ground := false, false
		for _, s := range b.Sheet.Region.Schemes {
			ground = ground || slices.ContainsFunc(s.Ground, func(g string) bool { return sameColor(g, color) })
			hot = hot || slices.Contains(s.Hot, color) || slices.Contains(s.Neutral, color)
		}
		return ground && !hot
	}
	for _, w := range b.Sheet.Wires {
		if w.Color == "" || !r.Has(w.A) || transformerLead(b, w) || r.Has(sheet.PlugGround) {
			continue
		}
		if isGround(w.Color) {
			f := figure.Is(colorsUsed, cordSubject(b), true)
			f.Witness, f.At = []string{w.A, w.B}, w.At
			f.Note = fmt.Sprintf("the wire %s – %s carries line and is %s", w.A, w.B, w.Color)
			return []figure.Figure{f}
		}
	}
	return []figure.Figure{figure.Is(colorsUsed, cordSubject(b), false)}
}

func transformerLead(b *bench.Bench, w *sheet.Wire) bool {
	for _, t := range []string{w.A, w.B} {
		if p := b.PartOf(t); p != nil && strings.Contains(p.Kind.Name, "transformer") {
			return !strings.HasPrefix(w.A, "plug.") && !strings.HasPrefix(w.B, "plug.")
		}
	}
	return false
}
