package faults_test

import (
	"math"
	"strings"
	"testing"

	"firstvolt/checks/faults"
)

// TestByHandInTheWrongPlace: fuses in the wrong conductor, poles that stick,
// supplies without earth, a second fault on top of an exchanged receptacle, and
// values that nobody gave.
func TestByHandInTheWrongPlace(t *testing.T) {
	const (
		fusedNeutral = head + wires2 + `
parts: {` + fuse + `, R1: {kind: resistor, value: 1200 Ω, tolerance: 0 %}}
wiring: [plug.hot -> R1 -> chassis -> F1 -> plug.neutral]
`
		wound = head + wires2 + `
parts: {S1: {kind: switch, poles: 1}, T1: {kind: transformer, windings: {primary: {ends: [1, 2], voltage: 120 V}, heater: {ends: [3, 4], voltage: 6 V}}}}
wiring: [plug.hot -> S1 -> T1.1, plug.neutral -> T1.2, T1.4 -> chassis]
`
		neutralC = head + ground3 + `
parts: {C2: {kind: capacitor, value: 4 nF, tolerance: 0 %}, R1: {kind: resistor, value: 10 MΩ}}
wiring: [plug.hot -> R1 -> plug.neutral -> C2 -> chassis, plug.ground -> chassis]
`
		back  = hotMax + contact                        // Ω, from a live chassis through F1 to the service at most
		held  = 127 * back / (hot + back)               // V on it with R1 shorted
		low   = 104 / (2*hotMax + fuseMax)              // A through F1
		quick = 0.01 + 3*13/(3.15*3.15)/(low*low)       // s
		plain = 127 * hotMax / (hot + contact + hotMax) // V on a live chassis, F1 in hot
		c1    = 1.2*4.7e-9 + stray
	)
	for _, h := range []byHand{
		// The fuse in the wrong conductor: it opens, and hot stays on the chassis for good.
		{what: "fuse in neutral, live chassis, R1 shorted", sheet: fusedNeutral, fault: "shorted", subject: "R1", before: held / (900 + hot*back/(hot+back)), after: 127 / (850 + hot), opens: "F1", latest: quick, effect: "can kill"},
		{what: "fuse in neutral, live chassis, hot wire", sheet: fusedNeutral, fault: "wire touches chassis", subject: "R1.1", before: held / (900 + hot*back/(hot+back)), after: 127 / (850 + hot), opens: "F1", latest: quick, effect: "can kill"},
		// The dangerous end of a live chassis is the longest neutral.
		{what: "live chassis, R1 shorted", sheet: live, fault: "shorted", subject: "R1", before: plain / (900 + (hot+contact)*hotMax/(hot+contact+hotMax)), after: 127 * w60 * stray * hotMax / math.Hypot(re60+hotMax, im60), opens: "F1", latest: quick, effect: "contained"},
		// A pole stuck open leaves what its switch leaves when open.
		{what: "off", sheet: wound, switches: "S1 open", fault: "nothing", subject: "set", before: 127 / person60(2e-9), effect: "not felt"},
		{what: "pole stuck open", sheet: wound, switches: "S1 closed", fault: "pole 1 stuck open", subject: "S1", before: 127 / person60(2e-9), effect: "not felt"},
		// No earth at the receptacle is a ground open for ever.
		{what: "earthing none, nothing", sheet: strings.Replace(bonded, "plug: nema-5-15", "plug: nema-5-15, earthing: none", 1), fault: "nothing", subject: "set", before: 127 / person60(c1), effect: "not felt"},
		{what: "earthing none, hot wire", sheet: strings.Replace(bonded, "plug: nema-5-15", "plug: nema-5-15, earthing: none", 1), fault: "wire touches chassis", subject: "F1.1", before: 127 / (850 + hot), effect: "can kill"},
		// What is unknown across the line lets hot through when neutral is open.
		{what: "live chassis, load of no value, neutral open", sheet: strings.Replace(live, ", value: 1200 Ω, tolerance: 0 %", "", 1), fault: "neutral open", subject: "supply", before: 127 / (850 + hot + contact + 10), effect: "can kill"},
		// Latent with another: the two that the page names first.
		{what: "ground open and exchanged", sheet: neutralC, fault: "ground open", subject: "supply", latent: "hot and neutral exchanged", before: 127 / person60(4.1e-9), effect: "not felt"},
		{what: "exchanged, neutral wire touches", sheet: neutralC, fault: "wire touches chassis", subject: "C2.1", latent: "hot and neutral exchanged", before: 127 * pe / (hot + pe) / (900 + hot*pe/(hot+pe)), opens: "the branch device", latest: 60, effect: "can kill"},
	} {
		t.Run(h.what, func(t *testing.T) { h.check(t) })
	}
	coil := func(volts string) string {
		return head + wires2 + "parts: {T1: {kind: transformer, windings: {primary: {ends: [1, 2]" + volts + "}}}, C1: {kind: capacitor, value: 15 nF, tolerance: 0 %}}\nwiring: [plug.hot -> T1.1, plug.neutral -> T1.2, T1.1 -> C1 -> chassis]\n"
	}
	for _, c := range []struct {
		what, text, missing string
		high                float64
	}{
		{"primary of 120 V", coil(", voltage: 120 V"), "", 127 / person60(17e-9)},
		{"primary of no volts", coil(""), "T1.primary voltage", 127 / person60(17e-9)},
		{"unit of no ratio", with(loose, "{kind: autotransformer, fits: one-way}"), "upstream 1 ratio", math.Inf(1)},
	} {
		b := read(t, c.text)
		f := one(t, b, "touch-current", "chassis")
		if !(f.Known() && f.Range.High >= c.high*(1-1e-4)) && !(!f.Known() && has(f.Missing, c.missing)) {
			t.Errorf("%s: %s %v; want %g A or more, or missing %s", c.what, f.Range, f.Missing, c.high, c.missing)
		}
		s := one(t, b, "fault-that-stays", "set")
		if strings.Contains(s.Note, " 0 A flow") {
			t.Errorf("%s: %s", c.what, s.Note)
		}
		_, _ = faults.Table(b) // it may have no answer, but does not panic
	}
}
