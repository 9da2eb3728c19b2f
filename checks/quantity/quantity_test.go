package quantity

import (
	"math"
	"testing"
)

func TestFormat(t *testing.T) {
	for _, c := range []struct {
		x    float64
		d    Dim
		want string
	}{
		{4700, Resistance, "4.7 kΩ"},
		{0.06, Resistance, "0.06 Ω"},
		{0.002, Resistance, "2 mΩ"},
		{0, Resistance, "0 Ω"},
		{240e6, Resistance, "240 MΩ"},
		{4.7e-9, Capacitance, "4.7 nF"},
		{0.1e-6, Capacitance, "100 nF"},
		{117, Voltage, "117 V"},
		{0.5, Voltage, "0.5 V"},
		{0.0035, Current, "3.5 mA"},
		{0.0005, Current, "0.5 mA"},
		{0.000064, Current, "64 µA"},
		{0.009, Fraction, "0.9 %"},
		{0.75e-6, Area, "0.75 mm²"},
		{-5, Temperature, "-5 °C"},
		{3, Number, "3"},
		{1.8288, Length, "1.83 m"},
	} {
		if got := Format(c.x, c.d); got != c.want {
			t.Errorf("Format(%v): %q, want %q", c.x, got, c.want)
		}
	}
}

func TestRangeString(t *testing.T) {
	inf := math.Inf(1)
	for _, c := range []struct {
		r    Range
		want string
	}{
		{Exact(5, Voltage), "5 V"},
		{Between(125, 110, Voltage), "110 V to 125 V"},
		{AtLeast(500e6, Resistance), "over 500 MΩ"},
		{Unknown(Resistance), "unknown"},
		{Range{math.Inf(-1), 5, Voltage}, "up to 5 V"},
		{Range{-inf, inf, Voltage}, "unknown"},
		{Range{math.NaN(), 5, Voltage}, "not a number"},
	} {
		if got := c.r.String(); got != c.want {
			t.Errorf("%v: %q, want %q", c.r, got, c.want)
		}
	}
}

func TestArithmetic(t *testing.T) {
	a, b := Between(1, 2, Voltage), Between(4, 8, Current)
	zero, inf := Exact(0, Current), math.Inf(1)
	for name, c := range map[string]struct{ got, want Range }{
		"add":               {a.Add(a), Between(2, 4, Voltage)},
		"sub":               {a.Sub(a), Between(-1, 1, Voltage)},
		"scale":             {a.Scale(3), Between(3, 6, Voltage)},
		"widen":             {Exact(10, Voltage).Widen(.2), Between(8, 12, Voltage)},
		"hull":              {a.Hull(Exact(9, Voltage)), Between(1, 9, Voltage)},
		"div":               {a.Div(b, Resistance), Between(.125, .5, Resistance)},
		"div by zero":       {a.Div(zero, Resistance), Range{0, inf, Resistance}},
		"div by unknown":    {a.Div(Unknown(Current), Resistance), Range{0, inf, Resistance}},
		"mul":               {a.Mul(b, Power), Between(4, 16, Power)},
		"unknown times 0":   {Unknown(Voltage).Mul(zero, Power), Exact(0, Power)},
		"unknown times one": {Unknown(Voltage).Mul(Exact(1, Current), Power), Unknown(Power)},
	} {
		if c.got != c.want {
			t.Errorf("%s: %v, want %v", name, c.got, c.want)
		}
	}
	if Unknown(Voltage).Bounded() || !a.Bounded() || (Range{math.NaN(), 1, Voltage}).Valid() || (Range{2, 1, Voltage}).Valid() {
		t.Error("Valid or Bounded is wrong")
	}
	if got := Six(0.1234567891); got != 0.123457 {
		t.Errorf("Six: %v", got)
	}
}
