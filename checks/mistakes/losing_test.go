package mistakes_test

import (
	"fmt"
	"hash/fnv"
	"slices"
	"strconv"
	"strings"
	"testing"

	"firstvolt/checks/figure"
	"firstvolt/checks/mistakes"
	"firstvolt/checks/quantity"
	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
	"firstvolt/rules"
)

// place is a way down a tree: keys, and "#3" for an item of a list.
type place []string

func (p place) String() string { return strings.Join(p, ".") }

func (p place) under(keys ...string) bool {
	return len(p) >= len(keys) && slices.Equal(p[:len(keys)], keys)
}

// down is the node at a place.
func down(n *strict.Node, p place) *strict.Node {
	for _, step := range p {
		if i, ok := strings.CutPrefix(step, "#"); ok {
			k, _ := strconv.Atoi(i)
			n = n.Items[k]
			continue
		}
		n = n.Get(step)
	}
	return n
}

// places lists every key of the tree and every item of its lists.
func places(n *strict.Node) []place {
	var out []place
	var walk func(n *strict.Node, at place)
	walk = func(n *strict.Node, at place) {
		for _, e := range n.Entries {
			p := append(slices.Clone(at), e.Key)
			out = append(out, p)
			walk(e.Value, p)
		}
		for i, item := range n.Items {
			p := append(slices.Clone(at), fmt.Sprintf("#%d", i))
			out = append(out, p)
			walk(item, p)
		}
	}
	walk(n, nil)
	return out
}

// without is a copy of the tree in which nothing stands at the place.
func without(root *strict.Node, p place) *strict.Node {
	c := root.Clone()
	holder, last := down(c, p[:len(p)-1]), p[len(p)-1]
	if i, ok := strings.CutPrefix(last, "#"); ok {
		k, _ := strconv.Atoi(i)
		holder.Items = slices.Delete(holder.Items, k, k+1)
		return c
	}
	holder.Delete(last)
	return c
}

// knowledge tells whether what stands at a place is known of the set, and not
// the set itself: parts, wires and units of the bench chain, and what a selector joins, are what is there,
// and to take one away makes another set.
func knowledge(p place) bool {
	switch {
	case p.under("wiring") && len(p) == 2, p.under("supply", "upstream") && len(p) == 3, p.under("parts") && len(p) == 2,
		p.under("parts") && len(p) > 3 && p[2] == "windings" && len(p) <= 4, p.under("parts") && len(p) > 3 && p[2] == "positions", p.under("parts") && len(p) > 2 && p[2] == "jumpers":
		return false
	case slices.Contains(p, "note"):
		return false
	}
	return true
}

// lost reports what a sheet that knows less may not say: a finding that was not
// pass is none now, and a verdict that was not cleared is not cleared.
func lost(t *testing.T, what string, was, is judged, but ...func(rules.Finding) bool) {
	t.Helper()
	if is.s == nil {
		return // refused: nothing is judged, nothing cleared
	}
	after := is.found()
	for k, f := range was.found() {
		left := slices.ContainsFunc(but, func(out func(rules.Finding) bool) bool { return out(f) })
		if g := after[k]; !left && f.Outcome != rules.Pass && g.Outcome == rules.Pass {
			t.Errorf("%s: %s of %s was %s and is pass: %s", what, k.rule, k.subject, f.Outcome, g.Says)
		}
	}
	if was.Verdict != rules.Cleared && is.Verdict == rules.Cleared {
		t.Errorf("%s: was %s, is cleared", what, was.Verdict)
	}
}

