package mistakes

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
)

// nets joins terminals into nets. It is a small one of its own, so that what a
// slip does is found without the code that the slip is to try.
type nets map[string]string

func (n nets) of(t string) string {
	for {
		up, ok := n[t]
		if !ok || up == t {
			return t
		}
		t = up
	}
}

func (n nets) join(a, b string) {
	if x, y := n.of(a), n.of(b); x != y {
		n[max(x, y)] = min(x, y)
	}
}

// copper is the nets that wires alone make.
func (d draft) copper() nets { return d.joins(func(*part.Part) bool { return false }) }

// contacts is the nets with every fuse in, every switch closed, selectors as
// set, connectors mated, and what else stands in a line conductor passed through.
func (d draft) contacts() nets {
	return d.joins(func(p *part.Part) bool {
		return slices.Contains([]string{"fuse", "switch", "selector", "connector", "filter", "thermistor", "choke"}, p.Kind.Name)
	})
}

// joins makes nets of the wires and of the parts that through lets pass.
func (d draft) joins(through func(*part.Part) bool) nets {
	n := nets{}
	for _, w := range d.s.Wires {
		n.join(w.A, w.B)
	}
	for _, p := range d.s.Parts {
		if through(p) {
			for _, pair := range inside(p) {
				n.join(p.Full(pair[0]), p.Full(pair[1]))
			}
		}
	}
	return n
}

// inside lists the pairs of terminals that a part joins when it is switched on.
func inside(p *part.Part) [][2]string {
	switch p.Kind.Name {
	case "switch":
		var out [][2]string
		t := p.Terminals()
		for i := 0; i+1 < len(t); i += 2 {
			out = append(out, [2]string{t[i], t[i+1]})
		}
		return out
	case "selector":
		return p.Joined(p.Word("set"))
	case "connector":
		var out [][2]string
		for _, pin := range p.Pins() {
			out = append(out, [2]string{pin, pin + "-mate"})
		}
		return out
	case "filter":
		return [][2]string{{"line-in", "line-out"}, {"neutral-in", "neutral-out"}}
	case "outlet", "body", "tie", "transformer", "output-transformer", "autotransformer":
		return nil
	}
	if t := p.Terminals(); len(t) == 2 {
		return [][2]string{{t[0], t[1]}}
	}
	return nil
}

// where a terminal belongs: to a line conductor up to the load, to ground, to
// the mains side behind the load (a tap), or to the secondary side.
type side int

const (
	secondary side = iota
	hot
	neutral
	ground
	load
)

// sides sorts every terminal that a wire touches.
func (d draft) sides() map[string]side {
	line, copper := d.contacts(), d.copper()
	earthed := map[string]bool{copper.of(sheet.Chassis): d.s.Construction != "line-connected"}
	if !d.resisting(sheet.PlugGround) {
		earthed[copper.of(sheet.PlugGround)] = true
	}
	for _, b := range d.parts("body") {
		earthed[copper.of(b.Name)] = true
	}
	// What hangs on the line only through a capacitor to the chassis is not of
	// the mains side, so the chassis itself joins nothing here.
	mains := nets{}
	for _, w := range d.s.Wires {
		if !earthed[copper.of(w.A)] {
			mains.join(w.A, w.B)
		}
	}
	for _, p := range d.s.Parts {
		pairs := inside(p)
		for _, w := range p.Windings {
			if w.Role == "primary" {
				for _, t := range w.Order[1:] {
					pairs = append(pairs, [2]string{w.Order[0], t})
				}
			}
		}
		for _, pair := range pairs {
			a, b := p.Full(pair[0]), p.Full(pair[1])
			if !earthed[copper.of(a)] && !earthed[copper.of(b)] {
				mains.join(a, b)
			}
		}
	}
	out := map[string]side{}
	for _, t := range d.terminals() {
		switch {
		case earthed[copper.of(t)]:
			out[t] = ground
		case line.of(t) == line.of(sheet.PlugHot):
			out[t] = hot
		case line.of(t) == line.of(sheet.PlugNeutral):
			out[t] = neutral
		case mains.of(t) == mains.of(sheet.PlugHot), mains.of(t) == mains.of(sheet.PlugNeutral):
			out[t] = load
		}
	}
	return out
}

