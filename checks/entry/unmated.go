package entry

import (
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
)

var unmatedLive = &figure.Def{Name: "unmated-connector-live", Room: "entry", Of: part.Named(part.Mates), Present: true,
	Says: "pulled apart, the connector leaves a live pin to touch or takes a bond away"}

// computeUnmated pulls each connector apart in turn. The mate half's pins
// must be dead, and what keeps a line conductor must keep its bond: the chassis
// while a load is on the line, the metal of an outlet, filter or motor while that
// part is, and a body while line reaches it, by a capacitor too, or is still
// carried out to it, which no sheet says but where another connector's far half
// stays live.
func computeUnmated(b *bench.Bench) (out []figure.Figure) {
	lines := b.Lines()
	for _, p := range b.Parts(part.Mates) {
		f := figure.Is(unmatedLive, b.Of(p), false)
		apart := bench.State{AllClosed: true, Unmated: map[string]bool{p.Name: true}}
		states, all := b.Combinations(apart, true)
		for _, st := range states {
			c := b.Circuit(st)
			r := c.Reach(lines[:], bench.Conductors)
			for _, pin := range p.Pins() {
				if t := p.Full(pin + "-mate"); f.Witness == nil && r.Has(t) {
					f = present(unmatedLive, b.Of(p), path(r, t), "pin "+pin+" of the open half stays live")
				}
			}
			ground := c.Reach([]string{sheet.PlugGround}, bench.GroundPath)
			mated := groundReach(b)
			near := c.Reach(lines[:], func(e *circuit.Element) bool {
				return (bench.Conductors(e) || e.Conducts == circuit.Bridging) && !ground.Has(e.A) && !ground.Has(e.B)
			})
			lost := func(t string, live bool) {
				if f.Witness == nil && live && mated.Has(t) && !ground.Has(t) {
					f = present(unmatedLive, b.Of(p), path(mated, t), t+" loses its bond while the set stays on the line")
				}
			}
			lost(sheet.Chassis, len(loadsAt(r)) > 0 || r.Has(sheet.Chassis))
			for _, q := range bodies(b) {
				lost(q.Name, r.Has(q.Name) || near.Has(q.Name) || carriedOut(b, r, p))
			}
			for _, m := range partMetal(b) {
				lost(m.at, len(terminalsOf(r, m.of)) > 0)
			}
		}
		out = append(out, tried(all, f))
	}
	return out
}

// carriedOut tells whether line, as r reaches it, is on a wire at the far half of
// another connector than p: what stands there is beside metal that p bonded.
func carriedOut(b *bench.Bench, r net, p *part.Part) bool {
	return slices.ContainsFunc(b.Parts(part.Mates), func(q *part.Part) bool {
		return q != p && slices.ContainsFunc(q.Pins(), func(pin string) bool {
			t := q.Full(pin + "-mate")
			return r.Has(t) && b.Sheet.OnWire(t)
		})
	})
}

func bodyNames(b *bench.Bench) (out []string) {
	for _, p := range bodies(b) {
		out = append(out, p.Name)
	}
	return out
}
