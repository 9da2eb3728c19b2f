package mistakes

import (
	"fmt"
	"slices"

	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
)

var measured = []kind{
	{"reading-not-taken", "One reading was not taken.", notTaken},
	{"reading-without-meter", "Nobody wrote down which meter a reading was taken with.", withoutMeter},
	{"reading-bad", "One reading came out as it would on a faulty set.", cameOutBad},
	{"test-too-low", "An insulation test was made with too few volts.", testTooLow},
	{"leads-not-nulled", "Nobody nulled the leads of a meter that read the bond.", leadsOpen},
	{"leads-larger", "The leads are said to have more than was read with them in it, or more than a bond can be told from.", leadsLarger},
	{"out-of-date", "A meter was calibrated too long ago, or nobody knows when.", outOfDate},
	{"read-before-rebuild", "The readings are older than the wiring.", readBefore},
}

// purpose says what a reading is there for: the rule that asks for it, how bad
// it is without it, and what it shows when the set is faulty.
type purpose struct {
	rules   []string
	without string // the outcome when it is not there
	why     string
	faulty  []string // displays of a faulty set
}

func (d draft) purpose(rd *sheet.Reading) purpose {
	has := func(ts []string, want ...string) bool {
		return len(ts) == len(want) && !slices.ContainsFunc(want, func(t string) bool { return !slices.Contains(ts, t) })
	}
	toBody := func(a, b []string) bool {
		return has(a, sheet.PlugHot, sheet.PlugNeutral) && !slices.ContainsFunc(b, func(t string) bool {
			return d.partOf(t) == nil || d.partOf(t).Kind.Name != "body"
		})
	}
	pins := func(a, b []string) bool { return has(a, sheet.PlugHot) && has(b, sheet.PlugNeutral) }
	both := func(a, b []string) bool {
		return has(a, sheet.PlugHot, sheet.PlugNeutral) && slices.Contains(b, sheet.Chassis)
	}
	either := func(f func(a, b []string) bool) bool { return f(rd.A, rd.B) || f(rd.B, rd.A) }
	again := d.again(rd)
	switch {
	case rd.Kind == "resistance" && either(both) && len(rd.Without)+len(rd.Lifted) > 0:
		return purpose{without: AsGood, why: "no rule asks for a reading with parts lifted"}
	case rd.Kind == "resistance" && either(pins) && len(rd.Switch) > 0 && len(d.parts("motor")) > 0:
		return purpose{without: AsGood, why: "another reading from pin to pin is there"}
	case rd.Kind == "resistance" && either(toBody):
		return purpose{rules: []string{"plug-to-chassis-resistance"}, without: Unproven, faulty: []string{"3 Ω", "200 kΩ"}}
	case rd.Kind == "voltage":
		return purpose{rules: []string{"turns-ratio"}, without: Caution, faulty: []string{fmt.Sprintf("%.4g V", 0.6*rd.Last().Value.Low)}}
	case rd.Kind == "capacitance":
		p := purpose{rules: []string{"capacitance-agrees"}, without: Unproven, faulty: []string{"60 nF", "0.2 µF"}}
		if d.s.Construction == "transformer" && d.grounded() {
			p.without, p.why = Caution, "on a bonded chassis nobody owes it"
		}
		return p
	case rd.Kind == "insulation" && again:
		return purpose{without: AsGood, why: "another reading of the same two sides is there", rules: []string{"insulation-mains-chassis", "reading-agrees"}, faulty: []string{"0.3 MΩ"}}
	case rd.Kind == "insulation" && (either(both) || either(toBody)):
		return purpose{rules: []string{"insulation-mains-chassis"}, without: Unproven, faulty: []string{"0.3 MΩ", "20 kΩ"}}
	case rd.Kind == "insulation" && either(func(a, _ []string) bool { return has(a, sheet.Chassis) }):
		return purpose{rules: []string{"insulation-secondaries-chassis"}, without: Caution, faulty: []string{"0.3 MΩ"}}
	case rd.Kind == "insulation":
		p := purpose{rules: []string{"insulation-primary-secondaries"}, without: Unproven, faulty: []string{"0.3 MΩ", "20 kΩ"}}
		if d.tied(rd) {
			p.without, p.why = AsGood, "the reading from both pins to the chassis takes in the windings that are tied to it"
		}
		return p
	case either(func(a, b []string) bool { return has(a, sheet.PlugGround) && has(b, sheet.Chassis) }):
		return purpose{rules: []string{"bond-resistance"}, without: Unproven, faulty: d.badBonds()}
	case either(func(a, _ []string) bool { return has(a, sheet.PlugGround) }):
		return purpose{rules: []string{"bond-resistance"}, without: Unproven, faulty: d.badBonds()}
	case either(pins) && rd.Switches == "closed":
		low := rd.Last().Value.Low
		p := purpose{rules: []string{"plug-on-resistance"}, without: Unproven, faulty: []string{fmt.Sprintf("%.4g Ω", 0.5*low), fmt.Sprintf("%.4g Ω", 3*low), "OL"}}
		switch {
		case len(d.parts("barretter")) > 0: // cold, known within a factor of three or so
			p.faulty = []string{fmt.Sprintf("%.4g Ω", 20*low), "OL"}
		}
		return p
	case either(pins):
		return purpose{rules: []string{"plug-off-resistance"}, without: Unproven, faulty: []string{"15 Ω", "20 kΩ"}}
	case either(both):
		return purpose{rules: []string{"plug-to-chassis-resistance"}, without: Unproven, faulty: []string{"3 Ω", "200 kΩ"}}
	}
	return d.ofWinding(rd)
}

