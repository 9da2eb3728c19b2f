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
		if l.Word("earth") == "through" {
			link(i, "ground not known to go through", Unproven, "bench-earth-runs-through", gone("earth"))
		}
		if l.Kind != "lamp-box" {
			continue
		}
		link(i, "ground broken", Fail, "bench-earth-runs-through", set("earth", "broken"))
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
	if len(s.Upstream) > 0 {
		out = append(out, Slipped{Where: "not described", Root: d.less("supply", "upstream"), Rules: []string{"limiter-present", "bench-earth-runs-through"}, Outcome: Unproven})
	}
	return out
}

func receptacle(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	rules := []string{"receptacle-proved"}
	return []Slipped{
		d.change("receptacle", "untested", Unproven, rules, "supply", "receptacle"),
		d.change("receptacle", "", Unproven, rules, "supply", "receptacle"),
	}
}

// unearthed: on two conductors the chassis is bonded to nothing. What is left
// is judged by a single fault; while that is not, the verdict itself is open.
var unearthed = []string{"unearthed-chassis-single-fault", "plug-keeps-polarity", "accessible-capacitor-class", Verdict}

// twoPole: each plug of the region that has no ground pin, on the same set.
func twoPole(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	for _, p := range s.Region.Plugs {
		if s.Plug.Ground && !p.Ground {
			out = append(out, d.change("plug", p.Name, Unproven,
				unearthed, "supply", "plug"))
		}
	}
	return out
}
