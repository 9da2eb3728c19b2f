package mistakes

import (
	"slices"

	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
)

// connectorUnkeyed: turned round, the first pin meets the last. Where a pin of
// the mains meets one that leads to something else, that stands on the line.
func connectorUnkeyed(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	wired := d.terminals()
	var out []Slipped
	for _, p := range d.parts("connector") {
		pins := p.Pins()
		wrong := slices.ContainsFunc(pins, func(pin string) bool {
			meets := p.Full(pins[len(pins)-1-slices.Index(pins, pin)] + "-mate")
			return d.mainsSide(p.Full(pin)) && slices.Contains(wired, meets) && !d.mainsSide(meets)
		})
		if !wrong {
			continue
		}
		out = append(out, Slipped{Where: p.Name, Outcome: Fail, Rules: []string{"connector-safe-turned"},
			Tree: d.edit(func(root *strict.Node) {
				root.Get("parts").Get(p.Name).Set("fits", strict.TextNode("both-ways"))
			})})
	}
	return out
}
