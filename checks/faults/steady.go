package faults

import (
	"firstvolt/checks/circuit"
	"firstvolt/checks/part"
)

// warm is the resistance of a heater at its rating; end to end, or the two
// halves side by side, whichever lets through more.
func warm(e *circuit.Element, p *part.Part) (float64, bool) {
	if e.Law != circuit.Heater || p == nil || e.Name != p.Name+" heater" {
		return 0, false // a tapped heater is left cold
	}
	volts, amps, ok := p.HeaterRating()
	return volts.Low / amps.High, ok
}

// warmedFor is the model for a question about what lasts.
func (m *model) warmedFor(f fault) (*model, error) {
	if s := m.steady(f); s.lasting && !m.lasting {
		return m.room.model(s)
	}
	return m, nil
}

// steady is the setup for a question about what lasts. Switched on and with
// nothing at fault heaters carry their own current and are warm; in any other
// state a person may be all that they are in line with, and they stay cold.
func (s setup) steady(f fault) setup {
	s.lasting = f.sound() && s.on()
	return s
}
