package readings

import (
	"fmt"
	"time"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/sheet"
)

var used = figure.Def{
	Name: "instrument-used", Room: "readings", Of: []string{"instrument"}, Present: true,
	Says: "A reading was taken with it.",
}

var inDate = figure.Def{
	Name: "instrument-calibrated", Room: "readings", Of: []string{"instrument"}, Present: true,
	Says: "It was calibrated within the year before each reading taken with it.",
}

var readBond = figure.Def{
	Name: "bond-read-with-it", Room: "readings", Of: []string{"instrument"}, Present: true,
	Says: "A bond was read with it.",
}

var leadsKnown = figure.Def{
	Name: "leads-accounted-for", Room: "readings", Of: []string{"instrument"}, Present: true,
	Says: "Its leads were nulled, or their resistance is known.",
}

// nullLeads is how leads are accounted for.
const nullLeads = "short the probes and null the meter (leads: nulled), or write down what they then read (leads: 0.2 Ω)"

// readingsWith lists the readings taken with an instrument.
func readingsWith(b *bench.Bench, name string) []*sheet.Reading {
	var out []*sheet.Reading
	for _, rd := range b.Sheet.Readings {
		if rd.With != nil && rd.With.Name == name || rd.Drop != nil && rd.Drop.FedBy != nil && rd.Drop.FedBy.Name == name {
			out = append(out, rd)
		}
	}
	return out
}

func computeUsed(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	for _, s := range b.Subjects("instrument") {
		out = append(out, figure.Is(&used, s, len(readingsWith(b, s.Name)) > 0))
	}
	return out
}

func computeInDate(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	for _, s := range b.Subjects("instrument") {
		f := figure.Is(&inDate, s, true)
		calibrated := b.Sheet.Instruments[s.Name].Calibrated
		if calibrated == "" {
			f = figure.NotKnown(&inDate, s, figure.Need{What: "the day of the last calibration of " + s.Name, How: "write it as calibrated beside the instrument, or check it against a resistor that is known"})
		}
		for _, rd := range readingsWith(b, s.Name) {
			if !f.Known() || !*f.Present {
				break
			}
			switch within, ok := withinYear(calibrated, rd.Taken); {
			case !ok:
				f = figure.NotKnown(&inDate, s, figure.Need{What: "the day on which " + rd.Name + " was read", How: "add taken: to the readings, or to this one"})
			case !within:
				f = figure.Is(&inDate, s, false)
				f.Note = fmt.Sprintf("calibrated %s, %s read %s", calibrated, rd.Name, rd.Taken)
			}
		}
		out = append(out, f)
	}
	return out
}

// withinYear tells whether the day of calibration lies within the year before
// the day of the reading, both days counted.
func withinYear(calibrated, taken string) (within, ok bool) {
	c, err := time.Parse(time.DateOnly, calibrated)
	if err != nil {
		return false, false
	}
	t, err := time.Parse(time.DateOnly, taken)
	if err != nil {
		return false, false
	}
	return !t.Before(c) && !t.After(c.AddDate(1, 0, 0)), true
}

func computeReadBond(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	for _, s := range b.Subjects("instrument") {
		yes := false
		for _, rd := range readingsWith(b, s.Name) {
			for _, metal := range bondSubjects(b) {
				yes = yes || rd.Drop == nil && bondReading(b, rd, metal.Name) != never // a drop has no leads in it
			}
		}
		out = append(out, figure.Is(&readBond, s, yes))
	}
	return out
}

func computeLeadsKnown(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	for _, s := range b.Subjects("instrument") {
		f := figure.Is(&leadsKnown, s, true)
		if !b.Sheet.Instruments[s.Name].LeadsKnown {
			f = figure.NotKnown(&leadsKnown, s, figure.Need{What: "the leads of " + s.Name, How: nullLeads})
		}
		out = append(out, f)
	}
	return out
}
