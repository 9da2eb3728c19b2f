package mistakes_test

import (
	"slices"
	"strings"
	"sync"
	"testing"

	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
)

// base is a sheet that something is lost of, or done to, with its judgement.
type base struct {
	name string
	was  judged
}

// asItIs is the name of the base that is the sound sheet itself.
const asItIs = "as it is"

// bases are the sound sheet and what becomes of it without its bond, behind a
// ground that is broken on the bench, with hot and neutral exchanged: those
// that its construction has room for.
func (s *sound) bases(t *testing.T) []base {
	s.based.Do(func() {
		s.derived = []base{{asItIs, s.was}}
		for _, d := range []struct {
			name string
			edit func(root *strict.Node, s *sheet.Sheet) bool
		}{
			{"unbonded: no ground wire", noGroundWire},
			{"unbonded: two conductors", twoConductors},
			{"ground broken on the bench", groundBroken},
			{"hot and neutral exchanged", exchanged},
		} {
			root := s.s.Root.Clone()
			if !d.edit(root, s.s) {
				continue
			}
			j := judgeTree(t, root)
			j.bench = nil // a base is kept
			if j.s == nil {
				t.Errorf("%s: not readable: %v", d.name, j.problems)
				continue
			}
			s.derived = append(s.derived, base{d.name, j})
		}
	})
	return s.derived
}

// runsOf lays the wiring out as single wires, as f alters their ends; a wire
// of which f makes nothing is left out.
func runsOf(s *sheet.Sheet, f func(w sheet.Wire) (sheet.Wire, bool)) *strict.Node {
	list := strict.ListNode()
	for _, w := range s.Wires {
		v, there := f(*w)
		if !there {
			continue
		}
		n := strict.MapNode(strict.Pair("run", strict.TextNode(v.A+" -> "+v.B)))
		for _, e := range [][2]string{{"color", v.Color}, {"size", v.Size}, {"joint", v.Joint}, {"slack", v.Slack}, {"changed", v.Changed}} {
			if e[1] != "" {
				n.Set(e[0], strict.TextNode(e[1]))
			}
		}
		list.Items = append(list.Items, n)
	}
	return list
}

func atGround(w sheet.Wire) bool { return w.A == sheet.PlugGround || w.B == sheet.PlugGround }

// noGroundWire takes away what was fitted to the ground pin.
func noGroundWire(root *strict.Node, s *sheet.Sheet) bool {
	root.Set("wiring", runsOf(s, func(w sheet.Wire) (sheet.Wire, bool) { return w, !atGround(w) }))
	return slices.ContainsFunc(s.Wires, func(w *sheet.Wire) bool { return atGround(*w) })
}

// twoConductors makes a set on two conductors of one on three, with a plug of
// the region that has no ground.
func twoConductors(root *strict.Node, s *sheet.Sheet) bool {
	if !noGroundWire(root, s) || root.Get("cord").Get("third") != nil {
		return false
	}
	for _, p := range s.Region.Plugs {
		if p.Ground {
			continue
		}
		root.Get("supply").Set("plug", strict.TextNode(p.Name))
		root.Get("cord").Set("conductors", strict.TextNode("2"))
		root.Get("cord").Delete("plug-fuse")
		if root.Get("cord").Word("inlet") != "none" {
			root.Get("cord").Set("inlet", strict.TextNode("none"))
		}
		list := root.Get("readings").Get("resistance")
		if list != nil { // nothing is read at a pin that is not there
			list.Items = slices.DeleteFunc(list.Items, func(n *strict.Node) bool {
				return n.Get("between") != nil && slices.ContainsFunc(n.Get("between").Items, func(g *strict.Node) bool {
					return strings.Contains(g.Text, sheet.PlugGround) || strings.Contains(g.Text, "plug.earth")
				})
			})
		}
		return true
	}
	return false
}

// groundBroken has the last unit of the bench chain that may break ground do so.
func groundBroken(root *strict.Node, s *sheet.Sheet) bool {
	list := root.Get("supply").Get("upstream")
	if list == nil {
		return false
	}
	for i := len(list.Items) - 1; i >= 0; i-- {
		switch list.Items[i].Word("kind") {
		case "lamp-box", "variac", "adaptor", "autotransformer":
			list.Items[i].Set("earth", strict.TextNode("broken"))
			return true
		}
	}
	return false
}

// exchanged lands hot where neutral was and neutral where hot was.
func exchanged(root *strict.Node, s *sheet.Sheet) bool {
	turn := func(end string) string {
		switch end {
		case sheet.PlugHot:
			return sheet.PlugNeutral
		case sheet.PlugNeutral:
			return sheet.PlugHot
		}
		return end
	}
	root.Set("wiring", runsOf(s, func(w sheet.Wire) (sheet.Wire, bool) {
		w.A, w.B = turn(w.A), turn(w.B)
		return w, true
	}))
	return s.HasWiring()
}

// derivation is kept with each sound sheet.
type derivation struct {
	based   sync.Once
	derived []base
}
