package faults_test

import (
	"strings"
	"testing"

	"firstvolt/checks/faults"
)

// Where the sheet leaves the earthing open, the table has the cases of each system
// that the region lists, told apart; a case of either is found again for its deck.
func TestTableOfEarthingLeftOpen(t *testing.T) {
	text := sheetsOf(t)["steinwald-super-61.yaml"]
	count := map[string]int{}
	b := read(t, text)
	cases, err := faults.Table(b)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range cases {
		words := strings.Split(c.Switches(), ", ")
		count[words[len(words)-1]]++
	}
	if len(count) != 2 || count["on TN"] == 0 || count["on TT"] == 0 {
		t.Errorf("cases by system: %v", count)
	}
	said, err := faults.Table(read(t, strings.Replace(text, "region: europe", "region: europe\n  earthing: tt", 1)))
	if err != nil {
		t.Fatal(err)
	}
	if len(said) != count["on TT"] {
		t.Errorf("%d cases on TT, and %d where the sheet says so", count["on TT"], len(said))
	}
	for _, c := range []int{0, len(cases) / 2} {
		if _, err := faults.MainsOf(b, cases[c].Which); err != nil {
			t.Errorf("%s, %s: %v", cases[c].Fault, cases[c].Switches(), err)
		}
	}
}
