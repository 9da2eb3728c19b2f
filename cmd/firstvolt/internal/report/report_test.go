package report

import (
	"bytes"
	"flag"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
	"firstvolt/cmd/firstvolt/internal/judging"
	"firstvolt/rules"
)

var update = flag.Bool("update", false, "write the wanted reports anew")

// set is the least that can be read; the judgements below are made up, so that
// the reports do not change with the rulebook.
const set = `firstvolt: 1
set: {name: Invented One, construction: transformer}
supply: {region: united-kingdom, plug: bs-1363}
first-power: {stage: heaters}
`

// samples are a hold with every outcome in it, one that is open, a cleared
// one, an unreadable one and one that a fault stopped.
func samples(t *testing.T) []*judging.Sheet {
	t.Helper()
	read, problems := sheet.Read("shelf/invented.yaml", []byte(set))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	of := func(name, kind string) figure.Subject { return figure.Subject{Name: name, Kind: kind} }
	number := func(low, high float64) rules.Measured {
		r := quantity.Between(low, high, quantity.Resistance)
		return rules.Measured{Name: "bond-beyond-cord", Low: &r.Low, High: &r.High, Unit: "Ω", Range: &r}
	}
	limit, yes, no := 0.1, true, false
	unbounded := number(2e6, 2e6)
	unbounded.High = nil
	most := &rules.Limit{AtMost: &limit, Unit: "Ω", Dim: quantity.Resistance}
	published := []figure.Basis{{Status: figure.Published, Source: "a standard, 5.1"}, {Status: figure.FromMemory, Source: "a rule of thumb"}}
	finding := func(rule, group string, s figure.Subject, o rules.Outcome, r rules.Risk, says string) rules.Finding {
		return rules.Finding{Rule: rule, Group: group, Subject: s, Outcome: o, Risk: r, Says: says, Figure: number(0.2, 0.3), Limit: most,
			Why: "A bond that reads high lets the chassis rise to line voltage.", Remedy: "Make the ground joint anew.", Basis: published, At: strict.Pos{Line: 12, Column: 5}}
	}
	fail := finding("bond-resistance", "readings", of("chassis", "chassis"), rules.Fail, rules.Shock, "ground pin to chassis beyond the cord's own conductor: 0.2 Ω to 0.3 Ω, must be at most 0.1 Ω")
	fail.Trace = []string{"0.31 Ω read − 0.05 Ω of the cord", "= 0.26 Ω ± 0.05 Ω"}
	fire := finding("hot-meets-fuse-first", "entry", of("set", "set"), rules.Fail, rules.Fire, "hot reaches something ahead of the fuse (plug.hot → S1.1)")
	fire.Figure, fire.Limit = rules.Measured{Name: "hot-without-fuse", Present: &yes}, &rules.Limit{Present: &no}
	fire.Witness = []string{"plug.hot", "S1.1"}
	open := finding("insulation-mains-chassis", "readings", of("chassis", "chassis"), rules.Unproven, rules.Shock, "insulation from mains to chassis: not known, must be at least 2 MΩ")
	open.Figure = rules.Measured{Name: "mains-insulation"}
	open.Needs = []figure.Need{{What: "insulation between plug.hot + plug.neutral and chassis", How: "an insulation tester"}, {What: "its accuracy"}}
	caution := finding("cord-bushed", "inspection", of("bushing", "inspection"), rules.Warn, rules.Shock, "bushing: not known whether the cord runs in a sound bushing; it should be so")
	pass := finding("plug-keeps-polarity", "entry", of("plug", "plug"), rules.Pass, rules.Shock, "plug: it enters one way only")
	pass.Figure = unbounded
	whole := func(stage string, v rules.Verdict, fs ...rules.Finding) rules.Judgement {
		j := rules.Judgement{Stage: stage, Verdict: v, Findings: fs, Carried: rules.Carried{
			Cautions: []rules.Caution{{Name: "one-hand", Steps: []string{"power"}, Text: "Measure with one hand, the other off all metal.", Basis: published}},
			Owed:     rules.Standing{Text: "Still owed: the touch current on the mains itself.", Basis: published},
			Deferral: rules.Standing{Text: "Local electrical code, and licensed practice where the law asks for it, come first.", Basis: published}}}
		for _, f := range fs {
			j.Counts.Asked++
			*map[rules.Outcome]*int{rules.Pass: &j.Counts.Pass, rules.Warn: &j.Counts.Caution, rules.Unproven: &j.Counts.Unproven, rules.Fail: &j.Counts.Fail}[f.Outcome]++
		}
		return j
	}
	held, unproven, cleared := whole("rail", rules.Hold, fail, open, caution, pass, fire), whole("heaters", rules.Open, open, pass), whole("heaters", rules.Cleared, caution, pass)
	held.NotJudged, held.Reasons = []string{"high-tension", "faults"}, []string{"the high tension rules were not judged, and the rail is not cleared without them"}
	on := func(asked string, j rules.Judgement) *judging.Sheet {
		return &judging.Sheet{File: "shelf/invented.yaml", Digest: "sha256:0a", Asked: asked, Read: read, Bench: bench.ForStage(read, j.Stage), Judgement: j}
	}
	return []*judging.Sheet{on("rail", held), on("", unproven), on("heaters", cleared),
		{File: "shelf/torn.yaml", Digest: "sha256:0b", Problems: []strict.Problem{{File: "shelf/torn.yaml", Pos: strict.Pos{Line: 3, Column: 9}, Wrong: "the unit is missing", Right: "add the unit, like 1 A"}}},
		{File: "shelf/odd.yaml", Digest: "sha256:0c", Faults: []string{"internal fault: index out of range"}}}
}

