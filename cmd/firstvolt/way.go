package main

import (
	"slices"
	"strings"

	"firstvolt/checks/sheet"
)

// way is what the mains current meets on its way through a set, from hot to
// neutral: the parts of the shortest way along the wires, a part that has two
// ends in one and out of the other, a transformer by its primary.
func way(s *sheet.Sheet) []string {
	type step struct {
		at   string
		past []string
	}
	seen := map[string]bool{sheet.PlugHot: true}
	queue := []step{{sheet.PlugHot, nil}}
	add := func(to string, past []string) {
		if to != "" && to != sheet.Chassis && !seen[to] {
			seen[to] = true
			queue = append(queue, step{to, past})
		}
	}
	for len(queue) > 0 {
		here := queue[0]
		queue = queue[1:]
		if here.at == sheet.PlugNeutral {
			return here.past
		}
		for _, w := range s.Wires {
			switch here.at {
			case w.A:
				add(w.B, here.past)
			case w.B:
				add(w.A, here.past)
			}
		}
		name, _, _ := strings.Cut(here.at, ".")
		if p := s.Part(name); p != nil {
			in, out, ok := p.Kind.Through(p)
			if !ok && p.Winding("primary") != nil {
				ends := p.Winding("primary").Ends
				in, out, ok = ends[0], ends[1], true
			}
			past := append(slices.Clone(here.past), p.Name)
			switch {
			case !ok:
			case here.at == p.Full(in):
				add(p.Full(out), past)
			case here.at == p.Full(out):
				add(p.Full(in), past)
			}
		}
	}
	return nil
}
