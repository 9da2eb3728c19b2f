package entry

import (
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
)

var turnedEndangers = &figure.Def{Name: "turned-connector-endangers", Room: "entry", Of: []string{"connector"}, Present: true,
	Says: "mated the other way round, it joins line or a winding to metal, line to a secondary winding or to the other line conductor, shorts a winding, or takes a bond away"}

// computeTurned mates each connector that is not known to fit one way only the
// other way round, one at a time: pin k meets pin n + 1 − k. What is no better as
// it is mated on the sheet is other rules' matter.
func computeTurned(b *bench.Bench) (out []figure.Figure) {
	for _, p := range b.Parts("connector") {
		of := b.Of(p)
		f := figure.Is(turnedEndangers, of, false)
		if p.Word("fits") == "one-way" {
			out = append(out, f)
			continue
		}
		states, all := b.Combinations(bench.State{}, true)
		witness, note := turnedWrong(b, states, p)
		switch {
		case witness != nil && p.Word("fits") == "both-ways":
			f = present(turnedEndangers, of, witness, note)
		case witness != nil || !all && p.Word("fits") == "":
			f = figure.NotKnown(turnedEndangers, of, figure.Need{What: p.Name + " fits", How: "one-way or both-ways: try whether the halves go together turned round"})
		}
		out = append(out, tried(all, f))
	}
	return out
}

// turnedWrong is what connector p does turned, and not as mated straight, with
// the way to it.
func turnedWrong(b *bench.Bench, states []bench.State, p *part.Part) (witness []string, note string) {
	turned := func(st bench.State) bench.State {
		st.Turned = map[string]bool{p.Name: true}
		return st
	}
	metal := slices.DeleteFunc(append([]string{sheet.Chassis, sheet.PlugGround}, bodyNames(b)...), func(t string) bool { return t == sheet.PlugGround && !b.Grounded() })
	for _, q := range b.Parts("outlet", "filter", "motor") {
		metal = append(metal, q.Full(groundContacts[q.Kind.Name]))
	}
	secondaries := windingEnds(b, secondaryWinding)
	off := append(slices.Clone(metal), secondaries...)
	was, fed := map[string]bool{}, map[string]bool{} // what a line conductor and what a winding reaches as mated on the sheet
	shorted, wound := false, false
	for _, st := range states {
		c := b.Circuit(st)
		r := c.Reach(lineList(b), bench.Warm)
		w := c.Reach(secondaries, bench.Warm)
		for _, t := range off {
			was[t], fed[t] = was[t] || r.Has(t), fed[t] || w.Has(t)
		}
		already, _ := shortedWinding(b, st)
		wound = wound || already != nil
		shorted = shorted || c.Reach([]string{sheet.PlugHot}, bench.Contacts).Has(sheet.PlugNeutral)
	}
	for _, st := range states {
		c := b.Circuit(turned(st))
		if r := c.Reach([]string{sheet.PlugHot}, bench.Contacts); !shorted && r.Has(sheet.PlugNeutral) {
			return path(r, sheet.PlugNeutral), "turned, hot is joined straight to neutral"
		}
		if at, what := shortedWinding(b, turned(st)); !wound && at != nil {
			return at, "turned, " + what
		}
		r := c.Reach(lineList(b), bench.Warm)
		for _, t := range off {
			if !was[t] && r.Has(t) {
				return path(r, t), "turned, a line conductor comes to " + t
			}
		}
		w := c.Reach(secondaries, bench.Warm)
		for _, t := range metal {
			if !fed[t] && w.Has(t) {
				return path(w, t), "turned, a winding comes to " + t
			}
		}
	}
	straight, after := groundReach(b), b.Circuit(turned(bench.State{})).Reach([]string{sheet.PlugGround}, bench.GroundPath)
	for _, t := range metal {
		if straight.Has(t) && !after.Has(t) {
			return path(straight, t), "turned, " + t + " loses its bond"
		}
	}
	return nil, ""
}
