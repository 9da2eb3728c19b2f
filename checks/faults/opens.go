package faults

import (
	"fmt"
	"math"

	"firstvolt/checks/bench"
	"firstvolt/checks/handbook"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
)

// residual is a device that opens on current that does not come back.
type residual struct {
	number         int
	kind           string  // gfci or rcd
	rating         float64 // the upper end of what the sheet says
	low            float64 // the lower end
	form           string
	counts         bool // tested since the latest reading, and it sees a fault
	ignores, trips float64
}

// devices is everything that may open the circuit.
type devices struct {
	residuals []residual
	plugFuse  float64 // A, 0: none
	branch    float64 // A, the largest that may guard the receptacle
	quick     float64 // by how many times that it is certain to be quick
}

// A branch device is known by its rating and at most by its letter. It is certain
// to be quick only at 5, 10 or 20 times its rating, by its letter B, C, D (20
// unless stated), to open within a minute at 2.55 times, and below 1.45 times
// not at all (IEC 60898-1, recalled, not looked up).
var quickBy = map[string]float64{"B": 5, "C": 10, "D": 20, "": 20}

const (
	within60 = 2.55
	never60  = 1.45
)

// branchOpens is by when it is certain to open at a current in A, in s from the
// onset; +Inf where it need not.
func (d devices) branchOpens(amps, quick float64) float64 {
	switch {
	case amps >= d.quick*d.branch:
		return quick
	case amps >= within60*d.branch:
		return 60
	}
	return math.Inf(1)
}

func devicesOf(b *bench.Bench) devices {
	d := devices{branch: b.Sheet.Region.BranchDevice.High, quick: quickBy[""]}
	if said := b.Sheet.Supply().Get("branch"); said != nil {
		if v, ok := part.ValueOf(said.Get("rating")); ok {
			d.branch = v.High
		}
		if q, ok := quickBy[said.Word("letter")]; ok {
			d.quick = q
		}
	}
	if f := b.Fact("plug-fuse"); f.Range != nil {
		d.plugFuse = f.Range.High
	}
	sees, _, _ := b.Sees()
	for _, l := range b.Sheet.Upstream {
		switch l.Kind {
		case "gfci", "rcd":
			r := residual{number: l.Number, kind: l.Kind, form: l.Word("form")}
			if v, ok := l.Value("rating"); ok {
				r.rating, r.low = v.High, v.Low
			}
			band, _, ok := handbook.ResidualTrip(l.Kind, r.rating)
			r.ignores, r.trips = band.Low, band.High
			if least, _, ok := handbook.ResidualTrip(l.Kind, r.low); ok {
				r.ignores = least.Low
			}
			tested, _, _ := b.Tested(l)
			r.counts = ok && sees && tested && (bench.SeesOneWay(l) || !b.Rectifies())
			d.residuals = append(d.residuals, r)
		}
	}
	return d
}

// residual is the device that counts and opens with the least current.
func (d devices) residual() (residual, bool) {
	best, ok := residual{}, false
	for _, r := range d.residuals {
		if r.counts && (!ok || r.trips < best.trips) {
			best, ok = r, true
		}
	}
	return best, ok
}

// guardsFor tells whether the device, being of that rating in A, is one that
// guards people.
func (r residual) guardsFor(rating float64) bool {
	return r.kind == "gfci" || rating <= guards*(1+1e-9)
}

// opens is what opens at a current, between which times in s from its onset.
type opens struct {
	device           Device
	earliest, latest float64
	known            bool // false: nothing on the sheet says when
	mayFail          bool // more flows than the fuse is sure to interrupt
}

// fuse bounds when a fuse of the set opens between two currents in A.
func (r *room) fuse(name string, low, high float64) opens {
	o := opens{device: Device{Kind: Fuse, Of: name}, latest: math.Inf(1)}
	p := r.b.Sheet.Part(name)
	if p == nil {
		return o
	}
	rating, ok := p.Value("rating")
	if !ok || !(rating.Low > 0) {
		return o
	}
	standard, speed, body := p.Word("standard"), p.Word("speed"), p.Word("body")
	slow, okSlow := opensBy(standard, speed, body, rating.High, low)
	quick, okQuick := opensBy(standard, speed, body, rating.Low, high)
	if !okSlow || !okQuick {
		return o
	}
	o.known, o.earliest, o.latest = true, quick.Low, slow.High
	o.mayFail = !(high <= r.interrupts(p))
	return o
}

