package circuit

import (
	"slices"
	"strings"
	"testing"
)

// desk is a small mains entry: plug, switch in one conductor, fuse, winding, a
// capacitor across.
func desk() []Element {
	return []Element{
		wire("w1", "plug.hot", "F1.1"), joint("F1", "F1.1", "F1.2"), wire("w2", "F1.2", "S1.1"),
		joint("S1", "S1.1", "S1.2"), wire("w3", "S1.2", "T1.1"), ohm("T1.primary", "T1.1", "T1.2", 20),
		wire("w4", "T1.2", "plug.neutral"), leak("C1", "F1.2", "plug.neutral", 0, 0),
		wire("w5", "plug.ground", "chassis"), wire("w6", "F1.1", "lug"),
	}
}

func trace(path []Step) string {
	var b strings.Builder
	for _, s := range path {
		if s.Via != nil {
			b.WriteString(" -" + s.Via.Name + "- ")
		}
		b.WriteString(s.Terminal)
	}
	return b.String()
}

func TestReach(t *testing.T) {
	c := New(desk())
	out := func(names ...string) func(*Element) bool {
		return func(e *Element) bool { return !slices.Contains(names, e.Name) }
	}
	metal := func(e *Element) bool { return e.Conducts <= Joint }
	for _, x := range []struct {
		name    string
		from    string
		through func(*Element) bool
		reached string
		to      string
		path    string
		touched string
	}{
		{"fuse out", "plug.hot", out("F1"), "F1.1 lug plug.hot", "lug", "plug.hot -w1- F1.1 -w6- lug", "w1 F1 w6"},
		{"metal only", "plug.hot", metal, "F1.1 F1.2 S1.1 S1.2 T1.1 lug plug.hot", "T1.1",
			"plug.hot -w1- F1.1 -F1- F1.2 -w2- S1.1 -S1- S1.2 -w3- T1.1", "w1 F1 w2 S1 w3 T1.primary C1 w6"},
		{"shortest way", "plug.hot", nil, "F1.1 F1.2 S1.1 S1.2 T1.1 T1.2 lug plug.hot plug.neutral", "plug.neutral",
			"plug.hot -w1- F1.1 -F1- F1.2 -C1- plug.neutral", "w1 F1 w2 S1 w3 T1.primary w4 C1 w6"},
		{"nothing allowed", "chassis", func(*Element) bool { return false }, "chassis", "plug.ground", "", "w5"},
		{"start", "chassis", nil, "chassis plug.ground", "chassis", "chassis", "w5"},
		{"nearest of two starts", "chassis plug.hot", nil, "F1.1 F1.2 S1.1 S1.2 T1.1 T1.2 chassis lug plug.ground plug.hot plug.neutral", "lug", "plug.hot -w1- F1.1 -w6- lug", "w1 F1 w2 S1 w3 T1.primary w4 C1 w5 w6"},
		{"no such start", "nowhere", nil, "", "chassis", "", ""},
	} {
		t.Run(x.name, func(t *testing.T) {
			r := c.Reach(strings.Fields(x.from), x.through)
			if got := strings.Join(r.Terminals(), " "); got != x.reached {
				t.Errorf("reached %q, want %q", got, x.reached)
			}
			if got := trace(r.Path(x.to)); got != x.path {
				t.Errorf("path %q, want %q", got, x.path)
			}
			if r.Has(x.to) != (x.path != "") {
				t.Errorf("Has(%s) = %t", x.to, r.Has(x.to))
			}
			var touched []string
			for _, e := range r.Touched() {
				touched = append(touched, e.Name)
			}
			if got := strings.Join(touched, " "); got != x.touched {
				t.Errorf("touched %q, want %q", got, x.touched)
			}
		})
	}
	if lost := c.Reach([]string{"chassis", "nowhere"}, nil).Lost(); !slices.Equal(lost, []string{"nowhere"}) {
		t.Errorf("lost %v", lost)
	}
	if c.Reach([]string{"chassis"}, nil).Has("nowhere") {
		t.Error("reached a terminal that is not there")
	}
}

func TestAgainForgets(t *testing.T) {
	c := New(desk())
	r := c.Reach([]string{"plug.hot", "nowhere"}, nil)
	r.Again([]string{"chassis"}, nil)
	if r.Has("plug.hot") || r.Has("lug") || !r.Has("plug.ground") || len(r.Lost()) != 0 {
		t.Errorf("an earlier search shows through: %v, lost %v", r.Terminals(), r.Lost())
	}
	if n := testing.AllocsPerRun(20, func() { r.Again([]string{"plug.hot"}, nil) }); n > 0 {
		t.Errorf("%g allocations in a repeated search, want none", n)
	}
}

func TestCut(t *testing.T) {
	c := New(append(desk(), wire("w7", "S1.1", "S1.2")))
	for _, x := range []struct {
		a, b, element string
		want          bool
	}{
		{"plug.hot", "T1.1", "F1", true},
		{"T1.1", "plug.hot", "F1", true},
		{"plug.hot", "T1.1", "S1", false},             // w7 stands in for it
		{"plug.hot", "plug.neutral", "C1", false},     // there is the winding
		{"plug.hot", "chassis", "F1", false},          // never joined
		{"plug.hot", "T1.1", "no such thing", false},  //
		{"plug.hot", "plug.hot", "w1", false},         // itself
		{"plug.ground", "chassis", "w5", true},        //
		{"plug.ground", "no such place", "w5", false}, //
	} {
		if got := c.Cut(x.a, x.b, x.element, nil); got != x.want {
			t.Errorf("%s taken out between %s and %s: %t, want %t", x.element, x.a, x.b, got, x.want)
		}
	}
	if !c.Cut("plug.hot", "plug.neutral", "T1.primary", func(e *Element) bool { return e.Conducts != Bridging }) {
		t.Error("the winding is the only way that conducts")
	}
}

