package mains

import (
	"math"
	"math/cmplx"

	"firstvolt/checks/handbook"
)

// Network is the unweighted measuring network at one frequency, in Ω.
type Network struct{ Z complex128 }

// most is the current up to which the network stands for a person, in A.
const most = 10e-3

func newNetwork(hertz float64) Network {
	n, ok := handbook.BodyNetwork("unweighted")
	if !ok {
		return Network{cmplx.NaN()}
	}
	skin := 1 / complex(1/n.Skin, 2*math.Pi*hertz*n.Across)
	return Network{skin + complex(n.Body, 0)}
}

// Current is what a person draws in A from a port of volts and impedance z:
// through the network, and above 10 mA through the impedance that 5 % of
// people do not exceed at the voltage that is left across them.
func (n Network) Current(volts, z complex128) float64 {
	amps := cmplx.Abs(volts / (z + n.Z))
	if !(amps > most) {
		return amps
	}
	return math.Max(amps, cmplx.Abs(volts/(z+complex(n.Lowest(volts, z), 0))))
}

// Lowest is that impedance in Ω. It falls as the voltage rises, and the
// voltage left rises with it: from the lowest it steps up and down round what
// fits.
func (n Network) Lowest(volts, z complex128) float64 {
	body := func(z0 float64) float64 {
		left := cmplx.Abs(volts)
		if !math.IsInf(z0, 1) {
			left = cmplx.Abs(volts * complex(z0, 0) / (z + complex(z0, 0)))
		}
		r, _, ok := handbook.BodyImpedance(left, 5)
		if !ok {
			return math.NaN()
		}
		return r
	}
	low := body(math.Inf(1))
	for range 3 {
		low = math.Max(low, body(body(low)))
	}
	return low
}
