package mistakes_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"sync/atomic"
	"testing"

	"firstvolt/checks/bench"
	"firstvolt/checks/mistakes"
	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
	"firstvolt/rules"
)

// prey is a sheet that dangers are done to.
type prey struct {
	rng  *rand.Rand
	root *strict.Node
	s    *sheet.Sheet // as root stands
}

// one picks one of several; "" of none.
func oneOf(rng *rand.Rand, all []string) string {
	if len(all) == 0 {
		return ""
	}
	return all[rng.IntN(len(all))]
}

// side lists the terminals that a line conductor reaches by contacts alone, all
// switches closed.
func (p prey) side(line string) []string {
	r := bench.New(p.s).Circuit(bench.ClosedState()).Reach([]string{line}, bench.Contacts)
	out := slices.DeleteFunc(slices.Clone(r.Terminals()), func(t string) bool { return t == sheet.Chassis || t == sheet.PlugGround })
	slices.Sort(out)
	return out
}

func (p prey) join(a, b string) string {
	if a == "" || b == "" || a == b {
		return ""
	}
	list := p.root.Get("wiring")
	list.Items = append(list.Items, strict.TextNode(a+" -> "+b))
	return "wire " + a + " -> " + b
}

func (p prey) add(kind string, pairs ...string) string {
	name := fmt.Sprintf("X%d", p.rng.IntN(90000))
	n := strict.MapNode(strict.Pair("kind", strict.TextNode(kind)))
	for i := 0; i+1 < len(pairs); i += 2 {
		n.Set(pairs[i], strict.TextNode(pairs[i+1]))
	}
	p.root.Get("parts").Set(name, n)
	return name
}

// set puts a value under the key of a node and says so.
func set(n *strict.Node, what, key, value string) string {
	if n == nil {
		return ""
	}
	n.Set(key, strict.TextNode(value))
	return what + "." + key + " " + value
}

func (p prey) part(kinds ...string) (string, *strict.Node) {
	var names []string
	for _, q := range p.s.Parts {
		if slices.Contains(kinds, q.Kind.Name) {
			names = append(names, q.Name)
		}
	}
	name := oneOf(p.rng, names)
	return name, p.root.Get("parts").Get(name)
}

// across hangs a new part between two places.
func (p prey) across(a, b, kind string, pairs ...string) string {
	if a == "" || b == "" {
		return ""
	}
	name := p.add(kind, pairs...)
	p.join(a, name+".1")
	p.join(name+".2", b)
	return fmt.Sprintf("%s %v from %s to %s", kind, pairs, a, b)
}

// reading sets what a reading shows that f picks.
func (p prey) reading(f func(rd *sheet.Reading) bool, shows string) string {
	var at []*sheet.Reading
	for _, rd := range p.s.Readings {
		if f(rd) {
			at = append(at, rd)
		}
	}
	if len(at) == 0 {
		return ""
	}
	rd := at[p.rng.IntN(len(at))]
	return set(down(p.root, placeOf(p.s.Root, rd.Node)), rd.Kind+" "+rd.Name, "reads", shows)
}

func between(a, b string) func(rd *sheet.Reading) bool {
	return func(rd *sheet.Reading) bool {
		on := func(ts []string, t string) bool { return slices.Contains(ts, t) }
		return on(rd.A, a) && on(rd.B, b) || on(rd.A, b) && on(rd.B, a)
	}
}

func ofKind(kind string, f func(rd *sheet.Reading) bool) func(rd *sheet.Reading) bool {
	return func(rd *sheet.Reading) bool { return rd.Kind == kind && f(rd) }
}

