package faults

import (
	"fmt"
	"math"
	"math/cmplx"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/figure"
	"firstvolt/checks/handbook"
	"firstvolt/checks/mains"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
)

var (
	stayDef = &figure.Def{Name: "fault-that-stays", Room: "faults", Of: []string{"set"}, Present: true,
		Says: "without the lamp, some fault from a line conductor to the bonded chassis or to the other line conductor is opened by nothing in its time"}
	branchDef = &figure.Def{Name: "fault-left-to-branch", Room: "faults", Of: []string{"set"}, Present: true,
		Says: "some fault ahead of the set's fuse is left to the branch device"}
)

// cleared is what becomes of the faults that must be opened: those that stay,
// those of which it is not known, those that only the branch device opens.
type cleared struct {
	stays, open, branch []string
	trace               []string
}

// lasting is the longest that a short circuit between line conductors may
// last, in s (IEC 60364-4-43, recalled, not looked up).
const lasting = 5

type clearedKey struct{}

func clearedOf(b *bench.Bench) (*cleared, error) {
	type result struct {
		c   *cleared
		err error
	}
	v := b.Keep(clearedKey{}, func() any {
		c, err := chainOf(b).clears()
		return result{c, err}
	}).(result)
	return v.c, v.err
}

// clears asks every fault of the set switched on, in each orientation, at the
// clearing end and without the lamp.
func (r *chain) clears() (*cleared, error) {
	c := &cleared{}
	setups, err := r.Setups(mains.Clearing)
	if err != nil {
		return nil, err
	}
	if err := r.budget(setups, false); err != nil {
		return nil, err
	}
	for _, s := range setups {
		if s.Limiter || !s.On() {
			continue
		}
		m, err := r.model(s)
		if err != nil {
			return nil, err
		}
		for _, f := range m.faults() {
			if f.leak() || f.through || !f.short && !(f.to != "" && m.Bonded(f.to)) {
				continue
			}
			if err := c.ask(m, f); err != nil {
				return nil, err
			}
		}
	}
	return c, nil
}

func (c *cleared) ask(m *model, f fault) error {
	solved, _, err := f.with(m.Circuit, m.heated(f)...)
	if err != nil {
		return err
	}
	_, guarded := m.chain.devices.residual()
	toEarth := !f.short
	what := f.Clause()
	note := func(list *[]string, text string) {
		for _, old := range *list {
			if old == text {
				return
			}
		}
		*list = append(*list, text)
	}
	if toEarth && guarded {
		if r, _ := m.chain.devices.residual(); escaping(solved) >= r.trips {
			return nil
		}
	}
	switch {
	case toEarth && m.Floats("floating"): // the first fault closes no circuit: touch currents judge it
		return nil
	case toEarth && (m.Floats("") || m.Floats("unknown")):
		note(&c.open, fmt.Sprintf("what opens if %s, behind an isolating transformer of which nobody says whether it floats", what))
		return nil
	case toEarth && !m.EarthSaid():
		note(&c.open, fmt.Sprintf("what opens if %s, with a unit upstream of which nobody says whether it passes the ground", what))
		return nil
	case toEarth && m.Earthing == "none":
		note(&c.stays, fmt.Sprintf("if %s, nothing opens, for the supply has no protective conductor", what))
		return nil
	case toEarth && (m.Earthing == "it" || m.Earthing == "unknown"):
		note(&c.open, fmt.Sprintf("what opens if %s, with the earthing %s", what, m.Earthing))
		return nil
	case toEarth && m.Earthing == "tt":
		note(&c.stays, fmt.Sprintf("if %s, no fuse opens for certain through the electrodes of a TT supply", what))
		return nil
	}
	allowed := float64(lasting)
	if toEarth {
		allowed, _, _ = handbook.DisconnectWithin("tn", m.Bench.Sheet.Region.Nominal)
	}
	line, err := solved.Current(mains.LineWire)
	if err != nil {
		return err
	}
	branch := !math.IsInf(m.chain.devices.branch.OpensBy(cmplx.Abs(line), allowed), 1)
	inPath, known, best, soonest := "", true, opens{latest: math.Inf(1)}, math.Inf(1)
	for _, name := range m.Fuses {
		amps, err := solved.Current(name)
		if err != nil {
			return err
		}
		if !(cmplx.Abs(amps) > 0.1*cmplx.Abs(line)) {
			continue
		}
		inPath = name
		o := m.chain.fuse(name, cmplx.Abs(amps), cmplx.Abs(amps))
		known = known && o.known
		soonest = math.Min(soonest, o.earliest)
		if o.known && o.latest < best.latest {
			best = o
		}
		c.trace = append(c.trace, fmt.Sprintf("%s: %s through %s, which %s", what,
			quantity.Format(cmplx.Abs(amps), quantity.Current), name, within(o.latest)))
	}
	switch {
	case best.known && best.latest <= allowed:
	case m.chain.devices.plugFuse > 0 && cmplx.Abs(line) >= 10*m.chain.devices.plugFuse:
	case inPath == "" && branch:
		note(&c.branch, fmt.Sprintf("if %s, only the branch device opens", what))
	case inPath != "" && !known:
		note(&c.open, fmt.Sprintf("rating, speed and standard of %s, which must open if %s", inPath, what))
	case inPath != "" && branch:
		note(&c.branch, fmt.Sprintf("if %s, %s may take longer than is allowed, and the branch device opens", what, inPath))
	case inPath != "" && soonest <= allowed:
		note(&c.open, fmt.Sprintf("whether %s opens in time if %s: by its gates it %s, and %s are allowed", inPath, what,
			within(best.latest), quantity.Format(allowed, quantity.Time)))
	case inPath == "":
		note(&c.stays, fmt.Sprintf("if %s, %s flow, for which nothing need open", what, quantity.Format(cmplx.Abs(line), quantity.Current)))
	default:
		note(&c.stays, fmt.Sprintf("if %s, %s %s, and %s are allowed", what, inPath,
			within(best.latest), quantity.Format(allowed, quantity.Time)))
	}
	return nil
}

