package circuit

import (
	"math"
	"math/rand/v2"
	"strconv"
	"testing"
)

// large is a network of that many elements on two thirds as many nodes: as
// tangled as a set, and from 1000 on well beyond any.
func large(elements int) []Element {
	r := rand.New(rand.NewPCG(7, 8))
	nodes := 2 * elements / 3
	list := make([]Element, 0, elements)
	for i := range elements {
		a, b := i, i+1
		if i >= nodes-1 {
			a, b = r.IntN(nodes), r.IntN(nodes)
		}
		low := math.Pow(10, -3+9*r.Float64())
		list = append(list, span("e"+strconv.Itoa(i), "n"+strconv.Itoa(a), "n"+strconv.Itoa(b), low, 1.2*low))
	}
	return list
}

// set is as large as a whole table radio: about 150 elements on 100 places.
func set() []Element { return large(150) }

func BenchmarkResistance(b *testing.B) {
	for _, n := range []int{30, 150, 1000} {
		b.Run(strconv.Itoa(n), func(b *testing.B) {
			c := New(large(n))
			for b.Loop() {
				if _, err := c.Resistance([]string{"n0"}, []string{"n9"}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkNew(b *testing.B) {
	list := set()
	for b.Loop() {
		New(list)
	}
}

// Every state of ten switches in a set, one search each.
func BenchmarkReachAllStates(b *testing.B) {
	c := New(set())
	var r Reach
	for b.Loop() {
		r = *c.Reach(nil, nil)
		for state := range 1 << 10 {
			r.Again([]string{"n0"}, func(e *Element) bool {
				i := len(e.Name) - 2 // "e0" to "e9" are the switches
				return i > 0 || state>>(e.Name[1]-'0')&1 == 1
			})
		}
	}
}

// A network far beyond any set is solved without filling in: with the fewest
// neighbours first, taking nodes out adds few links. In any other order it is
// soon a full matrix.
func TestLargeFillsInLittle(t *testing.T) {
	list := large(1000)
	m := newMesh(2*len(list)/3 + 1)
	number := func(terminal string) int32 {
		n, err := strconv.Atoi(terminal[1:])
		if err != nil {
			t.Fatal(err)
		}
		return int32(n)
	}
	for _, e := range list {
		m.add(number(e.A), number(e.B), 1/e.R.Low)
	}
	links := func() (n int) {
		for _, near := range m.near {
			n += len(near)
		}
		return n
	}
	before := links()
	if _, _, err := m.solve(0, 9); err != nil {
		t.Fatal(err)
	}
	if after := links(); !(after <= 6*before) {
		t.Errorf("%d links became %d", before, after)
	}
}
