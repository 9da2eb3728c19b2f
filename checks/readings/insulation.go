package readings

import (
	"fmt"
	"maps"
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
	Name: "mains-insulation", Room: "readings", Of: bench.Metalwork, Unit: quantity.Resistance,
	Says: "insulation from both pins of the plug",
}

// computeMainsInsulation gives a figure for each insulation reading that holds
// something of the mains side against chassis or body. A test below 250 V is
// passed over; one of unknown volts makes the figure missing. Together they must
// have held all that a line conductor feeds: what none held is named, and where
// no single one held it all, what they saw counts side by side.
func computeMainsInsulation(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	for _, s := range b.Subjects(bench.Metalwork...) {
		sides := mainsSides(b, s.Name)
		if len(sides) == 0 {
			out = append(out, figure.NotKnown(&mainsInsulation, s, figure.Need{
				What: fmt.Sprintf("insulation between plug.hot + plug.neutral and %s, switches closed", s.Name),
				How:  "an insulation tester at 500 V (250 V where arresters stay in), set unplugged, so that both ends of each primary lie on one side; lift what conducts between the two"}))
			continue
		}
		for _, side := range sides {
			f := insulationOf(b, &mainsInsulation, s, side.rd, true)
			f.At = side.rd.At
			out = append(out, f)
		}
		out = append(out, together(b, s, sides)...)
	}
	return out
}

// together is what the readings of one subject say together: what none of them
// held, and where it took several to hold it all, what they saw side by side.
func together(b *bench.Bench, s figure.Subject, sides []testedSide) []figure.Figure {
	missed := fed(b, s.Name)
	var used []testedSide
	for _, side := range sides {
		if side.takeFrom(missed) {
			used = append(used, side)
		}
	}
	if len(missed) > 0 {
		names := slices.Sorted(maps.Keys(missed))
		list := strings.Join(names, ", ")
		f := figure.NotKnown(&mainsInsulation, s, figure.Need{What: fmt.Sprintf("insulation between %s and %s", list, s.Name),
			How: "no test held " + list + " together with the pins: test again with every switch closed, every fuse in and nothing lifted, or add switches: and fuses: to the reading if it was so; a class Y part that was lifted needs a reading across it"})
		f.At = sides[0].rd.At
		return []figure.Figure{f}
	}
	if len(used) < 2 {
		return nil
	}
	sum := quantity.Range{Low: 0, High: math.Inf(1), Dim: quantity.Resistance}
	siemens := 0.0
	var trace []string
	for _, side := range used {
		r, _, _ := side.rd.True()
		siemens += 1 / r.Low
		sum.High = math.Min(sum.High, r.High)
		trace = append(trace, fmt.Sprintf("%s read %s", side.rd.Name, r))
	}
	sum.Low = math.Min(1/siemens, sum.High)
	f := figure.Number(&mainsInsulation, s, sum)
	f.At, f.Trace = used[0].rd.At, append(trace, fmt.Sprintf("side by side at least %s", quantity.Format(sum.Low, quantity.Resistance)))
	f.Note = "no single test held all of the mains side, so that what the tests saw counts side by side"
	return []figure.Figure{f}
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
