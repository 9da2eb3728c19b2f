package readings

import (
	"fmt"
	"math"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
	"firstvolt/checks/sheet"
)

var bondExpected = figure.Def{
	Name: "bond-expected", Room: "readings", Of: []string{"chassis", "body"}, Present: true,
	Says: "Wire joins it to the ground pin, so that an ohmmeter must see it.",
}

var bondBeyondCord = figure.Def{
	Name: "bond-beyond-cord", Room: "readings", Of: []string{"chassis", "body"}, Unit: quantity.Resistance,
	Says: "resistance from the ground pin, beyond the cord's own conductor",
}

// bondSubjects are the chassis and every body that a hand can reach.
func bondSubjects(b *bench.Bench) []figure.Subject {
	out := b.Subjects("chassis")
	for _, s := range b.Subjects("body") {
		if s.Reach != "enclosed" {
			out = append(out, s)
		}
	}
	return out
}

func computeBondExpected(b *bench.Bench) []figure.Figure {
	if !b.Sheet.HasWiring() {
		return nil // not known, so it is asked
	}
	var out []figure.Figure
	r := b.Circuit(bench.ClosedState()).Reach([]string{sheet.PlugGround}, bench.GroundPath)
	for _, s := range append(b.Subjects("chassis"), b.Subjects("body")...) {
		bonded := r.Has(s.Name)
		switch s.Kind {
		case "chassis":
			bonded = bonded && b.Wired().Bonded == "yes"
		case "body":
			bonded = bonded && s.Reach != "enclosed"
		}
		f := figure.Is(&bondExpected, s, bonded)
		f.Witness = bench.Trace(r.Path(s.Name))
		out = append(out, f)
	}
	return out
}

// bondReading tells whether the reading is one of a bond: ground pin against
// the chassis or a touchable body, over wire alone.
func bondReading(b *bench.Bench, rd *sheet.Reading, target string) extent {
	if rd.Kind != "resistance" || !joins(rd, sheet.PlugGround, target) {
		return never
	}
	if !b.Sheet.HasWiring() {
		return always
	}
	return inStates(b, rd, func(st bench.State) bool {
		return b.Circuit(st).Reach(rd.A, bench.GroundPath).Has(rd.B[0])
	})
}

// computeBondBeyondCord takes the cord's own conductor off each reading. A
// cord that is not described may be anything from nothing up: nothing is
// taken off the high end, and the low end is open.
func computeBondBeyondCord(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	for _, s := range bondSubjects(b) {
		any := false
		for _, rd := range ofKind(b, "resistance") {
			of := bondReading(b, rd, s.Name)
			if of == never {
				continue
			}
			any = true
			f := bondOf(b, s, rd)
			if of == partly {
				f = figure.NotKnown(&bondBeyondCord, s, unsaid(rd))
			}
			f.At = rd.At
			out = append(out, f)
		}
		if !any {
			out = append(out, figure.NotKnown(&bondBeyondCord, s, figure.Need{
				What: fmt.Sprintf("resistance between plug.ground and %s", s.Name),
				How:  "a meter that reads milliohms, its leads nulled, from the ground pin of the plug, moving the cord along its length"}))
		}
	}
	return out
}

func bondOf(b *bench.Bench, s figure.Subject, rd *sheet.Reading) figure.Figure {
	r, ok, why := rd.True()
	if !ok {
		return figure.NotKnown(&bondBeyondCord, s, useless(rd, why))
	}
	cord, known := b.CordConductor()
	off := cord
	if !known {
		off = quantity.Range{Low: 0, High: math.Inf(1), Dim: quantity.Resistance}
	}
	contradicted := r.High < off.Low
	if contradicted { // one of the two is wrong, so nothing is taken off
		off = quantity.Range{Low: 0, High: math.Inf(1), Dim: quantity.Resistance}
	}
	beyond := quantity.Range{Low: math.Max(0, r.Low-off.High), High: r.High - off.Low, Dim: quantity.Resistance}
	f := figure.Number(&bondBeyondCord, s, beyond)
	f.Trace = []string{fmt.Sprintf("the meter saw %s", r), fmt.Sprintf("ground conductor of the cord: %s", off),
		fmt.Sprintf("beyond it: %s to %s", ohmsOf(beyond.Low), ohmsOf(beyond.High))}
	if !known {
		f.Trace[1] = "size or length of the cord is not on the sheet: nothing is taken off"
	}
	f.Note = finerMeter(rd, r)
	if contradicted {
		f.Trace[1] = "the cord's share is not taken off"
		f.Note = fmt.Sprintf("the meter saw %s in all, and by size and length the cord's conductor alone has %s: one of them is wrong, so nothing is taken off", r, cord)
	}
	f.Witness = bench.Trace(b.Circuit(bench.ClosedState()).Reach([]string{sheet.PlugGround}, bench.GroundPath).Path(s.Name))
	return f
}

// finerMeter says which meter would know a bond well enough, where the one
// used has an error that is coarse against a bond: 1 % + 2 mΩ is what a
// milliohm meter of any make does.
func finerMeter(rd *sheet.Reading, r quantity.Range) string {
	shown := rd.Last().Value.High
	half := (r.High - r.Low) / 2
	const fraction, amount = 0.01, 0.002
	fine := fraction*shown + amount
	if rd.Last().OL || math.IsInf(half, 1) || math.IsInf(shown, 1) || !(half > 5*fine) {
		return ""
	}
	return fmt.Sprintf("the meter is good to %s only here; one of 1 %% + 2 mΩ, leads nulled, would know %s to %s",
		quantity.Format(half, quantity.Resistance), quantity.Format(shown, quantity.Resistance), quantity.Format(fine, quantity.Resistance))
}
