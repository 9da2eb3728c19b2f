package circuit

import "math"

// twice is a sum kept in two numbers, the second for what rounding took from
// the first, so that it is as good as if added with twice the digits.
type twice struct{ sum, lost float64 }

func (t *twice) add(x float64) {
	s := t.sum + x
	back := s - t.sum
	t.lost += (t.sum - (s - back)) + (x - back)
	t.sum = s
}

// addProduct adds x·y with nothing lost of the product.
func (t *twice) addProduct(x, y float64) {
	p := x * y
	t.add(p)
	t.lost += math.FMA(x, y, -p)
}

func (t *twice) value() float64 { return t.sum + t.lost }

// complexTwice is a complex sum of the same kind.
type complexTwice struct{ re, im twice }

func (t *complexTwice) add(x complex128) {
	t.re.add(real(x))
	t.im.add(imag(x))
}

func (t *complexTwice) addProduct(x, y complex128) {
	t.re.addProduct(real(x), real(y))
	t.re.addProduct(-imag(x), imag(y))
	t.im.addProduct(real(x), imag(y))
	t.im.addProduct(imag(x), real(y))
}

func (t *complexTwice) value() complex128 { return complex(t.re.value(), t.im.value()) }

// size is a cheap measure of a complex number, between its modulus and √2
// times that.
func size(x complex128) float64 { return math.Abs(real(x)) + math.Abs(imag(x)) }

// finite tells whether both parts are numbers; NaN is none.
func finite(x complex128) bool { return size(x) <= math.MaxFloat64 }
