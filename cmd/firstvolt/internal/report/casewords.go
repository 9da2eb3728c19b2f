package report

import (
	"fmt"
	"math"

	"firstvolt/checks/faults"
	"firstvolt/checks/quantity"
)

// says is a case as one sentence.
func says(c faults.Case) string {
	s := c.Fault.Happens()
	if !c.Latent.None() {
		s += " while " + c.Latent.Clause()
	}
	s += ", a person who holds " + faults.The(c.Touch.Held)
	if c.Inside {
		s += " inside the cabinet"
	}
	if c.Touch.Other != "" {
		s += " and " + faults.The(c.Touch.Other)
	}
	return s + " gets " + amps(c.Before) + "; " + ends(c)
}

// ends says what opens and what is left.
func ends(c faults.Case) string {
	if c.Opens.Kind == faults.Discharge {
		return fmt.Sprintf("it is over within %s", seconds(c.Latest))
	}
	left := ", and then " + amps(c.After)
	if c.After.High == 0 {
		left = "; until then the person gets all of it"
	}
	if c.MayFail {
		left += "; it may not interrupt so much"
	}
	switch {
	case c.Opens.Kind == faults.NoDevice && c.Unsolved:
		return "what a rectifier or a part that strikes adds is not solved"
	case c.Opens.Kind == faults.NoDevice:
		return "nothing opens" + stays(c.Heat)
	case math.IsInf(c.Latest, 1), math.IsNaN(c.Latest):
		return c.Opens.String() + " need not open" + stays(c.Heat)
	case c.Earliest > 0:
		return fmt.Sprintf("%s opens after %s to %s%s", c.Opens, seconds(c.Earliest), seconds(c.Latest), left)
	}
	return fmt.Sprintf("%s opens within %s%s", c.Opens, seconds(c.Latest), left)
}

// stays says where heat stays.
func stays(h faults.Heat) string {
	if !(h.Watts > 0) {
		return ""
	}
	where := h.In
	if where == "" {
		where = "the insulation"
	}
	return fmt.Sprintf(", and %s stay in %s", watts(h.Watts), where)
}

// watts is a power to two digits: it rests on one end of what is not known.
func watts(w float64) string { return quantity.FormatTo(w, quantity.Power, 2) }

// amps is a range of current as a person reads it: what is less than 1 µA is a
// thousandth of what anybody feels.
func amps(r quantity.Range) string {
	const tiny = 1e-6
	if r.High > 0 && r.High < tiny {
		return "less than 1 µA"
	}
	low, high := quantity.Format(r.Low, quantity.Current), quantity.Format(r.High, quantity.Current)
	switch {
	case low == high:
		return high
	case r.Low < tiny:
		low = quantity.Format(0, quantity.Current)
	}
	return low + " to " + high
}

func seconds(s float64) string { return quantity.Format(quantity.Six(s), quantity.Time) }
