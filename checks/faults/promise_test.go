package faults_test

import (
	"math"
	"strings"
	"testing"

	"firstvolt/checks/faults"
	"firstvolt/checks/mains"
	"firstvolt/checks/trial"
)

// TestLayerNamesWhatStays: behind one layer of insulation and a device that need
// not open at once the caution prints the worst current that may stay, at least
// that of the table; metal wired to that chassis has the chassis's answer.
func TestLayerNamesWhatStays(t *testing.T) {
	text := trial.Altered(t, trial.Sheet(t, "lindwasser-zweipol"),
		"  Antenne: {kind: body}\n", "  Antenne: {kind: body}\n  Knopf: {kind: body}\n", "  - NT.4 -> chassis\n", "  - NT.4 -> chassis\n  - Knopf -> chassis\n")
	b := read(t, text)
	worst := 0.0
	for _, c := range singles(t, b) {
		if c.Touch == (mains.Touch{Held: "chassis"}) && c.Fault.Metal == "chassis" && c.Effect != faults.Contained {
			worst = math.Max(worst, c.Before.High)
		}
	}
	f := one(t, b, "one-layer-to-hand", "chassis")
	if worst < 0.1 || !strings.Contains(f.Note, "may go on getting 60 mA; the RCD of 30 mA need not open at all") || !strings.Contains(f.Note, "mA") {
		t.Errorf("%g A in the table, noted %q", worst, f.Note)
	}
	chassis, knob := one(t, b, "touch-current-one-fault", "chassis"), one(t, b, "touch-current-one-fault", "Knopf")
	if !chassis.Known() || knob.Range != chassis.Range {
		t.Errorf("the chassis %s, what is wired to it %s", chassis.Range, knob.Range)
	}
}

// TestLeakOnUnbondedMetal: the leak just short of tripping is found however near
// to the live end capacitance holds the metal.
func TestLeakOnUnbondedMetal(t *testing.T) {
	for _, farads := range []string{"1 nF", "5 nF", "20 nF", "100 nF", "400 nF"} {
		text := strings.Replace(with(loose, rcd(30)), "construction: transformer", "construction: floating-chassis", 1)
		text = strings.Replace(text, "C1: {kind: capacitor, value: 10 nF", "C1: {kind: capacitor, value: "+farads, 1)
		found := false
		for _, c := range singles(t, read(t, text)) {
			if c.Fault.Kind != faults.Leaking || c.Fault.Metal != "chassis" {
				continue
			}
			if found = true; !(c.Before.High > 0.029 && c.Before.High <= 0.030001) || !math.IsInf(c.Latest, 1) {
				t.Errorf("%s: %g A, %g s", farads, c.Before.High, c.Latest)
			}
		}
		if !found {
			t.Errorf("%s: no leak", farads)
		}
	}
}

// TestBranchDevicePromisesLittle: a branch device is quick only at so many times
// its rating as its letter says, takes a minute at 2.55 times, and never contains.
func TestBranchDevicePromisesLittle(t *testing.T) {
	for _, c := range []struct {
		branch string
		latest float64 // s, of a wire ahead of the fuse on the bonded chassis: some 74 A at the least
	}{
		{"", 60},
		{"branch: {rating: 15 A}, ", 60},
		{"branch: {rating: 13 A, letter: B}, ", 0.8},
		{"branch: {rating: 20 A, letter: B}, ", 60},
		{"branch: {rating: 6 A, letter: C}, ", 0.8},
		{"branch: {rating: 32 A, letter: B}, ", math.Inf(1)},
	} {
		text := strings.Replace(bonded, "upstream: []", c.branch+"upstream: []", 1)
		for _, x := range singles(t, read(t, text)) {
			if x.Opens.Kind == faults.BranchDevice && x.Effect == faults.Contained {
				t.Errorf("%s: %s is contained", c.branch, x.Fault)
			}
			if x.Fault.Kind == faults.WireTouches && x.Fault.Of == "F1.1" && (x.Opens.Kind != faults.BranchDevice || x.Latest != c.latest) {
				t.Errorf("%s: %s opens within %g s, not %g s", c.branch, x.Opens, x.Latest, c.latest)
			}
		}
	}
}