// dangers are edits each of which alone makes a sound set dangerous, or leaves
// it so unknown that nobody may put volts on it. "" where a sheet has no room.
var dangers = []func(p prey) string{
	func(p prey) string { return p.join(oneOf(p.rng, p.side(sheet.PlugHot)), sheet.Chassis) },
	func(p prey) string { return p.join(oneOf(p.rng, p.side(sheet.PlugHot)), sheet.PlugGround) },
	func(p prey) string {
		body := p.add("body")
		p.join(oneOf(p.rng, p.side(sheet.PlugHot)), body)
		return "touchable metal on hot"
	},
	func(p prey) string {
		return p.across(oneOf(p.rng, p.side(sheet.PlugHot)), oneOf(p.rng, p.side(sheet.PlugNeutral)), "lamp", "voltage", "12 V", "current", "1 A")
	},
	func(p prey) string {
		return p.across(oneOf(p.rng, p.side(sheet.PlugHot)), oneOf(p.rng, p.side(sheet.PlugNeutral)), "resistor", "value", "220 Ω", "power", "1 W", "voltage", "350 V")
	},
	func(p prey) string {
		return p.across(oneOf(p.rng, p.side(sheet.PlugHot)), oneOf(p.rng, p.side(sheet.PlugNeutral)), "capacitor", "value", "47 nF", "class", "none", "voltage", "630 V")
	},
	func(p prey) string {
		if p.s.Construction != "transformer" { // there it lies across the line, where it may
			return ""
		}
		return p.across(oneOf(p.rng, p.side(sheet.PlugHot)), sheet.Chassis, "capacitor", "value", "100 nF", "class", "Y2", "voltage", "250 V")
	},
	func(p prey) string {
		if p.s.Construction != "transformer" {
			return ""
		}
		return p.across(oneOf(p.rng, p.side(sheet.PlugHot)), sheet.Chassis, "resistor", "value", "100 kΩ", "power", "1 W", "voltage", "350 V")
	},
	func(p prey) string { // fuse or switch out of use
		if name, _ := p.part("fuse"); name != "" {
			q := p.s.Part(name)
			t := q.Terminals()
			return p.join(q.Full(t[0]), q.Full(t[1]))
		}
		return ""
	},
	func(p prey) string {
		name, _ := p.part("switch")
		if q := p.s.Part(name); q != nil && q.Poles() == 1 {
			return p.join(q.Full("1"), q.Full("2"))
		}
		return ""
	},
	func(p prey) string {
		name, n := p.part("fuse")
		return set(n, name, "rating", "25 A")
	},
	func(p prey) string {
		name, n := p.part("fuse")
		return set(n, name, "voltage", "32 V")
	},
	func(p prey) string {
		name, n := p.part("switch")
		return set(n, name, "voltage", "24 V")
	},
	func(p prey) string { return set(p.root.Get("cord"), "cord", "size", "30 AWG") },
	func(p prey) string { return set(p.root.Get("cord"), "cord", "insulation", "single") },
	func(p prey) string { return set(p.root.Get("set"), "set", "rebuilt", "2030-01-01") },
	func(p prey) string {
		return p.reading(ofKind("resistance", between(sheet.PlugGround, sheet.Chassis)), oneOf(p.rng, []string{"1.6 Ω", "12 Ω", "0.1 mΩ", "OL"}))
	},
	func(p prey) string {
		return p.reading(ofKind("insulation", between(sheet.PlugHot, sheet.Chassis)), oneOf(p.rng, []string{"20 kΩ", "0.3 MΩ", "0.9 MΩ"}))
	},
	func(p prey) string {
		return p.reading(ofKind("resistance", between(sheet.PlugHot, sheet.Chassis)), oneOf(p.rng, []string{"3 Ω", "47 kΩ", "0.4 MΩ"}))
	},
	func(p prey) string {
		return p.reading(ofKind("resistance", func(rd *sheet.Reading) bool {
			return between(sheet.PlugHot, sheet.PlugNeutral)(rd) && rd.Switches == "open"
		}), oneOf(p.rng, []string{"10 Ω", "500 Ω", "20 kΩ"}))
	},
	func(p prey) string {
		return p.reading(ofKind("resistance", func(rd *sheet.Reading) bool {
			return between(sheet.PlugHot, sheet.PlugNeutral)(rd) && rd.Switches == "closed"
		}), oneOf(p.rng, []string{"0.2 Ω", "OL"}))
	},
	func(p prey) string {
		answers := p.root.Get("inspection")
		return set(answers, "inspection", answers.Entries[p.rng.IntN(len(answers.Entries))].Key, oneOf(p.rng, []string{"bad", "not-seen"}))
	},
	func(p prey) string {
		if p.s.Construction != "transformer" { // what a string of heaters bears, the rules of the high tension ask
			return ""
		}
		return set(p.root.Get("supply"), "supply", "voltage", "480 V")
	},
	func(p prey) string { return set(p.root.Get("supply"), "supply", "receptacle", "untested") },
	func(p prey) string { // no limiter
		list := p.root.Get("supply").Get("upstream")
		if list == nil {
			return ""
		}
		list.Items = slices.DeleteFunc(list.Items, func(n *strict.Node) bool { return n.Word("kind") == "lamp-box" })
		return "no lamp box"
	},
	func(p prey) string { // the ground wire on a lug of the mains side, or nowhere
		to := oneOf(p.rng, append(p.side(sheet.PlugHot), p.side(sheet.PlugNeutral)...))
		if !p.s.Plug.Ground || !p.s.OnWire(sheet.PlugGround) || to == "" {
			return ""
		}
		p.root.Set("wiring", runsOf(p.s, func(w sheet.Wire) (sheet.Wire, bool) {
			if w.A == sheet.PlugGround {
				w.B = to
			} else if w.B == sheet.PlugGround {
				w.A = to
			}
			return w, w.A != w.B
		}))
		return "ground wire on " + to
	},
	func(p prey) string {
		if p.s.Plug.Ground && p.s.OnWire(sheet.PlugGround) && noGroundWire(p.root, p.s) {
			return "no ground wire"
		}
		return ""
	},
	func(p prey) string { // a winding of the mains transformer on the line by mistake
		name, _ := p.part("transformer")
		q := p.s.Part(name)
		if q == nil {
			return ""
		}
		var ends []string
		for _, w := range q.Windings {
			if w.Role != "primary" {
				ends = append(ends, q.Full(w.Ends[p.rng.IntN(2)]))
			}
		}
		return p.join(oneOf(p.rng, ends), oneOf(p.rng, p.side(sheet.PlugHot)))
	},
	func(p prey) string { // a slip of those known, that fails by itself
		slips := mistakes.All()
		k := slips[p.rng.IntN(len(slips))]
		made, _ := k.Apply(p.s.Root, p.s)
		made = slices.DeleteFunc(made, func(m mistakes.Slipped) bool { return m.Outcome != mistakes.Fail })
		if len(made) == 0 {
			return ""
		}
		m := made[p.rng.IntN(len(made))]
		*p.root = *m.Tree()
		return k.Name + ": " + m.Where
	},
}

