package readings

import (
	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
	"firstvolt/checks/sheet"
)

const outside = "how far the reading lies outside what everything else predicts, in units of 1 Ω or 10 %, whichever is more"

var plugOn = figure.Def{
	Name: "plug-on-disagreement", Room: "readings", Of: []string{"plug"}, Unit: quantity.Number,
	Says: "hot to neutral at the plug, switched on: " + outside,
}

var plugOff = figure.Def{
	Name: "plug-off-disagreement", Room: "readings", Of: []string{"plug"}, Unit: quantity.Number,
	Says: "hot to neutral at the plug, switched off: " + outside,
}

var mainsSwitch = figure.Def{
	Name: "has-mains-switch", Room: "readings", Of: []string{"plug"}, Present: true,
	Says: "A switch stands on the mains.",
}

// mainsSwitches are the switches that a line conductor reaches. Without wiring
// any switch may be one.
func mainsSwitches(b *bench.Bench) []string {
	var out []string
	for _, s := range b.Subjects("switch") {
		if s.Role == "mains" || !b.Sheet.HasWiring() {
			out = append(out, s.Name)
		}
	}
	return out
}

func computeMainsSwitch(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	for _, s := range b.Subjects("plug") {
		out = append(out, figure.Is(&mainsSwitch, s, len(mainsSwitches(b)) > 0))
	}
	return out
}

// switched tells whether the state has every switch of the mains closed, or
// every one open: with one of two left closed, nobody saw that one open.
func switched(b *bench.Bench, st bench.State, on bool) bool {
	names := mainsSwitches(b)
	if len(names) == 0 {
		return on
	}
	for _, name := range names {
		c, said := st.Closed[name]
		if (c || !said && st.AllClosed) != on {
			return false
		}
	}
	return true
}

// atPlug tells in how many of its states a reading is one across the pins of
// the plug with the mains switches closed (on) or open (off). Fuses are in and
// nothing that carries line current is lifted.
func atPlug(b *bench.Bench, rd *sheet.Reading, on bool) extent {
	if rd.Kind != "resistance" || !joins(rd, sheet.PlugHot, sheet.PlugNeutral) || !whole(b, rd) {
		return never
	}
	return inStates(b, rd, func(st bench.State) bool { return switched(b, st, on) })
}

// whole tells whether a reading was taken with the set as it stands: fuses in,
// nothing lifted. Tubes, lamps and ballasts may be out of their sockets.
func whole(b *bench.Bench, rd *sheet.Reading) bool {
	if len(rd.Lifted) > 0 || rd.AllFuses == "out" {
		return false
	}
	for _, st := range rd.Fuses {
		if st == "out" {
			return false
		}
	}
	for _, name := range rd.Without {
		p := b.Sheet.Part(name)
		if p == nil || !p.PlugsIn() || p.Is(part.Fuses) {
			return false
		}
	}
	return true
}

func computePlugOn(b *bench.Bench) []figure.Figure {
	return atPlugFigures(b, &plugOn, true, "resistance between plug.hot and plug.neutral, switches closed")
}

func computePlugOff(b *bench.Bench) []figure.Figure {
	return atPlugFigures(b, &plugOff, false, "resistance between plug.hot and plug.neutral, switches open")
}

func atPlugFigures(b *bench.Bench, d *figure.Def, on bool, need string) []figure.Figure {
	var out []figure.Figure
	for _, s := range b.Subjects("plug") {
		none := true
		for _, rd := range b.Sheet.Readings {
			if atPlug(b, rd, on) == never {
				continue
			}
			none = false
			out = append(out, agree(b, rd).owed(d, s, rd))
		}
		if none {
			out = append(out, figure.NotKnown(d, s, figure.Need{What: need, How: "an ohmmeter at the pins of the plug, set unplugged"}))
		}
	}
	return out
}
