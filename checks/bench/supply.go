package bench

import (
	"fmt"
	"maps"
	"math"

	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
	"firstvolt/checks/sheet"
)

// System is the supply's system: what the sheet says, else the region's.
func (b *Bench) System() string {
	if w := b.Sheet.Supply().Word("system"); w != "" {
		return w
	}
	return b.Sheet.Region.System
}

// Earthings lists the systems of earthing that the supply may have: what the
// sheet says, be it unknown, else each that the region's data lists.
func (b *Bench) Earthings() []string {
	if b.earthing != "" {
		return []string{b.earthing}
	}
	if w := b.Sheet.Supply().Word("earthing"); w != "" {
		return []string{w}
	}
	return b.Sheet.Region.Earthing
}

// Earthed is the bench with one of [Bench.Earthings] for certain. It keeps its
// own of what is worked out once.
func (b *Bench) Earthed(system string) *Bench {
	if all := b.Earthings(); len(all) == 1 && all[0] == system {
		return b
	}
	return b.Keep(earthedKey(system), func() any {
		out := *b
		out.earthing, out.kept, out.facts = system, map[any]any{}, maps.Clone(b.facts)
		out.facts["earthing"] = word(system)
		return &out
	}).(*Bench)
}

// earthedKey is where a bench keeps itself on one system of earthing.
type earthedKey string

// EarthingNeed is what settles a question that one system of [Bench.Earthings]
// answers otherwise than another.
var EarthingNeed = figure.Need{What: "supply earthing",
	How: "earthing: tn or tt, as the supplier or an electrician says; some old nets are it, or two-line"}

// passing is what one unit upstream gives out, in V, of what it takes in.
// A variac that does not say where it is set may pass all it gets.
func passing(l *sheet.Link, in quantity.Range) quantity.Range {
	switch l.Kind {
	case "autotransformer":
		if r, ok := l.Value("ratio"); ok {
			return quantity.Range{Low: in.Low * r.Low, High: in.High * r.High, Dim: quantity.Voltage}
		}
		in.Low = 0 // SupplyNeed
	case "variac":
		if v, ok := l.Value("set"); ok {
			return v
		}
	}
	return in
}

// Mains are the volts between the conductors at the set: nominal, and the
// limits widened by a measured voltage outside them. Behind a step-down unit
// both are at the set. A variac lowers neither, for it may be turned up; one
// that is set above the limits widens them.
func (b *Bench) Mains() (nominal float64, limits quantity.Range) {
	nominal, limits = b.Sheet.Region.Nominal, b.receptacle()
	for _, l := range b.Sheet.Upstream {
		out := passing(l, limits)
		switch l.Kind {
		case "autotransformer":
			nominal, limits = raised(l, nominal), out
		case "variac":
			if _, set := l.Value("set"); set && out.High > limits.High {
				nominal, limits.High = math.Max(nominal, out.Low), out.High
			}
		}
	}
	return nominal, limits
}

// Boost is by how much a variac that is set above the highest of what it gets
// raises that; 1 where it does not.
func (b *Bench) Boost(variac *sheet.Link) float64 {
	in := b.receptacle()
	for _, l := range b.Sheet.Upstream[:variac.Number-1] {
		if out := passing(l, in); l.Kind != "variac" || out.High > in.High {
			in = out
		}
	}
	if v, set := variac.Value("set"); set && v.High > in.High {
		return v.High / in.High
	}
	return 1
}

// receptacle are the region's limits, widened by a measured voltage.
func (b *Bench) receptacle() quantity.Range {
	limits := b.Sheet.Region.Limits
	if v, ok := part.ValueOf(b.Sheet.Supply().Get("voltage")); ok {
		limits = limits.Hull(v)
	}
	return limits
}

// raised is the nominal voltage behind a step-down or step-up unit.
func raised(l *sheet.Link, nominal float64) float64 {
	if r, ok := l.Value("ratio"); ok && l.Kind == "autotransformer" {
		nominal *= r.High
	}
	return nominal
}

