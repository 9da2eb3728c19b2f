package quantity

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// offered is the error that a text is wrong and what to write in its place. A
// form that would be refused in its turn is mended too; where that cannot be
// done, or what was meant is anyone's guess, an example is shown instead.
func offered(want Dim, form, format string, args ...any) error {
	if mended, ok := mend(form, want); ok {
		return choice(fmt.Sprintf(format, args...), mended)
	}
	return bad("write it like "+want.Example(), format, args...)
}

const addUnit = "add the unit, like "

// mend is the text in a form that reads: itself, or what its error offers.
func mend(text string, want Dim) (string, bool) {
	_, err := Parse(text, want)
	if err == nil {
		return text, true
	}
	var e *Error
	if errors.As(err, &e) && len(e.mended) == 1 {
		return e.mended[0], true
	}
	return "", false
}

// choice is the error whose mended forms are these.
func choice(wrong string, mended ...string) error {
	right := "write " + strings.Join(mended, " or ")
	if len(mended) > 1 {
		right += ", whichever is meant"
	}
	return &Error{Wrong: wrong, Right: right, mended: mended}
}

// overAgain is the error of a bound whose value is wrong: what it offers is
// still a bound.
func overAgain(err error) error {
	var e *Error
	if !errors.As(err, &e) {
		return err
	}
	if like, ok := strings.CutPrefix(e.Right, addUnit); ok {
		return bad(addUnit+"over "+strings.ReplaceAll(like, " or ", " or over "), "%s", e.Wrong)
	}
	if len(e.mended) == 0 {
		return err
	}
	var over []string
	for _, m := range e.mended {
		if strings.Contains(m, " to ") {
			return bad("write it like over "+m[:strings.Index(m, " to ")], "a bound is one value")
		}
		over = append(over, "over "+m)
	}
	return choice(e.Wrong, over...)
}

// span reads the two ends of a span. One unit behind both is offered for each.
func span(text, a, b string, want Dim) (Range, error) {
	if bareSpan.MatchString(b) {
		return Range{}, bad("a span has two ends, like "+want.Example()+" to "+want.Example(), "%q is not a span", text)
	}
	low, errLow := single(a, want)
	high, errHigh := single(b, want)
	first := errLow
	if first == nil {
		first = errHigh
	}
	if first == nil && !(low <= high) {
		return Range{}, bad("write the smaller value first", "%q runs from high to low", text)
	}
	if first == nil {
		return Range{low, high, want}, nil
	}
	if plainNumber.FindString(a) == a {
		a += " " + strings.TrimSpace(strings.TrimLeft(b, ".,0123456789"))
	}
	from, okFrom := mend(a, want)
	to, okTo := mend(b, want)
	if mended := from + " to " + to; okFrom && okTo && !strings.Contains(from+to, " to ") {
		if _, err := Parse(mended, want); err == nil {
			var e *Error
			errors.As(first, &e)
			return Range{}, choice(e.Wrong, mended)
		}
	}
	return Range{}, first
}

// several is the error of values with strokes between them. A nameplate lists so
// what it may be set to, a supply is of one or the other; 1/2 W is one value,
// and 8/16 µF a can of two.
func several(s string, want Dim) error {
	m := strokes.FindStringSubmatch(s)
	if m == nil {
		return nil
	}
	low, high := math.Inf(1), math.Inf(-1)
	texts := [2]string{}
	pieces := strings.Split(m[1], "/")
	for _, p := range pieces {
		p = strings.TrimSpace(strings.TrimRight(strings.TrimSpace(p), letters))
		x, err := strconv.ParseFloat(p, 64)
		if err != nil {
			return nil
		}
		if x < low {
			low, texts[0] = x, p
		}
		if x > high {
			high, texts[1] = x, p
		}
	}
	unit := strings.TrimSpace(m[2])
	if unit == "" {
		unit = want.Unit()
	}
	a, b := pieces[0], pieces[1]
	switch {
	case want == Capacitance:
		if one, ok := mend(a+" "+unit, want); ok {
			return bad("each section of a can is a part of its own, one of them like "+one, "%q is several values", s)
		}
	case len(pieces) == 2 && want == Area:
		return offered(want, a+" AWG", "%q is a size with a number of conductors", s)
	case len(pieces) == 2 && len(a) == 1 && len(b) <= 2 && b != "0" && low > 0:
		x, _ := strconv.ParseFloat(a, 64)
		y, _ := strconv.ParseFloat(b, 64)
		return offered(want, strings.TrimSpace(trim(Six(x/y))+" "+unit), "%q is a fraction", s)
	case !(low > 0):
	case want == Voltage || want == Frequency || want == Power || want == Current:
		if mended, ok := mend(fmt.Sprintf("%s %s to %s %s", texts[0], unit, texts[1], unit), want); ok {
			return &Error{Wrong: fmt.Sprintf("%q is several values", s), Right: "write " + mended + " on a nameplate, and one of them elsewhere", mended: []string{mended}}
		}
	}
	return nil
}
