package asked

import (
	"cmp"
	"slices"

	"firstvolt/checks/faults"
	"firstvolt/checks/mains"
	"firstvolt/cmd/firstvolt/internal/report"
)

// Typed is what a person typed behind the options that name a case; nil where
// an option is not given.
type Typed struct {
	Fault, Latent, Part, Switches, Orientation, Touches *string
	Limiter                                             *bool
}

// The faults that are none of the set's.
var (
	nothing = faults.Fault{}
	pulled  = faults.Fault{Kind: faults.Unplugged}
)

const metalHelp = "firstvolt faults SHEET says which metal is held"

// One is the layer, the fault in it and the metal held. What is not named is as in faults.Which.
func (w *Words) One(t Typed) (l faults.Layer, fault faults.Fault, touch mains.Touch, err error) {
	if t.Touches != nil { // any metal may be held in any case
		if touch, err = find(*t.Touches, "metal within reach", w.metals, metalHelp); err != nil {
			return l, fault, touch, err
		}
		t.Touches = nil
	}
	filters, err := w.filters(t, true)
	if err != nil {
		return l, fault, touch, err
	}
	if filters[0].fault == pulled {
		return l, fault, touch, &Error{"with the plug pulled there is no mains circuit to write", "firstvolt faults SHEET --fault \"" + pulled.String() + "\" says what its pins hold"}
	}
	found, err := chosen(w.points, filters)
	if err != nil {
		return l, fault, touch, err
	}
	// The order of a pair that was typed, if there is it, and of the switches that
	// were not named as few open as can be.
	best := slices.MinFunc(found, func(a, b point) int {
		turned := func(p point) int {
			if p.Fault == filters[0].fault {
				return 0
			}
			return 1
		}
		return cmp.Or(cmp.Compare(turned(a), turned(b)), cmp.Compare(a.open, b.open))
	})
	return w.layers[best.at], best.Fault, touch, nil
}

// Some are the cases of a table that are all of what a person names, in its
// order.
func (w *Words) Some(t Typed, cases []faults.Case) ([]faults.Case, report.Only, error) {
	filters, err := w.filters(t, false)
	if err != nil || len(filters) == 0 {
		return cases, report.Only{}, err
	}
	points := make([]point, len(cases))
	for i, c := range cases {
		points[i] = point{Which: c.Which, at: i}
	}
	if filters[0].fault == pulled && !slices.ContainsFunc(points, filters[0].fits) {
		return nil, report.Only{}, &Error{"no capacitor of this set is across the mains, so that the pins of its plug hold nothing", ""}
	}
	found, err := chosen(points, filters)
	if err != nil {
		return nil, report.Only{}, err
	}
	var out []faults.Case
	for _, p := range found {
		out = append(out, cases[p.at])
	}
	only := report.Only{Means: map[string]string{}}
	for _, f := range filters {
		only.Means[f.option] = f.means
		if f.option != "latent" || f.means != "" { // the table says of itself which faults are the only ones
			only.Says = append(only.Says, f.says)
		}
	}
	return out, only, nil
}

// touches tells whether what is held is, or is among, the metal asked for; of
// two the order does not count.
func touches(held, asked mains.Touch) bool {
	if asked.Other != "" {
		return held == asked || held == mains.Touch{Held: asked.Other, Other: asked.Held}
	}
	return held.Held == asked.Held || held.Other == asked.Held
}
