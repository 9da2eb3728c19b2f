package entry

import (
	"fmt"
	"slices"
	"strings"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/handbook"
	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
)

// duty is what a wire carries by where it hangs: hot, neutral or ground.
type duty struct {
	wire *sheet.Wire
	duty string
}

// cordDuties lists the wires that are cord conductors: those at the plug. A
// third conductor that is a resistance has the duty of none of the schemes. Of
// several wires at a pin one is the cord's: where one has a colour, those without
// are leads and wires of the set.
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
	colored := slices.DeleteFunc(slices.Clone(out), func(d duty) bool { return d.wire.Color == "" })
	return slices.DeleteFunc(out, func(d duty) bool {
		return d.wire.Color == "" && slices.ContainsFunc(colored, func(o duty) bool { return o.duty == d.duty })
	})
}

// sameColor compares two colours; green-yellow is yellow-green.
func sameColor(a, c string) bool { return handbook.SameColor(a, c) }

// green tells the colours that are ground's in every region: green alone, and
// green with yellow.
func green(color string) bool { return color == "green" || sameColor(color, "green-yellow") }

// against counts the colours that stand on their duty in a scheme, and those that
// it gives another duty only. Where the plug goes in both ways, hot and neutral
// are one duty: which is which, nobody can say.
func against(s handbook.Scheme, given []duty, bothWays bool) (on, off int) {
	for _, d := range given {
		duties := s.Duties(d.wire.Color)
		line := bothWays && d.duty != "ground" && (slices.Contains(duties, "hot") || slices.Contains(duties, "neutral"))
		switch {
		case line || slices.Contains(duties, d.duty):
			on++
		case len(duties) > 0:
			off++
		}
	}
	return on, off
}

// fits tells whether the scheme gives every colour its duty; turned takes hot
// and neutral the other way round.
func fits(s handbook.Scheme, given []duty, turned bool) bool {
	other := map[string]string{"hot": "neutral", "neutral": "hot", "ground": "ground"}
	return !slices.ContainsFunc(given, func(d duty) bool {
		on := d.duty
		if turned {
			on = other[on]
		}
		return !slices.Contains(s.Duties(d.wire.Color), on)
	})
}

// judged is what the colours of the cord's conductors say.
type judged struct {
	whole []handbook.Scheme // schemes that give every colour its duty
	wrong *duty             // a colour on another duty
	why   string
}

// judgeColors looks at the colours that are given; one that is not may be any.
func judgeColors(b *bench.Bench, ds []duty) judged {
	given := slices.DeleteFunc(slices.Clone(ds), func(d duty) bool { return d.wire.Color == "" })
	bothWays := b.Wired().Orientation == "both-ways"
	for i, d := range given {
		if d.duty != "ground" && green(d.wire.Color) {
			return judged{wrong: &given[i], why: fmt.Sprintf("%s on %s is ground's in every region", d.wire.Color, d.duty)}
		}
		for _, o := range given[:i] {
			if o.duty != d.duty && sameColor(o.wire.Color, d.wire.Color) && (o.duty == "ground" || d.duty == "ground" || !bothWays) {
				return judged{wrong: &given[i], why: fmt.Sprintf("%s on %s and on %s", d.wire.Color, o.duty, d.duty)}
			}
		}
	}
	var j judged
	for _, s := range recognised(b) {
		if len(given) > 0 && (fits(s, given, false) || bothWays && fits(s, given, true)) {
			j.whole = append(j.whole, s)
		}
	}
	if len(j.whole) > 0 {
		return j
	}
	// None is used whole. A colour of a scheme that is in use here today may stand
	// on no other duty; nor may one of a scheme that has all of the cord's colours
	// and as many on their duty as any of the region's. Old ones prove nothing where
	// they disagree.
	best, agree := 0, true
	for _, s := range b.Sheet.Region.Schemes {
		on, _ := against(s, given, bothWays)
		best = max(best, on)
	}
	for _, d := range given {
		agree = agree && oneDuty(b.Sheet.Region.Schemes, d.wire.Color)
	}
	for _, s := range recognised(b) {
		here := ofRegion(b, s)
		on, off := against(s, given, bothWays)
		if off == 0 || !(s.Today && here || (s.Today || here && agree) && on >= best && on+off == len(given)) {
			continue
		}
		for i := range given {
			if _, off := against(s, given[i:i+1], bothWays); off > 0 {
				d := given[i]
				return judged{wrong: &given[i], why: fmt.Sprintf("%s on %s; in %s (%s) it is %s", d.wire.Color, d.duty, s.Name, s.Years, strings.Join(s.Duties(d.wire.Color), " or "))}
			}
		}
	}
	return j
}

// oneDuty tells whether the old schemes give the colour no two duties.
func oneDuty(schemes []handbook.Scheme, color string) bool {
	var duties []string
	for _, s := range schemes {
		if !s.Today {
			duties = append(duties, s.Duties(color)...)
		}
	}
	slices.Sort(duties)
	return len(slices.Compact(duties)) <= 1
}

