package circuit

import (
	"errors"
	"math"
	"math/cmplx"
	"math/rand/v2"
	"testing"
)

// symmetric is a random symmetric matrix, about half of it zeros, with a
// diagonal that does not spare the choice of pivots: half of it is zero too.
func symmetric(r *rand.Rand, n int) (dense [][]complex128) {
	dense = make([][]complex128, n)
	for i := range dense {
		dense[i] = make([]complex128, n)
	}
	for i := range n {
		for j := range i + 1 {
			if r.IntN(2) == 0 || (i+1)%n == j || (j+1)%n == i { // a ring keeps it regular
				v := complex(r.NormFloat64(), r.NormFloat64()) * complex(math.Pow(10, 4*r.Float64()-2), 0)
				dense[i][j], dense[j][i] = v, v
			}
		}
	}
	return dense
}

func sparseOf(dense [][]complex128) *sparse {
	m := newSparse(len(dense))
	for i, row := range dense {
		for j, v := range row {
			if v != 0 {
				m.put(int32(i), int32(j), v)
			}
		}
	}
	return m
}

// Against elimination in exact fractions, and the estimate of the inverse
// against the inverse itself.
func TestFactors(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 22))
	for range 40 {
		n := 1 + r.IntN(9)
		dense := symmetric(r, n)
		right := make([]complex128, n)
		rows := make([][]fraction, n)
		for i := range rows {
			right[i] = complex(r.NormFloat64(), r.NormFloat64())
			for _, v := range dense[i] {
				rows[i] = append(rows[i], exactly(v))
			}
			rows[i] = append(rows[i], exactly(right[i]))
		}
		want, regular := eliminateExactly(rows)
		f, err := sparseOf(dense).factor()
		if (err == nil) != regular {
			t.Fatalf("%v of a matrix that is regular: %t\n%v", err, regular, dense)
		}
		if !regular {
			continue
		}
		inverse := 0.0
		for k := range n {
			unit := make([]complex128, n)
			unit[k] = 1
			sum := 0.0
			for _, v := range f.solve(unit) {
				sum += cmplx.Abs(v)
			}
			inverse = max(inverse, sum)
		}
		if e := f.inverseNorm(); !(e <= inverse*(1+1e-12) && e >= inverse/3) {
			t.Errorf("inverse of norm %g taken for %g", inverse, e)
		}
		condition := sparseOf(dense).norm() * inverse
		most := 0.0
		got := f.solve(right)
		for i := range want {
			most = max(most, cmplx.Abs(want[i].rounded()))
		}
		for i := range want {
			if !(cmplx.Abs(got[i]-want[i].rounded()) <= 1e-15*condition*most) {
				t.Errorf("%v, exactly %v, condition %.0e", got[i], want[i].rounded(), condition)
			}
		}
	}
	for name, dense := range map[string][][]complex128{
		"nothing":         {{0, 0}, {0, 0}},
		"two rows alike":  {{1, 2i}, {2i, -4}},
		"an empty column": {{1, 0}, {0, 0}},
		"not a number":    {{cmplx.NaN(), 1}, {1, 0}},
	} {
		f, err := sparseOf(dense).factor()
		if err == nil && f.inverseNorm() <= math.MaxFloat64 {
			t.Errorf("%s was solved", name)
		}
	}
}

// A sum whose digits all but cancel is as exact as its terms.
func TestCompensatedSum(t *testing.T) {
	r := rand.New(rand.NewPCG(23, 24))
	for range 100 {
		var got complexSum
		want := exactly(0)
		for range 20 {
			x, y := complex(r.NormFloat64(), r.NormFloat64()), complex(r.NormFloat64(), r.NormFloat64())
			got.addProduct(x, y)
			got.add(-x * y) // leaves what the product was rounded by
			want = want.plus(exactly(x).times(exactly(y))).minus(exactly(x * y))
		}
		if w := want.rounded(); !closeTo(got.value(), w, 1e-12) {
			t.Fatalf("%v, exactly %v", got.value(), w)
		}
	}
}

// Circuits made to be bad: near resonance the currents are the source over
// the little that is left of two impedances. Refined, they keep their digits
// as long as the values themselves do; past that there is no answer.
func TestIllConditioned(t *testing.T) {
	const freq = 1 / (2 * math.Pi)
	const omega = 2 * math.Pi * freq
	resonant := func(left float64) []Element {
		return []Element{source("V", "h", "n", 1, 0), coil("L", "h", "x", 0, 1e3), farad("C", "x", "n", 1/(1e3*(1-left))), ohm("R", "x", "n", 1e9)}
	}
	for _, left := range []float64{1e-3, 1e-6, 1e-8} {
		list := resonant(left)
		s, err := New(list).AC(freq, AtLow)
		if err != nil {
			t.Fatalf("%g: %v", left, err)
		}
		// What a value loses by rounding, 1e-16 of it, is 1e-16/left of what is
		// left; not more.
		agreesAC(t, s, list, omega, 1e-15/left, 1e-18)
	}
	if s, err := New(resonant(1e-16)[:3]).AC(freq, AtLow); !errors.Is(err, ErrSingular) {
		t.Errorf("resonance: %v, %v", s, err)
	}
	// A bond of 1 µΩ with nothing but 1 TΩ to hold it, and its leak.
	list := []Element{source("V", "h", "n", 230, 0.1), ohm("leak", "h", "chassis", 1e12), ohm("bond", "chassis", "box", 1e-6), ohm("other", "box", "n", 1e12)}
	agreesAC(t, solved(t, 50, list...), list, 2*math.Pi*50, 1e-14, 0)
	// A hand of 2 kΩ on the box. Another bond beside the first lies between two
	// points of the same volts but for their last digit: by an update its
	// current is as good as that digit allows, afresh it is exact.
	s := solved(t, 50, list...)
	with := changed(t, s, Branch{A: "box", B: "n", Z: 2000}, Branch{A: "chassis", B: "box", Z: 1e-6})
	if i, err := with.Added(0); err != nil || !closeTo(i, 230/1e12, 1e-8) {
		t.Errorf("hand: %v, %v", i, err)
	}
	if i, err := with.Added(1); err != nil || !(cmplx.Abs(i) <= 1e-14*230/1e-6) {
		t.Errorf("second bond: %v, %v", i, err)
	}
	fresh, err := s.origin.fresh(with.added)
	if err != nil {
		t.Fatal(err)
	}
	if i, err := fresh.Added(1); err != nil || !closeTo(i, 115/1e12, 1e-8) {
		t.Errorf("second bond, afresh: %v, %v", i, err)
	}
}