// badBonds are displays of a bond that no limit in service takes: 1 Ω for the
// whole path in Australia, 0.3 Ω and 0.1 Ω beyond the cord elsewhere.
func (d draft) badBonds() []string {
	if d.s.Region.Name == "australia" {
		return []string{"1.6 Ω", "12 Ω"}
	}
	return []string{"0.6 Ω", "12 Ω"}
}

// tied tells whether every secondary winding under the probes is tied to the
// chassis while nothing is lifted.
func (d draft) tied(rd *sheet.Reading) bool {
	for _, t := range slices.Concat(rd.A, rd.B) {
		if s := d.sides()[t]; s == secondary && !d.reached(t, sheet.Chassis, -1) {
			return false
		}
	}
	return true
}

// again tells whether another reading stands for this one too.
func (d draft) again(rd *sheet.Reading) bool {
	return slices.ContainsFunc(d.s.Readings, func(o *sheet.Reading) bool {
		if o == rd || o.Kind != rd.Kind || !slices.Equal(o.A, rd.A) {
			return false
		}
		return slices.Contains(rd.B, sheet.Chassis) && slices.Contains(o.B, sheet.Chassis) && slices.Equal(o.Without, rd.Without)
	})
}

func (d draft) ofWinding(rd *sheet.Reading) purpose {
	of := d.partOf(rd.A[0])
	if of != nil && of.Kind.Name == "motor" {
		return purpose{without: Unproven, rules: []string{"plug-on-resistance"}}
	}
	if of == nil || len(of.Windings) == 0 {
		return purpose{without: AsGood, why: "no rule asks for a reading across this part", rules: []string{"reading-agrees", "plug-on-resistance"}, faulty: nil}
	}
	low := rd.Last().Value.Low
	for _, w := range of.Windings {
		i, j := slices.Index(w.Order, own(of, rd.A[0])), slices.Index(w.Order, own(of, rd.B[0]))
		if i < 0 || j < 0 {
			continue
		}
		switch {
		case w.Role == "auto":
			p := purpose{without: AsGood, why: "the other stretches of the winding give this one", rules: []string{"winding-continuity", "reading-agrees"}, faulty: []string{"OL"}}
			if d.beside(rd.A[0], rd.B[0]) { // heaters lie across it, and would be read if it were open
				p.without, p.why = Unproven, ""
			}
			return p
		case w.Role == "primary" && len(w.Order) > 2:
			return purpose{without: AsGood, why: "the other stretches of the winding give this one", rules: []string{"reading-agrees", "plug-on-resistance", "winding-continuity"}, faulty: []string{fmt.Sprintf("%.4g Ω", 4*low+5)}}
		case w.Role == "primary":
			return purpose{without: Unproven, rules: []string{"winding-continuity", "winding-resistance", "plug-on-resistance", "plug-off-resistance"}, faulty: []string{"0.2 Ω", fmt.Sprintf("%.4g Ω", 3*low), "OL"}}
		case w.Role == "plate" && len(w.Order) > 2:
			return purpose{without: Caution, why: "before the rail nobody owes it", rules: []string{"halves-balance", "winding-continuity"}, faulty: []string{fmt.Sprintf("%.4g Ω", 0.5*low), "OL"}}
		}
		return purpose{without: Caution, rules: []string{"winding-continuity", "winding-resistance"}, faulty: []string{"OL"}}
	}
	return purpose{without: AsGood, why: "no rule asks for it"}
}

