package faults_test

import (
	"fmt"
	"math"
	"math/cmplx"
	"slices"
	"strings"
	"testing"

	"firstvolt/checks/faults"
	"firstvolt/checks/quantity"
)

// european is a small sheet on 230 V, with what stands in the supply besides.
func european(text, supply string) string {
	text = strings.Replace(text, "region: north-america, plug: nema-5-15", "region: europe, plug: cee-7-7, "+supply, 1)
	return strings.Replace(text, "region: north-america, plug: nema-1-15-polarized", "region: europe, plug: cee-7-16, "+supply, 1)
}

// rcd is a tested device of so many mA.
func rcd(milliamps int) string {
	return fmt.Sprintf("{kind: rcd, rating: %d mA, type: a, tested: 2026-11-20}", milliamps)
}

// knob is a bare shaft beside the chassis of a sheet, wired to nothing.
func knob(text string) string {
	return strings.NewReplacer("parts: {", "parts: {Knob: {kind: body}, Lug: {kind: tie}, ", "wiring: [", "wiring: [Knob -> Lug, ").Replace(text)
}

// TestByHandOnOtherSupplies: electrodes, two lines, an insulated supply, metal
// beside the chassis, and metal in the other hand.
func TestByHandOnOtherSupplies(t *testing.T) {
	const (
		// TT: the installation's electrode of 200 Ω at most, the service's of
		// 1 Ω at least. IT: neutral on earth by 1000 Ω at least.
		back = pe + 200
		tt   = 253 * back / (back + 1 + hot)    // V on the chassis
		it   = 253 * back / (back + 1000 + hot) // likewise
		rtt  = back * (1 + hot) / (back + 1 + hot)
		rit  = back * (1000 + hot) / (back + 1000 + hot)
		// At the resistance at which 30 mA flow and an RCD of 30 mA must open.
		most  = 30e-3 * back
		rmost = back * (1 - most/253)
		// Two of three lines: each 253 V/√3 from the star point.
		star = 253 / 1.7320508
		bare = 127 / (850 + hot) // A at 125 V to 150 V, no fuse in the way
		// From line to line beside a load.
		apart = hot + line + cordMax
		load  = 1200 + contact
	)
	// The leak's volts, and a quarter turn apart those of C1 and the wiring.
	leaky := math.Hypot(most, 253*w50*(1.2*4.7e-9+stray)*back)
	lines := european(loose, "system: two-line, earthing: tn")
	grounded := func(chain string) string { return with(european(bonded, "earthing: tt"), chain) }
	for _, h := range []byHand{
		// The lowest supply and longest wires put 207 V/(200 Ω + 10 Ω + 2 Ω) = 0.98 A
		// through a sound electrode: past 5 × 30 mA, 5 × 100 mA, 2 × 300 mA.
		{what: "TT, 30 mA", sheet: grounded(rcd(30)), fault: "wire touches chassis", subject: "F1.1", volts: tt, before: tt / (700 + rtt), opens: "the RCD of 30 mA", latest: 0.04, effect: "contained"},
		{what: "TT, 100 mA", sheet: grounded(rcd(100)), fault: "wire touches chassis", subject: "F1.1", volts: tt, before: tt / (700 + rtt), opens: "the RCD of 100 mA", latest: 0.04, effect: "contained"},
		// 104 mA through a person alone (207 V/1990 Ω): past 5 × 10 mA, 2 × 30 mA, not 300 mA.
		{what: "TT, ground open, 10 mA", sheet: grounded(rcd(10)), fault: "wire touches chassis", subject: "F1.1", latent: "ground open", before: 253 / (700 + hot + 1), opens: "the RCD of 10 mA", latest: 0.04, effect: "contained"},
		{what: "TT, ground open, 30 mA", sheet: grounded(rcd(30)), fault: "wire touches chassis", subject: "F1.1", latent: "ground open", before: 253 / (700 + hot + 1), opens: "the RCD of 30 mA", latest: 0.15, effect: "can kill"},
		// 104 V/1986 Ω: 52 mA, past 1 × 30 mA.
		{what: "TT of 120 V, ground open, 30 mA", sheet: with(strings.Replace(bonded, "plug: nema-5-15", "plug: nema-5-15, earthing: tt", 1), rcd(30)), fault: "wire touches chassis", subject: "F1.1", latent: "ground open", before: 127 / (850 + hot + 1), opens: "the RCD of 30 mA", latest: 0.3, effect: "can kill"},
		{what: "TT, ground open, 100 mA", sheet: grounded(rcd(100)), fault: "wire touches chassis", subject: "F1.1", latent: "ground open", before: 253 / (700 + hot + 1), opens: "the RCD of 100 mA", latest: 0.3, effect: "can kill"},
		{what: "TT, ground open, 300 mA", sheet: grounded(rcd(300)), fault: "wire touches chassis", subject: "F1.1", latent: "ground open", before: 253 / (700 + hot + 1), opens: "the RCD of 300 mA", latest: math.Inf(1), after: 253 / (700 + hot + 1), effect: "can kill"},
		{what: "TT, no device", sheet: grounded(""), fault: "wire touches chassis", subject: "F1.1", volts: tt, before: tt / (700 + rtt), effect: "can kill"},
		{what: "TT, device dead", sheet: grounded(rcd(30)), fault: "shorted", subject: "C1", latent: "residual device dead", before: tt / (700 + rtt), opens: "F1", latest: math.Inf(1), after: tt / (700 + rtt), effect: "can kill"},
		{what: "TT, worst insulation", sheet: grounded(rcd(30)), fault: "insulation to chassis leaking", subject: "plug.hot", volts: leaky, before: leaky / math.Hypot(re50+rmost, im50), opens: "the RCD of 30 mA", latest: math.Inf(1), after: leaky / math.Hypot(re50+rmost, im50), effect: "felt"},
		{what: "IT", sheet: european(bonded, "earthing: it"), fault: "wire touches chassis", subject: "F1.1", volts: it, before: it / (1375 + rit), effect: "cannot let go"},

		{what: "two lines", sheet: lines, fault: "open", subject: "C2", volts: star, before: star / person50(10.1e-9), effect: "not felt"},
		{what: "two lines, C1 shorted", sheet: lines, fault: "shorted", subject: "C1", volts: star, before: star / (850 + hot + contact), effect: "can kill"},
		{what: "two lines, C2 shorted", sheet: lines, fault: "shorted", subject: "C2", volts: star, before: star / (850 + hot), effect: "can kill"},

		{what: "metal beside", sheet: knob(loose), metal: "Knob", fault: "nothing", subject: "set", volts: 127, before: 127 / person60(stray), effect: "not felt"},
		{what: "hot on metal beside", sheet: knob(loose), metal: "Knob", fault: "wire touches Knob", subject: "F1.1", volts: 127, before: bare, effect: "can kill"},
		// A floating winding of 127 V, phased against the line: C2 shorted puts one
		// end on the chassis, and the knob hangs on the other by its wiring.
		{what: "two metals, isolated", sheet: with(knob(loose), isolator), metal: "Knob", fault: "shorted", subject: "C2", volts: 2 * 127, before: 2 * 127 / person60(stray*3e-9/(stray+3e-9)), effect: "not felt"},
		// Hot of one line on the knob, a live chassis on the other.
		{what: "hand to hand", sheet: knob(european(live, "system: two-line, earthing: tn")), metal: "Knob to chassis", fault: "wire touches Knob", subject: "F1.1", before: 253 * load / (load + apart) / (700 + load*apart/(load+apart)), effect: "can kill"},
	} {
		t.Run(h.what, func(t *testing.T) { h.check(t) })
	}
}