// TestLosingKnowledgeNeverClears takes every key and every reading away from
// every sound sheet, and worsens every accuracy and reading, one at a time.
func TestLosingKnowledgeNeverClears(t *testing.T) {
	eachSound(t, func(t *testing.T, s *sound) {
		root := s.s.Root
		for i, p := range places(root) {
			// One sheet's keys are tried one and all; of the others some, and all of
			// them with -exhaustive, as the full check does.
			if knowledge(p) && (*exhaustive || s.name == "larkfield-six-forty" || i%50 == 0) {
				lost(t, "without "+p.String(), s.was, judgeTree(t, without(root, p)))
			}
		}
		for what, worse := range worsened(root) {
			if !*exhaustive && pick(s.name+what)%16 != 0 {
				continue
			}
			j := judgeTree(t, worse)
			if j.s == nil {
				t.Errorf("%s: not readable: %v", what, j.problems)
			}
			lost(t, what, s.was, j)
		}
	})
}

// worsened are copies of the tree in each of which one thing is known less well.
func worsened(root *strict.Node) map[string]*strict.Node {
	out := map[string]*strict.Node{}
	set := func(p place, what, text string) {
		c := root.Clone()
		*down(c, p) = *strict.TextNode(text)
		out[fmt.Sprintf("%s %s %s", p, what, text)] = c
	}
	for _, p := range places(root) {
		n := down(root, p)
		d, shown := n.Data.(sheet.Display)
		switch {
		case p[len(p)-1] == "accuracy":
			percent, more, _ := strings.Cut(n.Text, "%")
			v, err := strconv.ParseFloat(strings.TrimSpace(percent), 64)
			if err == nil {
				for _, times := range []float64{3, 30} {
					set(p, "worsened to", strings.TrimSpace(strconv.FormatFloat(min(99, times*v), 'f', -1, 64)+" %"+more))
				}
			}
		case shown && p.under("readings", "insulation") && !d.OL:
			set(p, "worsened to", strconv.FormatFloat(d.Value.Low/2, 'f', -1, 64)+" Ω")
			set(p, "worsened to", strconv.FormatFloat(d.Value.Low/200, 'f', -1, 64)+" Ω")
		case shown && p.under("readings", "resistance") && !d.OL && d.Value.High < 1: // a bond
			set(p, "worsened to", strconv.FormatFloat(1.4*d.Value.High, 'f', -1, 64)+" Ω")
		}
	}
	return out
}

// TestLosingKnowledgeOfAFault takes something away from faulty sheets, slip by
// slip as their names choose: keys, inspections, readings, facts of a wire or a
// unit of the bench chain, whatever is no evidence of the fault. What is wrong
// with the set must go on being said or become not known, and never be cleared.
func TestLosingKnowledgeOfAFault(t *testing.T) {
	eachSound(t, func(t *testing.T, s *sound) {
		for _, slip := range s.all() {
			for _, made := range slip.slips {
				switch h := pick(s.name + slip.Name + made.Where); {
				case *exhaustive && h%4 == 0:
					losses(t, s, slip.Name+": "+made.Where, made, h/4, 4)
				case h%128 == 0:
					losses(t, s, slip.Name+": "+made.Where, made, h/128, 1)
				}
			}
		}
	})
}

// losses takes so many things away, one at a time.
func losses(t *testing.T, s *sound, name string, made mistakes.Slipped, h uint32, times int) {
	t.Helper()
	root := made.Tree()
	was := judgeTree(t, root.Clone())
	if was.s == nil || was.Verdict == rules.Cleared {
		return
	}
	var free []place
	for _, p := range places(root) {
		if knowledge(p) && s.same(root, p) && !was.evidence(root, p) {
			free = append(free, p)
		}
	}
	for k := range times {
		p := free[(h+uint32(k*len(free)/times))%uint32(len(free))]
		lost(t, name+", without "+p.String(), was, judgeTree(t, without(root, p)), func(f rules.Finding) bool {
			// How far a reading lies from its prediction is less, the less is known of
			// that. It clears no set: other findings stand.
			return bySpread(f.Figure.Name)
		})
	}
}

