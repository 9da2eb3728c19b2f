package entry

import (
	"fmt"
	"slices"
	"strings"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
)

var groundByWire = &figure.Def{Name: "ground-by-wire", Room: "entry", Of: []string{"chassis"}, Present: true,
	Says: "the ground pin reaches the chassis by wire alone"}

var bonded = &figure.Def{Name: "bonded-by-wire", Room: "entry", Of: append(slices.Clone(bench.Metalwork), part.Named(part.Feeds|part.Filters|part.Turns)...), Present: true,
	Says: "a wire joins it, or the contact or metal that it has for ground, to the ground pin"}

var groundContactMissing = &figure.Def{Name: "ground-contact-missing", Room: "entry", Of: []string{"chassis"}, Present: true,
	Says: "the chassis is wired to the ground pin, and the plug or the inlet has none"}

// partMetal are the outlets, filters and motors, each with its terminal that
// ground must reach.
func partMetal(b *bench.Bench) (out []metal) {
	for _, p := range b.Parts(part.Feeds | part.Filters | part.Turns) {
		out = append(out, metal{p, p.Full(p.Kind.Ground)})
	}
	return out
}

// metal is metal of a part that a hand comes to, and the terminal that it is.
type metal struct {
	of *part.Part
	at string
}

var hasGroundMetal = &figure.Def{Name: "has-ground-metal", Room: "entry", Of: part.Named(part.Feeds | part.Filters | part.Turns), Present: true,
	Says: "it has a contact or metal that ground must reach"}

// computeHasGroundMetal: an outlet of two poles has no ground contact.
func computeHasGroundMetal(b *bench.Bench) (out []figure.Figure) {
	for _, m := range partMetal(b) {
		p := m.of
		_, has := p.GroundTerminal()
		out = append(out, figure.Is(hasGroundMetal, b.Of(p), has))
	}
	return out
}

func groundReach(b *bench.Bench) net {
	return b.Circuit(bench.State{}).Reach([]string{sheet.PlugGround}, bench.GroundPath)
}

func chassisOf(b *bench.Bench) figure.Subject { s, _ := b.Subject("chassis", "chassis"); return s }

func computeGroundByWire(b *bench.Bench) []figure.Figure {
	r := groundReach(b)
	f := figure.Is(groundByWire, chassisOf(b), r.Has(sheet.Chassis))
	if r.Has(sheet.Chassis) {
		f.Witness = path(r, sheet.Chassis)
	} else if any := b.Circuit(bench.ClosedState()).Reach([]string{sheet.PlugGround}, bench.Conductors); any.Has(sheet.Chassis) {
		f.Witness = path(any, sheet.Chassis)
		f.Note = "ground reaches the chassis only through " + strings.Join(f.Witness[1:len(f.Witness)-1], ", ")
	}
	return []figure.Figure{f}
}

// computeGroundContactMissing: whoever wired the bond believes in it.
func computeGroundContactMissing(b *bench.Bench) []figure.Figure {
	none := !b.Sheet.Plug.Ground || b.Sheet.Cord().Word("inlet") == "iec-60320-c8"
	return []figure.Figure{figure.Is(groundContactMissing, chassisOf(b), none && groundReach(b).Has(sheet.Chassis))}
}

func computeBonded(b *bench.Bench) []figure.Figure {
	r := groundReach(b)
	f := figure.Is(bonded, chassisOf(b), r.Has(sheet.Chassis))
	if r.Has(sheet.Chassis) {
		f.Witness = path(r, sheet.Chassis)
		if b.Sheet.Cord().Word("conductors") == "" { // with two, no ground arrives
			f = figure.NotKnown(bonded, chassisOf(b), figure.Need{What: "cord conductors", How: "conductors: 2 or 3, counted where the cord enters the set"})
		}
	}
	out := []figure.Figure{f}
	for _, p := range b.Parts(part.Metal) {
		f := figure.Is(bonded, b.Of(p), r.Has(p.Name))
		if r.Has(p.Name) {
			f.Witness = path(r, p.Name)
		}
		out = append(out, f)
	}
	for _, m := range partMetal(b) {
		p, t := m.of, m.at
		f := figure.Is(bonded, b.Of(p), r.Has(t))
		switch {
		case r.Has(t):
			f.Witness = path(r, t)
		case !b.Circuit(bench.State{}).Has(t):
			// On no wire: an outlet of two poles, a case of plastic, or a wire forgotten.
			f = figure.NotKnown(bonded, b.Of(p), figure.Need{What: "whether " + p.Name + " has a " + p.Kind.Ground + " that ground must reach", How: "a wire from " + t + " to the chassis, if it has one"})
		}
		out = append(out, f)
	}
	return out
}

