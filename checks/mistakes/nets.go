package mistakes

import (
	"slices"

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
func (d draft) copper() nets {
	if d.kept.copper == nil {
		d.kept.copper = d.joins(func(*part.Part) bool { return false })
	}
	return d.kept.copper
}

// contacts is the nets with every fuse in, every switch closed, selectors as
// set, connectors mated, and what else stands in a line conductor passed through.
func (d draft) contacts() nets {
	return d.passing("fuse", "switch", "selector", "connector", "filter", "thermistor", "choke")
}

// passing is the nets of the wires and of what parts of these kinds join.
func (d draft) passing(kinds ...string) nets {
	return d.joins(func(p *part.Part) bool { return slices.Contains(kinds, p.Kind.Name) })
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

// mate ends the name of a pin on the other half of a connector.
const mate = "-mate"

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
			out = append(out, [2]string{pin, pin + mate})
		}
		if jumpers := p.Node.Get("jumpers"); jumpers != nil {
			for _, j := range jumpers.Items {
				out = append(out, [2]string{j.Items[0].Text + mate, j.Items[1].Text + mate})
			}
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
	if d.kept.sides == nil {
		d.kept.sides = d.findSides()
	}
	return d.kept.sides
}

func (d draft) findSides() map[string]side {
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
	if d.kept.terminals == nil {
		d.kept.terminals = d.findTerminals()
	}
	return d.kept.terminals
}

func (d draft) findTerminals() []string {
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
