package quantity

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"firstvolt/checks/pattern"
)

var (
	decimalComma = pattern.Of(`^[+-]?\d+,\d+`)
	exponent     = pattern.Of(`^([+-]?\d*\.?\d+)[eE]([+-]?\d{1,3})(.*)$`)
	letterPoint  = pattern.Of(`^(\d+)([RrKkMmµunp])(\d+)(.*)$`)
	bareSpan     = pattern.Of(`^(\S.*?)\s+to\s+(\S.*)$`)
	dashSpan     = pattern.Of(`^(\d+(?:\.\d+)?)\s*([^\d\s]*)\s*(?:-|–|—|\.\.+)\s*(\d+(?:\.\d+)?)\s*(\D*)$`)
	otherBound   = pattern.Of(`^(?i:>\s*=|≥|≧|over|above|more than|greater than|min\.?|at least)\s*(.*)$`)
	notFinite    = pattern.Of(`^[+.-]*(?i:nan|inf|infinity|∞)(?:[^\pL]|$)`)
	thousands    = pattern.Of(`^(\d{1,3})((?:[ '’]\d{3})+)(?:\D|$)`)
	threeAfter   = pattern.Of(`^\d{1,3},\d{3}(?:\D|$)`)
	strokes      = pattern.Of(`^(\d{1,9}(?:\.\d{1,9})?(?:\s*` + "[" + letters + "]" + `*\s*/\s*\d{1,9}(?:\.\d{1,9})?)+)(\D.*)?$`)
	gaugeFirst   = pattern.Of(`^(?i:AWG|#)\s*(\d+)$`)
)

// letters of the units that may stand behind each of several values.
const letters = "VAWHzF~µ"

// misspelling is a form in which people write a quantity elsewhere, and the error
// that offers the right one, nil where it is not that after all.
type misspelling struct {
	form func() *regexp.Regexp
	mend func(text, []string) error
}

// text is what is read as a quantity: the whole, and without the sign that it
// may have.
type text struct {
	whole, body string
	want        Dim
}

func (t text) offer(form, format string) error { return offered(t.want, form, format, t.whole) }

// misspellings are looked through in this order.
func misspellings() []misspelling {
	return []misspelling{
		{threeAfter, text.oneComma},
		{decimalComma, func(t text, _ []string) error {
			return t.offer(strings.Replace(t.whole, ",", ".", 1), "%q has a decimal comma")
		}},
		{exponent, text.exponent},
		{thousands, func(t text, m []string) error {
			number := m[1] + m[2]
			return t.offer(strings.NewReplacer(" ", "", "'", "", "’", "").Replace(number)+t.body[len(number):], "%q has a number in pieces")
		}},
		{gaugeFirst, func(t text, m []string) error {
			if t.want != Area {
				return nil
			}
			return t.offer(m[1]+" AWG", "%q has the unit before the number")
		}},
		{dashSpan, func(t text, m []string) error {
			u := strings.TrimSpace(m[4])
			if u == "" {
				u = t.want.Unit()
			}
			return t.offer(strings.TrimSpace(m[1]+" "+u)+strings.TrimRight(" to "+m[3]+" "+u, " "), "%q is not a span")
		}},
		{strokes, text.several},
		{letterPoint, func(t text, m []string) error {
			prefix := strings.NewReplacer("R", "", "r", "", "K", "k", "u", "µ").Replace(m[2])
			return t.offer(fmt.Sprintf("%s.%s %s%s", m[1], m[3], prefix, t.want.Unit()), "%q has a letter in place of the point")
		}},
	}
}

// misspelled is the error of a text in a form that is known from elsewhere, nil
// where it is in none.
func misspelled(t text) error {
	if strings.HasPrefix(t.whole, "-") && t.want != Temperature {
		like := strings.TrimSpace(t.whole[1:])
		if _, err := single(strings.TrimLeft(like, "-"), t.want); err != nil || strings.HasPrefix(like, "-") {
			like = t.want.Example()
		}
		return bad("a value of zero or more, like "+like, "%q is negative", t.whole)
	}
	if strings.HasPrefix(t.body, "+") || strings.HasPrefix(t.body, "±") {
		return bad("leave the sign off", "%q has a sign", t.whole)
	}
	for _, known := range misspellings() {
		if m := known.form().FindStringSubmatch(t.body); m != nil {
			if err := known.mend(t, m); err != nil {
				return err
			}
		}
	}
	return nil
}

// oneComma is the error of a comma before three digits: of thousands, or a
// point.
func (t text) oneComma([]string) error {
	point, ok := mend(strings.Replace(t.body, ",", ".", 1), t.want)
	if whole, also := mend(strings.Replace(t.body, ",", "", 1), t.want); ok && also {
		return choice(fmt.Sprintf("%q has a comma", t.whole), point, whole)
	}
	return t.offer(point, "%q has a comma")
}

func (t text) exponent(m []string) error {
	unit := strings.TrimSpace(m[3])
	if x, err := strconv.ParseFloat(m[1]+"e"+m[2], 64); err == nil && unit != "" {
		if r, err := attach(x, unit, t.want); err == nil {
			like := Format(r, t.want)
			if again, err := single(like, t.want); err != nil || again != r {
				like = strings.TrimSpace(trim(r) + " " + t.want.Unit())
			}
			return t.offer(like, "%q has an exponent")
		}
	}
	return bad("write a plain decimal number with a unit, like "+t.want.Example(), "%q has an exponent", t.whole)
}

// several is the error of values with strokes between them. A nameplate lists so
// what it may be set to, a supply is of one or the other; 1/2 W is one value,
// and 8/16 µF a can of two.
func (t text) several(m []string) error {
	want := t.want
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
			return bad("each section of a can is a part of its own, one of them like "+one, "%q is several values", t.body)
		}
	case len(pieces) == 2 && want == Area:
		return offered(want, a+" AWG", "%q is a size with a number of conductors", t.body)
	case len(pieces) == 2 && len(a) == 1 && len(b) <= 2 && b != "0" && low > 0:
		x, _ := strconv.ParseFloat(a, 64)
		y, _ := strconv.ParseFloat(b, 64)
		return offered(want, strings.TrimSpace(trim(Six(x/y))+" "+unit), "%q is a fraction", t.body)
	case !(low > 0):
	case want == Voltage || want == Frequency || want == Power || want == Current:
		if mended, ok := mend(fmt.Sprintf("%s %s to %s %s", texts[0], unit, texts[1], unit), want); ok {
			return &Error{Wrong: fmt.Sprintf("%q is several values", t.body), Right: "write " + mended + " on a nameplate, and one of them elsewhere", mended: []string{mended}}
		}
	}
	return nil
}
