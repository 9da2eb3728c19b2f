package judging

import "firstvolt/rules"

// Ending is what came of one sheet.
type Ending struct {
	Judged  bool
	Faulty  bool          // a fault of the program met it, judged or not
	Verdict rules.Verdict // where Judged
}

// Ending is what came of the sheet.
func (s *Sheet) Ending() Ending { return Ending{s.Judged(), len(s.Faults) > 0, s.Judgement.Verdict} }

// Tally counts what came of sheets.
type Tally struct {
	Sheets, Unread, Faulty int
	Verdicts               map[rules.Verdict]int
}

// Add counts one sheet.
func (t *Tally) Add(e Ending) {
	t.Sheets++
	if e.Faulty {
		t.Faulty++
	}
	if !e.Judged {
		t.Unread++
		return
	}
	if t.Verdicts == nil {
		t.Verdicts = map[rules.Verdict]int{}
	}
	t.Verdicts[e.Verdict]++
}
