package entry

import (
	"fmt"
	"strings"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
)

var saysIsolated = &figure.Def{Name: "said-to-be-off-line", Room: "entry", Of: bench.Metalwork, Present: true,
	Says: "the sheet calls it a set whose chassis is not a line conductor"}

func computeSaysIsolated(b *bench.Bench) (out []figure.Figure) {
	// A word on the sheet takes no question off a set that its wiring isolates.
	yes := b.Sheet.Construction != "line-connected" || b.Wired().Construction == "transformer"
	out = append(out, figure.Is(saysIsolated, chassisOf(b), yes))
	// A bench has no cabinet: metal that no hand gets to in use is asked too, but
	// for a set that has a common rail, whose inner metal may be joined to that.
	inner := b.Wired().Construction != "floating-chassis"
	for _, p := range b.Parts(part.Metal) {
		out = append(out, figure.Is(saysIsolated, b.Of(p), yes && (inner || p.Word("reach") != "enclosed")))
	}
	return out
}

var (
	hotJoins = &figure.Def{Name: "hot-joins-metal", Room: "entry", Of: bench.Metalwork, Present: true,
		Says: "hot reaches it through something that conducts"}
	neutralJoins = &figure.Def{Name: "neutral-joins-metal", Room: "entry", Of: bench.Metalwork, Present: true,
		Says: "neutral reaches it through something that conducts"}
)

// joins asks in every switch and selector position whether one line conductor
// reaches the chassis or a body of any reach through anything that conducts but a
// protective impedance, without crossing over to the other line conductor. A
// neon lamp, varistor or arrester conducts once its voltage is reached, and the
// line reaches it.
func joins(d *figure.Def, line string) func(*bench.Bench) []figure.Figure {
	return func(b *bench.Bench) (out []figure.Figure) {
		targets := map[string]figure.Subject{sheet.Chassis: chassisOf(b)}
		order := []string{sheet.Chassis}
		for _, p := range b.Parts(part.Metal) {
			targets[p.Name] = b.Of(p)
			order = append(order, p.Name)
		}
		states, ok := b.Combinations(bench.State{}, true)
		found := map[string][]string{}
		for _, st := range states {
			r := beside(b, st, line, func(e *circuit.Element) bool {
				return (bench.Conductors(e) || e.Law == circuit.Striking) && !bench.ProtectiveResistor(e)
			})
			for _, t := range order {
				if found[t] == nil && r.Has(t) {
					found[t] = path(r, t)
				}
			}
		}
		for _, t := range order {
			if found[t] == nil && !ok {
				out = append(out, figure.NotKnown(d, targets[t], tooMany))
				continue
			}
			out = append(out, present(d, targets[t], found[t], ""))
		}
		return out
	}
}

var deadShort = &figure.Def{Name: "dead-short", Room: "entry", Of: []string{"set"}, Present: true,
	Says: "with some setting of the switches a line conductor is joined straight to another or to ground"}

func computeDeadShort(b *bench.Bench) figure.Figure {
	states, ok := b.Combinations(bench.State{}, true)
	certain := func(e *circuit.Element) bool {
		if bench.Contacts(e) {
			return true
		}
		return e.Conducts == circuit.Conducting && e.Law != circuit.Winding && e.R.High < 1
	}
	maybe := func(e *circuit.Element) bool {
		if certain(e) {
			return true
		}
		p := bench.PartOfElement(e)
		return p != nil && (p.Is(part.Resists | part.LimitsInrush)) && e.R.Low < 1
	}
	var doubt []string
	pairs := [][2]string{{sheet.PlugHot, sheet.PlugNeutral}, {sheet.PlugHot, sheet.PlugGround}, {sheet.PlugNeutral, sheet.PlugGround}}
	for _, st := range states {
		c := b.Circuit(st)
		for _, pair := range pairs {
			if r := c.Reach(pair[:1], certain); r.Has(pair[1]) {
				return present(deadShort, b.Set(), path(r, pair[1]), fmt.Sprintf("%s is joined straight to %s", pair[0], pair[1]))
			}
			if r := c.Reach(pair[:1], maybe); doubt == nil && r.Has(pair[1]) {
				doubt = path(r, pair[1])
			}
		}
	}
	if doubt != nil {
		return figure.NotKnown(deadShort, b.Set(), figure.Need{What: "the ohms along " + strings.Join(doubt, " → "), How: "give the value of the part in this path"})
	}
	if !ok {
		return figure.NotKnown(deadShort, b.Set(), tooMany)
	}
	return figure.Is(deadShort, b.Set(), false)
}

var loadAcross = &figure.Def{Name: "load-across-line", Room: "entry", Of: []string{"set"}, Present: true,
	Says: "switched on, the load lies between the line conductors"}

func computeLoadAcross(b *bench.Bench) figure.Figure {
	var witness []string
	// The load of a transformer set is its primary, whatever else is on the line.
	isolates := b.Sheet.Construction == "transformer" && len(windingEnds(b, func(w *part.Winding) bool { return !secondaryWinding(w) })) > 0
	for _, st := range positions(b, bench.State{}) {
		found := false
		line := b.Circuit(st).Reach(lineList(b), bench.Near)
		for _, e := range b.Circuit(st).Between([]string{sheet.PlugHot}, []string{sheet.PlugNeutral}) {
			if !bench.Loads(e) || e.Conducts == circuit.Bridging {
				continue
			}
			if p := bench.PartOfElement(e); p.Is(part.OutputCore) && (line.Has(e.A) || line.Has(e.B)) {
				f := figure.Is(loadAcross, b.Set(), false)
				f.Witness = []string{e.A, e.B}
				f.Note = fmt.Sprintf("the winding across the line is %s, of an output transformer: one that is made for the line is of kind transformer", e.Name)
				return f
			}
			if e.Law == circuit.Winding {
				if w := windingOf(b, e); w != "primary" && w != "auto" {
					f := figure.Is(loadAcross, b.Set(), false)
					f.Witness = []string{e.A, e.B}
					f.Note = fmt.Sprintf("the winding across the line is %s, which is no primary", e.Name)
					return f
				}
			}
			if isolates && e.Law != circuit.Winding {
				continue // a motor, or what hangs beside the transformer
			}
			found = true
			witness = []string{sheet.PlugHot, e.A, e.B, sheet.PlugNeutral}
		}
		if !found {
			f := figure.Is(loadAcross, b.Set(), false)
			f.Note = "no load lies between hot and neutral while switched on"
			if isolates {
				f.Note = "no primary lies between hot and neutral while switched on"
			}
			return f
		}
	}
	return present(loadAcross, b.Set(), witness, "")
}

// windingOf is the role of the winding that an element is a section of.
func windingOf(b *bench.Bench, e *circuit.Element) string {
	p := bench.PartOfElement(e)
	for _, w := range p.Windings {
		for i := 1; i < len(w.Order); i++ {
			if p.SectionName(w, i) == e.Name {
				return w.Role
			}
		}
	}
	return ""
}
