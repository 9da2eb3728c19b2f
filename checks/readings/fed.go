package readings

import (
	"cmp"
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
)

// fed is everything that a line conductor feeds with all switches closed and all
// fuses in, in any position of a selector whose setting is not told: each
// terminal that must have been on the tested side of an insulation test against
// target. Where a protective impedance leads to it, what lies behind is the
// target's side, and the impedance itself comes out for the test.
func fed(b *bench.Bench, target string) map[string]bool {
	out := map[string]bool{}
	if !b.Sheet.HasWiring() {
		return map[string]bool{sheet.PlugHot: true, sheet.PlugNeutral: true}
	}
	states, _ := b.Combinations(bench.ClosedState(), false)
	for _, st := range states {
		c := b.Circuit(st)
		line := []string{sheet.PlugHot, sheet.PlugNeutral}
		r := c.Reach(line, bench.Conductors)
		impeding := map[string]bool{}
		if r.Has(target) {
			r = c.Reach(line, func(e *circuit.Element) bool { return bench.Conductors(e) && !bench.ProtectiveResistor(e) })
			for i := range c.Elements() {
				if e := &c.Elements()[i]; bench.ProtectiveResistor(e) {
					impeding[e.A], impeding[e.B] = true, true
				}
			}
		}
		own := touched(c, []string{target}, bench.Copper)
		for _, t := range r.Terminals() {
			p := b.PartOf(t)
			if !own(t) && !impeding[t] && (t == sheet.PlugHot || t == sheet.PlugNeutral || p != nil && !p.Is(part.Ties)) {
				out[t] = true
			}
		}
	}
	return out
}

// testedSide is an insulation reading with what it held against one metal.
type testedSide struct {
	rd    *sheet.Reading
	holds map[string]bool // for certain, in every state that it leaves open
	sure  bool            // it proves something, at volts that are enough
}

// mainsSides lists the insulation readings that held something of the mains side
// against target, those that held most first.
func mainsSides(b *bench.Bench, target string) []testedSide {
	all := fed(b, target)
	var out []testedSide
	for _, rd := range ofKind(b, "insulation") {
		if weak(rd) {
			continue
		}
		if side, ok := sideOf(b, rd, target, all); ok {
			out = append(out, side)
		}
	}
	slices.SortStableFunc(out, func(x, y testedSide) int { return cmp.Compare(len(y.holds), len(x.holds)) })
	return out
}

// sideOf tells what a reading held against target; ok is false where it is of
// something else in every state that it leaves open.
func sideOf(b *bench.Bench, rd *sheet.Reading, target string, all map[string]bool) (testedSide, bool) {
	r, proves, _ := rd.True()
	side := testedSide{rd: rd, holds: map[string]bool{}, sure: proves && r.Low > 0 && rd.HasTest && rd.Test.Low >= testVolts}
	if p := classYAlone(b, rd); p != nil && slices.ContainsFunc(p.Terminals(), func(t string) bool {
		return touched(b.Circuit(bench.ClosedState()), []string{target}, bench.Copper)(p.Full(t))
	}) {
		for _, t := range p.Terminals() {
			side.holds[p.Full(t)] = true
		}
		return side, true
	}
	states, told := b.StatesOf(rd)
	count := map[string]int{}
	any := false
	for _, st := range states {
		c := b.Circuit(st)
		if !separate(c, rd) {
			continue
		}
		for _, way := range [][2][]string{{rd.A, rd.B}, {rd.B, rd.A}} {
			has := touched(c, way[0], bench.Conductors)
			if !touched(c, way[1], bench.Copper)(target) {
				continue
			}
			for t := range all {
				if has(t) {
					count[t]++
					any = true
				}
			}
		}
	}
	for t, n := range count {
		if told && n == len(states) {
			side.holds[t] = true
		}
	}
	return side, any
}

// classYAlone is the class Y capacitor that a reading is across, or nil.
func classYAlone(b *bench.Bench, rd *sheet.Reading) *part.Part {
	if len(rd.A) != 1 || len(rd.B) != 1 {
		return nil
	}
	p, q := b.PartOf(rd.A[0]), b.PartOf(rd.B[0])
	if p == nil || p != q || !p.Is(part.Nonpolar) || len(p.Word("class")) == 0 || p.Word("class")[0] != 'Y' {
		return nil
	}
	return p
}

// takeFrom takes what the reading held out of what was missed so far; it tells
// whether there was anything.
func (s testedSide) takeFrom(missed map[string]bool) bool {
	took := false
	for t := range s.holds {
		if s.sure && missed[t] {
			delete(missed, t)
			took = true
		}
	}
	return took
}
