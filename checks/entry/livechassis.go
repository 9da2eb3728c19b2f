package entry

import (
	"slices"
	"strings"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
)

var (
	liveBonded = &figure.Def{Name: "live-chassis-on-ground", Room: "entry", Of: []string{"chassis"}, Present: true,
		Says: "a chassis or rail that is a line conductor is joined to the ground pin"}
	liveOnNeutral = &figure.Def{Name: "live-chassis-on-neutral", Room: "entry", Of: []string{"chassis"}, Present: true,
		Says: "the chassis or rail hangs on neutral, and never on hot, with the switch open and closed"}
	liveOnOne = &figure.Def{Name: "live-chassis-on-one-conductor", Room: "entry", Of: []string{"chassis"}, Present: true,
		Says: "the chassis or rail hangs on one line conductor, and never on the other, with the switch open and closed; that is neutral where every joint fits one way"}
	supplyEarthed = &figure.Def{Name: "supply-not-floating", Room: "entry", Of: []string{"set", "chassis"}, Present: true,
		Says: "no isolating transformer with a floating output stands between receptacle and set, so that one conductor is live to earth"}
	isolatedUpstream = &figure.Def{Name: "isolating-transformer-upstream", Room: "entry", Of: []string{"supply"}, Present: true,
		Says: "an isolating transformer with a floating secondary feeds the bench"}
	touchableOnLive = &figure.Def{Name: "touchable-part-on-live-chassis", Room: "entry", Of: bench.Metalwork, Present: true,
		Says: "a hand can get to it, and it is joined to a line conductor"}
)

func computeLiveBonded(b *bench.Bench) []figure.Figure {
	if _, resists := b.ThirdConductor(); resists { // that conductor comes from hot, and from no ground pin
		return []figure.Figure{figure.Is(liveBonded, chassisOf(b), false)}
	}
	r := b.Circuit(bench.ClosedState()).Reach([]string{sheet.PlugGround}, bench.Conductors)
	if t, ok := reachedAny(r, live(b)); ok {
		return []figure.Figure{present(liveBonded, chassisOf(b), path(r, t), "")}
	}
	return []figure.Figure{figure.Is(liveBonded, chassisOf(b), false)}
}

// computeLiveOnNeutral is computeLiveOnOne where every joint fits one way.
func computeLiveOnNeutral(b *bench.Bench) []figure.Figure {
	if b.Wired().Orientation != "fixed" && len(live(b)) > 0 {
		f := figure.Is(liveOnNeutral, chassisOf(b), false)
		f.Note = "a joint that fits both ways puts the chassis on hot half of the time"
		return []figure.Figure{f}
	}
	return []figure.Figure{staysOn(b, liveOnNeutral, sheet.PlugNeutral)}
}

// computeLiveOnOne takes either conductor where a joint can be turned, for then
// nobody can say which of them is hot.
func computeLiveOnOne(b *bench.Bench) []figure.Figure {
	f := staysOn(b, liveOnOne, sheet.PlugNeutral)
	if b.Wired().Orientation != "fixed" && f.Present != nil && !*f.Present {
		if other := staysOn(b, liveOnOne, sheet.PlugHot); other.Present != nil && *other.Present {
			f = other
		}
	}
	return []figure.Figure{f}
}

// staysOn asks every switch combination: the line conductor must reach the rail
// by wire and contacts alone, and the other must not, also not through a load
// while the switch is open.
func staysOn(b *bench.Bench, d *figure.Def, line string) figure.Figure {
	of := chassisOf(b)
	rail := live(b)
	if len(rail) == 0 {
		return figure.NotKnown(d, of, figure.Need{What: "the common rail of the set", How: "put it on the sheet as a tie that a line conductor reaches"})
	}
	states, ok := b.Combinations(bench.State{}, true)
	if !ok {
		return figure.NotKnown(d, of, tooMany)
	}
	named := map[string]string{sheet.PlugNeutral: "neutral", sheet.PlugHot: "hot"}
	var witness []string
	for _, st := range states {
		c := b.Circuit(st)
		n := c.Reach([]string{line}, bench.Contacts)
		t, on := reachedAny(n, rail)
		if !on && d == liveOnOne && !c.Reach(lineList(b), bench.Conductors).Has(rail[0]) {
			continue // both conductors are cut from it, and it is on neither
		}
		if !on {
			f := figure.Is(d, of, false)
			f.Note = "with some setting of the switches the chassis or rail is cut from " + named[line]
			if r := c.Reach([]string{other(line)}, bench.Conductors); r.Has(rail[0]) {
				f.Witness = path(r, rail[0])
				f.Note += " and hangs on " + named[other(line)] + " through the set"
			}
			return f
		}
		if h := c.Reach([]string{other(line)}, bench.Contacts); slices.ContainsFunc(rail, h.Has) {
			f := figure.Is(d, of, false)
			f.Note = named[other(line)] + " reaches the chassis or rail by wire and contacts alone"
			return f
		}
		witness = path(n, t)
	}
	return present(d, of, witness, "")
}

