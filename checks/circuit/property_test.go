package circuit

import (
	"math"
	"strconv"
	"testing"

	"pgregory.net/rapid"
)

// drawn is a random network with ranges, insulation, unknown values and, if
// asked for, valves. Values span what a bench meets, milliohms to gigaohms.
func drawn(t *rapid.T, withValves bool) []Element {
	nodes := rapid.IntRange(2, 9).Draw(t, "nodes")
	node := rapid.Map(rapid.IntRange(0, nodes-1), func(i int) string { return "n" + strconv.Itoa(i) })
	value := rapid.Map(rapid.Float64Range(-3, 9), func(x float64) float64 { return math.Pow(10, x) })
	kinds := 7
	if withValves {
		kinds = 8
	}
	var list []Element
	for i := range rapid.IntRange(1, 20).Draw(t, "elements") {
		e := ohm("e"+strconv.Itoa(i), node.Draw(t, "a"), node.Draw(t, "b"), value.Draw(t, "low"))
		switch rapid.IntRange(0, kinds-1).Draw(t, "kind") {
		case 0, 1:
			e.R.High *= rapid.Float64Range(1, 3).Draw(t, "spread")
		case 2:
			e = wire(e.Name, e.A, e.B)
		case 3:
			e.R = Anything()
		case 4:
			e = leak(e.Name, e.A, e.B, e.R.Low, inf)
		case 5:
			e.Conducts, e.R = Joint, Interval{0, e.R.High}
		case 7:
			e = valve(e.Name, e.A, e.B)
		}
		list = append(list, e)
	}
	return list
}

func measured(t *rapid.T, list []Element, plus, minus string) Result {
	got, err := New(list, plus, minus).Resistance([]string{plus}, []string{minus})
	if err != nil {
		t.Fatal(err)
	}
	return got
}

// same compares two ranges but for rounding.
func same(a, b Interval) bool { return near(a.Low, b.Low, 1e-11) && near(a.High, b.High, 1e-11) }