// TestBodyByHand: the 5 % impedance of IEC 60479-1 table 1 at the volts that
// are left, the next tabled voltage above them; below 10 mA the network. The
// hot wire of a step-down or step-up unit of that ratio lies on the chassis.
func TestBodyByHand(t *testing.T) {
	// Of 1 A out of the unit r A come by the line and r − 1 A go by neutral.
	behind := func(r float64) float64 { return line*(r*r+(r-1)*(r-1)) + cord }
	for _, c := range []struct {
		ratio string
		want  float64
	}{
		{"0.05", 127 * 0.05 / math.Hypot(re60+behind(0.05), im60)},
		{"0.15", 127 * 0.15 / math.Hypot(re60+behind(0.15), im60)}, // 19.05 V: 9.6 mA
		{"0.19", 127 * 0.19 / (1750 + behind(0.19))},               // 24 V: to 25 V
		{"0.2", 127 * 0.2 / (1375 + behind(0.2))},                  // 25.4 V: to 50 V
		{"0.5", 127 * 0.5 / (1125 + behind(0.5))},                  // 63.5 V: to 75 V
		{"0.7", 127 * 0.7 / (990 + behind(0.7))},                   // 89 V: to 100 V
		{"0.95", 127 * 0.95 / (900 + behind(0.95))},                // 121 V: to 125 V
		{"1.1", 127 * 1.1 / (850 + behind(1.1))},                   // 140 V: to 150 V
		{"1.5", 127 * 1.5 / (800 + behind(1.5))},                   // 191 V: to 200 V
		{"1.7", 127 * 1.7 / (775 + behind(1.7))},                   // 216 V: to 225 V
		{"2", 127 * 2 / (700 + behind(2))},                         // 254 V: to 400 V
		{"4", 127 * 4 / (575 + behind(4))},                         // 508 V: to 1000 V
	} {
		text := with(loose, "{kind: autotransformer, ratio: "+c.ratio+", fits: one-way}")
		cases, err := faults.Table(read(t, text))
		if err != nil {
			t.Fatal(err)
		}
		i := slices.IndexFunc(cases, func(c faults.Case) bool {
			return isCase(c, "wire touches chassis", "F1.1", "") && c.Orientation() == "as wired"
		})
		near(t, "A behind a ratio of "+c.ratio, cases[i].Before.High, c.want, 5e-5)
	}
}