// terminals lists every terminal that a wire touches, in the order of the wires.
func (d draft) terminals() []string {
	var out []string
	for _, w := range d.s.Wires {
		for _, t := range []string{w.A, w.B} {
			if !slices.Contains(out, t) {
				out = append(out, t)
			}
		}
	}
	return out
}

// reached tells whether anything that conducts, switched on, joins a to b
// without wire number without.
func (d draft) reached(a, b string, without int) bool {
	n := nets{}
	for i, w := range d.s.Wires {
		if i != without {
			n.join(w.A, w.B)
		}
	}
	for _, p := range d.s.Parts {
		if slices.Contains([]string{"capacitor", "neon", "varistor", "arrester"}, p.Kind.Name) {
			continue
		}
		for _, pair := range inside(p) {
			n.join(p.Full(pair[0]), p.Full(pair[1]))
		}
		for _, w := range p.Windings {
			for _, t := range w.Order {
				n.join(p.Full(w.Order[0]), p.Full(t))
			}
		}
	}
	return n.of(a) == n.of(b)
}

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
	return x.Same(y) && wiringMark(a, asSet) == wiringMark(b, asSet)
}

// wiringMark is one text for all sheets that are wired alike: every net is
// marked with the terminals on it, then again and again with the marks of what
// lies beyond the parts that it meets.
func wiringMark(s *sheet.Sheet, asSet bool) string {
	d := draft{s: s}
	copper := d.joins(func(p *part.Part) bool { return asSet && p.Kind.Name == "selector" })
	on := map[string][]string{}
	for _, t := range d.terminals() {
		if p := d.partOf(t); !asSet || p == nil || p.Kind.Name != "selector" {
			on[copper.of(t)] = append(on[copper.of(t)], t)
		}
	}
	if asSet { // taps that nothing else is on tell the ends of a winding apart no longer
		for net, ts := range on {
			if p := d.partOf(ts[0]); len(ts) == 1 && p != nil && len(p.Windings) > 0 && d.inner(p, ts[0]) {
				delete(on, net)
			}
		}
	}
	mark := map[string]string{}
	for range len(on) {
		next := map[string]string{}
		for net, ts := range on {
			var words []string
			for _, t := range ts {
				words = append(words, d.class(t, asSet)+beyond(d, t, copper, mark, asSet))
			}
			sort.Strings(words)
			next[net] = short(strings.Join(words, " "))
		}
		mark = next
	}
	var all []string
	for _, m := range mark {
		all = append(all, m)
	}
	sort.Strings(all)
	return strings.Join(all, "\n")
}

// class is the name that a terminal shares with those it may be exchanged for.
func (d draft) class(t string, asSet bool) string {
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

// onlyOne tells whether no other winding of the part has the role of w, so that
// its phase means nothing.
func onlyOne(p *part.Part, w *part.Winding) bool {
	return !slices.ContainsFunc(p.Windings, func(v *part.Winding) bool { return v != w && v.Role == w.Role })
}

// beyond marks what lies behind the part that terminal t belongs to.
func beyond(d draft, t string, copper nets, mark map[string]string, asSet bool) string {
	p := d.partOf(t)
	if p == nil || p.Bare() {
		return ""
	}
	var out []string
	own := own(p, t)
	for _, u := range p.Terminals() {
		paired := p.Kind.Name == "switch" || p.Kind.Name == "connector"
		if u != own && (!paired || pole(p, u) == pole(p, own)) {
			out = append(out, d.class(p.Full(u), asSet)+"="+mark[copper.of(p.Full(u))])
		}
	}
	sort.Strings(out)
	return "(" + strings.Join(out, ",") + ")"
}

func pole(p *part.Part, terminal string) int { return slices.Index(p.Terminals(), terminal) / 2 }

// short keeps marks from growing with every turn.
func short(text string) string {
	h := uint64(14695981039346656037) // FNV-1a, 64 bit
	for _, c := range []byte(text) {
		h = (h ^ uint64(c)) * 1099511628211
	}
	return fmt.Sprintf("%016x", h)
}
