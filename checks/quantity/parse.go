package quantity

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// Error says what is wrong with a text that should be a quantity and what
// would be right.
type Error struct{ Wrong, Right string }

func (e *Error) Error() string { return e.Wrong + "; " + e.Right }

// Fault gives both halves, so that a reader can add the place.
func (e *Error) Fault() (wrong, right string) { return e.Wrong, e.Right }

func bad(right, format string, args ...any) error {
	return &Error{fmt.Sprintf(format, args...), right}
}

var (
	decimalComma = regexp.MustCompile(`^[+-]?\d+,\d+`)
	exponent     = regexp.MustCompile(`^([+-]?\d*\.?\d+)[eE]([+-]?\d{1,3})(.*)$`)
	letterPoint  = regexp.MustCompile(`^(\d+)([RrKkMmµunp])(\d+)(.*)$`)
	plainNumber  = regexp.MustCompile(`^(\d+(?:\.\d+)?|\.\d+)`)
	bareSpan     = regexp.MustCompile(`^(\S.*?)\s+to\s+(\S.*)$`)
)

// Parse reads a value of dimension want: "4.7 nF", "110 V to 125 V",
// "over 500 MΩ" or "> 500 MΩ". It returns bounds in SI units; the error is an
// *Error. A sign is accepted on temperatures only.
func Parse(text string, want Dim) (Range, error) {
	s := strings.TrimSpace(normal.Replace(text))
	right := fmt.Sprintf("write it like %s", want.Example())
	if s == "" {
		return Range{}, bad(right, "the value is empty")
	}
	for _, over := range []string{"over ", ">"} {
		if rest, ok := strings.CutPrefix(s, over); ok {
			r, err := single(strings.TrimSpace(rest), want)
			if err != nil {
				return Range{}, err
			}
			return AtLeast(r, want), nil
		}
	}
	if m := bareSpan.FindStringSubmatch(s); m != nil {
		low, err := single(m[1], want)
		if err != nil {
			return Range{}, err
		}
		high, err := single(m[2], want)
		if err != nil {
			return Range{}, err
		}
		if !(low <= high) {
			return Range{}, bad("write the smaller value first", "the span %q runs from high to low", text)
		}
		return Range{low, high, want}, nil
	}
	x, err := single(s, want)
	if err != nil {
		return Range{}, err
	}
	return Exact(x, want), nil
}

// single reads one number with its unit.
func single(s string, want Dim) (float64, error) {
	right := fmt.Sprintf("write it like %s", want.Example())
	negative := strings.HasPrefix(s, "-")
	if negative && want != Temperature {
		if x, err := single(strings.TrimSpace(s[1:]), want); err == nil {
			return 0, bad(fmt.Sprintf("a value of zero or more, like %s", Format(x, want)), "%q is negative", s)
		}
		return 0, bad("a value of zero or more, like "+want.Example(), "%q is negative", s)
	}
	body := s
	if want == Temperature {
		body = strings.TrimPrefix(strings.TrimPrefix(body, "-"), "+")
	}
	if strings.HasPrefix(body, "+") || strings.HasPrefix(body, "±") {
		return 0, bad("leave the sign off", "%q has a sign", s)
	}
	if decimalComma.MatchString(body) {
		return 0, bad(fmt.Sprintf("write %s", strings.Replace(body, ",", ".", 1)), "%q has a decimal comma", s)
	}
	if m := exponent.FindStringSubmatch(body); m != nil {
		if x, err := strconv.ParseFloat(m[1]+"e"+m[2], 64); err == nil && strings.TrimSpace(m[3]) != "" {
			if r, _, err := attach(x, strings.TrimSpace(m[3]), want); err == nil {
				return 0, bad(fmt.Sprintf("write %s", Format(r, want)), "%q has an exponent", s)
			}
		}
		return 0, bad("write a plain decimal number with a unit, like "+want.Example(), "%q has an exponent", s)
	}
	if m := letterPoint.FindStringSubmatch(body); m != nil {
		p := strings.NewReplacer("R", "", "r", "", "K", "k", "u", "µ").Replace(m[2])
		u := want.Unit()
		return 0, bad(fmt.Sprintf("write %s.%s %s%s", m[1], m[3], p, u), "%q has a letter in place of the point", s)
	}
	num := plainNumber.FindString(body)
	if num == "" {
		switch strings.ToLower(strings.Trim(body, ".+- ")) {
		case "nan", "inf", "infinity", "∞":
			return 0, bad("write a finite number, like "+want.Example(), "%q is not a finite number", s)
		}
		return 0, bad(right, "%q is not a number with a unit", s)
	}
	rest := body[len(num):]
	if strings.HasPrefix(rest, ".") || strings.HasPrefix(rest, ",") {
		return 0, bad("write a plain decimal number with one point, like "+want.Example(), "%q is not a plain number", s)
	}
	x, err := strconv.ParseFloat(num, 64)
	if err != nil || math.IsInf(x, 0) || math.IsNaN(x) {
		return 0, bad(right, "%q is not a finite number", s)
	}
	y, got, err := attach(x, strings.TrimSpace(rest), want)
	if err != nil {
		return 0, err
	}
	_ = got
	if negative {
		y = -x
		if strings.HasSuffix(strings.TrimSpace(rest), "F") {
			y = (-x - 32) / 1.8
		}
	}
	limit := dims[want].max
	if !(math.Abs(y) <= limit) {
		return 0, bad(fmt.Sprintf("at most %s; look at the prefix", Format(limit, want)), "%q is beyond anything on a bench", s)
	}
	if want == Temperature && y < -273.15 {
		return 0, bad(right, "%q is below absolute zero", s)
	}
	return y, nil
}

