package bench

import (
	"maps"
	"slices"
	"sort"
	"strings"

	"firstvolt/checks/circuit"
	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
)

// MaxCombinations is how many switch and selector combinations are tried one
// by one; above it a routing question is not answered.
const MaxCombinations = 1 << 10

// State is one state of the set. The zero State: switches open, fuses in,
// connectors mated, selectors at set, nothing lifted.
type State struct {
	Closed    map[string]bool   // by switch name
	AllClosed bool              // every switch not named in Closed
	Out       map[string]bool   // fuses taken out
	AllOut    bool              // every fuse taken out
	Position  map[string]string // by selector; missing: as set
	Unmated   map[string]bool   // connectors pulled apart
	Turned    map[string]bool   // connectors mated the other way round
	Without   []string          // parts taken out or lifted whole
	Lifted    []string          // terminals lifted
}

// ClosedState is the set switched on, everything in.
func ClosedState() State { return State{AllClosed: true} }

// key is one text for all states that make the same circuit, added to k.
func (s State) key(k []byte) []byte {
	k = flag(k, 'a', "", s.AllClosed)
	k = flag(k, 'a', "", s.AllOut)
	k = flags(k, 'c', s.Closed)
	k = flags(k, 'o', s.Out)
	k = flags(k, 'u', s.Unmated)
	k = flags(k, 't', s.Turned)
	k = inOrder(k, s.Position, func(k []byte, name, position string) []byte {
		return append(append(append(append(append(k, 'p'), name...), '='), position...), ';')
	})
	if len(s.Lifted)+len(s.Without) > 0 {
		lifted := append(slices.Clone(s.Lifted), s.Without...)
		sort.Strings(lifted)
		k = append(k, strings.Join(lifted, ",")...)
	}
	return k
}

func flag(k []byte, kind byte, name string, yes bool) []byte {
	k = append(append(append(k, kind), name...), '=')
	if yes {
		return append(k, "1;"...)
	}
	return append(k, "0;"...)
}

func flags(k []byte, kind byte, m map[string]bool) []byte {
	return inOrder(k, m, func(k []byte, name string, yes bool) []byte { return flag(k, kind, name, yes) })
}

// inOrder adds each entry of m, by name.
func inOrder[V any](k []byte, m map[string]V, add func(k []byte, name string, v V) []byte) []byte {
	switch len(m) { // most often nothing, or one
	case 0:
	case 1:
		for name, v := range m {
			k = add(k, name, v)
		}
	default:
		for _, name := range slices.Sorted(maps.Keys(m)) {
			k = add(k, name, m[name])
		}
	}
	return k
}

// of is the state of one part within s.
func (s State) of(p *part.Part) part.State {
	st := part.State{Closed: s.AllClosed, Out: s.AllOut || s.Out[p.Name], Unmated: s.Unmated[p.Name], Turned: s.Turned[p.Name], Position: p.Word("set")}
	if c, ok := s.Closed[p.Name]; ok {
		st.Closed = c
	}
	if pos, ok := s.Position[p.Name]; ok {
		st.Position = pos
	}
	return st
}

// Circuit is the set's circuit in state s, made once and kept as long as there
// are not too many. Capacitors and the like are bridging elements; insulation is
// not in it.
func (b *Bench) Circuit(s State) *circuit.Circuit {
	b.key = s.key(b.key[:0])
	if c, ok := b.circuits[string(b.key)]; ok {
		return c
	}
	key := string(b.key)
	c := circuit.New(b.elements(s, 0))
	if (len(b.circuits)+1)*len(c.Elements()) > mostKept {
		clear(b.circuits)
	}
	b.circuits[key] = c
	return c
}

// wireSide names the wires' side of a terminal whose lead is lifted.
func wireSide(terminal string) string { return terminal + " (its wires)" }

// elements lists the elements of the set in state s, wires first, then parts,
// with room for more.
func (b *Bench) elements(s State, more int) []circuit.Element {
	out := append(b.scratch[:0], b.wires...)
	lifted := map[string]bool{}
	for _, t := range s.Lifted {
		lifted[t] = true
	}
	gone := map[string]bool{}
	for _, name := range s.Without {
		p := b.Sheet.Part(name)
		switch {
		case p == nil:
		case p.PlugsIn():
			gone[name] = true
		default:
			for _, t := range p.Terminals() {
				lifted[p.Full(t)] = true
			}
		}
	}
	for i := range out {
		if lifted[out[i].A] {
			out[i].A = wireSide(out[i].A)
		}
		if lifted[out[i].B] {
			out[i].B = wireSide(out[i].B)
		}
	}
	for _, p := range b.Sheet.Parts {
		if gone[p.Name] {
			continue
		}
		for _, e := range p.Elements(s.of(p)) {
			if p.Is(part.Rectifies) && b.bareTap(p) && (e.A == p.Full("h-tap") || e.B == p.Full("h-tap")) {
				continue // its two stretches are the one heater that is there already
			}
			out = append(out, e)
		}
	}
	b.scratch = out
	return append(make([]circuit.Element, 0, len(out)+more), out...)
}

// bareTap tells whether neither a wire nor a probe is on the tap of a
// rectifier's heater.
func (b *Bench) bareTap(p *part.Part) bool {
	tap := p.Full("h-tap")
	return !b.Sheet.OnWire(tap) &&
		!slices.ContainsFunc(b.Sheet.Readings, func(r *sheet.Reading) bool { return slices.Contains(r.A, tap) || slices.Contains(r.B, tap) })
}

// Combinations lists the states of every switch and selector combination,
// starting from base. ok is false where there are more than MaxCombinations,
// and then only those with each selector as set are listed, up to that number.
// A selector whose setting is known stands as set unless every is true.
func (b *Bench) Combinations(base State, every bool) (states []State, ok bool) {
	states = []State{base}
	multiply := func(n int, apply func(State, int) State) bool {
		if len(states)*n > MaxCombinations {
			return false
		}
		var next []State
		for _, s := range states {
			for i := range n {
				next = append(next, apply(s, i))
			}
		}
		states = next
		return true
	}
	ok = true
	for _, p := range b.Parts(part.Switches) {
		if _, fixed := base.Closed[p.Name]; fixed || base.AllClosed {
			continue
		}
		ok = multiply(2, func(s State, i int) State {
			s.Closed = with(s.Closed, p.Name, i == 1)
			return s
		}) && ok
	}
	for _, p := range b.Parts(part.Selects) {
		positions := p.Positions()
		if _, fixed := base.Position[p.Name]; fixed || len(positions) == 0 || (!every && p.Word("set") != "") {
			continue
		}
		ok = multiply(len(positions), func(s State, i int) State {
			s.Position = with(s.Position, p.Name, positions[i])
			return s
		}) && ok
	}
	return states, ok
}

func with[V any](m map[string]V, k string, v V) map[string]V {
	n := maps.Clone(m)
	if n == nil {
		n = map[string]V{}
	}
	n[k] = v
	return n
}
