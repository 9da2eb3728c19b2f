package judging

import (
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"firstvolt/checks/strict"
	"firstvolt/rules"
)

func book(t *testing.T) *rules.Book {
	t.Helper()
	b, problems, _ := Book(nil)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return b
}

const line = `firstvolt: 1
set: {name: Invented One, construction: line-connected}
supply: {region: north-america, plug: nema-1-15-polarized}
`

func TestStageAskedThatTheSetDoesNotHave(t *testing.T) {
	for stage, judged := range map[string]bool{"": true, "rail": true, "heaters": false, "bare": false} {
		s := Bytes(book(t), "a.yaml", []byte(line), stage)
		if s.Judged() != judged {
			t.Errorf("stage %q: judged %v; %v", stage, s.Judged(), s.Problems)
		}
		if !judged && (len(s.Problems) != 1 || s.Problems[0].Line != 2) {
			t.Errorf("stage %q: %v", stage, s.Problems)
		}
	}
}

func TestStageAskedOverridesTheSheet(t *testing.T) {
	text := strings.Replace(line, "line-connected", "transformer", 1) + "first-power: {stage: bare}\n"
	for asked, want := range map[string]string{"": "bare", "rail": "rail", "heaters": "heaters"} {
		s := Bytes(book(t), "a.yaml", []byte(text), asked)
		if !s.Judged() || s.Judgement.Stage != want || s.Own() != "bare" {
			t.Errorf("asked %q: stage %q of a sheet that says %q", asked, s.Judgement.Stage, s.Own())
		}
	}
}

// A sheet with next to nothing on it is never cleared, and each of its
// findings has a place.
func TestBareSheetIsOpenAndPlaced(t *testing.T) {
	s := Bytes(book(t), "a.yaml", []byte(line), "")
	if s.Judgement.Verdict == rules.Cleared {
		t.Error("cleared")
	}
	for _, f := range s.Judgement.Findings {
		if f.At.Line < 1 || f.At.Column < 1 {
			t.Errorf("%s of %s stands nowhere", f.Rule, f.Subject.Name)
		}
	}
}

// What panics on the way is a fault of the program, and no judgement.
func TestPanicIsAFault(t *testing.T) {
	s := Bytes(nil, "a.yaml", []byte(line), "")
	if s.Judged() || len(s.Faults) != 1 || !strings.HasPrefix(s.Faults[0], "internal fault: ") || strings.Contains(s.Faults[0], "goroutine") {
		t.Errorf("judged %v, faults %q", s.Judged(), s.Faults)
	}
	if s.Judgement.Verdict != "" {
		t.Errorf("verdict %q", s.Judgement.Verdict)
	}
}

// Figures that a fault cost leave nothing cleared, and a hold a hold.
func TestFaultClearsNothing(t *testing.T) {
	for before, after := range map[rules.Verdict]rules.Verdict{rules.Cleared: rules.Open, rules.Open: rules.Open, rules.Hold: rules.Hold} {
		s := Sheet{Faults: []string{"x"}, Judgement: rules.Judgement{Verdict: before}}
		s.doubt()
		if s.Judgement.Verdict != after || len(s.Judgement.Reasons) != 1 {
			t.Errorf("%s became %s, %q", before, s.Judgement.Verdict, s.Judgement.Reasons)
		}
	}
	s := Sheet{Judgement: rules.Judgement{Verdict: rules.Cleared}}
	if s.doubt(); s.Judgement.Verdict != rules.Cleared || len(s.Judgement.Reasons) > 0 {
		t.Error("doubt without a fault")
	}
}

func TestFiles(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	write("b.yml", line)
	write("a.yaml", line)
	write("C.YAML", line)
	write("notes.txt", "")
	if err := os.Mkdir(filepath.Join(dir, "d.yaml"), 0o755); err != nil {
		t.Fatal(err)
	}
	files, problems := Files([]string{dir, "named.txt"})
	var names []string
	for _, f := range files {
		names = append(names, filepath.Base(f))
	}
	if want := []string{"C.YAML", "a.yaml", "b.yml", "named.txt"}; !slices.Equal(names, want) || len(problems) > 0 {
		t.Errorf("%v, want %v; %v", names, want, problems)
	}
	if files, problems = Files([]string{filepath.Join(dir, "d.yaml")}); len(files) > 0 || len(problems) != 1 {
		t.Errorf("an empty folder gave %v, %v", files, problems)
	}
}

func TestWhatCannotBeRead(t *testing.T) {
	dir := t.TempDir()
	big := filepath.Join(dir, "big.yaml")
	if err := os.WriteFile(big, []byte(strings.Repeat("# x\n", strict.MaxBytes/4+1)), 0o644); err != nil {
		t.Fatal(err)
	}
	bytes := filepath.Join(dir, "bytes.yaml")
	if err := os.WriteFile(bytes, []byte("firstvolt: 1\nset: \xff\x00\xfe"), 0o644); err != nil {
		t.Fatal(err)
	}
	if s := File(book(t), bytes, ""); s.Judged() || len(s.Problems) != 1 || s.Problems[0].Line != 2 {
		t.Errorf("bytes that are no text: %v", s.Problems)
	}
	for path, want := range map[string]string{
		big:                          "larger than",
		dir:                          "a folder",
		filepath.Join(dir, "absent"): "no such file",
		"":                           "empty file name",
	} {
		s := File(book(t), path, "")
		if s.Judged() || len(s.Problems) != 1 || !strings.Contains(s.Problems[0].Wrong, want) {
			t.Errorf("%q: %v, want %q", path, s.Problems, want)
		}
	}
}

func TestBookOfAShop(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "shop.yaml")
	if err := os.WriteFile(file, []byte("rules:\n  nonsense: 1\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	b, problems, own := Book([]string{filepath.Join(dir, "absent.yaml"), file})
	if b != nil || own || len(problems) < 2 {
		t.Errorf("book %v, own %v, %v", b, own, problems)
	}
	for _, p := range problems {
		if p.File == "" {
			t.Errorf("no file in %v", p)
		}
	}
}

// A sheet that is only read carries what its judgement would, and has none.
func TestReadJudgesNothing(t *testing.T) {
	const file = "../../../../testdata/sheets/wexcombe-junior.yaml"
	b := book(t)
	judged, read := File(b, file, ""), Read(file)
	if read.Bench == nil || read.Digest != judged.Digest || read.Judgement.Verdict != "" || read.Figures != nil {
		t.Fatalf("%+v", read)
	}
	got, want := b.Carried(read.Bench.Setting(), read.Bench.Stage), judged.Judgement.Carried
	if len(got.Cautions) < 3 || !reflect.DeepEqual(got, want) {
		t.Errorf("it carries %v, its judgement %v", got, want)
	}
}

// A fault of the program on the way leaves nothing that looks read.
func TestFaultOnTheWay(t *testing.T) {
	s := read("a.yaml", []byte(line), "", func(s *Sheet) {
		s.Judgement.Verdict = rules.Cleared
		panic("x")
	})
	if s.Judged() || s.Read != nil || s.Judgement.Verdict != "" || len(s.Faults) != 1 || s.Digest == "" || s.File != "a.yaml" {
		t.Errorf("%+v", s)
	}
}
