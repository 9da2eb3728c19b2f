package entry

import (
	"fmt"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/handbook"
	"firstvolt/checks/quantity"
	"firstvolt/checks/sheet"
)

var (
	benchLimiter = &figure.Def{Name: "limiter-in-chain", Room: "firstpower", Of: []string{"set"}, Present: true,
		Says: "a series lamp stands between receptacle and set"}
	benchLampInHot = &figure.Def{Name: "lamp-in-hot", Room: "firstpower", Of: []string{"link"}, Present: true,
		Says: "the lamp is in the hot conductor of its box"}
	benchHotIsSure = &figure.Def{Name: "hot-is-sure", Room: "firstpower", Of: []string{"link"}, Present: true,
		Says: "every joint from receptacle to set keeps hot on one side"}
	benchLampFloats = &figure.Def{Name: "lamp-supply-floats", Room: "firstpower", Of: []string{"link"}, Present: true,
		Says: "an isolating transformer in the chain has an output that floats, so that neither conductor of the set is live to ground"}
	benchLampShare = &figure.Def{Name: "lamp-over-set", Room: "firstpower", Of: []string{"link"}, Unit: quantity.Number,
		Says: "watts of the lamp at the nominal supply, divided by the watts of the set"}
)

func computeBenchLimiter(b *bench.Bench) []figure.Figure {
	if !b.Sheet.UpstreamKnown {
		return []figure.Figure{figure.NotKnown(benchLimiter, b.Set(), benchNeed)}
	}
	f := figure.Is(benchLimiter, b.Set(), false)
	for i, s := range b.Subjects("link") {
		if b.Sheet.Upstream[i].Kind == "lamp-box" {
			f = figure.Is(benchLimiter, b.Set(), true)
			f.Witness = []string{s.Name}
		}
	}
	return []figure.Figure{f}
}

func computeBenchLampInHot(b *bench.Bench) []figure.Figure {
	return benchLinks(b, func(l *sheet.Link, s figure.Subject) figure.Figure {
		switch l.Word("pole") {
		case "hot", "neutral":
			return figure.Is(benchLampInHot, s, l.Word("pole") == "hot")
		}
		return figure.NotKnown(benchLampInHot, s, benchLacks(s, "pole", "with the box unplugged and its lamp out: the blade that no longer reaches the outlet"))
	}, "lamp-box")
}

func computeBenchHotIsSure(b *bench.Bench) []figure.Figure {
	return benchLinks(b, func(_ *sheet.Link, s figure.Subject) figure.Figure {
		return figure.Is(benchHotIsSure, s, b.Wired().Orientation == "fixed")
	}, "lamp-box")
}

// computeBenchLampFloats: the last isolating transformer decides, whether the
// box stands ahead of it or behind; a tie to ground inside the set undoes it.
// An output of which the sheet does not say that it floats is taken as tied.
func computeBenchLampFloats(b *bench.Bench) []figure.Figure {
	floats := false
	for _, l := range b.Sheet.Links("isolating-transformer") {
		floats = l.Word("secondary") == "floating"
	}
	w := b.Wired()
	floats = floats && !(w.LiveChassis != nil && w.Bonded != "no")
	return benchLinks(b, func(_ *sheet.Link, s figure.Subject) figure.Figure {
		return figure.Is(benchLampFloats, s, floats)
	}, "lamp-box")
}

// computeBenchLampShare carries the lamp from its own voltage to the supply's
// where it stands, by the law of tungsten lamps.
func computeBenchLampShare(b *bench.Bench) []figure.Figure {
	atSet, _ := b.Mains()
	set, setKnown := benchWatts(b, atSet)
	law := handbook.Lamp()
	return benchLinks(b, func(l *sheet.Link, s figure.Subject) figure.Figure {
		volts, behind := benchVolts(b, l)
		watts, okW := l.Value("lamp")
		rated, okV := l.Value("voltage")
		var needs []figure.Need
		if !okW || !(watts.Low > 0) {
			needs = append(needs, benchLacks(s, "lamp", "the watts stamped on the lamp, of tungsten"))
		}
		if !okV || !(rated.Low > 0) {
			needs = append(needs, benchLacks(s, "voltage", "the volts stamped on the lamp"))
		}
		if behind != nil {
			needs = append(needs, *behind)
		}
		if !setKnown {
			needs = append(needs, figure.Need{What: "nameplate power", How: "watts from the nameplate or the maker's data"})
		}
		if len(needs) > 0 {
			return figure.NotKnown(benchLampShare, s, needs...)
		}
		lamp := quantity.Between(volts*law.Nominal(watts.Low, rated.High, volts), volts*law.Nominal(watts.High, rated.Low, volts), quantity.Power)
		q := lamp.Div(set, quantity.Number)
		f := figure.Number(benchLampShare, s, q)
		f.Trace = []string{
			fmt.Sprintf("%s of %s at %g V: %s", watts, rated, volts, lamp),
			fmt.Sprintf("%s ÷ %s = %s", lamp, set, q),
		}
		f.From = []figure.Basis{law.Law}
		return f
	}, "lamp-box")
}

// benchVolts is the nominal supply where a unit stands, behind the step-down and
// step-up units ahead of it; need is what one of those does not say.
func benchVolts(b *bench.Bench, at *sheet.Link) (volts float64, need *figure.Need) {
	volts = b.Sheet.Region.Nominal
	for _, l := range b.Sheet.Links("autotransformer") {
		if l.Number > at.Number {
			break
		}
		r, ok := l.Value("ratio")
		if !ok {
			return volts, b.SupplyNeed()
		}
		volts *= r.High
	}
	return volts, nil
}

// benchWatts is what the set draws by its nameplate.
func benchWatts(b *bench.Bench, volts float64) (quantity.Range, bool) {
	if w, ok := b.Sheet.Nameplate("power"); ok && w.Low > 0 {
		return w, true
	}
	if a, ok := b.Sheet.Nameplate("current"); ok && a.Low > 0 {
		return quantity.Range{Low: a.Low * volts, High: a.High * volts, Dim: quantity.Power}, true
	}
	return quantity.Range{}, false
}