// interrupts is the most current in A that a fuse is sure to interrupt at the
// nominal voltage that a conductor may have to earth; 0 where neither it nor its standard says.
func (r *room) interrupts(p *part.Part) float64 {
	nominal, _ := r.b.ToEarth()
	amps, _, lack := bench.Breaks(p, nominal.High)
	if lack != "" {
		return 0
	}
	return amps.Low
}

// opensBy bounds when a fuse opens at a current in A. Of a rating that the
// sheets for its body leave out, which is made and sold all the same, it takes
// the wider of what they say of the nearest rating, current in proportion, and
// of what other bodies of the rating do.
func opensBy(standard, speed, body string, rating, amps float64) (quantity.Range, bool) {
	bound := func(body string, of float64) (quantity.Range, bool) {
		at := amps * of / rating
		t, _, ok := handbook.FuseOpens(standard, speed, body, of, at)
		t.High = math.Min(t.High, warming(standard, speed, body, of, at))
		return t, ok
	}
	if t, ok := bound(body, rating); ok {
		return t, true
	}
	other, ok := bound("", rating)
	if !ok {
		return other, false
	}
	nearest := math.NaN()
	for _, r := range handbook.FuseSeries(standard) {
		if _, _, ok := handbook.FuseGates(standard, speed, body, r); ok && !(math.Abs(r-rating) >= math.Abs(nearest-rating)) {
			nearest = r
		}
	}
	if same, ok := bound(body, nearest); ok {
		return same.Hull(other), true
	}
	return other, false
}

// warming bounds from a fuse's gates how long it takes beyond the last of
// them. What heats by I² and loses heat to all about it warms ever more slowly,
// so that what opens at I₀ within t₀ opens at I within t₀·(I₀/I)²; twice that,
// for the heat of melting, and one half cycle of 50 Hz for the arc.
func warming(standard, speed, body string, rating, amps float64) float64 {
	gates, _, ok := handbook.FuseGates(standard, speed, body, rating)
	best := math.Inf(1)
	if !ok {
		return best
	}
	for _, g := range gates {
		if from := g.Multiple * rating; amps > from {
			best = math.Min(best, 2*g.Max*(from/amps)*(from/amps)+0.01)
		}
	}
	return best
}

// carries is the most current in A that a fuse may carry without ever opening.
func (r *room) carries(name string) float64 {
	p := r.b.Sheet.Part(name)
	if p == nil {
		return math.Inf(1)
	}
	rating, ok := p.Value("rating")
	if !ok {
		return math.Inf(1)
	}
	standard, speed, body := p.Word("standard"), p.Word("speed"), p.Word("body")
	most := func(body string, of float64) (float64, bool) {
		gates, _, ok := handbook.FuseGates(standard, speed, body, of)
		for _, g := range gates {
			if ok && !math.IsInf(g.Max, 1) {
				return g.Multiple * rating.High, true
			}
		}
		return 0, false
	}
	if amps, ok := most(body, rating.High); ok {
		return amps
	}
	// A rating that the sheets for its body leave out: the most that the
	// others of it, and other bodies of the rating, may carry.
	worst, ok := most("", rating.High)
	for _, r := range handbook.FuseSeries(standard) {
		if amps, of := most(body, r); of {
			worst, ok = math.Max(worst, amps), true
		}
	}
	if !ok {
		return math.Inf(1)
	}
	return worst
}

// DeviceKind is a kind of thing that opens the circuit.
type DeviceKind uint8

// The kinds of device; Discharge is what ends the current of a pulled plug.
const (
	NoDevice DeviceKind = iota
	Fuse
	PlugFuse
	BranchDevice
	GFCI
	RCD
	Discharge
)

// Device is what opens. Zero is nothing.
type Device struct {
	Kind   DeviceKind
	Of     string  // the fuse of the set
	Rating float64 // A, of an RCD
}

// String is the device by its name, empty for none.
func (d Device) String() string {
	switch d.Kind {
	case Fuse:
		return d.Of
	case RCD:
		return fmt.Sprintf("the RCD of %s", quantity.Format(d.Rating, quantity.Current))
	}
	return [...]string{PlugFuse: "the plug fuse", BranchDevice: "the branch device", GFCI: "the GFCI", Discharge: "the discharge"}[d.Kind]
}

func (r residual) device() Device {
	if r.kind == "rcd" {
		return Device{Kind: RCD, Rating: r.rating}
	}
	return Device{Kind: GFCI}
}
