package ratings

import (
	"math"
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
)

// stretch is a piece of a winding between two neighbouring terminals, walked
// from the hotter end.
type stretch struct {
	winding bench.PartWinding
	volts   float64 // stated, the upper end of a span; NaN where the sheet does not say
	forward bool    // from the first end of the winding towards the second
}

// feed is one way through windings from a point of the line to another.
type feed struct {
	share     float64 // of the supply that lies across it: 1, less behind an autotransformer
	stretches []stretch
	from, to  string
}

// volts are all that is stated along the feed, NaN where some is not.
func (f feed) volts() float64 { return f.voltsOf(nil) }

// voltsOf are those of one transformer; of all for nil.
func (f feed) voltsOf(p *part.Part) float64 {
	sum := 0.0
	for _, s := range f.stretches {
		if p == nil || s.winding.Part == p {
			sum += s.volts
		}
	}
	return sum
}

func (f feed) has(w bench.PartWinding) bool {
	return slices.ContainsFunc(f.stretches, func(s stretch) bool { return s.winding.Winding == w.Winding })
}

// stops are the stated volts of each terminal of a winding from its first end,
// NaN where the sheet does not say.
func stops(p bench.PartWinding) []float64 {
	w := p.Winding
	of := func(key string) float64 {
		if v, ok := part.ValueOf(w.Node.Get(key)); ok {
			return v.High
		}
		return math.NaN()
	}
	out := make([]float64, len(w.Order))
	for i, t := range w.Order {
		tap, said := part.ValueOf(w.Node.Get("taps").Get(t))
		switch {
		case said:
			out[i] = tap.High
		case w.Role == "auto":
			out[i] = math.NaN()
		case t == w.Ends[1]:
			out[i] = of("voltage")
		case t == w.Tap:
			out[i] = of("voltage") / 2
		}
	}
	return out
}

// feeds finds, in one state, every way from line to line through primary
// windings. Points behind an autotransformer of the set are points of the line
// at their share of it.
func feeds(b *bench.Bench, st bench.State) []feed {
	c := b.Circuit(st)
	lines := b.Lines()
	names := map[string]string{}
	node := func(t string) string {
		if n, ok := names[t]; ok {
			return n
		}
		all := c.Reach([]string{t}, bench.Near).Terminals()
		n := t
		if len(all) > 0 {
			n = all[0]
		}
		for _, o := range all {
			names[o] = n
		}
		names[t] = n
		return n
	}
	level := map[string]float64{node(lines[1]): 0}
	if _, shorted := level[node(lines[0])]; shorted {
		return nil
	}
	level[node(lines[0])] = 1
	for range b.Parts(part.TappedCore) {
		for _, p := range b.Parts(part.TappedCore) {
			spread(p, node, level)
		}
	}
	type edge struct {
		to string
		s  stretch
	}
	edges := map[string][]edge{}
	for _, p := range b.Parts(part.Supplies) {
		for _, w := range p.Windings {
			if w.Role != "primary" && w.Role != "auto" {
				continue
			}
			pw := bench.PartWinding{Part: p, Winding: w}
			at := stops(pw)
			for i := 1; i < len(w.Order); i++ {
				x, y := node(p.Full(w.Order[i-1])), node(p.Full(w.Order[i]))
				if x == y {
					continue
				}
				volts := math.Abs(at[i] - at[i-1])
				edges[x] = append(edges[x], edge{y, stretch{pw, volts, true}})
				edges[y] = append(edges[y], edge{x, stretch{pw, volts, false}})
			}
		}
	}
	var out []feed
	var walk func(from, at string, way []stretch, seen []string)
	walk = func(from, at string, way []stretch, seen []string) {
		for _, e := range edges[at] {
			if slices.Contains(seen, e.to) {
				continue
			}
			next := append(slices.Clone(way), e.s)
			if v, known := level[e.to]; known {
				if level[from] > v {
					out = append(out, feed{level[from] - v, next, from, e.to})
				}
				continue
			}
			walk(from, e.to, next, append(slices.Clone(seen), e.to))
		}
	}
	starts := []string{}
	for n := range level {
		starts = append(starts, n)
	}
	slices.Sort(starts)
	for _, n := range starts {
		walk(n, n, nil, []string{n})
	}
	return out
}

// spread gives the taps of an autotransformer their share, from two that have
// one.
func spread(p *part.Part, node func(string) string, level map[string]float64) {
	for _, w := range p.Windings {
		at := stops(bench.PartWinding{Part: p, Winding: w})
		for i := range w.Order {
			for j := range w.Order {
				x, okX := level[node(p.Full(w.Order[i]))]
				y, okY := level[node(p.Full(w.Order[j]))]
				if !okX || !okY || !(x > y) || !(math.Abs(at[i]-at[j]) > 0) {
					continue
				}
				for k, t := range w.Order {
					n := node(p.Full(t))
					if v := y + (x-y)*(at[k]-at[j])/(at[i]-at[j]); !math.IsNaN(v) {
						if _, has := level[n]; !has {
							level[n] = v
						}
					}
				}
				return
			}
		}
	}
}

// switchedOn lists the states of a set in use: switches closed, selectors as
// set, in every position where the sheet does not say.
func switchedOn(b *bench.Bench) []bench.State {
	states, _ := b.Combinations(bench.ClosedState(), false)
	return states
}

var windingOnLine = bench.EachWinding(figure.Def{
	Name: "winding-on-line", Of: []string{"winding"}, Present: true,
	Says: "the line reaches the winding.",
}, func(b *bench.Bench, w bench.PartWinding) figure.Figure { return figure.So(onLine(b, w)) })

// onLine tells a winding that the line comes to.
func onLine(b *bench.Bench, w bench.PartWinding) bool { return slices.Contains(b.Wired().Primaries, w) }
