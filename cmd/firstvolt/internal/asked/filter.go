package asked

import (
	"fmt"
	"slices"
	"strings"

	"firstvolt/checks/faults"
)

// point is a case by its names, and where it stands in the list that it is of.
type point struct {
	faults.Which
	open int // how many switches are; known of layers only
	at   int
}

// filter is one thing that is asked of a case.
type filter struct {
	option string // that asks it
	given  bool   // and is not just what goes without saying
	fits   func(point) bool
	is     func(point) string // what the option would have to say for this case
	says   string             // what is asked, for a person
	means  string             // the same in the program's words
	fault  faults.Fault       // of the filter by fault
}

// chosen are the points that every filter lets through. Where none is left the
// error says what to ask besides or instead.
func chosen(points []point, filters []filter) ([]point, error) {
	if out := through(points, filters, -1); len(out) > 0 {
		return out, nil
	}
	var all, hints []string
	for i, f := range filters {
		all = append(all, f.says)
		if f.option == "fault" {
			continue // it is what was asked about
		}
		if p := through(points, filters, i); len(p) > 0 {
			hints = append(hints, f.instead(p))
		}
	}
	if len(hints) == 0 {
		hints = append(hints, besides(points, filters))
	}
	return nil, &Error{"no case has all of this: " + strings.Join(all, ", "), strings.Join(hints, "\nor ")}
}

// through are the points that every filter but one lets through.
func through(points []point, filters []filter, but int) []point {
	var out []point
	for _, p := range points {
		fits := true
		for i, f := range filters {
			fits = fits && (i == but || f.fits(p))
		}
		if fits {
			out = append(out, p)
		}
	}
	return out
}

// most is how many values of an option a hint lists.
const most = 6

// instead says what the option would have to be for one of the points.
func (f filter) instead(points []point) string {
	if f.option == "part" || f.option == "limiter" && !points[0].Limiter {
		return "leave --" + f.option + " out"
	}
	var all []string
	for _, p := range points {
		if v := f.typed(p); !slices.Contains(all, v) {
			all = append(all, v)
		}
	}
	more := ""
	if len(all) > most {
		more = fmt.Sprintf(", or %d more", len(all)-most)
		all = all[:most]
	}
	if f.given {
		return "there is one with " + strings.Join(all, ", or ") + more
	}
	return "add " + strings.Join(all, ", or ") + more
}

// typed is the option as it would have to be typed for the point.
func (f filter) typed(p point) string {
	if f.option == "limiter" {
		return "--limiter"
	}
	return fmt.Sprintf(`--%s "%s"`, f.option, f.is(p))
}

// besides is what would have to be said besides the fault for its first case.
func besides(points []point, filters []filter) string {
	if filters[0].option == "fault" {
		points = through(points, filters[:1], -1)
	}
	if len(points) == 0 || filters[0].option != "fault" {
		return "firstvolt faults SHEET --all lists every case"
	}
	var all []string
	for _, f := range filters {
		switch {
		case f.fits(points[0]):
		case f.option == "part", f.option == "limiter" && !points[0].Limiter:
			all = append(all, "no --"+f.option)
		default:
			all = append(all, f.typed(points[0]))
		}
	}
	return "there is one with " + strings.Join(all, " and ")
}
