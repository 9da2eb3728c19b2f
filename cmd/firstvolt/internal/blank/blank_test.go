package blank

import (
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"firstvolt/checks/handbook"
	"firstvolt/checks/sheet"
	"firstvolt/cmd/firstvolt/internal/judging"
	"firstvolt/cmd/firstvolt/internal/report"
	"firstvolt/rules"
)

// each runs f for every kind of set in every region.
func each(t *testing.T, f func(t *testing.T, kind, region string)) {
	for _, kind := range Names() {
		for _, region := range handbook.Regions() {
			t.Run(kind+" "+region, func(t *testing.T) { f(t, kind, region) })
		}
	}
}

func sheetOf(t *testing.T, kind, region string, filled bool) string {
	t.Helper()
	data, err := write("Invented Two", kind, region, filled)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// A blank sheet reads, claims nothing and is held for nothing.
func TestBlankIsUnproven(t *testing.T) {
	book, problems, _ := judging.Book(nil)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	each(t, func(t *testing.T, kind, region string) {
		s := judging.Bytes(book, "x.yaml", []byte(sheetOf(t, kind, region, false)), "")
		if !s.Judged() {
			t.Fatal(s.Problems, s.Faults)
		}
		if s.Judgement.Verdict != rules.Open {
			t.Errorf("it is %s", s.Judgement.Verdict)
		}
		for _, f := range s.Judgement.Findings {
			if f.Outcome == rules.Fail {
				t.Errorf("it fails %s of %s: %s", f.Rule, f.Subject.Name, f.Says)
			}
		}
		if s.Read.Region.Name != region || s.Read.Name != "Invented Two" || !strings.HasPrefix(kind, s.Read.Construction) {
			t.Errorf("%s, %s, %s", s.Read.Name, s.Read.Construction, s.Read.Region.Name)
		}
	})
}

// Every line that is commented out is one that the sheet takes.
func TestFilledReads(t *testing.T) {
	each(t, func(t *testing.T, kind, region string) {
		text := sheetOf(t, kind, region, true)
		s, problems := sheet.Read("x.yaml", []byte(text))
		for _, p := range problems {
			t.Errorf("%s\n%s", p, strings.Split(text, "\n")[p.Line-1])
		}
		if s != nil && (len(s.Parts) < 3 || len(s.Wires) < 5 || len(s.Readings) < 3 || strings.Count(text, Open) != 1) { // the head speaks of it
			t.Error("it is not filled")
		}
	})
}

var commentedOut = regexp.MustCompile(`^( *)# ( *(?:[A-Za-z0-9-]+:(?: .*)?|- .*))$`)

// What was left open is refused where it stands.
func TestOpenIsRefused(t *testing.T) {
	each(t, func(t *testing.T, kind, region string) {
		var lines []string
		open, refused := map[int]bool{}, map[int]bool{}
		for _, l := range strings.Split(sheetOf(t, kind, region, false), "\n") {
			if m := commentedOut.FindStringSubmatch(l); m != nil {
				l = m[1] + m[2]
				if body, _, _ := strings.Cut(l, " # "); strings.Contains(body, Open) {
					open[len(lines)+1] = true
				}
			}
			lines = append(lines, l)
		}
		s, problems := sheet.Read("x.yaml", []byte(strings.Join(lines, "\n")))
		if s != nil {
			t.Fatal("an open sheet was read")
		}
		for _, p := range problems {
			// An open holder or kind of rectifier leaves more than itself in doubt.
			follows := strings.HasPrefix(p.Wrong, "F1 has no terminal") || strings.HasPrefix(p.Wrong, "V1 has both")
			if !open[p.Line] && !follows {
				t.Errorf("%s\n%s", p, lines[p.Line-1])
			}
			refused[p.Line] = true
		}
		for n := range open {
			if l := lines[n-1]; !refused[n] && !strings.Contains(l, "serial:") && !strings.Contains(l, " type: …") {
				t.Errorf("left open and not refused: %s", l)
			}
		}
	})
}

// A few volts on a heater winding are full mains on the primary. The blank sheet
// has the primary fed, says what is live, and what it shows is judged.
func TestTurnsFromThePrimary(t *testing.T) {
	book, problems, _ := judging.Book(nil)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	each(t, func(t *testing.T, kind, region string) {
		blank := sheetOf(t, kind, region, false)
		if !strings.HasPrefix(kind, "transformer") {
			if strings.Contains(blank, "applied") {
				t.Error("a set without transformer feeds one")
			}
			return
		}
		flat := strings.Join(strings.Fields(strings.ReplaceAll(blank, "#", " ")), " ")
		if !strings.Contains(flat, "While it is fed, treat all the other windings and the plug's pins as live: hands off until the feed is off.") || !strings.Contains(flat, "applied: T1.primary") || strings.Count(flat, "applied:") != strings.Count(flat, "applied: T1.primary") {
			t.Error("nobody is warned")
		}
		s := judging.Bytes(book, "x.yaml", []byte(sheetOf(t, kind, region, true)), "")
		judged := 0
		for _, f := range s.Judgement.Findings {
			if f.Rule == "turns-ratio" && f.Outcome == rules.Pass {
				judged++
			}
		}
		if judged != 3 {
			t.Errorf("%d windings have their turns told", judged)
		}
	})
}

// A line in braces goes on below its first key, and only where it is too wide.
func TestBroken(t *testing.T) {
	for _, c := range [][2]string{
		{"- {a: 1, b: 2}", "# - {a: 1, b: 2}\n"},
		{"- {" + strings.Repeat("a: [1, 2], ", 7) + "b: {c: 1, d: 2}}", "# - {" + strings.Repeat("a: [1, 2], ", 5) + "a: [1, 2],\n#    a: [1, 2], b: {c: 1, d: 2}}\n"},
		{strings.Repeat("x", 90), "# " + strings.Repeat("x", 90) + "\n"},
	} {
		if got := broken("# ", c[0]); got != c[1] {
			t.Errorf("%s", got)
		}
	}
}

func TestWidthAndNames(t *testing.T) {
	each(t, func(t *testing.T, kind, region string) {
		for _, l := range strings.Split(sheetOf(t, kind, region, false), "\n") {
			if utf8.RuneCountInString(l) > report.Width {
				t.Errorf("too wide: %s", l)
			}
		}
	})
	for _, name := range []string{"a: b", "#1", "80", "'x'", "Ä \" ö", "- a"} {
		data, err := Sheet(name, "transformer", "japan")
		if err != nil {
			t.Fatal(err)
		}
		if s, problems := sheet.Read("x.yaml", data); s == nil || s.Name != name {
			t.Errorf("%q: %v", name, problems)
		}
	}
	if _, err := Sheet("x", "wireless", "japan"); err == nil {
		t.Error("a kind that there is not")
	}
	if _, err := Sheet("x", "transformer", "atlantis"); err == nil {
		t.Error("a region that there is not")
	}
}
