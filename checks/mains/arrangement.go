package mains

import (
	"fmt"
	"maps"
	"slices"
	"strconv"

	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
)

// Places of the chain, beside the numbers of its units, at which what is
// plugged in may be turned round.
const (
	atReceptacle = 0
	atPlug       = -1 // the set's own plug, behind all units
	atInlet      = -2 // the cord at the set
)

// Arrangement is one way in which joints, connectors and units may stand.
type Arrangement struct {
	Turned []int           // places of the chain that are turned; at the receptacle that is exchange
	Mated  map[string]bool // connectors of the set that are turned
	Stands []stand         // what units do that do not say it
	// Doubted: something is turned of which nobody says that it fits both ways.
	Doubted bool
	// Again: the stands are others than the first that are solved.
	Again bool
}

// stand is what a unit upstream is taken to do of which its sheet says nothing.
type stand struct {
	unit int    // its number; 0: all units that do not say what they do with the ground
	key  string // earth, secondary, pole
	word string
}

// told is how it stands, for a person.
func (s stand) told() Stand {
	switch s.key {
	case "earth":
		return Stand{groundStands, "", s.word}
	case "secondary":
		return Stand{secondary, strconv.Itoa(s.unit), s.word}
	}
	return Stand{lampPole, strconv.Itoa(s.unit), s.word}
}

// maxWays is how many ways of joints, connectors and units are solved one by
// one; above it what a person finds is not known.
const maxWays = 64

// Arrangements lists the ways in which all between receptacle and load may stand,
// as it is on the sheet first: each joint that is not known to fit one way only
// turned and not, and where a person's danger is asked each fact that a unit
// does not say either way. It is an error where there are too many.
func (r *Chain) Arrangements(pick Pick, limiter bool) ([]Arrangement, error) {
	for _, l := range r.Bench.Sheet.Links("lamp-box") {
		if w, ok := l.Value("lamp"); limiter && r.Bench.System() == "two-line" && !(ok && w.Low > 0) {
			// Neither the most watts nor the least need be worst between two lines.
			return nil, fmt.Errorf("the watts of the lamp of upstream %d are not said", l.Number)
		}
	}
	joints := r.joints(limiter)
	connectors := slices.DeleteFunc(r.Bench.Parts(part.Mates), func(p *part.Part) bool { return p.Word("fits") == "one-way" })
	var open [][2]stand
	if pick == Danger {
		open = r.unsaid(limiter)
	}
	if n := len(joints) + len(connectors) + len(open); n > 30 || 1<<n > maxWays {
		return nil, fmt.Errorf("more than %d ways in which joints, connectors and units upstream may stand", maxWays)
	}
	ways := []Arrangement{{}}
	double := func(one, other func(*Arrangement)) {
		for _, w := range slices.Clone(ways) {
			w.Turned, w.Mated, w.Stands = slices.Clone(w.Turned), maps.Clone(w.Mated), slices.Clone(w.Stands)
			other(&w)
			ways = append(ways, w)
		}
		for i := range len(ways) / 2 {
			one(&ways[i])
		}
	}
	asItIs := func(*Arrangement) {}
	for _, j := range joints {
		double(asItIs, func(w *Arrangement) {
			w.Turned = append(w.Turned, j.at)
			w.Doubted = w.Doubted || !j.sure
		})
	}
	for _, p := range connectors {
		double(asItIs, func(w *Arrangement) {
			if w.Mated == nil {
				w.Mated = map[string]bool{}
			}
			w.Mated[p.Name] = true
			w.Doubted = w.Doubted || p.Word("fits") != "both-ways"
		})
	}
	for _, s := range open {
		double(func(w *Arrangement) { w.Stands = append(w.Stands, s[0]) }, func(w *Arrangement) {
			w.Stands = append(w.Stands, s[1])
			w.Again = true
		})
	}
	return ways, nil
}

// unsaid lists what units upstream do not say, both ways. The ground arrives
// where all of them pass it on, and else does not.
func (r *Chain) unsaid(limiter bool) (out [][2]stand) {
	ground, stopped := !r.Bench.Sheet.UpstreamKnown, !r.Bench.Grounded()
	for _, l := range r.Bench.Sheet.Upstream {
		if r.passes(l) == "" {
			ground = true
		}
		stopped = stopped || r.passes(l) == "stopped"
		if w := l.Word("secondary"); l.Kind == "isolating-transformer" && w != "floating" && w != "bonded" {
			out = append(out, [2]stand{{l.Number, "secondary", "bonded"}, {l.Number, "secondary", "floating"}})
		}
		if w := l.Word("pole"); l.Kind == "lamp-box" && limiter && w != "hot" && w != "neutral" {
			out = append(out, [2]stand{{l.Number, "pole", "hot"}, {l.Number, "pole", "neutral"}})
		}
	}
	if ground && !stopped {
		out = append(out, [2]stand{{0, "earth", "stopped"}, {0, "earth", "passed on"}})
	}
	return out
}

