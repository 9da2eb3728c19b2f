package checks_test

import (
	"slices"
	"testing"

	"firstvolt/checks/figure"
	"firstvolt/rules"
)

// earthingOf says on a sheet how its supply is earthed; "": it says nothing.
func earthingOf(sheet, word string) []string {
	region := map[string]string{"larchmere-compact": "region: north-america", "lindwasser-zweipol": "region: europe", "steinwald-super-61": "region: europe"}[sheet]
	pairs := []string{region, region + "\n  earthing: " + word}
	if sheet == "lindwasser-zweipol" {
		pairs = []string{"  earthing: tt", "  earthing: " + word}
	}
	if word == "" {
		pairs[1] = region
		if sheet == "lindwasser-zweipol" {
			pairs = []string{"  earthing: tt\n", ""}
		}
	}
	return pairs
}

// A residual device that is all that stands behind one layer is relied on only
// where it sees the fault.
func TestResidualDeviceThatSeesNothing(t *testing.T) {
	for sheet, bare := range map[string][]string{"larchmere-compact": {"stage: heaters", "stage: bare"}, "lindwasser-zweipol": {"stage: heaters", "stage: bare"}} {
		for word, want := range map[string]string{"tn": "caution", "tt": "caution", "": "caution", "it": "fail", "none": "fail", "unknown": "unproven"} {
			for _, stage := range [][]string{nil, bare} {
				got, j := judged(t, sheet, append(earthingOf(sheet, word), stage...)...)
				if o := got["unearthed-chassis-single-fault chassis"]; o != want {
					t.Errorf("%s, earthing %q: %s, want %s", sheet, word, o, want)
				}
				if cleared := j.Verdict == "cleared"; cleared && (stage == nil || want != "caution") || !cleared && stage != nil && want == "caution" {
					t.Errorf("%s, earthing %q: the verdict is %s", sheet, word, j.Verdict)
				}
			}
		}
	}
}

// A test of the device counts from the day of the latest reading on, for 31 days.
func TestResidualDeviceTestedInItsTime(t *testing.T) {
	const sheet, tested = "larchmere-compact", "tested: 2026-05-16"
	for day, want := range map[string]string{"2026-05-16": "pass", "2026-05-15": "fail", "2026-06-16": "pass", "2026-06-17": "fail", "2036-05-16": "fail"} {
		got, j := judged(t, sheet, tested, "tested: "+day, "stage: heaters", "stage: bare")
		if o := got["residual-tested upstream 1"]; o != want {
			t.Errorf("tested on %s: %s, want %s", day, o, want)
		}
		if (j.Verdict == "cleared") != (want == "pass") {
			t.Errorf("tested on %s: %s", day, j.Verdict)
		}
	}
}

// Where the region has several systems of earthing and the sheet names none, what
// is good on all is good, what is bad on all is bad, and the rest is unproven until
// the sheet says it: without a residual device a fuse opens an earth fault on TN
// and not on TT.
func TestEarthingUnsaidIsEachOfTheRegion(t *testing.T) {
	const sheet, rcd, clears = "steinwald-super-61", "    - {kind: rcd, rating: 30 mA, type: a, tested: 2026-04-12}\n", "fault-clears set"
	without := []string{rcd, ""}
	outcome := map[string]string{}
	for _, word := range []string{"tn", "tt", ""} {
		got, j := judged(t, sheet, append(earthingOf(sheet, word), without...)...)
		outcome[word] = got[clears]
		i := slices.IndexFunc(j.Findings, func(f rules.Finding) bool { return f.Rule == "fault-clears" })
		asks := slices.ContainsFunc(j.Findings[i].Needs, func(n figure.Need) bool { return n.What == "supply earthing" })
		if asks != (word == "") {
			t.Errorf("on %q it asks for %v", word, j.Findings[i].Needs)
		}
	}
	if outcome["tn"] == "fail" || outcome["tn"] == "unproven" || outcome["tt"] != "fail" || outcome[""] != "unproven" {
		t.Errorf("fault-clears on tn, tt, unsaid: %v", outcome)
	}
	for _, word := range []string{"tn", "tt", ""} {
		if got, _ := judged(t, sheet, earthingOf(sheet, word)...); got[clears] != "pass" {
			t.Errorf("behind a tested residual device on %q: %s", word, got[clears])
		}
	}
}
