package mistakes

import (
	"fmt"
	"slices"

	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
)

var chain = []Slip{
	{"bench-chain", "The bench chain is not what it should be.", benchChain},
	{"receptacle-not-tested", "Nobody proved hot, neutral and ground at the receptacle.", receptacle},
	{"two-pole-plug", "A plug without ground is on the cord.", twoPole},
}

// benchChain: without the lamp nothing limits a fault; a lamp in neutral leaves
// the set on hot; where ground stops in a unit, the chassis is not bonded while
// it stands on the bench; what is relied on must have tripped when tested.
func benchChain(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	link := func(i int, where, outcome, rule string, f func(*strict.Node)) {
		out = append(out, Slipped{Where: fmt.Sprintf("upstream %d: %s", i+1, where), Rules: []string{rule}, Outcome: outcome,
			Root: d.edit(func(root *strict.Node) { f(root.Get("supply").Get("upstream").Items[i]) })})
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
				out = append(out, Slipped{Where: fmt.Sprintf("upstream %d taken away", i+1), Rules: []string{"line-chassis-isolated"}, Outcome: Fail, Root: d.edit(func(root *strict.Node) {
					list := root.Get("supply").Get("upstream")
					list.Items = slices.Delete(list.Items, i, i+1)
				})})
			}
		case "gfci", "rcd":
			if !d.grounded() && !d.onLine() {
				link(i, "tested too long ago", Fail, "residual-tested", set("tested", "2020-01-01"))
				link(i, "not known to be tested", Unproven, "residual-tested", gone("tested"))
			}
		}
		if l.Kind != "lamp-box" {
			continue
		}
		if d.grounded() {
			link(i, "ground broken", Fail, "bench-earth-runs-through", set("earth", "broken"))
		}
		if !d.bothWays() {
			link(i, "lamp in neutral", Fail, "limiter-in-hot", set("pole", "neutral"))
			link(i, "pole not known", Unproven, "limiter-in-hot", gone("pole"))
		}
		out = append(out, Slipped{Where: fmt.Sprintf("upstream %d taken away", i+1), Rules: []string{"limiter-present"}, Outcome: Fail,
			Root: d.edit(func(root *strict.Node) {
				list := root.Get("supply").Get("upstream")
				list.Items = slices.Delete(list.Items, i, i+1)
			})})
	}
	if len(s.Upstream) > 0 && !d.bothWays() {
		// An adaptor that fits both ways, at the set's plug: a live chassis is hot
		// half of the time; a single pole or fuse is in the right conductor as seldom.
		for _, earth := range []string{"through", "broken"} {
			sl := Slipped{Where: "an adaptor that fits both ways, ground " + earth, Rules: []string{"polarity-holds-throughout", "both-sides-open", "both-sides-fused", "limiter-in-hot", "bench-earth-runs-through"}, Outcome: Caution,
				Why: "on a bonded transformer set a joint that fits both ways is a caution"}
			if d.onLine() || !d.grounded() || earth == "broken" {
				sl.Outcome, sl.Why = Fail, ""
			}
			if !d.onLine() && !d.grounded() && d.twoPoles() {
				sl.Outcome, sl.Why = Caution, "both conductors pass the switch"
			}
			sl.Root = d.edit(func(root *strict.Node) {
				list := root.Get("supply").Get("upstream")
				list.Items = append(list.Items, strict.MapNode(strict.Pair("kind", strict.TextNode("adaptor")), strict.Pair("fits", strict.TextNode("both-ways")), strict.Pair("earth", strict.TextNode(earth))))
			})
			out = append(out, sl)
		}
	}
	if len(s.Upstream) > 0 {
		out = append(out, Slipped{Where: "not described", Root: d.less("supply", "upstream"), Rules: []string{"limiter-present", "bench-earth-runs-through"}, Outcome: Unproven})
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
