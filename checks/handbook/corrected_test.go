package handbook

import (
	"testing"

	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
)

// Facts that were wrong, or recalled, until somebody read them; the source stands
// beside each.
func TestCorrectedFacts(t *testing.T) {
	amps := func(size string, carrying int) (float64, figure.Basis) {
		a, basis, _ := Ampacity(size, q(t, size, quantity.Area), carrying)
		return a, basis
	}
	for _, c := range []struct {
		size     string
		carrying int
		want     float64
		status   figure.Status
	}{
		{"20 AWG", 2, 2, figure.Published},         // NEC 400.5(A)(1), footnotes d and e: 2 A; 5 A was recalled
		{"18 AWG", 3, 7, figure.Published},         // NEC 400.5(A)(1), three current-carrying conductors
		{"16 AWG", 3, 10, figure.Published},        // the same
		{"14 AWG", 3, 15, figure.Published},        // the same
		{"0.75 mm²", 2, 6, figure.Published},       // IEC 60335-1 table 11
		{"1.25 mm²", 2, 13, figure.CommonPractice}, // a size that only the United Kingdom has
		{"1.5 mm²", 2, 15, figure.CommonPractice},  // the stricter of 15 A in use and 16 A of IEC 60335-1 table 11
	} {
		if got, basis := amps(c.size, c.carrying); got != c.want || basis.Status != c.status {
			t.Errorf("%s, %d carrying: %g A, %s; want %g A, %s", c.size, c.carrying, got, basis.Status, c.want, c.status)
		}
	}
	// BS 7671 table 41.1, read, is that of IEC 60364-4-41.
	for _, c := range []struct {
		earthing string
		volts    float64
		want     float64
	}{{"tn", 120, 0.8}, {"tn", 230, 0.4}, {"tt", 120, 0.3}, {"tt", 230, 0.2}} {
		if got, basis, ok := DisconnectWithin(c.earthing, c.volts); !ok || got != c.want || basis.Status != figure.Published {
			t.Errorf("%s to %g V: %g s, %+v", c.earthing, c.volts, got, basis)
		}
	}
	// IEC 60384-14 as quoted: over 1 µF Y2 falls with the root, Y1 and Y4 do not.
	if k, _ := Class("Y2"); k.Shrinks.Status != figure.Published {
		t.Errorf("Y2: %+v", k.Shrinks)
	}
	for _, name := range []string{"Y1", "Y4"} {
		if k, _ := Class(name); k.Shrinks.Source != "" {
			t.Errorf("%s: %+v", name, k.Shrinks)
		}
	}
	// Of old cords no document was read: what is said of them is common practice.
	for _, s := range Default().Schemes() {
		if old := s.Basis.Status == figure.Published; old && !s.Today {
			t.Errorf("%s: %+v", s.Name, s.Basis)
		}
	}
}
