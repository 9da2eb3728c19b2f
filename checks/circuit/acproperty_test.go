package circuit

import (
	"errors"
	"math"
	"math/cmplx"
	"math/rand/v2"
	"strconv"
	"testing"

	"pgregory.net/rapid"
)

// bench is the mixture of the properties: what a bench meets, coupled.
var bench = mixture{low: -2, high: 7, freq: 60, reactive: true, windings: 3}

// drawnAC is a random circuit and its solution.
func drawnAC(t *rapid.T) ([]Element, *Solved) {
	nodes := rapid.IntRange(2, 9).Draw(t, "nodes")
	for seed := rapid.Uint64().Draw(t, "seed"); ; seed++ { // until it does not resonate
		list := acNetwork(rand.New(rand.NewPCG(seed, 0)), nodes, bench)
		s, err := New(list).AC(bench.freq, AtLow)
		if err == nil {
			return list, s
		}
		if !errors.Is(err, ErrSingular) {
			t.Fatal(err)
		}
	}
}

// currents is the current of each element; one that divides over shorts has
// none.
func currents(t *rapid.T, s *Solved, list []Element) map[string]complex128 {
	all := map[string]complex128{}
	for _, e := range list {
		i, err := s.Current(e.Name)
		if err != nil && !errors.Is(err, ErrDivided) {
			t.Fatal(err)
		}
		if err == nil {
			all[e.Name] = i
		}
	}
	return all
}

func biggest(all map[string]complex128) float64 {
	most := 0.0
	for _, x := range all {
		most = max(most, cmplx.Abs(x))
	}
	return most
}

func drawnElement(t *rapid.T, list []Element, label string) *Element {
	return &list[rapid.IntRange(0, len(list)-1).Draw(t, label)]
}