// within says by when a fuse opens, in s.
func within(latest float64) string {
	if math.IsInf(latest, 1) {
		return "need never open"
	}
	return "opens within " + seconds(latest)
}

// heated takes thermistors in line with a short to their resistance at their
// own current, which they come to in a second or so of many times that: time
// enough in a short between line conductors, none in a fault to the chassis.
func (m *model) heated(f fault) []circuit.Branch {
	if !f.short {
		return nil
	}
	var out []circuit.Branch
	for _, p := range m.Bench.Parts(part.LimitsInrush) {
		hot, ok := p.Value("hot")
		for _, e := range m.Elements {
			if ok && e.Name == p.Name && e.R.High > hot.High {
				out = append(out, circuit.Branch{In: e.Name, Z: complex(hot.High-e.R.High, 0)})
			}
		}
	}
	return out
}

func computeStays(b *bench.Bench) []figure.Figure {
	c, err := clearedOf(b)
	if err != nil {
		return []figure.Figure{figure.NotKnown(stayDef, b.Set(), unsolvable(err))}
	}
	if w := chainOf(b).UncoupledWinding(); w.Name != "" && len(c.stays) == 0 {
		return []figure.Figure{figure.NotKnown(stayDef, b.Set(), w.Need("it hangs on the line, and what its faults let through rests on them"))}
	}
	if len(c.stays) == 0 && len(c.open) > 0 {
		var needs []figure.Need
		for _, what := range c.open {
			needs = append(needs, figure.Need{What: what, How: "a residual device tested today upstream, or what is missing about the fuse"})
		}
		return []figure.Figure{figure.NotKnown(stayDef, b.Set(), needs...)}
	}
	f := figure.Is(stayDef, b.Set(), len(c.stays) > 0)
	f.Note, f.Trace = first(c.stays), c.trace
	return []figure.Figure{f}
}

func computeBranch(b *bench.Bench) []figure.Figure {
	c, err := clearedOf(b)
	if err != nil {
		return []figure.Figure{figure.NotKnown(branchDef, b.Set(), unsolvable(err))}
	}
	f := figure.Is(branchDef, b.Set(), len(c.branch) > 0)
	f.Note = first(c.branch)
	return []figure.Figure{f}
}

func first(all []string) string {
	if len(all) == 0 {
		return ""
	}
	return all[0]
}
