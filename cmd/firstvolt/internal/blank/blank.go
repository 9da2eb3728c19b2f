// Package blank writes a commented bench sheet to fill in, for each kind of
// set and each region. What the comments say of a key comes from the table
// that reads it. A blank sheet claims nothing: what the person has not filled
// in is commented out, answered not-seen, or left open and refused.
package blank

import (
	"fmt"
	"slices"
	"strings"

	"firstvolt/checks/handbook"
	"firstvolt/checks/part"
)

// Kind is a kind of set that there is a blank sheet for.
type Kind struct {
	Name string
	Says string // what such a set is

	construction string
	poles        int // of its plug, where the region has one
	stage        string
	body         func(w *writer, k Kind, r *handbook.RegionData)
}

var kinds = []Kind{
	{"transformer", "a power transformer, a three-conductor cord, the chassis bonded", "transformer", 3, "heaters", transformerSet},
	{"transformer-two-conductors", "a power transformer on a two-conductor cord", "transformer", 2, "heaters", transformerSet},
	{"line-connected", "heaters in series, one side of the mains on the chassis", "line-connected", 2, "rail", seriesSet},
	{"floating-chassis", "heaters in series, the mains return apart from the chassis", "floating-chassis", 2, "rail", seriesSet},
}

// Kinds are the kinds of set, the plainest first.
func Kinds() []Kind { return slices.Clone(kinds) }

// Names are the names of the kinds.
func Names() []string {
	var out []string
	for _, k := range kinds {
		out = append(out, k.Name)
	}
	return out
}

// Sheet is the blank sheet of a set. Both kind and region must be known.
func Sheet(set, kind, region string) ([]byte, error) { return write(set, kind, region, false) }

func write(set, kind, region string, filled bool) ([]byte, error) {
	i := slices.IndexFunc(kinds, func(k Kind) bool { return k.Name == kind })
	if i < 0 {
		return nil, fmt.Errorf("there is no kind %q", kind)
	}
	r, ok := handbook.Region(region)
	if !ok {
		return nil, fmt.Errorf("there is no region %q", region)
	}
	k, w := kinds[i], &writer{filled: filled}
	w.prose("A bench sheet: it says what is there, not what should be. What is not known stays out; it then counts as not known, never as good.")
	w.prose("To be cleared, a set needs the marks on its parts, the colors, the readings and the inspection answers below, but for those that are said to be not owed. firstvolt help sheet says more.")
	w.prose("To use a line, take the first # and its space away, on each line down to where its brace closes, and write what you see or measured in place of each " + Open + ". Delete what your set or bench does not have.")
	w.WriteString("firstvolt: 1\n\nset:\n")
	w.head(set, k)
	w.WriteString("\nsupply:\n")
	w.supply(k, r)
	w.WriteString("\n")
	k.body(w, k, r)
	w.WriteString("\ninspection:                        # good | bad | not-seen\n")
	w.inspection(k)
	w.WriteString("\nfirst-power:\n")
	w.line("  stage: "+k.stage, doc("first-power", "stage"))
	w.later("  ", "shelf: ["+w.value("40 W")+"]", doc("first-power", "shelf"))
	return w.Bytes(), nil
}

func (w *writer) head(set string, k Kind) {
	w.line("  name: "+quoted(set), doc("set", "name"))
	w.later("  ", "serial: "+w.value("0231"), doc("set", "serial"))
	w.line("  construction: "+k.construction, doc("set", "construction"))
	w.later("  ", "nameplate:", doc("set", "nameplate"))
	for _, one := range [][2]string{{"voltage", "117 V"}, {"frequency", "60 Hz"}, {"power", "60 W"}} {
		w.later("  ", "  "+one[0]+": "+w.value(one[1]), doc("set", "nameplate", one[0]))
	}
	w.keysOf("  ", []string{"set"}, "chassis", "exposed", "rebuilt", "2026-11-18")
}

func (w *writer) supply(k Kind, r *handbook.RegionData) {
	w.line("  region: "+r.Name, doc("supply", "region"))
	w.line("  plug: "+plugOf(k, r).Name, doc("supply", "plug")+": "+strings.Join(r.PlugNames(), " | "))
	w.keysOf("  ", []string{"supply"}, "voltage", "121 V", "receptacle", "tested")
	w.later("  ", "upstream:", doc("supply", "upstream"))
	residual := "- {kind: rcd, rating: " + w.value("30 mA") + ", type: " + w.value("a") + ", tested: " + w.value("2026-11-20") + "}"
	if r.Residual == "gfci" {
		residual = "- {kind: gfci, form: " + w.value("receptacle") + ", tested: " + w.value("2026-11-20") + "}"
	}
	w.later("  ", "  "+residual, "")
	w.later("  ", "  - {kind: isolating-transformer, secondary: "+w.value("floating")+", earth: "+w.value("stopped")+"}", "")
	w.later("  ", "  - {kind: lamp-box, lamp: "+w.value("60 W")+", voltage: "+w.value("120 V")+", pole: "+w.value("hot")+", earth: "+w.value("through")+"}", "")
	w.later("  ", "  - {kind: variac, earth: "+w.value("through")+"}", "")
}

// plugOf is the plug that such a set has in the region: of the right number of
// poles where there is one, and of those one that goes in both ways round,
// since that is the dangerous end until the person says otherwise; never one that
// no list has.
func plugOf(k Kind, r *handbook.RegionData) handbook.Plug {
	best := r.Plugs[0]
	rank := func(p handbook.Plug) (n int) {
		if p.Poles == k.poles {
			n += 2
		}
		if p.Fits == "both-ways" {
			n++
		}
		return n
	}
	for _, p := range r.Plugs[1:] {
		if p.Listed() && rank(p) > rank(best) {
			best = p
		}
	}
	return best
}

func (w *writer) inspection(k Kind) {
	n, _ := keyAt("inspection")
	for _, key := range n.Shape.Map.Keys {
		if key.Name == part.Note.Name || k.construction == "transformer" && k.poles == 3 && slices.Contains(hands, key.Name) {
			continue
		}
		w.line("  "+key.Name+": not-seen", key.Doc)
	}
}

// hands are the inspections of a set whose chassis may be live.
var hands = []string{"knobs-insulated", "grub-screws-covered", "back-fitted", "chassis-screws-covered"}

func kindDoc(kind string) string { return part.KindOf(kind).Doc }
