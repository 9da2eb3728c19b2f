package mistakes

import (
	"slices"
	"strings"

	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
)

// Alike tells whether two sheets describe one and the same set as far as a
// meter, a fault or a hand could tell: the same parts and values, and the same
// nets but for exchanges that change nothing. Which those are, the page of the
// format says: ends of a part without polarity, poles of a switch and contacts
// of a pole, ends of a winding that no other depends on, and the two line
// conductors where the plug fits both ways.
func Alike(a, b *sheet.Sheet) bool { return alike(a, b, false) }

// AlikeAsSet is Alike with every selector left where it is set: contacts that
// it joins there are one, the others are not there.
func AlikeAsSet(a, b *sheet.Sheet) bool { return alike(a, b, true) }

func alike(a, b *sheet.Sheet, asSet bool) bool {
	x, y := a.Root.Clone(), b.Root.Clone()
	x.Delete("wiring")
	y.Delete("wiring")
	v := view{asSet: asSet}
	return x.Same(y) && v.mark(draft{s: a, kept: newKept()}) == v.mark(draft{s: b, kept: newKept()})
}

// view is what of a set's wiring is looked at, and how.
type view struct {
	asSet bool // selectors as they are set: what they join is one
	// through are contacts taken for wire; what is not looked at at all is
	// whatever drop names.
	through [][2]string
	drop    func(p *part.Part, terminal string) bool
	// turned has terminals lie where others do: two ends of a load, say.
	turned map[string]string
	lone   bool // a net of one terminal is not looked at
}

// mark is one for all sheets that are wired alike: every net is marked with the terminals on it, then again and again with the marks of what lies
// beyond the parts that it meets, until no more nets are told apart.
func (v view) mark(d draft) mark {
	copper := d.joins(func(p *part.Part) bool { return v.asSet && p.Kind.Name == "selector" })
	gone := map[string]bool{}
	for _, pair := range v.through {
		copper.join(pair[0], pair[1])
		gone[pair[0]], gone[pair[1]] = true, true
	}
	wired := map[string]bool{}
	terminals := slices.Clone(d.terminals())
	for _, t := range terminals {
		wired[t] = true
	}
	for t := range v.turned {
		if !wired[t] {
			terminals = append(terminals, t)
		}
	}
	lies := func(t string) string { // where a terminal lies
		if u, ok := v.turned[t]; ok {
			t = u
		}
		return copper.of(t)
	}
	on := map[string][]string{}
	for _, t := range terminals {
		if u, ok := v.turned[t]; ok && !wired[u] || gone[t] {
			continue
		}
		p := d.partOf(t)
		// A tie is a place where wires meet, and nothing beside.
		if p != nil && p.Kind.Name == "tie" || v.asSet && p != nil && p.Kind.Name == "selector" || v.drop != nil && v.drop(p, t) {
			continue
		}
		on[lies(t)] = append(on[lies(t)], t)
	}
	if v.lone {
		for net, ts := range on {
			if len(ts) == 1 {
				delete(on, net)
			}
		}
	}
	if v.asSet { // taps that nothing else is on tell the ends of a winding apart no longer
		for net, ts := range on {
			if p := d.partOf(ts[0]); len(ts) == 1 && p != nil && len(p.Windings) > 0 && d.inner(p, ts[0]) {
				delete(on, net)
			}
		}
	}
	// Each net is marked by number; beyond each terminal lie classes on other nets.
	type far struct {
		class uint64
		net   int
	}
	number := map[string]int{}
	for net := range on {
		number[net] = len(number)
	}
	type end struct {
		class uint64
		past  []far
	}
	ends := make([][]end, len(on))
	for net, ts := range on {
		for _, t := range ts {
			e := end{class: d.class(t, v.asSet)}
			for _, u := range d.past(t) {
				if !gone[u] && (v.drop == nil || !v.drop(d.partOf(u), u)) {
					f := far{d.class(u, v.asSet), -1}
					if k, ok := number[lies(u)]; ok {
						f.net = k
					}
					e.past = append(e.past, f)
				}
			}
			ends[number[net]] = append(ends[number[net]], e)
		}
	}
	marks, apart := make([]uint64, len(on)), 0
	for {
		next, seen := make([]uint64, len(on)), map[uint64]bool{}
		for net, es := range ends {
			var all uint64 // sums, so that no order counts
			for _, e := range es {
				var past uint64
				for _, f := range e.past {
					var there uint64
					if f.net >= 0 {
						there = marks[f.net]
					}
					past += mixed(f.class, there)
				}
				all += mixed(e.class, past)
			}
			next[net] = mixed(all, 1)
			seen[next[net]] = true
		}
		marks = next
		if len(seen) <= apart {
			break
		}
		apart = len(seen)
	}
	out := mark{nets: len(on)}
	for _, m := range marks {
		out.sum += mixed(m, 2)
	}
	return out
}

