package handbook

import (
	"math"
	"math/cmplx"
	"slices"
	"strings"
	"testing"

	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
)

func TestResidualTimes(t *testing.T) {
	inf := math.Inf(1)
	for _, row := range published(t, "residual.txt", 4) {
		got, basis, ok := ResidualTime(row[0], num(t, row[1], 0)/1000, num(t, row[2], 0)/1000)
		want := num(t, row[3], inf)
		if !ok || !(got == want || math.Abs(got-want) <= 0.006) || basis.Source == "" {
			t.Errorf("%v: %g s", row, got)
		}
	}
	// The 25 ms of a class A device belong to 264 mA; more is no quicker, 6 mA is 5.6 s.
	if s, _, _ := ResidualTime("gfci", 0, 2); !(s > 0.024 && s < 0.026) {
		t.Errorf("2 A: %g s", s)
	}
	for name, s := range map[string]float64{"not a number": math.NaN(), "under the trip": 0.0059} {
		if got, _, _ := ResidualTime("gfci", 0, s); !math.IsInf(got, 1) {
			t.Errorf("%s: %g s", name, got)
		}
	}
	if _, _, ok := ResidualTime("rcd", 0, 1); ok {
		t.Error("an RCD without rating")
	}
	if _, _, ok := ResidualTime("fuse", 1, 1); ok {
		t.Error("no residual device")
	}
}

func TestResidualBands(t *testing.T) {
	for _, c := range []struct {
		kind              string
		rating, low, high float64
	}{{"gfci", 0, 0.004, 0.006}, {"rcd", 0.03, 0.015, 0.03}, {"rcd", 0.01, 0.005, 0.01}} {
		r, _, ok := ResidualTrip(c.kind, c.rating)
		if !ok || !close(r.Low, c.low, 1e-9) || !close(r.High, c.high, 1e-9) {
			t.Errorf("%+v: %v", c, r)
		}
	}
	for kind, want := range map[string]bool{"ac": false, "": false, "a": true, "b": true} {
		if _, _, ok := ResidualHalfWave(kind, 0.03); ok != want {
			t.Errorf("type %q and a half wave: %v", kind, ok)
		}
	}
	if r, _, _ := ResidualHalfWave("a", 0.03); !close(r.High, 0.042, 1e-9) {
		t.Errorf("type a: %v", r)
	}
	if _, _, ok := ResidualTrip("rcd", math.NaN()); ok {
		t.Error("an RCD of no rating")
	}
	if share, basis := ResidualBudget(); share != 0.25 || basis.Status != figure.CommonPractice {
		t.Errorf("budget %g", share)
	}
}

func TestCapacitorClasses(t *testing.T) {
	for _, row := range published(t, "capacitor-classes.txt", 6) {
		k, ok := Class(row[0])
		if want := num(t, row[1], 0) * 1000; !ok || k.Impulse != want {
			t.Errorf("%s: impulse %g V, want %g", row[0], k.Impulse, want)
		}
		for i, role := range []string{"line", "basic", "reinforced"} {
			fits, basis := ClassFits(row[0], role, num(t, row[2], 0))
			if fits != (row[3+i] == "yes") || !strings.Contains(basis.Source, "IEC 60384-14") {
				t.Errorf("%s as %s on %s V: %v (%s)", row[0], role, row[2], fits, basis.Source)
			}
		}
	}
	for _, c := range []struct {
		class, role string
		mains       float64
	}{{"", "line", 120}, {"X9", "line", 120}, {"Y1", "aerial", 120}, {"Y1", "line", math.NaN()}, {"Y4", "basic", 151}, {"X1", "line", 0}} {
		if fits, basis := ClassFits(c.class, c.role, c.mains); fits || basis.Source == "" {
			t.Errorf("%+v fits", c)
		}
	}
	if fits, _ := ClassFits("Y4", "basic", 150); !fits {
		t.Error("Y4 at 150 V")
	}
	for class, want := range map[string]bool{"Y2": true, "Y1": true, "Y3": false, "Y4": false, "X1": false, "": false} {
		if got, _ := PairFits(class); got != want {
			t.Errorf("two %s in series: %v", class, got)
		}
	}
	for _, c := range []struct {
		class        string
		farads, want float64
	}{{"X1", 2.2e-6, 2697}, {"X2", 2.2e-6, 1686}, {"X2", 1e-6, 2500}, {"Y1", 2.2e-6, 8000}, {"Y2", 4e-6, 2500}, {"X3", 1e-7, 0}} {
		if got, ok := ImpulseTest(c.class, c.farads); !ok || !close(got, c.want, 1e-3) {
			t.Errorf("%s of %g F: %g V, want %g", c.class, c.farads, got, c.want)
		}
	}
	if _, ok := ImpulseTest("X2", math.NaN()); ok {
		t.Error("an impulse test of nothing")
	}
	if k, _ := Class("Y2"); k.Rated.Low != 150 || k.Rated.High != 300 {
		t.Errorf("Y2: %v", k.Rated)
	}
}

// response gives input impedance and reading of a network per ampere.
func response(n Network, f float64) (z, out float64) {
	w := complex(0, 2*math.Pi*f)
	par := func(a, b complex128) complex128 { return a * b / (a + b) }
	capacitor := func(c float64) complex128 { return 1 / (w * complex(c, 0)) }
	skin := par(complex(n.Skin, 0), capacitor(n.Across))
	if n.Body == 0 {
		return cmplx.Abs(skin), cmplx.Abs(skin)
	}
	body := complex(n.Body, 0)
	if n.Series == 0 {
		return cmplx.Abs(skin + body), n.Body
	}
	shunt := capacitor(n.Shunt)
	if n.Leg > 0 {
		shunt = par(shunt, complex(n.Leg, 0)+capacitor(n.LegEnd))
	}
	branch := complex(n.Series, 0) + shunt
	both := par(body, branch)
	return cmplx.Abs(skin + both), cmplx.Abs(both * shunt / branch)
}

