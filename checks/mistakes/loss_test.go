package mistakes_test

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
	"firstvolt/rules"
)

// loss is one thing that a sheet says no longer, or less well.
type loss struct {
	at   place
	text string // "": it is taken away; else what stands there instead
}

func (l loss) String() string {
	if l.text == "" {
		return "without " + l.at.String()
	}
	return fmt.Sprintf("%s worsened to %s", l.at, l.text)
}

// lose is a copy of the tree that has lost all of these. None of them lies
// within another.
func lose(root *strict.Node, losses ...loss) *strict.Node {
	c := root.Clone()
	var now []func()
	for _, l := range losses { // all are found before any is taken: places count the items of lists
		holder, last, n := down(c, l.at[:len(l.at)-1]), l.at[len(l.at)-1], down(c, l.at)
		now = append(now, func() {
			switch {
			case l.text != "":
				*n = *strict.TextNode(l.text)
			case strings.HasPrefix(last, "#"):
				holder.Items = slices.DeleteFunc(holder.Items, func(o *strict.Node) bool { return o == n })
			default:
				holder.Delete(last)
			}
		})
	}
	for _, f := range now {
		f()
	}
	return c
}

// apart tells whether neither loss lies within the other.
func (l loss) apart(o loss) bool { return !l.at.under(o.at...) && !o.at.under(l.at...) }

// losses lists everything that the judged sheet can lose without becoming the
// sheet of another set.
func (j judged) losses() []loss {
	var out []loss
	root := j.s.Root
	for _, p := range places(root) {
		if j.evidence(p) {
			continue
		}
		if knowledge(p) {
			out = append(out, loss{at: p})
		}
		for _, text := range worse(p, down(root, p)) {
			out = append(out, loss{p, text})
		}
	}
	return out
}

// knowledge tells whether what stands at a place is known of the set, and not
// the set itself: parts, windings, wires and units of the bench chain, and what
// a selector joins, are what is there, and to take one away makes another set.
func knowledge(p place) bool {
	switch last := p[len(p)-1]; {
	case last == "note", last == "serial", p.under("firstvolt"):
		return false
	case p.under("wiring"):
		return len(p) > 2
	case p.under("supply", "upstream"):
		return len(p) != 3
	case p.under("parts"):
		return len(p) > 2 && !(p[2] == "windings" && len(p) <= 4) && p[2] != "positions" && p[2] != "jumpers"
	}
	return true
}

// worse are values that say less, or no good, of what stands at a place: a
// wider accuracy, an insulation that is lower, a bond that has more ohms, a
// capacitance that nothing explains.
func worse(p place, n *strict.Node) []string {
	number := func(x float64, unit string) string { return strconv.FormatFloat(x, 'f', -1, 64) + unit }
	d, shown := n.Data.(sheet.Display)
	switch {
	case p[len(p)-1] == "accuracy", len(p) > 3 && p.under("instruments") && p[2] == "measures":
		percent, more, _ := strings.Cut(n.Text, "%")
		v, err := strconv.ParseFloat(strings.TrimSpace(percent), 64)
		if err != nil {
			return nil
		}
		return []string{
			strings.TrimSpace(number(min(99, 3*v), " %") + more),
			strings.TrimSpace(number(min(99, 30*v), " %") + more),
		}
	case !shown || d.OL || d.Over:
		return nil
	case p.under("readings", "insulation"):
		return []string{number(d.Value.Low/2, " Ω"), number(d.Value.Low/200, " Ω")}
	case p.under("readings", "resistance") && d.Value.High < 1: // a bond
		return []string{number(1.4*d.Value.High, " Ω")}
	case p.under("readings", "capacitance"):
		return []string{number(1.25*d.Value.High, " F"), number(3*d.Value.High, " F")}
	}
	return nil
}

