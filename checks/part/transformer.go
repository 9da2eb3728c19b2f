package part

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strconv"
	"strings"

	"firstvolt/checks/circuit"
	"firstvolt/checks/pattern"
	"firstvolt/checks/quantity"
	"firstvolt/checks/strict"
)

// mostLoad is more than any winding of a set carries, A: the largest sets have
// heaters of some 20 A together (common practice).
const mostLoad = 100

var windingShape = &strict.Shape{Map: &strict.MapShape{Keys: []strict.Key{
	{Name: "ends", Shape: ListOf(Name(), 2, 2), Required: true, Doc: "its two end terminals"},
	key("tap", Name(), "its middle terminal"),
	key("taps", MapOf(Quantity(quantity.Voltage)), "further terminals with the volts from the first end"),
	key("voltage", windingVolts(), "volts from end to end at load"),
	key("no-load", windingVolts(), "volts from end to end without load"),
	key("load", bounded(quantity.Current, "more than zero, and at most 100 A", func(r quantity.Range) bool { return r.Low > 0 && r.Low <= mostLoad }), "current at that voltage"),
	key("dot", Name(), "the end that carries the phase mark"),
	Note,
}}}

// eachHalf are the volts of a tapped winding as its label has them: 350-0-350 V.
var eachHalf = pattern.Of(`^(\d+(?:\.\d+)?)\s*V?\s*(?:[-–/]\s*0\s*(?:V\s*)?[-–/]|\+)\s*(\d+(?:\.\d+)?)\s*(?:V\D*)?$|^2\s*[x×*]\s*(\d+(?:\.\d+)?)\s*(?:V\D*)?$`)

// windingVolts is the shape of the volts of a winding, from end to end.
func windingVolts() *strict.Shape {
	s := Above(quantity.Voltage)
	plain := s.Text.Parse
	s.Text.Parse = func(text string) (any, error) {
		m := eachHalf().FindStringSubmatch(text)
		if m == nil {
			return plain(text)
		}
		a, errA := strconv.ParseFloat(m[1]+m[3], 64)
		b, errB := strconv.ParseFloat(m[2]+m[3], 64)
		if errA != nil || errB != nil || a > 1e6 || b > 1e6 {
			return plain(text)
		}
		right := fmt.Sprintf("write %s, from end to end, and its middle terminal as tap:", quantity.FormatTo(a+b, quantity.Voltage, 6))
		if a != b {
			right = fmt.Sprintf("write %s, from end to end, and the terminal between as one of taps:", quantity.FormatTo(a+b, quantity.Voltage, 6))
		}
		return nil, &strict.Fault{Wrong: fmt.Sprintf("%q are the volts of each half", text), Right: right}
	}
	return s
}

// wire-wound kinds with coupled windings share everything but their use.
func coupled(name string, traits Trait, doc string) *Kind {
	return &Kind{
		Name: name, Traits: traits, Doc: doc,
		Keys: []strict.Key{
			key("windings", MapOf(windingShape), "each winding with its ends"),
			key("shield", Name(), "the terminal of the screen between windings"),
			key("power", Above(quantity.Power), "rated VA or watts"),
		},
		Terminals: func(p *Part) []string {
			t := []string{}
			for _, w := range p.Windings {
				t = append(t, w.Order...)
			}
			if s := p.Word("shield"); s != "" {
				t = append(t, s)
			}
			return t
		},
		Through: func(*Part) (string, string, bool) { return "", "", false },
		Elements: func(p *Part, _ State) []circuit.Element {
			var es []circuit.Element
			for _, w := range p.Windings {
				es = append(es, p.sections(w)...)
			}
			return es
		},
		Failures: fails(Failure{Way: Insulated}),
	}
}

var (
	transformer       = coupled("transformer", Load|MainsCore, "a mains transformer")
	outputTransformer = coupled("output-transformer", Load|OutputCore, "an output transformer")
)

var autotransformer = &Kind{
	Name: "autotransformer", Doc: "a tapped winding: it conducts from end to end and isolates nothing",
	Traits: Load | TappedCore,
	Keys: []strict.Key{
		{Name: "taps", Shape: MapOf(Quantity(quantity.Voltage)), Required: false, Doc: "its terminals in order, each with the volts from the first"},
		key("power", Above(quantity.Power), "rated VA or watts"),
	},
	Terminals: func(p *Part) []string {
		t := []string{}
		if taps := p.Node.Get("taps"); taps != nil {
			for _, e := range taps.Entries {
				t = append(t, e.Key)
			}
		}
		return t
	},
	Through: func(*Part) (string, string, bool) { return "", "", false },
	Elements: func(p *Part, _ State) []circuit.Element {
		var es []circuit.Element
		for _, w := range p.Windings {
			es = append(es, p.sections(w)...)
		}
		return es
	},
	Failures: fails(Failure{Way: Insulated}),
}

