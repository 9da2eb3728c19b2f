package ratings

import (
	"math"
	"testing"

	"firstvolt/checks/quantity"
)

// What discharges a capacitor is said in ohms, and in words where nothing does.
func TestDischargeSaysThroughWhat(t *testing.T) {
	inf := math.Inf(1)
	for _, c := range []struct {
		low, high float64
		want      string
	}{
		{1e6, 1e6, "through 1 MΩ"},
		{1e6, inf, "through more than 1 MΩ"},
		{inf, inf, "with nothing across it that discharges it"},
	} {
		r := quantity.Range{Low: c.low, High: c.high, Dim: quantity.Resistance}
		if got := throughWhat(r); got != c.want {
			t.Errorf("%v to %v Ω: %q, want %q", c.low, c.high, got, c.want)
		}
	}
}
