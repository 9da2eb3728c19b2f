package report

import (
	"math"
	"testing"

	"firstvolt/checks/faults"
	"firstvolt/checks/mains"
	"firstvolt/checks/quantity"
)

func through(low, high float64) quantity.Range {
	return quantity.Range{Low: low, High: high, Dim: quantity.Current}
}

// TestSays holds the sentences to what a restorer reads.
func TestSays(t *testing.T) {
	chassis, f1 := mains.Touch{Held: "chassis"}, faults.Device{Kind: faults.Fuse, Of: "F1"}
	for _, c := range []struct {
		c    faults.Case
		want string
	}{
		{faults.Case{Which: faults.Which{Fault: faults.Fault{Kind: faults.Shorted, Of: "C1"}, Latent: faults.Fault{Kind: faults.GroundOpen}, Touch: chassis},
			Before: through(0.057, 0.057), After: through(0.057, 0.057), Latest: math.Inf(1)},
			"If C1 shorts while the ground is open, a person who holds the chassis gets 57 mA; nothing opens"},
		{faults.Case{Which: faults.Which{Fault: faults.Fault{Kind: faults.WireTouches, Of: "F1.end", Metal: "chassis"},
			Latent: faults.Fault{Kind: faults.StuckOpen, Of: "S1", Pole: 1}, Touch: mains.Touch{Held: "chassis", Other: "Tuner"}},
			Before: through(0.01, 0.1), Opens: f1, Earliest: 0.01, Latest: 0.1, After: through(0, 0)},
			"If the wire at F1.end touches the chassis while pole 1 of S1 is stuck open, a person who holds the chassis and Tuner gets 10 mA to 100 mA; F1 opens after 0.01 s to 0.1 s; until then the person gets all of it"},
		{faults.Case{Which: faults.Which{Fault: faults.Fault{Kind: faults.Exchanged}, Touch: chassis}, Before: through(0, 0.001), Opens: f1, Latest: math.NaN(), After: through(0, 0.001)},
			"If hot and neutral are exchanged at the receptacle, a person who holds the chassis gets 0 A to 1 mA; F1 need not open"},
		{faults.Case{Which: faults.Which{Fault: faults.Fault{Kind: faults.SectionShorted, Of: "T1", Winding: "primary", From: "1", To: "2"},
			Latent: faults.Fault{Kind: faults.DeviceDead}, Touch: mains.Touch{Held: "Knob"}}, Before: through(0, 0.001), Opens: f1, Latest: 1, After: through(0, 0.001)},
			"If the primary of T1 is shorted from 1 to 2 while the residual device is dead, a person who holds Knob gets 0 A to 1 mA; F1 opens within 1 s, and then 0 A to 1 mA"},
		{faults.Case{Which: faults.Which{Fault: faults.Fault{Kind: faults.Leaking, Of: "T1.1", Metal: "chassis"}, Touch: chassis}, Before: through(0, 0)},
			"If the insulation between T1.1 and the chassis leaks just less than would open anything, a person who holds the chassis gets 0 A; nothing opens"},
		{faults.Case{Which: faults.Which{Touch: chassis}, Before: through(0, 0)},
			"With nothing at fault, a person who holds the chassis gets 0 A; nothing opens"},
	} {
		if got := says(c.c); got != c.want {
			t.Errorf("%s\nwant %s", got, c.want)
		}
	}
}

// TestAmps never prints what nobody feels as a row of noughts, nor a certain
// current as more than it is.
func TestAmps(t *testing.T) {
	for _, c := range []struct {
		low, high float64
		want      string
	}{{0, 0, "0 A"}, {0, 4e-21, "less than 1 µA"}, {1e-15, 2e-3, "0 A to 2 mA"}, {2e-3, 2e-3, "2 mA"}, {1e-3, 0.25, "1 mA to 250 mA"}} {
		if got := amps(through(c.low, c.high)); got != c.want {
			t.Errorf("%g to %g: %s, want %s", c.low, c.high, got, c.want)
		}
	}
}
