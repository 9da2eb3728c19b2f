package readings

import (
	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
)

var inspectionGood = figure.Def{
	Name: "inspection-good", Room: "inspection", Of: []string{"inspection"}, Present: true,
	Says: "It was looked at and found good.",
}

// computeInspectionGood: good is present, bad absent; not-seen, like a key
// that is missing, is not known.
func computeInspectionGood(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	for _, s := range b.Subjects("inspection") {
		a := b.Sheet.Inspection[s.Name]
		f := figure.NotKnown(&inspectionGood, s, figure.Need{What: "the inspection answer " + s.Name, How: "look, set unplugged, and answer good or bad under inspection:"})
		if a.Word == "good" || a.Word == "bad" {
			f = figure.Is(&inspectionGood, s, a.Word == "good")
		}
		f.At = a.At
		out = append(out, f)
	}
	return out
}
