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
type Error struct {
	Wrong, Right string
	mended       []string // the text as it would be read, where Right offers that; two are a choice
}

func (e *Error) Error() string { return e.Wrong + "; " + e.Right }

// Fault gives both halves, so that a reader can add the place.
func (e *Error) Fault() (wrong, right string) { return e.Wrong, e.Right }

func bad(right, format string, args ...any) error {
	return &Error{Wrong: fmt.Sprintf(format, args...), Right: right}
}

var (
	decimalComma = regexp.MustCompile(`^[+-]?\d+,\d+`)
	exponent     = regexp.MustCompile(`^([+-]?\d*\.?\d+)[eE]([+-]?\d{1,3})(.*)$`)
	letterPoint  = regexp.MustCompile(`^(\d+)([RrKkMmµunp])(\d+)(.*)$`)
	plainNumber  = regexp.MustCompile(`^(\d+(?:\.\d+)?|\.\d+)`)
	bareSpan     = regexp.MustCompile(`^(\S.*?)\s+to\s+(\S.*)$`)
	dashSpan     = regexp.MustCompile(`^(\d+(?:\.\d+)?)\s*([^\d\s]*)\s*(?:-|–|—|\.\.+)\s*(\d+(?:\.\d+)?)\s*(\D*)$`)
	otherBound   = regexp.MustCompile(`^(?i:>\s*=|≥|≧|over|above|more than|greater than|min\.?|at least)\s*(.*)$`)
	notFinite    = regexp.MustCompile(`^[+.-]*(?i:nan|inf|infinity|∞)(?:[^\pL]|$)`)
	thousands    = regexp.MustCompile(`^(\d{1,3})((?:[ '’]\d{3})+)(?:\D|$)`)
	threeAfter   = regexp.MustCompile(`^\d{1,3},\d{3}(?:\D|$)`)
	strokes      = regexp.MustCompile(`^(\d{1,9}(?:\.\d{1,9})?(?:\s*` + "[" + letters + "]" + `*\s*/\s*\d{1,9}(?:\.\d{1,9})?)+)(\D.*)?$`)
	gaugeFirst   = regexp.MustCompile(`^(?i:AWG|#)\s*(\d+)$`)
)

// letters of the units that may stand behind each of several values.
const letters = "VAWHzF~µ"

// slips are units as people write them elsewhere, with the form that is right
// here. A unit that could mean two things is not among them.
var slips = map[string]string{
	"mfd": "µF", "MFD": "µF", "Mfd": "µF", "MF": "µF", "uF": "µF", "UF": "µF", "uf": "µF", "µf": "µF", "µFd": "µF", "µfd": "µF", "ufd": "µF", "uFd": "µF",
	"mmf": "pF", "mmfd": "pF", "MMF": "pF", "MMFD": "pF", "mmF": "pF", "uuF": "pF", "uuf": "pF", "µµF": "pF", "µµf": "pF", "pf": "pF", "PF": "pF", "nf": "nF", "NF": "nF",
	"meg": "MΩ", "Meg": "MΩ", "MEG": "MΩ", "megohm": "MΩ", "megohms": "MΩ", "Megohm": "MΩ", "Megohms": "MΩ", "MOhms": "MΩ", "Ω's": "Ω", "OHM": "Ω", "OHMS": "Ω", "R": "Ω", "r": "Ω",
	"Vac": "V", "VAC": "V", "vac": "V", "V AC": "V", "Vdc": "V", "VDC": "V", "vdc": "V", "V DC": "V", "v": "V", "Volt": "V", "volt": "V", "volts": "V", "Volts": "V", "kv": "kV", "KV": "kV", "mv": "mV",
	"a": "A", "amp": "A", "amps": "A", "Amp": "A", "Amps": "A", "amperes": "A", "ma": "mA", "MA": "mA", "w": "W", "watt": "W", "watts": "W", "Watt": "W", "Watts": "W", "va": "VA",
	"Hy": "H", "hy": "H", "henry": "H", "henries": "H", "mh": "mH", "hz": "Hz", "HZ": "Hz", "c/s": "Hz", "cps": "Hz", "c.p.s.": "Hz", "CPS": "Hz", "C/S": "Hz", "cycles": "Hz", "Cycles": "Hz", "cycle": "Hz", "cy": "Hz", "cycles/s": "Hz", "cycles/sec": "Hz", "Per": "Hz", "hertz": "Hz", "Hertz": "Hz", "~": "Hz",
	"V~": "V", "V ~": "V", "V=": "V", "v.": "V", "V.": "V",
	"feet": "ft", "foot": "ft", "'": "ft", "’": "ft", "inch": "in", "inches": "in", "\"": "in", "”": "in", "metre": "m", "metres": "m", "meter": "m", "meters": "m",
	"sq mm": "mm²", "sqmm": "mm²", "mm^2": "mm²", "qmm": "mm²", "awg": "AWG", "ga": "AWG", "gauge": "AWG",
	"sec": "s", "secs": "s", "second": "s", "seconds": "s", "S": "s", "minute": "min", "minutes": "min", "hours": "h",
	"C": "°C", "F": "°F", "deg C": "°C", "deg F": "°F", "percent": "%", "pct": "%", "digits.": "digits", "dgt": "digits", "dgts": "digits", "count": "digits", "counts": "digits",
}

