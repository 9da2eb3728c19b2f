package mains

import (
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
)

// Same tells whether two terminals are one net in this state.
func (m *Circuit) Same(a, b string) bool { return m.Bench.Circuit(m.State).SameNet(a, b) }

// Ahead tells whether the live conductor reaches the terminal past no fuse.
func (m *Circuit) Ahead(terminal string) bool {
	if m.unfused == nil {
		live := sheet.PlugHot
		if m.crossed {
			live = sheet.PlugNeutral
		}
		m.unfused = m.Bench.Circuit(m.State).Reach([]string{live}, func(e *circuit.Element) bool {
			p := bench.PartOfElement(e)
			return (bench.Contacts(e) || dropsLittle(e)) && (p == nil || !p.Is(part.Fuses))
		})
	}
	return m.unfused.Has(terminal)
}

// Bonded tells whether wire alone joins the metal to the ground pin.
func (m *Circuit) Bonded(terminal string) bool {
	if m.grounded == nil {
		m.grounded = m.Bench.Circuit(m.State).Reach([]string{sheet.PlugGround}, bench.GroundPath)
	}
	return m.Bench.Grounded() && m.grounded.Has(terminal)
}

// BondedWithout is bonded with one wire parted.
func (m *Circuit) BondedWithout(terminal, wire string) bool {
	return m.Bonded(terminal) && m.Bench.Circuit(m.State).Reach([]string{sheet.PlugGround}, func(e *circuit.Element) bool {
		return e.Name != wire && bench.GroundPath(e)
	}).Has(terminal)
}

// OnHot and OnCold tell whether the live or the other conductor reaches a
// terminal by contacts and the like.
func (m *Circuit) OnHot(t string) bool {
	return slices.ContainsFunc(m.Hot, func(h string) bool { return m.Same(h, t) })
}

func (m *Circuit) OnCold(t string) bool {
	return slices.ContainsFunc(m.cold, func(h string) bool { return m.Same(h, t) })
}

// Has tells whether the element is in the circuit.
func (m *Circuit) Has(element string) bool {
	return slices.ContainsFunc(m.Elements, func(e circuit.Element) bool { return e.Name == element })
}

// Wired tells whether anything in the circuit has the terminal.
func (m *Circuit) Wired(terminal string) bool {
	if m.joined == nil {
		m.joined = make(map[string]bool, len(m.Elements))
		for i := range m.Elements {
			m.joined[m.Elements[i].A], m.joined[m.Elements[i].B] = true, true
		}
	}
	return m.joined[terminal]
}
