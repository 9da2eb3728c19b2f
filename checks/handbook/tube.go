package handbook

import (
	"strings"

	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
	"firstvolt/checks/strict"
)

// TubeData is what the handbook knows of a tube type.
type TubeData struct {
	Type        string  // as the handbook spells it
	Volts, Amps float64 // of the heater, V and A
	HalfVolts   float64 // V with the two halves of the heater side by side, at twice Amps; 0: no halves
	TapVolts    float64 // V between h-tap and the end of the heater that carries the panel lamp; 0: no tap
	Direct      bool    // the heater is the cathode
	Series      bool    // made to stand in a string with others of the same current
	IsRectifier bool
	Rectifier   *Rectifier // nil: no rectifier, or one whose ratings are not known
	Basis       figure.Basis
}

// Rectifier are the capacitor-input ratings of a tube rectifier. A zero, or an
// empty range, is not known.
type Rectifier struct {
	Plates     int
	Separate   bool           // the plates have cathodes of their own
	Inverse    float64        // V, peak inverse
	Peak       quantity.Range // A, steady peak for each plate; where sources differ, both
	Transient  float64        // A, hot-switching peak for each plate, where one is published
	Points     []RectifierPoint
	LampDC     float64        // A, direct current with a panel lamp on the tap and no shunt
	First      float64        // F, largest first capacitor
	Drop       quantity.Range // V across one plate at DropAt
	DropAt     float64        // A
	Insulation float64        // V, peak between heater and cathode
	// From is where each value is from, by its key in the table: what one source
	// lacks, a row of another adds.
	From map[string]figure.Basis
}

// RectifierPoint: up to RMS volts for each plate no more than DC amperes and
// no less than Resistance ohms in each plate's supply.
type RectifierPoint struct{ RMS, DC, Resistance float64 }

// At is the point that binds at rms volts for each plate: the first that
// reaches so far. Beyond the last there is none: the tube is not made for it.
func (r Rectifier) At(rms float64) (RectifierPoint, bool) {
	for _, p := range r.Points {
		if rms <= p.RMS*(1+near) {
			return p, true
		}
	}
	return RectifierPoint{}, false
}

type tubes struct {
	byType   map[string]TubeData
	coldLow  float64 // hot resistance over cold
	coldHigh float64
	cold     figure.Basis
	warm     map[string]warmRow
}

type warmRow struct {
	most, whole float64
	basis       figure.Basis
}

func tubeTable() table {
	volts, amps, yes := of(quantity.Voltage), of(quantity.Current), words("yes")
	names := &strict.Shape{List: &strict.ListShape{Item: plain, Min: 1}}
	keys := []strict.Key{must("types", names), may("volts", volts), may("amps", amps), may("direct", yes), may("series", yes), may("halves", volts), may("tap", volts)}
	return open("tube.yaml",
		must("heaters", rowsOf(append([]strict.Key{may("rectifier", yes)}, keys...)...)),
		must("rectifiers", rowsOf(append([]strict.Key{
			may("plates", words("1", "2")), may("separate", yes), may("inverse", volts), may("peak", amps), may("transient", amps),
			may("direct-current", byKey(quantity.Voltage, quantity.Current)), may("resistance", byKey(quantity.Voltage, quantity.Resistance)), may("lamp-dc", amps), may("first", of(quantity.Capacitance)),
			may("drop", volts), may("at", amps), may("insulation", volts),
		}, keys...)...)),
		must("cold", rowsOf(must("ratio", of(quantity.Number)), must("to", of(quantity.Number)))),
		must("warm-up", rowsOf(must("fed", words("voltage", "resistor", "current")), must("most", of(quantity.Time)), must("whole", of(quantity.Time)))))
}

