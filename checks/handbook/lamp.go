package handbook

import (
	"math"

	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
)

// LampLaw is how a tungsten lamp's current goes with its voltage:
// I = I₀·(V/V₀)^Exponent, with the band of published exponents, down to the
// share DownTo of its voltage. Below, the filament is colder than the law has
// it, and never colder than cold: 1/Cold of R₀ = V₀/I₀.
type LampLaw struct {
	Exponent, Least, Most float64
	DownTo                float64
	Cold                  float64      // hot resistance over cold
	Law, Spread           figure.Basis // of the exponent, and of its band
	ColdBasis             figure.Basis
	neon                  quantity.Range // A
	neonBasis             figure.Basis
}

// Lamp is the law of tungsten lamps.
var Lamp = sync1(func() LampLaw {
	number := of(quantity.Number)
	t := open("lamp.yaml",
		must("law", rowsOf(must("exponent", number), must("down-to", number))),
		must("spread", rowsOf(must("least", number), must("most", number))),
		must("cold", rowsOf(must("ratio", number))),
		must("neon", rowsOf(must("current", of(quantity.Current)))))
	l, s, c, n := t.rows("law")[0], t.rows("spread")[0], t.rows("cold")[0], t.rows("neon")[0]
	neon, _ := span(n, "current")
	return LampLaw{high(l, "exponent", 0), high(s, "least", 0), high(s, "most", 0), high(l, "down-to", 0), high(c, "ratio", 0), t.basis(l), t.basis(s), t.basis(c), neon, t.basis(n)}
})

// Current is the current in A of a lamp of rated watts and volts that stands
// at v volts and is warm: the bounds of the band of exponents.
func (l LampLaw) Current(watts, volts, v float64) quantity.Range {
	one, other := l.current(watts, volts, v, l.Least), l.current(watts, volts, v, l.Most)
	if v < l.DownTo*volts {
		// No more than a cold filament takes, nor than at the end of the law.
		other = math.Min(v/l.ColdResistance(watts, volts), l.current(watts, volts, l.DownTo*volts, l.Least))
		one = l.current(watts, volts, v, l.Most)
	}
	return quantity.Between(one, other, quantity.Current)
}

// Nominal is the same by the middle exponent alone.
func (l LampLaw) Nominal(watts, volts, v float64) float64 {
	return l.current(watts, volts, v, l.Exponent)
}

func (l LampLaw) current(watts, volts, v, exponent float64) float64 {
	rated := watts / volts
	return math.Min(rated*math.Pow(v/volts, exponent), v/l.ColdResistance(watts, volts))
}

// ColdResistance is the resistance in Ω of the lamp at room temperature.
func (l LampLaw) ColdResistance(watts, volts float64) float64 { return volts * volts / watts / l.Cold }

// NeonCurrent is the most that a miniature neon indicator carries, in A.
func NeonCurrent() (quantity.Range, figure.Basis) { l := Lamp(); return l.neon, l.neonBasis }
