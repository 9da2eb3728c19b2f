package quantity

import (
	"fmt"
	"math"
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
	for _, over := range []string{"over ", ">"} {
		if rest, ok := strings.CutPrefix(s, over); ok {
			return bound(text, s, strings.TrimSpace(rest), want)
		}
	}
	if leadingNumber(s) == "" {
		if err := otherwiseBound(text, s, want); err != nil {
			return Range{}, err
		}
	}
	if strings.Contains(s, "to") {
		if m := bareSpan().FindStringSubmatch(s); m != nil {
			return span(text, m[1], m[2], want)
		}
	}
	x, err := single(s, want)
	if err != nil {
		return Range{}, err
	}
	return Exact(x, want), nil
}

// bound reads the value of a lower bound.
func bound(text, s, value string, want Dim) (Range, error) {
	r, err := single(value, want)
	if err == nil {
		return AtLeast(r, want), nil
	}
	if strings.HasPrefix(s, ">") { // perhaps >=
		if err := otherwiseBound(text, s, want); err != nil {
			return Range{}, err
		}
	}
	return Range{}, overAgain(err)
}

// otherwiseBound is the error of a bound in other words than those known here.
func otherwiseBound(text, s string, want Dim) error {
	if m := otherBound().FindStringSubmatch(s); m != nil {
		if mended, ok := mend(m[1], want); ok && !strings.Contains(mended, " to ") {
			return offered(want, "over "+mended, "%q is not a bound known here", text)
		}
	}
	return nil
}

// single reads one number with its unit.
func single(s string, want Dim) (float64, error) {
	body := s
	if want == Temperature {
		body = strings.TrimPrefix(strings.TrimPrefix(s, "-"), "+")
	}
	num := leadingNumber(body)
	x, err := measured(s, num, body[len(num):], want)
	if err != nil {
		if known := misspelled(text{s, body, want}); known != nil {
			err = known
		}
		return 0, err
	}
	return x, nil
}

// leadingNumber is the plain decimal number that s begins with, or "".
func leadingNumber(s string) string {
	digits := func(from int) int {
		for from < len(s) && s[from] >= '0' && s[from] <= '9' {
			from++
		}
		return from
	}
	whole := digits(0)
	if all := digits(min(whole+1, len(s))); whole < len(s) && s[whole] == '.' && all > whole+1 {
		return s[:all]
	}
	return s[:whole]
}

// measured is the number num with the unit behind it in SI; s is the whole as
// written.
func measured(s, num, behind string, want Dim) (float64, error) {
	right := fmt.Sprintf("write it like %s", want.Example())
	if num == "" {
		if notFinite().FindStringSubmatch(behind) != nil {
			return 0, bad("a finite number, like "+want.Example()+", or leave it out where none is known", "%q is not a finite number", s)
		}
		return 0, bad(right, "%q is not a number with a unit", s)
	}
	if strings.HasPrefix(behind, ".") || strings.HasPrefix(behind, ",") {
		return 0, bad("write a plain decimal number with one point, like "+want.Example(), "%q is not a plain number", s)
	}
	x, err := strconv.ParseFloat(num, 64)
	if err != nil || math.IsInf(x, 0) || math.IsNaN(x) {
		return 0, bad(right, "%q is not a finite number", s)
	}
	unit := strings.TrimSpace(behind)
	y, err := attach(x, unit, want)
	if err != nil {
		return 0, err
	}
	if strings.HasPrefix(s, "-") {
		y = -x
		if strings.HasSuffix(unit, "F") {
			y = (-x - 32) / 1.8
		}
	}
	if limit := dims[want].max; !(math.Abs(y) <= limit) {
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