// evidence tells whether a finding that is no pass hangs on a reading, or on a
// unit of the bench chain: one that failed, disagreed, was the worst of several
// or could not be told is part of what is wrong, and without it the sheet is of
// another set.
func (j judged) evidence(root *strict.Node, p place) bool {
	switch {
	case p.under("supply", "earthing"):
		return true // without it the region's own stands there, which is another fact
	case p.under("instruments") && len(p) > 1:
		for i, rd := range j.s.Readings {
			if rd.Node.Word("with") == p[1] && j.hangsOn(i) {
				return true
			}
		}
		return false
	case p.under("supply", "upstream") && len(p) > 2:
		n := down(root, p[:3])
		return slices.ContainsFunc(j.Findings, func(f rules.Finding) bool {
			return f.Outcome == rules.Fail && f.Subject.Kind == "link" && f.At.Line == n.At().Line
		})
	case p.under("readings") && len(p) > 2:
		at := down(root, p[:3]).At()
		for i, rd := range j.s.Readings {
			if rd.At.Line == at.Line {
				return j.hangsOn(i)
			}
		}
		return true
	case p.under("readings"):
		return len(p) == 2 && p[1] != "taken" && p[1] != "ambient" // a whole list is not one thing
	}
	return false
}

// hangsOn tells whether a finding that is no pass is about reading i, or may be:
// two readings that disagree are both part of it.
func (j judged) hangsOn(i int) bool {
	rd, twice := j.s.Readings[i], 0
	for _, o := range j.s.Readings {
		if o.Name == rd.Name && o.Kind == rd.Kind {
			twice++
		}
	}
	return twice > 1 || slices.ContainsFunc(j.Findings, func(f rules.Finding) bool {
		disagrees := slices.Contains([]string{"reading-agrees", "plug-on-resistance", "plug-off-resistance", "plug-to-chassis-resistance"}, f.Rule) && rd.Kind == "resistance"
		return f.Outcome != rules.Pass && (f.Subject.Name == rd.Name || f.At.Line == rd.At.Line || disagrees)
	})
}

// same tells whether what stands at a place stands on the sound sheet as well; of
// a wire, whether the sound sheet has one from and to the same places.
func (s *sound) same(root *strict.Node, p place) bool {
	if p.under("wiring") {
		if len(p) != 3 || p[2] == "run" {
			return false
		}
		a, b, _ := strings.Cut(down(root, p[:2]).Word("run"), " -> ")
		return slices.ContainsFunc(s.s.Wires, func(w *sheet.Wire) bool {
			stands := map[string]string{"color": w.Color, "size": w.Size, "joint": w.Joint, "slack": w.Slack, "changed": w.Changed}[p[2]]
			return w.A == a && w.B == b && stands == down(root, p).Text
		})
	}
	n := s.s.Root
	for _, step := range p {
		if i, ok := strings.CutPrefix(step, "#"); ok {
			k, _ := strconv.Atoi(i)
			if k >= len(n.Items) {
				return false
			}
			n = n.Items[k]
			continue
		}
		if n = n.Get(step); n == nil {
			return false
		}
	}
	return n.Same(down(root, p))
}

func pick(text string) uint32 {
	h := fnv.New32a()
	h.Write([]byte(text))
	return h.Sum32()
}

// TestWideningNeverNarrows gives every quantity of every sound sheet some room
// on either side. No figure may come out narrower, and none that was not known
// may become known.
func TestWideningNeverNarrows(t *testing.T) {
	eachSound(t, func(t *testing.T, s *sound) {
		was := byFigure(s.was.figures)
		limits := map[figureOf]*rules.Limit{}
		for _, f := range s.was.Findings {
			limits[figureOf{f.Figure.Name, f.Subject.Kind, f.Subject.Name}] = f.Limit
		}
		tried := 0
		for _, p := range places(s.s.Root) {
			text, ok := widened(down(s.s.Root, p))
			if !ok || ofUse(p) || !*exhaustive && pick(s.name+p.String())%3 != 0 {
				continue
			}
			c := s.s.Root.Clone()
			*down(c, p) = *strict.TextNode(text)
			j := judgeTree(t, c)
			if j.s == nil {
				t.Errorf("%s: %s: not readable: %v", p, text, j.problems)
				continue
			}
			tried++
			is := byFigure(j.figures)
			for k, fs := range was {
				if !bySpread(k.name) {
					narrowed(t, fmt.Sprintf("%s: %s: %s of %s", p, text, k.name, k.subject), fs, is[k], limits[k])
				}
			}
		}
		if tried < 3 {
			t.Errorf("only %d quantities widened", tried)
		}
	})
}

