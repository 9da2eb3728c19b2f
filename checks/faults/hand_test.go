package faults_test

import (
	"math"
	"math/cmplx"
	"strings"
	"testing"

	"firstvolt/checks/faults"
)

// What the pencil takes. The supply at its highest, 127 V at 60 Hz and 253 V
// at 50 Hz; where current in a person is asked the shortest hot conductor and
// the longest protective one, warm, for that puts most on the metal.
const (
	line       = 0.05                // Ω, hot or neutral conductor ahead of the receptacle
	lineMax    = 0.5 * 1.216         // Ω, the same at its longest, 75 °C
	ground     = 0.5 * 1.216         // Ω, protective conductor likewise
	cord       = 0.98 * 0.017241 * 5 // Ω, 5 m of 1 mm² of pure copper, 2 % thicker
	cordMax    = 0.0195 * 5 * 1.216  // Ω, 5 m of the worst 1 mm² of IEC 60228, 75 °C
	contact    = 0.001               // Ω, a fuse or a switch that is in nobody's way
	fuseMax    = 0.13 * 1.5          // Ω, F1 cold, of the maker with most
	contactMax = 0.1                 // Ω, a sound switch contact at most

	hot    = line + cord      // from the service to the plug in the set
	pe     = ground + cordMax // from the chassis back to the service
	hotMax = lineMax + cordMax

	w60 = 2 * math.Pi * 60
	w50 = 2 * math.Pi * 50
	// A person up to 10 mA: 1500 Ω beside 0.22 µF, and 500 Ω (IEC 60990
	// figure 3): 1/(1/1500 + jωC) is (1/1500 − jωC)/(1/1500² + ω²C²).
	b60  = w60 * 0.22e-6
	b50  = w50 * 0.22e-6
	re60 = 500 + 1/1500.0/(1/1500.0/1500+b60*b60)
	im60 = -b60 / (1/1500.0/1500 + b60*b60)
	re50 = 500 + 1/1500.0/(1/1500.0/1500+b50*b50)
	im50 = -b50 / (1/1500.0/1500 + b50*b50)

	stray = 0.1e-9 // F, wiring to the metal beside it, from the live end
)

// person60 and person50 are the impedance of such a person behind c farads.
func person60(c float64) float64 { return math.Hypot(re60, im60-1/(w60*c)) }
func person50(c float64) float64 { return math.Hypot(re50, im50-1/(w50*c)) }

// The sheets are as small as can be: one way from the plug to the metal.
// Insulation is read at 100 GΩ, so that only what a row names is there.
const (
	head = `firstvolt: 1
set: {name: Quillmere Two, construction: transformer, chassis: exposed}
instruments: {megger: {measures: insulation, accuracy: 0 %, ceiling: 200 GΩ}}
readings:
  taken: 2026-11-20
  ambient: 20 °C
  insulation: [{between: [plug.hot + plug.neutral, chassis], switches: closed, test: 500 V, reads: 100 GΩ, with: megger}]
`
	three   = "cord: {conductors: 3, size: 1.0 mm², length: 5 m, inlet: none}\n"
	two     = "cord: {conductors: 2, size: 1.0 mm², length: 5 m, inlet: none}\n"
	fuse    = "F1: {kind: fuse, rating: 1 A, voltage: 250 V, speed: fast, standard: iec-60127, body: glass, holder: in-line}"
	ground3 = "supply: {region: north-america, plug: nema-5-15, upstream: []}\n" + three
	wires2  = "supply: {region: north-america, plug: nema-1-15-polarized, upstream: []}\n" + two

	bonded = head + ground3 + `
parts: {` + fuse + `, C1: {kind: capacitor, value: 4.7 nF, class: Y2, voltage: 250 V}, R1: {kind: resistor, value: 10 MΩ}}
wiring: [plug.hot -> F1 -> C1 -> chassis, plug.ground -> chassis, F1.2 -> R1 -> plug.neutral]
`
	loose = head + wires2 + `
parts: {` + fuse + `, C1: {kind: capacitor, value: 10 nF, tolerance: 0 %}, C2: {kind: capacitor, value: 4 nF, tolerance: 0 %}}
wiring: [plug.hot -> F1 -> C1 -> chassis, plug.neutral -> C2 -> chassis]
`
	switched = head + wires2 + `
parts: {S1: {kind: switch, poles: 2}, R1: {kind: resistor, value: 1200 Ω, tolerance: 0 %}, C2: {kind: capacitor, value: 4 nF, tolerance: 0 %}}
wiring: [plug.hot -> S1.1, plug.neutral -> S1.3, S1.2 -> R1 -> S1.4, R1.2 -> C2 -> chassis]
`
	live = head + wires2 + `
parts: {` + fuse + `, R1: {kind: resistor, value: 1200 Ω, tolerance: 0 %}}
wiring: [plug.hot -> F1 -> R1 -> chassis -> plug.neutral]
`
)

