package faults_test

import (
	"testing"

	"firstvolt/checks/trial"
)

// TestFilterCoilsRead: a filter of which nobody read a coil may have 2 Ω in each,
// and a slow fuse then may take too long; where both were read they have that.
func TestFilterCoilsRead(t *testing.T) {
	text := trial.Altered(t, trial.Sheet(t, "larkfield-six-forty"),
		"    - {kind: gfci, form: receptacle, tested: 2026-11-20}\n", "",
		"rating: 1 A, voltage: 250 V, speed: time-delay, standard: ul-248-14,", "rating: 1.5 A, voltage: 250 V, speed: time-delay, standard: ul-248-14, body: glass,",
		"parts:\n", "parts:\n  FL1: {kind: filter, current: 3 A, voltage: 250 V, leakage: 0.3 mA}\n",
		"  - F1.side -> S1 -> T1.1\n", "  - F1.side -> FL1.line-in\n  - FL1.line-out -> S1 -> T1.1\n",
		"  - {run: plug.neutral -> T1.2, color: white}\n", "  - {run: plug.neutral -> FL1.neutral-in, color: white}\n  - FL1.neutral-out -> T1.2\n  - FL1.case -> chassis\n")
	const with = "    - {across: T1.primary, reads: 9.7 Ω, with: dmm}\n"
	over := func(line, neutral string) string {
		return "    - {between: [FL1.line-in, FL1.line-out], switches: open, reads: " + line + "}\n" +
			"    - {between: [FL1.neutral-out, FL1.neutral-in], switches: open, reads: " + neutral + "}\n"
	}
	const small = "0.09 Ω, with: milliohm"
	for _, c := range []struct {
		what, more string
		pairs      []string
		known      bool
	}{
		{"nobody read it", "", nil, false},
		{"both read", over(small, small), nil, true},
		{"as much as is usual at most", over("2 Ω, with: milliohm", "2 Ω, with: milliohm"), nil, false},
		{"with no meter", over("0.09 Ω", "0.09 Ω"), nil, false},
		{"another way beside it", over(small, small), []string{"parts:\n", "parts:\n  R5: {kind: resistor, value: 1 kΩ}\n", "  - T1.4 -> chassis\n", "  - T1.4 -> chassis\n  - FL1.line-in -> R5 -> FL1.line-out\n"}, false},
	} {
		f := one(t, read(t, trial.Altered(t, trial.Altered(t, text, with, with+c.more), c.pairs...)), "fault-that-stays", "set")
		if f.Known() != c.known || c.known && *f.Present {
			t.Errorf("%s: known %t, present %v, %v, %s", c.what, f.Known(), f.Present, f.Missing, f.Note)
		}
	}
}