// ofUse tells the quantities of which a span is no doubt but a range of use: a
// nameplate of 110 V to 125 V is of a set made for all of them.
func ofUse(p place) bool {
	return p.under("set", "nameplate") || p.under("parts") && slices.Contains(p, "taps") || p.under("parts") && slices.Contains(p, "windings") && slices.Contains([]string{"voltage", "no-load"}, p[len(p)-1])
}

// bySpread tells the figures that are distances from what is predicted or
// usual: the wider that is, the less they are, as their rules say.
func bySpread(name string) bool {
	return strings.HasSuffix(name, "-disagreement") || strings.HasPrefix(name, "winding-outside-") || strings.HasPrefix(name, "winding-has-usual")
}

type figureOf struct{ name, kind, subject string }

func byFigure(fs []figure.Figure) map[figureOf][]figure.Figure {
	out := map[figureOf][]figure.Figure{}
	for _, f := range fs {
		k := figureOf{f.Def.Name, f.Of.Kind, f.Of.Name}
		out[k] = append(out[k], f)
	}
	return out
}

// narrowed compares. A figure that is one number, the worst there is, may move
// as long as it moves towards its limit; one that nothing asks has none.
func narrowed(t *testing.T, what string, was, is []figure.Figure, limit *rules.Limit) {
	t.Helper()
	if len(was) != len(is) {
		return // another reading counts, or another position is tried
	}
	for i, f := range was {
		g := is[i]
		room := 1e-9 * (abs(f.Range.Low) + abs(f.Range.High))
		if f.Range.Bounded() == false {
			room = 1e-9 * abs(f.Range.Low)
		}
		switch {
		case len(g.Missing) > 0:
		case len(f.Missing) > 0:
			t.Errorf("%s: not known before, now %v", what, g.Range)
		case f.Present != nil && (g.Present == nil || *f.Present != *g.Present):
			t.Errorf("%s: present or absent before, and now the other", what)
		case f.Present == nil && f.Range.Low == f.Range.High && (limit == nil || (limit.AtMost == nil || g.Range.High >= f.Range.High-room) && (limit.AtLeast == nil || g.Range.Low <= f.Range.Low+room)):
		case f.Present == nil && (g.Range.Low > f.Range.Low+room || g.Range.High < f.Range.High-room):
			t.Errorf("%s: %v before, %v now", what, f.Range, g.Range)
		}
	}
}

func abs(x float64) float64 { return max(x, -x) }

// widened is a quantity as a span with 3 % to either side.
func widened(n *strict.Node) (string, bool) {
	var r quantity.Range
	switch v := n.Data.(type) {
	case quantity.Range:
		r = v
	case sheet.Display:
		if v.OL || v.Over {
			return "", false
		}
		r = v.Value
	default:
		return "", false
	}
	units := map[quantity.Dim]string{
		quantity.Voltage: "V", quantity.Current: "A", quantity.Resistance: "Ω", quantity.Capacitance: "F",
		quantity.Power: "W", quantity.Frequency: "Hz", quantity.Inductance: "H",
	}
	unit, ok := units[r.Dim]
	if !ok || !r.Bounded() {
		return "", false
	}
	f := func(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) + " " + unit }
	return f(0.97*r.Low) + " to " + f(1.03*r.High), true
}
