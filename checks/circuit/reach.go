package circuit

import "slices"

// Reach is everything that can be touched from some terminals by crossing the
// elements that were allowed.
type Reach struct {
	c     *Circuit
	via   []int32  // by terminal: the element it was first reached through, or a mark
	order []int32  // terminals in the order reached; the queue while searching
	lost  []string // starts that the circuit does not know
}

const (
	apart   int32 = -2 // not reached
	started int32 = -1 // a start
)

// Step is one place on a path and the element crossed to get there.
type Step struct {
	Terminal string
	Via      *Element // nil at the start
}

// Reach searches from the given terminals across every element that through
// allows; nil allows all of them. An element is crossed either way, a OneWay
// too: the finger of a person asks nothing of polarity. The search is breadth
// first in the order of the elements, so that a path is as short as any and
// always the same one. A start that the circuit does not know reaches nothing:
// ask Lost where that matters.
func (c *Circuit) Reach(from []string, through func(*Element) bool) *Reach {
	r := &Reach{c: c}
	r.Again(from, through)
	return r
}

// Again searches anew in the memory of an earlier search, for loops over many
// states of one circuit. Answers given before stay as they were.
func (r *Reach) Again(from []string, through func(*Element) bool) {
	c := r.c
	if r.via == nil {
		n := len(c.terminals)
		both := make([]int32, 2*n)
		r.via, r.order = both[:n:n], both[n:n]
	}
	for i := range r.via {
		r.via[i] = apart
	}
	r.order, r.lost = r.order[:0], nil
	for _, name := range from {
		t, known := c.number[name]
		if !known {
			r.lost = append(r.lost, name)
			continue
		}
		if r.via[t] == apart {
			r.via[t] = started
			r.order = append(r.order, t)
		}
	}
	for at := 0; at < len(r.order); at++ {
		t := r.order[at]
		for _, e := range c.edges.at(t) {
			next := c.other(e, t)
			if r.via[next] == apart && (through == nil || through(&c.elements[e])) {
				r.via[next] = e
				r.order = append(r.order, next)
			}
		}
	}
}

// other is the end of element e that is not t.
func (c *Circuit) other(e, t int32) int32 {
	if c.ends[e][0] == t {
		return c.ends[e][1]
	}
	return c.ends[e][0]
}

// Has tells whether the terminal was reached; a start reaches itself.
func (r *Reach) Has(terminal string) bool {
	t, known := r.c.number[terminal]
	return known && r.via[t] != apart
}

// Lost lists the starts that the circuit does not know, in the order given.
func (r *Reach) Lost() []string { return r.lost }

// Terminals lists everything reached, sorted.
func (r *Reach) Terminals() []string { return r.c.sorted(r.order) }

// Path is the way from a start to the terminal, both included, as a finger
// would trace it; nil if the terminal was not reached.
func (r *Reach) Path(terminal string) []Step {
	t, known := r.c.number[terminal]
	if !known || r.via[t] == apart {
		return nil
	}
	var path []Step
	for {
		e := r.via[t]
		step := Step{Terminal: r.c.terminals[t]}
		if e == started {
			path = append(path, step)
			slices.Reverse(path)
			return path
		}
		step.Via = &r.c.elements[e]
		path = append(path, step)
		t = r.c.other(e, t)
	}
}

// Touched lists the elements of which at least one end was reached, in the
// order of the circuit, whether or not they were allowed to be crossed.
func (r *Reach) Touched() []*Element {
	var all []*Element
	for i, e := range r.c.ends {
		if r.via[e[0]] != apart || r.via[e[1]] != apart {
			all = append(all, &r.c.elements[i])
		}
	}
	return all
}

// Cut tells whether taking out the named element parts b from a: crossing only
// what through allows, b is reached with the element and not without it.
func (c *Circuit) Cut(a, b, element string, through func(*Element) bool) bool {
	r := c.Reach([]string{a}, through)
	if !r.Has(b) {
		return false
	}
	r.Again([]string{a}, func(e *Element) bool {
		return e.Name != element && (through == nil || through(e))
	})
	return !r.Has(b)
}
