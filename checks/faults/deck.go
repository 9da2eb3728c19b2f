package faults

import (
	"fmt"
	"math/cmplx"
	"slices"
	"strings"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/handbook"
	"firstvolt/checks/quantity"
)

// Mains is the mains circuit of a set, from service to set, in its first
// orientation, switched on and without a series lamp, at the end of all values
// that endangers a person most; sound or with one fault.
type Mains struct {
	Fault   string          // as FaultNames lists it; empty: sound
	Hertz   float64         // of the supply
	Solved  *circuit.Solved // volts and currents, rms, with the fault as a change to the sound circuit
	circuit *circuit.Circuit
	at      *model
}

// first is the model that Mains is of.
func (r *room) first() (*model, error) {
	setups, _ := r.setups(danger)
	for _, s := range setups {
		if s.on() && !s.limiter {
			return r.model(s)
		}
	}
	return nil, fmt.Errorf("no switch position in which all poles are closed")
}

// title names a fault, unlike every other of the same state.
func (f fault) title() string {
	if f.subject == "supply" {
		return f.name
	}
	return f.subject + " " + f.name
}

// FaultNames lists the single faults that MainsWith knows, in the order of the
// sheet. It is an error where the circuit has no answer.
func FaultNames(b *bench.Bench) ([]string, error) {
	m, err := roomOf(b).first()
	if err != nil {
		return nil, err
	}
	var out []string
	for _, f := range m.faults() {
		if !slices.Contains(out, f.title()) {
			out = append(out, f.title())
		}
	}
	return out, nil
}

// MainsWith is the circuit with the fault of that name, or sound where the
// name is empty. A name that FaultNames does not list is an error, and so is a
// circuit without an answer.
func MainsWith(b *bench.Bench, name string) (*Mains, error) {
	m, err := roomOf(b).first()
	if err != nil {
		return nil, err
	}
	f := fault{}
	if name != "" {
		all := m.faults()
		i := slices.IndexFunc(all, func(f fault) bool { return f.title() == name })
		if i < 0 {
			return nil, fmt.Errorf("no fault %q", name)
		}
		f = all[i]
	}
	solved, at, err := m.with(f)
	if err != nil {
		return nil, err
	}
	es, err := f.in(at.es)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return &Mains{Fault: name, Hertz: m.hertz, Solved: solved, circuit: circuit.New(es, at.terminals()...), at: at}, nil
}

// in gives the elements with the fault built in, where a solution only changes
// what was solved before.
func (f fault) in(es []circuit.Element) ([]circuit.Element, error) {
	es = slices.Clone(es)
	for k, b := range f.branches {
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
	text, err := m.circuit.Deck(title, m.Hertz, circuit.AtLow)
	if err != nil {
		return "", err
	}
	first, rest, _ := strings.Cut(text, "\n")
	what := m.Fault
	if what == "" {
		what = "nothing"
	}
	state := m.at.word
	if state == "" {
		state = "no switch"
	}
	var out strings.Builder
	out.WriteString(first + "\n")
	for _, line := range []string{
		"at fault: " + what,
		fmt.Sprintf("receptacle %s; %s; supply %s at the set, %s, earthing %s", m.at.orientation(), state,
			quantity.Format(m.at.atSet(), quantity.Voltage), quantity.Format(m.Hertz, quantity.Frequency), m.at.earthing),
		"volts and amperes are rms; every value is at the end that endangers a person most",
		"the volts printed are against net 0, which is another net in each part that nothing joins to the rest",
		"rectifiers and what strikes are left out",
		personLine(),
	} {
		out.WriteString("* " + clean(line) + "\n")
	}
	out.WriteString(rest)
	return out.String(), nil
}

// personLine says how to put a person into the deck.
func personLine() string {
	n, ok := handbook.BodyNetwork("unweighted")
	if !ok {
		return "a person is left out"
	}
	return fmt.Sprintf("a person between nets A and B, up to 10 mA: rskin A p %g, cskin A p %g, rbody p B %g", n.Skin, n.Across, n.Body)
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
