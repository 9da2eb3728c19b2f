package faults

import (
	"fmt"
	"math"
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/mains"
	"firstvolt/checks/quantity"
	"firstvolt/checks/sheet"
)

var (
	layerDef = &figure.Def{Name: "one-layer-to-hand", Room: "faults", Of: []string{"chassis"}, Present: true,
		Says: "one layer of insulation alone stands between the primary and a hand"}
	guardedDef = &figure.Def{Name: "one-layer-guarded", Room: "faults", Of: []string{"chassis"}, Present: true,
		Says: "a bond, a tested GFCI or RCD of 30 mA or less, or a floating isolating transformer stands behind the one layer between primary and hand"}
)

// guards is the largest rated residual current of a device that guards a
// person, in A (IEC 60364-4-41, additional protection).
const guards = 30e-3

func computeLayer(b *bench.Bench) []figure.Figure {
	f := figure.Is(layerDef, b.Subjects("chassis")[0], b.Wired().Bonded != "yes")
	if *f.Present {
		f.Note = staysOnAny(b).tell()
	}
	return []figure.Figure{f}
}

// stay is what a person who holds the chassis may get once the one layer round it
// is gone: the worst that goes on, and the worst until what opens does so.
type stay struct {
	lasts, until gone
	known        bool
}

type gone struct {
	amps float64
	opens
}

func (s stay) tell() string {
	amps := func(g gone) string { return quantity.Format(twoDigits(g.amps), quantity.Current) }
	text := "once that layer is gone, a person who holds the chassis may "
	lasts := fmt.Sprintf("go on getting %s; %s", amps(s.lasts), s.lasts.opens.tell())
	switch {
	case !s.known:
		return "once that layer is gone, what may stay on the chassis is not known"
	case s.lasts.amps == 0 && s.until.amps == 0:
		return "once that layer is gone, what opens does so in its time"
	case s.until.amps <= s.lasts.amps:
		return text + lasts
	}
	text += fmt.Sprintf("get %s; %s", amps(s.until), s.until.opens.tell())
	if s.lasts.amps == 0 {
		return text
	}
	return text + "; and may " + lasts
}

// most is the worst of both in A.
func (s stay) most() float64 { return math.Max(s.lasts.amps, s.until.amps) }

// staysOnAny is the worst of each system of earthing that the supply may have.
func staysOnAny(b *bench.Bench) stay {
	worst := stay{known: true}
	for _, r := range chainsOf(b) {
		s := r.stays()
		worst.known = worst.known && s.known
		if s.lasts.amps > worst.lasts.amps {
			worst.lasts = s.lasts
		}
		if s.until.amps > worst.until.amps {
			worst.until = s.until
		}
	}
	return worst
}

type stayKey struct{}

func (r *chain) stays() stay {
	return r.Bench.Keep(stayKey{}, func() any {
		s, err := r.layerGone()
		s.known = err == nil
		return s
	}).(stay)
}

// layerGone asks every fault of the layer in every position for what is not
// certain to end in its time.
func (r *chain) layerGone() (worst stay, err error) {
	setups, err := r.Setups(mains.Danger)
	if err != nil {
		return worst, err
	}
	if err := r.budget(setups, false); err != nil {
		return worst, err
	}
	i := slices.IndexFunc(r.Metals, func(t mains.Metal) bool { return t.Subject.Kind == "chassis" })
	for _, s := range setups {
		if s.Limiter && r.LampsInHot() {
			continue
		}
		m, err := r.model(s)
		if err != nil {
			return worst, err
		}
		for _, f := range m.faults() {
			if !f.layer() || f.to == "" || !m.Same(f.to, sheet.Chassis) {
				continue
			}
			x, err := m.find(f, sheet.Chassis, worst.lasts.amps)
			if err != nil {
				return worst, err
			}
			if x.Amps <= worst.lasts.amps {
				continue
			}
			e, is := m.settled(f, x, r.Metals[i]), &worst.until
			switch {
			case e.held == sure && !e.lethal:
				continue
			case f.leak() || !(e.latest <= math.MaxFloat64):
				e.latest, is = math.Inf(1), &worst.lasts
			}
			if x.Amps > is.amps {
				*is = gone{x.Amps, e.opens}
			}
		}
	}
	return worst, nil
}

func computeGuarded(b *bench.Bench) []figure.Figure {
	s := b.Subjects("chassis")[0]
	r := chainOf(b)
	f := figure.Is(guardedDef, s, b.Wired().Bonded == "yes")
	if *f.Present {
		return []figure.Figure{f}
	}
	if s := r.stays(); r.Floats("floating") && s.known && s.most() <= limit("one-fault") {
		f = figure.Is(guardedDef, b.Subjects("chassis")[0], true)
		f.Note = "behind the one layer stands the isolating transformer: " + s.tell()
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
			quantity.Format(h.Volts, quantity.Voltage), quantity.Format(h.Amps, quantity.Current))
	}
	if u, stands := r.uncounted(); stands {
		f.Note += "; " + u.note
	}
	return []figure.Figure{f}
}

// broken is what a person finds on the chassis with its insulation broken.
func (r *chain) broken() (mains.Hand, bool) {
	setups, _ := r.Setups(mains.Danger)
	for _, s := range setups {
		if s.Limiter || !s.On() {
			continue
		}
		m, err := r.model(s)
		if err != nil {
			continue
		}
		for _, f := range m.faults() {
			if f.layer() && !f.leak() && f.to == "chassis" && f.from == m.HotEnd {
				h, err := m.find(f, f.to, limit("one-fault"))
				return h.Hand, err == nil
			}
		}
	}
	return mains.Hand{}, false
}
