package readings

import (
	"math"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/handbook"
	"firstvolt/checks/part"
)

// seenThrough is how many times the top of what is usual a winding may have for
// a meter to have seen through it (rule of the readings).
const seenThrough = 10

// limitOfContinuity is the resistance at which a winding counts as open. Where
// size or volts are not known it lies between the two: below the first the
// winding is through whatever they are, from the second on it is open.
func limitOfContinuity(b *bench.Bench, w bench.PartWinding, s figure.Subject) (through, open float64) {
	if !w.Part.Is(part.MainsCore) {
		return megohm, megohm
	}
	const heater, most = 6.3, 200 // V: of the table, and what no heater winding is above
	volts, known := w.Winding.Volts()
	times := [2]float64{1, 1}
	roles := []string{s.Role}
	switch {
	case plateLike(w, s):
		roles, times = []string{"half"}, [2]float64{2, 2}
	case s.Role == "primary" && !(known && volts.High >= 100):
		roles = []string{"primary-117", "primary-230"}
	case s.Role == "primary" && volts.High > 130:
		roles = []string{"primary-230"}
	case s.Role == "primary":
		roles = []string{"primary-117"}
	case s.Role == "heater" || s.Role == "rectifier":
		square := func(v float64) float64 { return math.Max(1, v*v/heater/heater) }
		if times = [2]float64{1, square(most)}; known {
			times = [2]float64{square(volts.Low), square(volts.High)}
		}
	default:
		return megohm, megohm
	}
	sizes := []float64{40, 65, 105} // W, one of each row of the table
	size, sized := w.Part.Value("power")
	if !sized {
		size, sized = b.Sheet.Nameplate("power")
	}
	if sized {
		sizes = []float64{size.High}
		if _, _, ok := handbook.WindingBand(roles[0], size.High, 0); !ok {
			sizes = []float64{0} // every size
		}
	}
	through = math.Inf(1)
	for _, role := range roles {
		for _, watts := range sizes {
			band, _, _ := handbook.WindingBand(role, watts, 0)
			top := seenThrough * math.Max(band.High, lowWinding)
			through, open = math.Min(through, times[0]*top), math.Max(open, times[1]*top)
		}
	}
	return through, open
}
