// Package judging takes sheets from files to judgements: it finds the files,
// reads them, makes the bench, runs the checks and asks the rulebook. Every
// command that judges goes through it, so that all come to the same verdict.
// It prints nothing and knows no format.
package judging

import (
	"firstvolt/checks"
	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
	"firstvolt/rules"
)

// Sheet is one sheet on its way: read and judged, or unreadable with its
// problems, or stopped by a fault of the program.
type Sheet struct {
	File   string
	Digest string // sha256:… of the bytes; empty where the file could not be read
	// Asked is the stage that the person named beside the sheet; empty: the
	// sheet's own stage holds.
	Asked     string
	Read      *sheet.Sheet // nil where Problems or a fault stopped it
	Bench     *bench.Bench // likewise
	Figures   []figure.Figure
	Judgement rules.Judgement // zero where Read is nil
	Problems  []strict.Problem
	Faults    []string // faults of the program; what they cost is missing in Figures
}

// Judged tells whether there is a judgement.
func (s *Sheet) Judged() bool { return s.Bench != nil && len(s.Problems) == 0 }

// Own is the stage that stands on the sheet, empty if none does.
func (s *Sheet) Own() string {
	if s.Read == nil {
		return ""
	}
	return s.Read.FirstPower
}

// File reads and judges one file at the stage asked, the sheet's own if empty.
func File(book *rules.Book, path, stage string) *Sheet {
	return opened(path, stage, func(s *Sheet) { s.judge(book) })
}

// Bytes judges the text of one sheet; file is the name it is spoken of by.
func Bytes(book *rules.Book, file string, data []byte, stage string) *Sheet {
	return read(file, data, stage, func(s *Sheet) { s.judge(book) })
}

// judge asks the checks and the rulebook.
func (s *Sheet) judge(book *rules.Book) {
	s.Figures, s.Faults = checks.Run(s.Bench)
	s.Judgement = book.Judge(s.Bench.Setting(), s.Figures, s.Bench.Stage)
	s.doubt()
	s.place()
}

// doubt takes clearance away where a fault of the program cost figures: a rule
// that only wants its figure would not notice.
func (s *Sheet) doubt() {
	if len(s.Faults) == 0 {
		return
	}
	s.Judgement.Reasons = append(s.Judgement.Reasons, "a fault of the program cost some of the figures")
	if s.Judgement.Verdict == rules.Cleared {
		s.Judgement.Verdict = rules.Open
	}
}

// place gives each finding a place on the sheet: where its subject does not
// stand there, that of the part of the sheet that would hold it.
func (s *Sheet) place() {
	for i := range s.Judgement.Findings {
		f := &s.Judgement.Findings[i]
		for _, at := range []strict.Pos{f.At, f.Subject.At, s.Read.Root.Get(homes[f.Subject.Kind]).At(), {Line: 1, Column: 1}} {
			if at.Line > 0 {
				f.At = at
				break
			}
		}
	}
}

// homes are the keys under which subjects of a kind stand on a sheet.
var homes = map[string]string{
	"inspection": "inspection", "reading": "readings", "instrument": "instruments", "link": "supply",
	"supply": "supply", "plug": "supply", "cord": "cord", "set": "set", "chassis": "set",
}

// Book is the program's rulebook with what the shops' files add. The problems
// are those of a shop's file; own tells that they are faults of the rulebook
// that the program carries.
func Book(shops []string) (book *rules.Book, problems []strict.Problem, own bool) {
	book, problems = rules.Load(rules.Default(), checks.Catalogue())
	if len(problems) > 0 {
		return nil, problems, true
	}
	for _, file := range shops {
		data, problem := readFile(file)
		if problem != nil {
			problems = append(problems, *problem)
			continue
		}
		more, faulty := rules.LoadShop(book, file, data)
		problems = append(problems, faulty...)
		if more != nil {
			book = more
		}
	}
	if len(problems) > 0 {
		return nil, problems, false
	}
	return book, nil, false
}
