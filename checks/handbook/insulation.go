package handbook

import (
	"math"

	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
)

// insulationHalves is by how many K insulation of varnish, asphalt, shellac or
// waxed paper must warm for its resistance to fall to a half.
const insulationHalves = 10

// InsulationAt is what an insulation resistance r (Ω), read at from (°C), would
// be at to (°C): half for each 10 K warmer, R·0.5^((to−from)/10), as IEEE 43
// corrects thermoplastic insulation to 40 °C. It is for comparing one reading
// with another. The floors of mains insulation stand on what was read: nothing
// is corrected upward to pass them. A published table of multipliers that goes
// on in a straight line above 40 °C disagrees with the rule and is not used.
func InsulationAt(r, from quantity.Range, to float64) (quantity.Range, figure.Basis) {
	factor := func(t float64) float64 { return math.Pow(0.5, (to-t)/insulationHalves) }
	return quantity.Range{Low: r.Low * factor(from.Low), High: r.High * factor(from.High), Dim: quantity.Resistance},
		figure.Basis{Status: figure.Published, Source: "IEEE 43, thermoplastic insulation: half the resistance for each 10 K warmer, as quoted"}
}
