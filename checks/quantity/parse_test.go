package quantity

import (
	"errors"
	"math"
	"regexp"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestParse(t *testing.T) {
	inf := math.Inf(1)
	for _, c := range []struct {
		text      string
		dim       Dim
		low, high float64
	}{
		{"4.7 kΩ", Resistance, 4700, 4700},
		{"4.7kΩ", Resistance, 4700, 4700},
		{"4.7\u00a0kΩ", Resistance, 4700, 4700},
		{"4.7 k\u2126", Resistance, 4700, 4700}, // ohm sign
		{"4.7 kOhm", Resistance, 4700, 4700},
		{"10 ohms", Resistance, 10, 10},
		{"2 mΩ", Resistance, 2e-3, 2e-3},
		{"2 MΩ", Resistance, 2e6, 2e6},
		{"1 GΩ", Resistance, 1e9, 1e9},
		{".5 Ω", Resistance, .5, .5},
		{"0 Ω", Resistance, 0, 0},
		{"01 Ω", Resistance, 1, 1},
		{"1.10 Ω", Resistance, 1.1, 1.1},
		{"47 µF", Capacitance, 47e-6, 47e-6},
		{"47 μF", Capacitance, 47e-6, 47e-6},
		{"47 uF", Capacitance, 47e-6, 47e-6},
		{"4.7 nF", Capacitance, 4.7e-9, 4.7e-9},
		{"470pF", Capacitance, 470e-12, 470e-12},
		{"117 V", Voltage, 117, 117},
		{"110 V to 125 V", Voltage, 110, 125},
		{"110 V  to  110 V", Voltage, 110, 110},
		{"30 mA", Current, .03, .03},
		{"60 W", Power, 60, 60},
		{"60 VA", Power, 60, 60},
		{"8 H", Inductance, 8, 8},
		{"60 Hz", Frequency, 60, 60},
		{"6 ft", Length, 6 * .3048, 6 * .3048},
		{"2 in", Length, .0508, .0508},
		{"1.8 m", Length, 1.8, 1.8},
		{"0.75 mm²", Area, .75e-6, .75e-6},
		{"0.75 mm2", Area, .75e-6, .75e-6},
		{"60 s", Time, 60, 60},
		{"10 min", Time, 600, 600},
		{"22 °C", Temperature, 22, 22},
		{"-5 °C", Temperature, -5, -5},
		{"−5 °C", Temperature, -5, -5}, // a minus sign proper
		{"+5 °C", Temperature, 5, 5},
		{"50 °F", Temperature, 10, 10},
		{"-40 °F", Temperature, -40, -40},
		{"0.9 %", Fraction, .009, .009},
		{"2 digits", Digits, 2, 2},
		{"1 digit", Digits, 1, 1},
		{"3", Number, 3, 3},
		{"over 500 MΩ", Resistance, 500e6, inf},
		{"> 500 MΩ", Resistance, 500e6, inf},
		{">500MΩ", Resistance, 500e6, inf},
		{" 5 V ", Voltage, 5, 5},
	} {
		r, err := Parse(c.text, c.dim)
		if err != nil {
			t.Errorf("%q: %v", c.text, err)
			continue
		}
		if math.Abs(r.Low-c.low) > 1e-12*math.Abs(c.low) || r.High != c.high && math.Abs(r.High-c.high) > 1e-12*math.Abs(c.high) || r.Dim != c.dim {
			t.Errorf("%q: %v to %v, want %v to %v", c.text, r.Low, r.High, c.low, c.high)
		}
	}
}

// The text is the truth: no last bit is lost on the way to SI units.
func TestParseIsExact(t *testing.T) {
	for text, want := range map[string]float64{"4.7 nF": 4.7e-9, "0.1 µF": 0.1e-6, "6.8 kΩ": 6800, "2.2 MΩ": 2.2e6, "33 pF": 33e-12} {
		d := Capacitance
		if strings.HasSuffix(text, "Ω") {
			d = Resistance
		}
		if r, err := Parse(text, d); err != nil || r.Low != want {
			t.Errorf("%q: %v, %v; want %v", text, r.Low, err, want)
		}
	}
}

// Printed wire tables give 18 AWG as 0.823 mm² and 24 AWG as 0.205 mm² (ASTM B258).
func TestGauge(t *testing.T) {
	for text, want := range map[string]float64{"18 AWG": .823e-6, "14 AWG": 2.08e-6, "24 AWG": .205e-6} {
		if r, err := Parse(text, Area); err != nil || math.Abs(r.Low-want) > .005*want {
			t.Errorf("%q: %v, %v; want %v", text, r.Low, err, want)
		}
	}
}

// Every refused text is refused with words that hold the right form.
func TestParseRefuses(t *testing.T) {
	for _, c := range []struct {
		text        string
		dim         Dim
		wrong, hint string
	}{
		{"", Resistance, "empty", "4.7 kΩ"},
		{"4,7 kΩ", Resistance, "decimal comma", "write 4.7 kΩ"},
		{"-5,5 °C", Temperature, "decimal comma", "write -5.5 °C"},
		{"1,000 V", Voltage, "comma", "1.000 V or 1000 V"},
		{"1 000 V", Voltage, "in pieces", "write 1000 V"},
		{"4k7", Resistance, "letter in place of the point", "write 4.7 kΩ"},
		{"4R7", Resistance, "letter in place of the point", "write 4.7 Ω"},
		{"4n7", Capacitance, "letter in place of the point", "write 4.7 nF"},
		{"1e6 Ω", Resistance, "exponent", "write 1 MΩ"},
		{"6E5", Resistance, "exponent", "4.7 kΩ"},
		{"1.23456e3 Ω", Resistance, "exponent", "write 1234.56 Ω"},
		{"5", Resistance, "unit is missing", "like 5 Ω"},
		{"5", Digits, "unit is missing", "like 5 digits"},
		{"5 V", Resistance, "wrong unit", "4.7 kΩ"},
		{"5 K", Resistance, "no unit alone", "write 5 kΩ"},
		{"180 M", Resistance, "no unit alone", "write 180 MΩ"},
		{"10 KΩ", Resistance, "small k", "write 10 kΩ"},
		{"-3 Ω", Resistance, "negative", "like 3 Ω"},
		{"--3 Ω", Resistance, "negative", "4.7 kΩ"},
		{"+3 Ω", Resistance, "sign", "leave the sign off"},
		{"±20 %", Fraction, "sign", "leave the sign off"},
		{".nan", Resistance, "not a finite", "finite number"},
		{"NaN Ω", Resistance, "not a finite", "finite number"},
		{".inf", Resistance, "not a finite", "finite number"},
		{"infinity V", Voltage, "not a finite", "finite number"},
		{"∞", Resistance, "not a finite", "finite number"},
		{"1000000000000000000000000000000 Ω", Resistance, "beyond anything", "look at the prefix"},
		{strings.Repeat("9", 400) + " Ω", Resistance, "not a finite", "4.7 kΩ"},
		{"-300 °C", Temperature, "below absolute zero", "22 °C"},
		{"22 C", Temperature, "not a unit", "write 22 °C"},
		{"295 K", Temperature, "not a unit", "22 °C"},
		{"125 V to 110 V", Voltage, "from high to low", "smaller value first"},
		{"110 to 125 V", Voltage, "unit is missing", "110 V"},
		{"110-125 V", Voltage, "not a span", "write 110 V to 125 V"},
		{"≥ 500 MΩ", Resistance, "not a bound", "write over 500 MΩ"},
		{"Over 500 MΩ", Resistance, "not a bound", "write over 500 MΩ"},
		{"over", Resistance, "not a number", "4.7 kΩ"},
		{"over OL", Resistance, "not a number", "4.7 kΩ"},
		{"0.01 MFD", Capacitance, "not a unit", "write 0.01 µF"},
		{"500 mmf", Capacitance, "not a unit", "write 500 pF"},
		{"60 c/s", Frequency, "not a unit", "write 60 Hz"},
		{"6 feet", Length, "not a unit", "write 6 ft"},
		{"115 VAC", Voltage, "not a unit", "write 115 V"},
		{"AWG 18", Area, "before the number", "write 18 AWG"},
		{"18/2", Area, "number of conductors", "write 18 AWG"},
		{"1/2 W", Power, "fraction", "write 0.5 W"},
		{"1/0 W", Power, "not a unit", "60 W"},
		{"110/125/150/220/240 V", Voltage, "several values", "write 110 V to 240 V on a nameplate, and one of them elsewhere"},
		{"240/220/110V", Voltage, "several values", "write 110 V to 240 V on a nameplate"},
		{"110 V/220 V", Voltage, "several values", "write 110 V to 220 V"},
		{"115/230", Voltage, "several values", "write 115 V to 230 V"},
		{"50/60 Hz", Frequency, "several values", "write 50 Hz to 60 Hz"},
		{"50/60 c/s", Frequency, "several values", "write 50 Hz to 60 Hz"},
		{"8/16 µF", Capacitance, "several values", "like 8 µF"},
		{"50-60 cycles", Frequency, "not a span", "write 50 Hz to 60 Hz"},
		{"50-60 c/s", Frequency, "not a span", "write 50 Hz to 60 Hz"},
		{"50-60~", Frequency, "not a span", "write 50 Hz to 60 Hz"},
		{"25 to 60 cps", Frequency, "unit is missing", "write 25 Hz to 60 Hz"},
		{"50 cycles", Frequency, "not a unit", "write 50 Hz"},
		{"50 c.p.s.", Frequency, "not a unit", "write 50 Hz"},
		{"50 Hertz", Frequency, "not a unit", "write 50 Hz"},
		{"50 Per", Frequency, "not a unit", "write 50 Hz"},
		{"220 V~", Voltage, "not a unit", "write 220 V"},
		{"over 500 meg", Resistance, "not a unit", "write over 500 MΩ"}, // a bound stays one
		{"> 4,7 meg", Resistance, "comma", "write over 4.7 MΩ"},
		{">= 500 megohms", Resistance, "not a bound", "write over 500 MΩ"},
		{"68 F", Temperature, "not a unit here", "write 68 °F"},
		{"0,1 mfd", Capacitance, "decimal comma", "write 0.1 µF"},
		{"1 000 volts", Voltage, "in pieces", "write 1000 V"},
		{"1/2 watt", Power, "fraction", "write 0.5 W"},
		{"110 to 125 V", Voltage, "unit is missing", "write 110 V to 125 V"},
		{"18", Area, "unit is missing", "like 18 AWG or 18 mm²"},
		{"0.75", Area, "unit is missing", "like 0.75 mm²"},
		{strings.Repeat("1 to ", 60) + "1 V", Voltage, "not a span", "two ends"}, // and takes no time
		{strings.Repeat("over ", 60) + "1 V", Voltage, "not a number", "250 V"},
		{strings.Repeat("1-", 60) + "1 V", Voltage, "not a unit", "250 V"},
		{strings.Repeat("1/", 60) + "1 V", Voltage, "several values", "write 1 V to 1 V"},
		{"18.5 AWG", Area, "not a size", "18 AWG"},
		{"1.2.3 V", Voltage, "not a plain number", "one point"},
		{"5 V 3 A", Voltage, "not a unit", "one number and one unit"},
		{"3 A", Number, "without unit", "number alone"},
		{"five V", Voltage, "not a number", "250 V"},
	} {
		_, err := Parse(c.text, c.dim)
		var e *Error
		if !errors.As(err, &e) {
			t.Errorf("%.20q is taken as %s", c.text, c.dim.Unit())
			continue
		}
		if wrong, right := e.Fault(); !strings.Contains(wrong, c.wrong) || !strings.Contains(right, c.hint) {
			t.Errorf("%.20q: %q and %q; want %q and %q", c.text, wrong, right, c.wrong, c.hint)
		}
	}
}

// offers are the values that a hint tells people to write.
func offers(hint string) (out []string) {
	for _, piece := range regexp.MustCompile(`[,;] | or `).Split(hint, -1) {
		if _, like, ok := strings.Cut(piece, "like "); ok {
			piece = like
		}
		piece = strings.TrimSuffix(strings.TrimPrefix(piece, "write "), " on a nameplate")
		if regexp.MustCompile(`^(over )?[-+.]?\d`).MatchString(piece) {
			out = append(out, piece)
		}
	}
	return out
}

// Whatever a hint tells to write can be written: it reads, and as the bound that
// was a bound.
func TestOffersRead(t *testing.T) {
	numbers := []string{"5", "0", "18", "4,7", "1,000", "1 000", "1'000", "1e3", "1e-3", "2E5", "4k7", "4R7", "1/2", "1/4", "50/60", "110/220/240", "8+8", "0.5", ".5", "1.", "1.2.3", "-3", "+3", "±3", "--3", "1/0", "999999999999", "9e9", "١", "3,3,3", "1.000,5"}
	units := []string{"", "Ω", "k", "K", "M", "m", "KΩ", "V", "VAC", "volts", "V~", "A", "ma", "MA", "W", "watts", "VA", "mfd", "MFD", "mmf", "uF", "µF", "pf", "H", "hy", "Hz", "cycles", "c/s", "cps", "~", "ft", "feet", "'", "in", "mm²", "sq mm", "AWG", "gauge", "s", "sec", "°C", "C", "F", "°F", "%", "pct", "digits", "counts", "meg", "Megohms", "bogus", "Ω2"}
	joins := []string{"-", "–", " - ", " to ", "...", "/", " bis "}
	heads := []string{"", "over ", ">", ">= ", "more than ", "Over ", "AWG ", "#", "min. "}
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.SampledFrom(heads).Draw(t, "head") + rapid.SampledFrom(numbers).Draw(t, "number") + rapid.SampledFrom([]string{"", " "}).Draw(t, "space") + rapid.SampledFrom(units).Draw(t, "unit")
		if rapid.Bool().Draw(t, "two") {
			text += rapid.SampledFrom(joins).Draw(t, "join") + rapid.SampledFrom(numbers).Draw(t, "other") + " " + rapid.SampledFrom(units).Draw(t, "its unit")
		}
		d := Dim(rapid.IntRange(0, int(Digits)).Draw(t, "dim"))
		mustOffer(t, text, d)
	})
	for _, d := range []Dim{Resistance, Voltage, Frequency, Capacitance} { // the plain ones, each
		for _, n := range numbers {
			for _, u := range units {
				mustOffer(t, n+" "+u, d)
				mustOffer(t, "over "+n+" "+u, d)
				mustOffer(t, n+"-"+n+" "+u, d)
			}
		}
	}
}

