package sheet

import (
	"fmt"
	"math"
	"slices"

	"firstvolt/checks/quantity"
)

// measure is what the instrument of a reading must measure.
func (rd *Reading) measure() string {
	switch {
	case rd.Drop != nil:
		return "voltage"
	case rd.Kind == "leakage":
		return "current"
	}
	return rd.Kind
}

// Proves tells whether the reading says anything at all: it was taken with an
// instrument that measures this kind and whose accuracy is known.
func (rd *Reading) Proves() (bool, string) {
	if ok, why := rd.With.proves(rd.measure()); !ok || rd.Drop == nil {
		return ok, why
	}
	return rd.Drop.proves(rd.With)
}

// proves tells whether a meter says anything of what it is to measure.
func (in *Instrument) proves(measure string) (bool, string) {
	if in == nil {
		return false, "no instrument is named with it"
	}
	acc := in.AccuracyOf(measure)
	switch {
	case len(in.Measures) == 0:
		return false, fmt.Sprintf("what %s measures is not known; add measures: to the meter", in.Name)
	case !slices.Contains(in.Measures, measure):
		return false, fmt.Sprintf("%s does not measure %s", in.Name, measure)
	case acc == nil:
		return false, fmt.Sprintf("the accuracy of %s is not known; add accuracy: to the meter from its data, in a form like 0.9 %% + 2 digits", in.Name)
	case !acc.DigitsKnown:
		return false, fmt.Sprintf("what one digit of %s is, is not known; add %s to the meter: one step of the last place, as it stood for this reading", in.Name, in.digitKey())
	case acc.Of != quantity.Number && acc.Of != valueDim[measure]:
		return false, fmt.Sprintf("the accuracy of %s is not known for %s; give each thing under measures: its own, in a form like {%s: 0.9 %% + 2 digits}", in.Name, measure, measure)
	}
	return true, ""
}

// digitKey is where a meter says what one of its digits is.
func (in *Instrument) digitKey() string {
	if len(in.Own) > 0 {
		return "digits:"
	}
	return "digit:"
}

// half is how far the true value may lie from a display.
func (a *Accuracy) half(shown float64) float64 { return a.Fraction*shown + a.Amount }

// around is where the true value lies by what was shown, never clipped.
func (a *Accuracy) around(shown quantity.Range) quantity.Range {
	v := quantity.Range{Low: shown.Low - a.half(shown.Low), High: math.Inf(1), Dim: shown.Dim}
	if !math.IsInf(shown.High, 1) {
		v.High = shown.High + a.half(shown.High)
	}
	return v
}

// True is the span in which the true value lies by what the meter showed and
// its error. ok is false where the reading proves nothing, with the reason.
func (rd *Reading) True() (r quantity.Range, ok bool, why string) { return rd.TrueAt(rd.Last()) }

// pastRange is how far past the name of its range a meter may still show: a
// range is named in round figures (common practice).
const pastRange = 1.1

// TrueAt is True of one display of a series.
func (rd *Reading) TrueAt(s Shown) (r quantity.Range, ok bool, why string) {
	dim := valueDim[rd.Kind]
	nothing := func(why string) (quantity.Range, bool, string) { return quantity.Unknown(dim), false, why }
	if ok, why := rd.Proves(); !ok {
		return nothing(why)
	}
	display := s.Display
	if rd.Drop != nil {
		display = rd.Drop.Shown
	}
	v, over, why := rd.shownTrue(display)
	switch {
	case why != "":
		return nothing(why)
	case rd.Drop != nil:
		v = rd.Drop.ohms(v)
	case rd.Kind == "resistance" && !over:
		v = rd.With.lessLeads(v)
	}
	if !(v.High >= 0) {
		return nothing(fmt.Sprintf("the leads of %s are said to have more than was read with them in it", rd.With.Name))
	}
	v.Low = math.Max(0, v.Low)
	return v, true, ""
}

// shownTrue is the true value of what the meter itself showed, leads and all;
// over where that was beyond what it can show, why where it says nothing.
func (rd *Reading) shownTrue(s Display) (v quantity.Range, over bool, why string) {
	measure := rd.measure()
	a, dim := rd.With.AccuracyOf(measure), valueDim[measure]
	ceiling, hasCeiling := rd.With.Ceiling, rd.With.HasCeiling && rd.With.Ceiling.Dim == dim
	least := func(x float64) quantity.Range { // a true value that can show x
		return quantity.AtLeast(math.Max(0, (x-a.Amount)/(1+a.Fraction)), dim)
	}
	hasRange := rd.HasRange && rd.Range.Dim == dim
	switch {
	case s.OL && hasRange:
		return least(rd.Range.Low), true, ""
	case s.OL && hasCeiling:
		return least(ceiling.Low), true, ""
	case s.OL:
		return v, true, fmt.Sprintf("OL says nothing while neither the range nor the ceiling of %s is known", rd.With.Name)
	case hasRange && !(s.Value.Low <= pastRange*rd.Range.High):
		return v, false, fmt.Sprintf("%s cannot be read on a range of %s", s.Value, rd.Range)
	case hasCeiling && s.Value.Low > ceiling.High:
		return least(ceiling.Low), true, ""
	}
	return a.around(s.Value), false, ""
}

// lessLeads takes the leads off what a meter saw. They were read with the same
// meter and carry its error; what is not known of them lies on the low side.
func (in *Instrument) lessLeads(v quantity.Range) quantity.Range {
	switch {
	case !in.LeadsKnown:
		v.Low = 0
	case !in.Nulled:
		leads := in.AccuracyOf("resistance").around(in.Leads)
		v.Low -= in.Leads.High + leads.High
		v.High -= math.Max(0, leads.Low)
	}
	return v
}
