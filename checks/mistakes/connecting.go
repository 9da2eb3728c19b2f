package mistakes

import (
	"slices"

	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
)

// connectorTurned: pin 1 of one half meets the last pin of the other.
func connectorTurned(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	for _, p := range d.parts("connector") {
		pins := p.Pins()
		turn := map[string]string{}
		for i, pin := range pins {
			turn[p.Full(pin+"-mate")] = p.Full(pins[len(pins)-1-i] + "-mate")
		}
		out = append(out, d.rewired(p.Name, d.ends(swapped(turn))))
	}
	return out
}

// notKeyed: one day it is mated the wrong way round, and the first pin meets the
// last. Where a pin of the mains meets one that leads to something else, that
// stands on the line; a connector that carries
// line makes of the whole cord one that fits both ways.
func notKeyed(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	for _, p := range d.parts("connector") {
		if p.Word("fits") != "one-way" {
			continue
		}
		pins := p.Pins()
		turned := d.joins(func(q *part.Part) bool { return q != p && slices.Contains([]string{"fuse", "switch"}, q.Kind.Name) })
		for i, pin := range pins {
			turned.join(p.Full(pin), p.Full(pins[len(pins)-1-i]+mate))
		}
		line, bad := false, false
		for _, pin := range pins {
			at := d.sides()[p.Full(pin)]
			line = line || at == hot || at == neutral
		}
		for _, t := range d.terminals() {
			lies := d.sides()[t]
			onLine := turned.of(t) == turned.of(sheet.PlugHot) || turned.of(t) == turned.of(sheet.PlugNeutral)
			bad = bad || onLine && (lies == ground || lies == secondary && !slices.Contains([]string{"tie", "connector"}, d.partOf(t).Kind.Name))
		}
		for i, pin := range pins {
			meets := p.Full(pins[len(pins)-1-i] + mate)
			bad = bad || d.mainsSide(p.Full(pin)) && d.wired(meets) && !d.mainsSide(meets)
		}
		path := []string{"parts", p.Name, "fits"}
		switch rules := []string{"connector-safe-turned", "both-sides-open", "both-sides-fused", "limiter-in-hot", "polarity-holds-throughout"}; {
		case bad:
			out = append(out, d.change(p.Name+".fits", "both-ways", Fail, rules[:1], path...), d.change(p.Name+".fits", "", Unproven, rules[:1], path...))
		case line:
			sl := d.change(p.Name+".fits", "both-ways", Caution, rules, path...)
			sl.Why = "turned round it brings nothing where none belongs, and on a bonded transformer set a joint that fits both ways is a caution"
			out = append(out, sl)
		}
	}
	return out
}