// attach gives x its unit: the value in SI and the dimension met.
func attach(x float64, u string, want Dim) (float64, Dim, error) {
	if u == "" {
		if want == Number {
			return x, Number, nil
		}
		return 0, want, bad(fmt.Sprintf("add the unit, like %s", strings.TrimSpace(trim(x)+" "+want.Unit())), "the unit is missing")
	}
	if strings.ContainsAny(u, "0123456789") && u != "mm2" {
		return 0, want, bad("one number and one unit, like "+want.Example(), "%q is not a unit", u)
	}
	if want == Number {
		return 0, want, bad("write the number alone", "a number without unit belongs here, not %q", u)
	}
	name := u
	if n, ok := strings.CutPrefix(u, "u"); ok {
		name = "µ" + n
	}
	for _, k := range units {
		if name == k.name {
			return convert(x, k, 1, u, want)
		}
	}
	for _, k := range units {
		p, ok := strings.CutSuffix(name, k.name)
		if ok && p != "" && strings.Contains(k.prefixes, p) && len([]rune(p)) == 1 {
			return convert(x, k, prefixes[p], u, want)
		}
		if ok && p == "K" && strings.Contains(k.prefixes, "k") {
			return 0, want, bad(fmt.Sprintf("write %s k%s", trim(x), k.name), "%q is not a unit; kilo is a small k", u)
		}
	}
	switch strings.ToLower(u) {
	case "mfd", "mf", "uf", "µf":
		return 0, want, bad(fmt.Sprintf("write %s µF", trim(x)), "%q is not a unit", u)
	case "mmf", "mmfd", "uuf", "µµf", "pf":
		return 0, want, bad(fmt.Sprintf("write %s pF", trim(x)), "%q is not a unit", u)
	case "meg", "megohm", "megohms", "mohm", "mohms":
		return 0, want, bad(fmt.Sprintf("write %s MΩ", trim(x)), "%q is not a unit", u)
	case "k", "m", "r", "n", "p", "µ", "u", "g":
		return 0, want, bad(fmt.Sprintf("write %s %s%s", trim(x), strings.ReplaceAll(u, "R", ""), want.Unit()), "%q is no unit alone", u)
	}
	return 0, want, bad(fmt.Sprintf("a value in %s, like %s", want.Unit(), want.Example()), "%q is not a unit known here", u)
}

func convert(x float64, k unit, prefix float64, written string, want Dim) (float64, Dim, error) {
	if k.dim != want {
		return 0, want, bad(fmt.Sprintf("a value in %s, like %s", want.Unit(), want.Example()), "%q is the wrong unit", written)
	}
	switch k.name {
	case "AWG":
		if x != math.Trunc(x) || x > 40 {
			return 0, want, bad("a whole size, like 18 AWG", "AWG %s is not a size", trim(x))
		}
		return Gauge(x), want, nil
	case "°F":
		return (x - 32) / 1.8, want, nil
	}
	y := x * k.scale * prefix
	// A product such as 4.7 × 1e-9 is off by a last bit; the text is the truth.
	if exact, err := strconv.ParseFloat(trim(x)+"e"+strconv.Itoa(int(math.Round(math.Log10(k.scale*prefix)))), 64); err == nil &&
		math.Abs(exact-y) <= 1e-15*math.Abs(y)*4 {
		y = exact
	}
	return y, want, nil
}

func trim(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
