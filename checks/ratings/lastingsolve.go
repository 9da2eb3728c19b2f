package ratings

import (
	"errors"
	"fmt"
	"math"
	"math/cmplx"
	"slices"

	"firstvolt/checks/circuit"
)

// worked is one solution of a circuit in lasting operation.
type worked struct {
	s *circuit.Solved
	l *lasting
	// ohms are the resistances that filaments settled at.
	ohms map[string]float64
}

func (w worked) volts(a, b string) float64 {
	v, err := w.s.Voltage(a, b)
	if err != nil {
		return 0 // in two parts that nothing joins
	}
	return cmplx.Abs(v)
}

func (w worked) amps(element string) float64 {
	i, err := w.s.Current(element)
	if err != nil {
		return math.NaN()
	}
	return cmplx.Abs(i)
}

// settled is how near two turns of a filament must come, and turns how many
// there may be.
const settled, turnsAtMost = 1e-5, 80

// solve works the circuit out at some volts of the supply, each unknown in the
// way chosen, the first where none is; sharing, with the copper of primary sections.
func (l *lasting) solve(c *circuit.Circuit, chosen []int, volts float64, sharing bool) (worked, error) {
	at := make(map[string]value, len(l.fixed))
	for name, v := range l.fixed {
		at[name] = v
	}
	for i, u := range l.unknowns {
		n := 0
		if i < len(chosen) {
			n = chosen[i]
		}
		for name, v := range u.ways[n] {
			at[name] = v
		}
	}
	for name, r := range l.copper {
		if v := at[name]; sharing {
			v.R = r
			at[name] = v
		}
	}
	source := at[supplyElement]
	source.EMF = complex(volts, 0)
	at[supplyElement] = source
	lift := at[liftElement]
	lift.EMF = complex(l.past*volts, 0)
	at[liftElement] = lift
	w := worked{l: l, ohms: map[string]float64{}}
	for range turnsAtMost {
		s, err := c.AC(l.hertz(), func(e *circuit.Element) circuit.Point { return at[e.Name].Point })
		if err != nil {
			return w, err
		}
		w.s = s
		moved := 0.0
		for i := range l.es {
			e := &l.es[i]
			v := at[e.Name]
			if v.filament == nil {
				continue
			}
			r := v.filament.ohms(w.volts(e.A, e.B))
			moved = math.Max(moved, math.Abs(r/v.R-1))
			w.ohms[e.Name] = r
			v.R = r
			at[e.Name] = v
		}
		if !(moved > settled) {
			break
		}
	}
	for name, v := range at {
		w.ohms[name] = v.R
	}
	return w, nil
}

// fewWays is up to how many combinations of what is not known exactly are all
// worked out; of more, each unknown is turned alone and then what each answer
// found worst is taken together.
const fewWays = 32

// mostWork is how much is worked out for one sheet, in solutions times elements:
// a set has some 60 elements and asks for some hundred solutions.
const mostWork = 3_000_000

var errTooMuch = errors.New("so many parts, switches and values not known exactly are more than is worked out: state values, or how switches stand")

// spend counts work to come against what is left for the sheet.
func (l *lasting) spend(answers int) error {
	left := l.b.Keep(kept("work left"), func() any { n := mostWork; return &n }).(*int)
	solutions, turned := 1, 0
	for _, u := range l.unknowns {
		solutions, turned = min(solutions*len(u.ways), fewWays+1), turned+len(u.ways)
	}
	if solutions > fewWays {
		solutions = 2*turned + 4*answers
	}
	if *left -= solutions * len(l.es); *left < 0 {
		return errTooMuch
	}
	return nil
}

// bounds are the answers of every solution so far, lowest and highest.
type bounds struct {
	l         *lasting
	volts     float64
	sharing   bool
	see       func(worked) []float64
	done      map[string][]float64
	low, high []float64
	err       error
}

// corners works out the circuit in enough ways of its unknowns to bound every
// answer; see gives the answers of one solution, always as many.
func (l *lasting) corners(volts float64, sharing bool, answers int, see func(worked) []float64) (low, high []float64, err error) {
	if err := l.spend(answers); err != nil {
		return nil, nil, err
	}
	b := &bounds{l: l, volts: volts, sharing: sharing, see: see, done: map[string][]float64{}}
	total := 1
	for _, u := range l.unknowns {
		total = min(total*len(u.ways), fewWays+1)
	}
	if total > fewWays {
		last := make([]int, len(l.unknowns))
		for i, u := range l.unknowns {
			last[i] = len(u.ways) - 1
		}
		b.around(make([]int, len(l.unknowns)))
		b.around(last)
		return b.low, b.high, b.err
	}
	for n := range total {
		chosen := make([]int, len(l.unknowns))
		for i, u := range l.unknowns {
			chosen[i], n = n%len(u.ways), n/len(u.ways)
		}
		b.try(chosen)
	}
	return b.low, b.high, b.err
}

// try works out one choice of the unknowns.
func (b *bounds) try(chosen []int) []float64 {
	key := fmt.Sprint(chosen)
	if got, ok := b.done[key]; ok || b.err != nil {
		return got
	}
	w, err := b.l.solve(b.l.c, chosen, b.volts, b.sharing)
	if err != nil {
		b.err = err
		return nil
	}
	got := b.see(w)
	b.done[key] = got
	if b.low == nil {
		b.low, b.high = slices.Clone(got), slices.Clone(got)
	}
	for i, x := range got {
		b.low[i], b.high[i] = math.Min(b.low[i], x), math.Max(b.high[i], x)
	}
	return got
}

// around turns each unknown alone from base, and then, for each answer, every
// unknown to where it alone made that answer highest, and lowest.
func (b *bounds) around(base []int) {
	turned := make([][][]float64, len(base))
	for i, u := range b.l.unknowns {
		for k := range u.ways {
			c := slices.Clone(base)
			c[i] = k
			turned[i] = append(turned[i], b.try(c))
		}
	}
	for q := range b.low {
		for _, sign := range []float64{1, -1} {
			c := slices.Clone(base)
			for i := range turned {
				for k := range turned[i] {
					if b.err == nil && sign*turned[i][k][q] > sign*turned[i][c[i]][q] {
						c[i] = k
					}
				}
			}
			b.try(c)
		}
	}
}
