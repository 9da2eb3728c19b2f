package entry

import (
	"fmt"
	"slices"
	"strings"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
)

// ahead is what stands between line and fuse, found with the fuses out and
// the switches closed.
type ahead struct {
	bad      []string // witness to something that must not be there
	what     string
	approved []string // witness to a class X or Y capacitor or a filter
	switched []string // witness to a rotary or toggle switch
	lesser   []string // witness to a switch of another form
	formless *part.Part
	noFuse   bool
}

// aheadKey is where a bench keeps what stands ahead of the fuse in a line.
type aheadKey string

// aheadOfFuse is followFuse, done once for each line.
func aheadOfFuse(b *bench.Bench, line string) ahead {
	return b.Keep(aheadKey(line), func() any { return followFuse(b, line) }).(ahead)
}

// followFuse follows line to its fuse and sorts what it meets.
func followFuse(b *bench.Bench, line string) ahead {
	var a ahead
	for _, st := range positions(b, bench.State{AllOut: true}) {
		r := follow(b, st, line)
		fuses := 0
		for _, p := range b.Sheet.Parts {
			at := terminalsOf(r, p)
			if len(at) == 0 {
				continue
			}
			w := path(r, at[0])
			switch {
			case p.Is(part.Fuses):
				fuses++
				if round := roundFuse(b, st, line, p); a.bad == nil && round != nil {
					a.bad, a.what = round, "the far side of "+p.Name
				}
			case p.Is(part.Ties), p.Is(part.Mates) && p.Word("fits") == "one-way":
			case p.Is(part.Nonpolar) && strings.ContainsAny(p.Word("class"), "XY"), p.Is(part.Filters):
				a.approved = keep(a.approved, w)
			case p.Is(part.Switches):
				switch p.Word("form") {
				case "rotary", "toggle":
					a.switched = keep(a.switched, w)
				case "":
					a.switched = keep(a.switched, w)
					a.formless = p
				default:
					a.switched = keep(a.switched, w)
					a.lesser = keep(a.lesser, w)
				}
			default:
				if a.bad == nil {
					a.bad, a.what = w, p.Name
				}
			}
		}
		if r.Has("chassis") && a.bad == nil {
			a.bad, a.what = path(r, "chassis"), "the chassis"
		}
		if fuses == 0 {
			a.noFuse = true
		}
	}
	return a
}

// roundFuse is the way round a fuse: with it alone out, line still comes to its
// far side, through a second fuse beside it. Two side by side let through what
// both together bear, and neither takes line off what is behind.
func roundFuse(b *bench.Bench, st bench.State, line string, p *part.Part) []string {
	st.AllOut, st.Out = false, map[string]bool{p.Name: true}
	r := follow(b, st, line)
	at := terminalsOf(r, p)
	if len(at) < 2 {
		return nil
	}
	near := path(r, at[0])
	if far := path(r, at[1]); len(far) > len(near) {
		return far
	}
	return near
}

func keep(old, w []string) []string {
	if old != nil {
		return old
	}
	return w
}

var hotWithoutFuse = &figure.Def{Name: "hot-without-fuse", Room: "entry", Of: []string{"set"}, Present: true,
	Says: "with the fuse out, hot still reaches something other than wire, an approved part or the mains switch"}

func computeHotWithoutFuse(b *bench.Bench) figure.Figure {
	for _, line := range asked(b) {
		switch a := aheadOfFuse(b, line); {
		case a.noFuse:
			w := a.bad
			if w == nil {
				w = []string{line}
			}
			return present(hotWithoutFuse, b.Set(), w, fmt.Sprintf("%s meets no fuse", line))
		case a.bad != nil:
			return present(hotWithoutFuse, b.Set(), a.bad, fmt.Sprintf("with the fuse out, %s still reaches %s", line, a.what))
		}
	}
	return figure.Is(hotWithoutFuse, b.Set(), false)
}

var cordPastFuse = &figure.Def{Name: "cord-resistance-past-fuse", Room: "entry", Of: []string{"set"}, Present: true,
	Says: "the cord's third conductor brings hot in through its resistance, to something other than a fuse"}

// cordResists is the third conductor of a cord that drops volts.
func cordResists(e *circuit.Element) bool {
	return e.Conducts == circuit.Conducting && bench.PartOfElement(e) == nil
}

// computeCordPastFuse follows a third conductor that is a resistance from its
// end in the set, with the fuses out: the set's fuse in hot does not see it.
func computeCordPastFuse(b *bench.Bench) figure.Figure {
	if _, resists := b.ThirdConductor(); !resists {
		if thirdUntold(b) {
			return figure.NotKnown(cordPastFuse, b.Set(), whichThird)
		}
		return figure.Is(cordPastFuse, b.Set(), false)
	}
	for _, st := range positions(b, bench.State{AllOut: true}) {
		r := b.Circuit(st).Reach([]string{sheet.PlugGround}, bench.AlongLine)
		if r.Has(sheet.Chassis) {
			return pastFuse(b, path(r, sheet.Chassis))
		}
		for _, p := range b.Sheet.Parts {
			at := terminalsOf(r, p)
			harmless := p.Is(part.Fuses|part.Ties) || p.Is(part.Mates) && p.Word("fits") == "one-way"
			if len(at) > 0 && !harmless {
				return pastFuse(b, path(r, at[0]))
			}
		}
	}
	return figure.Is(cordPastFuse, b.Set(), false)
}