// passes tells what a unit does with the ground: through, stopped, or "" where
// it does not say.
func (r *Chain) passes(l *sheet.Link) string {
	switch w := l.Word("earth"); {
	case l.Kind == "gfci" || l.Kind == "rcd" || w == "through":
		return "through"
	case w == "broken" || w == "stopped":
		return "stopped"
	}
	return ""
}

// said is what a unit says under a key, or what it is taken to do.
func (s Setup) said(l *sheet.Link, key string) string {
	if w := l.Word(key); w != "" && w != "unknown" {
		return w
	}
	for _, t := range s.Arrangement.Stands {
		if t.unit == l.Number && t.key == key {
			return t.word
		}
	}
	return ""
}

// joint is a place at which the two line conductors may change over; sure:
// known to fit both ways.
type joint struct {
	at   int
	sure bool
}

// joints lists the places of the chain that may be turned, the connectors of
// the set left out. Two with nothing between them that tells hot from neutral
// are one: only whether it is an odd number of them that is turned counts.
func (r *Chain) joints(limiter bool) (out []joint) {
	between := true // something that tells them apart stands behind the last of out
	add := func(at int, fits string) {
		switch {
		case fits == "one-way":
		case between || len(out) == 0:
			out = append(out, joint{at, fits == "both-ways"})
			between = false
		default:
			out[len(out)-1].sure = out[len(out)-1].sure || fits == "both-ways"
		}
	}
	s := r.Bench.Sheet
	plug := s.Plug.Fits
	if r.Bench.System() == "two-line" {
		plug = "both-ways"
	}
	add(atReceptacle, plug)
	for _, l := range s.Upstream {
		if l.Kind == "adaptor" || l.Kind == "autotransformer" {
			add(l.Number, l.Word("fits"))
		}
		switch l.Kind {
		case "isolating-transformer", "autotransformer":
			between = true
		case "variac":
			between = between || r.Bench.Boost(l) > 1
		case "lamp-box":
			between = between || limiter
		}
	}
	add(atPlug, plug)
	between = between || r.PlugFuse() > 0
	cord := s.Cord()
	switch inlet, fits := cord.Word("inlet"), cord.Word("inlet-fits"); inlet {
	case "none":
	case "iec-60320-c8":
		add(atInlet, "both-ways")
	case "iec-60320-c14":
		if fits == "both-ways" {
			add(atInlet, fits)
		}
	default:
		add(atInlet, fits)
	}
	return out
}

// turns tells whether the chain is turned at a place behind the receptacle.
func (w Arrangement) turns(at int) bool { return at != atReceptacle && slices.Contains(w.Turned, at) }

// Position is the setup as it is told.
func (s Setup) Position() Position {
	p := Position{Stands: slices.Clone(s.set), Places: []Place{{atReceptacle, s.Exchange}}, Limiter: s.Limiter}
	for _, name := range slices.Sorted(maps.Keys(s.Arrangement.Mated)) {
		p.Stands = append(p.Stands, Stand{turnedRound, name, "round"})
	}
	for _, t := range s.Arrangement.Stands {
		p.Stands = append(p.Stands, t.told())
	}
	for _, at := range s.Arrangement.Turned {
		if at != atReceptacle {
			p.Places = append(p.Places, Place{at, true})
		}
	}
	return p
}

// Floats tells whether an isolating transformer with such a secondary stands
// upstream.
func (r *Chain) Floats(secondary string) bool {
	return slices.ContainsFunc(r.Bench.Sheet.Links("isolating-transformer"), func(l *sheet.Link) bool { return l.Word("secondary") == secondary })
}

// EarthSaid tells whether each unit upstream says what it does with the ground.
func (r *Chain) EarthSaid() bool {
	return r.Bench.Sheet.UpstreamKnown && !slices.ContainsFunc(r.Bench.Sheet.Upstream, func(l *sheet.Link) bool { return r.passes(l) == "" })
}

// PlugFuse is the most that the fuse in the plug may be rated for in A; 0: none.
func (r *Chain) PlugFuse() float64 {
	if f := r.Bench.Fact("plug-fuse"); f.Range != nil {
		return f.Range.High
	}
	return 0
}
