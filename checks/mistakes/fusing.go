package mistakes

import (
	"slices"

	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
)

var fusing = []kind{
	{"fuse-behind-switch", "Fuse and switch changed places.", fuseBehindSwitch},
	{"fuse-in-neutral", "The fuse went into the other conductor.", fuseInNeutral},
	{"switch-in-neutral", "The single-pole switch went into the neutral conductor.", switchInNeutral},
	{"fuse-bridged", "A wire lies across a fuse.", fuseBridged},
	{"pole-bridged", "A wire lies across one pole of the switch.", poleBridged},
	{"varistor-ahead-of-fuse", "The varistor hangs on the cord side of the fuse.", varistorAhead},
}

// ends are the two ends of a fuse, cord side first.
func (d draft) fuseEnds(f *part.Part) (cord, set string) {
	t := f.Terminals()
	cord, set = f.Full(t[0]), f.Full(t[1])
	n := d.copper()
	if set2 := n.of(set); set2 == n.of(sheet.PlugHot) || set2 == n.of(sheet.PlugNeutral) {
		return set, cord
	}
	return cord, set
}

// mainsFuses are the fuses that stand in a line conductor.
func (d draft) mainsFuses() []*part.Part {
	sides := d.sides()
	return slices.DeleteFunc(d.parts("fuse"), func(f *part.Part) bool {
		s := sides[f.Full(f.Terminals()[0])]
		return s != hot && s != neutral
	})
}

// switchAllowedAhead tells whether the reference lets a switch stand ahead of
// the fuse with a caution: outside North America a rotary or toggle switch,
// behind a plug fuse of at most 3 A or a branch device of at most 20 A.
func (d draft) switchAllowedAhead(sw *part.Part) bool {
	if d.s.Region.FuseStandard == "ul-248-14" || sw.Word("form") != "rotary" && sw.Word("form") != "toggle" {
		return false
	}
	guard := d.s.Region.BranchDevice
	if d.s.Plug.Fuse != nil {
		if v, ok := d.s.CordValue("plug-fuse"); ok && v.High <= 3 {
			return true
		}
	}
	return guard.High <= 20 && guard.Dim == quantity.Current
}

func fuseBehindSwitch(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	n := d.copper()
	var out []Slipped
	for _, f := range d.mainsFuses() {
		cord, set := d.fuseEnds(f)
		for _, sw := range d.parts("switch") {
			for _, pair := range inside(sw) {
				in, far := sw.Full(pair[0]), sw.Full(pair[1])
				if n.of(far) == n.of(set) {
					in, far = far, in
				}
				if n.of(in) != n.of(set) {
					continue
				}
				// The wire that led from fuse to switch now leads back: the other way round it is the same wire.
				turn := map[string]string{cord: in, in: cord, set: far, far: set}
				sl := Slipped{Where: f.Name + " and " + sw.Name, Outcome: Fail, Rules: []string{"hot-meets-fuse-first", "switch-follows-fuse"},
					Tree: d.tree(d.ends(swapped(turn)))}
				if d.switchAllowedAhead(sw) {
					sl.Outcome, sl.Why = Caution, "outside North America a rotary or toggle switch may stand ahead of the fuse behind a small plug fuse or branch device"
				}
				out = append(out, sl)
			}
		}
	}
	return out
}

// fuseInNeutral takes the fuse out of its conductor and puts it, cord side to
// the cord, into the other. Where the plug fits both ways and only one fuse is
// there, either conductor may hold it; of two fuses one conductor loses its own.
func fuseInNeutral(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	sides := d.sides()
	var out []Slipped
	if d.bothWays() && len(d.mainsFuses()) == 1 {
		return nil
	}
	for _, f := range d.mainsFuses() {
		cord, set := d.fuseEnds(f)
		pin, far := sheet.PlugHot, sheet.PlugNeutral
		if sides[cord] == neutral {
			pin, far = far, pin
		}
		sl := Slipped{Where: f.Name, Outcome: Fail, Rules: []string{"hot-meets-fuse-first", "switch-follows-fuse", "neutral-runs-through", "both-sides-fused"}}
		if d.bothWays() {
			sl.Outcome, sl.Why = Caution, "where the plug fits both ways one fuse in either conductor is a caution"
		}
		sl.Tree = d.edit(func(root *strict.Node) {
			list := root.Get("wiring")
			for i, w := range s.Wires {
				move := func(end string) string {
					switch end {
					case cord, set:
						return pin
					case far:
						return set
					}
					return end
				}
				a, b := move(w.A), move(w.B)
				if a == b {
					a, b = far, cord // the wire from pin to fuse now serves the other pin
				}
				list.Items[i] = wireNode(a, b, w)
			}
		})
		out = append(out, sl)
	}
	return out
}