// golden compares with a file of testdata, or writes it.
func golden(t *testing.T, file string, got []byte) {
	t.Helper()
	path := "testdata/" + file
	if *update {
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s differs; got:\n%s", path, got)
	}
}

func TestTextAsWanted(t *testing.T) {
	golden(t, "report.txt", All(Text{}, samples(t)))
	golden(t, "all.txt", Text{All: true}.Sheet(samples(t)[2]))
}

func TestMachineOutputAsWanted(t *testing.T) {
	golden(t, "report.json", All(JSON{"devel", "sha256:0f"}, samples(t)))
}

var tallied = regexp.MustCompile(`(\d+) findings?: (\d+) fail, (\d+) unproven, (\d+) caution, (\d+) pass\.`)

// The counts that are printed add up, and each finding stands there as often
// as it is counted.
func TestCountsAddUp(t *testing.T) {
	for _, s := range samples(t)[:3] {
		text := string(Text{All: true}.Sheet(s))
		m := tallied.FindStringSubmatch(text)
		if m == nil {
			t.Fatalf("no counts in:\n%s", text)
		}
		var n [6]int
		for i := 1; i < len(m); i++ {
			n[i], _ = strconv.Atoi(m[i])
		}
		if n[1] != len(s.Judgement.Findings) || n[1] != n[2]+n[3]+n[4]+n[5] {
			t.Errorf("%s for %d findings", m[0], len(s.Judgement.Findings))
		}
		for i, word := range []string{"FAIL", "UNPROVEN", "CAUTION", "PASS"} {
			if got := strings.Count(text, "\n"+word+", "); got != n[i+2] {
				t.Errorf("%s stands %d times, counted %d", word, got, n[i+2])
			}
		}
	}
}

func TestTextKeepsToItsWidthAndPromisesNothing(t *testing.T) {
	for _, l := range strings.Split(string(All(Text{All: true}, samples(t))), "\n") {
		if columns.StringWidth(l) > Width {
			t.Errorf("%d columns: %s", columns.StringWidth(l), l)
		}
		for _, f := range samples(t)[0].Judgement.Findings {
			l = strings.ReplaceAll(l, f.Rule, "")
		}
		if regexp.MustCompile(`(?i)\bsafe(ly)?\b`).MatchString(l) {
			t.Errorf("a promise: %s", l)
		}
		if regexp.MustCompile(`\b[Gg]round|\bcord\b|plug\.hot`).MatchString(l) {
			t.Errorf("not the region's word: %s", l)
		}
	}
}

func TestHoldNamesShockFirst(t *testing.T) {
	text := reason(samples(t)[0].Judgement)
	shock, fire := strings.Index(text, "shock"), strings.Index(text, "fire")
	if shock < 0 || fire < shock || strings.Contains(text, "damage") {
		t.Error(text)
	}
}

// A note that only says again what the sentence or the sum says is left out.
func TestNoteIsNotPrintedTwice(t *testing.T) {
	for note, want := range map[string]int{"it has 9 Ω; usual is 4 Ω": 1, "C1 has no class on the sheet.": 1, "plug.hot meets no fuse": 1, "something else": 1} {
		s := samples(t)[0]
		f := s.Judgement.Findings[0]
		f.Says, f.Trace, f.Note, f.Witness = f.Subject.Name+": C1 has no class on the sheet", []string{"it has 9 Ω; usual is 4 Ω"}, note, nil
		s.Judgement.Findings = []rules.Finding{f}
		text := strings.ToLower(string(Text{}.Sheet(s)))
		piece := strings.TrimSuffix(strings.ToLower(strings.TrimPrefix(note, "plug.hot ")), ".")
		if got := strings.Count(text, piece); got != want {
			t.Errorf("%q stands %d times in %s", note, got, text)
		}
	}
}
