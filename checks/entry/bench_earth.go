package entry

import (
	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/sheet"
)

var (
	benchEarth = &figure.Def{Name: "bench-earth-through", Room: "firstpower", Of: []string{"chassis"}, Present: true,
		Says: "every unit between receptacle and set passes the ground through"}
	benchFloats = &figure.Def{Name: "isolated-output-floats", Room: "firstpower", Of: []string{"link"}, Present: true,
		Says: "the output of the isolating transformer is tied to nothing"}
	benchEarthPast = &figure.Def{Name: "ground-past-isolation", Room: "firstpower", Of: []string{"link"}, Present: true,
		Says: "the isolating transformer carries the ground on to the outlet that the set is plugged into"}
)

// computeBenchEarth: one unit that stops the ground stops it for good; else
// one that does not say leaves it open. Residual devices pass it always.
func computeBenchEarth(b *bench.Bench) []figure.Figure {
	of := chassisOf(b)
	if !b.Sheet.UpstreamKnown {
		return []figure.Figure{figure.NotKnown(benchEarth, of, benchNeed)}
	}
	var needs []figure.Need
	for i, s := range b.Subjects("link") {
		l := b.Sheet.Upstream[i]
		if l.Kind == "gfci" || l.Kind == "rcd" {
			continue
		}
		switch l.Word("earth") {
		case "through":
		case "stopped", "broken":
			f := figure.Is(benchEarth, of, false)
			f.Witness, f.At = []string{s.Name}, l.At
			f.Note = "the ground ends in the " + l.Kind
			return []figure.Figure{f}
		default:
			needs = append(needs, benchLacks(s, "earth", "an ohmmeter from the ground pin of its plug to the ground of its outlet"))
		}
	}
	if len(needs) > 0 {
		return []figure.Figure{figure.NotKnown(benchEarth, of, needs...)}
	}
	return []figure.Figure{figure.Is(benchEarth, of, true)}
}

func computeBenchFloats(b *bench.Bench) []figure.Figure {
	return benchLinks(b, func(l *sheet.Link, s figure.Subject) figure.Figure {
		switch l.Word("secondary") {
		case "floating", "bonded":
			return figure.Is(benchFloats, s, l.Word("secondary") == "floating")
		}
		return figure.NotKnown(benchFloats, s, benchLacks(s, "secondary", "an ohmmeter, unplugged, from each blade of its outlet to the ground of its plug"))
	}, "isolating-transformer")
}

func computeBenchEarthPast(b *bench.Bench) []figure.Figure {
	return benchLinks(b, func(l *sheet.Link, s figure.Subject) figure.Figure {
		switch l.Word("earth") {
		case "through":
			return figure.Is(benchEarthPast, s, true)
		case "stopped", "broken":
			return figure.Is(benchEarthPast, s, false)
		}
		return figure.NotKnown(benchEarthPast, s, benchLacks(s, "earth", "an ohmmeter, unplugged, from the ground of its plug to the ground of its outlet"))
	}, "isolating-transformer")
}
