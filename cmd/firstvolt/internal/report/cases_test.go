package report

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"strings"
	"testing"
	"unicode/utf8"

	"firstvolt/checks/faults"
	"firstvolt/checks/handbook"
	"firstvolt/checks/mains"
	"firstvolt/checks/quantity"
	"firstvolt/cmd/firstvolt/internal/judging"
)

// casesOf is a judged sheet with cases made for the test, worst first.
func casesOf(t *testing.T) (*judging.Sheet, []faults.Case) {
	t.Helper()
	book, problems, _ := judging.Book(nil)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	const file = "../../../../testdata/sheets/larkfield-six-forty.yaml"
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	s := judging.Bytes(book, "s.yaml", data, "")
	if !s.Judged() {
		t.Fatal(s.Problems, s.Faults)
	}
	amps := func(low, high float64) quantity.Range {
		return quantity.Range{Low: low, High: high, Dim: quantity.Current}
	}
	stands := func(word string) []mains.Stand { return []mains.Stand{{Form: "%s %s", Name: "S1", Word: word}} }
	at := mains.Position{Places: []mains.Place{{}}, Stands: stands("closed")}
	chassis := mains.Touch{Held: "chassis"}
	shorted := faults.Case{Which: faults.Which{Fault: faults.Fault{Kind: faults.Shorted, Of: "C1"}, Position: at, Touch: chassis},
		Before: amps(0.05, 0.057), After: amps(0.05, 0.057), Latest: math.Inf(1), Effect: handbook.CanKill}
	again := shorted
	again.Stands, again.Limiter, again.Before, again.Opens = stands("open"), true, amps(0, 0.03), faults.Device{Kind: faults.Fuse, Of: "F1"}
	layer := shorted
	layer.Latent, layer.Opens = faults.Fault{Kind: faults.GroundOpen}, faults.Device{Kind: faults.GFCI}
	layer.Effect, layer.Latest, layer.After = faults.Contained, 0.025, amps(0, 0)
	quiet := faults.Case{Which: faults.Which{Fault: faults.Fault{Kind: faults.Open, Of: "C1"}, Position: mains.Position{Places: at.Places}, Touch: chassis},
		Before: amps(0, 1e-4), After: amps(0, 1e-4), Latest: math.Inf(1), Effect: handbook.NotFelt}
	return s, []faults.Case{shorted, again, layer, quiet}
}

// flat is a text without its line breaks and columns.
func flat(text string) string { return strings.Join(strings.Fields(text), " ") }

func TestCasesText(t *testing.T) {
	s, cases := casesOf(t)
	for all, want := range map[bool][]string{
		false: {"worst is CAN KILL. 3 cases: 2 can kill, 1 not felt.", "1 case: 1 cut off in time.", "CAN KILL: C1 shorted\n", "gets 50 mA to 57 mA; nothing opens.",
			"no worse in 1 other position", "CUT OFF IN TIME, latent layer: ground open, and C1 shorted\n", "earliest 0 s, latest 0.025 s", "1 more fault of which nothing is felt"},
		true: {"Opens    F1, maybe never\n", "S1 open, receptacle as wired, with the series lamp\n", "NOT FELT: C1 open\n"},
	} {
		text := string(Cases{All: all, With: s.Judgement.Carried}.Sheet(s, cases))
		for _, w := range append(want, "Still owed", "Local electrical code") {
			if !strings.Contains(flat(text), flat(w)) {
				t.Errorf("all %t: no %q in\n%s", all, w, text)
			}
		}
		if n := strings.Count(text, "CAN KILL: "); n != map[bool]int{false: 1, true: 2}[all] {
			t.Errorf("all %t: %d headings of the short", all, n)
		}
		for _, l := range strings.Split(text, "\n") {
			if utf8.RuneCountInString(l) > Width {
				t.Errorf("longer than %d: %s", Width, l)
			}
		}
	}
	if text := string((Cases{With: s.Judgement.Carried}).Sheet(s, nil)); !strings.Contains(text, "no metal of this set") || !strings.Contains(text, "Local electrical code") {
		t.Error(text)
	}
}

func TestCasesMachineOutput(t *testing.T) {
	s, cases := casesOf(t)
	var out bytes.Buffer
	if err := (Cases{With: s.Judgement.Carried}).JSON(&out, "devel", s, cases); err != nil {
		t.Fatal(err)
	}
	var got struct {
		Sheet string
		Cases []struct {
			Fault, Subject, Orientation, Switches, Latent, Touches, Effect string
			Limiter                                                        bool
			Before, After                                                  struct{ Low, High float64 }
			Opens                                                          *struct {
				What     string
				Earliest float64
				Latest   *float64
			}
		}
		Cautions []any
	}
	if err := json.Unmarshal(out.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	if len(got.Cases) != len(cases) || got.Sheet != "s.yaml" || len(got.Cautions) == 0 {
		t.Fatalf("%s", out.Bytes())
	}
	a, b, c := got.Cases[0], got.Cases[1], got.Cases[2]
	switch {
	case a.Opens != nil || a.Before.Low != 0.05 || a.Before.High != 0.057 || a.Effect != handbook.CanKill || a.Fault != "shorted" || a.Subject != "C1":
		t.Errorf("%+v", a)
	case b.Opens == nil || b.Opens.What != "F1" || b.Opens.Latest != nil || !b.Limiter:
		t.Errorf("%+v", b)
	case c.Opens == nil || c.Opens.Latest == nil || *c.Opens.Latest != 0.025 || c.Latent != "ground open" || c.After.High != 0:
		t.Errorf("%+v", c)
	}
}
