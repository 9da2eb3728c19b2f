package quantity

import (
	"errors"
	"fmt"
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
	if bareSpan().FindStringSubmatch(b) != nil {
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
	if leadingNumber(a) == a {
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