// whichThird is what is asked where the third conductor may be a resistance.
var whichThird = figure.Need{What: "what the third conductor of the cord is", How: "third: earth, or its resistance"}

// thirdUntold tells whether the third conductor feeds the set, and the sheet
// does not say that it is earth: then it may be a resistance, with hot behind it.
func thirdUntold(b *bench.Bench) bool { return b.Sheet.Cord().Word("third") == "" && groundFeeds(b) }

// groundFeeds tells whether the third conductor leads into the set's circuits and
// not to its metal: earth would have no business there, a resistance has.
func groundFeeds(b *bench.Bench) bool {
	for _, st := range positions(b, bench.State{AllOut: true}) {
		r := b.Circuit(st).Reach([]string{sheet.PlugGround}, bench.AlongLine)
		if !r.Has(sheet.Chassis) && slices.ContainsFunc(b.Parts(part.Tubes|part.Switches|part.Ballasts|part.Resists|part.Lights), func(p *part.Part) bool { return len(terminalsOf(r, p)) > 0 }) {
			return true
		}
	}
	return false
}

func pastFuse(b *bench.Bench, witness []string) figure.Figure {
	note := "no fuse stands in it, in the set or in the plug"
	if v, ok := b.Sheet.CordValue("plug-fuse"); ok {
		note = fmt.Sprintf("the plug's fuse of %s is all that guards it", v)
	}
	return present(cordPastFuse, b.Set(), append([]string{sheet.PlugHot}, witness...), note)
}

// firstOf makes a presence figure from one field of what stands ahead.
func firstOf(d *figure.Def, pick func(ahead) []string) func(*bench.Bench) figure.Figure {
	return func(b *bench.Bench) figure.Figure {
		for _, line := range asked(b) {
			if w := pick(aheadOfFuse(b, line)); w != nil {
				return present(d, b.Set(), w, "") // the way says it
			}
		}
		return figure.Is(d, b.Set(), false)
	}
}

var approvedAhead = &figure.Def{Name: "approved-part-ahead-of-fuse", Room: "entry", Of: []string{"set"}, Present: true,
	Says: "a class X or Y capacitor or a filter stands ahead of the fuse"}

var switchAhead = &figure.Def{Name: "switch-ahead-of-fuse", Room: "entry", Of: []string{"set"}, Present: true,
	Says: "a mains switch stands ahead of the fuse"}

var lesserSwitchAhead = &figure.Def{Name: "lesser-switch-ahead-of-fuse", Room: "entry", Of: []string{"set"}, Present: true,
	Says: "a switch that is neither rotary nor toggle stands ahead of the fuse"}

func computeLesserSwitch(b *bench.Bench) figure.Figure {
	for _, line := range asked(b) {
		a := aheadOfFuse(b, line)
		if a.lesser != nil {
			return present(lesserSwitchAhead, b.Set(), a.lesser, "")
		}
		if a.formless != nil {
			return figure.NotKnown(lesserSwitchAhead, b.Set(), figure.Need{What: "form of " + a.formless.Name, How: "toggle, slide, rotary or on-control"})
		}
	}
	return figure.Is(lesserSwitchAhead, b.Set(), false)
}

var switchBehind = &figure.Def{Name: "switch-behind-fuse", Room: "entry", Of: []string{"set"}, Present: true,
	Says: "following hot through the fuse, a finger comes to the mains switch before the load"}

func computeSwitchBehind(b *bench.Bench) figure.Figure {
	if len(b.Parts(part.Switches)) == 0 {
		return figure.NotKnown(switchBehind, b.Set(), noSwitch)
	}
	lines := asked(b)
	if b.Wired().Orientation != "both-ways" && aheadOfFuse(b, lines[0]).noFuse && len(b.Parts(part.Fuses)) > 0 {
		f := figure.Is(switchBehind, b.Set(), false)
		f.Note = "the fuse is not in hot, so no switch can follow it there"
		return f
	}
	for _, st := range opened(b, bench.State{}) {
		// Where either conductor may be hot and both hold a fuse, the one that
		// the switch is in must have it behind the fuse.
		if !slices.ContainsFunc(lines, func(line string) bool { return meetsSwitch(b, st, line) }) {
			return figure.Is(switchBehind, b.Set(), false)
		}
	}
	return figure.Is(switchBehind, b.Set(), true)
}

func meetsSwitch(b *bench.Bench, st bench.State, line string) bool {
	r := follow(b, st, line)
	for _, p := range b.Parts(part.Switches) {
		if len(terminalsOf(r, p)) > 0 {
			return true
		}
	}
	return false
}
