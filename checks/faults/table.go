package faults

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/handbook"
	"firstvolt/checks/quantity"
)

// Contained is the effect of a current that something ends in its time. The
// others are those of the handbook: not felt, felt, cannot let go, can kill.
const Contained = "contained"

// Case is what a person finds on one piece of metal with one thing at fault.
type Case struct {
	Fault       string // what it is: "wire touches chassis"; "nothing"
	Subject     string // of what: a part, a terminal, supply, "A – B" of a wire
	Orientation string // "as wired" or "exchanged": which way round the joints that fit both ways are
	Switches    string // how switches and selectors stand; empty where there are none
	Latent      string // a second fault that nobody noticed before; empty for none
	Limiter     bool   // the series lamps of the bench are in the circuit
	Touches     string // the metal, and what else is held: "chassis", "chassis to Tuner"
	// Before and After are the current in A through the person, rms, before
	// anything opens and after: from what is certain to what may be. Not felt
	// without the person, so that High of After is Before where nothing opens.
	Before, After quantity.Range
	Opens         string  // what opens; empty: nothing
	Earliest      float64 // s from the onset; 0 where not known
	Latest        float64 // s; +Inf where nothing need open
	Effect        string  // by published thresholds, or Contained
}

// Table lists every case of the set: nothing and each single fault, alone and
// together with each latent one, in every switch position and orientation,
// with and without lamps, for each piece of metal that a hand finds. Worst
// first. Cases that nothing was to be found out of (a floating chassis behind
// a parted wire) are in it with no current. It is an error where a circuit has
// no answer, or where there are more positions than are tried.
func Table(b *bench.Bench) ([]Case, error) {
	r := roomOf(b)
	setups, ok := r.setups(danger)
	if !ok {
		return nil, fmt.Errorf("more than %d switch and selector positions", bench.MaxCombinations)
	}
	var out []Case
	for _, s := range setups {
		m, err := r.model(s)
		if err != nil {
			return nil, err
		}
		all := append([]fault{{name: "nothing", subject: "set"}}, m.faults()...)
		latents := append([]fault{{}}, latent(all)...)
		for _, l := range latents {
			for _, f := range all {
				two, ok := l.and(f)
				if !ok {
					continue
				}
				for _, t := range r.metals {
					if !t.touched || !t.first {
						continue
					}
					c, err := m.tabled(two, t)
					if err != nil {
						return nil, err
					}
					c.Fault, c.Subject, c.Latent = f.name, f.subject, l.told()
					out = append(out, c)
				}
			}
		}
	}
	slices.SortStableFunc(out, worse)
	return out, nil
}

// worse puts the worse case first: by effect, then by current.
func worse(a, b Case) int {
	return cmp.Or(cmp.Compare(rank(b.Effect), rank(a.Effect)), cmp.Compare(b.Before.High, a.Before.High))
}

func rank(effect string) int {
	return slices.Index([]string{handbook.NotFelt, handbook.Felt, Contained, handbook.CannotLetGo, handbook.CanKill}, effect)
}

// latent are the faults that nobody notices, and that a residual device is dead.
func latent(all []fault) []fault {
	var out []fault
	for _, f := range all {
		if f.latent {
			out = append(out, f)
		}
	}
	return append(out, fault{name: "residual device dead", subject: "supply", latent: true, deaf: true})
}

// told is a latent fault in words.
func (f fault) told() string {
	if f.name == "" || f.subject == "supply" {
		return f.name
	}
	return f.subject + " " + f.name
}

// and is a latent fault with another one; ok is false where they are one and
// the same, or cannot both be.
func (f fault) and(g fault) (fault, bool) {
	if f.name == "" {
		return g, true
	}
	if f.name == g.name && f.subject == g.subject || f.exchange && (g.to != "" || g.latent) || g.exchange && f.latent {
		// What is live in an exchanged receptacle is another list of wires: it
		// is asked as the other orientation of joints that fit both ways.
		return g, false
	}
	g.branches = append(slices.Clone(f.branches), g.branches...)
	g.exchange = g.exchange || f.exchange
	g.neutralOpen = g.neutralOpen || f.neutralOpen
	g.deaf = g.deaf || f.deaf
	return g, true
}

// tabled is one case: before, what opens, after, effect.
func (m *model) tabled(f fault, t metal) (Case, error) {
	c := Case{Orientation: m.orientation(), Switches: m.word, Limiter: m.limiter, Touches: t.terminal, Latest: math.Inf(1)}
	solved, at, err := m.changed(f)
	if err != nil {
		return c, err
	}
	h, err := m.touch(solved, t.terminal)
	if err != nil {
		return c, fmt.Errorf("%s %s: %w", f.subject, f.name, err)
	}
	if h.other != earth {
		c.Touches += " to " + h.other
	}
	low := math.Min(m.leastTouch(m.setup, f, t), h.amps)
	c.Before = quantity.Range{Low: low, High: h.amps, Dim: quantity.Current}
	c.After = c.Before
	c.Effect, _ = handbook.Effect("ac", h.amps, math.Inf(1))
	if h.amps <= limit("normal") {
		return c, nil
	}
	held, o := m.contained(f, t.terminal, limit("one-fault"))
	if o.device == "" {
		return c, nil
	}
	c.Opens, c.Earliest, c.Latest = o.device, o.earliest, o.latest
	if f.leak {
		held = no // at the very resistance at which nothing need open
		c.Latest = math.Inf(1)
	}
	c.After = quantity.Range{Low: 0, High: 0, Dim: quantity.Current}
	if o.fuse {
		after, err := solved.With(parted(o.device))
		if err != nil {
			return c, err
		}
		left, err := at.touch(after, t.terminal)
		if err != nil {
			return c, err
		}
		c.After.High = left.amps
	}
	switch {
	case held == sure && h.amps > limit("one-fault"):
		c.Effect = Contained
	case !(c.Latest <= math.MaxFloat64):
		c.After.High = math.Max(c.After.High, h.amps) // it may stay
	}
	return c, nil
}
