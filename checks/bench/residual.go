package bench

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
)

// testedFor is for how many days after the latest reading a test of a residual
// device counts (common practice: first power follows the readings, and a device
// that stood for longer is tested again).
const testedFor = 31

const day = "2006-01-02"

// Tested tells whether a residual device was tested on or after the day of the
// latest reading and no more than 31 days later; why says what keeps it from
// counting, missing which key of the sheet would tell.
func (b *Bench) Tested(l *sheet.Link) (counts bool, why, missing string) {
	tested, latest := l.Word("tested"), b.Sheet.LastTaken()
	switch {
	case tested == "":
		return false, "the sheet does not say when it was tested", fmt.Sprintf("upstream %d tested", l.Number)
	case latest == "":
		return false, "the sheet does not say when the readings were taken", "readings taken"
	case tested < latest:
		return false, "it was tested on " + tested + ", before the latest reading on " + latest, ""
	}
	from, err := time.Parse(day, latest)
	to, err2 := time.Parse(day, tested)
	if err != nil || err2 != nil || to.After(from.AddDate(0, 0, testedFor)) {
		return false, fmt.Sprintf("it was tested on %s, more than %d days after the latest reading on %s", tested, testedFor, latest), ""
	}
	return true, "", ""
}

// Sees tells whether a residual device sees a fault of the set: only where the
// supply comes back through earth, and not beside an isolating transformer; why
// says what keeps it from that. Where nobody knows how the supply is earthed it is
// not relied on, and known is false.
func (b *Bench) Sees() (sees, known bool, why string) {
	if len(b.Sheet.Links("isolating-transformer")) > 0 {
		return false, true, "beside an isolating transformer it sees no fault of the set"
	}
	systems := b.Earthings()
	for _, blind := range []struct{ system, why string }{
		{"it", "on a supply that is insulated from earth (IT) it sees no first fault"},
		{"none", "on a supply whose ground contact leads nowhere it is not relied on"},
	} {
		if slices.Contains(systems, blind.system) {
			return false, true, blind.why
		}
	}
	if slices.Contains(systems, "unknown") {
		return false, false, "nobody knows how the supply is earthed, and on some it sees no fault"
	}
	return true, true, ""
}

// SeesOneWay tells whether a residual device sees what flows one way only: types
// a and b do (IEC 61008-1), type ac need not, and a GFCI is tested with alternating
// current (UL 943, recalled, not looked up).
func SeesOneWay(l *sheet.Link) bool {
	return l.Kind == "rcd" && (l.Word("type") == "a" || l.Word("type") == "b")
}

// Rectifies tells whether a rectifier works straight on the line at this stage, so
// that a fault behind it drives current one way through a person.
func (b *Bench) Rectifies() bool {
	r := b.Circuit(ClosedState()).Reach(b.linesOf(), Conductors)
	return slices.ContainsFunc(b.Parts(part.Rectifies), func(p *part.Part) bool {
		if b.rectifierRole(p) != "metal" && b.Stage != "rail" {
			return false // a tube is out of its socket
		}
		return slices.ContainsFunc(p.Terminals(), func(t string) bool {
			return (t == "anode" || strings.HasPrefix(t, "plate")) && r.Has(p.Full(t))
		})
	})
}