func TestBodyNetworks(t *testing.T) {
	for _, row := range published(t, "body-network.txt", 4) {
		n, ok := BodyNetwork(row[0])
		z, out := response(n, num(t, row[1], 0))
		if !ok || !close(z, num(t, row[2], 0), 2e-4) || !close(out, num(t, row[3], 0), 3e-4) {
			t.Errorf("%v: %.5g, %.5g", row, z, out)
		}
	}
	// The wrong topology is seen: with the 20 kΩ in the 9.1 nF leg it reads 342.5 Ω at 1 kHz.
	n, _ := BodyNetwork("let-go")
	n.Shunt, n.LegEnd = n.LegEnd, n.Shunt
	if _, out := response(n, 1000); !close(out, 342.5, 1e-3) {
		t.Errorf("wrong topology: %.5g", out)
	}
	if _, ok := BodyNetwork(""); ok {
		t.Error("no network")
	}
}

func TestBodyImpedance(t *testing.T) {
	for _, row := range published(t, "body-impedance.txt", 4) {
		for i, percent := range []int{5, 50, 95} {
			got, basis, ok := BodyImpedance(num(t, row[0], 0), percent)
			if !ok || got != num(t, row[1+i], 0) || basis.Status != figure.FromMemory {
				t.Errorf("%s V, %d %%: %g", row[0], percent, got)
			}
		}
	}
	for volts, want := range map[float64]float64{0: 1750, 120: 900, 126: 850, 230: 700, 253: 700, 2000: 575, math.NaN(): 575} {
		if got, _, _ := BodyImpedance(volts, 5); got != want {
			t.Errorf("%g V: %g Ω, want %g", volts, got, want)
		}
	}
	if _, _, ok := BodyImpedance(120, 10); ok {
		t.Error("a percentage that is not tabled")
	}
}

func TestEffects(t *testing.T) {
	for _, c := range []struct {
		current       string
		amps, seconds float64
		want          string
	}{
		{"ac", 0.00049, 1000, NotFelt}, {"ac", 0.0005, 1000, Felt}, {"ac", 0.0049, 1000, Felt}, {"ac", 0.005, 1000, CannotLetGo},
		{"ac", 0.039, 1000, CannotLetGo}, {"ac", 0.04, 1000, CanKill}, {"ac", 0.133, 1000, CanKill}, // 120 V on 900 Ω
		{"ac", 0.29, 0.04, CannotLetGo}, {"ac", 0.29, 0.3, CanKill}, {"ac", 0.5, 0.04, CanKill}, {"ac", 0.15, 0.005, Felt},
		{"dc", 0.0019, 1000, NotFelt}, {"dc", 0.002, 1000, Felt}, {"dc", 0.03, 1000, CannotLetGo}, {"dc", 0.2, 1000, CanKill}, {"dc", 0.2, 0.1, CannotLetGo},
		{"ac", math.NaN(), 1, CanKill}, {"ac", 0.1, math.NaN(), CanKill}, {"ac", math.Inf(1), 0.001, CanKill}, {"rf", 0.0001, 1, CanKill},
	} {
		if got, _ := Effect(c.current, c.amps, c.seconds); got != c.want {
			t.Errorf("%g A %s for %g s: %s, want %s", c.amps, c.current, c.seconds, got, c.want)
		}
	}
	// Longer is never milder.
	order := []string{NotFelt, Felt, CannotLetGo, CanKill}
	for amps := 1e-4; amps < 1; amps *= 1.2 {
		last := 0
		for s := 1e-3; s < 100; s *= 1.5 {
			effect, _ := Effect("ac", amps, s)
			if i := slices.Index(order, effect); i < last {
				t.Errorf("%g A: %s at %g s", amps, effect, s)
			} else {
				last = i
			}
		}
	}
}

func TestLimitsOfTouch(t *testing.T) {
	for key, want := range map[[2]string]float64{
		{"normal", "ac"}: 0.0005, {"normal", "dc"}: 0.002, {"one-fault", "ac"}: 0.005, {"one-fault", "dc"}: 0.025, {"bonded", "ac"}: 0.0035,
	} {
		if got, basis, ok := TouchLimit(key[0], key[1]); !ok || got != want || basis.Source == "" {
			t.Errorf("%v: %g A", key, got)
		}
	}
	if got, _, ok := TouchLimit("bonded", "dc"); ok || !math.IsNaN(got) {
		t.Error("a limit that nobody set")
	}
	for _, c := range []struct {
		earthing    string
		volts, want float64
	}{{"tn", 120, 0.8}, {"tn", 100, 0.8}, {"tn", 230, 0.4}, {"tt", 100, 0.3}, {"tt", 230, 0.2}, {"tn", 400, math.NaN()}, {"it", 230, math.NaN()}, {"tn", math.NaN(), math.NaN()}} {
		got, _, ok := DisconnectWithin(c.earthing, c.volts)
		if ok == math.IsNaN(c.want) || ok && got != c.want {
			t.Errorf("%+v: %g s", c, got)
		}
	}
}

func TestQuantitiesAreCurrents(t *testing.T) {
	r, _, _ := ResidualTrip("gfci", 0)
	if r.Dim != quantity.Current {
		t.Errorf("dimension %v", r.Dim)
	}
}