func TestACProperties(t *testing.T) {
	t.Run("a source here drives there what one there drives here", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			list, _ := drawnAC(t)
			for i := range list {
				list[i].EMF = 0
			}
			a, b := drawnElement(t, list, "a"), drawnElement(t, list, "b")
			if a.Core != "" || b.Core != "" || a.Conducts == Bridging || b.Conducts == Bridging || a.C.Low > 0 || b.C.Low > 0 {
				return // there a source is none in the line of all that the element is
			}
			for _, e := range []*Element{a, b} {
				if e.R.Low == 0 { // else merged while it has no source, its current a sum of larger ones
					e.R = Exactly(1)
				}
			}
			drive := func(from, at *Element) (complex128, error) {
				from.EMF = 100
				defer func() { from.EMF = 0 }()
				s, err := New(list).AC(bench.freq, AtLow)
				if err != nil {
					return 0, err
				}
				return s.Current(at.Name)
			}
			there, err1 := drive(a, b)
			here, err2 := drive(b, a)
			if err1 == nil && err2 == nil && !(cmplx.Abs(there-here) <= 1e-11*cmplx.Abs(there)+1e-18) {
				t.Fatalf("%v there, %v here", there, here)
			}
		})
	})
	t.Run("each source alone adds up to all", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			list, s := drawnAC(t)
			sum, all := map[string]complex128{}, currents(t, s, list)
			for k, source := range list {
				if source.EMF == 0 {
					continue
				}
				alone, err := New(list).AC(bench.freq, func(e *Element) Point {
					p := AtLow(e)
					if e.Name != source.Name {
						p.EMF = 0
					}
					return p
				})
				if err != nil {
					t.Fatal(k, err)
				}
				for name, x := range currents(t, alone, list) {
					sum[name] += x
				}
			}
			for name, want := range all {
				if !(cmplx.Abs(sum[name]-want) <= 1e-10*biggest(all)) {
					t.Fatalf("%s: %v, added up %v", name, want, sum[name])
				}
			}
		})
	})
	t.Run("twice the volts, twice the current", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			list, s := drawnAC(t)
			k := cmplx.Rect(rapid.Float64Range(0.1, 10).Draw(t, "k"), rapid.Float64Range(0, 6).Draw(t, "angle"))
			scaled, err := New(list).AC(bench.freq, func(e *Element) Point {
				p := AtLow(e)
				p.EMF *= k
				return p
			})
			if err != nil {
				t.Fatal(err)
			}
			before := currents(t, s, list)
			for name, x := range currents(t, scaled, list) {
				if !(cmplx.Abs(x-k*before[name]) <= 1e-11*cmplx.Abs(x)+1e-15*biggest(before)*cmplx.Abs(k)) {
					t.Fatalf("%s: %v became %v at %v", name, before[name], x, k)
				}
			}
		})
	})
	t.Run("sources give what resistances and core take", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			list, s := drawnAC(t)
			given, taken, w := 0.0, 0.0, 2*math.Pi*bench.freq
			for _, e := range list {
				i, err := s.Current(e.Name)
				v, err2 := s.Voltage(e.A, e.B)
				if err != nil || err2 != nil {
					continue // a short takes nothing
				}
				if e.Conducts == Bridging {
					continue // so does a capacitor
				}
				i -= complex(0, w*e.C.Low) * v // what goes through R, L and EMF
				given -= real(e.EMF * cmplx.Conj(i))
				taken += e.R.Low * real(i*cmplx.Conj(i))
				if u := v - complex(e.R.Low, w*e.L.Low)*i; e.Rm.Low > 0 {
					taken += real(u*cmplx.Conj(u)) / e.Rm.Low
				}
			}
			if !(math.Abs(given-taken) <= 1e-10*taken) {
				t.Fatalf("%g W given, %g W taken", given, taken)
			}
		})
	})
	t.Run("nothing gathers anywhere", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			list, s := drawnAC(t)
			sum, most := map[string]complex128{}, 0.0
			for _, e := range list {
				i, err := s.Current(e.Name)
				if err != nil {
					return
				}
				sum[e.A] += i
				sum[e.B] -= i
				most = max(most, cmplx.Abs(i))
			}
			for node, x := range sum {
				if !(cmplx.Abs(x) <= 1e-13*most) {
					t.Fatalf("%v A stay at %s", x, node)
				}
			}
		})
	})
	t.Run("what alone joins two parts carries exactly nothing", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			list, _ := drawnAC(t)
			list = append(list, source("other service", "p", "q", 120, 1), ohm("other load", "p", "q", 3), ohm("only", "q", "n0", 0.1))
			list = append(list, list[0])
			list[len(list)-1].Name, list[len(list)-1].A, list[len(list)-1].B = "stub", "p", "end"
			s, err := New(list).AC(bench.freq, AtLow)
			if err != nil {
				t.Fatal(err)
			}
			for _, e := range list {
				rest, err := New(list).Without(e.Name).AC(bench.freq, AtLow)
				if err != nil || len(rest.Islands()) == len(s.Islands()) {
					continue
				}
				if i, err := s.Current(e.Name); err != nil || i != 0 {
					t.Fatalf("%s: %v, %v", e.Name, i, err)
				}
			}
		})
	})
	t.Run("a change is the changed circuit", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			list, s := drawnAC(t)
			r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "changes"), 1))
			branches := anyBranches(r, list, bench)
			got, err := s.With(branches...)
			rebuilt := append([]Element(nil), list...)
			for i, b := range branches {
				e := Element{Name: "branch" + strconv.Itoa(i), A: b.A, B: b.B, Conducts: Conducting, EMF: b.E, R: Exactly(real(b.Z))}
				if x := imag(b.Z); x < 0 && !cmplx.IsInf(b.Z) { // a capacitor in series by a place of its own
					rebuilt = append(rebuilt, farad(e.Name+"c", e.Name, b.B, -1/(2*math.Pi*bench.freq*x)))
					e.B = e.Name
				}
				if b.In != "" {
					for k := range rebuilt {
						if rebuilt[k].Name == b.In {
							e.A, rebuilt[k].A = rebuilt[k].A, "in"+strconv.Itoa(i)
							if e.B == e.Name {
								rebuilt[len(rebuilt)-1].B = rebuilt[k].A
							} else {
								e.B = rebuilt[k].A
							}
						}
					}
				}
				rebuilt = append(rebuilt, e)
			}
			want, err2 := New(rebuilt).AC(bench.freq, AtLow)
			if err != nil || err2 != nil {
				if err == nil && !errors.Is(err2, ErrSingular) || err2 == nil && !errors.Is(err, ErrSingular) {
					t.Fatalf("%v by change, %v rebuilt", err, err2)
				}
				return
			}
			before, after := currents(t, s, list), currents(t, want, list)
			most := max(biggest(before), biggest(after))
			now := currents(t, got, list)
			for _, e := range list {
				x, known := now[e.Name]
				y, known2 := after[e.Name]
				if known && known2 && !(cmplx.Abs(x-y) <= 1e-8*cmplx.Abs(y)+1e-11*most+1e-13*230*admittance(e)) {
					t.Fatalf("%s: %v by change, %v rebuilt, with %+v of\n%+v", e.Name, x, y, branches, list)
				}
			}
		})
	})
}
