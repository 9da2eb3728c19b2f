package mistakes

import (
	"fmt"
	"slices"

	"firstvolt/checks/handbook"
	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
)

var chain = []kind{
	{"bench-chain", "The bench chain is not what it should be.", benchChain},
	{"receptacle-not-tested", "Nobody proved hot, neutral and ground at the receptacle.", receptacle},
	{"two-pole-plug", "A plug without ground is on the cord.", twoPole},
	{"other-plug", "Another plug is on the cord.", otherPlug},
	{"chain-out-of-order", "Two units of the bench chain stand in the wrong order.", outOfOrder},
	{"unit-missing", "A unit of the bench chain is not there.", unitMissing},
	{"wrong-inlet", "The cord comes in by an inlet that fits both ways, or nobody said how.", wrongInlet},
}

// benchChain: without the lamp nothing limits a fault; a lamp in neutral leaves
// the set on hot; where ground stops in a unit, the chassis is not bonded while
// it stands on the bench; what is relied on must have tripped when tested.
func benchChain(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	link := func(i int, where, outcome, rule string, f func(*strict.Node)) {
		out = append(out, Slipped{Where: fmt.Sprintf("upstream %d: %s", i+1, where), Rules: []string{rule}, Outcome: outcome,
			Tree: d.edit(func(root *strict.Node) { f(root.Get("supply").Get("upstream").Items[i]) })})
	}
	set := func(key, word string) func(*strict.Node) {
		return func(n *strict.Node) { n.Set(key, strict.TextNode(word)) }
	}
	gone := func(key string) func(*strict.Node) { return func(n *strict.Node) { n.Delete(key) } }
	for i, l := range s.Upstream {
		if d.grounded() && l.Word("earth") == "through" {
			link(i, "ground not known to go through", Unproven, "bench-earth-runs-through", gone("earth"))
		}
		switch l.Kind {
		case "isolating-transformer":
			link(i, "output tied to ground", Fail, "isolation-floats", set("secondary", "bonded"))
			link(i, "output not looked at", Unproven, "isolation-floats", gone("secondary"))
			link(i, "ground goes through", Fail, "isolation-not-defeated", set("earth", "through"))
			if d.onLine() {
				out = append(out, Slipped{Where: fmt.Sprintf("upstream %d taken away", i+1), Rules: []string{"line-chassis-isolated"}, Outcome: Fail, Tree: d.edit(func(root *strict.Node) {
					list := root.Get("supply").Get("upstream")
					list.Items = slices.Delete(list.Items, i, i+1)
				})})
			}
		case "gfci", "rcd":
			if !d.grounded() && !d.onLine() {
				link(i, "tested too long ago", Fail, "residual-tested", set("tested", "2020-01-01"))
				link(i, "tested years after the readings", Fail, "residual-tested", set("tested", "2036-11-20"))
				link(i, "not known to be tested", Unproven, "residual-tested", gone("tested"))
			}
		}
		if l.Kind != "lamp-box" {
			continue
		}
		if d.grounded() {
			link(i, "ground broken", Fail, "bench-earth-runs-through", set("earth", "broken"))
		}
		// No set here takes less than 10 W or more than 150 W.
		link(i, "lamp of 500 W", Caution, "limiter-tells", set("lamp", "500 W"))
		link(i, "lamp of 5 W", Caution, "limiter-tells", set("lamp", "5 W"))
		link(i, "lamp not known", Caution, "limiter-tells", gone("lamp"))
		if !d.bothWays() {
			link(i, "lamp in neutral", Fail, "limiter-in-hot", set("pole", "neutral"))
			link(i, "pole not known", Unproven, "limiter-in-hot", gone("pole"))
		}
		out = append(out, Slipped{Where: fmt.Sprintf("upstream %d taken away", i+1), Rules: []string{"limiter-present"}, Outcome: Fail,
			Tree: d.edit(func(root *strict.Node) {
				list := root.Get("supply").Get("upstream")
				list.Items = slices.Delete(list.Items, i, i+1)
			})})
	}
	if len(s.Upstream) > 0 && !d.bothWays() {
		// An adaptor that fits both ways, at the set's plug: a live chassis is hot
		// half of the time; a single pole or fuse is in the right conductor as seldom.
		for _, earth := range []string{"through", "broken"} {
			sl := Slipped{Where: "an adaptor that fits both ways, ground " + earth, Rules: []string{"polarity-holds-throughout", "both-sides-open", "both-sides-fused", "limiter-in-hot", "bench-earth-runs-through"}, Outcome: Caution,
				Why: "where a power transformer isolates the set a joint that fits both ways is a caution"}
			if d.onLine() || d.grounded() && earth == "broken" {
				sl.Outcome, sl.Why = Fail, ""
			}
			sl.Tree = d.edit(func(root *strict.Node) {
				list := root.Get("supply").Get("upstream")
				list.Items = append(list.Items, strict.MapNode(strict.Pair("kind", strict.TextNode("adaptor")), strict.Pair("fits", strict.TextNode("both-ways")), strict.Pair("earth", strict.TextNode(earth))))
			})
			out = append(out, sl)
		}
	}
	if len(s.Upstream) > 0 {
		out = append(out, Slipped{Where: "not described", Tree: d.less("supply", "upstream"), Rules: []string{"limiter-present", "bench-earth-runs-through"}, Outcome: Unproven})
	}
	return out
}

// twoPoles tells whether a switch of the set has two poles or more.
func (d draft) twoPoles() bool {
	for _, p := range d.parts("switch") {
		if p.Poles() > 1 {
			return true
		}
	}
	return false
}

