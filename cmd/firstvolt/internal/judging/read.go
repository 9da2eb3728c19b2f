package judging

import (
	"fmt"

	"firstvolt/checks/bench"
	"firstvolt/checks/sheet"
)

// Read takes a file to its bench, at the sheet's own stage, and judges nothing:
// for the commands that say what is so.
func Read(path string) (s *Sheet) {
	s = &Sheet{File: path}
	defer func() {
		if r := recover(); r != nil {
			s.Faults = append(s.Faults, fmt.Sprintf("internal fault: %v", r))
			s.Read, s.Bench = nil, nil
		}
	}()
	data, problem := readFile(path)
	if problem != nil {
		s.Problems = append(s.Problems, *problem)
		return s
	}
	s.Digest = sum(data)
	read, problems := sheet.Read(path, data)
	if read == nil || len(problems) > 0 {
		s.Problems = problems
		return s
	}
	s.Read, s.Bench = read, bench.ForStage(read, "")
	return s
}
