package faults

import (
	"math"
	"math/cmplx"
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/mains"
	"firstvolt/checks/part"
)

// Heat is what stays in one thing while nothing opens: the fire, as the current
// through a person is the shock. Zero where nothing has more than without the
// fault.
type Heat struct {
	Watts float64
	In    string // the part that has it; empty: the broken insulation itself
}

// someWatts is what is worth telling: the heat of a small resistor.
const someWatts = 1

// heat is where a fault puts most watts beyond what is there without it, at the
// end of all values at which least flows and copper is warm: of the set's parts
// and of what a fault joins by a resistance.
func (m *model) heat(f fault) Heat {
	s := m.Setup
	s.Pick = mains.Clearing
	slow, err := m.Chain.Circuit(s)
	if err != nil {
		return Heat{}
	}
	solved, at, err := f.warm(slow)
	if err != nil || solved == slow.Solved && at == slow {
		return Heat{}
	}
	was := watts(slow, slow.Solved)
	most := Heat{Watts: someWatts}
	for name, w := range watts(at, solved) {
		if more := w - was[name]; more > most.Watts || more == most.Watts && name < most.In {
			most = Heat{w, name}
		}
	}
	for k, b := range f.Branches {
		if b.In != "" || !(real(b.Z) > 0) || cmplx.IsInf(b.Z) {
			continue
		}
		if amps, err := solved.Added(k); err == nil {
			if w := real(b.Z) * real(amps*cmplx.Conj(amps)); w > most.Watts {
				most = Heat{Watts: w}
			}
		}
	}
	if !(most.Watts > someWatts) || math.IsInf(most.Watts, 1) {
		return Heat{}
	}
	return most
}

// watts is what each part of the set takes as heat.
func watts(m *mains.Circuit, s *circuit.Solved) map[string]float64 {
	out := map[string]float64{}
	for i := range m.Elements {
		e := &m.Elements[i]
		p := bench.PartOfElement(e)
		if p == nil || e.Conducts == circuit.Wire || e.Conducts == circuit.Bridging || !(e.R.Low > 0) {
			continue
		}
		if amps, err := s.Current(e.Name); err == nil {
			out[p.Name] += e.R.Low * real(amps*cmplx.Conj(amps))
		}
	}
	return out
}

// lostOneWay tells a fault inside what passes one way: what it rectified before gets
// alternating current then, which electrolytics and tubes do not take as this circuit has it.
func (m *model) lostOneWay(f fault) bool {
	p := m.Bench.Sheet.Part(f.Of)
	return f.Kind == JoinedInside || f.Kind == Shorted && p != nil && p.Is(part.Rectifies)
}

// unsolved tells whether a rectifier or what strikes brings current to the
// metal, or stands beside what the fault joins: the fault of a part behind a
// rectifier is no alternating current.
func (m *model) unsolved(f fault, t mains.Metal) bool {
	if m.lostOneWay(f) {
		return true
	}
	if m.chain.gap(t).direct || m.chain.gap(t).winding.Name != "" {
		return true
	}
	if f.Kind == BrokenDown && f.through && m.UntoldWinding().Name != "" {
		return true
	}
	return f.Kind == Shorted && slices.ContainsFunc(f.Branches, func(b circuit.Branch) bool {
		return b.In == "" && (m.rectified(b.A) || m.rectified(b.B))
	})
}

// rectified tells whether something that conducts one way, or strikes, hangs on
// the net of a terminal that is neither a line conductor nor metal.
func (m *model) rectified(terminal string) bool {
	c := m.Bench.Circuit(m.State)
	ends := func(t string) bool {
		return m.OnHot(t) || m.OnCold(t) || slices.ContainsFunc(m.Metals, func(x mains.Metal) bool { return m.Same(t, x.Terminal) })
	}
	if ends(terminal) {
		return false
	}
	here := c.Reach([]string{terminal}, func(e *circuit.Element) bool {
		return bench.Conductors(e) && e.Conducts != circuit.OneWay && !ends(e.A) && !ends(e.B)
	})
	es := c.Elements()
	return slices.ContainsFunc(es, func(e circuit.Element) bool {
		if !here.Has(e.A) && !here.Has(e.B) {
			return false
		}
		return m.chain.oneWay(&e) || m.chain.strikes(&e)
	})
}

// oneWay tells what conducts one way at the stage asked: a silicon or selenium
// rectifier at any, a tube once it is heated.
func (r *chain) oneWay(e *circuit.Element) bool {
	if e.Conducts == circuit.OneWay {
		return true
	}
	p := bench.PartOfElement(e)
	return e.Law == circuit.ColdTube && p != nil && isRectifier(p) && r.Bench.Stage != "bare" && r.Bench.Stage != "heaters"
}

func isRectifier(p *part.Part) bool { return p.Is(part.Rectifies) }
