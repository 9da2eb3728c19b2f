package mains

import (
	"fmt"

	"firstvolt/checks/figure"
)

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
