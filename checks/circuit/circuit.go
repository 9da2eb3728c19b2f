// Package circuit holds what joins what: elements between named terminals,
// the nets that wires make of them, what can be reached from where and by
// which path, the direct-current resistance between two probes, and volts and
// currents at one frequency, with what any change makes of them.
//
// It knows nothing of radios, of sheets or of limits: whoever builds a circuit
// decides which switch is closed and which part is left out, and builds it
// again for another state. Capacitance, inductance, coupling and sources are
// used by AC and Deck alone; the laws of rectifying and striking parts are
// carried by an Element and used by neither.
package circuit

import (
	"errors"
	"fmt"
	"math"
)

// Interval is a value known between two bounds, in SI units. High may be +Inf
// (nothing known above) and Low may be 0. For C and L the zero Interval means
// that the element has none; for R it means exactly 0 Ω.
type Interval struct{ Low, High float64 }

// Exactly is the interval that holds x alone.
func Exactly(x float64) Interval { return Interval{x, x} }

// Anything is the interval of a value of which nothing is known.
func Anything() Interval { return Interval{0, math.Inf(1)} }

// valid tells whether the bounds are numbers in order and not negative. A Low
// of +Inf is an open connection.
func (i Interval) valid() bool { return i.Low >= 0 && i.Low <= i.High }

// Conduct says how an element joins its two terminals for direct current.
type Conduct uint8

// The ways an element may conduct.
const (
	// Wire is bare copper: an edge to be traced, and part of a net.
	Wire Conduct = iota
	// Joint is a closed contact, a fuse link, a mated pin: it conducts with
	// next to no resistance and is still a part that can open.
	Joint
	// Conducting is a winding, resistor, choke, thermistor, lamp, heater or
	// motor: it conducts with resistance R.
	Conducting
	// Bridging is a capacitor, neon, varistor, arrester or insulation: it joins
	// two nets and does not conduct for the question asked. With an R that says
	// something (see Resistance) it is a leak of that resistance.
	Bridging
	// OneWay is silicon, selenium or an electrolytic to an ohmmeter: it may
	// conduct from A to B, how well is not known, and never from B to A.
	OneWay
)

// Law is how current depends on voltage where time matters. Direct current
// does not ask it: Conduct says all that an ohmmeter can see.
type Law uint8

// The laws of an element.
const (
	Linear       Law = iota // R, C and L as given
	Diode                   // conducts from A to B beyond a forward drop
	Striking                // nothing until it strikes, then next to nothing in its way
	ColdTube                // nothing until its cathode is hot, then from A to B
	Electrolytic            // a capacitor with a polarity; B is its negative end
	Winding                 // turns on a core, coupled with the others there
	Heater                  // a filament, several times lower cold than hot
)

// Element joins two terminals.
type Element struct {
	Name     string   // unique in a circuit: "T1.primary", "S1 1-2", "wire 7"
	Owner    string   // the part it belongs to: "T1"; empty for a wire
	A, B     string   // the terminals it joins; a OneWay conducts from A to B
	Conducts Conduct  // what it is to direct current
	R        Interval // Ω at direct current, of a Wire or Joint too; Anything() where not known
	C, L     Interval // F beside R and L, H in series with R (of a winding: leakage); zero where it has none; not used for direct current
	Core     string   // windings that name one Core are coupled, A of each at the same end; not used for direct current
	Turns    Interval // no-load volts, relative to other windings of the Core; not used for direct current
	// Lm and Rm are the magnetising inductance (H) and core loss (Ω, beside it)
	// of a Core, as seen from this one of its windings; zero where there is none.
	Lm, Rm Interval
	// EMF is a source in series with R and L: V rms, A above B; zero where
	// there is none. An ohmmeter does not see it.
	EMF complex128
	Law Law // not used for direct current
	Tag any // the caller's own reference
}

// Circuit is a list of elements and the terminals they join. It does not
// change once made, and may be asked by several goroutines at once.
type Circuit struct {
	elements  []Element
	terminals []string         // by number
	number    map[string]int32 // of a terminal
	ends      [][2]int32       // of each element, as terminal numbers
	edges     lists            // element numbers, by terminal, in element order
	net       []int32          // of a terminal: the one that stands for all that wires alone join
}

