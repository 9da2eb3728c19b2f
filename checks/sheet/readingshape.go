package sheet

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"firstvolt/checks/part"
	"firstvolt/checks/pattern"
	"firstvolt/checks/quantity"
	"firstvolt/checks/strict"
)

// group is the shape of one probe: terminals joined by +.
func group() *strict.Shape { return part.Free(false) }

func readingsShape() *strict.Shape {
	word := func(words ...string) *strict.Shape { return part.Word(words...) }
	common := []strict.Key{
		k("between", part.ListOf(group(), 2, 2), "the two nodes, red lead first; A + B joins nodes"),
		k("across", group(), "a part or winding, instead of between"),
		k("switches", &strict.Shape{Text: word("open", "closed").Text, Map: &strict.MapShape{Any: word("open", "closed"), CheckKey: part.CheckName, KeyPattern: part.NamePattern}}, "how the switches stood"),
		k("fuses", &strict.Shape{Text: word("in", "out").Text, Map: &strict.MapShape{Any: word("in", "out"), CheckKey: part.CheckName, KeyPattern: part.NamePattern}}, "which fuses were out"),
		k("positions", part.MapOf(part.Free(false)), "how the selectors stood"),
		k("without", part.ListOf(part.Free(false), 0, 0), "parts taken out and terminals lifted"),
		k("with", part.Free(false), "the instrument"),
		k("taken", Date(), "the day, if not the day of the sheet"),
		part.Note,
	}
	away := map[string][]string{ // what does not belong to a kind
		"drop":    {"across"},
		"leakage": {"between", "switches", "fuses", "positions", "without"},
	}
	kinds := map[string][]strict.Key{
		"drop": {k("range", part.Above(quantity.Voltage), "the range it was set to"), k("current", part.Above(quantity.Current), "the current that was passed"),
			k("fed-by", part.Free(false), "the instrument that read the current")},
		"leakage":     {k("volts", part.Above(quantity.Voltage), "what stood across it"), k("after", part.Above(quantity.Time), "how long it had stood there")},
		"resistance":  {k("range", part.Above(quantity.Resistance), "the range it was set to")},
		"insulation":  {k("range", part.Above(quantity.Resistance), "the range it was set to"), k("test", part.Span(quantity.Voltage, 1, 1000), "test volts")},
		"capacitance": {k("range", part.Above(quantity.Capacitance), "the range it was set to")},
		"voltage":     {k("range", part.Above(quantity.Voltage), "the range it was set to"), k("applied", group(), "the winding that was fed: the primary, with a few volts; while it is fed, treat all the other windings and the plug's pins as live: hands off until the feed is off"), k("volts", part.Above(quantity.Voltage), "what it was fed with")},
	}
	keys := []strict.Key{
		k("taken", Date(), "the day they were taken"),
		k("ambient", part.Span(quantity.Temperature, -10, 50), "temperature of the room"),
		part.Note,
	}
	for _, kind := range ReadingKinds {
		shows := readsShape(valueDim[kind])
		if len(away[kind]) > 0 {
			shows = &strict.Shape{Text: shows.Text} // one display: no series belongs here
		}
		ks := []strict.Key{must("reads", shows, "what the meter showed")}
		for _, key := range common {
			if !slices.Contains(away[kind], key.Name) {
				ks = append(ks, key)
			}
		}
		ks = append(ks, kinds[kind]...)
		keys = append(keys, k(kind, part.ListOf(mapOf(ks...), 0, 0), "readings of "+kind))
	}
	return mapOf(keys...)
}

// Display is what a meter showed: a value, a bound, or nothing but OL.
type Display struct {
	Value quantity.Range
	OL    bool // over the range or the ceiling, whichever is known
	Over  bool // written as a lower bound
}

// readsShape takes a display, or displays by time ({15 s: 180 MΩ, 60 s: 300 MΩ}).
func readsShape(d quantity.Dim) *strict.Shape {
	one := &strict.TextShape{Example: d.Example(), Type: "shown-" + d.Name(), Pattern: "^ *[.]?[Oo][.]?[Ll][.]? *$|" + d.Pattern(), Parse: func(text string) (any, error) { return parseDisplay(text, d) }}
	return &strict.Shape{Text: one, Map: &strict.MapShape{Any: &strict.Shape{Text: one}, KeyPattern: quantity.Time.Pattern(), CheckKey: func(key string) error {
		_, err := quantity.Parse(key, quantity.Time)
		return err
	}}}
}

func parseDisplay(text string, d quantity.Dim) (any, error) {
	switch strings.ToUpper(strings.Trim(text, " .")) {
	case "OL", "O.L":
		return Display{OL: true}, nil
	}
	r, err := quantity.Parse(text, d)
	if err != nil {
		if over := rangeFault(text, d); over != nil {
			return nil, over
		}
		var q *quantity.Error
		if errors.As(err, &q) && q.Right == "write it like "+d.Example() {
			return nil, &strict.Fault{Wrong: q.Wrong, Right: "write what the meter showed, like " + d.Example() + ", or OL where it showed that"}
		}
		return nil, err
	}
	over := strings.HasPrefix(text, "over ") || strings.HasPrefix(text, ">")
	return Display{Value: r, Over: over}, nil
}

// rawAccuracy is an accuracy before the unit of its amount is checked.
type rawAccuracy struct {
	fraction float64
	digits   float64
	amount   string
}

func parseAccuracy(text string) (any, error) {
	fault := func(why string) error {
		return &strict.Fault{Wrong: fmt.Sprintf("%q %s", text, why), Right: "a %, a % + b Ω, or a % + n digits, like 0.9 % + 2 digits"}
	}
	head, tail, more := strings.Cut(text, "+")
	share, err := quantity.Parse(strings.TrimPrefix(strings.TrimSpace(head), "±"), quantity.Fraction)
	if err != nil {
		if wrong, ok := commaFault(text); ok {
			return nil, wrong
		}
		return nil, fault("does not begin with a percentage")
	}
	if share.High > 1 {
		return nil, fault("is more than the reading itself")
	}
	a := rawAccuracy{fraction: share.High}
	if !more {
		return a, nil
	}
	tail = strings.TrimSpace(tail)
	if n, err := quantity.Parse(tail, quantity.Digits); err == nil {
		a.digits = n.High
		return a, nil
	}
	for _, d := range valueDim {
		if _, err := quantity.Parse(tail, d); err == nil {
			a.amount = tail
			return a, nil
		}
	}
	if wrong, ok := commaFault(text); ok {
		return nil, wrong
	}
	return nil, fault("ends in something that is no amount")
}

var comma = pattern.Of(`\d,\d`)

// commaFault words a decimal comma inside a longer text.
func commaFault(text string) (error, bool) {
	if !comma().MatchString(text) {
		return nil, false
	}
	return &strict.Fault{Wrong: fmt.Sprintf("%q has a decimal comma", text), Right: "write " + strings.ReplaceAll(text, ",", ".")}, true
}
