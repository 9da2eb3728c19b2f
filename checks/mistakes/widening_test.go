package mistakes_test

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
	"firstvolt/rules"
)

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
					narrowed(t, fmt.Sprintf("%s: %s: %s of %s", p, text, k.name, k.subject), fs, stricter(is, k), limits[k])
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

// stricter is the figure k, with what went over from it to the one that is held
// to a must: where less is sure of what opens a fault in its time, its current
// is no longer among those that are cautioned of.
func stricter(is map[figureOf][]figure.Figure, k figureOf) []figure.Figure {
	if k.name != "touch-current-left-to-branch" {
		return is[k]
	}
	out := slices.Clone(is[k])
	must := is[figureOf{"touch-current-one-fault", k.kind, k.subject}]
	for i := range min(len(out), len(must)) {
		if len(must[i].Missing) > 0 {
			out[i] = must[i]
		}
		out[i].Range.High = max(out[i].Range.High, must[i].Range.High)
	}
	return out
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
		fine := 1e-9
		if strings.HasSuffix(f.Def.Name, "-share") {
			fine = 1e-3 // told by the ends of what is unknown; the most power of a divider lies a little inside them
		}
		room := fine * (abs(f.Range.Low) + abs(f.Range.High))
		if f.Range.Bounded() == false {
			room = fine * abs(f.Range.Low)
		}
		switch {
		case len(g.Missing) > 0:
		case len(f.Missing) > 0:
			t.Errorf("%s: not known before, now %v", what, g.Range)
		case f.Present != nil && (g.Present == nil || *f.Present != *g.Present):
			t.Errorf("%s: present or absent before, and now the other", what)
		case f.Present == nil && f.Range.Low == f.Range.High && (limit == nil || (limit.AtMost == nil || g.Range.High >= f.Range.High-room) && (limit.AtLeast == nil || g.Range.Low <= f.Range.Low+room)):
		case f.Present == nil && (g.Range.Low > f.Range.Low+room || g.Range.High < f.Range.High-room):
			t.Errorf("%s: %v before, %v now (%.7g to %.7g, %.7g to %.7g)", what, f.Range, g.Range, f.Range.Low, f.Range.High, g.Range.Low, g.Range.High)
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
