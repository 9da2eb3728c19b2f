package part

import (
	"fmt"
	"slices"

	"firstvolt/checks/circuit"
	"firstvolt/checks/strict"
)

var pairShape = ListOf(Name(), 2, 2)

var selector = &Kind{
	Name: "selector", Doc: "a voltage selector or change-over: in each position it joins the pairs named",
	Traits: Contact | Selects,
	Keys: []strict.Key{
		key("positions", MapOf(ListOf(pairShape, 0, 0)), "for each position the pairs it joins: {117: [[A, B]]}"),
		key("set", Name(), "the position it stands in"),
	},
	Terminals: func(p *Part) []string {
		out := []string{}
		for _, pos := range p.Positions() {
			for _, pair := range p.Joined(pos) {
				for _, t := range pair {
					if !slices.Contains(out, t) {
						out = append(out, t)
					}
				}
			}
		}
		return out
	},
	Through: func(*Part) (string, string, bool) { return "", "", false },
	Elements: func(p *Part, s State) []circuit.Element {
		var es []circuit.Element
		for _, pair := range p.Joined(s.Position) {
			es = append(es, circuit.Element{Name: fmt.Sprintf("%s %s-%s", p.Name, pair[0], pair[1]),
				A: p.Full(pair[0]), B: p.Full(pair[1]), Conducts: circuit.Joint, R: contactOhms})
		}
		return es
	},
	Check: func(p *Part) []strict.Problem {
		var out []strict.Problem
		for _, pos := range p.Positions() {
			for _, pair := range p.Joined(pos) {
				if strict.Canon(pair[0]) == strict.Canon(pair[1]) {
					out = append(out, strict.Problem{Pos: p.Node.Get("positions").Get(pos).At(),
						Wrong: fmt.Sprintf("position %s of %s joins %s to itself", pos, p.Name, pair[0]), Right: "name two terminals"})
				}
			}
		}
		if set := p.Node.Get("set"); set != nil && !slices.Contains(p.Positions(), set.Text) {
			out = append(out, strict.Problem{Pos: set.At(), Wrong: fmt.Sprintf("%s has no position %s", p.Name, set.Text),
				Right: strict.Suggest(set.Text, p.Positions(), "name one of its positions")})
		}
		return out
	},
	Failures: contactsStick,
}

// Positions lists a selector's positions in the order of the sheet.
func (p *Part) Positions() []string {
	n := p.Node.Get("positions")
	if n == nil {
		return nil
	}
	var out []string
	for _, e := range n.Entries {
		out = append(out, e.Key)
	}
	return out
}

// Joined lists the pairs that a selector joins in a position.
func (p *Part) Joined(position string) [][2]string {
	return pairs(p.Node.Get("positions").Get(position))
}

func pairs(n *strict.Node) [][2]string {
	if n == nil {
		return nil
	}
	var out [][2]string
	for _, item := range n.Items {
		if len(item.Items) == 2 {
			out = append(out, [2]string{item.Items[0].Text, item.Items[1].Text})
		}
	}
	return out
}
