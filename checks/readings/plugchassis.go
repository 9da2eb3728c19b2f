package readings

import (
	"fmt"
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
	"firstvolt/checks/sheet"
)

var plugToChassis = figure.Def{
	Name: "plug-to-chassis-disagreement", Room: "readings", Of: []string{"plug", "chassis", "body"}, Unit: quantity.Number,
	Says: "both pins of the plug to metal: " + outside,
}

// targetOf is the metal that the figures of a subject are read against.
func targetOf(s figure.Subject) string {
	if s.Kind == "plug" {
		return sheet.Chassis
	}
	return s.Name
}

// plugMetal is the metal that both pins are read against: the chassis of a
// transformer set; on a live chassis each part that a hand reaches.
func plugMetal(b *bench.Bench) []string {
	var out []string
	construction := b.Wired().Construction
	reach := b.Fact("chassis-reach").Word
	if construction != "line-connected" && (construction != "floating-chassis" || reach != "enclosed") {
		out = append(out, sheet.Chassis)
	}
	for _, s := range b.Subjects("body") {
		if construction != "transformer" && s.Reach != "enclosed" {
			out = append(out, s.Name)
		}
	}
	return out
}

// bothPins tells whether a resistance reading holds the whole mains side
// against target, with the set as it stands.
func bothPins(b *bench.Bench, rd *sheet.Reading, target string) extent {
	if rd.Kind != "resistance" || !whole(b, rd) || !atPins(rd) {
		return never
	}
	return mainsAgainst(b, rd, target, false)
}

// atPins tells whether a probe of the reading is on a line pin of the plug and
// none on both sides: a reading between the two pins is another one.
func atPins(rd *sheet.Reading) bool {
	on := func(ts []string) bool {
		for _, t := range ts {
			if t == sheet.PlugHot || t == sheet.PlugNeutral {
				return true
			}
		}
		return false
	}
	return on(rd.A) != on(rd.B)
}

// computePlugToChassis holds each such reading against what predicts it. One of
// one pin, switches not told, stands for both pins beside another that does so
// for certain; agree then takes its worst position.
func computePlugToChassis(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	subjects := append(b.Subjects("plug"), b.Subjects("chassis")...)
	for _, s := range append(subjects, b.Subjects("body")...) {
		var all, some []*sheet.Reading
		for _, rd := range b.Sheet.Readings {
			switch bothPins(b, rd, targetOf(s)) {
			case always:
				all = append(all, rd)
			case partly:
				some = append(some, rd)
			}
		}
		for _, rd := range append(slices.Clone(all), some...) {
			f := agree(b, rd).owed(&plugToChassis, s, rd)
			if len(all) == 0 {
				f = figure.NotKnown(&plugToChassis, s, unsaid(rd))
				f.At = rd.At
			}
			out = append(out, f)
		}
		if len(all)+len(some) == 0 {
			out = append(out, figure.NotKnown(&plugToChassis, s, figure.Need{
				What: fmt.Sprintf("resistance between plug.hot + plug.neutral and %s, switches closed", targetOf(s)),
				How:  "an ohmmeter at the pins of the plug, set unplugged"}))
		}
	}
	return out
}
