package handbook

import (
	"math"
	"testing"

	"firstvolt/checks/quantity"
)

// TestBondLimits: what each region allows in service, by cord length.
func TestBondLimits(t *testing.T) {
	for _, c := range []struct {
		region string
		whole  bool
		length float64
		want   float64
	}{
		{"north-america", false, 2, .1}, {"united-kingdom", false, 2, .1}, {"japan", false, 30, .1},
		{"europe", true, 2, .3}, {"europe", true, 5, .3}, {"europe", true, 12.4, .3}, {"europe", true, 12.5, .4},
		{"europe", true, 20, .5}, {"europe", true, 57.5, 1}, {"europe", true, 500, 1},
		{"switzerland", true, 5, .3}, {"switzerland", true, 20, .5},
		{"australia", true, 2, 1}, {"australia", true, 100, 1},
	} {
		r, ok := Region(c.region)
		if !ok {
			t.Fatal(c.region)
		}
		if got := r.Bond.Limit(quantity.Exact(c.length, quantity.Length)); r.Bond.Whole != c.whole || math.Abs(got.Low-c.want) > 1e-12 || got.Low != got.High {
			t.Errorf("%s, %g m: whole %v, %v; want %v, %g Ω", c.region, c.length, r.Bond.Whole, got, c.whole, c.want)
		}
	}
}