var groundTouches = &figure.Def{Name: "ground-touches-other", Room: "entry", Of: []string{"chassis"}, Present: true,
	Says: "something other than the chassis and bodies is wired to the ground conductor"}

func computeGroundTouches(b *bench.Bench) []figure.Figure {
	metal := func(t string) bool {
		p := b.PartOf(t)
		return t == sheet.Chassis || p != nil && p.Is(part.Metal)
	}
	r := b.Circuit(bench.State{}).Reach([]string{sheet.PlugGround}, func(e *circuit.Element) bool {
		return bench.GroundPath(e) && !metal(e.A) && !metal(e.B)
	})
	for _, t := range r.Terminals() {
		if t == sheet.PlugGround || metal(t) || groundMayTouch(b, t) {
			continue
		}
		return []figure.Figure{present(groundTouches, chassisOf(b), path(r, t), fmt.Sprintf("%s hangs on the ground conductor itself", t))}
	}
	return []figure.Figure{figure.Is(groundTouches, chassisOf(b), false)}
}

// groundMayTouch lists what may be wired to the ground conductor besides metal:
// ties, an outlet's or connector's ground, a filter's case, a motor's frame,
// a screen.
func groundMayTouch(b *bench.Bench, terminal string) bool {
	p := b.PartOf(terminal)
	if p == nil {
		return false
	}
	_, t, _ := strings.Cut(terminal, ".")
	switch {
	case p.Is(part.Ties | part.Mates):
		return true
	case p.Is(part.Feeds):
		return t == "ground"
	case p.Is(part.Filters):
		return t == "case"
	case p.Is(part.Turns):
		return t == "frame"
	case p.Is(part.Isolates):
		return t == p.Word("shield")
	}
	return false
}

var groundFastened = &figure.Def{Name: "ground-fastened-alone", Room: "entry", Of: []string{"chassis"}, Present: true,
	Says: "the ground wire has a fastening of its own at the chassis"}

func computeGroundFastened(b *bench.Bench) []figure.Figure {
	of := chassisOf(b)
	need := figure.Need{What: "joint of the ground wire at the chassis", How: "own-screw, own-solder-lug, shared-screw, spring or soldered-to-chassis, on the run that ends at the chassis"}
	r := groundReach(b)
	if !r.Has(sheet.Chassis) {
		return []figure.Figure{figure.NotKnown(groundFastened, of, figure.Need{What: "a ground wire to the chassis"})}
	}
	steps := r.Path(sheet.Chassis)
	own := func(w *sheet.Wire) bool { return w.Joint == "own-screw" || w.Joint == "own-solder-lug" }
	w := bench.WireOfElement(steps[len(steps)-1].Via)
	known := w != nil && w.B == sheet.Chassis && w.Joint != ""
	for _, s := range steps[1:] { // what the chassis hangs on before it must hold as well
		if on := bench.WireOfElement(s.Via); on != nil && on.Joint != "" && !own(on) {
			w, known = on, true
			break
		}
	}
	if !known {
		return []figure.Figure{figure.NotKnown(groundFastened, of, need)}
	}
	f := figure.Is(groundFastened, of, own(w))
	f.Witness, f.At = bench.Trace(steps), w.At
	f.Note = fmt.Sprintf("its joint at %s is: %s", w.B, w.Joint)
	return []figure.Figure{f}
}

var groundLongest = &figure.Def{Name: "ground-wire-longest", Room: "entry", Of: []string{"chassis"}, Present: true,
	Says: "the ground wire has the most slack of the cord's conductors"}

func computeGroundLongest(b *bench.Bench) []figure.Figure {
	of := chassisOf(b)
	need := figure.Need{What: "slack of the ground wire beside the other two", How: "longest, equal or shorter, on its run"}
	var at []*sheet.Wire
	for _, w := range b.Sheet.Wires {
		if w.A == sheet.PlugGround || w.B == sheet.PlugGround {
			at = append(at, w)
		}
	}
	if len(at) == 0 {
		return []figure.Figure{figure.NotKnown(groundLongest, of, need)}
	}
	known := true
	for _, w := range at {
		switch w.Slack {
		case "longest":
		case "":
			known = false
		default:
			f := figure.Is(groundLongest, of, false)
			f.At = w.At
			return []figure.Figure{f}
		}
	}
	if !known {
		return []figure.Figure{figure.NotKnown(groundLongest, of, need)}
	}
	return []figure.Figure{figure.Is(groundLongest, of, true)}
}

// bodies lists the touchable bodies.
func bodies(b *bench.Bench) (out []*part.Part) {
	return slices.DeleteFunc(b.Parts(part.Metal), func(p *part.Part) bool { return p.Word("reach") == "enclosed" })
}
