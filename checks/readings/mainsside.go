package readings

import (
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/sheet"
)

// mainsSide tells whether a probe, through anything that conducts in this
// state, touches the whole of the mains side: both pins and every end of every
// section of each primary.
func mainsSide(b *bench.Bench, c *circuit.Circuit, probe []string) bool {
	has := touched(c, probe, bench.Conductors)
	if !has(sheet.PlugHot) || !has(sheet.PlugNeutral) {
		return false
	}
	for _, p := range b.Wired().Primaries {
		if !wholeWinding(p, has) {
			return false
		}
	}
	return true
}

// wholeWinding tells whether every end and tap of a winding is touched.
func wholeWinding(w bench.PartWinding, has func(string) bool) bool {
	for _, t := range w.Winding.Order {
		if !has(w.Part.Full(t)) {
			return false
		}
	}
	return true
}

// separate tells whether nothing conducts from probe to probe.
func separate(c *circuit.Circuit, rd *sheet.Reading) bool {
	has := touched(c, rd.A, bench.Conductors)
	return !slices.ContainsFunc(rd.B, has)
}

// mainsAgainst tells in how many of its states a reading holds the whole mains
// side against target, the target touched through copper alone. Where apart is
// set, nothing else may conduct from the one to the other.
func mainsAgainst(b *bench.Bench, rd *sheet.Reading, target string, apart bool) extent {
	return inStates(b, rd, func(st bench.State) bool {
		c := b.Circuit(st)
		if apart && !separate(c, rd) {
			return false
		}
		side := func(x, y []string) bool {
			return touched(c, y, bench.Copper)(target) && mainsSide(b, c, x)
		}
		return side(rd.A, rd.B) || side(rd.B, rd.A)
	})
}
