package handbook

import (
	"math"

	"firstvolt/checks/quantity"
	"firstvolt/checks/strict"
)

// Bond is the limit of a region, in service, for the path from the ground pin to
// the metal of the set.
type Bond struct {
	Whole bool    // of the whole path; else of what lies beyond the cord's own conductor
	Ohms  float64 // Ω
	// More Ω are added for each full Each m of cord past To m, up to Most Ω in all;
	// all zero where the length of the cord does not count.
	To, Each, More, Most float64
}

var bondShape = object(
	must("path", words("whole", "beyond-cord")), must("limit", of(quantity.Resistance)),
	may("cord-to", of(quantity.Length)), may("each", of(quantity.Length)), may("more", of(quantity.Resistance)), may("most", of(quantity.Resistance)))

func bondOf(n *strict.Node) Bond {
	return Bond{Whole: n.Word("path") == "whole", Ohms: high(n, "limit", math.NaN()),
		To: high(n, "cord-to", 0), Each: high(n, "each", 0), More: high(n, "more", 0), Most: high(n, "most", 0)}
}

// whole tells whether a limit by length of cord has all its numbers, or none.
func (b Bond) whole(n *strict.Node) bool {
	said := 0
	for _, key := range []string{"cord-to", "each", "more", "most"} {
		if n.Get(key) != nil {
			said++
		}
	}
	return b.Ohms > 0 && (said == 0 || said == 4 && b.Each > 0 && b.Most >= b.Ohms)
}

// Limit is what the path may have with a cord of that length in m.
func (b Bond) Limit(length quantity.Range) quantity.Range {
	at := func(m float64) float64 {
		if !(b.Each > 0) || !(m > b.To) {
			return b.Ohms
		}
		steps := math.Floor(quantity.Six((m - b.To) / b.Each)) // 12.5 m is a full step, however it is rounded
		return math.Min(b.Most, b.Ohms+b.More*steps)
	}
	return quantity.Between(at(length.Low), at(length.High), quantity.Resistance)
}
