package readings

import (
	"fmt"
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
	"firstvolt/checks/sheet"
)

var facesPrimary = figure.Def{
	Name: "faces-a-primary", Room: "readings", Of: []string{"winding"}, Present: true,
	Says: "It is a secondary of a mains transformer.",
}

var primaryInsulation = figure.Def{
	Name: "insulation-from-primary", Room: "readings", Of: []string{"winding"}, Unit: quantity.Resistance,
	Says: "insulation from the primary",
}

var offChassis = figure.Def{
	Name: "stands-off-chassis", Room: "readings", Of: []string{"winding"}, Present: true,
	Says: "It is a secondary that nothing joins to the chassis, as wired or as it was lifted to be read.",
}

var chassisInsulation = figure.Def{
	Name: "winding-insulation-from-chassis", Room: "readings", Of: []string{"winding"}, Unit: quantity.Resistance, Reading: true,
	Says: "insulation from the chassis",
}

// windings lists every winding with its subject.
func windings(b *bench.Bench) (ws []bench.PartWinding, subjects []figure.Subject) {
	ws = b.Windings()
	for _, w := range ws {
		subjects = append(subjects, b.OfWinding(w))
	}
	return ws, subjects
}

// primariesOf are the primaries of a mains transformer.
func primariesOf(b *bench.Bench, w bench.PartWinding) []bench.PartWinding {
	var out []bench.PartWinding
	if !w.Part.Is(part.MainsCore) {
		return nil
	}
	for _, v := range w.Part.Windings {
		if pw := (bench.PartWinding{Part: w.Part, Winding: v}); b.WindingRole(pw) == "primary" {
			out = append(out, pw)
		}
	}
	return out
}

// secondary tells whether w is another winding than a primary on a mains
// transformer that has one.
func secondary(b *bench.Bench, w bench.PartWinding) bool {
	return b.WindingRole(w) != "primary" && len(primariesOf(b, w)) > 0
}

func computeFacesPrimary(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	ws, subjects := windings(b)
	for i, w := range ws {
		out = append(out, figure.Is(&facesPrimary, subjects[i], secondary(b, w)))
	}
	return out
}

// side is what a probe holds for an insulation reading: x touches all of the
// one thing and y all of the other, and nothing conducts between them.
type side func(x, y func(string) bool) bool

// holds tells in how many of its states an insulation reading lies between the
// two, either way round.
func (s side) holds(b *bench.Bench, rd *sheet.Reading) extent {
	return inStates(b, rd, func(st bench.State) bool {
		c := b.Circuit(st)
		x, y := touched(c, rd.A, bench.Conductors), touched(c, rd.B, bench.Conductors)
		return separate(c, rd) && (s(x, y) || s(y, x))
	})
}

func computePrimaryInsulation(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	ws, subjects := windings(b)
	for i, w := range ws {
		if !secondary(b, w) {
			continue
		}
		primaries := primariesOf(b, w)
		between := side(func(x, y func(string) bool) bool {
			for _, p := range primaries {
				if !wholeWinding(p, x) {
					return false
				}
			}
			return wholeWinding(w, y)
		})
		need := figure.Need{What: fmt.Sprintf("insulation between %s and %s", primaries[0].Name(), w.Name()),
			How: "an insulation tester at 500 V, both ends of every primary joined on one side; lift what ties the winding to the chassis to know it alone"}
		keep := append(primaries, w)
		out = append(out, insulationFigures(b, &primaryInsulation, subjects[i], between, keep, false, need)...)
	}
	return out
}

// insulationFigures gives a figure for each insulation reading that lies
// between the two sides, and one that is missing where there is none: not taken,
// unless a test too low to prove anything was all that was made. A
// reading that holds windings other than those kept, or the chassis where
// chassis is false, is a lower bound.
func insulationFigures(b *bench.Bench, d *figure.Def, s figure.Subject, between side, keep []bench.PartWinding, chassis bool, need figure.Need) []figure.Figure {
	var out []figure.Figure
	tried := false
	for _, rd := range ofKind(b, "insulation") {
		of := between.holds(b, rd)
		switch {
		case of == never:
			continue
		case weak(rd):
			tried = true
			continue
		}
		f := insulationOf(b, d, s, rd, alone(b, rd, keep, chassis))
		if of == partly {
			f = figure.NotKnown(d, s, unsaid(rd))
		}
		f.At = rd.At
		out = append(out, f)
	}
	if len(out) == 0 {
		out = append(out, missing(tried)(d, s, need))
	}
	return out
}

// alone tells whether the probes of a reading hold no winding but those kept,
// in any of its states. Without chassis the chassis may be at neither probe;
// with it, what hangs on its probe belongs to it.
func alone(b *bench.Bench, rd *sheet.Reading, keep []bench.PartWinding, chassis bool) bool {
	ws, _ := windings(b)
	return inStates(b, rd, func(st bench.State) bool {
		c := b.Circuit(st)
		for _, probe := range [][]string{rd.A, rd.B} {
			has := touched(c, probe, bench.Conductors)
			if has(sheet.Chassis) {
				if !chassis {
					return false
				}
				continue
			}
			for _, w := range ws {
				kept := slices.ContainsFunc(keep, func(k bench.PartWinding) bool { return k.Winding == w.Winding })
				if !kept && slices.ContainsFunc(w.Winding.Order, func(t string) bool { return has(w.Part.Full(t)) }) {
					return false
				}
			}
		}
		return true
	}) == always
}

// freeOfChassis tells whether nothing joins the winding to the chassis.
func freeOfChassis(c *circuit.Circuit, w bench.PartWinding) bool {
	has := touched(c, []string{sheet.Chassis}, bench.Conductors)
	for _, t := range w.Winding.Order {
		if has(w.Part.Full(t)) {
			return false
		}
	}
	return true
}

// chassisSide is a winding on one probe and the chassis on the other.
func chassisSide(w bench.PartWinding) side {
	return func(x, y func(string) bool) bool { return wholeWinding(w, x) && y(sheet.Chassis) }
}

func computeOffChassis(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	ws, subjects := windings(b)
	for i, w := range ws {
		off := secondary(b, w) && freeOfChassis(b.Circuit(bench.ClosedState()), w)
		for _, rd := range ofKind(b, "insulation") {
			off = off || secondary(b, w) && chassisSide(w).holds(b, rd) != never
		}
		out = append(out, figure.Is(&offChassis, subjects[i], off))
	}
	return out
}

func computeChassisInsulation(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	ws, subjects := windings(b)
	for i, w := range ws {
		if !secondary(b, w) {
			continue
		}
		need := figure.Need{What: fmt.Sprintf("insulation between %s and chassis", w.Name()), How: "an insulation tester, with whatever ties the winding to the chassis lifted"}
		out = append(out, insulationFigures(b, &chassisInsulation, subjects[i], chassisSide(w), []bench.PartWinding{w}, true, need)...)
	}
	return out
}
