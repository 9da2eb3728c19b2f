package asked

import (
	"slices"
	"strconv"
	"strings"

	"firstvolt/checks/faults"
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
	m := maker{Words: w}
	m.pair(t, one)
	if f, ok := m.named("part", "part", t.Part, w.parts, "the sheet names them under parts"); ok {
		f.fits = func(p point) bool { return of(p.Fault, f.means) || of(p.Latent, f.means) }
		f.says = "faults of " + f.means
		m.out = append(m.out, f)
	}
	m.several("switches", "position", t.Switches, w.switches, func(p point) string { return p.Switches }, "")
	m.several("orientation", "orientation", t.Orientation, w.ways, func(p point) string { return p.Orientation }, "receptacle ")
	if one {
		m.first(t)
	}
	m.limiter(t, one)
	if f, ok := m.named("touches", "metal within reach", t.Touches, w.metals, metalHelp); ok {
		f.fits = func(p point) bool { return touches(p.Touches, f.means) }
		f.is = func(p point) string { return w.say(p.Touches) }
		f.says = "touching " + f.says
		m.out = append(m.out, f)
	}
	return m.out, m.err
}

// named is a filter by one name, if it was typed and is one.
func (m *maker) named(option, kind string, text *string, names []name, help string) (f filter, ok bool) {
	if text == nil || m.err != nil {
		return f, false
	}
	f = filter{option: option, given: true}
	f.means, m.err = find(*text, kind, names, help)
	f.says = m.say(f.means)
	return f, m.err == nil
}

// pair asks for a fault and a latent one. Two faults stand in the table once,
// either of them first. Of one case what is not typed is none.
func (m *maker) pair(t Typed, one bool) {
	none := ""
	given := [2]bool{t.Fault != nil, t.Latent != nil}
	if one && t.Fault == nil {
		t.Fault = &nothing
	}
	if one && t.Latent == nil {
		t.Latent = &none
	}
	other := func(p point) string { return p.Latent } // what a case has besides the fault
	if f, ok := m.named("fault", "fault", t.Fault, m.faults, m.related(t.Fault, "firstvolt faults SHEET --all --latent none lists them")); ok {
		f.given = given[0]
		f.fits = func(p point) bool {
			return p.Fault == f.means || p.Latent == f.means && (f.means != "" || t.Latent != nil)
		}
		other = func(p point) string {
			if p.Fault == f.means {
				return p.Latent
			}
			return p.Fault
		}
		if f.means == "" {
			f.says = nothing
		}
		m.out = append(m.out, f)
	}
	if f, ok := m.named("latent", "latent fault", t.Latent, m.latents, "firstvolt faults SHEET --all lists them"); ok {
		f.given = given[1]
		f.fits = func(p point) bool { return other(p) == f.means && (one || f.means != "" || p.Latent == "") }
		f.is = func(p point) string { return m.say(other(p)) }
		if f.says += " not noticed before"; f.means == "" {
			f.says = "no latent fault"
		}
		m.out = append(m.out, f)
	}
}

// several asks for what stands between commas in a list of the case.
func (m *maker) several(option, kind string, text *string, names []name, list func(point) string, before string) {
	if text == nil || m.err != nil {
		return
	}
	var all []string
	all, m.err = each(*text, kind, names, "firstvolt faults SHEET prints them under When")
	means := strings.Join(all, ", ")
	m.out = append(m.out, filter{option: option, given: true, fits: func(p point) bool { return hasEach(list(p), all) },
		is: func(p point) string { return m.say(list(p)) }, says: m.say(before + means), means: means})
}

// first asks for the position and the way round that go without saying: the
// first with every switch closed.
func (m *maker) first(t Typed) {
	in := t.Limiter != nil && *t.Limiter
	at := max(0, slices.IndexFunc(m.layers, func(l faults.Layer) bool { return l.Limiter == in && l.Open == 0 }))
	stands, round := m.layers[at].Switches, m.layers[at].Orientation
	if t.Switches == nil && stands != "" {
		m.out = append(m.out, filter{option: "switches", fits: func(p point) bool { return p.Switches == stands },
			is: func(p point) string { return m.say(p.Switches) }, says: m.say(stands)})
	}
	if t.Orientation == nil {
		m.out = append(m.out, filter{option: "orientation", fits: func(p point) bool { return p.Orientation == round },
			is: func(p point) string { return m.say(p.Orientation) }, says: m.say("receptacle " + round)})
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