// with puts units into the chain of a sheet.
func with(text string, units string) string {
	return strings.Replace(text, "upstream: []", "upstream: ["+units+"]", 1)
}

const (
	gfci     = "{kind: gfci, form: receptacle, tested: 2026-11-20}"
	isolator = "{kind: isolating-transformer, secondary: floating, earth: through}"
	lampBox  = "{kind: lamp-box, lamp: 60 W, voltage: 120 V, pole: hot, earth: through}"
)

// byHand is one case and what a pencil makes of it.
type byHand struct {
	what, sheet            string
	fault, subject, latent string
	switches               string
	metal                  string // empty: the chassis
	limiter                bool
	volts                  float64 // on the metal without a person; 0: not asked
	before, after          float64 // A through the person; where nothing opens it stays
	opens                  string
	latest                 float64 // s; 0: nothing need open
	effect                 string
}

func (h byHand) check(t *testing.T) {
	b := read(t, h.sheet)
	cases, err := faults.Table(b)
	if err != nil {
		t.Fatal(err)
	}
	metal := h.metal
	if metal == "" {
		metal = "chassis"
	}
	held, other, two := strings.Cut(metal, " to ")
	if !two {
		other = "the earth"
	}
	i := 0
	for ; i < len(cases); i++ {
		c := cases[i]
		if isCase(c, h.fault, h.subject, h.latent) && c.Switches() == h.switches && c.Limiter == h.limiter &&
			c.Orientation() == "as wired" && c.Touch.String() == metal {
			break
		}
	}
	if i == len(cases) {
		t.Fatalf("%s: not in the table", h.what)
	}
	c := cases[i]
	near(t, "A before", c.Before.High, h.before, 5e-5)
	after := h.after
	if h.opens == "" {
		after = h.before
	}
	if !(math.Abs(c.After.High-after) <= 5e-5*after) {
		t.Errorf("A after: %g, by hand %g", c.After.High, after)
	}
	if !(c.Before.Low >= 0 && c.Before.Low <= c.Before.High) {
		t.Errorf("from %g A to %g A", c.Before.Low, c.Before.High)
	}
	latest := h.latest
	if latest == 0 {
		latest = math.Inf(1)
	}
	if c.Opens.String() != h.opens || c.Effect != h.effect || !(c.Latest == latest || math.Abs(c.Latest-latest) <= 1e-4*latest) || !(c.Earliest <= c.Latest) {
		t.Errorf("%q opens within %g s, %s; by hand %q, %g s, %s", c.Opens, c.Latest, c.Effect, h.opens, latest, h.effect)
	}
	if h.volts == 0 || h.latent != "" || h.limiter {
		return
	}
	m, err := faults.MainsOf(b, faults.Which{Fault: c.Fault})
	if err != nil {
		t.Fatal(err)
	}
	v, err := m.Solved.Voltage(held, other)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "volts", cmplx.Abs(v), h.volts, 5e-5)
}

