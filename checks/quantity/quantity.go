// Package quantity holds a value as a bench person writes it: a number or a
// span of numbers with an SI prefix and a unit, kept as bounds in SI units
// beside the text that stood on the sheet.
//
// It knows units and nothing of radios. It never guesses: a text that could be
// read two ways is an error that names the right form.
package quantity

import (
	"math"
	"strconv"
	"strings"
)

// Dim is what a quantity measures. The zero Dim is a pure number.
type Dim uint8

// The dimensions of format 1 and the SI unit each is kept in.
const (
	Number      Dim = iota // pure number
	Resistance             // Ω
	Voltage                // V
	Current                // A
	Power                  // W (VA is read as W: an apparent power bounds a real one)
	Capacitance            // F
	Inductance             // H
	Frequency              // Hz
	Length                 // m
	Area                   // m²; also written as an AWG size
	Time                   // s
	Temperature            // °C
	Fraction               // 1; written in %
	Digits                 // count of last-place digits of a meter
)

type unit struct {
	name     string
	dim      Dim
	scale    float64
	prefixes string // the SI prefixes that may stand before it
}

// dims gives each dimension its unit as printed, an example for error
// messages, and the largest value that a bench can mean; more is a slip.
var dims = [...]struct {
	unit, example string
	max           float64
}{
	Number:      {"", "2", 1e9},
	Resistance:  {"Ω", "4.7 kΩ", 1e15},
	Voltage:     {"V", "250 V", 1e6},
	Current:     {"A", "1 A", 1e6},
	Power:       {"W", "60 W", 1e6},
	Capacitance: {"F", "4.7 nF", 10},
	Inductance:  {"H", "8 H", 1e5},
	Frequency:   {"Hz", "60 Hz", 1e6},
	Length:      {"m", "1.8 m", 1e4},
	Area:        {"mm²", "0.75 mm²", 1e-2},
	Time:        {"s", "60 s", 1e7},
	Temperature: {"°C", "22 °C", 1000},
	Fraction:    {"%", "1.5 %", 100},
	Digits:      {"digits", "2 digits", 1e4},
}

var units = []unit{
	{"Ω", Resistance, 1, "µmkMGT"}, {"Ohm", Resistance, 1, "µmkMGT"}, {"ohm", Resistance, 1, "µmkMGT"}, {"ohms", Resistance, 1, "µmkMGT"}, {"Ohms", Resistance, 1, "µmkMGT"},
	{"V", Voltage, 1, "µmkM"}, {"A", Current, 1, "nµmk"}, {"W", Power, 1, "µmk"}, {"VA", Power, 1, "mk"},
	{"F", Capacitance, 1, "pnµm"}, {"H", Inductance, 1, "nµm"}, {"Hz", Frequency, 1, "mkM"},
	{"mm", Length, 1e-3, ""}, {"cm", Length, 1e-2, ""}, {"m", Length, 1, "k"}, {"ft", Length, 0.3048, ""}, {"in", Length, 0.0254, ""},
	{"mm²", Area, 1e-6, ""}, {"mm2", Area, 1e-6, ""}, {"AWG", Area, 0, ""},
	{"s", Time, 1, "µmn"}, {"min", Time, 60, ""}, {"h", Time, 3600, ""},
	{"°C", Temperature, 1, ""}, {"°F", Temperature, 0, ""},
	{"%", Fraction, 0.01, ""}, {"digits", Digits, 1, ""}, {"digit", Digits, 1, ""},
}

var prefixes = map[string]float64{"p": 1e-12, "n": 1e-9, "µ": 1e-6, "m": 1e-3, "k": 1e3, "M": 1e6, "G": 1e9, "T": 1e12}

// Unit is the unit that a value of d is printed in, without prefix.
func (d Dim) Unit() string { return dims[d].unit }

// SI is the unit of machine output: as Unit, but m² for an area and 1 for a fraction.
func (d Dim) SI() string {
	switch d {
	case Area:
		return "m²"
	case Fraction, Digits:
		return ""
	}
	return dims[d].unit
}

// Example is a well-formed value of d, for error messages and templates.
func (d Dim) Example() string { return dims[d].example }

// Range is a value known between two bounds, in the SI unit of Dim.
// High may be +Inf (a lower bound only). Low never exceeds High.
type Range struct {
	Low, High float64
	Dim       Dim
}

// Exact is a value without spread.
func Exact(x float64, d Dim) Range { return Range{x, x, d} }

// Between is the range from low to high, in either order.
func Between(low, high float64, d Dim) Range {
	return Range{math.Min(low, high), math.Max(low, high), d}
}

// AtLeast is a lower bound with nothing known above it.
func AtLeast(low float64, d Dim) Range { return Range{low, math.Inf(1), d} }

// Unknown is a value of which nothing is known but that it is not negative.
func Unknown(d Dim) Range { return Range{0, math.Inf(1), d} }

// Valid tells whether the bounds are numbers in order and Low is finite.
func (r Range) Valid() bool {
	return r.Low <= r.High && !math.IsInf(r.Low, 0)
}

// Bounded tells whether both bounds are finite.
func (r Range) Bounded() bool { return r.Valid() && !math.IsInf(r.High, 1) }

// Widen stretches both bounds by the fraction f of themselves (0.2: ±20 %).
func (r Range) Widen(f float64) Range { return Range{r.Low * (1 - f), r.High * (1 + f), r.Dim} }