// beside tells whether the heaters of the set lie from a to b.
func (d draft) beside(a, b string) bool {
	n := d.joins(func(p *part.Part) bool { return p.Kind.Name == "switch" })
	for _, t := range d.parts("tube") {
		n.join(t.Full("h1"), t.Full("h2"))
	}
	return n.of(a) == n.of(b)
}

// each makes one slip of every reading by f, in the order of the sheet.
func each(d draft, f func(name string, rd *sheet.Reading, p purpose, alter func(func(list *strict.Node, i int)) func() *strict.Node)) {
	place := map[string]int{}
	for _, rd := range d.s.Readings {
		i := place[rd.List]
		place[rd.List]++
		f(fmt.Sprintf("%s %d, %s", rd.List, i+1, rd.Name), rd, d.purpose(rd), func(change func(list *strict.Node, i int)) func() *strict.Node {
			return d.edit(func(root *strict.Node) { change(root.Get("readings").Get(rd.List), i) })
		})
	}
}

func notTaken(root *strict.Node, s *sheet.Sheet) []Slipped {
	var out []Slipped
	each(newDraft(root, s), func(name string, rd *sheet.Reading, p purpose, alter func(func(*strict.Node, int)) func() *strict.Node) {
		out = append(out, Slipped{Where: name, Rules: p.rules, Outcome: p.without, Why: p.why,
			Tree: alter(func(list *strict.Node, i int) { list.Items = slices.Delete(list.Items, i, i+1) })})
	})
	return out
}

func withoutMeter(root *strict.Node, s *sheet.Sheet) []Slipped {
	var out []Slipped
	each(newDraft(root, s), func(name string, rd *sheet.Reading, p purpose, alter func(func(*strict.Node, int)) func() *strict.Node) {
		outcome, why := p.without, p.why
		if outcome == AsGood || outcome == Caution { // a reading that proves nothing agrees with nothing, owed or not
			outcome, why = Unproven, ""
		}
		out = append(out, Slipped{Where: name, Rules: append([]string{"reading-agrees"}, p.rules...), Outcome: outcome, Why: why,
			Tree: alter(func(list *strict.Node, i int) { list.Items[i].Delete("with") })})
	})
	return out
}

func cameOutBad(root *strict.Node, s *sheet.Sheet) []Slipped {
	var out []Slipped
	d := newDraft(root, s)
	each(d, func(name string, rd *sheet.Reading, p purpose, alter func(func(*strict.Node, int)) func() *strict.Node) {
		outcome, why := Fail, ""
		if rd.Kind == "resistance" && slices.Contains(p.rules, "plug-on-resistance") && len(d.parts("thermistor")) > 0 {
			outcome, why = Unproven, "the spread of a cold thermistor is wider than the allowance"
		}
		for _, shown := range p.faulty {
			out = append(out, Slipped{Where: name + ": " + shown, Rules: append([]string{"reading-agrees"}, p.rules...), Outcome: outcome, Why: why,
				Tree: alter(func(list *strict.Node, i int) {
					list.Items[i].Set("reads", strict.TextNode(shownAs(rd, shown)))
					if shown == "OL" && rd.Kind == "resistance" {
						list.Items[i].Set("range", strict.TextNode("2 MΩ")) // or it would say nothing at all
					}
				})})
		}
	})
	return out
}