// TestByHand: every kind of single fault on a set with three wires, one with
// two, one behind a switch, one with a live chassis.
func TestByHand(t *testing.T) {
	const (
		c1     = 1.2*4.7e-9 + stray                             // C1 of the bonded sheet at +20 %, and wiring
		behind = hot + contact                                  // from the service to behind F1
		onto   = 127 * pe / (hot + pe)                          // V on the bonded chassis from the plug
		past   = 127 * pe / (behind + pe)                       // and from behind F1
		leak   = 1.45 * 20                                      // A that a breaker of 20 A carries for ever
		small  = 127 * w60 * c1 * pe                            // V that c1 leaves on the protective conductor
		rest   = 127 * w60 * stray * pe                         // V, the same of the wiring alone
		low    = 104 / (hotMax + fuseMax + pe)                  // A through F1 at the lowest supply, into the chassis
		quick  = 0.01 + 3*13/(3.15*3.15)/(low*low)              // s: thrice F1's melting I²t, by the square from the 13 A²s of 3.15 A, and a half cycle
		load   = 127 / (1200 + 2*(hot+contact))                 // A through R1 behind both poles of S1
		sound  = (127-load*hot)*stray + load*(hot+contact)*4e-9 // V·F that hang on that chassis
		lifted = 1200 * (4 / 4.1) * (4 / 4.1)                   // Ω: R1 beside stray, seen through C2
	)
	gone := math.Hypot(re60+lifted, im60-1/(w60*4.1e-9))        // a person behind C2 and R1 on hot
	just := math.Hypot(6e-3*pe, small)                          // V: the leak's beside the capacitor's
	person := math.Hypot(re60+pe, im60)                         // and the protective conductor that feeds it
	alone := 1000 * 104 / math.Hypot(re60+hotMax+fuseMax, im60) // mA through a person alone at the lowest supply
	dead := 127 / (850 + behind)                                // A at 125 V to 150 V
	for _, h := range []byHand{
		{what: "nothing", sheet: bonded, fault: "nothing", subject: "set", volts: small, before: small / person, effect: "not felt"},
		{what: "ground open", sheet: bonded, fault: "ground open", subject: "supply", volts: 127, before: 127 / person60(c1), effect: "not felt"},
		{what: "ground wire parted", sheet: bonded, fault: "wire parted", subject: "plug.ground – chassis", volts: 127, before: 127 / person60(c1), effect: "not felt"},
		{what: "exchanged: wiring alone is on hot", sheet: bonded, fault: "hot and neutral exchanged", subject: "supply", volts: rest, before: rest / person, effect: "not felt"},
		{what: "neutral open", sheet: bonded, fault: "neutral open", subject: "supply", volts: small, before: small / person, effect: "not felt"},
		{what: "capacitor open", sheet: bonded, fault: "open", subject: "C1", volts: rest, before: rest / person, effect: "not felt"},
		{what: "fuse bridged", sheet: bonded, fault: "bridged", subject: "F1", volts: small, before: small / person, effect: "not felt"},
		{what: "hot wire ahead of the fuse", sheet: bonded, fault: "wire touches chassis", subject: "F1.1", volts: onto, before: onto / (900 + hot*pe/(hot+pe)), opens: "the branch device", latest: 60, effect: "can kill"},
		{what: "insulation, dead", sheet: bonded, fault: "insulation to chassis broken down", subject: "plug.hot", volts: onto, before: onto / (900 + hot*pe/(hot+pe)), opens: "the branch device", latest: 60, effect: "can kill"},
		// 21 V: 1750 Ω; what feeds it is 127 V / 29 A less the way there and back.
		{what: "insulation, worst", sheet: bonded, fault: "insulation to chassis leaking", subject: "plug.hot", volts: leak * pe, before: leak * pe / (1750 + pe*(1-pe*leak/127)), effect: "cannot let go"},
		{what: "hot wire behind the fuse", sheet: bonded, fault: "wire touches chassis", subject: "C1.1", volts: past, before: past / (900 + behind*pe/(behind+pe)), after: rest / person, opens: "F1", latest: quick, effect: "contained"},
		{what: "capacitor shorted", sheet: bonded, fault: "shorted", subject: "C1", volts: past, before: past / (900 + behind*pe/(behind+pe)), after: rest / person, opens: "F1", latest: quick, effect: "contained"},

		{what: "GFCI, and a fuse that is quicker", sheet: with(bonded, gfci), fault: "shorted", subject: "C1", volts: past, before: past / (900 + behind*pe/(behind+pe)), after: rest / person, opens: "F1", latest: quick, effect: "contained"},
		{what: "GFCI, a person alone", sheet: with(bonded, gfci), fault: "shorted", subject: "C1", latent: "ground open", before: dead, opens: "the GFCI", latest: math.Pow(20/alone, 1.43), effect: "can kill"},
		{what: "GFCI, just not", sheet: with(bonded, gfci), fault: "insulation to chassis leaking", subject: "plug.hot", volts: just, before: just / person, after: just / person, opens: "the GFCI", latest: math.Inf(1), effect: "not felt"},
		{what: "GFCI dead", sheet: with(bonded, gfci), fault: "shorted", subject: "C1", latent: "residual device dead", before: past / (900 + behind*pe/(behind+pe)), after: rest / person, opens: "F1", latest: quick, effect: "contained"},
		{what: "GFCI without its neutral", sheet: with(bonded, gfci), fault: "shorted", subject: "C1", latent: "neutral open", before: past / (900 + behind*pe/(behind+pe)), after: rest / person, opens: "F1", latest: quick, effect: "contained"},
		{what: "ground open and the fuse that carries a person", sheet: bonded, fault: "shorted", subject: "C1", latent: "ground open", before: dead, effect: "can kill"},

		// C1 and wiring from hot, C2 from neutral: the chassis between them.
		{what: "two wires", sheet: loose, fault: "nothing", subject: "set", volts: 127 * 10.1 / 14.1, before: 127 * 10.1 / 14.1 / person60(14.1e-9), effect: "not felt"},
		{what: "two wires exchanged", sheet: loose, fault: "hot and neutral exchanged", subject: "supply", volts: 127 * 4.1 / 14.1, before: 127 * 4.1 / 14.1 / person60(14.1e-9), effect: "not felt"},
		{what: "two wires, neutral open", sheet: loose, fault: "neutral open", subject: "supply", volts: 127, before: 127 / person60(10.1e-9), effect: "not felt"},
		{what: "two wires, C1 open", sheet: loose, fault: "open", subject: "C1", volts: 127 * 0.1 / 4.1, before: 127 * 0.1 / 4.1 / person60(4.1e-9), effect: "not felt"},
		{what: "two wires, C2 open", sheet: loose, fault: "open", subject: "C2", volts: 127, before: 127 / person60(10.1e-9), effect: "not felt"},
		{what: "two wires, C1 shorted", sheet: loose, fault: "shorted", subject: "C1", volts: 127, before: dead, effect: "can kill"},
		{what: "two wires, C2 shorted", sheet: loose, fault: "shorted", subject: "C2", volts: 127 * w60 * 10.1e-9 * hot, before: 127 * w60 * 10.1e-9 * hot / math.Hypot(re60+hot, im60), effect: "not felt"},
		{what: "exchanged, C2 shorted", sheet: loose, fault: "shorted", subject: "C2", latent: "hot and neutral exchanged", before: 127 / (850 + hot), effect: "can kill"},
		{what: "two wires, insulation dead", sheet: loose, fault: "insulation to chassis broken down", subject: "plug.hot", volts: 127, before: 127 / (850 + hot), effect: "can kill"},
		// A floating winding hangs on the line by 3 nF, and is phased against it.
		{what: "isolated", sheet: with(loose, isolator), fault: "wire touches chassis", subject: "F1.1", volts: 2 * 127, before: 2 * 127 / person60(3e-9), effect: "not felt"},
		// The lamp cold has a fifteenth of 120²/60 Ω: 125 V are left, and 900 Ω.
		{what: "lamp", sheet: with(loose, lampBox), fault: "shorted", subject: "C1", limiter: true, before: 127 / (900 + 240.0/15 + behind), effect: "can kill"},

		{what: "on", sheet: switched, switches: "S1 closed", fault: "nothing", subject: "set", volts: sound / 4.1e-9, before: sound / 4.1e-9 / person60(4.1e-9), effect: "not felt"},
		{what: "off", sheet: switched, switches: "S1 open", fault: "nothing", subject: "set", before: 127 / person60(stray), effect: "not felt"},
		{what: "pole of hot stuck closed", sheet: switched, switches: "S1 open", fault: "pole 1 stuck closed", subject: "S1", before: 127 / gone, effect: "not felt"},
		{what: "pole of neutral stuck closed", sheet: switched, switches: "S1 open", fault: "pole 2 stuck closed", subject: "S1", before: 127 * 0.1 / 4.1 / person60(4.1e-9), effect: "not felt"},
		{what: "pole of neutral stuck open", sheet: switched, switches: "S1 closed", fault: "pole 2 stuck open", subject: "S1", volts: 127, before: 127 / gone, effect: "not felt"},
		{what: "wire of neutral parted", sheet: switched, switches: "S1 closed", fault: "wire parted", subject: "plug.neutral – S1.3", volts: 127, before: 127 / gone, effect: "not felt"},
		// 61 V are left behind R1, and 1125 Ω.
		{what: "pole stuck open, C2 shorted", sheet: switched, switches: "S1 closed", fault: "shorted", subject: "C2", latent: "S1 pole 2 stuck open", before: 127 / (1200 + 1125 + hot + contact), effect: "can kill"},
		{what: "neutral open, C2 shorted", sheet: switched, switches: "S1 closed", fault: "shorted", subject: "C2", latent: "neutral open", before: 127 / (1200 + 1125 + hot + contact), effect: "can kill"},
		{what: "pole stuck closed, C2 shorted", sheet: switched, switches: "S1 open", fault: "shorted", subject: "C2", latent: "S1 pole 1 stuck closed", before: 127 / (1200 + 1125 + hot + contact), effect: "can kill"},

		{what: "live chassis, neutral open", sheet: live, fault: "neutral open", subject: "supply", volts: 127, before: 127 / (1200 + 1125 + behind), effect: "can kill"},
		{what: "live chassis, neutral wire parted", sheet: live, fault: "wire parted", subject: "chassis – plug.neutral", volts: 127, before: 127 / (1200 + 1125 + behind), effect: "can kill"},
		{what: "live chassis exchanged", sheet: live, fault: "hot and neutral exchanged", subject: "supply", volts: 127 * (1200 + behind) / (1200 + behind + hot), before: 127 * (1200 + behind) / (1200 + behind + hot) / (850 + hot), effect: "can kill"},
	} {
		t.Run(h.what, func(t *testing.T) { h.check(t) })
	}
}