// sections are the stretches of a winding from terminal to terminal. Their
// ohms are not known here: they come from readings.
func (p *Part) sections(w *Winding) []circuit.Element {
	var es []circuit.Element
	volts := math.NaN()
	if v, ok := w.Volts(); ok {
		volts = v.High
	} else if w.span > 0 {
		volts = w.span
	}
	for i := 1; i < len(w.Order); i++ {
		e := circuit.Element{Name: p.SectionName(w, i), A: p.Full(w.Order[i-1]), B: p.Full(w.Order[i]),
			Conducts: circuit.Conducting, R: anyOhms(), Core: p.Name, Law: circuit.Winding}
		if w.Share != nil && !math.IsNaN(volts) {
			t := volts * (w.Share[i] - w.Share[i-1])
			e.Turns = circuit.Interval{Low: t, High: t}
		}
		es = append(es, e)
	}
	return es
}

// SectionName is the name of stretch i (from Order[i-1] to Order[i]).
func (p *Part) SectionName(w *Winding, i int) string {
	if len(w.Order) == 2 {
		return p.Name + "." + w.Name
	}
	return fmt.Sprintf("%s.%s %s-%s", p.Name, w.Name, w.Order[i-1], w.Order[i])
}

// HasSection tells whether a stretch of the winding has that name.
func (p *Part) HasSection(w *Winding, section string) bool {
	for i := 1; i < len(w.Order); i++ {
		if p.SectionName(w, i) == section {
			return true
		}
	}
	return false
}

// WindingOf is the winding that has a stretch of that name, the first where none has.
func (p *Part) WindingOf(section string) *Winding {
	for _, w := range p.Windings {
		if p.HasSection(w, section) {
			return w
		}
	}
	return p.Windings[0]
}

// Volts is the winding's stated voltage from end to end, no-load if given.
func (w *Winding) Volts() (quantity.Range, bool) {
	if v, ok := ValueOf(w.Node.Get("no-load")); ok {
		return v, true
	}
	return ValueOf(w.Node.Get("voltage"))
}

// readWindings fills Windings from the node and reports what does not fit.
func (p *Part) readWindings() []strict.Problem {
	if p.Kind == autotransformer {
		return p.readTapped()
	}
	n := p.Node.Get("windings")
	if n == nil {
		return nil
	}
	var out []strict.Problem
	owner := map[string]string{}
	claim := func(at strict.Pos, t, w string) {
		c := strict.Canon(t)
		if first, ok := owner[c]; ok && first == w {
			out = append(out, strict.Problem{Pos: at, Wrong: fmt.Sprintf("terminal %s stands twice in %s of %s", t, w, p.Name), Right: "name each terminal once"})
		} else if ok {
			out = append(out, strict.Problem{Pos: at, Wrong: fmt.Sprintf("terminal %s of %s belongs to %s already", t, p.Name, first), Right: "give each winding its own ends"})
		}
		owner[c] = w
	}
	for _, e := range n.Entries {
		ends := e.Value.Get("ends")
		if e.Value == nil || ends == nil || len(ends.Items) != 2 {
			p.Partial = true
			continue // reported by the shape
		}
		w := &Winding{Name: e.Key, Role: roleOf(e.Key), At: e.KeyPos, Node: e.Value,
			Ends: [2]string{ends.Items[0].Text, ends.Items[1].Text}, Tap: e.Value.Word("tap")}
		claim(ends.Items[0].Pos, w.Ends[0], w.Name)
		claim(ends.Items[1].Pos, w.Ends[1], w.Name)
		if w.Tap != "" {
			claim(e.Value.Get("tap").Pos, w.Tap, w.Name)
		}
		out = append(out, p.order(w, claim)...)
		if d := e.Value.Get("dot"); d != nil && !slices.Contains(w.Ends[:], d.Text) {
			out = append(out, strict.Problem{Pos: d.Pos, Wrong: fmt.Sprintf("the dot of %s.%s is at %s, which is not one of its ends", p.Name, w.Name, d.Text), Right: "one of: " + strings.Join(w.Ends[:], ", ")})
		}
		p.Windings = append(p.Windings, w)
	}
	if s := p.Node.Get("shield"); s != nil {
		claim(s.Pos, s.Text, "shield")
	}
	return out
}

