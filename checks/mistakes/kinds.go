package mistakes

import (
	"slices"

	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
)

// atTheRail is why a slip behind the load waits for other rules.
const atTheRail = "heaters, rectifier and filter are asked by the rules of the high tension"

// onLine tells whether the set calls itself one whose circuits hang on the line.
func (d draft) onLine() bool { return d.s.Construction != "transformer" }

// grounded tells whether the cord brings a protective conductor.
func (d draft) grounded() bool {
	_, resists := d.s.CordValue("third")
	return d.s.Plug.Ground && d.s.Cord().Word("conductors") == "3" && !resists
}

// works tells a part that makes up the set's own circuits on the line.
func (d draft) works(p *part.Part) bool {
	return d.onLine() && p != nil && slices.Contains([]string{"tube", "rectifier", "electrolytic", "barretter", "lamp", "resistor", "autotransformer"}, p.Kind.Name)
}

// ofMotor tells a motor, or the switch that a motor alone hangs on.
func (d draft) ofMotor(p *part.Part) bool {
	switch {
	case p == nil:
		return false
	case p.Kind.Name == "motor":
		return true
	case p.Kind.Name != "switch":
		return false
	}
	n := d.copper()
	return slices.ContainsFunc(d.parts("motor"), func(m *part.Part) bool {
		return slices.ContainsFunc(p.Terminals(), func(t string) bool {
			return d.alone(p.Full(t), m) && (n.of(p.Full(t)) == n.of(m.Full("1")) || n.of(p.Full(t)) == n.of(m.Full("2")))
		})
	})
}

// alone tells whether nothing but the two parts is wired to the net of t.
func (d draft) alone(t string, m *part.Part) bool {
	n, p := d.copper(), d.partOf(t)
	return !slices.ContainsFunc(d.terminals(), func(u string) bool {
		q := d.partOf(u)
		return n.of(u) == n.of(t) && q != m && q != p
	})
}

// resisting tells whether the third conductor of the cord is a resistance.
func (d draft) resisting(t string) bool {
	_, resists := d.s.CordValue("third")
	return resists && t == sheet.PlugGround
}
