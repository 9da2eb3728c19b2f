package judging

import (
	"fmt"

	"firstvolt/checks/bench"
	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
)

// Read takes a file to its bench, at the sheet's own stage, and judges nothing:
// for the commands that say what is so.
func Read(path string) *Sheet { return opened(path, "", func(*Sheet) {}) }

// opened is read of a file.
func opened(path, stage string, next func(*Sheet)) *Sheet {
	data, problem := readFile(path)
	if problem != nil {
		return &Sheet{File: path, Asked: stage, Problems: []strict.Problem{*problem}}
	}
	return read(path, data, stage, next)
}

// read takes the text of a sheet to its bench, and then does what is next. A
// fault of the program on the way leaves a sheet that is neither read nor
// judged.
func read(file string, data []byte, stage string, next func(*Sheet)) (s *Sheet) {
	s = &Sheet{File: file, Digest: sum(data), Asked: stage}
	defer func() {
		if r := recover(); r != nil {
			*s = Sheet{File: file, Digest: s.Digest, Asked: stage, Faults: append(s.Faults, fmt.Sprintf("internal fault: %v", r))}
		}
	}()
	read, problems := sheet.Read(file, data)
	if read == nil || len(problems) > 0 {
		s.Problems = problems
		return s
	}
	if p := noSuchStage(read, file, stage); p != nil {
		s.Problems = []strict.Problem{*p}
		return s
	}
	s.Read, s.Bench = read, bench.ForStage(read, stage)
	next(s)
	return s
}

// noSuchStage refuses a stage that this set does not have, as the reader of
// sheets refuses it where it stands on the sheet.
func noSuchStage(s *sheet.Sheet, file, stage string) *strict.Problem {
	if stage == "" || stage == "rail" || !s.SeriesString() {
		return nil
	}
	return &strict.Problem{File: file, Pos: s.SetNode().At(), Wrong: "a set with a series heater string has no stage " + stage, Right: "ask for --stage rail"}
}