// evidence tells whether what stands at a place is evidence of a fault and not
// knowledge: what the page of the format lists, one case each.
func (j judged) evidence(p place) bool {
	n := down(j.s.Root, p)
	switch {
	case p.under("supply", "earthing"): // without it the region's own stand there, which is another fact
		return true
	case p.under("supply", "system"):
		return n.Text == "two-line"
	case p.under("supply", "voltage"):
		return j.outsideLimits()
	case len(p) == 3 && p.under("parts") && p[2] == "power" && j.s.Part(p[1]).Kind.Name == "transformer":
		// It binds the fuse where it is stated only, against the nameplate, which binds it always.
		return slices.ContainsFunc(j.Findings, func(f rules.Finding) bool { return f.Rule == "fuse-size" && f.Outcome != rules.Pass })
	case len(p) == 2 && p.under("supply", "upstream"):
		return slices.ContainsFunc(j.Findings, func(f rules.Finding) bool { return f.Subject.Kind == "link" && f.Outcome != rules.Pass })
	case p.under("wiring") && len(p) == 3:
		// What only contradicts: a color that its wire need not have, a day after the readings.
		return slices.ContainsFunc(j.Findings, func(f rules.Finding) bool {
			return f.Outcome != rules.Pass && (p[2] == "color" && f.Rule == "conductor-colors" || (p[2] == "color" || p[2] == "size") && f.At.Line == n.At().Line)
		})
	case len(p) == 1 && p.under("readings"):
		return slices.ContainsFunc(j.s.Readings, j.speaks)
	case len(p) == 2 && p.under("readings"):
		return slices.ContainsFunc(j.s.Readings, func(rd *sheet.Reading) bool { return rd.Kind == p[1] && j.speaks(rd) })
	case p.under("instruments") && p[len(p)-1] == "leads":
		v, ok := part.ValueOf(n)
		return ok && v.High > 1 // what no leads have contradicts every reading of the meter
	case p.under("readings", "insulation") && slices.Contains(p, "without") && j.holds("insulation-"):
		return true // what was lifted: without it the reading is of another state, which may be the one that was lacked
	case p.under("readings") && len(p) > 2:
		item := down(j.s.Root, p[:3])
		i := slices.IndexFunc(j.s.Readings, func(rd *sheet.Reading) bool { return rd.Node == item })
		return i >= 0 && j.speaks(j.s.Readings[i])
	}
	return false
}

// outsideLimits tells whether the supply was measured outside the region's limits.
func (j judged) outsideLimits() bool {
	v, ok := part.ValueOf(j.s.Supply().Get("voltage"))
	return ok && !(v.Low >= j.s.Region.Limits.Low && v.High <= j.s.Region.Limits.High)
}

// holds tells whether a finding of a rule whose name begins so is no pass.
func (j judged) holds(rule string) bool {
	return slices.ContainsFunc(j.Findings, func(f rules.Finding) bool { return f.Outcome != rules.Pass && strings.HasPrefix(f.Rule, rule) })
}

// speaks tells whether a reading is evidence: its own finding is no pass, it is
// one of several of the same thing, of which the worst counts, or one of two
// that do not match: halves, or insulation of which one joins more.
func (j judged) speaks(rd *sheet.Reading) bool {
	same := 0
	for _, o := range j.s.Readings {
		if o.Name == rd.Name && o.Kind == rd.Kind {
			same++
		}
	}
	return same > 1 || slices.ContainsFunc(j.Findings, func(f rules.Finding) bool {
		return f.Outcome != rules.Pass && (f.Subject.Kind == "reading" && f.Subject.Name == rd.Name || f.At.Line != 0 && f.At.Line == rd.At.Line ||
			f.Rule == "halves-balance" && partName(rd.Name) == partName(f.Subject.Name) ||
			f.Rule == "reading-agrees" && rd.Kind == "insulation" && partName(rd.Name) == partName(f.Subject.Name))
	})
}

// partName is the part that a terminal, a winding or a reading is of.
func partName(name string) string {
	part, _, _ := strings.Cut(name, ".")
	return part
}
