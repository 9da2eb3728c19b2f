package mistakes

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
)

var misread = []kind{
	{"insulation-falls", "Insulation fell while the test voltage stood on it.", insulationFalls},
	{"readings-swapped", "The readings of two windings were written down for each other.", readingsSwapped},
	{"wrong-prefix", "A reading was written down a thousand times too large or too small.", wrongPrefix},
	{"wrong-meter", "A reading was taken with a meter that does not measure the kind.", wrongMeter},
	{"changed-since", "A wire was changed after the readings, or a reading is older than the wiring.", changedSince},
}

// insulationFalls: the last of a series is worse than the first; still good
// enough, it is a sign of damp.
func insulationFalls(root *strict.Node, s *sheet.Sheet) []Slipped {
	var out []Slipped
	each(newDraft(root, s), func(name string, rd *sheet.Reading, p purpose, alter func(func(*strict.Node, int)) func() *strict.Node) {
		series := rd.Node.Get("reads")
		if rd.Kind != "insulation" || len(series.Entries) < 2 {
			return
		}
		out = append(out, Slipped{Where: name, Outcome: Caution, Rules: []string{"insulation-trend"}, Why: "insulation that falls is a warning while it is high",
			Tree: alter(func(list *strict.Node, i int) {
				e := list.Items[i].Get("reads").Entries
				e[0].Value, e[len(e)-1].Value = e[len(e)-1].Value, e[0].Value
			})})
	})
	return out
}

// readingsSwapped: of two windings whose ohms are far apart, of which one is the
// primary or half of a plate winding. For the others ohms say little.
func readingsSwapped(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	type ohms struct {
		rd    *sheet.Reading
		i     int
		low   float64
		rules []string
	}
	var all []ohms
	i := -1
	for _, rd := range s.Readings {
		if rd.List != "resistance" {
			continue
		}
		i++
		if p := d.partOf(rd.A[0]); p == nil || len(p.Windings) == 0 || rd.Last().OL {
			continue
		}
		var rules []string
		for _, rule := range d.purpose(rd).rules {
			if rule == "plug-on-resistance" || rule == "halves-balance" || rule == "reading-agrees" {
				rules = append(rules, rule)
			}
		}
		all = append(all, ohms{rd, i, rd.Last().Value.Low, rules})
	}
	var out []Slipped
	for k, a := range all {
		for _, b := range all[k+1:] {
			rules := slices.Concat(a.rules, b.rules, []string{"plug-on-resistance"})
			if d.sameWinding(a.rd, b.rd) {
				continue // the sum stays as it was
			}
			if ratio := max(a.low, b.low) / min(a.low, b.low); len(a.rules)+len(b.rules) == 0 || !(ratio > 5) || !(max(a.low, b.low) > 5) {
				continue
			}
			out = append(out, Slipped{Where: a.rd.Name + " and " + b.rd.Name, Outcome: Fail, Rules: append(rules, "reading-agrees", "winding-continuity"),
				Tree: d.edit(func(root *strict.Node) {
					list := root.Get("readings").Get("resistance").Items
					x, y := list[a.i].Get("reads"), list[b.i].Get("reads")
					list[a.i].Set("reads", y.Clone())
					list[b.i].Set("reads", x.Clone())
				})})
		}
	}
	return out
}

// sameWinding tells whether both readings are of one winding.
func (d draft) sameWinding(a, b *sheet.Reading) bool {
	p := d.partOf(a.A[0])
	return slices.ContainsFunc(p.Windings, func(w *part.Winding) bool {
		return slices.Contains(w.Order, own(p, a.A[0])) && slices.Contains(w.Order, own(p, b.A[0]))
	})
}