// switchInNeutral: with one pole in neutral the whole primary stays on hot.
// Where the plug fits both ways it makes no difference which conductor it is.
func switchInNeutral(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	sides := d.sides()
	var out []Slipped
	for _, sw := range d.parts("switch") {
		first := slices.IndexFunc(s.Wires, func(w *sheet.Wire) bool { return w.A == sheet.PlugNeutral || w.B == sheet.PlugNeutral })
		if sw.Poles() != 1 || d.bothWays() || sides[sw.Full("1")] != hot || first < 0 {
			continue
		}
		lug, in, far := d.free("Xlug"), sw.Full("1"), sw.Full("2")
		out = append(out, Slipped{Where: sw.Name, Outcome: Fail, Rules: []string{"switch-opens-hot", "switch-follows-fuse", "neutral-runs-through"},
			Tree: d.edit(func(root *strict.Node) {
				root.Get("parts").Set(lug, strict.MapNode(strict.Pair("kind", strict.TextNode("tie"))))
				list := root.Get("wiring")
				var kept []*strict.Node
				for i, w := range s.Wires {
					a, b := w.A, w.B
					for _, end := range []*string{&a, &b} { // what met at the switch now meets at a lug
						if *end == in || *end == far {
							*end = lug
						}
					}
					switch {
					case i == first:
						kept = append(kept, wireNode(sheet.PlugNeutral, in, w), wireNode(far, other(w, sheet.PlugNeutral), nil))
					case a != b:
						kept = append(kept, wireNode(a, b, w))
					}
				}
				list.Items = kept
			})})
	}
	return out
}

// fuseBridged: a fuse with a wire across it never opens.
func fuseBridged(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	for _, f := range d.mainsFuses() {
		cord, set := d.fuseEnds(f)
		out = append(out, Slipped{Where: f.Name, Tree: d.tree(d.joined(cord, set)), Outcome: Fail,
			Rules: []string{"hot-meets-fuse-first", "switch-follows-fuse", "both-sides-fused", "neutral-runs-through"}})
	}
	return out
}

// poleBridged: a bridged pole in hot leaves the load on hot with the switch
// open. In neutral, under a plug that fits one way, it does what a wire does:
// neutral may run through. Under one that fits both ways, one pole is left.
func poleBridged(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	sides := d.sides()
	var out []Slipped
	for _, sw := range d.parts("switch") {
		for _, pair := range inside(sw) {
			a, b := sw.Full(pair[0]), sw.Full(pair[1])
			if sides[a] != hot && sides[a] != neutral || d.ofMotor(sw) {
				continue
			}
			sl := d.rewired(a+" and "+b, d.joined(a, b))
			if sl.Outcome == Fail {
				sl.Rules = []string{"switch-opens-hot", "switch-follows-fuse", "both-sides-open"}
			}
			out = append(out, sl)
		}
	}
	return out
}

func varistorAhead(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	sides := d.sides()
	var out []Slipped
	for _, v := range d.parts("varistor") {
		for _, t := range []string{v.Full("1"), v.Full("2")} {
			pin := map[side]string{hot: sheet.PlugHot, neutral: sheet.PlugNeutral}[sides[t]]
			if pin == "" || pin == sheet.PlugNeutral && !d.bothWays() {
				continue
			}
			out = append(out, Slipped{Where: t, Outcome: Fail, Rules: []string{"varistor-behind-fuse", "hot-meets-fuse-first"},
				Tree: d.edit(func(root *strict.Node) {
					for i, w := range s.Wires {
						if w.A == t || w.B == t {
							root.Get("wiring").Items[i] = wireNode(pin, t, w)
						}
					}
				})})
		}
	}
	return out
}
