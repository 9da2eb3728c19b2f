package faults

import (
	"fmt"

	"firstvolt/checks/circuit"
	"firstvolt/checks/mains"
)

// found is what a person finds on metal, and the circuit that it is found in.
type found struct {
	mains.Hand
	solved *circuit.Solved
	at     *mains.Circuit
}

// worst is what a person finds on metal with a fault, lamps as warm as it makes
// them, in whichever of the ways endangers that person most.
func (m *model) worst(f fault, terminal string) (found, error) { return m.find(f, terminal, -1) }

// find is worst where a person gets more than enough; else lamps are left cold,
// which never is less.
func (m *model) find(f fault, terminal string, enough float64) (found, error) {
	c, err := m.warmedFor(f)
	if err != nil {
		return found{}, err
	}
	ways, err := c.Alternatives()
	if err != nil {
		return found{}, err
	}
	var most found
	for _, way := range ways {
		x, err := findOne(way, f, terminal, enough)
		if err != nil {
			return found{}, err
		}
		if most.at == nil || x.Amps > most.Amps {
			most = x
		}
	}
	return most, nil
}

func findOne(m *mains.Circuit, f fault, terminal string, enough float64) (found, error) {
	solved, at, err := f.with(m)
	if err != nil {
		return found{}, err
	}
	h, err := m.Touch(solved, terminal)
	if err == nil && h.Amps > enough && len(at.Lamps) > 0 {
		if solved, at, err = at.Warmed(solved); err == nil {
			h, err = m.Touch(solved, terminal)
		}
	}
	if err != nil {
		return found{}, fmt.Errorf("%s: %w", f, err)
	}
	return found{h, solved, at}, nil
}

// warmedFor is the circuit for a question about what lasts.
func (m *model) warmedFor(f fault) (*mains.Circuit, error) {
	if s := steady(m.Setup, f); s.Lasting && !m.Lasting {
		return m.Chain.Circuit(s)
	}
	return m.Circuit, nil
}

// steady is the setup for a question about what lasts. Switched on and with
// nothing at fault heaters carry their own current and are warm; in any other
// state a person may be all that they are in line with, and they stay cold.
func steady(s mains.Setup, f fault) mains.Setup {
	s.Lasting = f.sound() && s.On()
	return s
}
