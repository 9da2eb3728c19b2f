package report

import (
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strings"

	"firstvolt/checks/faults"
	"firstvolt/checks/handbook"
	"firstvolt/checks/mains"
	"firstvolt/checks/quantity"
	"firstvolt/cmd/firstvolt/internal/judging"
	"firstvolt/rules"
)

// Cases prints what a person would feel with each fault of a set.
type Cases struct {
	Painter Painter
	All     bool // every case, in every position
	Only    Only // what the cases were narrowed to
	With    rules.Carried
}

// Only is what a table was narrowed to, by option: for a person in the words of
// the region, for machines in those that do not change with it. Zero: all of it.
type Only struct {
	Says  []string
	Means map[string]string
}

// effects are the words for what a current does, worst first.
var effects = []string{handbook.CanKill, handbook.CannotLetGo, faults.NotSolved, faults.Contained, handbook.Felt, handbook.NotFelt}

// told is an effect as a person reads it.
func told(effect string) string {
	if effect == faults.Contained {
		return "cut off in time"
	}
	return effect
}

// group is the worst of the cases that differ only in how switches, joints and
// lamp stand.
type group struct {
	faults.Case
	more int // of them besides the worst
}

// Sheet prints the cases of one sheet, which stand worst first: without
// All each fault in its worst position, the faults that are felt or opened,
// then what is in reach with the cabinet off, then for each latent fault the
// worst that it can do together with another.
func (t Cases) Sheet(s *judging.Sheet, cases []faults.Case) []byte {
	p := &page{Painter: t.Painter, file: Clean(s.File), words: WordsOf(s)}
	var judged, inside, layer []faults.Case
	for _, c := range cases {
		switch {
		case !c.Latent.None():
			layer = append(layer, c)
		case c.Inside:
			inside = append(inside, c)
		default:
			judged = append(judged, c)
		}
	}
	narrowed := len(t.Only.Means) > 0
	if len(t.Only.Says) > 0 {
		p.file += ", only " + strings.Join(t.Only.Says, ", ")
	}
	switch {
	case len(judged) > 0:
		p.first(p.file+": with one fault at most, the worst is ", strings.ToUpper(told(judged[0].Effect)), ". "+tally(judged), "  ")
	case narrowed:
		p.para("", p.file+":")
	default:
		p.para("", p.file+": no metal of this set is within reach of a hand while its cabinet is on.")
	}
	if len(inside) > 0 {
		p.para("", "With the cabinet off, treat the set as live: it is not judged. Two points of the set at once can kill, and no case counts that. "+
			"Of hands on the metal that the sheet names, "+tally(inside))
	}
	if len(layer) > 0 || !narrowed {
		p.para("", "Not judged: with one more fault that nobody noticed before, "+tally(layer))
	}
	p.para("", "Currents are rms, through a person, from the least to the most possible. Direct current from a rectifier is not counted.")
	if t.All {
		for _, c := range cases {
			p.one(group{Case: c})
		}
		p.standing(t.With)
		return p.Bytes()
	}
	type fault struct {
		faults.Fault
		mains.Touch
	}
	one := func(c faults.Case) fault { return fault{c.Fault, c.Touch} }
	p.groups(grouped(judged, one), true)
	p.groups(grouped(inside, one), true)
	p.groups(grouped(layer, func(c faults.Case) faults.Fault { return c.Latent }), narrowed)
	p.standing(t.With)
	return p.Bytes()
}

// groups prints the worst case of each group, the first even where nothing is
// felt if it is asked for, and how many more are not felt.
func (p *page) groups(groups []group, first bool) {
	quiet := 0
	for i, g := range groups {
		if g.Effect == handbook.NotFelt && (i > 0 || !first) {
			quiet++
			continue
		}
		p.one(g)
	}
	switch {
	case quiet == 0:
	case groups[0].Latent.None():
		p.line("")
		p.para("", fmt.Sprintf("%s of which nothing is felt: --all prints them.", count(quiet, "more fault")))
	default:
		p.line("")
		p.para("", fmt.Sprintf("%s with which nothing is felt: --all prints them.", count(quiet, "more latent fault")))
	}
}

// tally counts cases by their effect.
func tally(cases []faults.Case) string {
	var parts []string
	for _, e := range effects {
		n := 0
		for _, c := range cases {
			if c.Effect == e {
				n++
			}
		}
		if n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", n, told(e)))
		}
	}
	if len(parts) == 0 {
		return "no case."
	}
	return count(len(cases), "case") + ": " + strings.Join(parts, ", ") + "."
}

// grouped keeps of the cases with one key the first, which is the worst.
func grouped[K comparable](cases []faults.Case, key func(faults.Case) K) []group {
	var out []group
	at := map[K]int{}
	for _, c := range cases {
		k := key(c)
		if i, known := at[k]; known {
			out[i].more++
			continue
		}
		at[k] = len(out)
		out = append(out, group{Case: c})
	}
	return out
}

