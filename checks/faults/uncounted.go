package faults

import (
	"fmt"
	"strings"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
)

var (
	servesDef = &figure.Def{Name: "residual-would-serve", Room: "faults", Of: []string{"link"}, Present: true,
		Says: "this residual device, if it were known to trip, would open a fault that nothing else opens in its time"}
	countsDef = &figure.Def{Name: "residual-counts", Room: "faults", Of: []string{"link"}, Present: true,
		Says: "the residual device is known to trip: it was tested on or after the day of the latest reading, and within 31 days of it"}
)

// uncounted is why a residual device that stands in the chain does not count,
// and what would make it count; needs is empty where nothing on the sheet does.
type uncounted struct {
	note  string
	needs []figure.Need
}

// uncounted speaks of the first residual device where none counts; ok is false
// where one does, or none stands in the chain.
func (r *chain) uncounted() (u uncounted, ok bool) {
	if _, counts := r.devices.residual(); counts || len(r.devices.residuals) == 0 {
		return u, false
	}
	return r.unlike(r.devices.residuals[0]), true
}

// unlike says what keeps one residual device from counting.
func (r *chain) unlike(d residual) uncounted {
	need := func(key, how string) []figure.Need {
		return []figure.Need{{What: fmt.Sprintf("upstream %d %s", d.number, key), How: how}}
	}
	const press = "press its button under supply, see it trip, and write the day; a test before the day of the latest reading, or more than 31 days after it, does not count"
	name := fmt.Sprintf("the %s (upstream %d) does not count: ", strings.ToUpper(d.kind), d.number)
	sees, known, why := r.Bench.Sees()
	switch {
	case !known:
		return uncounted{name + why, []figure.Need{bench.EarthingNeed}}
	case !sees:
		return uncounted{note: name + why}
	}
	link := r.Bench.Sheet.Upstream[d.number-1]
	tested, why, missing := r.Bench.Tested(link)
	switch {
	case r.Bench.Rectifies() && !bench.SeesOneWay(link):
		u := uncounted{note: name + "a rectifier works straight on the line, and it need not see what that makes one-way"}
		if link.Kind == "rcd" && link.Word("type") == "" {
			u.needs = need("type", "ac, a or b, by the mark on its front")
		}
		return u
	case missing == "readings taken":
		return uncounted{name + why, []figure.Need{{What: missing, How: "the day of the readings"}}}
	case !tested:
		return uncounted{name + why, need("tested", press)}
	}
	return uncounted{name + "its rating is not on the sheet", need("rating", "read it off the device")}
}

// computeServes asks it of a bonded chassis too, whose fuse alone may not do.
func computeServes(b *bench.Bench) []figure.Figure {
	r := chainOf(b)
	u, uncounted := r.uncounted()
	serves := uncounted && len(u.needs) > 0 && r.exceeds()
	return residuals(b, func(s figure.Subject, _ residual) figure.Figure { return figure.Is(servesDef, s, serves) })
}

func computeCounts(b *bench.Bench) []figure.Figure {
	r := chainOf(b)
	return residuals(b, func(s figure.Subject, d residual) figure.Figure {
		u := r.unlike(d)
		switch {
		case d.counts:
			return figure.Is(countsDef, s, true)
		case len(u.needs) == 0:
			return figure.Is(countsDef, s, false)
		}
		f := figure.NotKnown(countsDef, s, u.needs...)
		f.Note = u.note
		return f
	})
}

// exceeds tells whether with one fault a hand may get more than it can let go of.
func (r *chain) exceeds() bool {
	for _, t := range r.Metals {
		if !t.Touched {
			continue
		}
		if w, err := ofOther(r, t); err != nil || !(w.high <= limit("one-fault")) {
			return true
		}
	}
	return false
}

// residuals computes a figure of every residual device in the chain.
func residuals(b *bench.Bench, compute func(figure.Subject, residual) figure.Figure) []figure.Figure {
	var out []figure.Figure
	for _, d := range chainOf(b).devices.residuals {
		s := b.Subjects("link")[d.number-1]
		f := compute(s, d)
		f.At = s.At
		out = append(out, f)
	}
	return out
}