// Add is the sum of two independent ranges.
func (r Range) Add(o Range) Range { return Range{r.Low + o.Low, r.High + o.High, r.Dim} }

// Sub is the difference of two independent ranges. A lower bound taken away
// from something leaves nothing known below, so Low may be -Inf.
func (r Range) Sub(o Range) Range { return Range{r.Low - o.High, r.High - o.Low, r.Dim} }

// Scale is the range times a positive constant.
func (r Range) Scale(k float64) Range { return Range{r.Low * k, r.High * k, r.Dim} }

// Div is r divided by o, both not negative, as a range of dimension d. A
// divisor that may be zero leaves the quotient unbounded above.
func (r Range) Div(o Range, d Dim) Range {
	q := Range{Low: 0, High: math.Inf(1), Dim: d}
	if o.High > 0 && !math.IsInf(o.High, 1) {
		q.Low = r.Low / o.High
	}
	if o.Low > 0 {
		q.High = r.High / o.Low
	}
	return q
}

// Mul is the product of two ranges that are not negative, as dimension d.
func (r Range) Mul(o Range, d Dim) Range {
	mul := func(a, b float64) float64 {
		if a == 0 || b == 0 {
			return 0
		}
		return a * b
	}
	return Range{mul(r.Low, o.Low), mul(r.High, o.High), d}
}

// Hull is the smallest range that holds both.
func (r Range) Hull(o Range) Range {
	return Range{math.Min(r.Low, o.Low), math.Max(r.High, o.High), r.Dim}
}

// Six is x rounded to six significant digits, so that machines agree on what
// is judged and printed.
func Six(x float64) float64 {
	if x == 0 || math.IsInf(x, 0) || math.IsNaN(x) {
		return x
	}
	y, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 6, 64), 64)
	if err != nil {
		return x
	}
	return y
}

// Rounded is the range with both bounds rounded to six significant digits.
func (r Range) Rounded() Range { return Range{Six(r.Low), Six(r.High), r.Dim} }

// String prints the range for people, with three significant digits: one number
// where both bounds print alike, "A to B" otherwise, "over A" where nothing is
// known above.
func (r Range) String() string { return r.To(3) }

// To is String with other significant digits, at most six.
func (r Range) To(digits int) string {
	switch {
	case math.IsNaN(r.Low) || math.IsNaN(r.High):
		return "not a number"
	case math.IsInf(r.High, 1) && r.Low <= 0:
		return "unknown"
	case math.IsInf(r.High, 1):
		return "over " + FormatTo(r.Low, r.Dim, digits)
	case math.IsInf(r.Low, -1):
		return "up to " + FormatTo(r.High, r.Dim, digits)
	}
	low, high := FormatTo(r.Low, r.Dim, digits), FormatTo(r.High, r.Dim, digits)
	if low == high {
		return low
	}
	return low + " to " + high
}

// Format prints x, given in the SI unit of d, with three significant digits
// and the prefix that keeps the number short.
func Format(x float64, d Dim) string { return FormatTo(x, d, 3) }

// FormatTo is Format with other significant digits.
func FormatTo(x float64, d Dim, digits int) string {
	num := func(v float64) string {
		s := strconv.FormatFloat(v, 'g', digits, 64)
		f, err := strconv.ParseFloat(s, 64)
		if err != nil || math.IsInf(f, 0) || math.IsNaN(f) {
			return s
		}
		return strconv.FormatFloat(f, 'f', -1, 64)
	}
	switch d {
	case Number:
		return num(x)
	case Fraction:
		return num(x*100) + " %"
	case Area:
		return num(x*1e6) + " mm²"
	case Temperature, Time, Length, Digits, Frequency:
		return num(x) + " " + dims[d].unit
	}
	steps := []struct {
		p string
		s float64
	}{{"G", 1e9}, {"M", 1e6}, {"k", 1e3}, {"", 1}, {"m", 1e-3}, {"µ", 1e-6}, {"n", 1e-9}, {"p", 1e-12}}
	a := math.Abs(x)
	if a == 0 {
		return "0 " + dims[d].unit
	}
	for _, s := range steps {
		if d == Resistance && s.s < 1 && a >= 0.01 {
			return num(x) + " Ω" // a bench says 0.06 Ω, not 60 mΩ
		}
		if d == Current && s.s == 1e-3 && Six(a) >= 1e-4 {
			return num(x*1e3) + " mA" // the touch limit is 0.5 mA, not 500 µA
		}
		if (d == Voltage || d == Power) && s.s == 1 && a >= 0.1 {
			return num(x) + " " + dims[d].unit
		}
		if Six(a/s.s) >= 1 {
			return num(x/s.s) + " " + s.p + dims[d].unit
		}
	}
	return num(x/1e-12) + " p" + dims[d].unit
}

// Gauge is the area in m² of an AWG size, by the formula of ASTM B258
// (d = 0.127 mm × 92^((36−n)/39)).
func Gauge(n float64) float64 {
	d := 0.127e-3 * math.Pow(92, (36-n)/39)
	return math.Pi * d * d / 4
}

// normal makes one of the spellings that mean the same: ohm sign and omega,
// micro sign, mu and u, the no-break spaces.
var normal = strings.NewReplacer("\u2126", "Ω", "\u03bc", "µ", "\u00a0", " ", "\u202f", " ", "\u2009", " ", "\u2212", "-", "℃", "°C", "℉", "°F")
