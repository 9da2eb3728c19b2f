package faults_test

import (
	"math"
	"math/cmplx"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"firstvolt/checks/bench"
	"firstvolt/checks/faults"
	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
	"firstvolt/checks/sheet"
)

func read(t testing.TB, text string) *bench.Bench {
	t.Helper()
	s, problems := sheet.Read("test.yaml", []byte(text))
	if s == nil {
		t.Fatal(problems)
	}
	return bench.New(s)
}

func sheetsOf(t testing.TB) map[string]string {
	t.Helper()
	names, err := filepath.Glob("../../testdata/sheets/*.yaml")
	if err != nil || len(names) == 0 {
		t.Fatal(err, names)
	}
	out := map[string]string{}
	for _, n := range names {
		data, err := os.ReadFile(n)
		if err != nil {
			t.Fatal(err)
		}
		out[filepath.Base(n)] = string(data)
	}
	return out
}

func figures(t testing.TB, b *bench.Bench) []figure.Figure {
	t.Helper()
	var out []figure.Figure
	for _, c := range faults.Checks {
		fs, fault := c.Run(b)
		if fault != "" {
			t.Fatal(fault)
		}
		out = append(out, fs...)
	}
	return out
}

// one is the figure of that name about a subject.
func one(t testing.TB, b *bench.Bench, name, subject string) figure.Figure {
	t.Helper()
	for _, f := range figures(t, b) {
		if f.Def.Name == name && f.Of.Name == subject {
			return f
		}
	}
	t.Fatalf("no figure %s of %s", name, subject)
	return figure.Figure{}
}

// near holds a value to within a share of another.
func near(t *testing.T, what string, got, want, share float64) {
	t.Helper()
	if !(math.Abs(got-want) <= share*math.Abs(want)) {
		t.Errorf("%s: %g, by hand %g", what, got, want)
	}
}

// TestSoundSheets holds every sound sheet to the published limits: 0.5 mA
// with nothing at fault, 5 mA with any one fault that nothing opens.
func TestSoundSheets(t *testing.T) {
	for name, text := range sheetsOf(t) {
		for _, f := range figures(t, read(t, text)) {
			most := map[string]float64{"touch-current": 0.5e-3, "touch-current-off": 0.5e-3, "touch-current-one-fault": 5e-3}[f.Def.Name]
			if f.Def.Unit != quantity.Current || most == 0 {
				continue
			}
			if !f.Known() || !(f.Range.High <= most) || !(f.Range.Low >= 0) {
				t.Errorf("%s: %s of %s is %s %v: %s", name, f.Def.Name, f.Of.Name, f.Range, f.Missing, f.Note)
			}
		}
	}
}

// TestGroundOpen: the chassis then hangs on its capacitors, 2πf·C·V. C1 is
// 4.7 nF and up to 20 % more; of the 5.4 nF that the bridge reads (2 % and
// 0.1 nF more at most) the windings have what 80 % of C1 leave.
func TestGroundOpen(t *testing.T) {
	b := read(t, sheetsOf(t)["larkfield-six-forty.yaml"])
	f := one(t, b, "touch-current-one-fault", "chassis")
	c := 1.2*4.7e-9 + 5.4e-9*1.02 + 0.1e-9 - 0.8*4.7e-9
	near(t, "current with the ground open", f.Range.High, 2*math.Pi*60*c*127, 0.002)
}

// unearthed is the demo set on two conductors.
func unearthed(t testing.TB) string {
	text := sheetsOf(t)["larkfield-six-forty.yaml"]
	for _, r := range [][2]string{
		{"conductors: 3", "conductors: 2"}, {"nema-5-15", "nema-1-15-polarized"},
		{"  - {run: plug.ground -> chassis, color: green, joint: own-screw, slack: longest}\n", ""},
		{"    - {between: [plug.ground, chassis], reads: 0.06 Ω, with: milliohm}\n", ""},
		{"    - {kind: gfci, form: receptacle, tested: 2026-11-20}\n", ""},
	} {
		if !strings.Contains(text, r[0]) {
			t.Fatalf("no %q", r[0])
		}
		text = strings.Replace(text, r[0], r[1], 1)
	}
	return text
}

// TestShortedCapacitor: C1 shorts on two conductors, and 127 V find a hand.
// The handbook gives 850 Ω at 125 V to 150 V: 127 V / 850 Ω = 149 mA.
func TestShortedCapacitor(t *testing.T) {
	f := one(t, read(t, unearthed(t)), "touch-current-one-fault", "chassis")
	near(t, "current with C1 shorted", f.Range.High, 127.0/850, 0.003)
	if !(f.Range.Low > 5e-3) {
		t.Errorf("at least %g A, and nothing opens", f.Range.Low)
	}
	for _, want := range []string{"If C1 shorts", "the chassis carries 127 V", "149 mA", "nothing opens"} {
		if !strings.Contains(f.Note, want) {
			t.Errorf("%q does not say %q", f.Note, want)
		}
	}
}

// TestPerson holds the network and the body to the published values: 2 kΩ in
// all at low frequency, 10 mA and less; the 5 % impedance above.
func TestPerson(t *testing.T) {
	b := read(t, strings.Replace(unearthed(t), "value: 4.7 nF, class: Y2", "value: 47 nF, tolerance: 0 %, class: Y2", 1))
	f := one(t, b, "touch-current", "chassis")
	// 1/(2π·60·(47 nF + 0.1 nF + 2 % of 5.4 nF…)) is no more than the reading
	// leaves: nothing, as 47 nF are more than it reads. 127 V through 47 nF and
	// 1986 Ω (60 Hz, of which 1470 − j382 Ω are skin): 2.24 mA.
	z := complex(500, 0) + 1/complex(1/1500.0, 2*math.Pi*60*0.22e-6) + 1/complex(0, 2*math.Pi*60*47e-9)
	near(t, "current through 47 nF", f.Range.High, 127/cmplx.Abs(z), 0.001)
}

func TestLook(t *testing.T) {
	for name, text := range sheetsOf(t) {
		b := read(t, text)
		for _, f := range figures(t, b) {
			if f.Def.Unit == quantity.Current || f.Def.Name == "hand-finds-it" {
				continue
			}
			p := "-"
			if f.Present != nil {
				p = map[bool]string{true: "yes", false: "no"}[*f.Present]
			}
			t.Log(name, f.Def.Name, f.Of.Name, f.Range, p, f.Missing, f.Note)
		}
	}
}

func BenchmarkFigures(b *testing.B) {
	text := sheetsOf(b)["larkfield-six-forty.yaml"]
	for b.Loop() {
		bn := read(b, text)
		for _, c := range faults.Checks {
			c.Run(bn)
		}
	}
}

func BenchmarkRead(b *testing.B) {
	text := sheetsOf(b)["larkfield-six-forty.yaml"]
	for b.Loop() {
		read(b, text)
	}
}
