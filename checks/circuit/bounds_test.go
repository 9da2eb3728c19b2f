package circuit_test

import (
	"math"
	"testing"

	"firstvolt/checks/circuit"
)

// Bounds is the R of Resistance, on a circuit made anew and on one revalued.
func TestBounds(t *testing.T) {
	es := []circuit.Element{
		{Name: "wire", A: "a", B: "b", Conducts: circuit.Wire},
		{Name: "R1", A: "b", B: "c", Conducts: circuit.Conducting, R: circuit.Interval{Low: 90, High: 110}},
		{Name: "R2", A: "b", B: "c", Conducts: circuit.Conducting, R: circuit.Anything()},
		{Name: "D", A: "c", B: "d", Conducts: circuit.OneWay},
	}
	other := append([]circuit.Element(nil), es...)
	other[2].R = circuit.Exactly(100)
	c := circuit.New(es)
	for _, elements := range [][]circuit.Element{es, other} {
		again := c.Revalued(elements)
		for _, probes := range [][2]string{{"a", "c"}, {"c", "a"}, {"a", "d"}, {"d", "a"}, {"a", "b"}, {"a", "a"}} {
			want, err := circuit.New(elements).Resistance([]string{probes[0]}, []string{probes[1]})
			if err != nil {
				t.Fatal(err)
			}
			if got, err := again.Bounds([]string{probes[0]}, []string{probes[1]}, nil); err != nil || got != want.R {
				t.Errorf("%v: %v %v, want %v", probes, got, err, want.R)
			}
			if got, err := c.Bounds([]string{probes[0]}, []string{probes[1]}, ohms(elements)); err != nil || got != want.R {
				t.Errorf("%v, resistances given: %v %v, want %v", probes, got, err, want.R)
			}
		}
	}
	if got, err := c.Bounds([]string{"a"}, []string{"nowhere"}, nil); err == nil || !math.IsNaN(got.Low) {
		t.Errorf("a probe on nothing: %v %v", got, err)
	}
	bad := append([]circuit.Element(nil), es...)
	bad[1].R = circuit.Interval{Low: math.NaN(), High: 1}
	if _, err := c.Revalued(bad).Bounds([]string{"a"}, []string{"c"}, nil); err == nil {
		t.Error("a value that is no number was solved")
	}
	if _, err := c.Bounds([]string{"a"}, []string{"c"}, ohms(bad)); err == nil {
		t.Error("a value given that is no number was solved")
	}
	if _, err := c.Bounds([]string{"a"}, []string{"c"}, ohms(bad)[1:]); err == nil {
		t.Error("a value too few, and it was solved")
	}
}

func ohms(elements []circuit.Element) []circuit.Interval {
	var out []circuit.Interval
	for _, e := range elements {
		out = append(out, e.R)
	}
	return out
}