// recognised are the schemes of every region, and the sheet's own.
func recognised(b *bench.Bench) []handbook.Scheme {
	out := handbook.Default().Schemes()
	for _, s := range b.Sheet.Region.Schemes {
		if !slices.ContainsFunc(out, func(o handbook.Scheme) bool { return sameScheme(o, s) }) {
			out = append(out, s)
		}
	}
	return out
}

func sameScheme(a, b handbook.Scheme) bool {
	return slices.Equal(a.Hot, b.Hot) && slices.Equal(a.Neutral, b.Neutral) && slices.Equal(a.Ground, b.Ground)
}

func ofRegion(b *bench.Bench, s handbook.Scheme) bool {
	return slices.ContainsFunc(b.Sheet.Region.Schemes, func(o handbook.Scheme) bool { return sameScheme(o, s) })
}

var (
	colorWrong = &figure.Def{Name: "color-on-another-duty", Room: "entry", Of: []string{"cord"}, Present: true,
		Says: "a conductor of the cord has a colour that is another duty's: ground's, or another's in the scheme of the cord or of the region"}
	colorsMixed = &figure.Def{Name: "colors-of-no-scheme", Room: "entry", Of: []string{"cord"}, Present: true,
		Says: "the colours of the cord's conductors, taken together, belong to no recognised scheme"}
	colorsForeign = &figure.Def{Name: "colors-of-another-region", Room: "entry", Of: []string{"cord"}, Present: true,
		Says: "the colours of the cord's conductors are those of another region"}
	colorsOld = &figure.Def{Name: "colors-of-an-old-scheme", Room: "entry", Of: []string{"cord"}, Present: true,
		Says: "the colours of the cord's conductors are those of a scheme that no cord is made in today"}
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

// colorFigure is present with a note, or absent where every colour is given.
func colorFigure(b *bench.Bench, d *figure.Def, ds []duty, present bool, note string) []figure.Figure {
	f := figure.Is(d, cordSubject(b), present)
	f.Note = "the cord's conductors: " + colorWords(ds) + note
	if !present {
		for _, x := range ds {
			if x.wire.Color == "" {
				return []figure.Figure{figure.NotKnown(d, cordSubject(b), figure.Need{What: "color of the wire at plug." + x.duty, How: "color: on its run; ribbed or plain where cores are alike in color"})}
			}
		}
	}
	return []figure.Figure{f}
}

func computeColorWrong(b *bench.Bench) []figure.Figure {
	ds := cordDuties(b)
	j := judgeColors(b, ds)
	if j.wrong == nil {
		return colorFigure(b, colorWrong, ds, false, "")
	}
	f := colorFigure(b, colorWrong, ds, true, "; "+j.why)
	f[0].At = j.wrong.wire.At
	return f
}

func someColor(ds []duty) bool {
	return slices.ContainsFunc(ds, func(d duty) bool { return d.wire.Color != "" })
}

func computeColorsMixed(b *bench.Bench) []figure.Figure {
	ds := cordDuties(b)
	return colorFigure(b, colorsMixed, ds, someColor(ds) && len(judgeColors(b, ds).whole) == 0, "")
}

// computeColorsForeign says nothing of what belongs to no scheme at all.
func computeColorsForeign(b *bench.Bench) []figure.Figure {
	ds := cordDuties(b)
	whole := judgeColors(b, ds).whole
	here := slices.ContainsFunc(whole, func(s handbook.Scheme) bool { return ofRegion(b, s) })
	return colorFigure(b, colorsForeign, ds, len(whole) > 0 && !here, "; not a scheme of "+b.Sheet.Region.Name)
}

func computeColorsOld(b *bench.Bench) []figure.Figure {
	ds := cordDuties(b)
	whole := judgeColors(b, ds).whole
	old := len(whole) > 0 && !slices.ContainsFunc(whole, func(s handbook.Scheme) bool { return s.Today })
	var names []string
	for _, s := range whole {
		names = append(names, s.Years)
	}
	return colorFigure(b, colorsOld, ds, old, "; so in "+strings.Join(names, ", and in "))
}

// computeColorsUsed looks at the wires behind the cord that a line conductor
// reaches by contacts: none of them is green, or in the colour that ground has
// in this cord. The leads of a transformer have colours of their own.
func computeColorsUsed(b *bench.Bench) []figure.Figure {
	c := b.Circuit(bench.ClosedState())
	lines := b.Lines()
	r := c.Reach(lines[:], bench.Contacts)
	own := ""
	for _, d := range cordDuties(b) {
		if d.duty == "ground" {
			own = d.wire.Color
		}
	}
	for _, w := range b.Sheet.Wires {
		if w.Color == "" || !r.Has(w.A) || transformerLead(b, w) || r.Has(sheet.PlugGround) {
			continue
		}
		if green(w.Color) || own != "" && sameColor(w.Color, own) {
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
		if p := b.PartOf(t); p != nil && p.Is(part.Cores) {
			return !strings.HasPrefix(w.A, "plug.") && !strings.HasPrefix(w.B, "plug.")
		}
	}
	return false
}
