package entry

import (
	"fmt"
	"math"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
)

var windingsDriven = &figure.Def{Name: "windings-drive-each-other", Room: "entry", Of: []string{"set"}, Present: true,
	Says: "wire or closed contacts join two windings of a transformer side by side, and their volts or their phase differ"}

// sideBySide is how far apart, as a share of the lower, the volts of windings
// side by side may be: some copper's drop drives some of the rated current round
// (common practice; small transformers drop 5 % and more at their load).
const sideBySide = 0.05

// computeWindingsDriven looks at every two windings of a transformer that are
// joined at both ends of a stretch: each is then a load of the other, with next
// to nothing but copper in the way.
func computeWindingsDriven(b *bench.Bench) figure.Figure {
	var needs []figure.Need
	for _, st := range positions(b, bench.State{}) {
		c := b.Circuit(st)
		for _, p := range b.Parts("transformer") {
			for i, v := range p.Windings {
				for _, w := range p.Windings[i+1:] {
					found, lacks := drive(c, p, v, w)
					if found != nil {
						return present(windingsDriven, b.Set(), found.witness, found.note)
					}
					needs = append(needs, lacks...)
				}
			}
		}
	}
	if len(needs) > 0 {
		return figure.NotKnown(windingsDriven, b.Set(), needs...)
	}
	return figure.Is(windingsDriven, b.Set(), false)
}

// driven is two windings that drive each other.
type driven struct {
	witness []string
	note    string
}

// drive finds stretches of two windings with both their ends in common. The
// phase of sections of a primary is primary-sections-phased's matter.
func drive(c *circuit.Circuit, p *part.Part, v, w *part.Winding) (*driven, []figure.Need) {
	var needs []figure.Need
	for i, from := range v.Order {
		r := c.Reach([]string{p.Full(from)}, bench.Contacts)
		for j := i + 1; j < len(v.Order); j++ {
			s := c.Reach([]string{p.Full(v.Order[j])}, bench.Contacts)
			for k, near := range w.Order {
				for l, far := range w.Order {
					if k == l || !r.Has(p.Full(near)) || !s.Has(p.Full(far)) || r.Has(p.Full(v.Order[j])) {
						continue
					}
					witness := append(path(r, p.Full(near)), path(s, p.Full(far))...)
					a, okA := between(v, i, j)
					z, okZ := between(w, k, l)
					most := math.Max(a.High, z.High)
					switch {
					case !okA || !okZ:
						needs = append(needs, voltsOf(p, v, okA)...)
						needs = append(needs, voltsOf(p, w, okZ)...)
					case math.Max(a.Low, z.Low) > (1+sideBySide)*math.Min(a.High, z.High):
						return &driven{witness, fmt.Sprintf("%s on %s.%s and %s on %s.%s lie side by side", a, p.Name, v.Name, z, p.Name, w.Name)}, nil
					case most > (1+sideBySide)*math.Min(a.Low, z.Low):
						needs = append(needs, voltsOf(p, v, false)...)
					}
					if v.Role == "primary" && w.Role == "primary" {
						continue
					}
					dv, dw := v.Node.Word("dot"), w.Node.Word("dot")
					switch {
					case dv == "" || dw == "":
						needs = append(needs, dotOf(p, v)...)
						needs = append(needs, dotOf(p, w)...)
					case (dv == v.Ends[0]) == (dw == w.Ends[0]) != (k < l):
						return &driven{witness, fmt.Sprintf("%s.%s and %s.%s lie side by side against each other's phase", p.Name, v.Name, p.Name, w.Name)}, nil
					}
				}
			}
		}
	}
	return nil, needs
}

// between is the volts of a winding between two of its terminals.
func between(w *part.Winding, i, j int) (quantity.Range, bool) {
	volts, ok := part.ValueOf(w.Node.Get("voltage"))
	if !ok {
		volts, ok = part.ValueOf(w.Node.Get("no-load"))
	}
	if !ok || w.Share == nil || !volts.Bounded() {
		return quantity.Range{}, false
	}
	return volts.Scale(math.Abs(w.Share[j] - w.Share[i])), true
}

func voltsOf(p *part.Part, w *part.Winding, known bool) []figure.Need {
	if known {
		return nil
	}
	return []figure.Need{{What: p.Name + "." + w.Name + " voltage", How: "volts of a winding that lies beside another: its label, the diagram, a low voltage fed in"}}
}

func dotOf(p *part.Part, w *part.Winding) []figure.Need {
	if w.Node.Word("dot") != "" {
		return nil
	}
	return []figure.Need{{What: p.Name + "." + w.Name + " dot", How: "which end of the winding carries the phase mark; a low voltage fed in tells"}}
}
