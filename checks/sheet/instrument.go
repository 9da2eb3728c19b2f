package sheet

import (
	"fmt"
	"slices"

	"firstvolt/checks/quantity"
	"firstvolt/checks/strict"
)

func (r *reader) instruments(n *strict.Node) {
	if n == nil || n.Kind != strict.Map {
		return
	}
	r.sameNames("instruments", n.Entries)
	for _, e := range n.Entries {
		if e.Value == nil || e.Value.Kind != strict.Map {
			continue
		}
		in := &Instrument{Name: e.Key, At: e.KeyPos, Calibrated: e.Value.Word("calibrated"), Measures: measures(e.Value.Get("measures"))}
		dims := dimsOf(in.Measures)
		if c := e.Value.Get("ceiling"); word(c) {
			if v, err := parseAny(c.Text, dims); err != nil {
				r.quantity(c, "ceiling", err)
			} else {
				in.Ceiling, in.HasCeiling = v, true
			}
		}
		r.accuracies(in, e.Value, dims)
		if l := e.Value.Get("leads"); l != nil {
			switch v := l.Data.(type) {
			case string:
				in.LeadsKnown, in.Nulled = true, true
				in.Leads = quantity.Exact(0, quantity.Resistance)
			case quantity.Range:
				in.LeadsKnown, in.Leads = true, v
			}
		}
		r.s.Instruments[e.Key] = in
	}
}

// dimsOf lists what the values of a meter may be counted in.
func dimsOf(measures []string) []quantity.Dim {
	if len(measures) == 0 {
		measures = Measures
	}
	var out []quantity.Dim
	for _, m := range measures {
		if d, ok := valueDim[m]; ok && !slices.Contains(out, d) {
			out = append(out, d)
		}
	}
	if len(out) == 0 { // words that the shape has refused
		return dimsOf(nil)
	}
	return out
}

// parseAny reads a quantity of one of dims; the error is that of the first.
func parseAny(text string, dims []quantity.Dim) (quantity.Range, error) {
	var first error
	for _, d := range dims {
		r, err := quantity.Parse(text, d)
		if err == nil {
			return r, nil
		}
		if first == nil {
			first = err
		}
	}
	return quantity.Range{}, first
}

func (r *reader) quantity(n *strict.Node, what string, err error) {
	if f, ok := err.(strict.Faulty); ok {
		wrong, right := f.Fault()
		r.bad(n.At(), what+": "+wrong, right)
		return
	}
	r.bad(n.At(), what+": "+err.Error(), "")
}

// measures lists what a meter measures: one word, several, or the keys of what
// has an accuracy of its own.
func measures(n *strict.Node) []string {
	var out []string
	switch {
	case word(n):
		out = append(out, n.Text)
	case n != nil:
		for _, i := range n.Items {
			out = append(out, i.Text)
		}
		for _, e := range n.Entries {
			out = append(out, e.Key)
		}
	}
	return out
}

// accuracies reads the accuracy of a meter: one for all that it measures, or
// one for each thing under measures, with its digit under digits.
func (r *reader) accuracies(in *Instrument, n *strict.Node, dims []quantity.Dim) {
	own, digits := n.Get("measures"), n.Get("digits")
	if own == nil || own.Kind != strict.Map {
		if digits != nil {
			r.bad(digits.At(), "digits belongs to a meter that gives each thing its own accuracy", "write digit: and one value, or measures: {resistance: 0.9 % + 2 digits, …}")
		}
		in.Accuracy = r.accuracy(n.Get("accuracy"), r.digit(n.Get("digit"), "digit", dims), dims)
		return
	}
	for _, key := range []string{"accuracy", "digit"} {
		if e := n.Get(key); e != nil {
			r.bad(e.At(), key+" is told for each thing already", "leave it to measures: and digits:")
		}
	}
	if len(own.Entries) == 0 {
		r.bad(own.At(), "measures says nothing", "name what it measures, like {resistance: 0.9 % + 2 digits}")
	}
	in.Own = map[string]*Accuracy{}
	for _, e := range own.Entries {
		dim, known := valueDim[e.Key]
		if !known {
			continue // reported by the shape
		}
		one := []quantity.Dim{dim}
		in.Own[e.Key] = r.accuracy(e.Value, r.digit(digits.Get(e.Key), "digits", one), one)
	}
	if digits == nil {
		return
	}
	for _, e := range digits.Entries {
		if own.Get(e.Key) == nil && slices.Contains(Measures, e.Key) {
			r.bad(e.KeyPos, fmt.Sprintf("%s does not measure %s", in.Name, e.Key), "name what stands under measures")
		}
	}
}

// digit is what one digit of a display is; nil where it is not known.
func (r *reader) digit(n *strict.Node, key string, dims []quantity.Dim) *quantity.Range {
	if !word(n) {
		return nil
	}
	v, err := parseAny(n.Text, dims)
	if err != nil {
		if key == "digit" { // those under digits are read by the shape
			r.quantity(n, key, err)
		}
		return nil
	}
	return &v
}

// accuracy makes one accuracy of its text; nil where there is none.
func (r *reader) accuracy(n *strict.Node, digit *quantity.Range, dims []quantity.Dim) *Accuracy {
	if n == nil {
		return nil
	}
	raw, ok := n.Data.(rawAccuracy)
	if !ok {
		return nil
	}
	acc := &Accuracy{Fraction: raw.fraction, DigitsKnown: true}
	switch {
	case raw.digits > 0:
		if acc.DigitsKnown = digit != nil; digit != nil {
			acc.Amount, acc.Of = raw.digits*digit.High, digit.Dim
		}
	case raw.amount != "":
		v, err := parseAny(raw.amount, dims)
		if err != nil {
			r.quantity(n, "accuracy", err)
			return nil
		}
		acc.Amount, acc.Of = v.High, v.Dim
	}
	return acc
}