func mustOffer(t interface{ Errorf(string, ...any) }, text string, d Dim) {
	_, err := Parse(text, d)
	var e *Error
	if !errors.As(err, &e) {
		return
	}
	found := offers(e.Right)
	if strings.Contains(e.Right, "write ") && strings.ContainsAny(e.Right, "0123456789") && len(found) == 0 {
		t.Errorf("%q as %s: %q offers nothing", text, d.Name(), e.Right)
	}
	for _, f := range found {
		r, err := Parse(f, d)
		if err != nil {
			t.Errorf("%q as %s: %q, and %q is refused: %v", text, d.Name(), e.Right, f, err)
		}
		if bound := strings.HasPrefix(text, "over ") || strings.HasPrefix(text, ">"); bound && strings.HasPrefix(e.Right, "write "+f) && !math.IsInf(r.High, 1) {
			t.Errorf("%q as %s: %q loses the bound", text, d.Name(), e.Right)
		}
	}
}

// The example of each dimension reads, and so does what Format prints.
func TestExamplesRead(t *testing.T) {
	for d := Number; d <= Digits; d++ {
		r, err := Parse(d.Example(), d)
		if err != nil {
			t.Errorf("the example of %d: %v", d, err)
			continue
		}
		if again, err := Parse(Format(r.Low, d), d); err != nil || Six(again.Low) != Six(r.Low) {
			t.Errorf("%s printed as %s reads as %v, %v", d.Example(), Format(r.Low, d), again, err)
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"4.7 kΩ", "over 500 MΩ", "110 V to 125 V", "-5 °C", "18 AWG", "1e6 Ω", "4k7", "4,7 nF", "0.9 %", "NaN", "> 1 V", "1 to 2", "- - 1 V"} {
		for d := Number; d <= Digits; d++ {
			f.Add(s, uint8(d))
		}
	}
	f.Fuzz(func(t *testing.T, text string, dim uint8) {
		d := Dim(dim % uint8(Digits+1))
		r, err := Parse(text, d)
		if err != nil {
			var e *Error
			if !errors.As(err, &e) || e.Wrong == "" || e.Right == "" {
				t.Fatalf("%q: an error without both halves: %v", text, err)
			}
			return
		}
		if !r.Valid() || r.Dim != d || d != Temperature && r.Low < 0 || math.IsNaN(r.High) {
			t.Fatalf("%q reads as %v", text, r)
		}
		if again, err := Parse(text, d); err != nil || again != r {
			t.Fatalf("%q reads otherwise the second time", text)
		}
	})
}