var theTubes = sync1(func() *tubes {
	t := tubeTable()
	out := &tubes{byType: map[string]TubeData{}, warm: map[string]warmRow{}}
	add := func(n *strict.Node, r *Rectifier, rectifies bool, basis figure.Basis) {
		for _, name := range texts(n.Get("types")) {
			d := TubeData{
				Type: name, Volts: high(n, "volts", 0), Amps: high(n, "amps", 0), HalfVolts: high(n, "halves", 0), TapVolts: high(n, "tap", 0),
				Direct: n.Get("direct") != nil, Series: n.Get("series") != nil, IsRectifier: rectifies, Rectifier: r, Basis: basis,
			}
			out.byType[tubeKey(name)] = d
		}
	}
	for _, n := range t.rows("heaters") {
		add(n, nil, n.Get("rectifier") != nil, t.basis(n))
	}
	for _, row := range joined(t, "rectifiers") {
		n := row.node
		r := &Rectifier{
			From: row.from, Plates: int(n.Word("plates")[0] - '0'), Separate: n.Get("separate") != nil, Inverse: high(n, "inverse", 0), Transient: high(n, "transient", 0),
			LampDC: high(n, "lamp-dc", 0), First: high(n, "first", 0), DropAt: high(n, "at", 0), Insulation: high(n, "insulation", 0),
		}
		r.Peak, _ = span(n, "peak")
		r.Drop, _ = span(n, "drop")
		ohms := pairs(n.Get("resistance"), quantity.Voltage)
		for i, p := range pairs(n.Get("direct-current"), quantity.Voltage) {
			r.Points = append(r.Points, RectifierPoint{p.key, p.value.High, ohms[i].value.High})
		}
		add(n, r, true, row.from["volts"])
	}
	c := t.rows("cold")[0]
	out.coldLow, out.coldHigh, out.cold = high(c, "ratio", 0), high(c, "to", 0), t.basis(c)
	for _, n := range t.rows("warm-up") {
		out.warm[n.Word("fed")] = warmRow{high(n, "most", 0), high(n, "whole", 0), t.basis(n)}
	}
	return out
})

// joinedRow is what several rows say of the same types.
type joinedRow struct {
	node *strict.Node
	from map[string]figure.Basis // by key
}

// joined puts the rows of the same types together, in the order of the file.
// The first row that has a key counts; the tests allow no second.
func joined(t table, key string) []joinedRow {
	var out []joinedRow
	at := map[string]int{}
	for _, n := range t.rows(key) {
		types := strings.Join(texts(n.Get("types")), " ")
		i, met := at[types]
		if !met {
			i, at[types] = len(out), len(out)
			out = append(out, joinedRow{strict.MapNode(), map[string]figure.Basis{}})
		}
		for _, e := range n.Entries {
			if _, twice := out[i].from[e.Key]; twice || e.Key == "basis" {
				continue
			}
			out[i].node.Entries = append(out[i].node.Entries, e)
			out[i].from[e.Key] = t.basis(n)
		}
	}
	return out
}

// tubeKey is the form in which types are compared: 5Y3-GT, 5y3gt and 5Y3 GT
// are one.
func tubeKey(name string) string {
	return strings.ToLower(strings.NewReplacer("-", "", " ", "", "\u00a0", "").Replace(name))
}

// Tube finds a tube by its type, in any spelling; 6V6-GT is found as 6V6. The
// ratings of a rectifier differ by its suffix, so its suffix must be tabled.
func Tube(name string) (TubeData, bool) {
	all := theTubes().byType
	key := tubeKey(name)
	if d, ok := all[key]; ok {
		return d, true
	}
	// A double name, 6V4/EZ80: both must be the same tube.
	if a, b, ok := strings.Cut(key, "/"); ok {
		x, okX := Tube(a)
		y, okY := Tube(b)
		if okX && okY && x.Volts == y.Volts && x.Amps == y.Amps && x.Direct == y.Direct && x.Rectifier == y.Rectifier {
			return x, true
		}
		return TubeData{}, false
	}
	for _, suffix := range []string{"gtb", "gta", "gt", "gc", "gb", "ga", "g"} {
		if base, ok := strings.CutSuffix(key, suffix); ok {
			if d, ok := all[base]; ok && !d.IsRectifier {
				return d, true
			}
		}
	}
	return TubeData{}, false
}

// HotHeater is the resistance in Ω of the heater at its rating.
func (t TubeData) HotHeater() float64 { return t.Volts / t.Amps }

// ColdHeater is the range in Ω that a sound heater may read cold: a tenth to a
// fifth of its hot resistance.
func (t TubeData) ColdHeater() (quantity.Range, figure.Basis) {
	h := theTubes()
	return quantity.Between(t.HotHeater()/h.coldHigh, t.HotHeater()/h.coldLow, quantity.Resistance), h.cold
}

// WarmUp is the time in s until a cold heater has 90 % and 99 % of its final
// temperature, fed by a fixed voltage, through a resistor (a series lamp is
// one) or by a fixed current (a string comes near it).
func WarmUp(fed string) (most, whole float64, basis figure.Basis, ok bool) {
	row, ok := theTubes().warm[fed]
	return row.most, row.whole, row.basis, ok
}
