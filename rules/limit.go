package rules

import (
	"math"
	"strings"

	"firstvolt/checks/quantity"
	"firstvolt/checks/strict"
)

// Limit is what a demand asks of a figure: bounds, both inclusive, in the SI
// unit of Dim, or presence. Exactly one side is used; bounds may be one or two.
// Its JSON is that of the machine output.
type Limit struct {
	AtMost  *float64     `json:"at_most,omitempty"`
	AtLeast *float64     `json:"at_least,omitempty"`
	Unit    string       `json:"unit,omitempty"` // Dim.SI()
	Present *bool        `json:"present,omitempty"`
	Dim     quantity.Dim `json:"-"`
	Should  bool         `json:"-"` // from a should
	Written string       `json:"-"` // the value or the two as the book writes them; empty for presence
}

// reach is how a value lies to a limit.
type reach uint8

const (
	within  reach = iota // wholly
	astride              // partly, or nobody can tell
	beyond               // wholly
)

// of places a range to the limit. Both are rounded to six digits before they
// are compared, and a comparison that is not plainly true counts as false.
func (l *Limit) of(r quantity.Range) reach {
	if l == nil {
		return within
	}
	r = r.Rounded()
	in := l.AtMost != nil || l.AtLeast != nil
	if l.AtMost != nil {
		if r.Low > *l.AtMost {
			return beyond
		}
		if !(r.High <= *l.AtMost) {
			in = false
		}
	}
	if l.AtLeast != nil {
		if r.High < *l.AtLeast {
			return beyond
		}
		if !(r.Low >= *l.AtLeast) {
			in = false
		}
	}
	if in {
		return within
	}
	return astride
}

// ofPresence places presence to the limit.
func (l *Limit) ofPresence(present bool) reach {
	switch {
	case l == nil:
		return within
	case l.Present == nil:
		return astride
	case *l.Present == present:
		return within
	}
	return beyond
}

// and is the limit that holds where both hold. Load sees to it that limits of
// presence in one clause are alike.
func (l *Limit) and(o *Limit) *Limit {
	if l == nil || o == nil {
		if l == nil {
			return o
		}
		return l
	}
	both := *l
	if o.AtMost != nil && (both.AtMost == nil || *o.AtMost < *both.AtMost) {
		both.AtMost = o.AtMost
	}
	if o.AtLeast != nil && (both.AtLeast == nil || *o.AtLeast > *both.AtLeast) {
		both.AtLeast = o.AtLeast
	}
	return &both
}

// bounds are the limit's ends, infinite where it has none.
func (l *Limit) bounds() (low, high float64) {
	low, high = math.Inf(-1), math.Inf(1)
	if l.AtLeast != nil {
		low = *l.AtLeast
	}
	if l.AtMost != nil {
		high = *l.AtMost
	}
	return low, high
}

// covers tells whether everything that o lets through l lets through too.
func (l *Limit) covers(o *Limit) bool {
	if l.Present != nil || o.Present != nil {
		return l.Present != nil && o.Present != nil && *l.Present == *o.Present
	}
	low, high := l.bounds()
	olow, ohigh := o.bounds()
	return low <= olow && ohigh <= high
}

// meets tells whether any value satisfies both.
func (l *Limit) meets(o *Limit) bool {
	if l.Present != nil || o.Present != nil {
		return l.covers(o)
	}
	low, high := l.and(o).bounds()
	return low <= high
}

// digits are as many, from three on, as tell the ends of a value from those of
// the limit in print, where they differ at all.
func (l *Limit) digits(r quantity.Range) int {
	const fewest, most = 3, 6 // values are judged at six
	if l == nil {
		return fewest
	}
	r = r.Rounded()
	low, high := l.bounds()
	for n := fewest; n < most; n++ {
		apart := true
		for _, x := range []float64{r.Low, r.High} {
			for _, end := range []float64{low, high} {
				alike := !math.IsInf(end, 0) && !math.IsInf(x, 0) && quantity.FormatTo(x, l.Dim, n) == quantity.FormatTo(end, l.Dim, n)
				apart = apart && (x == end || !alike)
			}
		}
		if apart {
			return n
		}
	}
	return most
}

// String words the limit: "at most 0.1 Ω", "present".
func (l *Limit) String() string { return l.to(3) }

func (l *Limit) to(digits int) string {
	format := func(x float64) string { return quantity.FormatTo(x, l.Dim, digits) }
	switch {
	case l == nil:
		return "anything"
	case l.Present != nil && *l.Present:
		return "present"
	case l.Present != nil:
		return "absent"
	case l.AtMost != nil && l.AtLeast != nil:
		return "between " + format(*l.AtLeast) + " and " + format(*l.AtMost)
	case l.AtMost != nil:
		return "at most " + format(*l.AtMost)
	case l.AtLeast != nil:
		return "at least " + format(*l.AtLeast)
	}
	return "anything"
}

// bound reads one end of a limit. Figures may be signed, sheets may not, so
// the sign is taken off before the quantity is read.
func bound(text string, d quantity.Dim) (float64, error) {
	s := strings.TrimSpace(strings.ReplaceAll(text, "\u2212", "-"))
	sign := 1.0
	if rest, ok := strings.CutPrefix(s, "-"); ok && d != quantity.Temperature {
		sign, s = -1, strings.TrimSpace(rest)
	}
	r, err := quantity.Parse(s, d)
	if err != nil {
		return 0, err
	}
	if r.Low != r.High {
		return 0, &strict.Fault{Wrong: "a limit is one value, not a span", Right: "write it like " + d.Example() + ", or between: A to B"}
	}
	return sign * quantity.Six(r.Low), nil
}

// span reads the two ends of a between.
func span(text string, d quantity.Dim) (low, high float64, err error) {
	a, b, ok := strings.Cut(text, " to ")
	if !ok {
		return 0, 0, &strict.Fault{Wrong: "between needs two values", Right: "write between: A to B, the smaller first"}
	}
	if low, err = bound(a, d); err != nil {
		return 0, 0, err
	}
	if high, err = bound(b, d); err != nil {
		return 0, 0, err
	}
	if !(low < high) {
		return 0, 0, &strict.Fault{Wrong: "the span leaves no room", Right: "write the smaller value first"}
	}
	return low, high, nil
}