// mark stands for the wiring of a set: two that are wired alike have the same.
type mark struct {
	nets int
	sum  uint64
}

// mixed makes one number of two, of which every bit counts.
func mixed(a, b uint64) uint64 {
	x := a*0x9e3779b97f4a7c15 + b // the constants of splitmix64
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}

// class is the name that a terminal shares with those it may be exchanged for.
func (d draft) class(t string, asSet bool) uint64 {
	if asSet { // taps may be dormant here and in use there
		return hashed(d.className(t, asSet))
	}
	h, ok := d.kept.class[t]
	if !ok {
		h = hashed(d.className(t, asSet))
		d.kept.class[t] = h
	}
	return h
}

func (d draft) className(t string, asSet bool) string {
	p := d.partOf(t)
	if p == nil {
		if d.bothWays() && (t == sheet.PlugHot || t == sheet.PlugNeutral) {
			return "plug.line"
		}
		return t
	}
	own := own(p, t)
	switch {
	case p.Kind.Name == "switch":
		return p.Name + ".contact"
	case p.Kind.Name == "connector" && p.Word("fits") == "one-way" && p.Node.Get("jumpers") == nil:
		if strings.HasSuffix(own, "-mate") {
			return p.Name + ".mate"
		}
		return p.Name + ".pin"
	case p.Kind.Name == "fuse" && p.Word("holder") != "panel", (p.Kind.Swappable && p.Kind.Name != "fuse" || p.Kind.Name == "motor") && (own == "1" || own == "2"):
		return p.Name + ".lead"
	}
	for _, w := range p.Windings {
		plain := len(w.Order) == 2 || len(w.Order) == 3 && w.Tap != ""
		if slices.Contains(w.Ends[:], own) && onlyOne(p, w) && (plain || asSet && d.tapsDormant(p, w)) {
			return p.Name + "." + w.Name + ".lead"
		}
	}
	return t
}

// inner tells whether a terminal is a tap of a winding.
func (d draft) inner(p *part.Part, t string) bool {
	return slices.ContainsFunc(p.Windings, func(w *part.Winding) bool {
		return slices.Contains(w.Order, own(p, t)) && !slices.Contains(w.Ends[:], own(p, t))
	})
}

// tapsDormant tells whether no tap of the winding is in use.
func (d draft) tapsDormant(p *part.Part, w *part.Winding) bool {
	return !slices.ContainsFunc(w.Order[1:len(w.Order)-1], func(t string) bool { return !d.dormant(p.Full(t)) })
}

// dormant tells a terminal that nothing leads to but contacts of a selector,
// none of them joined where it is set.
func (d draft) dormant(t string) bool {
	if p := d.partOf(t); p != nil && p.Kind.Name == "selector" {
		return !d.inUse(p, t)
	}
	for _, w := range d.s.Wires {
		if w.A != t && w.B != t {
			continue
		}
		if p := d.partOf(other(w, t)); d.loose(p) {
			continue
		} else if p == nil || p.Kind.Name != "selector" || d.inUse(p, other(w, t)) {
			return false
		}
	}
	return true
}

// inUse tells whether a selector joins the contact where it is set.
func (d draft) inUse(p *part.Part, t string) bool {
	return slices.ContainsFunc(p.Joined(p.Word("set")), func(pair [2]string) bool {
		return p.Full(pair[0]) == t || p.Full(pair[1]) == t
	})
}

// onlyOne tells whether no other winding of the part has the role of w, so that
// its phase means nothing.
func onlyOne(p *part.Part, w *part.Winding) bool {
	return !slices.ContainsFunc(p.Windings, func(v *part.Winding) bool { return v != w && v.Role == w.Role })
}

// past lists the other terminals of the part that terminal t belongs to, of a
// switch or connector those of the same pole.
func (d draft) past(t string) []string {
	out, ok := d.kept.past[t]
	if !ok {
		out = d.findPast(t)
		d.kept.past[t] = out
	}
	return out
}

func (d draft) findPast(t string) []string {
	p := d.partOf(t)
	if p == nil || p.Bare() {
		return nil
	}
	var out []string
	own := own(p, t)
	paired := p.Kind.Name == "switch" || p.Kind.Name == "connector"
	for _, u := range p.Terminals() {
		if u != own && (!paired || pole(p, u) == pole(p, own)) {
			out = append(out, p.Full(u))
		}
	}
	return out
}

func pole(p *part.Part, terminal string) int { return slices.Index(p.Terminals(), terminal) / 2 }

// hashed is a text as a number.
func hashed(text string) uint64 {
	h := uint64(14695981039346656037) // FNV-1a, 64 bit
	for _, c := range []byte(text) {
		h = (h ^ uint64(c)) * 1099511628211
	}
	return h
}
