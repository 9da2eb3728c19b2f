package faults

import (
	"cmp"
	"errors"
	"fmt"
	"math/cmplx"
	"slices"
	"strings"

	"firstvolt/checks/circuit"
	"firstvolt/checks/handbook"
	"firstvolt/checks/mains"
	"firstvolt/checks/quantity"
)

// Mains is the mains circuit of a set, from service to set, at the end of all
// values that endangers a person most, in one case.
type Mains struct {
	Which
	Hertz   float64         // of the supply
	Solved  *circuit.Solved // volts and currents, rms, fault and person as changes to the sound circuit
	Person  float64         // A through the person; 0 where nobody touches
	through string          // the element of the circuit that carries the person's current; "" where none does
	circuit *circuit.Circuit
	at      *mains.Circuit
}

// mainsOf is the circuit of a case that was solved.
func mainsOf(w Which, x found) (*Mains, error) {
	m := &Mains{Which: w, Hertz: x.at.Hertz, Solved: x.solved, at: x.at}
	es, err := built(x.at.Elements, x.solved.Changes())
	if err != nil {
		return nil, fmt.Errorf("%s: %w", w.Fault, err)
	}
	terminals := x.at.Terminals
	if w.Touch != (mains.Touch{}) {
		person, err := m.touch()
		if err != nil {
			return nil, err
		}
		es, terminals = append(es, person...), append(terminals, insidePerson)
		if len(person) > 0 {
			m.through = person[len(person)-1].Name
		}
	}
	m.circuit = circuit.New(es, terminals...)
	return m, nil
}

// insidePerson is the node between skin and body of the measuring network.
const insidePerson = "inside the person"

// touch puts the person into the solution and gives the elements of one.
func (m *Mains) touch() ([]circuit.Element, error) {
	held, other := m.Touch.Held, cmp.Or(m.Touch.Other, mains.Earth)
	for _, t := range []string{held, other} {
		if t != mains.Earth && !m.at.HasMetal(t) {
			return nil, fmt.Errorf("nobody touches %q", t)
		}
	}
	v, err := m.Solved.Voltage(held, other)
	if errors.Is(err, circuit.ErrFloating) {
		return nil, nil // dead: nothing joins it to the supply
	}
	if err != nil {
		return nil, err
	}
	z, err := m.Solved.Impedance(held, other)
	if err != nil {
		return nil, err
	}
	n, ok := handbook.BodyNetwork("unweighted")
	if !ok {
		return nil, errors.New("no network stands for a person")
	}
	m.Person = m.at.Person.Current(v, z)
	body := m.at.Person.Z
	person := []circuit.Element{
		{Name: "the skin of a person", A: held, B: insidePerson, Conducts: circuit.Conducting, R: circuit.Exactly(n.Skin), C: circuit.Exactly(n.Across)},
		{Name: "the body of a person", A: insidePerson, B: other, Conducts: circuit.Conducting, R: circuit.Exactly(n.Body)},
	}
	if low := m.at.Person.Lowest(v, z); m.Person > cmplx.Abs(v/(z+body)) {
		body = complex(low, 0)
		person = []circuit.Element{{Name: "a person", A: held, B: other, Conducts: circuit.Conducting, R: circuit.Exactly(low)}}
	}
	m.Solved, err = m.Solved.With(circuit.Branch{A: held, B: other, Z: body})
	return person, err
}

// built gives the elements with changes built in, where a solution only changes
// what was solved before.
func built(es []circuit.Element, changes []circuit.Branch) ([]circuit.Element, error) {
	es = slices.Clone(es)
	for k, b := range changes {
		if imag(b.Z) != 0 && !cmplx.IsInf(b.Z) || b.E != 0 {
			return nil, fmt.Errorf("%g Ω and %g V are no part of a deck", b.Z, b.E)
		}
		if b.In == "" {
			if !cmplx.IsInf(b.Z) {
				es = append(es, circuit.Element{Name: fmt.Sprintf("the fault %d", k+1), A: b.A, B: b.B, Conducts: circuit.Conducting, R: circuit.Exactly(real(b.Z))})
			}
			continue
		}
		i := slices.IndexFunc(es, func(e circuit.Element) bool { return e.Name == b.In })
		switch {
		case i < 0:
			return nil, fmt.Errorf("no element %q", b.In)
		case cmplx.IsInf(b.Z):
			es = slices.Delete(es, i, i+1)
		default:
			es[i].R = circuit.Exactly(es[i].R.Low + real(b.Z))
		}
	}
	return es, nil
}

// Deck writes the circuit for a simulator of the SPICE family, as circuit.Deck
// does, below a title and what the circuit is.
func (m *Mains) Deck(title string) (string, error) {
	var through []string
	if m.through != "" {
		through = []string{m.through}
	}
	text, err := m.circuit.Deck(title, m.Hertz, circuit.AtLow, through...)
	if err != nil {
		return "", err
	}
	first, rest, _ := strings.Cut(text, "\n")
	fault := func(f Fault) string {
		if f.None() {
			return f.Name()
		}
		return f.String()
	}
	at := m.at
	var out strings.Builder
	out.WriteString(first + "\n")
	for _, line := range []string{
		"at fault: " + fault(m.Fault),
		"at fault and not noticed: " + fault(m.Latent),
		fmt.Sprintf("receptacle %s; %s; supply %s at the set, %s, system %s", m.Orientation(), cmp.Or(m.Switches(), "no switch"),
			quantity.Format(at.AtSet(), quantity.Voltage), quantity.Format(m.Hertz, quantity.Frequency), strings.ToUpper(at.Earthing)),
		"series lamp: " + map[bool]string{true: "in the circuit", false: "none"}[m.Limiter],
		"a person touches: " + cmp.Or(m.Touch.String(), "nothing"),
		"volts and amperes are rms; every value is at the end that endangers a person most",
		"the volts printed are against net 0, which is another net in each part that nothing joins to the rest",
		"rectifiers and what strikes are left out",
	} {
		out.WriteString("* " + clean(line) + "\n")
	}
	out.WriteString(rest)
	return out.String(), nil
}

// clean keeps a name from ending a comment.
func clean(line string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f || r == 0x85 || r == 0x2028 || r == 0x2029 {
			return ' '
		}
		return r
	}, line)
}
