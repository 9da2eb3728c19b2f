package faults

import (
	"fmt"
	"math"
	"strings"

	"firstvolt/checks/quantity"
)

// Name is the fault by its name, unlike every other of the same position.
func (c Case) Name() string {
	switch c.Fault {
	case Nothing:
		return "nothing at fault"
	case Unplugged:
		return "plug pulled"
	}
	return fault{name: c.Fault, subject: c.Subject}.told()
}

// Says is the case as one sentence.
func (c Case) Says() string {
	s := c.happens()
	if c.Latent != "" {
		s += " while " + unnoticed(c.Latent)
	}
	held, other, two := strings.Cut(c.Touches, " to ")
	s += ", a person who holds " + the(held)
	if c.Inside {
		s += " inside the cabinet"
	}
	if two {
		s += " and " + the(other)
	}
	return s + " gets " + Amps(c.Before) + "; " + c.ends()
}

// Amps is a range of current as a person reads it: what is less than 1 µA is a
// thousandth of what anybody feels.
func Amps(r quantity.Range) string {
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

// ends says what opens and what is left.
func (c Case) ends() string {
	if c.Opens == dischargeEnds {
		return fmt.Sprintf("it is over within %s", seconds(c.Latest))
	}
	left := ", and then " + Amps(c.After)
	if c.After.High == 0 {
		left = ", and nothing is left"
	}
	if c.MayFail {
		left += "; it may not interrupt so much"
	}
	switch {
	case c.Opens == "":
		return "nothing opens"
	case math.IsInf(c.Latest, 1), math.IsNaN(c.Latest):
		return c.Opens + " need not open"
	case c.Earliest > 0:
		return fmt.Sprintf("%s opens after %s to %s%s", c.Opens, seconds(c.Earliest), seconds(c.Latest), left)
	}
	return fmt.Sprintf("%s opens within %s%s", c.Opens, seconds(c.Latest), left)
}

func seconds(s float64) string { return quantity.Format(quantity.Six(s), quantity.Time) }

// happens is what goes wrong, as the first half of a sentence.
func (c Case) happens() string {
	metal := strings.TrimPrefix(strings.TrimPrefix(c.Fault, "wire touches "), "insulation to ")
	word, rest, _ := strings.Cut(c.Fault, " shorted")
	switch {
	case c.Fault == Nothing:
		return "With nothing at fault"
	case c.Fault == Unplugged:
		return "With the plug just pulled"
	case c.Subject == "supply":
		return "If " + unnoticed(c.Fault)
	case c.Fault == "wire parted":
		return "If the wire " + c.Subject + " parts"
	case strings.HasPrefix(c.Fault, "wire touches "):
		return "If the wire at " + c.Subject + " touches " + the(metal)
	case strings.HasPrefix(c.Fault, "insulation to ") && strings.HasSuffix(c.Fault, " broken down"):
		if metal = strings.TrimSuffix(metal, " broken down"); metal == "frame" {
			return "If the insulation of " + c.Subject + " to its frame breaks down"
		}
		return "If the insulation between " + c.Subject + " and " + the(metal) + " breaks down"
	case strings.HasPrefix(c.Fault, "insulation to "):
		return "If the insulation between " + c.Subject + " and " + the(strings.TrimSuffix(metal, " leaking")) + " leaks just less than would open anything"
	case c.Fault == "shorted":
		return "If " + c.Subject + " shorts"
	case c.Fault == "open":
		return "If " + c.Subject + " opens"
	case strings.HasPrefix(c.Fault, "pole "):
		return "If " + unnoticed(c.Subject+" "+c.Fault)
	case strings.HasPrefix(c.Fault, "shorted"), c.Fault == "bridged":
		return "If " + c.Subject + " is " + c.Fault
	case strings.Contains(c.Fault, " shorted"):
		return "If the " + word + " of " + c.Subject + " is shorted" + rest
	}
	return "With " + c.Subject + " " + c.Fault
}

// unnoticed is a fault that nobody notices, as a clause.
func unnoticed(latent string) string {
	switch latent {
	case "hot and neutral exchanged":
		return "hot and neutral are exchanged at the receptacle"
	case "ground open", "neutral open", "residual device dead":
		i := strings.LastIndex(latent, " ")
		return "the " + latent[:i] + " is" + latent[i:]
	}
	if part, pole, ok := strings.Cut(latent, " pole "); ok {
		return "pole " + strings.Replace(pole, " stuck", " of "+part+" is stuck", 1)
	}
	return latent + " is so"
}
