package entry

import (
	"fmt"
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
)

var turnedEndangers = &figure.Def{Name: "turned-connector-endangers", Room: "entry", Of: part.Named(part.Mates), Present: true,
	Says: "mated the other way round, it joins line or a winding to metal, line to a secondary winding or to the other line conductor, shorts a winding, or takes a bond away"}

// computeTurned mates each connector that is not known to fit one way only the
// other way round, alone and together with others of the kind: pin k meets pin
// n + 1 − k. What is no better without it is other rules' matter.
func computeTurned(b *bench.Bench) (out []figure.Figure) {
	loose := slices.DeleteFunc(b.Parts(part.Mates), func(p *part.Part) bool { return p.Word("fits") == "one-way" })
	for _, p := range b.Parts(part.Mates) {
		of := b.Of(p)
		f := figure.Is(turnedEndangers, of, false)
		if p.Word("fits") == "one-way" {
			out = append(out, f)
			continue
		}
		states, all := b.Combinations(bench.State{}, true)
		others := slices.DeleteFunc(slices.Clone(loose), func(q *part.Part) bool { return q == p })
		n := len(others)
		for n > 0 && (n > 10 || len(states)<<n > bench.MaxCombinations || !b.MayTry(len(loose)*len(states)<<(n+1))) {
			n--
		}
		var doubt *part.Part
		for set := range 1 << n {
			var with []*part.Part
			for k, q := range others[:n] {
				if set>>k&1 == 1 {
					with = append(with, q)
				}
			}
			witness, note := turnedWrong(b, states, p, with)
			unsaid := slices.IndexFunc(append([]*part.Part{p}, with...), func(q *part.Part) bool { return q.Word("fits") == "" })
			switch {
			case witness != nil && unsaid < 0:
				f = present(turnedEndangers, of, witness, note)
			case witness != nil:
				doubt = append([]*part.Part{p}, with...)[unsaid]
			case !all && p.Word("fits") == "":
				doubt = p
			}
			if *f.Present {
				break
			}
		}
		switch {
		case *f.Present:
		case doubt != nil:
			f = figure.NotKnown(turnedEndangers, of, figure.Need{What: doubt.Name + " fits", How: "one-way or both-ways: try whether the halves go together turned round"})
		case n < len(others):
			f = figure.NotKnown(turnedEndangers, of, figure.Need{What: fmt.Sprintf("a sheet with at most %d connectors that may be turned", n+1), How: "one-way or both-ways of each: try whether the halves go together turned round"})
		}
		out = append(out, tried(all, f))
	}
	return out
}

// turnedWrong is what connector p does turned, with others that are turned, and
// not while it alone of them is mated straight, with the way to it.
func turnedWrong(b *bench.Bench, states []bench.State, p *part.Part, with []*part.Part) (witness []string, note string) {
	mate := func(st bench.State, ps ...*part.Part) bench.State {
		st.Turned = map[string]bool{}
		for _, q := range ps {
			st.Turned[q.Name] = true
		}
		return st
	}
	straight := func(st bench.State) bench.State { return mate(st, with...) }
	turned := func(st bench.State) bench.State { return mate(st, append([]*part.Part{p}, with...)...) }
	told := "turned, "
	for _, q := range with {
		told = "with " + q.Name + " " + told
	}
	metal := slices.DeleteFunc(append([]string{sheet.Chassis, sheet.PlugGround}, bodyNames(b)...), func(t string) bool { return t == sheet.PlugGround && !b.Grounded() })
	for _, m := range partMetal(b) {
		metal = append(metal, m.at)
	}
	secondaries := windingEnds(b, secondaryWinding)
	off := append(slices.Clone(metal), secondaries...)
	was, fed := map[string]bool{}, map[string]bool{} // what a line conductor and what a winding reaches as mated on the sheet
	shorted, wound := false, false
	for _, st := range states {
		c := b.Circuit(straight(st))
		r := c.Reach(lineList(b), bench.Warm)
		w := c.Reach(secondaries, bench.Warm)
		for _, t := range off {
			was[t], fed[t] = was[t] || r.Has(t), fed[t] || w.Has(t)
		}
		already, _ := shortedWinding(b, straight(st))
		wound = wound || already != nil
		shorted = shorted || c.Reach([]string{sheet.PlugHot}, bench.Contacts).Has(sheet.PlugNeutral)
	}
	for _, st := range states {
		c := b.Circuit(turned(st))
		if r := c.Reach([]string{sheet.PlugHot}, bench.Contacts); !shorted && r.Has(sheet.PlugNeutral) {
			return path(r, sheet.PlugNeutral), told + "hot is joined straight to neutral"
		}
		if at, what := shortedWinding(b, turned(st)); !wound && at != nil {
			return at, told + what
		}
		r := c.Reach(lineList(b), bench.Warm)
		for _, t := range off {
			if !was[t] && r.Has(t) {
				return path(r, t), told + "a line conductor comes to " + t
			}
		}
		w := c.Reach(secondaries, bench.Warm)
		for _, t := range metal {
			if !fed[t] && w.Has(t) {
				return path(w, t), told + "a winding comes to " + t
			}
		}
	}
	before, after := b.Circuit(straight(bench.State{})).Reach([]string{sheet.PlugGround}, bench.GroundPath), b.Circuit(turned(bench.State{})).Reach([]string{sheet.PlugGround}, bench.GroundPath)
	for _, t := range metal {
		if before.Has(t) && !after.Has(t) {
			return path(before, t), told + t + " loses its bond"
		}
	}
	return nil, ""
}