// clear tells whether nothing fails and nothing is open: what stands between
// such a sheet and a clearance is no finding.
func (j judged) clear() bool {
	return j.s != nil && !slices.ContainsFunc(j.Findings, func(f rules.Finding) bool {
		return f.Outcome != rules.Pass && f.Outcome != rules.Warn
	})
}

// endanger does n dangers to a sheet, one after the other; what was done is "" if
// it became unreadable on the way.
func endanger(t *testing.T, rng *rand.Rand, root *strict.Node, n int) (judged, []string) {
	root = root.Clone()
	var done []string
	var j judged
	for tries := 0; len(done) < n && tries < 30; tries++ {
		s, _ := sheet.OfTree("hunt.yaml", root.Clone())
		if s == nil {
			return judged{}, nil
		}
		c := root.Clone()
		if what := dangers[rng.IntN(len(dangers))](prey{rng, c, s}); what != "" {
			root = c
			done = append(done, what)
		}
	}
	j = judgeTree(t, root)
	return j, done
}

// TestHunt does two or three dangers at once to every sheet, or one and then
// takes one or two things away that are known of it. None may be clear but what
// is, net for net and mark for mark, the sound sheet again.
func TestHunt(t *testing.T) {
	each := 3
	if *exhaustive {
		each = 200
	}
	var tried, refused, lessened, same atomic.Int64
	t.Run("on", func(t *testing.T) {
		eachSound(t, func(t *testing.T, s *sound) {
			rng := rand.New(rand.NewPCG(uint64(pick(s.name)), *seed))
			for k := range each {
				dangerous, losses := 2+k%2, 0
				if k%3 == 2 {
					dangerous, losses = 1, 1+k%2
				}
				j, done := endanger(t, rng, s.s.Root, dangerous)
				if j.s == nil {
					refused.Add(1)
					continue
				}
				tried.Add(1)
				if losses > 0 && !j.clear() {
					ls := j.losses()
					var gone []loss
					for range losses {
						if l := ls[rng.IntN(len(ls))]; !slices.ContainsFunc(gone, func(o loss) bool { return !o.apart(l) }) {
							gone = append(gone, l)
							done = append(done, l.String())
						}
					}
					lessened.Add(1)
					j = judgeTree(t, lose(j.s.Root, gone...))
				}
				switch {
				case !j.clear():
				case mistakes.Alike(s.s, j.s) && len(s.s.Readings) == len(j.s.Readings):
					same.Add(1)
				default:
					t.Errorf("%s is clear after %s", s.name, strings.Join(done, " | "))
				}
			}
		})
	})
	t.Logf("%d dangerous sheets, %d of them with something lost; %d more were not readable; %d were the sound sheet again", tried.Load(), lessened.Load(), refused.Load(), same.Load())
}
