package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"firstvolt/checks/bench"
	"firstvolt/checks/quantity"
	"firstvolt/checks/strict"
	"firstvolt/cmd/firstvolt/internal/judging"
	"firstvolt/rules"
)

func TestExitStatusOfSeveral(t *testing.T) {
	verdict := func(v rules.Verdict) *judging.Sheet {
		return &judging.Sheet{Bench: &bench.Bench{}, Judgement: rules.Judgement{Verdict: v}}
	}
	cleared, open, hold, odd := verdict(rules.Cleared), verdict(rules.Open), verdict(rules.Hold), verdict("")
	unreadable := &judging.Sheet{Problems: []strict.Problem{{Wrong: "x"}}}
	faulty := &judging.Sheet{Bench: &bench.Bench{}, Judgement: rules.Judgement{Verdict: rules.Cleared}, Faults: []string{"x"}}
	for _, c := range []struct {
		sheets []*judging.Sheet
		want   int
	}{
		{nil, exitUsage},
		{[]*judging.Sheet{cleared, cleared}, exitCleared},
		{[]*judging.Sheet{cleared, open}, exitUnproven},
		{[]*judging.Sheet{cleared, odd}, exitUnproven},
		{[]*judging.Sheet{open, hold, cleared}, exitHold},
		{[]*judging.Sheet{hold, unreadable}, exitUsage},
		{[]*judging.Sheet{{}}, exitUsage},
		{[]*judging.Sheet{unreadable, faulty, hold}, exitFault},
	} {
		var tally judging.Tally
		for _, s := range c.sheets {
			tally.Add(s.Ending())
		}
		got := exitCleared
		if s, ok := exitStatus(tally).(status); ok {
			got = int(s)
		}
		if got != c.want {
			t.Errorf("%d sheets: %d, want %d", len(c.sheets), got, c.want)
		}
	}
}

type broken struct{}

func (broken) Write([]byte) (int, error) { panic("the pipe burst") }

type full struct{}

func (full) Write([]byte) (int, error) { return 0, os.ErrClosed }

// A fault of the program has its own status and says no more than it must.
func TestPanicEndsIn70(t *testing.T) {
	var stderr bytes.Buffer
	if got := run([]string{"help"}, broken{}, &stderr); got != exitFault {
		t.Errorf("exit status %d", got)
	}
	if text := stderr.String(); !strings.HasPrefix(text, "firstvolt: internal fault: the pipe burst\n") || strings.Contains(text, "goroutine") {
		t.Error(text)
	}
}

// Findings that nobody could read are no verdict.
func TestWhatCannotBeWrittenIsNoVerdict(t *testing.T) {
	for _, args := range [][]string{{"check", larkfield}, {"check", "--format", "json", larkfield}, {"demo"}, {"help"}, {"help", "check"}, {"rulebook"}, {"why", "mains-side-traced"},
		{"--version"}, {"version"}, {"schema"}, {"faults", larkfield}, {"faults", "--format", "json", larkfield}} {
		if got := run(args, full{}, &bytes.Buffer{}); got != exitFault {
			t.Errorf("%v: exit status %d", args, got)
		}
	}
}

const larkfield = "../../testdata/sheets/larkfield-six-forty.yaml"

// altered is the whole example with pieces of its text replaced.
func altered(t *testing.T, pairs ...string) string {
	t.Helper()
	data, err := os.ReadFile(larkfield)
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	for i := 0; i < len(pairs); i += 2 {
		if strings.Count(text, pairs[i]) != 1 {
			t.Fatalf("%q does not stand there once", pairs[i])
		}
		text = strings.Replace(text, pairs[i], pairs[i+1], 1)
	}
	file := filepath.Join(t.TempDir(), "altered.yaml")
	if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return file
}

// machine is the machine output as a reader of it would take it.
type machine struct {
	Firstvolt, Rulebook string
	Sheets              []struct {
		Sheet, Digest, Stage, Verdict string
		NotJudged                     []string `json:"not_judged"`
		Findings                      []struct {
			Rule, Subject, Outcome, Risk, Says, Why, Remedy string
			Figure                                          *struct {
				Name, Unit string
				Low, High  *float64
				Present    *bool
			}
			Limit *struct {
				AtMost  *float64 `json:"at_most"`
				AtLeast *float64 `json:"at_least"`
				Present *bool
				Unit    string
			}
			Witness []string
			Needs   []struct{ What, How string }
			Basis   []struct{ Status, Source string }
			At      *strict.Pos
		}
		Cautions       []struct{ Text string }
		Owed, Deferral struct{ Text string }
		Counts         struct{ Asked, Fail, Unproven, Caution, Pass int }
		Errors         []struct {
			Line, Column int
			Says         string
		}
	}
}

func machineOutput(t *testing.T, args ...string) (machine, int) {
	t.Helper()
	var out, diagnostics bytes.Buffer
	code := run(append([]string{"check", "--format", "json"}, args...), &out, &diagnostics)
	d := json.NewDecoder(&out)
	var m machine
	if err := d.Decode(&m); err != nil {
		t.Fatalf("%v; %s", err, diagnostics.String())
	}
	if d.More() {
		t.Error("more than one object")
	}
	return m, code
}

