package circuit

import (
	"fmt"
	"math"
	"math/cmplx"
	"strings"
	"unicode"
)

// Deck writes the circuit, with the values that AC would solve it with, for a
// circuit simulator of the SPICE family: `ngspice -b` solves it at the
// frequency (Hz, above 0) and prints the volts of every net. A comment says
// which terminals a net has and which element a line is; net 0 of the deck is
// the zero of every island at once, so that only volts within one island mean
// anything. Of each element named in through, which is a resistance and nothing
// else, it prints the current too, in A. It refuses what AC refuses before it
// solves.
func (c *Circuit) Deck(title string, freq float64, pick func(*Element) Point, through ...string) (string, error) {
	if !(freq > 0) {
		return "", fmt.Errorf("deck: %g Hz is no alternating current", freq)
	}
	w := deckWriter{}
	w.line("* %s", oneLine(title))
	asked, err := c.deck(&w, "", freq, pick)
	if err != nil {
		return "", fmt.Errorf("deck: %w", err)
	}
	var currents []string
	for _, name := range through {
		sum, err := c.deckCurrent(name, freq, pick)
		if err != nil {
			return "", fmt.Errorf("deck: %w", err)
		}
		currents = append(currents, "echo A through "+oneLine(name))
		if sum != "" {
			currents = append(currents, "print mag("+sum+")")
		} else {
			currents = append(currents, "echo 0")
		}
	}
	w.run(freq, asked, currents...)
	return w.text.String(), nil
}

// deckCurrent is the current of an element from the volts across it, as a
// simulator adds it up; "" where both its ends are one net, and nothing flows.
func (c *Circuit) deckCurrent(name string, freq float64, pick func(*Element) Point) (string, error) {
	m, err := c.model(freq, pick)
	if err != nil {
		return "", err
	}
	l := m.layout()
	for i, a := range m.arms {
		if a.name != name {
			continue
		}
		if l.net[a.a] == l.net[a.b] {
			return "", nil
		}
		var volts string
		for k, t := range []int32{a.a, a.b} {
			if l.node[t] >= 0 {
				volts += fmt.Sprintf("%sv(n%d)", [2]string{"", "-"}[k], l.net[t])
			}
		}
		p := pick(&c.elements[i])
		if !(p.R > 0) || math.IsInf(p.R, 1) || p.L > 0 || p.EMF != 0 || a.core >= 0 || volts == "" {
			break
		}
		return fmt.Sprintf("(%s)/%.17g", volts, p.R), nil
	}
	return "", fmt.Errorf("%s is no resistance of which the current could be asked", name)
}

type deckWriter struct{ text strings.Builder }

func (w *deckWriter) line(format string, values ...any) {
	fmt.Fprintf(&w.text, format+"\n", values...)
}

// run asks for the solution and for the volts of the nodes. Without the
// direct-current solution, which a linear circuit does not need and in which a
// node behind a capacitor would have no volts.
func (w *deckWriter) run(freq float64, nodes []string, more ...string) {
	w.line(".options noopac reltol=1e-9")
	w.line(".ac lin 1 %.17g %.17g", freq, freq)
	w.line(".control\nset numdgt=15\nrun")
	for _, n := range nodes {
		w.line("print v(%s)", n)
	}
	for _, line := range more {
		w.line("%s", line)
	}
	w.line("quit\n.endc\n.end")
}

// deck writes the elements, every name of the deck with a prefix of its own,
// and gives the nodes that have volts.
func (c *Circuit) deck(w *deckWriter, prefix string, freq float64, pick func(*Element) Point) ([]string, error) {
	if err := c.Check(); err != nil {
		return nil, err
	}
	m, err := c.model(freq, pick)
	if err != nil {
		return nil, err
	}
	l := m.layout()
	node := func(t int32) string {
		if l.node[t] < 0 {
			return "0"
		}
		return fmt.Sprintf("%sn%d", prefix, l.net[t])
	}
	var asked []string
	members := map[int32][]int32{}
	for t, n := range l.net {
		members[n] = append(members[n], int32(t))
	}
	for t, n := range l.net {
		if int32(t) != n {
			continue
		}
		w.line("* %s: %s", node(n), oneLine(strings.Join(c.sorted(members[n]), ", ")))
		if l.node[n] >= 0 {
			asked = append(asked, node(n))
		}
	}
	for i, a := range m.arms {
		if a.way != path {
			continue
		}
		w.line("* %s", oneLine(a.name))
		d := deckArm{deckWriter: w, number: fmt.Sprintf("%s_%d", prefix, i), a: node(a.a), b: node(a.b)}
		p := pick(&c.elements[i])
		if p.C > 0 {
			w.line("c%s %s %s %.17g", d.number, d.a, d.b, p.C)
		}
		if math.IsInf(p.R, 1) {
			continue
		}
		d.series(p, a, fmt.Sprintf("%score%d", prefix, a.core))
	}
	for k, core := range m.cores {
		if l.core[k] < 0 || core.y == 0 {
			continue
		}
		w.line("* what core %s takes for itself, for one turn", oneLine(core.name))
		if g := real(core.y); g > 0 {
			w.line("r%score%d %[1]score%[2]d 0 %.17g", prefix, k, 1/g)
		}
		if b := imag(core.y); b < 0 {
			w.line("l%score%d %[1]score%[2]d 0 %.17g", prefix, k, 1/(2*math.Pi*freq*-b))
		}
	}
	return asked, nil
}

// deckArm is the lines of one element.
type deckArm struct {
	*deckWriter
	number, a, b string
}

// series writes EMF, R, L and the coupling of a winding from a to b, each
// only where there is one. A winding is a source of turns times the volts of a
// turn, and puts turns times its current into the core.
func (d *deckArm) series(p Point, a arm, core string) {
	type piece struct{ letter, value string }
	var pieces []piece
	if p.EMF != 0 {
		pieces = append(pieces, piece{"v", fmt.Sprintf("dc 0 ac %.17g %.17g", cmplx.Abs(p.EMF), cmplx.Phase(p.EMF)*180/math.Pi)})
	}
	if p.R > 0 {
		pieces = append(pieces, piece{"r", fmt.Sprintf("%.17g", p.R)})
	}
	if p.L > 0 {
		pieces = append(pieces, piece{"l", fmt.Sprintf("%.17g", p.L)})
	}
	if a.core >= 0 {
		pieces = append(pieces, piece{"vi", "dc 0 ac 0"}, piece{"e", fmt.Sprintf("%s 0 %.17g", core, a.turns)})
	}
	from := d.a
	for k, x := range pieces {
		to := d.b
		if k < len(pieces)-1 {
			to = fmt.Sprintf("m%s_%d", d.number, k)
		}
		d.line("%s%s %s %s %s", x.letter, d.number, from, to, x.value)
		from = to
	}
	if a.core >= 0 {
		d.line("f%s 0 %s vi%s %.17g", d.number, core, d.number, a.turns)
	}
}

// oneLine keeps a name from becoming a line of the deck: simulators obey what
// stands on one.
func oneLine(s string) string {
	return strings.Map(func(r rune) rune {
		if !unicode.IsPrint(r) {
			return ' '
		}
		return r
	}, s)
}