// ToEarth are the volts that a conductor of the set may have to earth: nominal,
// and at the highest supply. They are those between the conductors but behind a
// step-down unit: where the unit, or a joint ahead of it, can be turned, or where
// both conductors of the supply are live, what runs through it unchanged has the
// whole supply to earth. The low end is certain, the high end may be.
func (b *Bench) ToEarth() (nominal, highest quantity.Range) {
	top := b.receptacle().High
	across := [2]float64{b.Sheet.Region.Nominal, top}
	earth := [2]quantity.Range{quantity.Exact(across[0], quantity.Voltage), quantity.Exact(across[1], quantity.Voltage)}
	turned := fits(b.Sheet.Plug.Fits)
	if b.System() == "two-line" {
		turned = surely
	}
	for _, l := range b.Sheet.Upstream {
		switch l.Kind {
		case "adaptor":
			turned = max(turned, fits(l.Word("fits")))
		case "isolating-transformer": // what it gives out has no more to earth than between its ends
			for i := range earth {
				earth[i] = quantity.Exact(across[i], quantity.Voltage)
			}
			turned = fits(b.Sheet.Plug.Fits)
			if l.Word("secondary") != "bonded" {
				turned = surely // either end may be the one that comes to earth
			}
		case "autotransformer":
			turned = max(turned, fits(l.Word("fits")))
			out := [2]float64{raised(l, across[0]), passing(l, quantity.Exact(across[1], quantity.Voltage)).High}
			for i := range earth {
				low, high := out[i], out[i]
				if turned == surely || earth[i].Low > across[i] {
					low = math.Max(earth[i].Low, low)
				}
				if turned != never || earth[i].High > across[i] {
					high = math.Max(earth[i].High, high)
				}
				earth[i] = quantity.Between(low, high, quantity.Voltage)
			}
			across = out
		case "variac":
			if v, set := l.Value("set"); set && v.High > across[1] {
				across = [2]float64{math.Max(across[0], v.Low), v.High}
				for i := range earth {
					earth[i] = quantity.Between(math.Max(earth[i].Low, across[i]), math.Max(earth[i].High, across[i]), quantity.Voltage)
				}
			}
		}
	}
	return earth[0], earth[1]
}

// How a joint may stand.
const (
	never = iota
	perhaps
	surely
)

// fits is whether a joint can be turned round: surely where it is known to fit
// both ways, perhaps where nobody says.
func fits(word string) int {
	switch word {
	case "one-way":
		return never
	case "both-ways":
		return surely
	}
	return perhaps
}

// ToEarthNeed is what tells how many volts a conductor may have to earth; nil
// where that is known.
func (b *Bench) ToEarthNeed() *figure.Need {
	if nominal, _ := b.ToEarth(); nominal.Low == nominal.High {
		return nil
	}
	for _, l := range b.Sheet.Upstream {
		if (l.Kind == "adaptor" || l.Kind == "autotransformer") && fits(l.Word("fits")) == perhaps {
			return &figure.Need{What: fmt.Sprintf("upstream %d fits", l.Number), How: "one-way or both-ways: turned round, it puts the whole supply between a conductor and earth"}
		}
	}
	return nil
}

// EarthSettles is ToEarthNeed as what settles a figure.
func (b *Bench) EarthSettles() []figure.Need {
	if need := b.ToEarthNeed(); need != nil {
		return []figure.Need{*need}
	}
	return nil
}

// Arriving are the volts that arrive at the set with every variac where it
// stands: from the voltage that the sheet states for the supply, else from the
// region's whole span. A supply never stands for long below the region's lower
// limit: one that is stated so counts as that limit, for it may be the
// nameplate's, written here.
func (b *Bench) Arriving() quantity.Range { return b.arriving(func(*sheet.Link) bool { return true }) }

// Offered are the volts that arrive at the set with every variac turned up.
func (b *Bench) Offered() quantity.Range {
	return b.arriving(func(l *sheet.Link) bool { return l.Kind != "variac" })
}

func (b *Bench) arriving(counts func(*sheet.Link) bool) quantity.Range {
	at := b.receptacle()
	if b.supplyStated() {
		v, _ := part.ValueOf(b.Sheet.Supply().Get("voltage"))
		least := b.Sheet.Region.Limits.Low
		at = quantity.Between(math.Max(v.Low, least), math.Max(v.High, least), quantity.Voltage)
	}
	for _, l := range b.Sheet.Upstream {
		if counts(l) {
			at = passing(l, at)
		}
	}
	return at
}

// supplyStated tells whether the sheet states how high the supply stands.
func (b *Bench) supplyStated() bool {
	v, ok := part.ValueOf(b.Sheet.Supply().Get("voltage"))
	return ok && !math.IsInf(v.High, 1)
}

// VoltsStated tells whether the sheet states how high the supply stands at the
// set: at the receptacle, or where the variac behind it is set.
func (b *Bench) VoltsStated() bool {
	_, set := b.lastVariac()
	return set || b.supplyStated()
}

// lastVariac is the variac nearest to the set, and whether it says where it is
// set; nil where there is none.
func (b *Bench) lastVariac() (l *sheet.Link, set bool) {
	for _, l = range b.Sheet.Links("variac") {
		_, set = l.Value("set")
	}
	return l, set
}

// UnsetVariac is the number of a variac that does not say where it will stand,
// nearest to the set; 0 where none counts.
func (b *Bench) UnsetVariac() int {
	if l, set := b.lastVariac(); l != nil && !set {
		return l.Number
	}
	return 0
}

// SupplyNeed is what would make the volts at the set known where a unit of the
// bench chain gives out other volts than it takes in and does not say which;
// nil where they are known.
func (b *Bench) SupplyNeed() *figure.Need {
	for _, l := range b.Sheet.Upstream {
		if _, ok := l.Value("ratio"); l.Kind == "autotransformer" && !ok {
			return &figure.Need{What: fmt.Sprintf("upstream %d ratio", l.Number), How: "volts out over volts in, from its label or a meter at its outlet: it may step up as well as down"}
		}
	}
	return nil
}
