package faults

import (
	"fmt"
	"math"

	"firstvolt/checks/bench"
	"firstvolt/checks/handbook"
	"firstvolt/checks/mains"
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
	plugFuse  float64               // A, 0: none
	branch    handbook.BranchDevice // the largest that may guard the receptacle
}

func devicesOf(b *bench.Bench) devices {
	amps, letter := b.Sheet.Region.BranchDevice.High, ""
	if said := b.Sheet.Supply().Get("branch"); said != nil {
		if v, ok := part.ValueOf(said.Get("rating")); ok {
			amps = v.High
		}
		letter = said.Word("letter")
	}
	d := devices{branch: handbook.NewBranchDevice(amps, letter), plugFuse: mains.Of(b).PlugFuse()}
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
func (r *chain) fuse(name string, low, high float64) opens {
	o := opens{device: Device{Kind: Fuse, Of: name}, latest: math.Inf(1)}
	p := r.Bench.Sheet.Part(name)
	if p == nil {
		return o
	}
	rating, ok := p.Value("rating")
	if !ok || !(rating.Low > 0) {
		return o
	}
	standard, speed, body := p.Word("standard"), p.Word("speed"), p.Word("body")
	slow, okSlow := handbook.FuseBounds(standard, speed, body, rating.High, low)
	quick, okQuick := handbook.FuseBounds(standard, speed, body, rating.Low, high)
	if !okSlow || !okQuick {
		return o
	}
	o.known, o.earliest, o.latest = true, quick.Low, slow.High
	o.mayFail = !(high <= r.interrupts(p))
	return o
}

// interrupts is the most current in A that a fuse is sure to interrupt at the
// nominal voltage that a conductor may have to earth; 0 where neither it nor its standard says.
func (r *chain) interrupts(p *part.Part) float64 {
	nominal, _ := r.Bench.ToEarth()
	amps, _, lack := bench.Breaks(p, nominal.High)
	if lack != "" {
		return 0
	}
	return amps.Low
}

// carries is the most current in A that a fuse may carry without ever opening.
func (r *chain) carries(name string) float64 {
	if p := r.Bench.Sheet.Part(name); p != nil {
		if rating, ok := p.Value("rating"); ok {
			return handbook.FuseCarries(p.Word("standard"), p.Word("speed"), p.Word("body"), rating.High)
		}
	}
	return math.Inf(1)
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
