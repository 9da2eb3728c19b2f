// Package mistakes holds the single slips that people make when they rewire a
// set and fill in its bench sheet: two leads exchanged, a fuse in the wrong
// conductor, a wire left out, a strand too many, the wrong class of capacitor,
// a reading not taken. Each slip is made in every place of a sheet that has
// room for it; each result is a sheet of its own, with the rules that ought to
// notice named beforehand from what the rules are there for, never from what
// they were seen to do. A test makes them all; a drill picks one.
//
// Not all that looks like a slip is one. A capacitor on the other conductor, a
// filter turned round, a reading that no rule needs: such an Alternative comes
// apart from the slips and must bring no alarm. Which is which is found with
// nets of this package's own, by what the reference says of two sets.
//
// Left out: two slips at once, and lies about what was looked at or measured.
package mistakes

import (
	"slices"

	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
)

// Slip is one kind of mistake.
type Slip struct {
	Name string // kebab-case, unique
	Says string // what somebody did, one plain sentence
	// Apply makes the slip in every place of the sheet that has room for it;
	// root is the tree that s was read from. Neither is altered. What it makes
	// that is no slip but just as sound comes apart from the rest.
	Apply func(root *strict.Node, s *sheet.Sheet) ([]Slipped, []Alternative)
}

// kind makes both together, the second as outcome AsGood.
type kind struct {
	name, says string
	make       func(root *strict.Node, s *sheet.Sheet) []Slipped
}

// Outcomes that a slip asks for, beside those of a finding.
const (
	Fail     = "fail"
	Unproven = "unproven"
	Caution  = "caution"
	// Unreadable: the sheet itself is refused, because a part hangs on nothing.
	Unreadable = "unreadable"
	// AsGood: it is no slip but another sound way, an Alternative.
	AsGood = "as-good"
	// NotJudged: it lies behind the load, where the rules of the high tension ask at
	// the rail. What notices it already counts; nothing may be cleared by it.
	NotJudged = "not-judged"
)

// Verdict stands among the rules of a slip for the verdict itself, where it is
// at best unproven for a reason that is no finding.
const Verdict = "(verdict)"

// Slipped is a sheet with one slip in it.
type Slipped struct {
	Where string              // the place, in the sheet's own names
	Tree  func() *strict.Node // makes the sheet, to be written or read; a new one each time
	Rules []string            // each of these may notice; one of them must
	// Outcome is the least that one of Rules must come to.
	Outcome string
	// Why says, for a caution or where nothing is asked, what the reference
	// has to say for it.
	Why string
}

// Alternative is a set that is wired or read otherwise than its sheet says, in
// a way that could be taken for a slip and that is just as sound. It must bring
// no alarm.
type Alternative struct {
	Where string
	Tree  func() *strict.Node
	Why   string // why it is as good
}

// All lists every kind of slip.
func All() []Slip {
	var all []Slip
	for _, k := range slices.Concat(wiring, added, fusing, values, rated, looks, chain, measured, misread, untold, probed) {
		all = append(all, Slip{k.name, k.says, func(root *strict.Node, s *sheet.Sheet) (slips []Slipped, others []Alternative) {
			for _, sl := range k.make(root, s) {
				if sl.Outcome == AsGood {
					others = append(others, Alternative{sl.Where, sl.Tree, sl.Why})
					continue
				}
				slips = append(slips, sl)
			}
			return slips, others
		}})
	}
	return all
}

// rank orders outcomes from nothing to worst.
var rank = map[string]int{"": 0, "pass": 0, AsGood: 0, NotJudged: 1, Caution: 1, Unproven: 2, Fail: 3}

// Reaches tells whether an outcome is at least as bad as the one asked for.
func Reaches(outcome, asked string) bool { return rank[outcome] >= rank[asked] }
