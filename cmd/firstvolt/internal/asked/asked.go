package asked

import (
	"cmp"
	"maps"
	"slices"
	"strconv"
	"strings"

	"firstvolt/checks/faults"
	"firstvolt/cmd/firstvolt/internal/report"
)

// Typed is what a person typed behind the options that name a case; nil where
// an option is not given.
type Typed struct {
	Fault, Latent, Part, Switches, Orientation, Touches *string
	Limiter                                             *bool
}

// The names of the cases that have none of a part of the set.
var (
	nothing = faults.Case{Fault: faults.Nothing}.Name()
	pulled  = faults.Case{Fault: faults.Unplugged}.Name()
)

// One is the layer, the fault in it and the metal held, each as the program
// names it. What is not named is as in faults.Which.
func (w *Words) One(t Typed) (l faults.Layer, fault, touches string, err error) {
	if t.Touches != nil { // any metal may be held in any case
		if touches, err = find(*t.Touches, "metal within reach", w.metals, "firstvolt faults SHEET says which metal is held"); err != nil {
			return l, "", "", err
		}
		t.Touches = nil
	}
	filters, err := w.filters(t, true)
	if err != nil {
		return l, "", "", err
	}
	if filters[0].means == pulled {
		return l, "", "", &Error{"with the plug pulled there is no mains circuit to write", "firstvolt faults SHEET --fault \"" + pulled + "\" says what its pins hold"}
	}
	found, err := chosen(w.points, filters)
	if err != nil {
		return l, "", "", err
	}
	// The order of a pair that was typed, if there is it, and of the switches that
	// were not named as few open as can be.
	best := slices.MinFunc(found, func(a, b point) int {
		turned := func(p point) int {
			if p.Fault == filters[0].means {
				return 0
			}
			return 1
		}
		return cmp.Or(cmp.Compare(turned(a), turned(b)), cmp.Compare(a.open, b.open))
	})
	return w.layers[best.at], best.Fault, touches, nil
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
		points[i] = point{Which: c.Which(), at: i}
	}
	if filters[0].means == pulled && !slices.ContainsFunc(points, filters[0].fits) {
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

// filters are what the options that were typed ask of a case; of one case also
// what goes without saying, the fault first.
func (w *Words) filters(t Typed, one bool) ([]filter, error) {
	typed := t
	if one {
		none, first, dark := nothing, w.layers[0].Orientation, false
		if t.Fault == nil {
			t.Fault = &none
		}
		if t.Latent == nil {
			t.Latent = &none
		}
		if t.Orientation == nil {
			t.Orientation = &first
		}
		if t.Limiter == nil {
			t.Limiter = &dark
		}
	}
	var out []filter
	var failed error
	// named is a filter by the name that was typed, if one was.
	named := func(option, kind string, text, given *string, names []name, help string) (f filter, ok bool) {
		if text == nil || failed != nil {
			return f, false
		}
		f = filter{option: option, given: given != nil}
		f.means, failed = find(*text, kind, names, help)
		f.says = w.say(f.means)
		return f, failed == nil
	}
	const listed = "firstvolt faults SHEET --all lists them"
	other := func(p point) string { return p.Latent } // what a case has besides the fault
	if f, ok := named("fault", "fault", t.Fault, typed.Fault, w.faults, listed); ok {
		// A pair of faults stands in the table once, either of them first.
		f.fits = func(p point) bool {
			return p.Fault == f.means || p.Latent == f.means && (f.means != "" || t.Latent != nil)
		}
		other = func(p point) string {
			if p.Fault == f.means {
				return p.Latent
			}
			return p.Fault
		}
		out = append(out, f)
	}
	if f, ok := named("part", "part", t.Part, typed.Part, w.parts, "the sheet names them under parts"); ok {
		f.fits = func(p point) bool { return of(p.Fault, f.means) || of(p.Latent, f.means) }
		f.says = "faults of " + f.means
		out = append(out, f)
	}
	if f, ok := named("latent", "latent fault", t.Latent, typed.Latent, w.latents, listed); ok {
		f.fits = func(p point) bool { return other(p) == f.means && (one || f.means != "" || p.Latent == "") }
		f.is = func(p point) string { return w.say(other(p)) }
		f.says += " unnoticed"
		out = append(out, f)
	}
	switch {
	case failed != nil:
	case t.Switches != nil:
		all, err := w.standing(*t.Switches)
		out, failed = append(out, filter{option: "switches", given: true, fits: func(p point) bool { return all[p.Switches] },
			is: w.position, says: w.said.Say(*t.Switches), means: strings.Join(slices.Sorted(maps.Keys(all)), "; ")}), err
	case one:
		out = append(out, filter{option: "switches", fits: func(p point) bool { return p.open == 0 }, is: w.position, says: "every switch closed"})
	}
	if f, ok := named("orientation", "orientation", t.Orientation, typed.Orientation, w.ways, ""); ok {
		f.fits = func(p point) bool { return p.Orientation == f.means }
		f.is = func(p point) string { return w.say(p.Orientation) }
		f.says = w.say("receptacle " + f.means)
		out = append(out, f)
	}
	if t.Limiter != nil {
		yes := *t.Limiter
		out = append(out, filter{option: "limiter", given: typed.Limiter != nil, fits: func(p point) bool { return p.Limiter == yes },
			says: map[bool]string{true: "with the series lamp", false: "without series lamp"}[yes], means: strconv.FormatBool(yes)})
	}
	if f, ok := named("touches", "metal within reach", t.Touches, typed.Touches, w.metals, "firstvolt faults SHEET says which metal is held"); ok {
		f.fits = func(p point) bool { return touches(p.Touches, f.means) }
		f.is = func(p point) string { return w.say(p.Touches) }
		f.says = "touching " + f.says
		out = append(out, f)
	}
	return out, failed
}

// say is one of the names as it is printed.
func (w *Words) say(own string) string {
	if own == "" {
		return "nothing"
	}
	return w.said.Say(own)
}

func (w *Words) position(p point) string { return w.say(p.Switches) }

// touches tells whether what is held is, or is among, the metal asked for; of
// two the order does not count.
func touches(held, asked string) bool {
	a, b, two := strings.Cut(held, " to ")
	c, d, pair := strings.Cut(asked, " to ")
	if pair {
		return two && (a == c && b == d || a == d && b == c)
	}
	return a == asked || two && b == asked
}
