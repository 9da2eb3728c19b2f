package faults

import (
	"fmt"
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
)

var (
	layerDef = &figure.Def{Name: "one-layer-to-hand", Room: "faults", Of: []string{"chassis"}, Present: true,
		Says: "one layer of insulation alone stands between the primary and a hand"}
	guardedDef = &figure.Def{Name: "one-layer-guarded", Room: "faults", Of: []string{"chassis"}, Present: true,
		Says: "a bond, or a tested GFCI or RCD of 30 mA or less, stands behind the one layer between primary and hand"}
)

// guards is the largest rated residual current of a device that guards a
// person, in A (IEC 60364-4-41, additional protection).
const guards = 30e-3

func computeLayer(b *bench.Bench) []figure.Figure {
	return []figure.Figure{figure.Is(layerDef, b.Subjects("chassis")[0], b.Wired().Bonded != "yes")}
}

func computeGuarded(b *bench.Bench) []figure.Figure {
	s := b.Subjects("chassis")[0]
	r := roomOf(b)
	f := figure.Is(guardedDef, s, b.Wired().Bonded == "yes")
	if *f.Present {
		return []figure.Figure{f}
	}
	d, ok := r.devices.residual()
	if ok && d.kind == "rcd" && d.low <= guards && !(d.rating <= guards*(1+1e-9)) {
		return []figure.Figure{figure.NotKnown(guardedDef, s, figure.Need{What: fmt.Sprintf("upstream %d rating", d.number), How: "read it off the device"})}
	}
	if ok && d.trips <= guards*(1+1e-9) {
		f = figure.Is(guardedDef, s, true)
		f.Note = d.device().String() + " is all that opens if the insulation of the primary breaks down"
		return []figure.Figure{f}
	}
	if u, stands := r.uncounted(); stands && slices.Contains(u.needs, bench.EarthingNeed) {
		f = figure.NotKnown(guardedDef, s, u.needs...)
		f.Note = u.note
		return []figure.Figure{f}
	}
	if !b.Sheet.UpstreamKnown {
		return []figure.Figure{figure.NotKnown(guardedDef, s, figure.Need{What: "supply upstream", How: "every unit between receptacle and set, supply end first"})}
	}
	f.Note = "If the insulation of the primary breaks down, the whole supply stands on the chassis and nothing opens"
	if h, ok := r.broken(); ok {
		f.Note = fmt.Sprintf("If the insulation of the primary breaks down, the chassis carries %s; a person holding it gets %s; nothing opens",
			quantity.Format(h.volts, quantity.Voltage), quantity.Format(h.amps, quantity.Current))
	}
	if u, stands := r.uncounted(); stands {
		f.Note += "; " + u.note
	}
	return []figure.Figure{f}
}

// broken is what a person finds on the chassis with its insulation broken.
func (r *room) broken() (hand, bool) {
	setups, _ := r.setups(danger)
	for _, s := range setups {
		if s.limiter || !s.on() {
			continue
		}
		m, err := r.model(s)
		if err != nil {
			continue
		}
		for _, f := range m.faults() {
			if f.layer() && !f.leak() && f.to == "chassis" && f.from == m.hotEnd {
				h, err := m.find(f, f.to, limit("one-fault"))
				return h.hand, err == nil
			}
		}
	}
	return hand{}, false
}