// Every finding of the machine output is whole, in order and in agreement with
// the verdict, on sheets of every outcome.
func TestMachineOutputIsWhole(t *testing.T) {
	bad := altered(t, "  bushing: good", "  bushing: not-seen", "mains-side-traced: good", "mains-side-traced: bad", "plug.neutral -> T1.2", "plug.neutral -> chassis", "- T1.4 -> chassis", "- T1.4 -> T1.2")
	seen := map[string]bool{}
	for _, args := range [][]string{{larkfield}, {"--stage", "rail", larkfield}, {bad}} {
		m, code := machineOutput(t, args...)
		if len(m.Sheets) != 1 || m.Firstvolt == "" || !strings.HasPrefix(m.Rulebook, "sha256:") {
			t.Fatalf("%v: %+v", args, m)
		}
		s := m.Sheets[0]
		if !strings.HasPrefix(s.Digest, "sha256:") || s.Owed.Text == "" || s.Deferral.Text == "" || len(s.Cautions) == 0 || s.NotJudged == nil {
			t.Errorf("%v: something is missing beside the findings", args)
		}
		worst, last := "cleared", ""
		counted := map[string]int{}
		for _, f := range s.Findings {
			who := f.Rule + " of " + f.Subject
			rank := slices.Index([]string{"shock", "fire", "set", "advice"}, f.Risk)
			place := string(rune('0'+rank)) + "\x00" + f.Rule + "\x00" + f.Subject
			if rank < 0 || place <= last {
				t.Errorf("%s is out of order or stands twice", who)
			}
			last = place
			counted[f.Outcome]++
			seen[f.Outcome] = true
			switch f.Outcome {
			case "fail":
				worst = "hold"
			case "unproven":
				if worst == "cleared" {
					worst = "unproven"
				}
				if len(f.Needs) == 0 {
					t.Errorf("%s is unproven and needs nothing", who)
				}
			case "pass", "caution":
			default:
				t.Errorf("%s: outcome %q", who, f.Outcome)
			}
			if f.Says == "" || f.Why == "" || f.Remedy == "" || len(f.Basis) == 0 || f.Figure == nil || f.Figure.Name == "" || f.Limit == nil || f.Witness == nil || f.Needs == nil {
				t.Errorf("%s is not whole: %+v", who, f)
				continue
			}
			if f.At == nil || f.At.Line < 1 || f.At.Column < 1 {
				t.Errorf("%s stands nowhere", who)
			}
			for _, b := range f.Basis {
				if !slices.Contains([]string{"published", "from-memory", "common-practice", "computed", "shop"}, b.Status) || b.Source == "" {
					t.Errorf("%s: basis %+v", who, b)
				}
			}
			for _, x := range []*float64{f.Figure.Low, f.Figure.High, f.Limit.AtMost, f.Limit.AtLeast} {
				if x != nil && quantity.Six(*x) != *x {
					t.Errorf("%s: %v has more than six digits", who, *x)
				}
			}
			if f.Figure.Low != nil && f.Figure.High != nil && !(*f.Figure.Low <= *f.Figure.High) {
				t.Errorf("%s: low %v, high %v", who, *f.Figure.Low, *f.Figure.High)
			}
			if f.Outcome == "pass" && f.Figure.Present == nil && f.Figure.Low == nil && f.Figure.High == nil {
				t.Errorf("%s passes on nothing", who)
			}
		}
		if c := s.Counts; c.Asked != len(s.Findings) || c.Fail != counted["fail"] || c.Unproven != counted["unproven"] || c.Caution != counted["caution"] || c.Pass != counted["pass"] {
			t.Errorf("%v: counts %+v of %v", args, c, counted)
		}
		if worst == "hold" && s.Verdict != "hold" || worst == "unproven" && s.Verdict != "unproven" || worst == "cleared" && s.Verdict == "hold" {
			t.Errorf("%v: verdict %s on findings that are %s", args, s.Verdict, worst)
		}
		if want := map[string]int{"cleared": 0, "hold": 1, "unproven": 2}[s.Verdict]; code != want {
			t.Errorf("%v: exit status %d with the verdict %s", args, code, s.Verdict)
		}
	}
	for _, o := range []string{"pass", "caution", "unproven", "fail"} {
		if !seen[o] {
			t.Errorf("no finding is %s", o)
		}
	}
}

// The order of the keys is that of the format's page.
func TestMachineOutputKeepsTheOrderOfKeys(t *testing.T) {
	var out bytes.Buffer
	run([]string{"check", "--format", "json", larkfield}, &out, &bytes.Buffer{})
	text := out.String()
	at := 0
	for _, key := range []string{"firstvolt", "rulebook", "sheets", "sheet", "digest", "stage", "verdict", "not_judged", "findings",
		"rule", "subject", "outcome", "risk", "says", "figure", "limit", "witness", "needs", "why", "remedy", "basis", "at"} {
		i := strings.Index(text[at:], `"`+key+`":`)
		if i < 0 {
			t.Fatalf("%s does not follow", key)
		}
		at += i
	}
}

func TestUnreadableSheetHasErrorsAndNoVerdict(t *testing.T) {
	file := altered(t, "rating: 1 A", "rating: 1")
	m, code := machineOutput(t, file, larkfield)
	if code != exitUsage || len(m.Sheets) != 2 || m.Sheets[1].Verdict == "" {
		t.Fatalf("exit status %d, %d sheets", code, len(m.Sheets))
	}
	s := m.Sheets[0]
	if s.Verdict != "" || s.Stage != "" || len(s.Findings) > 0 || len(s.Errors) != 1 {
		t.Fatalf("%+v", s)
	}
	if e := s.Errors[0]; e.Line != 31 || e.Column < 1 || !strings.Contains(e.Says, "unit is missing") {
		t.Errorf("%+v", e)
	}
}

// Nobody's clock, map order or colour is in the output.
func TestCheckSaysTheSameTwice(t *testing.T) {
	var first string
	for range 3 {
		var out bytes.Buffer
		run([]string{"check", "--format", "json", larkfield}, &out, &bytes.Buffer{})
		if first == "" {
			first = out.String()
		}
		if out.String() != first {
			t.Fatal("two runs differ")
		}
	}
}
