package faults_test

import (
	"regexp"
	"strings"
	"testing"

	"firstvolt/checks/faults"
	"firstvolt/checks/figure"
)

// figuresOf are all figures of the room.
func figuresOf(t *testing.T, text string) []figure.Figure {
	t.Helper()
	b := read(t, text)
	var out []figure.Figure
	for _, c := range faults.Checks {
		out = append(out, c.Compute(b)...)
	}
	return out
}

// TestLostWindings: volts, a reading, or the meter of a winding taken away may
// only widen, with the ground sound and broken on the bench.
func TestLostWindings(t *testing.T) {
	volts := regexp.MustCompile(`(?m)^      [a-z0-9-]+: +\{ends:.*?(, voltage: [^,}]+)`)
	ohms := regexp.MustCompile(`(?m)^    - \{(?:across|between): [^\n]*, reads: [0-9.]+ Ω, with: [a-z]+\}\n`)
	lost := 0
	for _, name := range []string{"steinwald-super-61", "burrumbeet-cabinet", "wexcombe-junior", "nettlecombe-console", "lindwasser-zweipol"} {
		text := sheetsOf(t)[name+".yaml"]
		i := strings.LastIndex(text, "earth: through")
		for what, base := range map[string]string{"": text, "ground broken: ": text[:i] + "earth: broken" + text[i+len("earth: through"):]} {
			if i < 0 {
				continue
			}
			more := figuresOf(t, base)
			try := func(of, less string) {
				lost++
				notWorse(t, name+": "+what+of, figuresOf(t, less), more)
			}
			for _, m := range volts.FindAllStringSubmatchIndex(base, -1) {
				try("without"+base[m[2]:m[3]]+" at "+strings.TrimSpace(base[m[0]:m[0]+24]), base[:m[2]]+base[m[3]:])
			}
			for k, m := range ohms.FindAllStringIndex(base, -1) {
				if *exhaustive || k%2 == 0 {
					try("without "+strings.TrimSpace(base[m[0]:m[1]]), base[:m[0]]+base[m[1]:])
				}
			}
		}
	}
	if lost < 60 {
		t.Errorf("only %d things were lost", lost)
	}
}

// TestUnknownChoke: a choke of unknown resistance is in line as one of a known.
func TestUnknownChoke(t *testing.T) {
	choke := strings.NewReplacer("R1: {kind: resistor, value: 10 MΩ}", "L1: {kind: choke, inductance: 1 mH, resistance: 0.2 Ω}",
		"plug.hot -> F1 -> C1 -> chassis", "plug.hot -> L1 -> F1 -> C1 -> chassis", "F1.2 -> R1 -> plug.neutral", "L1.1 -> L1.1").Replace(bonded)
	choke = strings.Replace(choke, ", L1.1 -> L1.1", "", 1)
	unknown := strings.Replace(choke, ", resistance: 0.2 Ω", "", 1)
	notWorse(t, "without the resistance of L1", figuresOf(t, unknown), figuresOf(t, choke))
	of := func(text string) (n int) {
		for _, c := range singles(t, read(t, text)) {
			if c.Fault.Kind == faults.WireTouches {
				n++
			}
		}
		return n
	}
	if a, b := of(choke), of(unknown); a != b {
		t.Errorf("%d wires of hot, of an unknown choke %d", a, b)
	}
}