// one prints a case.
func (p *page) one(g group) {
	p.line("")
	about := ": " + g.Fault.String()
	if !g.Latent.None() {
		about = ", latent layer: " + g.Latent.String() + ", and " + g.Fault.String()
	}
	p.first("", strings.ToUpper(told(g.Effect)), p.words.Say(about), "  ")
	p.para("    ", p.words.sentence(says(g.Case)))
	p.item("Before", amps(g.Before))
	p.item("Opens", p.words.Say(g.opens()))
	p.item("After", amps(g.After))
	if h := g.Heat; h.Watts > 0 {
		in := h.In
		if in == "" {
			in = "the insulation that gave way"
		}
		p.item("Stays", p.words.Say(watts(h.Watts)+" in "+in))
	}
	where := []string{"receptacle " + g.Orientation(), "without series lamp"}
	if g.Limiter {
		where[1] = "with the series lamp"
	}
	if stands := g.Switches(); stands != "" {
		where = append([]string{stands}, where...)
	}
	text := p.words.Say(strings.Join(where, ", "))
	if g.more > 0 && g.Latent.None() {
		text += fmt.Sprintf("; no worse in %s", count(g.more, "other position"))
	} else if g.more > 0 {
		text += fmt.Sprintf("; no worse in %s with this latent fault", count(g.more, "other case"))
	}
	p.item("When", text)
}

// opens is what opens, earliest and latest.
func (g group) opens() string {
	switch {
	case g.Opens.Kind == faults.NoDevice && g.Unsolved:
		return "not solved"
	case g.Opens.Kind == faults.NoDevice:
		return "nothing"
	case !(g.Latest <= math.MaxFloat64):
		return g.Opens.String() + ", maybe never"
	}
	text := fmt.Sprintf("%s, earliest %s, latest %s", g.Opens, seconds(g.Earliest), seconds(g.Latest))
	if g.MayFail {
		text += "; may not interrupt so much"
	}
	return text
}

// The machine output of the cases.
type (
	casesDocument struct {
		Firstvolt string            `json:"firstvolt"`
		Sheet     string            `json:"sheet"`
		Digest    string            `json:"digest"`
		Only      map[string]string `json:"only,omitempty"` // what the cases were narrowed to
		Cases     []oneCase         `json:"cases"`
		carried
	}
	oneCase struct {
		Fault       string   `json:"fault"`
		Subject     string   `json:"subject"`
		Orientation string   `json:"orientation"`
		Switches    string   `json:"switches"`
		Latent      string   `json:"latent"` // empty: none
		Limiter     bool     `json:"limiter"`
		Touches     string   `json:"touches"`
		Inside      bool     `json:"inside"` // in reach only while the cabinet is off
		Before      amperes  `json:"before"`
		Opens       *opening `json:"opens"` // null: nothing
		After       amperes  `json:"after"`
		Effect      string   `json:"effect"`
		Solved      bool     `json:"solved"`          // false: a rectifier or what strikes takes part
		Heat        *heat    `json:"stays,omitempty"` // where nothing need open
		Says        string   `json:"says"`
	}
	heat struct {
		Watts float64 `json:"watts"`
		In    string  `json:"in"` // a part; empty: the insulation that gave way
	}
	amperes struct {
		Low  float64 `json:"low"`
		High float64 `json:"high"`
	}
	opening struct {
		What     string   `json:"what"`
		Earliest float64  `json:"earliest"`          // s
		Latest   *float64 `json:"latest"`            // s; null: maybe never
		MayFail  bool     `json:"may_not_interrupt"` // more flows than the fuse is sure to interrupt
	}
)

// JSON writes every case of a sheet as one object.
func (t Cases) JSON(w io.Writer, version string, s *judging.Sheet, cases []faults.Case) error {
	doc := casesDocument{Firstvolt: version, Sheet: s.File, Digest: s.Digest, Only: t.Only.Means, Cases: []oneCase{}, carried: carriedBy(t.With)}
	for _, c := range cases {
		one := oneCase{
			Fault: c.Fault.Name(), Subject: c.Fault.Subject(), Orientation: c.Orientation(), Switches: c.Switches(),
			Limiter: c.Limiter, Touches: c.Touch.String(), Inside: c.Inside, Effect: c.Effect, Solved: !c.Unsolved, Says: says(c),
			Before: amperes{c.Before.Low, c.Before.High}, After: amperes{c.After.Low, c.After.High},
		}
		if c.Heat.Watts > 0 {
			one.Heat = &heat{quantity.Six(c.Heat.Watts), c.Heat.In}
		}
		if !c.Latent.None() {
			one.Latent = c.Latent.String()
		}
		if c.Opens.Kind != faults.NoDevice {
			one.Opens = &opening{What: c.Opens.String(), Earliest: c.Earliest, MayFail: c.MayFail}
			if c.Latest <= math.MaxFloat64 {
				one.Opens.Latest = &c.Latest
			}
		}
		doc.Cases = append(doc.Cases, one)
	}
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(doc)
}
