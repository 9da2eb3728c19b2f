package faults

import (
	"errors"

	"firstvolt/checks/figure"
	"firstvolt/checks/mains"
)

// mostCases is how many cases of one sheet are computed: positions by faults by
// metal that is touched by latent layers. The largest of our sheets has 7,000.
const mostCases = 30_000

// mostCaseWork is the same by the size of the sheet, squared: a larger circuit
// takes longer, and has more parts to look at in each case. The largest of our
// sheets has a tenth of it.
const mostCaseWork = 400_000_000

// budget is an error where the positions have more cases than are computed.
func (r *chain) budget(setups []mains.Setup, latent bool) error {
	most := 0
	for _, i := range []int{0, len(setups) - 1} {
		if i < 0 {
			return nil
		}
		m, err := r.model(setups[i])
		if err != nil {
			return err
		}
		faults, layers := len(m.faults()), 1
		if latent {
			layers = 2 // without, and with a dead residual device
			for _, f := range m.faults() {
				if f.latent() {
					layers++
				}
			}
		}
		most = max(most, faults*layers)
	}
	metals := 0
	for _, t := range r.Metals {
		if t.First {
			metals++
		}
	}
	if n := len(setups) * most * max(1, metals); n > mostCases || n*r.Bench.Places()*r.Bench.Places() > mostCaseWork {
		return &mains.TooMany{Cases: n}
	}
	return nil
}

// unsolvable is what a figure lacks where its circuit has no answer.
func unsolvable(err error) figure.Need {
	var many *mains.TooMany
	if errors.As(err, &many) {
		return figure.Need{What: many.Error(), How: many.Narrow()}
	}
	return figure.Need{What: "a circuit that can be solved: " + err.Error(), How: "look at the parts and values that it names"}
}
