package bench

import (
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
		if e.Conducts != circuit.OneWay {
			continue
		}
		if slices.ContainsFunc(path, func(o *circuit.Element) bool { return parts(c, o.A, plus, minus, e) || parts(c, o.B, plus, minus, e) }) {
			out = append(out, e.Name)
		}
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