func TestNets(t *testing.T) {
	c := New(append(desk(), Element{Name: "cord", A: "lug", B: "lamp", R: Anything()}), "spare")
	if got := c.Net("plug.hot"); !slices.Equal(got, []string{"F1.1", "lamp", "lug", "plug.hot"}) {
		t.Errorf("net of plug.hot: %v", got)
	}
	if got := c.Net("spare"); !slices.Equal(got, []string{"spare"}) {
		t.Errorf("net of spare: %v", got)
	}
	if got := c.Net("nowhere"); got != nil {
		t.Errorf("net of nowhere: %v", got)
	}
	for _, x := range []struct {
		a, b string
		want bool
	}{{"lamp", "plug.hot", true}, {"F1.1", "F1.2", false}, {"spare", "spare", true}, {"nowhere", "nowhere", false}, {"spare", "nowhere", false}} {
		if got := c.SameNet(x.a, x.b); got != x.want {
			t.Errorf("SameNet(%s, %s) = %t", x.a, x.b, got)
		}
	}
	if !c.Has("spare") || c.Has("nowhere") {
		t.Error("Has")
	}
}

func TestWithout(t *testing.T) {
	c := New(desk())
	less := c.Without("w5", "F1", "no such thing")
	if !less.Has("chassis") || less.SameNet("chassis", "plug.ground") || len(less.Elements()) != len(c.Elements())-2 {
		t.Errorf("without: %d elements, chassis known %t", len(less.Elements()), less.Has("chassis"))
	}
	if got, err := less.Resistance([]string{"chassis"}, []string{"plug.ground"}); err != nil || !got.Open {
		t.Errorf("a probe on what nothing joins: %+v, %v; want open", got, err)
	}
	if !c.SameNet("chassis", "plug.ground") {
		t.Error("the circuit itself changed")
	}
	if less.Element("F1") != nil || less.Element("S1").Name != "S1" {
		t.Error("Element")
	}
}

func TestBetween(t *testing.T) {
	for _, x := range []struct {
		name        string
		elements    []Element
		plus, minus string
		want        string
	}{
		{"plug to plug", desk(), "plug.hot", "plug.neutral", "w1 F1 w2 S1 w3 T1.primary w4"},
		{"to a dead end", desk(), "lug", "S1.2", "F1 w2 S1 w6"},
		{"not joined", desk(), "plug.hot", "chassis", ""},
		{"no such place", desk(), "plug.hot", "nowhere", ""},
		{"overlapping", desk(), "plug.hot lug", "lug", ""},
		{"shorted through the leads", append(desk(), ohm("R", "lug", "chassis", 1)), "plug.hot chassis", "S1.2", "w1 F1 w2 S1"},
		{"valve forward", []Element{ohm("R", "a", "b", 1), valve("D", "b", "c"), ohm("Q", "a", "c", 1)}, "a", "c", "R D Q"},
		{"valve backward", []Element{ohm("R", "a", "b", 1), valve("D", "b", "c"), ohm("Q", "a", "c", 1)}, "c", "a", "Q"},
		{"valve onto the red lead", []Element{ohm("R", "a", "b", 1), ohm("S", "b", "c", 1), valve("D", "b", "a")}, "a", "c", "R S"},
		{"valve from the black lead", []Element{ohm("R", "a", "b", 1), ohm("S", "b", "c", 1), valve("D", "c", "b")}, "a", "c", "R S"},
		{"back to back", []Element{valve("D", "a", "b"), valve("E", "c", "b"), ohm("R", "a", "c", 1)}, "a", "c", "R"},
		{"valve fed only through itself", []Element{ohm("R", "d", "e", 1), ohm("S", "e", "m", 1), valve("D", "c", "e"), valve("E", "p", "c"), valve("F", "d", "c")}, "p", "m", "S D E"},
		{"valve that leads only back", []Element{ohm("P", "p", "m", 1), ohm("Q", "b", "d", 1), ohm("R", "m", "d", 1), ohm("S", "b", "p", 1), ohm("T", "b", "c", 1), valve("D", "d", "c")}, "p", "m", "P Q R S"},
		// E (d to b) goes, since d is fed through b alone; only then does D (c to
		// d) lead nowhere but back to c.
		{"valve that leads only to another that does not conduct", []Element{
			ohm("P", "c", "m", 1), ohm("Q", "c", "d", 1), ohm("R", "c", "b", 1), valve("B", "p", "b"), valve("D", "c", "d"), valve("C", "b", "d"), valve("F", "b", "m"), valve("E", "d", "b"),
		}, "p", "m", "P Q R B C F"},
		{"open contact", []Element{{Name: "S", A: "a", B: "c", Conducts: Joint, R: Interval{inf, inf}}, span("T", "a", "c", 0, inf)}, "a", "c", "T"},
		{"two rings at one place", []Element{
			ohm("a", "1", "2", 1), ohm("b", "2", "3", 1), ohm("c", "3", "1", 1), ohm("d", "3", "4", 1), ohm("e", "4", "5", 1), ohm("f", "5", "3", 1),
		}, "1", "2", "a b c"},
	} {
		t.Run(x.name, func(t *testing.T) {
			var got []string
			for _, e := range New(x.elements).Between(strings.Fields(x.plus), strings.Fields(x.minus)) {
				got = append(got, e.Name)
			}
			if strings.Join(got, " ") != x.want {
				t.Errorf("%q, want %q", strings.Join(got, " "), x.want)
			}
		})
	}
}