// wrongPrefix: where a thousand times more or less is beyond what the other
// readings and the marks allow.
func wrongPrefix(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	each(d, func(name string, rd *sheet.Reading, p purpose, alter func(func(*strict.Node, int)) func() *strict.Node) {
		last := shownBy(rd)
		if last.OL || last.Over || len(rd.Node.Get("reads").Entries) > 0 {
			return
		}
		unit := map[string]string{"resistance": "Ω", "insulation": "Ω", "capacitance": "F", "voltage": "V", "drop": "V", "leakage": "A"}[rd.List]
		for _, times := range []float64{1e3, 1e-3} {
			rules := d.seesPrefix(rd, p, times)
			if rules == nil {
				continue
			}
			out = append(out, Slipped{Where: fmt.Sprintf("%s, %g times", name, times), Outcome: Fail, Rules: rules,
				Tree: alter(func(list *strict.Node, i int) {
					list.Items[i].Set("reads", strict.TextNode(strconv.FormatFloat(times*last.Value.Low, 'f', -1, 64)+" "+unit))
				})})
		}
	})
	return out
}

// seesPrefix names what must notice a reading so many times too large: nothing
// where it may be right, or where the rule asks for a bound on the other side.
func (d draft) seesPrefix(rd *sheet.Reading, p purpose, times float64) []string {
	up := times > 1
	for _, rule := range p.rules {
		switch rule {
		case "bond-resistance", "halves-balance", "turns-ratio":
			if rule != "bond-resistance" || up {
				return []string{rule}
			}
		case "plug-on-resistance":
			if !up && rd.Last().Value.Low < 5 {
				continue // less or more of it is within what the whole may be off
			}
			if q := d.partOf(rd.A[0]); up && q != nil && q.Kind.Name == "motor" && len(d.windings("primary")) > 0 {
				continue // beside a primary of far fewer ohms it weighs nothing
			}
			if len(d.parts("barretter", "thermistor")) == 0 { // cold, a barretter may have anything
				return []string{rule, "plug-off-resistance", "reading-agrees"}
			}
		case "plug-to-chassis-resistance", "insulation-mains-chassis", "insulation-primary-secondaries":
			if !up {
				return append([]string{"reading-agrees"}, p.rules...)
			}
		case "capacitance-agrees":
			if up {
				return []string{rule}
			}
		}
	}
	return nil
}

// wrongMeter: an ohmmeter says nothing of insulation, a bridge nothing of ohms.
func wrongMeter(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	each(d, func(name string, rd *sheet.Reading, p purpose, alter func(func(*strict.Node, int)) func() *strict.Node) {
		for _, o := range s.Readings {
			with := o.Node.Word("with")
			m := s.Instruments[with]
			if o.Kind == rd.Kind || m == nil || len(m.Measures) == 0 || slices.Contains(m.Measures, rd.Kind) {
				continue
			}
			outcome := p.without
			if outcome == AsGood {
				outcome = Unproven
			}
			out = append(out, Slipped{Where: name + ", with " + with, Outcome: outcome, Rules: append([]string{"reading-agrees"}, p.rules...), Why: p.why,
				Tree: alter(func(list *strict.Node, i int) { list.Items[i].Set("with", strict.TextNode(with)) })})
			return
		}
	})
	return out
}

// changedSince: each wire that a reading goes through, changed after it; and
// each reading by itself older than the wiring.
func changedSince(root *strict.Node, s *sheet.Sheet) []Slipped {
	if s.Taken == "" || s.Rebuilt == "" {
		return nil
	}
	d := newDraft(root, s)
	fresh := []string{"readings-after-rebuild"}
	var out []Slipped
	for i, w := range s.Wires {
		if a := d.sides()[w.A]; a != hot && a != neutral || !strings.HasPrefix(w.A, "plug.") && !strings.HasPrefix(w.B, "plug.") {
			continue
		}
		out = append(out, Slipped{Where: d.wireName(i), Outcome: Fail, Rules: fresh, Tree: d.edit(func(root *strict.Node) {
			root.Get("wiring").Items[i].Set("changed", strict.TextNode("2027-01-01"))
		})})
	}
	each(d, func(name string, rd *sheet.Reading, p purpose, alter func(func(*strict.Node, int)) func() *strict.Node) {
		// What is inside a winding no rebuild changes.
		if q := d.partOf(rd.A[0]); p.without == AsGood || p.without == Caution || rd.Kind == "resistance" && q != nil {
			return
		}
		out = append(out, Slipped{Where: name, Outcome: Fail, Rules: fresh, Tree: alter(func(list *strict.Node, i int) {
			list.Items[i].Set("taken", strict.TextNode("2020-01-01"))
		})})
	})
	return out
}