// order puts the taps of a winding in their place between its ends.
func (p *Part) order(w *Winding, claim func(strict.Pos, string, string)) []strict.Problem {
	type stop struct {
		name  string
		volts float64
	}
	var out []strict.Problem
	total := math.NaN()
	if v, ok := w.Volts(); ok {
		total = v.High
	}
	stops := []stop{}
	if taps := w.Node.Get("taps"); taps != nil {
		for _, e := range taps.Entries {
			claim(e.KeyPos, e.Key, w.Name)
			v, ok := ValueOf(e.Value)
			if !ok {
				continue
			}
			if v.High > total {
				out = append(out, strict.Problem{Pos: e.Value.Pos, Wrong: fmt.Sprintf("tap %s of %s.%s lies at more than the whole winding", e.Key, p.Name, w.Name), Right: "count the volts of a tap from the first end"})
			}
			stops = append(stops, stop{e.Key, v.High})
		}
	}
	if w.Tap != "" {
		middle := total / 2
		if math.IsNaN(total) && len(stops) > 0 {
			// Where the middle lies among the taps is not known: no share is
			// given below, and its place in the order says nothing.
			middle = stops[len(stops)/2].volts
		}
		stops = append(stops, stop{w.Tap, middle})
	}
	sort.SliceStable(stops, func(i, j int) bool { return stops[i].volts < stops[j].volts })
	w.Order = []string{w.Ends[0]}
	w.Share = []float64{0}
	for _, s := range stops {
		w.Order = append(w.Order, s.name)
		share := s.volts / total
		if s.name == w.Tap {
			share = 0.5
		}
		w.Share = append(w.Share, share)
	}
	w.Order = append(w.Order, w.Ends[1])
	w.Share = append(w.Share, 1)
	for _, s := range w.Share {
		if math.IsNaN(s) || math.IsInf(s, 0) {
			w.Share = nil
			break
		}
	}
	return out
}

// readTapped makes the one winding of an autotransformer.
func (p *Part) readTapped() []strict.Problem {
	taps := p.Node.Get("taps")
	if taps == nil {
		return nil
	}
	w := &Winding{Name: "winding", Role: "auto", At: p.At, Node: p.Node}
	var volts []float64
	var out []strict.Problem
	seen := map[string]string{}
	for _, e := range taps.Entries {
		if first, ok := seen[strict.Canon(e.Key)]; ok {
			out = append(out, strict.Problem{Pos: e.KeyPos, Wrong: fmt.Sprintf("the taps %s and %s of %s are one and the same", first, e.Key, p.Name), Right: "keep one of them"})
			continue
		}
		seen[strict.Canon(e.Key)] = e.Key
		v, ok := ValueOf(e.Value)
		if !ok {
			continue
		}
		if len(volts) > 0 && v.High < volts[len(volts)-1] {
			out = append(out, strict.Problem{Pos: e.Value.Pos, Wrong: fmt.Sprintf("the taps of %s are not in order", p.Name), Right: "write them from the lowest volts to the highest"})
		}
		w.Order = append(w.Order, e.Key)
		volts = append(volts, v.High)
	}
	if len(w.Order) < 2 {
		return out
	}
	w.Ends = [2]string{w.Order[0], w.Order[len(w.Order)-1]}
	first, span := volts[0], volts[len(volts)-1]-volts[0]
	for _, v := range volts {
		w.Share = append(w.Share, (v-first)/span)
	}
	if !(span > 0) {
		w.Share = nil
	} else {
		w.span = span
	}
	p.Windings = []*Winding{w}
	return out
}

// TapVolts is the voltage between two terminals of an autotransformer or a
// winding, as a share of the whole.
func (w *Winding) TapVolts(a, b string) (float64, bool) {
	i, j := slices.Index(w.Order, a), slices.Index(w.Order, b)
	if i < 0 || j < 0 || w.Share == nil {
		return 0, false
	}
	return math.Abs(w.Share[i] - w.Share[j]), true
}

func roleOf(name string) string {
	for _, r := range Roles {
		if strings.HasPrefix(strings.ToLower(name), r) {
			return r
		}
	}
	return "other"
}
