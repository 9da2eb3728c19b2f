package mistakes

import (
	"fmt"

	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
)

var looks = []kind{
	{"looked-bad", "An inspection found something wrong.", func(r *strict.Node, s *sheet.Sheet) []Slipped { return answers(r, s, "bad") }},
	{"not-looked", "An inspection was not made.", func(r *strict.Node, s *sheet.Sheet) []Slipped { return answers(r, s, "not-seen") }},
	{"wrong-color", "A wire has the color of another duty.", wrongColor},
	{"bad-ground-joint", "The ground wire shares its screw, is held by solder or a spring, or is no longer than the others.", groundJoint},
}

// inspectionRules are the rules that do not bear the name of their answer.
var inspectionRules = map[string]string{"cord-jacket": "cord-sound", "strain-relief": "cord-anchored", "bushing": "cord-bushed"}

func answers(root *strict.Node, s *sheet.Sheet, word string) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	for _, key := range sheet.Inspections {
		if s.Inspection[key].Word != "good" {
			continue
		}
		rule := key
		if r, ok := inspectionRules[key]; ok {
			rule = r
		}
		outcome := Fail
		if word == "not-seen" {
			outcome = Unproven
		}
		out = append(out, Slipped{Where: key, Tree: d.with(word, "inspection", key), Rules: []string{rule}, Outcome: outcome})
	}
	return out
}

// wrongColor gives each colored wire the color that a wire of another duty on
// the sheet has, and one that no scheme of the region knows for its duty.
func wrongColor(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	sides := d.sides()
	worn := map[side]string{}
	for _, w := range s.Wires {
		if w.Color != "" && worn[sides[w.A]] == "" {
			worn[sides[w.A]] = w.Color
		}
	}
	var out []Slipped
	for i, w := range s.Wires {
		mine := sides[w.A]
		if w.Color == "" || mine != hot && mine != neutral && mine != ground {
			continue
		}
		for _, duty := range []side{hot, neutral, ground} {
			c := worn[duty]
			if duty == mine || c == "" || c == w.Color || d.bothWays() && duty != ground && mine != ground {
				continue // under a plug that fits both ways the two line conductors have one duty
			}
			out = append(out, Slipped{Where: fmt.Sprintf("%s: %s", d.wireName(i), c), Rules: []string{"conductor-colors"}, Outcome: Fail,
				Tree: d.edit(func(root *strict.Node) { root.Get("wiring").Items[i].Set("color", strict.TextNode(c)) })})
		}
		out = append(out, Slipped{Where: d.wireName(i) + ": pink", Rules: []string{"conductor-colors"}, Outcome: Caution,
			Why:  "a color foreign to the region is a caution",
			Tree: d.edit(func(root *strict.Node) { root.Get("wiring").Items[i].Set("color", strict.TextNode("pink")) })})
	}
	return out
}

func groundJoint(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	for i, w := range s.Wires {
		if w.A != sheet.PlugGround || w.B != sheet.Chassis {
			continue
		}
		for _, row := range []struct{ key, word, outcome, rule string }{
			{"joint", "shared-screw", Fail, "ground-own-fastening"},
			{"joint", "spring", Fail, "ground-own-fastening"},
			{"joint", "soldered-to-chassis", Fail, "ground-own-fastening"},
			{"joint", "", Unproven, "ground-own-fastening"},
			{"slack", "shorter", Caution, "ground-parts-last"},
			{"slack", "equal", Caution, "ground-parts-last"},
			{"slack", "", Caution, "ground-parts-last"},
		} {
			out = append(out, Slipped{Where: row.key + " " + row.word, Rules: []string{row.rule}, Outcome: row.outcome,
				Tree: d.edit(func(root *strict.Node) {
					n := root.Get("wiring").Items[i]
					if n.Delete(row.key); row.word != "" {
						n.Set(row.key, strict.TextNode(row.word))
					}
				})})
		}
	}
	return out
}
