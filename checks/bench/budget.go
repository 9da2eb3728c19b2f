package bench

import (
	"fmt"

	"firstvolt/checks/figure"
)

// mostWork is how much of a sheet is computed: its switch and selector positions
// by its terminals, wires and units upstream by these and its readings. The
// largest of our sheets has a thirtieth of it; what has more would take many
// seconds, and memory without end.
const mostWork = 600_000

// mostReadings is how many readings of one sheet are weighed, each against each.
// The largest of our sheets has some twenty.
const mostReadings = 400

// TooMuch is what is lacked where a sheet has more than is computed, else nil.
// Nothing of such a sheet is computed, rather than a part of it that looks like
// all.
func (b *Bench) TooMuch() *figure.Need {
	return b.Keep(tooMuchKey{}, func() any {
		places := b.Places()
		states, _ := b.Combinations(State{}, true)
		readings := len(b.Sheet.Readings)
		if !b.TooLarge() && len(states)*places*(places+readings) <= mostWork && readings <= mostReadings {
			return (*figure.Need)(nil)
		}
		need := &figure.Need{
			What: fmt.Sprintf("not computed: %d switch and selector positions of %d terminals, wires and units, and %d readings, are more than are tried", len(states), places, readings),
			How:  "state how these stand: of each selector how it is set, of each reading how its switches stood",
		}
		if b.TooLarge() {
			need.How = "a sheet of one set: what is not in it does not belong on its sheet"
		}
		return need
	}).(*figure.Need)
}

type tooMuchKey struct{}

// Places is the size of the sheet: its terminals, wires and units upstream.
func (b *Bench) Places() int {
	n := len(b.Sheet.Wires) + len(b.Sheet.Upstream)
	for _, p := range b.Sheet.Parts {
		n += max(1, len(p.Terminals()))
	}
	return n
}

// mostPlaces is how large a sheet may be for its parts to be asked about one by
// one. The largest of our sheets has a tenth of it.
const mostPlaces = 2000

// TooLarge tells whether a sheet has more than can be in a set. Nothing is told
// of its parts then, and the set itself is not cleared.
func (b *Bench) TooLarge() bool { return b.Places() > mostPlaces }

// mostTried is how many circuits, by the size of the sheet, one question tries.
const mostTried = 400_000

// MayTry tells whether one question may try so many circuits of the set.
func (b *Bench) MayTry(circuits int) bool { return circuits*b.Places() <= mostTried }

// mostKept is how many elements all circuits that are kept for the next question
// may have together.
const mostKept = 200_000