// Parse reads a value of dimension want: "4.7 nF", "110 V to 125 V",
// "over 500 MΩ" or "> 500 MΩ". It returns bounds in SI units; the error is an
// *Error. A sign is accepted on temperatures only.
func Parse(text string, want Dim) (Range, error) {
	s := strings.TrimSpace(normal.Replace(text))
	right := fmt.Sprintf("write it like %s", want.Example())
	if s == "" {
		return Range{}, bad(right, "the value is empty")
	}
	if m := otherBound.FindStringSubmatch(s); m != nil && !strings.HasPrefix(s, "over ") {
		if mended, ok := mend(m[1], want); ok && !strings.Contains(mended, " to ") {
			return Range{}, offered(want, "over "+mended, "%q is not a bound known here", text)
		}
	}
	for _, over := range []string{"over ", ">"} {
		if rest, ok := strings.CutPrefix(s, over); ok {
			r, err := single(strings.TrimSpace(rest), want)
			if err != nil {
				return Range{}, overAgain(err)
			}
			return AtLeast(r, want), nil
		}
	}
	if m := bareSpan.FindStringSubmatch(s); m != nil {
		return span(text, m[1], m[2], want)
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
		like := strings.TrimSpace(s[1:])
		if _, err := single(strings.TrimLeft(like, "-"), want); err != nil || strings.HasPrefix(like, "-") {
			like = want.Example()
		}
		return 0, bad("a value of zero or more, like "+like, "%q is negative", s)
	}
	body := s
	if want == Temperature {
		body = strings.TrimPrefix(strings.TrimPrefix(body, "-"), "+")
	}
	if strings.HasPrefix(body, "+") || strings.HasPrefix(body, "±") {
		return 0, bad("leave the sign off", "%q has a sign", s)
	}
	if threeAfter.MatchString(body) {
		point, ok := mend(strings.Replace(body, ",", ".", 1), want)
		if whole, also := mend(strings.Replace(body, ",", "", 1), want); ok && also {
			return 0, choice(fmt.Sprintf("%q has a comma", s), point, whole)
		}
		return 0, offered(want, point, "%q has a comma", s)
	}
	if decimalComma.MatchString(body) {
		return 0, offered(want, strings.Replace(s, ",", ".", 1), "%q has a decimal comma", s)
	}
	if m := exponent.FindStringSubmatch(body); m != nil {
		if x, err := strconv.ParseFloat(m[1]+"e"+m[2], 64); err == nil && strings.TrimSpace(m[3]) != "" {
			if r, err := attach(x, strings.TrimSpace(m[3]), want); err == nil {
				like := Format(r, want)
				if again, err := single(like, want); err != nil || again != r {
					like = strings.TrimSpace(trim(r) + " " + want.Unit())
				}
				return 0, offered(want, like, "%q has an exponent", s)
			}
		}
		return 0, bad("write a plain decimal number with a unit, like "+want.Example(), "%q has an exponent", s)
	}
	if m := thousands.FindStringSubmatch(body); m != nil {
		return 0, offered(want, strings.NewReplacer(" ", "", "'", "", "’", "").Replace(m[1]+m[2])+body[len(m[1]+m[2]):], "%q has a number in pieces", s)
	}
	if m := gaugeFirst.FindStringSubmatch(body); m != nil && want == Area {
		return 0, offered(want, m[1]+" AWG", "%q has the unit before the number", s)
	}
	if m := dashSpan.FindStringSubmatch(body); m != nil {
		u := strings.TrimSpace(m[4])
		if u == "" {
			u = want.Unit()
		}
		return 0, offered(want, strings.TrimSpace(m[1]+" "+u)+strings.TrimRight(" to "+m[3]+" "+u, " "), "%q is not a span", s)
	}
	if err := several(body, want); err != nil {
		return 0, err
	}
	if m := letterPoint.FindStringSubmatch(body); m != nil {
		p := strings.NewReplacer("R", "", "r", "", "K", "k", "u", "µ").Replace(m[2])
		u := want.Unit()
		return 0, offered(want, fmt.Sprintf("%s.%s %s%s", m[1], m[3], p, u), "%q has a letter in place of the point", s)
	}
	num := plainNumber.FindString(body)
	if num == "" {
		if notFinite.MatchString(body) {
			return 0, bad("a finite number, like "+want.Example()+", or leave it out where none is known", "%q is not a finite number", s)
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
	y, err := attach(x, strings.TrimSpace(rest), want)
	if err != nil {
		return 0, err
	}
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

// attach gives x its unit and returns the value in SI.
func attach(x float64, u string, want Dim) (float64, error) {
	if u == "" {
		if want == Number {
			return x, nil
		}
		like, ok := mend(strings.TrimSpace(trim(x)+" "+want.Unit()), want)
		if !ok {
			like = want.Example()
		}
		if want == Area && ok && x == math.Trunc(x) && x > 0 && x <= 40 { // a bare 18 is more likely a gauge
			return 0, bad(fmt.Sprintf("%s%s AWG or %s", addUnit, trim(x), like), "the unit is missing")
		}
		return 0, bad(addUnit+like, "the unit is missing")
	}
	if strings.ContainsAny(u, "0123456789") && u != "mm2" {
		return 0, bad("one number and one unit, like "+want.Example(), "%q is not a unit", u)
	}
	if want == Number {
		return 0, bad("write the number alone", "a number without unit belongs here, not %q", u)
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
			return 0, offered(want, fmt.Sprintf("%s k%s", trim(x), k.name), "%q is not a unit; kilo is a small k", u)
		}
	}
	right, slip := slips[u]
	if _, err := attach(x, right, want); slip && err == nil {
		return 0, offered(want, trim(x)+" "+right, "%q is not a unit here", u)
	}
	if len([]rune(u)) == 1 {
		whole := strings.Replace(u, "K", "k", 1) + want.Unit()
		if _, err := attach(x, whole, want); err == nil {
			return 0, offered(want, trim(x)+" "+whole, "%q is no unit alone", u)
		}
	}
	return 0, bad(fmt.Sprintf("a value in %s, like %s", want.Unit(), want.Example()), "%q is not a unit known here", u)
}

func convert(x float64, k unit, prefix float64, written string, want Dim) (float64, error) {
	if k.dim != want {
		if right, slip := slips[written]; slip && want == Temperature {
			return 0, offered(want, trim(x)+" "+right, "%q is not a unit here", written)
		}
		return 0, bad(fmt.Sprintf("a value in %s, like %s", want.Unit(), want.Example()), "%q is the wrong unit", written)
	}
	switch k.name {
	case "AWG":
		if x != math.Trunc(x) || x > 40 {
			return 0, bad("a whole size, like 18 AWG", "AWG %s is not a size", trim(x))
		}
		return Gauge(x), nil
	case "°F":
		return (x - 32) / 1.8, nil
	}
	y := x * k.scale * prefix
	// A product such as 4.7 × 1e-9 is off by a last bit; the text is the truth.
	if exact, err := strconv.ParseFloat(trim(x)+"e"+strconv.Itoa(int(math.Round(math.Log10(k.scale*prefix)))), 64); err == nil &&
		math.Abs(exact-y) <= 1e-15*math.Abs(y)*4 {
		y = exact
	}
	return y, nil
}

func trim(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
