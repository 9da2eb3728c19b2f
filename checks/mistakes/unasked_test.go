package mistakes_test

import (
	"slices"
	"strings"
	"testing"

	"firstvolt/checks/bench"
	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
)

// isMetal are the rules that ask of metal and of what insulates it.
var isMetal = []string{
	"part-metal-off-line", "accessible-parts-bonded", "hot-off-chassis", "neutral-off-chassis", "protective-impedance",
	"connector-safe-unmated", "outlet-keeps-polarity", "line-chassis-enclosed", "insulation-primary-secondaries", "insulation-mains-chassis",
}

// notAsked are kinds of which no rating, metal or insulation is asked, with the reason.
var notAsked = map[string]string{
	"tie":  "a lug carries what its wires carry",
	"tube": "a heater in a string is asked by the rules of the high tension", "rectifier": "asked by the rules of the high tension",
	"electrolytic": "behind a rectifier it is asked by the rules of the high tension", "selector": "its contacts are asked by selector-never-shorts and by each position",
	"speaker": "asked by the rules of the high tension", "output-transformer": "asked by the rules of the high tension",
}

// TestNothingOnTheLineGoesUnasked: every part, winding and shield that a line
// conductor reaches in some position is the subject of a finding about its
// rating, its metal or its insulation. A new kind is asked by itself.
func TestNothingOnTheLineGoesUnasked(t *testing.T) {
	check := func(t *testing.T, b base) {
		subjects := map[string]bool{}
		for _, f := range b.was.Findings {
			if f.Group == "ratings" || slices.Contains(isMetal, f.Rule) {
				subjects[f.Subject.Name] = true
			}
		}
		for _, at := range reached(b.was.s) {
			p := b.was.s.Part(strings.Split(at, ".")[0])
			_, left := notAsked[p.Kind.Name]
			if w := p.Winding(strings.TrimPrefix(at, p.Name+".")); w != nil && w.Role != "primary" && b.was.s.Construction != "transformer" {
				left = true // a secondary on a live chassis: its load is asked by the rules of the high tension
			}
			of := slices.ContainsFunc(p.Terminals(), func(t string) bool { return subjects[p.Full(t)] })
			if !subjects[at] && !left && !(of && at == p.Name) {
				t.Errorf("%s: a line conductor reaches %s (%s), and no rating, metal or insulation of it is asked", b.name, at, p.Kind.Name)
			}
		}
	}
	eachSound(t, func(t *testing.T, s *sound) {
		check(t, base{s.name, s.was})
	})
	for _, b := range carriers(t) {
		check(t, b)
	}
}

// reached names the parts, windings and shields that a line conductor reaches
// with the switches closed, in some position, through anything that conducts.
func reached(s *sheet.Sheet) []string {
	b := bench.New(s)
	out := map[string]bool{}
	states, _ := b.Combinations(bench.ClosedState(), true)
	for _, st := range states {
		r := b.Circuit(st).Reach([]string{sheet.PlugHot, sheet.PlugNeutral}, bench.Conductors)
		for _, p := range s.Parts {
			if p.Bare() {
				out[p.Name] = out[p.Name] || r.Has(p.Name)
				continue
			}
			for _, t := range p.Terminals() {
				if !r.Has(p.Full(t)) {
					continue
				}
				out[whose(p, t)] = true
			}
		}
	}
	var names []string
	for name, there := range out {
		if there {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	return names
}

// whose is the winding that a terminal belongs to, the terminal itself if it is
// a shield, else the part.
func whose(p *part.Part, terminal string) string {
	for _, w := range p.Windings {
		if slices.Contains(w.Order, terminal) {
			return p.Full(w.Name)
		}
	}
	if len(p.Windings) > 0 {
		return p.Full(terminal)
	}
	return p.Name
}

// idleReadings are readings that no finding hangs on, each with the reason.
var idleReadings = map[string]string{}

// TestEveryReadingIsEvidence: a reading that shows what it cannot show makes a
// finding worse. Of each sheet every fourth reading is tried, all with -exhaustive.
func TestEveryReadingIsEvidence(t *testing.T) {
	eachSound(t, func(t *testing.T, s *sound) {
		for i, rd := range s.s.Readings {
			if !*exhaustive && (i+len(s.name))%4 != 0 {
				continue
			}
			at := placeOf(s.s.Root, rd.Node)
			sp := spot{b: base{s.name, s.was}, at: at, key: strict.Key{Name: "reads", Shape: readsOf(rd.Kind)}}
			if !sp.hears(t) && idleReadings[s.name+" "+rd.Name] == "" {
				t.Errorf("%s of %s: whatever it shows, no finding is the worse", rd.Kind, rd.Name)
			}
		}
	})
}

// readsOf is the shape of what a reading shows, by the kind of the reading.
func readsOf(kind string) *strict.Shape {
	for _, k := range sheet.Shape().Map.Keys {
		if k.Name != "readings" {
			continue
		}
		for _, list := range k.Shape.Map.Keys {
			if list.Name != kind {
				continue
			}
			for _, key := range list.Shape.List.Item.Map.Keys {
				if key.Name == "reads" {
					return key.Shape
				}
			}
		}
	}
	return nil
}

// placeOf is the way down to a node.
func placeOf(root, n *strict.Node) place {
	for _, p := range places(root) {
		if down(root, p) == n {
			return p
		}
	}
	return nil
}