// shownBy is what the meter of a reading showed, the volts of a drop.
func shownBy(rd *sheet.Reading) sheet.Display {
	if rd.Drop != nil {
		return rd.Drop.Shown
	}
	return rd.Last().Display
}

// shownAs is a display of ohms as the meter of the reading would show it: of a
// drop the volts.
func shownAs(rd *sheet.Reading, ohms string) string {
	if r, err := quantity.Parse(ohms, quantity.Resistance); err == nil && rd.Drop != nil {
		return fmt.Sprintf("%.4g V", r.Low*rd.Drop.Current.Low)
	}
	return ohms
}

// testTooLow: a test below 250 V proves nothing for mains insulation.
func testTooLow(root *strict.Node, s *sheet.Sheet) []Slipped {
	var out []Slipped
	each(newDraft(root, s), func(name string, rd *sheet.Reading, p purpose, alter func(func(*strict.Node, int)) func() *strict.Node) {
		if rd.Kind != "insulation" || !rd.HasTest {
			return
		}
		outcome, why := p.without, p.why
		if outcome == Caution { // nobody owed it; taken, it has to prove something
			outcome, why = Unproven, ""
		}
		out = append(out, Slipped{Where: name, Rules: p.rules, Outcome: outcome, Why: why,
			Tree: alter(func(list *strict.Node, i int) { list.Items[i].Set("test", strict.TextNode("100 V")) })})
	})
	return out
}

// leadsOpen: what the leads have is then in the reading of the bond, and unknown.
func leadsOpen(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	for _, name := range d.meters(func(rd *sheet.Reading) bool {
		return rd.Drop == nil && slices.Contains(d.purpose(rd).rules, "bond-resistance")
	}) {
		out = append(out, d.change(name+".leads", "", Unproven, []string{"leads-accounted"}, "instruments", name, "leads"))
	}
	return out
}

// leadsLarger: taken off the reading, they leave less than nothing; with more than
// an ohm in it a reading tells no bond at all. A drop has no leads in it.
func leadsLarger(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	for _, name := range d.meters(func(rd *sheet.Reading) bool {
		return rd.Drop == nil && slices.Contains(d.purpose(rd).rules, "bond-resistance")
	}) {
		for _, leads := range []string{"0.9 Ω", "2 Ω", "100 Ω"} {
			out = append(out, d.change(name+".leads", leads, Unproven, []string{"bond-resistance"}, "instruments", name, "leads"))
		}
	}
	return out
}

// outOfDate is advice: a meter drifts slowly, and the ohms of this page are coarse.
func outOfDate(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	for _, name := range d.meters(func(*sheet.Reading) bool { return true }) {
		if root.Get("instruments").Get(name).Get("calibrated") == nil {
			continue // it is advised already
		}
		sl := d.change(name+".calibrated", "2020-01-01", Caution, []string{"instrument-in-date"}, "instruments", name, "calibrated")
		sl.Why = "when a meter was calibrated is advice"
		out = append(out, sl)
	}
	return out
}

// meters lists the instruments that some reading of the kind asked was taken with.
func (d draft) meters(of func(*sheet.Reading) bool) []string {
	var out []string
	for _, rd := range d.s.Readings {
		name := rd.Node.Word("with")
		if name != "" && of(rd) && !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	return out
}

func readBefore(root *strict.Node, s *sheet.Sheet) []Slipped {
	if s.Taken == "" || s.Rebuilt == "" {
		return nil
	}
	d := newDraft(root, s)
	return []Slipped{
		d.change("rebuilt", "2027-01-01", Fail, []string{"readings-after-rebuild"}, "set", "rebuilt"),
		d.change("rebuilt", "", Unproven, []string{"readings-after-rebuild"}, "set", "rebuilt"),
	}
}
