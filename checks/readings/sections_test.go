package readings_test

import (
	"strings"
	"testing"

	"firstvolt/checks/trial"
)

// TestSectionsOfAPrimary: the sections of a primary are held against each other
// where that was read; where it was not, nobody owes it.
func TestSectionsOfAPrimary(t *testing.T) {
	const turns = "    - {applied: PT.primary-1, volts: 6.00 V, across: PT.heater, reads: 0.347 V, with: acv}\n"
	for _, c := range []struct{ name, reading, want string }{
		{"not read", "", "caution"},
		{"alike", "{applied: PT.primary-1, volts: 6.00 V, across: PT.primary-2, reads: 5.97 V, with: acv}", "pass"},
		{"fed the other way", "{applied: PT.primary-2, volts: 6.00 V, across: PT.primary-1, reads: 5.97 V, with: acv}", "pass"},
		{"a fifth short of turns", "{applied: PT.primary-1, volts: 6.00 V, across: PT.primary-2, reads: 4.80 V, with: acv}", "fail"},
		{"a section for twice the volts", "{applied: PT.primary-1, volts: 6.00 V, across: PT.primary-2, reads: 12.0 V, with: acv}", "fail"},
		{"by no meter", "{applied: PT.primary-1, volts: 6.00 V, across: PT.primary-2, reads: 5.97 V}", "unproven"},
	} {
		added := turns
		if c.reading != "" {
			added += "    - " + c.reading + "\n"
		}
		fs := judge(t, strings.Replace(trial.Sheet(t, "marlow-bay-seven"), turns, added, 1))
		for _, section := range []string{"primary-1", "primary-2"} { // neither is the measure of the other
			if got := outcome(fs, "turns-ratio PT."+section); got != c.want {
				t.Errorf("%s: %s is %s, want %s", c.name, section, got, c.want)
			}
		}
	}
}

// TestStretchOfAPrimary: a tap of a primary that is fed as a whole gives what its
// mark says, or the tap is another one.
func TestStretchOfAPrimary(t *testing.T) {
	const turns = "    - {applied: NT.primary, volts: 6.00 V, across: NT.heater, reads: 0.106 V, with: volts}\n"
	for _, c := range []struct{ name, reading, want string }{
		{"not read", "", "not asked"},
		{"220 of 240", "{applied: NT.primary, volts: 6.00 V, between: [NT.n0, NT.n220], reads: 5.50 V, with: volts}", "pass"},
		{"what is marked 220 is 127", "{applied: NT.primary, volts: 6.00 V, between: [NT.n0, NT.n220], reads: 3.18 V, with: volts}", "fail"},
	} {
		added := turns
		if c.reading != "" {
			added += "    - " + c.reading + "\n"
		}
		fs := judge(t, strings.Replace(trial.Sheet(t, "morgenfels-3w"), turns, added, 1))
		if got := outcome(fs, "turns-ratio NT.primary"); got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
}
