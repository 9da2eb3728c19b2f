package bench

import (
	"math"
	"slices"

	"firstvolt/checks/circuit"
)

// backward names the elements that conduct one way only and cannot carry the
// meter's current: it would have to come through one place on its way to them
// that it needs again on its way from them.
func backward(c *circuit.Circuit, plus, minus []string) []string {
	var out []string
	path := c.Between(plus, minus)
	for _, e := range path {
		if e.Conducts == circuit.OneWay && idle(c, path, plus, minus, e) {
			out = append(out, e.Name)
		}
	}
	return out
}

// idle tells whether an element on the path can carry nothing from A to B.
func idle(c *circuit.Circuit, path []*circuit.Element, plus, minus []string, e *circuit.Element) bool {
	return slices.ContainsFunc(path, func(o *circuit.Element) bool {
		return parts(c, o.A, plus, minus, e) || parts(c, o.B, plus, minus, e)
	})
}

// charged is what an electrolytic stands for that a meter can only charge, once the
// display has settled: the least that a rail of a set on the line may read
// (common practice, the bound of the rule for such a rail).
var charged = circuit.Interval{Low: 5e3, High: math.Inf(1)}

// settled is the circuit with each electrolytic that the meter's current cannot
// enter at its minus end charged, so that it only leaks beside what conducts. Where
// nothing else conducts from probe to probe, all stand as they are.
func settled(c *circuit.Circuit, plus, minus []string) *circuit.Circuit {
	path := c.Between(plus, minus)
	full := map[string]bool{}
	for _, e := range path {
		turned := circuit.Element{Name: e.Name, A: e.B, B: e.A}
		if e.Law == circuit.Electrolytic && idle(c, path, plus, minus, &turned) {
			full[e.Name] = true
		}
	}
	if len(full) == 0 {
		return c
	}
	es := slices.Clone(c.Elements())
	for i := range es {
		if full[es[i].Name] {
			es[i].Conducts, es[i].R = circuit.Bridging, charged
		}
	}
	out := c.Revalued(es)
	if conducts := out.Reach(plus, Conductors); !slices.ContainsFunc(minus, conducts.Has) {
		return c
	}
	return out
}

// parts tells whether the net of a terminal parts plus and the far end of e from
// e's own beginning and minus, so that no two ways that meet nowhere lead there.
func parts(c *circuit.Circuit, terminal string, plus, minus []string, e *circuit.Element) bool {
	net := c.Reach([]string{terminal}, Contacts)
	open := func(ts ...string) []string {
		return slices.DeleteFunc(ts, net.Has)
	}
	from := open(append(slices.Clone(plus), e.B)...)
	if len(from) == 0 {
		return false // the net is where the current begins
	}
	reached := c.Reach(from, func(o *circuit.Element) bool {
		return o.Name != e.Name && Conductors(o) && !net.Has(o.A) && !net.Has(o.B)
	})
	return !slices.ContainsFunc(open(append(slices.Clone(minus), e.A)...), reached.Has)
}
