package readings

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/handbook"
	"firstvolt/checks/quantity"
	"firstvolt/checks/sheet"
)

// testVolts is the least test that proves anything of mains insulation: 250 V,
// the lower of the two test voltages of VDE 0701-0702 (recalled, not looked up).
const testVolts = 250

var mainsInsulation = figure.Def{
	Name: "mains-insulation", Room: "readings", Of: []string{"chassis", "body"}, Unit: quantity.Resistance,
	Says: "insulation from both pins of the plug",
}

// computeMainsInsulation gives a figure for each insulation reading that holds
// the mains side against chassis or body. A test below 250 V is passed over;
// one of unknown volts makes the figure missing. So does one that may have been
// taken with a part of the mains side cut off, where no other holds all of it;
// beside one that does it counts as read: what was cut off can only have made
// it read more.
func computeMainsInsulation(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	for _, s := range append(b.Subjects("chassis"), b.Subjects("body")...) {
		var all, some []*sheet.Reading
		for _, rd := range ofKind(b, "insulation") {
			switch of := mainsAgainst(b, rd, s.Name, true); {
			case of == never || weak(rd):
			case of == always:
				all = append(all, rd)
			default:
				some = append(some, rd)
			}
		}
		for _, rd := range append(slices.Clone(all), some...) {
			f := insulationOf(b, &mainsInsulation, s, rd, true)
			if len(all) == 0 {
				f = figure.NotKnown(&mainsInsulation, s, unsaid(rd))
			}
			f.At = rd.At
			out = append(out, f)
		}
		if len(all)+len(some) == 0 {
			out = append(out, figure.NotKnown(&mainsInsulation, s, figure.Need{
				What: fmt.Sprintf("insulation between plug.hot + plug.neutral and %s, switches closed", s.Name),
				How:  "an insulation tester at 500 V (250 V where arresters stay in), set unplugged, so that both ends of each primary lie on one side; lift what conducts between the two"}))
		}
	}
	return out
}

// weak tells whether a test is known to be too low for mains insulation.
func weak(rd *sheet.Reading) bool { return rd.HasTest && rd.Test.High < testVolts }

// insulationOf is what an insulation reading says of one subject. Where the
// probes joined more than the subject (alone is false), or a part that strikes
// may carry the current, it is a lower bound only.
func insulationOf(b *bench.Bench, d *figure.Def, s figure.Subject, rd *sheet.Reading, alone bool) figure.Figure {
	r, ok, why := rd.True()
	switch {
	case !ok:
		return figure.NotKnown(d, s, useless(rd, why))
	case !rd.HasTest:
		return figure.NotKnown(d, s, figure.Need{What: "the test voltage of the insulation reading of " + rd.Name, How: "add test: to the reading, like test: 500 V"})
	case rd.Test.Low < testVolts && !weak(rd):
		return figure.NotKnown(d, s, figure.Need{What: "the insulation reading of " + rd.Name + " at a known test voltage", How: fmt.Sprintf("it may have been taken below %d V", testVolts)})
	}
	f := figure.Number(d, s, r)
	f.Trace = []string{fmt.Sprintf("%s read %s", rd.Name, r)}
	at40, from := handbook.InsulationAt(r, b.Sheet.Ambient, 40)
	f.Trace = append(f.Trace, fmt.Sprintf("for comparison: at 40 °C, half for each 10 K warmer than %s, %s; judged is what was read", b.Sheet.Ambient, at40))
	f.From = append(f.From, from)
	if !alone {
		f.Range.High = math.Inf(1)
		f.Note = "more was joined to the probes than this, so that the reading is a lower bound"
	}
	states, _ := b.StatesOf(rd)
	for _, st := range states {
		if names := striking(b.Circuit(st), rd); len(names) > 0 {
			f.Range.High = math.Inf(1)
			f.Note = fmt.Sprintf("%s may explain a low reading: read again with it lifted (without: [%s])", strings.Join(names, ", "), strings.Join(names, ", "))
			break
		}
	}
	return f
}