// computeSupplyEarthed: what isolates is looked for in the whole chain.
func computeSupplyEarthed(b *bench.Bench) (out []figure.Figure) {
	isolated := computeIsolatedUpstream(b)[0]
	for _, of := range []figure.Subject{b.Set(), chassisOf(b)} {
		f := figure.NotKnown(supplyEarthed, of, isolated.Missing...)
		if isolated.Known() {
			f = figure.Is(supplyEarthed, of, !*isolated.Present)
		}
		out = append(out, f)
	}
	return out
}

func computeIsolatedUpstream(b *bench.Bench) []figure.Figure {
	of, _ := b.Subject("supply", "supply")
	if !b.Sheet.UpstreamKnown {
		return []figure.Figure{figure.NotKnown(isolatedUpstream, of, figure.Need{What: "the bench chain", How: "upstream: with every unit between receptacle and set"})}
	}
	f := figure.Is(isolatedUpstream, of, false)
	for _, l := range b.Sheet.Links("isolating-transformer") {
		switch l.Word("secondary") {
		case "floating":
			return []figure.Figure{figure.Is(isolatedUpstream, of, true)}
		case "", "unknown":
			f = figure.NotKnown(isolatedUpstream, of, figure.Need{What: "whether the isolating transformer's output is tied to ground", How: "secondary: floating or bonded"})
		}
	}
	return []figure.Figure{f}
}

// approved lets through what may join a touchable part to a line conductor: a
// class Y capacitor or a protective impedance. Its class and size are other
// rules' matter.
func approvedBarrier(e *circuit.Element) bool {
	p := bench.PartOfElement(e)
	if p == nil {
		return false
	}
	switch {
	case p.Is(part.Nonpolar):
		return strings.HasPrefix(p.Word("class"), "Y")
	case p.Is(part.Filters):
		return true
	}
	return bench.ProtectiveResistor(e)
}

// computeTouchableOnLive follows the line conductors and the live chassis
// through everything, capacitors too, but approved barriers and transformers.
func computeTouchableOnLive(b *bench.Bench) (out []figure.Figure) {
	states, all := b.Combinations(bench.ClosedState(), true)
	from := append(lineList(b), live(b)...)
	witness := map[string][]string{}
	for _, st := range states {
		r := b.Circuit(st).Reach(from, func(e *circuit.Element) bool {
			return !approvedBarrier(e) && (bench.Conductors(e) || e.Conducts == circuit.Bridging)
		})
		for _, p := range bodies(b) {
			if witness[p.Name] == nil && r.Has(p.Name) {
				witness[p.Name] = path(r, p.Name)
			}
		}
		if witness[sheet.Chassis] == nil && r.Has(sheet.Chassis) {
			witness[sheet.Chassis] = path(r, sheet.Chassis)
		}
	}
	of := chassisOf(b)
	switch {
	case witness[sheet.Chassis] == nil || of.Reach == "enclosed":
		out = append(out, tried(all || of.Reach == "enclosed", figure.Is(touchableOnLive, of, false)))
	case of.Reach == "touchable":
		out = append(out, present(touchableOnLive, of, witness[sheet.Chassis], "the chassis is a line conductor, and a hand can get to it"))
	default:
		out = append(out, figure.NotKnown(touchableOnLive, of, figure.Need{What: "whether a hand can get to the chassis in use", How: "set: {chassis: exposed} or enclosed"}))
	}
	for _, p := range b.Parts(part.Metal) { // one that no hand gets to has no witness
		out = append(out, tried(all || p.Word("reach") == "enclosed", present(touchableOnLive, b.Of(p), witness[p.Name], "")))
	}
	return out
}
