package faults_test

import (
	"flag"
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"
	"testing"

	"firstvolt/checks/figure"
)

var exhaustive = flag.Bool("exhaustive", false, "take every fact of the units upstream away, not every second")

// notWorse holds figures of a sheet that says less to those of one that says
// more: what is not known may not look better than either end of it.
func notWorse(t *testing.T, what string, less, more []figure.Figure) {
	t.Helper()
	is := map[string]figure.Figure{}
	for _, f := range less {
		// What a tested residual device holds is left to the branch device without.
		if f.Def.Name == "touch-current-left-to-branch" {
			one := is["touch-current-one-fault of "+f.Of.Name]
			one.Range.High = max(one.Range.High, f.Range.High)
			is["touch-current-one-fault of "+f.Of.Name] = one
		}
		is[f.Def.Name+" of "+f.Of.Name] = f
	}
	for _, was := range more {
		name := was.Def.Name + " of " + was.Of.Name
		f, there := is[name]
		bad := was.Def.Name == "fault-that-stays" || was.Def.Name == "one-layer-to-hand" || was.Def.Name == "residual-would-serve"
		switch {
		case !there:
			t.Errorf("%s: %s is not asked any more", what, name)
		case !f.Known() || was.Def.Name == "fault-left-to-branch":
		case was.Def.Name == "touch-current-left-to-branch" && is["touch-current-one-fault of "+was.Of.Name].Range.High >= was.Range.High:
			// What opened too late is opened by nothing now.
		case !was.Known():
			t.Errorf("%s: %s was not known and is", what, name)
		case was.Present != nil && *was.Present != *f.Present && *f.Present != bad:
			t.Errorf("%s: %s was %t and is %t", what, name, *was.Present, *f.Present)
		case was.Def.Name == "touch-current-one-fault" && was.Range.High <= 5e-3 && f.Range.High <= 5e-3:
			// Below the limit either way: what would be more is opened in its time.
		case was.Present == nil && !(f.Range.High >= was.Range.High*(1-1e-9)):
			t.Errorf("%s: %s was %s and is %s", what, name, was.Range, f.Range)
		}
	}
}

// TestUnitThatDoesNotSay takes every second fact (with -exhaustive every one) of the units upstream away from
// every sound sheet, and from the same sheet with the fact the other way: no figure
// comes out better than with the fact, whichever it is.
func TestUnitThatDoesNotSay(t *testing.T) {
	words := map[string][]string{"earth": {"through", "broken", "stopped"}, "secondary": {"floating", "bonded"}, "pole": {"hot", "neutral"},
		"tested": {""}, "rating": {""}, "form": {""}, "type": {""}, "lamp": {"", "15 W"}, "voltage": {""}, "fits": {"one-way", "both-ways"}, "ratio": {""}}
	unit := regexp.MustCompile(`(?m)^    - \{kind: ([a-z-]+), .*\}$`)
	fact := regexp.MustCompile(`, (\w+): ([^,}]*)`)
	known := map[string][]figure.Figure{}
	of := func(text string) []figure.Figure {
		if _, ok := known[text]; !ok {
			known[text] = figures(t, read(t, text))
		}
		return known[text]
	}
	tried, facts := 0, 0
	sheets := sheetsOf(t)
	for _, name := range slices.Sorted(maps.Keys(sheets)) {
		text := sheets[name]
		for _, u := range unit.FindAllStringSubmatch(text, -1) {
			for _, k := range fact.FindAllStringSubmatch(u[0], -1) {
				if facts++; !*exhaustive && facts%2 == 0 {
					continue
				}
				drop := func(word string) string {
					if word != "" {
						word = ", " + k[1] + ": " + word
					}
					return strings.Replace(text, u[0], strings.Replace(u[0], k[0], word, 1), 1)
				}
				less := of(drop(""))
				for _, w := range words[k[1]] {
					if w == "" {
						w = k[2]
					}
					if w == "broken" && u[1] == "isolating-transformer" || w == "stopped" && u[1] != "isolating-transformer" {
						continue
					}
					tried++
					notWorse(t, fmt.Sprintf("%s: %s without %s: %s", name, u[1], k[1], w), less, of(drop(w)))
				}
			}
		}
	}
	if tried < 50 {
		t.Errorf("only %d facts", tried)
	}
}