// TestWindingsByHand: what the line conductor carries with each winding
// shorted. Cold copper is left out but for a thousandth of the rated impedance,
// 120²/60 Ω of the primary, and for half the usual least of a plate winding; a secondary of loaded volts may have a fifth more
// without load. The magnetising current is that of 20 % of 60 VA at 120 V.
func TestWindingsByHand(t *testing.T) {
	const (
		way     = 2*hot + contact // Ω, there and back, with F1
		own     = 0.001 * 120 * 120 / 60.0
		half    = 50 / 2.0 * (120 / 360.0) * (120 / 360.0) // half of the usual least, by turns
		whole   = 2 * 50 / 2.0 * (120 / 720.0) * (120 / 720.0)
		heater  = 0.001 * 7.2 * 7.2 / 60.0 * (120 / 7.2) * (120 / 7.2)
		reactor = 120 * 120 / (0.2 * 60) // Ω
	)
	text := head + wires2 + `
parts: {` + fuse + `, T1: {kind: transformer, windings: {primary: {ends: [1, 2], voltage: 120 V}, plate: {ends: [3, 5], tap: 4, voltage: 600 V}, heater: {ends: [8, 9], voltage: 6 V}}}}
wiring: [plug.hot -> F1 -> T1.1, plug.neutral -> T1.2]
`
	load := head + wires2 + `
parts: {` + fuse + `, CX: {kind: capacitor, value: 0.1 µF, tolerance: 0 %}, R1: {kind: resistor, value: 240 Ω, tolerance: 0 %}}
wiring: [plug.hot -> F1 -> CX -> plug.neutral, F1.2 -> R1 -> plug.neutral]
`
	for _, c := range []struct {
		text, fault string
		want        float64
	}{
		{text, "", 127 / math.Hypot(way+own, reactor)},
		{text, "F1 bridged", 127 / math.Hypot(2*hot+own, reactor)},
		{text, "T1 primary shorted", 127 / way},
		{text, "T1 plate shorted from 3 to 4", 127 / (way + own + half)},
		{text, "T1 plate shorted from 4 to 5", 127 / (way + own + half)},
		{text, "T1 plate shorted", 127 / (way + own + whole)},
		{text, "T1 heater shorted", 127 / (way + own + heater)},
		{text, "neutral open", 0},
		{load, "", math.Hypot(127/(240+way), 127*w60*0.1e-6)}, // V/R and ωCV, a quarter turn apart
		{load, "CX open", 127 / (240 + way)},
		{load, "CX shorted", 127 / way},
		{load, "R1 open", 127 * w60 * 0.1e-6},
		{load, "R1 shorted", 127 / way},
		{load, "plug.hot – F1.1 wire parted", 0},
	} {
		b := read(t, c.text)
		m, err := faults.MainsOf(b, faults.Which{Fault: faultOf(t, b, c.fault)})
		if err != nil {
			t.Errorf("%q: %v", c.fault, err)
			continue
		}
		i, err := m.Solved.Current("line conductor")
		if err != nil || !(math.Abs(cmplx.Abs(i)-c.want) <= 1e-4*c.want+1e-6) {
			t.Errorf("%q: %g A, %v; by hand %g A", c.fault, cmplx.Abs(i), err, c.want)
		}
	}
	// What clears the short: 104 V over the longest wires, there and back, and F1.
	stays := one(t, read(t, text), "fault-that-stays", "set")
	want := "the primary of T1 is shorted: " + quantity.Format(quantity.Six(104/(2*hotMax+fuseMax)), quantity.Current) + " through F1"
	if stays.Present == nil || *stays.Present || !slices.ContainsFunc(stays.Trace, func(line string) bool { return strings.HasPrefix(line, want) }) {
		t.Errorf("%v does not begin %q", stays.Trace, want)
	}
}
