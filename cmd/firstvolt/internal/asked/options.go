package asked

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"firstvolt/checks/faults"
	"firstvolt/checks/mains"
)

// maker makes filters of what was typed, until one of the names is none.
type maker struct {
	*Words
	out []filter
	err error
}

// filters are what the options that were typed ask of a case; of one case also
// what goes without saying, the fault first.
func (w *Words) filters(t Typed, one bool) ([]filter, error) {
	m := &maker{Words: w}
	m.pair(t, one)
	if f, part, ok := named(m, "part", "part", t.Part, w.parts, "the sheet names them under parts"); ok {
		f.fits = func(p point) bool {
			fault, _ := p.Fault.About(part)
			latent, _ := p.Latent.About(part)
			return fault || latent
		}
		f.says = "faults of " + f.means
		m.out = append(m.out, f)
	}
	several(m, "switches", "position", t.Switches, w.switches, func(p point) []mains.Stand { return p.Stands }, "")
	several(m, "orientation", "orientation", t.Orientation, w.ways, func(p point) []mains.Place { return p.Places }, "receptacle ")
	if one {
		m.first(t)
	}
	m.limiter(t, one)
	if f, touch, ok := named(m, "touches", "metal within reach", t.Touches, w.metals, metalHelp); ok {
		f.fits = func(p point) bool { return touches(p.Touch, touch) }
		f.is = func(p point) string { return w.say(p.Touch.String()) }
		f.says = "touching " + f.says
		m.out = append(m.out, f)
	}
	return m.out, m.err
}

// named is a filter by one name, if it was typed and is one.
func named[T comparable](m *maker, option, kind string, text *string, names []name[T], help string) (f filter, own T, ok bool) {
	if text == nil || m.err != nil {
		return f, own, false
	}
	f = filter{option: option, given: true}
	if own, m.err = find(*text, kind, names, help); m.err != nil {
		return f, own, false
	}
	if fault, is := any(own).(faults.Fault); !is || fault != nothing {
		f.means = fmt.Sprint(own)
	}
	f.says = m.say(f.means)
	return f, own, true
}

// pair asks for a fault and a latent one. Two faults stand in the table once,
// either of them first. Of one case what is not typed is none.
func (m *maker) pair(t Typed, one bool) {
	none := ""
	given := [2]bool{t.Fault != nil, t.Latent != nil}
	if one && t.Fault == nil {
		sound := nothing.String()
		t.Fault = &sound
	}
	if one && t.Latent == nil {
		t.Latent = &none
	}
	other := func(p point) faults.Fault { return p.Latent } // what a case has besides the fault
	if f, fault, ok := named(m, "fault", "fault", t.Fault, m.faults, m.related(t.Fault, "firstvolt faults SHEET --all --latent none lists them")); ok {
		f.given, f.fault = given[0], fault
		f.fits = func(p point) bool {
			return p.Fault == fault || p.Latent == fault && (fault != nothing || t.Latent != nil)
		}
		other = func(p point) faults.Fault {
			if p.Fault == fault {
				return p.Latent
			}
			return p.Fault
		}
		if fault == nothing {
			f.says = nothing.String()
		}
		m.out = append(m.out, f)
	}
	if f, latent, ok := named(m, "latent", "latent fault", t.Latent, m.latents, "firstvolt faults SHEET --all lists them"); ok {
		f.given = given[1]
		f.fits = func(p point) bool { return other(p) == latent && (one || latent != nothing || p.Latent == nothing) }
		f.is = func(p point) string { return m.sayFault(other(p)) }
		if f.says += " not noticed before"; latent == nothing {
			f.says = "no latent fault"
		}
		m.out = append(m.out, f)
	}
}

// several asks for what stands between commas in a list of the case.
func several[T interface {
	comparable
	fmt.Stringer
}](m *maker, option, kind string, text *string, names []name[T], list func(point) []T, before string) {
	if text == nil || m.err != nil {
		return
	}
	var all []T
	all, m.err = each(*text, kind, names, "firstvolt faults SHEET prints them under When")
	means := listed(all)
	m.out = append(m.out, filter{option: option, given: true, fits: func(p point) bool { return hasEach(list(p), all) },
		is: func(p point) string { return m.say(listed(list(p))) }, says: m.say(before + means), means: means})
}

// first asks for the position and the way round that go without saying: the
// first with every switch closed.
func (m *maker) first(t Typed) {
	in := t.Limiter != nil && *t.Limiter
	at := max(0, slices.IndexFunc(m.layers, func(l faults.Layer) bool { return l.Limiter == in && l.Open == 0 }))
	first := m.layers[at].Position
	if t.Switches == nil && len(first.Stands) > 0 {
		m.out = append(m.out, filter{option: "switches", fits: func(p point) bool { return slices.Equal(p.Stands, first.Stands) },
			is: func(p point) string { return m.say(p.Switches()) }, says: m.say(first.Switches())})
	}
	if t.Orientation == nil {
		m.out = append(m.out, filter{option: "orientation", fits: func(p point) bool { return slices.Equal(p.Places, first.Places) },
			is: func(p point) string { return m.say(p.Orientation()) }, says: m.say("receptacle " + first.Orientation())})
	}
}

// limiter asks for the series lamps in or, of one case, out.
func (m *maker) limiter(t Typed, one bool) {
	if t.Limiter == nil && !one {
		return
	}
	in := t.Limiter != nil && *t.Limiter
	m.out = append(m.out, filter{option: "limiter", given: t.Limiter != nil, fits: func(p point) bool { return p.Limiter == in },
		says: map[bool]string{true: "with the series lamp", false: "without series lamp"}[in], means: strconv.FormatBool(in)})
}

// say is one of the names as it is printed.
func (w *Words) say(own string) string {
	if own == "" {
		return "nothing"
	}
	return w.said.Say(own)
}

// sayFault is a fault as it is printed.
func (w *Words) sayFault(f faults.Fault) string {
	if f == nothing {
		return w.say("")
	}
	return w.say(f.String())
}

// listed is a list as it is typed and printed.
func listed[T fmt.Stringer](all []T) string {
	words := make([]string, len(all))
	for i, x := range all {
		words[i] = x.String()
	}
	return strings.Join(words, ", ")
}