// TestUnitsEitherWay: a fact that a unit does not say is solved both ways, and
// is no certain danger either.
func TestUnitsEitherWay(t *testing.T) {
	live := strings.Replace(head, "construction: transformer, chassis: exposed", "construction: line-connected, chassis: enclosed", 1)
	set := func(ground, unit, wiring string) string {
		top := head
		if strings.Contains(wiring, "plug.neutral -> chassis") {
			top = live
		}
		return top + strings.Replace(ground, "upstream: []", "upstream: [{"+unit+"}]", 1) +
			"\nparts: {Knob: {kind: body}, Lug: {kind: tie}, R1: {kind: resistor, value: 200 Ω, power: 50 W}}\nwiring: [plug.hot -> R1 -> plug.neutral, chassis -> Lug, " + wiring + "]\n"
	}
	for _, c := range []struct{ what, ground, unit, wiring, bad, good string }{
		// A live chassis on the ground pin by mistake, behind a transformer that
		// floats: where the ground goes on, the other end stands against the earth.
		{"ground", ground3, "kind: isolating-transformer, secondary: floating", "plug.neutral -> chassis, plug.ground -> chassis, plug.hot -> Knob", ", earth: through", ", earth: stopped"},
		{"ground, other end", ground3, "kind: variac", "plug.ground -> Knob, plug.hot -> R2 -> Knob", ", earth: broken", ", earth: through"},
		{"secondary", wires2, "kind: isolating-transformer, earth: stopped", "plug.hot -> Knob", ", secondary: bonded", ", secondary: floating"},
		{"pole", wires2, "kind: lamp-box, lamp: 40 W, voltage: 120 V, earth: stopped", "plug.neutral -> Knob", ", pole: neutral", ", pole: hot"},
		{"watts", wires2, "kind: lamp-box, voltage: 120 V, pole: neutral, earth: stopped", "plug.neutral -> Knob", ", lamp: 15 W", ", lamp: 300 W"},
	} {
		text := func(word string) string {
			return strings.Replace(set(c.ground, c.unit+word, c.wiring), "50 W}", "50 W}, R2: {kind: resistor, value: 2 kΩ, power: 50 W}", strings.Count(c.wiring, "R2"))
		}
		at := func(word string) figure.Figure { return one(t, read(t, text(word)), "touch-current", "Knob") }
		bad, good, unsaid := at(c.bad).Range, at(c.good).Range, at("").Range
		if !(bad.High > 2*good.High) || !(unsaid.High >= bad.High) {
			t.Errorf("%s: %s with%s, %s with%s, %s where it is not said: %s", c.what, bad, c.bad, good, c.good, unsaid, at(c.good).Note)
		}
		if !(unsaid.Low <= good.Low+50e-6) {
			t.Errorf("%s: %s with%s, and for certain %s where it is not said", c.what, good, c.good, unsaid)
		}
	}
}

// TestNoWordOfTheChain: with no word of what stands upstream the ground may end
// there.
func TestNoWordOfTheChain(t *testing.T) {
	text := strings.Replace(sheetsOf(t)["larkfield-six-forty.yaml"], "    - {kind: gfci, form: receptacle, tested: 2026-11-20}\n", "", 1)
	stopped := figures(t, read(t, strings.Replace(text, "{kind: variac, earth: through}", "{kind: variac, earth: broken}", 1)))
	i, j := strings.Index(text, "  upstream:"), strings.Index(text, "instruments:")
	notWorse(t, "no word of the chain", figures(t, read(t, text[:i]+"\n"+text[j:])), stopped)
	notWorse(t, "no word of the chain", figures(t, read(t, text[:i]+"\n"+text[j:])), figures(t, read(t, text)))
}
