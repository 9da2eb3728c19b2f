package circuit

import "math"

// sum is a compensated sum, kept in two numbers, the second for what rounding took from
// the first, so that it is as good as if added with twice the digits.
type sum struct{ total, lost float64 }

func (t *sum) add(x float64) {
	s := t.total + x
	back := s - t.total
	t.lost += (t.total - (s - back)) + (x - back)
	t.total = s
}

// addProduct adds x·y with nothing lost of the product.
func (t *sum) addProduct(x, y float64) {
	p := x * y
	t.add(p)
	t.lost += math.FMA(x, y, -p)
}

func (t *sum) value() float64 { return t.total + t.lost }

// complexSum is a complex sum of the same kind.
type complexSum struct{ re, im sum }

func (t *complexSum) add(x complex128) {
	t.re.add(real(x))
	t.im.add(imag(x))
}

func (t *complexSum) addProduct(x, y complex128) {
	t.re.addProduct(real(x), real(y))
	t.re.addProduct(-imag(x), imag(y))
	t.im.addProduct(real(x), imag(y))
	t.im.addProduct(imag(x), real(y))
}

func (t *complexSum) value() complex128 { return complex(t.re.value(), t.im.value()) }

// size is a cheap measure of a complex number, between its modulus and √2
// times that.
func size(x complex128) float64 { return math.Abs(real(x)) + math.Abs(imag(x)) }

// finite tells whether both parts are numbers; NaN is none.
func finite(x complex128) bool { return size(x) <= math.MaxFloat64 }