func receptacle(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	rules := []string{"receptacle-proved"}
	return []Slipped{
		d.change("receptacle", "untested", Unproven, rules, "supply", "receptacle"),
		d.change("receptacle", "", Unproven, rules, "supply", "receptacle"),
	}
}

// unearthed: on two conductors the chassis is bonded to nothing. Behind a
// residual device tested today that is a caution, without one it fails.
var unearthed = []string{"unearthed-chassis-single-fault", "plug-keeps-polarity", "accessible-capacitor-class", Verdict}

// twoPole: each plug of the region that has no ground pin, on the same set.
func twoPole(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	for _, p := range s.Region.Plugs {
		if d.grounded() && !p.Ground {
			out = append(out, d.change("plug", p.Name, Caution,
				unearthed, "supply", "plug"))
		}
	}
	return out
}

// otherPlug: each other plug of the region, and one that the region does not
// have. A plug that fits both ways puts a single fuse and a single pole into
// neutral half of the time: a failure where the set is on the line, or where the
// region has a keyed plug for two conductors, else a caution.
func otherPlug(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	for _, p := range s.Region.Plugs {
		if p.Name == s.Plug.Name || d.grounded() && !p.Ground {
			continue
		}
		sl := d.change("plug", p.Name, AsGood, nil, "supply", "plug")
		sl.Why = "it fits as the other did, and the cord brings what it brought"
		if p.Fits == "both-ways" && s.Plug.Fits != "both-ways" {
			sl.Outcome, sl.Why, sl.Rules = Fail, "", []string{"plug-keeps-polarity", "polarity-holds-throughout", "both-sides-open", "both-sides-fused"}
			keyed := slices.ContainsFunc(s.Region.Plugs, func(q handbook.Plug) bool { return !q.Ground && q.Fits != "both-ways" })
			if !d.onLine() && (d.grounded() || !keyed) {
				sl.Outcome, sl.Why = Caution, "where a power transformer isolates the set a plug that fits both ways is a caution"
			}
		}
		after := *s
		after.Plug = p
		if d.bothWays() && !newDraft(root, &after).bothWays() && len(d.mainsFuses()) > 1 { // one of them stands in neutral now
			sl.Outcome, sl.Why, sl.Rules = Fail, "", []string{"neutral-runs-through"}
		}
		out = append(out, sl)
	}
	for _, name := range []string{"bs-1363", "nema-5-15"} {
		if !slices.ContainsFunc(s.Region.Plugs, func(p handbook.Plug) bool { return p.Name == name }) {
			return append(out, d.change("plug", name, Unreadable, nil, "supply", "plug"))
		}
	}
	return out
}

// outOfOrder exchanges each two neighbours. The lamp limits wherever it stands,
// but ahead of a step-down unit it would be one of another voltage; that is left
// out.
func outOfOrder(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	for i := 0; i+1 < len(s.Upstream); i++ {
		if s.Upstream[i].Kind == "autotransformer" && s.Upstream[i+1].Kind == "lamp-box" {
			continue
		}
		sl := Slipped{Where: fmt.Sprintf("upstream %d and %d", i+1, i+2), Outcome: AsGood, Why: "each unit does what it did, in another order"}
		sl.Tree = d.edit(func(root *strict.Node) {
			l := root.Get("supply").Get("upstream").Items
			l[i], l[i+1] = l[i+1], l[i]
		})
		out = append(out, sl)
	}
	return out
}

// unitMissing: without a step-down unit the set gets twice its volts; without a
// residual device on an unearthed set nothing opens on a fault to the chassis,
// and on an earthed one a fault ahead of the fuse waits for the branch device.
func unitMissing(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	for i, l := range s.Upstream {
		sl := Slipped{Where: fmt.Sprintf("upstream %d, %s", i+1, l.Kind)}
		switch l.Kind {
		case "autotransformer":
			sl.Outcome, sl.Rules = Fail, []string{"winding-voltage-fits-supply", "frequency-fits-supply"}
		case "variac":
			sl.Outcome, sl.Why = AsGood, "no rule asks for a variac where there is a lamp"
		case "gfci", "rcd":
			switch {
			case d.grounded() && s.Plug.Fuse != nil:
				continue // no rule asks for one ahead of a fuse in the plug
			case d.grounded():
				sl.Outcome, sl.Rules, sl.Why = Caution, []string{"fault-clears"}, "a fault ahead of the fuse is left to the branch device"
			case d.onLine():
				sl.Outcome, sl.Why = AsGood, "behind an isolating transformer a residual device sees nothing"
			default:
				sl.Outcome, sl.Rules = Fail, []string{"unearthed-chassis-single-fault"}
			}
		default:
			continue // benchChain takes these away
		}
		sl.Tree = d.edit(func(root *strict.Node) {
			list := root.Get("supply").Get("upstream")
			list.Items = slices.Delete(list.Items, i, i+1)
		})
		out = append(out, sl)
	}
	return out
}

// wrongInlet: a two-pole inlet fits both ways and brings no ground, so that what
// was read at the ground pin cannot have been read.
func wrongInlet(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	if d.bothWays() || s.Cord() == nil {
		return nil
	}
	turned := []string{"polarity-holds-throughout", "both-sides-open", "both-sides-fused", "limiter-in-hot"}
	const isolated = "where a power transformer isolates the set a joint that fits both ways is a caution"
	out := []Slipped{d.change("cord.inlet", "iec-60320-c8", Caution, turned, "cord", "inlet"), d.change("cord.inlet", "", Caution, turned, "cord", "inlet")}
	out[0].Why, out[1].Why = isolated, isolated
	switch {
	case d.grounded():
		out[0].Outcome, out[0].Rules, out[0].Why = Fail, []string{"reading-agrees"}, ""
	case d.onLine():
		out[0].Outcome, out[0].Why = Fail, ""
	}
	return out
}