func TestProperties(t *testing.T) {
	t.Run("bounds in order, flags in step", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			got := measured(t, drawn(t, true), "n0", "n1")
			if !(got.R.Low >= 0 && got.R.Low <= got.R.High) {
				t.Fatalf("bounds %v", got.R)
			}
			if got.Open && (got.Unknown || !math.IsInf(got.R.High, 1)) {
				t.Fatalf("open, and yet %+v", got)
			}
			if math.IsInf(got.R.High, 1) && !got.Open && !got.Unknown {
				t.Fatalf("no upper bound and no reason: %+v", got)
			}
			if math.IsInf(got.R.Low, 1) != (len(got.Used) == 0) {
				t.Fatalf("current without a path or a path without current: %+v", got)
			}
		})
	})
	t.Run("a higher resistance never lowers it", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			list := drawn(t, true)
			before := measured(t, list, "n0", "n1").R
			e := &list[rapid.IntRange(0, len(list)-1).Draw(t, "which")]
			if e.Conducts == OneWay || e.Conducts == Bridging && !leaks(e.R) {
				return
			}
			more := rapid.Float64Range(0, 1e6).Draw(t, "more")
			e.R.Low, e.R.High = e.R.Low+more, e.R.High+more
			after := measured(t, list, "n0", "n1").R
			const rounding = 1 - 1e-11
			if !(after.Low >= before.Low*rounding && after.High >= before.High*rounding) {
				t.Fatalf("%v became %v", before, after)
			}
		})
	})
	t.Run("one element more never raises it", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			list := drawn(t, true)
			which := rapid.IntRange(0, len(list)-1).Draw(t, "which")
			c := New(list, "n0", "n1")
			with := measured(t, list, "n0", "n1").R
			without, err := c.Without(list[which].Name).Resistance([]string{"n0"}, []string{"n1"})
			if err != nil {
				t.Fatal(err)
			}
			const rounding = 1 + 1e-11
			if !(with.Low <= without.R.Low*rounding && with.High <= without.R.High*rounding) {
				t.Fatalf("%v with, %v without", with, without.R)
			}
		})
	})
	t.Run("what carries no current can be taken out", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			list := drawn(t, true)
			got := measured(t, list, "n0", "n1")
			used := map[string]bool{}
			for _, name := range got.Used {
				used[name] = true
			}
			var idle []string
			for _, e := range list {
				if !used[e.Name] {
					idle = append(idle, e.Name)
				}
			}
			rest, err := New(list, "n0", "n1").Without(idle...).Resistance([]string{"n0"}, []string{"n1"})
			if err != nil || !same(rest.R, got.R) || rest.Open != got.Open || rest.Unknown != got.Unknown {
				t.Fatalf("%+v with, %+v without %v (%v)", got, rest, idle, err)
			}
		})
	})
	t.Run("plus and minus exchanged, without valves", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			list := drawn(t, false)
			a, b := measured(t, list, "n0", "n1"), measured(t, list, "n1", "n0")
			if !same(a.R, b.R) || a.Open != b.Open || a.Unknown != b.Unknown {
				t.Fatalf("%+v one way, %+v the other", a, b)
			}
		})
	})
	t.Run("valves, plus and minus all turned about", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			list := drawn(t, true)
			a := measured(t, list, "n0", "n1")
			for i := range list {
				list[i].A, list[i].B = list[i].B, list[i].A
			}
			if b := measured(t, list, "n1", "n0"); !same(a.R, b.R) {
				t.Fatalf("%v one way, %v the other", a.R, b.R)
			}
		})
	})
	t.Run("in series", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			list := drawn(t, true)
			r := rapid.Float64Range(1e-3, 1e9).Draw(t, "r")
			alone := measured(t, list, "n0", "n1").R
			got := measured(t, append(list, ohm("more", "n1", "far", r)), "n0", "far").R
			if !same(got, Interval{alone.Low + r, alone.High + r}) {
				t.Fatalf("%v and %g Ω in series: %v", alone, r, got)
			}
		})
	})
	t.Run("in parallel", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			list := drawn(t, false)
			r := rapid.Float64Range(1e-3, 1e9).Draw(t, "r")
			alone := measured(t, list, "n0", "n1").R
			got := measured(t, append(list, ohm("more", "n0", "n1", r)), "n0", "n1").R
			beside := func(x float64) float64 { return 1 / (1/x + 1/r) }
			if !same(got, Interval{beside(alone.Low), beside(alone.High)}) {
				t.Fatalf("%v and %g Ω in parallel: %v", alone, r, got)
			}
		})
	})
	t.Run("a wire merged away", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			list := drawn(t, true)
			x, y := "n2", "n3"
			joined := measured(t, append(list, wire("more", x, y)), "n0", "n1")
			for i := range list {
				if list[i].A == y {
					list[i].A = x
				}
				if list[i].B == y {
					list[i].B = x
				}
			}
			if got := measured(t, list, "n0", "n1"); !same(got.R, joined.R) || got.Open != joined.Open || got.Unknown != joined.Unknown {
				t.Fatalf("%+v by wire, %+v as one terminal", joined, got)
			}
		})
	})
	t.Run("an element split by new places", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			list := drawn(t, false)
			before := measured(t, list, "n0", "n1")
			i := rapid.IntRange(0, len(list)-1).Draw(t, "which")
			e := list[i]
			half := Interval{e.R.Low / 2, e.R.High / 2}
			first, last := e, e
			first.B, first.R = "new1", half
			last.Name, last.A, last.R = "last", "new2", half
			list[i] = first
			got := measured(t, append(list, wire("between", "new1", "new2"), last), "n0", "n1")
			if !same(got.R, before.R) || got.Open != before.Open || got.Unknown != before.Unknown {
				t.Fatalf("%+v whole, %+v split", before, got)
			}
		})
	})
	t.Run("the order of the elements", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			list := drawn(t, true)
			a := measured(t, list, "n0", "n1")
			b := measured(t, rapid.Permutation(list).Draw(t, "order"), "n0", "n1")
			if !same(a.R, b.R) || a.Open != b.Open || a.Unknown != b.Unknown {
				t.Fatalf("%+v in one order, %+v in another", a, b)
			}
		})
	})
}

// onSomePath is what Between finds, by its definition: the elements on some
// path from n0 to n1 that passes no place twice, looked for by trying them all.
func onSomePath(c *Circuit) map[string]bool {
	found := map[string]bool{}
	visited := map[string]bool{}
	var path []string
	var walk func(at string)
	walk = func(at string) {
		if at == "n1" {
			for _, name := range path {
				found[name] = true
			}
			return
		}
		visited[at] = true
		for i := range c.elements {
			e := &c.elements[i]
			next := e.B
			if e.A != at {
				next = e.A
			}
			if e.Conducts == Bridging || e.A != at && (e.B != at || e.Conducts == OneWay) || visited[next] {
				continue
			}
			path = append(path, e.Name)
			walk(next)
			path = path[:len(path)-1]
		}
		visited[at] = false
	}
	walk("n0")
	return found
}

// Without valves Between is exact; of valves it may keep one too many, never
// one too few.
func TestBetweenByDefinition(t *testing.T) {
	for _, withValves := range []bool{false, true} {
		rapid.Check(t, func(t *rapid.T) {
			list := drawn(t, withValves)
			for i := range list { // no shorts: those are told apart by a rule of their own
				if isShort(&list[i]) {
					list[i].R = Exactly(1)
				}
			}
			c := New(list, "n0", "n1")
			want, got := onSomePath(c), map[string]bool{}
			for _, e := range c.Between([]string{"n0"}, []string{"n1"}) {
				got[e.Name] = true
				if !want[e.Name] && !withValves {
					t.Fatalf("%s is on no path", e.Name)
				}
			}
			for name := range want {
				if !got[name] {
					t.Fatalf("%s is on a path and was not found", name)
				}
			}
		})
	}
}
