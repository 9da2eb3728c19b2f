package faults

import (
	"errors"
	"fmt"

	"firstvolt/checks/figure"
)

// mostCases is how many cases of one sheet are computed: positions by faults by
// metal that is touched by latent layers. The largest of our sheets has 7,000.
const mostCases = 30_000

// mostCaseWork is the same by the size of the sheet, squared: a larger circuit
// takes longer, and has more parts to look at in each case. The largest of our
// sheets has a tenth of it.
const mostCaseWork = 400_000_000

// TooMany is that a sheet has more cases than are computed.
type TooMany struct {
	Cases int
	sheet *figure.Need // that the sheet itself is too much for any question
}

func (e *TooMany) Error() string {
	if e.sheet != nil {
		return e.sheet.What
	}
	return fmt.Sprintf("not computed: %d cases are more than are tried on a sheet of this size", e.Cases)
}

// Narrow is what makes them fewer.
func (e *TooMany) Narrow() string {
	return "state how these stand: how selectors are set, which way connectors and joints fit, what units upstream do"
}

// budget is an error where the positions have more cases than are computed.
func (r *room) budget(setups []setup, latent bool) error {
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
	for _, t := range r.metals {
		if t.first {
			metals++
		}
	}
	if n := len(setups) * most * max(1, metals); n > mostCases || n*r.b.Places()*r.b.Places() > mostCaseWork {
		return &TooMany{Cases: n}
	}
	return nil
}

// unsolvable is what a figure lacks where its circuit has no answer.
func unsolvable(err error) figure.Need {
	var many *TooMany
	if errors.As(err, &many) {
		return figure.Need{What: many.Error(), How: many.Narrow()}
	}
	return figure.Need{What: "a circuit that can be solved: " + err.Error(), How: "look at the parts and values that it names"}
}
