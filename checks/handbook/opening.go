package handbook

import (
	"math"

	"firstvolt/checks/quantity"
)

// A branch device is known by its rating and at most by its letter. It is certain
// to be quick only at 5, 10 or 20 times its rating, by its letter B, C, D (20
// unless stated), to open within a minute at 2.55 times, and below 1.45 times
// not at all (IEC 60898-1, recalled, not looked up).
var quickBy = map[string]float64{"B": 5, "C": 10, "D": 20, "": 20}

const (
	within60 = 2.55
	never60  = 1.45
)

// BranchDevice is the device of the receptacle's circuit: rating in A, and by how
// many times that it is certain to be quick.
type BranchDevice struct{ Rating, Quick float64 }

// NewBranchDevice is one of a rating in A and a letter, any other than B, C, D
// being none.
func NewBranchDevice(rating float64, letter string) BranchDevice {
	quick, ok := quickBy[letter]
	if !ok {
		quick = quickBy[""]
	}
	return BranchDevice{rating, quick}
}

// Never is the current in A below which it never opens.
func (d BranchDevice) Never() float64 { return never60 * d.Rating }

// OpensBy is by when it is certain to open at a current in A, in s from the
// onset; quick where it is quick, +Inf where it need not open.
func (d BranchDevice) OpensBy(amps, quick float64) float64 {
	switch {
	case amps >= d.Quick*d.Rating:
		return quick
	case amps >= within60*d.Rating:
		return 60
	}
	return math.Inf(1)
}

// FuseBounds bounds when a fuse opens at a current in A. Of a rating that the
// sheets for its body leave out, which is made and sold all the same, it takes
// the wider of what they say of the nearest rating, current in proportion, and
// of what other bodies of the rating do.
func FuseBounds(standard, speed, body string, rating, amps float64) (quantity.Range, bool) {
	bound := func(body string, of float64) (quantity.Range, bool) {
		at := amps * of / rating
		t, _, ok := FuseOpens(standard, speed, body, of, at)
		t.High = math.Min(t.High, warming(standard, speed, body, of, at))
		return t, ok
	}
	if t, ok := bound(body, rating); ok {
		return t, true
	}
	other, ok := bound("", rating)
	if !ok {
		return other, false
	}
	nearest := math.NaN()
	for _, r := range FuseSeries(standard) {
		if _, _, ok := FuseGates(standard, speed, body, r); ok && !(math.Abs(r-rating) >= math.Abs(nearest-rating)) {
			nearest = r
		}
	}
	if same, ok := bound(body, nearest); ok {
		return same.Hull(other), true
	}
	return other, false
}

// warming bounds from a fuse's gates how long it takes beyond the last of
// them. What heats by I² and loses heat to all about it warms ever more slowly,
// so that what opens at I₀ within t₀ opens at I within t₀·(I₀/I)²; twice that,
// for the heat of melting, and one half cycle of 50 Hz for the arc.
func warming(standard, speed, body string, rating, amps float64) float64 {
	gates, _, ok := FuseGates(standard, speed, body, rating)
	best := math.Inf(1)
	if !ok {
		return best
	}
	for _, g := range gates {
		if from := g.Multiple * rating; amps > from {
			best = math.Min(best, 2*g.Max*(from/amps)*(from/amps)+0.01)
		}
	}
	return best
}

// FuseCarries is the most current in A that a fuse of such a rating may carry
// without ever opening; +Inf where its sheets do not say.
func FuseCarries(standard, speed, body string, rating float64) float64 {
	most := func(body string, of float64) (float64, bool) {
		gates, _, ok := FuseGates(standard, speed, body, of)
		for _, g := range gates {
			if ok && !math.IsInf(g.Max, 1) {
				return g.Multiple * rating, true
			}
		}
		return 0, false
	}
	if amps, ok := most(body, rating); ok {
		return amps
	}
	// A rating that the sheets for its body leave out: the most that the
	// others of it, and other bodies of the rating, may carry.
	worst, ok := most("", rating)
	for _, r := range FuseSeries(standard) {
		if amps, of := most(body, r); of {
			worst, ok = math.Max(worst, amps), true
		}
	}
	if !ok {
		return math.Inf(1)
	}
	return worst
}
