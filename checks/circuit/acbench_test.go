package circuit

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"testing"
)

// largeAC is a network of that many elements on two thirds as many nodes, a
// tenth of them capacitors and one in thirty a winding, on cores of five.
func largeAC(elements int) []Element {
	r := rand.New(rand.NewPCG(17, 18))
	list := large(elements)
	list[0] = source("service", "n0", "n1", 230, 0.3)
	for i := range list[1:] {
		e := &list[i+1]
		switch {
		case i%30 == 7:
			w := winding(e.Name, "T"+strconv.Itoa(i/150), e.A, e.B, 1+300*r.Float64(), 1+20*r.Float64(), 1e-3)
			if i%150 == 7 {
				w.Lm = Exactly(10)
			}
			*e = w
		case i%10 == 3:
			*e = farad(e.Name, e.A, e.B, 1e-9*math.Pow(10, 3*r.Float64()))
		}
	}
	return list
}

// How the time of one solution grows from 10 to 1000 elements, as a power of
// their number.
func BenchmarkACGrowth(b *testing.B) {
	var lastTime, lastSize float64
	for _, n := range []int{10, 50, 200, 1000} {
		c := New(largeAC(n))
		b.Run(strconv.Itoa(n), func(b *testing.B) {
			for b.Loop() {
				if _, err := c.AC(50, AtLow); err != nil {
					b.Fatal(err)
				}
			}
			took, size := float64(b.Elapsed())/float64(b.N), float64(n)
			if lastSize > 0 && lastSize != size {
				b.ReportMetric(math.Log(took/lastTime)/math.Log(size/lastSize), "exponent")
			}
			lastTime, lastSize = took, size
		})
	}
}

// faults are a thousand changes of a set of 150 elements: a person between
// two nets, and with each something shorted or taken out.
func faults(list []Element) [][]Branch {
	r := rand.New(rand.NewPCG(19, 20))
	all := make([][]Branch, 1000)
	place := func() string { return list[r.IntN(len(list))].B }
	for i := range all {
		all[i] = []Branch{{A: "n" + strconv.Itoa(2+i%10), B: "n1", Z: complex(2000, -float64(i))}}
		if i%3 == 0 {
			all[i] = append(all[i], Branch{In: list[1+r.IntN(len(list)-1)].Name, Z: 1e6})
		} else {
			all[i] = append(all[i], Branch{A: place(), B: place(), Z: 0.1})
		}
	}
	return all
}

// The current in the person for a thousand faults: by updates of one
// factorisation (which is counted), each afresh, and each by a circuit of its
// own in decks of fifty for ngspice.
func BenchmarkThousandFaults(b *testing.B) {
	list := largeAC(150)
	changes := faults(list)
	c := New(list)
	ask := func(b *testing.B, s *Solved) {
		if i, err := s.Added(0); err != nil || !finite(i) {
			b.Fatal(i, err)
		}
	}
	b.Run("update", func(b *testing.B) {
		for b.Loop() {
			s, err := c.AC(50, AtLow)
			if err != nil {
				b.Fatal(err)
			}
			for _, x := range changes {
				with, err := s.With(x...)
				if err != nil {
					b.Fatal(err)
				}
				ask(b, with)
			}
		}
	})
	b.Run("fresh", func(b *testing.B) {
		s, err := c.AC(50, AtLow)
		if err != nil {
			b.Fatal(err)
		}
		for b.Loop() {
			for _, x := range changes {
				with, err := s.origin.fresh(x)
				if err != nil {
					b.Fatal(err)
				}
				ask(b, with)
			}
		}
	})
	b.Run("ngspice", func(b *testing.B) {
		var decks []string
		const each = 50
		for at := 0; at < len(changes); at += each {
			w := deckWriter{}
			w.line("* faults")
			var asked []string
			for i, x := range changes[at : at+each] {
				changed := append([]Element(nil), list...)
				for k, f := range x {
					e := ohm(fmt.Sprintf("branch%d", k), f.A, f.B, real(f.Z))
					for j := range changed {
						if f.In != "" && changed[j].Name == f.In {
							e.A, e.B, changed[j].A = changed[j].A, "within", "within"
						}
					}
					changed = append(changed, e)
				}
				nodes, err := New(changed).deck(&w, fmt.Sprintf("c%d", i), 50, AtLow)
				if err != nil {
					b.Fatal(err)
				}
				asked = append(asked, nodes[0])
			}
			w.run(50, asked)
			decks = append(decks, w.text.String())
		}
		for b.Loop() {
			for _, deck := range decks {
				if got := simulated(b, deck); len(got) != each {
					b.Fatalf("%d answers", len(got))
				}
			}
		}
	})
}

// A whole table of faults is worked out by updates of one factorisation, all
// but a few that would cost digits.
func TestThousandFaultsAreUpdates(t *testing.T) {
	list := largeAC(150)
	s, err := New(list).AC(50, AtLow)
	if err != nil {
		t.Fatal(err)
	}
	updates := 0
	changes := faults(list)
	for _, x := range changes {
		with, err := s.With(x...)
		if err != nil {
			t.Fatal(err)
		}
		if with.small != nil {
			updates++
		}
		if i, err := with.Added(0); err != nil || !finite(i) {
			t.Fatal(i, err)
		}
	}
	if updates < len(changes)*29/30 {
		t.Errorf("only %d of %d by update", updates, len(changes))
	}
}