// TestContainedIsBelowItsRow: nothing is contained at a current that can kill
// within the time that it may flow.
func TestContainedIsBelowItsRow(t *testing.T) {
	contained := 0
	for name := range sheetsOf(t) {
		for _, c := range soundTable(t, name) {
			if c.Effect != faults.Contained {
				continue
			}
			contained++
			most := 0.04 // A, at any time
			if c.Latest <= 0.1 {
				most = 0.5
			}
			if !(c.Before.High < most) && c.Opens.Kind != faults.GFCI && c.Opens.Kind != faults.RCD || c.Opens.Kind == faults.BranchDevice {
				t.Errorf("%s: %s while %s: %g A for %g s by %s", name, c.Fault, c.Latent, c.Before.High, c.Latest, c.Opens)
			}
		}
	}
	if contained < 100 {
		t.Errorf("only %d cases are contained", contained)
	}
}

// TestUnreadWindingOpensNothing: a fault that clears through a winding is asked at
// the most that the winding may have, where nobody read it, and what stays in it
// is told in watts.
func TestUnreadWindingOpensNothing(t *testing.T) {
	const sheet = head + "supply: {region: north-america, plug: nema-1-15-polarized, upstream: []}\n" + two + `
parts: {` + fuse + `, T1: {kind: transformer, windings: {primary: {ends: [1, 2], voltage: 120 V}, plate: {ends: [3, 5], tap: 4, voltage: 600 V}}}}
wiring: [plug.hot -> F1 -> T1.1, plug.neutral -> T1.2]
`
	const reading = "  resistance: [{across: T1.primary, reads: 8 Ω, with: ohms}, {between: [T1.3, T1.4], reads: 60 Ω, with: ohms}, {between: [T1.4, T1.5], reads: 60 Ω, with: ohms}]\n"
	read0 := strings.Replace(strings.Replace(sheet, "readings:\n", "readings:\n"+reading, 1), "instruments: {", "instruments: {ohms: {measures: resistance, accuracy: 1 %}, ", 1)
	shorted := func(text string) faults.Case {
		for _, c := range singles(t, read(t, text)) {
			if c.Fault.Kind == faults.WindingShorted && c.Fault.Winding == "plate" {
				return c
			}
		}
		t.Fatal("no plate winding is shorted")
		return faults.Case{}
	}
	good, unread := shorted(read0), shorted(sheet)
	if !(good.Latest < 100) || good.Opens.Of != "F1" {
		t.Errorf("read: %s within %g s", good.Opens, good.Latest)
	}
	if !(unread.Latest > good.Latest) {
		t.Errorf("unread: within %g s, read %g s", unread.Latest, good.Latest)
	}
	if math.IsInf(unread.Latest, 1) && (!(unread.Heat.Watts > 5) || unread.Heat.In != "T1") {
		t.Errorf("nothing opens, and %+v stay", unread.Heat)
	}
}

// TestOpenCapacitorEndsAsItIs: a capacitor that opens leaves the circuit that
// clears as it is, and a rectified part that shorts is not solved.
func TestOpenCapacitorEndsAsItIs(t *testing.T) {
	c := singles(t, read(t, strings.Replace(bonded, "10 MΩ", "0.5 Ω", 1)))
	said := false
	for _, x := range c {
		if x.Fault == (faults.Fault{Kind: faults.Open, Of: "C1"}) {
			said = true
			if x.Opens.Of != "F1" || math.IsInf(x.Latest, 1) {
				t.Errorf("C1 open beside a short: %s within %g s", x.Opens, x.Latest)
			}
		}
	}
	if !said {
		t.Error("C1 never opens")
	}
	rectified := trial.Sheet(t, "teaselglen-three-way")
	found := false
	for _, x := range singles(t, read(t, rectified)) {
		if x.Fault == (faults.Fault{Kind: faults.Shorted, Of: "C2"}) {
			found = true
			if !x.Unsolved || x.Effect == "not felt" {
				t.Errorf("C2 behind the rectifier shorted: %s, unsolved %t", x.Effect, x.Unsolved)
			}
		}
	}
	if !found {
		t.Error("C2 never shorts")
	}
}
