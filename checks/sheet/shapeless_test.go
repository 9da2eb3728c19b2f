package sheet

import (
	"strings"
	"testing"
)

// TestShapelessSectionIsOneError: a section of the wrong shape is one error, and
// none for each name that is then not found in it.
func TestShapelessSectionIsOneError(t *testing.T) {
	const body = "wiring:\n  - plug.hot -> F1.1\n  - F1.2 -> S1 -> T1.1\n" +
		"readings:\n  resistance:\n    - {across: T1.primary, fuses: {F1: out}, without: [T1.2], reads: 9 Ω, with: dmm}\n    - {between: [F1.1, S1.2], reads: 1 Ω, with: dmm}\n"
	parts := "parts:\n  F1: {kind: fuse}\n  S1: {kind: switch}\n  T1: {kind: transformer, windings: {primary: {ends: [1, 2]}}}\n"
	meters := "instruments: {dmm: {measures: resistance}}\n"
	for what, sections := range map[string]string{
		"parts a list":       "parts:\n  - F1\n  - S1\n" + meters,
		"parts a word":       "parts: none\n" + meters,
		"instruments a list": "instruments: [dmm]\n" + parts,
	} {
		s, problems := Read("x.yaml", []byte(head+sections+body))
		if s != nil || len(problems) != 1 || !strings.Contains(problems[0].String(), "cannot be") {
			t.Errorf("%s: %d problems: %v", what, len(problems), problems)
		}
	}
}
