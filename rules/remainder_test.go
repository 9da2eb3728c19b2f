package rules

import (
	"strings"
	"testing"
)

// What is left of a limit is said as what it is over by, where nothing is left;
// what is only not known has a remedy of its own.
func TestWhatIsLeftAndWhatIsOver(t *testing.T) {
	const lines = head + "clauses: [{figure: bond, must: {at_least: 0 Ω}, says: {left: left of the limit, " +
		"over: the path is over the limit by}, unproven: Measure better.}]"
	for _, c := range []struct {
		low, high    float64
		says, remedy string
	}{
		{-0.469, -0.451, "chassis: the path is over the limit by 0.451 Ω to 0.469 Ω", "put it right"},
		{-0.001, 0.008, "chassis: left of the limit: -1 mΩ to 8 mΩ; less than 0 is over the limit", "Measure better."},
		{0.02, 0.03, "chassis: left of the limit: 0.02 Ω to 0.03 Ω, must be at least 0 Ω", "put it right"},
	} {
		f := one(t, lines, set(), "heaters", ohms(c.low, c.high))
		if f.Says != c.says || f.Remedy != c.remedy {
			t.Errorf("%v to %v: %q, do this: %q", c.low, c.high, f.Says, f.Remedy)
		}
	}
}

func TestLeftAndOverAreOfANumberAndBoth(t *testing.T) {
	for _, lines := range []string{
		"clauses: [{figure: bond, must: {at_least: 0 Ω}, says: {left: a}}]",
		"clauses: [{figure: bond, must: {at_least: 0 Ω}, says: {present: a, absent: b}}]",
		"clauses: [{figure: has-ground, must: present, says: {left: a, over: b}}]",
	} {
		_, problems := load("rules:\n" + rule("x", head+lines))
		if len(problems) != 1 || !strings.Contains(problems[0].Right, "left: …, over: …") &&
			!strings.Contains(problems[0].Wrong, "nothing is left of it") {
			t.Errorf("%s: %v", lines, problems)
		}
	}
}
