package handbook

import (
	"math"
	"slices"
	"strconv"

	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
)

// The effects of current on a person, in rising order.
const (
	NotFelt     = "not felt"
	Felt        = "felt"
	CannotLetGo = "cannot let go"
	CanKill     = "can kill"
)

// Network is a measuring network that stands for a person: Skin ∥ Across in
// series with Body; where Series is not zero the voltage across Body is
// filtered by Series into Shunt, beside it a leg of Leg and LegEnd in series.
// Ω and F. The reading is the filtered voltage over Body (over Skin where the
// network has no Body).
type Network struct {
	Name               string
	Skin, Across, Body float64
	Series, Shunt      float64
	Leg, LegEnd        float64
	Basis              figure.Basis
}

type thresholdRow struct {
	current, effect string
	within, amps    float64
	basis           figure.Basis
}

type bodyRow struct {
	percent string
	ohms    []pair // by V, rising
	basis   figure.Basis
}

type limitRow struct {
	state, current string
	amps           float64
	basis          figure.Basis
}

type disconnectRow struct {
	earthing      string
	volts, within float64
	basis         figure.Basis
}

type effects struct {
	thresholds []thresholdRow
	body       []bodyRow
	networks   []Network
	limits     []limitRow
	disconnect []disconnectRow
}

func effectTable() table {
	amps, volts, ohms, farads := of(quantity.Current), of(quantity.Voltage), of(quantity.Resistance), of(quantity.Capacitance)
	current := words("ac", "dc")
	return open("effect.yaml",
		must("thresholds", rowsOf(must("current", current), must("effect", words(Felt, CannotLetGo, CanKill)), may("within", of(quantity.Time)), must("amps", amps))),
		must("body", rowsOf(must("percent", words("5", "50", "95")), must("impedance", byKey(quantity.Voltage, quantity.Resistance)))),
		must("networks", rowsOf(must("name", plain), must("skin", ohms), must("across", farads), may("body", ohms), may("series", ohms), may("shunt", farads), may("leg", ohms), may("leg-end", farads))),
		must("limits", rowsOf(must("state", words("normal", "one-fault", "bonded")), must("current", current), must("amps", amps))),
		must("disconnect", rowsOf(must("earthing", words("tn", "tt")), must("volts", volts), must("within", of(quantity.Time)))))
}

var theEffects = sync1(func() *effects {
	t := effectTable()
	e := &effects{}
	for _, n := range t.rows("thresholds") {
		e.thresholds = append(e.thresholds, thresholdRow{n.Word("current"), n.Word("effect"), high(n, "within", math.Inf(1)), high(n, "amps", 0), t.basis(n)})
	}
	for _, n := range t.rows("body") {
		e.body = append(e.body, bodyRow{n.Word("percent"), pairs(n.Get("impedance"), quantity.Voltage), t.basis(n)})
	}
	for _, n := range t.rows("networks") {
		e.networks = append(e.networks, Network{
			n.Word("name"), high(n, "skin", 0), high(n, "across", 0), high(n, "body", 0), high(n, "series", 0), high(n, "shunt", 0),
			high(n, "leg", 0), high(n, "leg-end", 0), t.basis(n),
		})
	}
	for _, n := range t.rows("limits") {
		e.limits = append(e.limits, limitRow{n.Word("state"), n.Word("current"), high(n, "amps", 0), t.basis(n)})
	}
	for _, n := range t.rows("disconnect") {
		e.disconnect = append(e.disconnect, disconnectRow{n.Word("earthing"), high(n, "volts", 0), high(n, "within", 0), t.basis(n)})
	}
	return e
})

// EffectFrom is the current in A from which the effect is to be expected of a
// current ("ac": rms at 15 to 100 Hz, "dc") that lasts so many seconds. A
// duration that is not a number counts as lasting.
func EffectFrom(current, effect string, seconds float64) (float64, figure.Basis, bool) {
	amps, basis, ok := 0.0, figure.Basis{}, false
	for _, row := range theEffects().thresholds {
		if row.current != current || row.effect != effect {
			continue
		}
		amps, basis, ok = row.amps, row.basis, true
		if seconds <= row.within {
			break
		}
	}
	return amps, basis, ok
}

// Effect is the worst effect to be expected of a current in A that flows
// through a person for so many seconds; what is not a number can kill.
func Effect(current string, amps, seconds float64) (string, figure.Basis) {
	var basis figure.Basis
	for _, effect := range []string{CanKill, CannotLetGo, Felt} {
		from, b, ok := EffectFrom(current, effect, seconds)
		if !ok || !(amps < from) {
			return effect, b
		}
		basis = b
	}
	return NotFelt, basis
}

// BodyImpedance is the impedance in Ω between two hands that percent (5, 50,
// 95) of people do not exceed, at a touch voltage in V. It falls as the
// voltage rises, so between two rows the higher voltage's value, the smaller
// one, is given; beyond the table its end.
func BodyImpedance(volts float64, percent int) (float64, figure.Basis, bool) {
	for _, row := range theEffects().body {
		if row.percent != strconv.Itoa(percent) {
			continue
		}
		i := slices.IndexFunc(row.ohms, func(p pair) bool { return volts <= p.key*(1+near) })
		if i < 0 {
			i = len(row.ohms) - 1
		}
		return row.ohms[i].value.Low, row.basis, true
	}
	return 0, figure.Basis{}, false
}

// BodyNetwork finds a measuring network: unweighted, startle, let-go (figures
// 3, 4 and 5 of IEC 60990) or service (the older one of service manuals).
func BodyNetwork(name string) (Network, bool) {
	for _, n := range theEffects().networks {
		if n.Name == name {
			return n, true
		}
	}
	return Network{}, false
}

// TouchLimit is the current in A that a person may draw from a part: state is
// normal or one-fault, or bonded for the current in the protective conductor
// of a bonded set; current is ac (rms) or dc.
func TouchLimit(state, current string) (float64, figure.Basis, bool) {
	for _, row := range theEffects().limits {
		if row.state == state && row.current == current {
			return row.amps, row.basis, true
		}
	}
	return math.NaN(), figure.Basis{}, false
}

// DisconnectWithin is the time in s within which a fault to earth must be
// opened, by earthing (tn, tt) and nominal voltage to earth in V.
func DisconnectWithin(earthing string, volts float64) (float64, figure.Basis, bool) {
	for _, row := range theEffects().disconnect { // rising voltages
		if row.earthing == earthing && volts > 0 && volts <= row.volts*(1+near) {
			return row.within, row.basis, true
		}
	}
	return math.NaN(), figure.Basis{}, false
}