// New makes a circuit of elements, whose order it keeps in every answer. The
// terminals are those the elements name, and those named besides: a terminal
// that nothing joins is still there to be probed. The elements become the
// circuit's own.
func New(elements []Element, terminals ...string) *Circuit {
	c := &Circuit{
		elements: elements,
		number:   make(map[string]int32, 2*len(elements)+len(terminals)),
		ends:     make([][2]int32, len(elements)),
	}
	for i := range c.elements {
		c.ends[i] = [2]int32{c.name(c.elements[i].A), c.name(c.elements[i].B)}
	}
	for _, t := range terminals {
		c.name(t)
	}
	c.edges = listAt(len(c.terminals), func(put func(at, i int32)) {
		for i, e := range c.ends {
			put(e[0], int32(i))
			if e[1] != e[0] {
				put(e[1], int32(i))
			}
		}
	})
	nets := newSets(len(c.terminals))
	for i, e := range c.ends {
		if c.elements[i].Conducts == Wire {
			nets.join(e[0], e[1])
		}
	}
	for t := range nets {
		nets.of(int32(t))
	}
	c.net = nets
	return c
}

// name gives terminal t its number.
func (c *Circuit) name(t string) int32 {
	n, known := c.number[t]
	if !known {
		n = int32(len(c.terminals))
		c.number[t] = n
		c.terminals = append(c.terminals, t)
	}
	return n
}

// Check tells everything that keeps the circuit from being solved: a name
// given twice or not at all, a terminal without a name, an interval that is
// negative, out of order or not a number. Resistance, AC and Deck refuse such
// a circuit.
func (c *Circuit) Check() error {
	var all []error
	seen := make(map[string]bool, len(c.elements))
	for i := range c.elements {
		e := &c.elements[i]
		switch {
		case e.Name == "":
			all = append(all, fmt.Errorf("element %d has no name", i+1))
		case seen[e.Name]:
			all = append(all, fmt.Errorf("two elements are named %q", e.Name))
		}
		seen[e.Name] = true
		if e.A == "" || e.B == "" {
			all = append(all, fmt.Errorf("%s: a terminal has no name", e.Name))
		}
		if e.Conducts > OneWay {
			all = append(all, fmt.Errorf("%s: no such way to conduct", e.Name))
		}
		for _, v := range []struct {
			what string
			i    Interval
		}{
			{"resistance", e.R}, {"capacitance", e.C}, {"inductance", e.L}, {"turns", e.Turns},
			{"magnetising inductance", e.Lm}, {"core loss", e.Rm},
		} {
			if !v.i.valid() {
				all = append(all, fmt.Errorf("%s: %s from %g to %g is not a range", e.Name, v.what, v.i.Low, v.i.High))
			}
		}
		if !finite(e.EMF) {
			all = append(all, fmt.Errorf("%s: the source of %g V is not a number", e.Name, e.EMF))
		}
	}
	return errors.Join(all...)
}

// Elements are the elements in the order given. The list is the circuit's own
// and not to be changed.
func (c *Circuit) Elements() []Element { return c.elements }

// Element is the first element of that name, nil if there is none.
func (c *Circuit) Element(name string) *Element {
	for i := range c.elements {
		if c.elements[i].Name == name {
			return &c.elements[i]
		}
	}
	return nil
}

// Has tells whether the circuit knows the terminal.
func (c *Circuit) Has(terminal string) bool {
	_, known := c.number[terminal]
	return known
}

// Without is the same circuit with the named elements taken out. It keeps
// every terminal, so that a probe on one that nothing joins any more reads
// open and is no error. A name that no element has changes nothing.
func (c *Circuit) Without(names ...string) *Circuit {
	out := make(map[string]bool, len(names))
	for _, n := range names {
		out[n] = true
	}
	rest := make([]Element, 0, len(c.elements))
	for i := range c.elements {
		if !out[c.elements[i].Name] {
			rest = append(rest, c.elements[i])
		}
	}
	return New(rest, c.terminals...)
}

// SameNet tells whether wires alone join a and b, whatever their resistance.
// A terminal that the circuit does not know is in no net.
func (c *Circuit) SameNet(a, b string) bool {
	i, hasA := c.number[a]
	j, hasB := c.number[b]
	return hasA && hasB && c.net[i] == c.net[j]
}

// NetOf stands for everything that wires alone join to a terminal; -1 for one
// that the circuit does not know.
func (c *Circuit) NetOf(terminal string) int32 {
	n, known := c.number[terminal]
	if !known {
		return -1
	}
	return c.net[n]
}

// Net lists, sorted, the terminal and everything that wires alone join to it;
// nil for a terminal that the circuit does not know.
func (c *Circuit) Net(terminal string) []string {
	n, known := c.number[terminal]
	if !known {
		return nil
	}
	var all []int32
	for t := range c.net {
		if c.net[t] == c.net[n] {
			all = append(all, int32(t))
		}
	}
	return c.sorted(all)
}
