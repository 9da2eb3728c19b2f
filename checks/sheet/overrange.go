package sheet

import (
	"fmt"
	"slices"
	"strings"

	"firstvolt/checks/pattern"
	"firstvolt/checks/quantity"
	"firstvolt/checks/strict"
)

// overRange are the ways in which people and meters say over range, besides OL:
// in small letters, without what bound stands before and what unit behind.
var overRange = []string{
	"∞", "oo", "inf", "inf.", "infinity", "infinite", "infini", "infinito", "unendlich",
	"ol", "o.l", "o.l.", "o l", "o/l", "0l", "0.l", "0.l.", ".0l", "0 l", "l", "overload", "over load", "overrange", "over range", "over-range", "range", "load",
	"limit", "overlimit", "over limit", "out of range", "off scale", "off the scale", "full scale",
}

// noPath are further ways, where ohms are read: nothing conducts.
var noPath = []string{
	"open", "open circuit", "open-circuit", "o.c.", "oc", "o/c", "no continuity", "not continuous", "none", "nothing",
	"offen", "kein durchgang", "unterbrochen", "unterbrechung",
}

var (
	boundBefore = pattern.Of(`^(?:(?:over|above|more than)(?:\s+|$)|[>≥]\s*=?\s*)`)
	ohmsBehind  = pattern.Of(`\s*[kmg]?(?:[ωω]|ohms?)$`)
	loneOne     = pattern.Of(`^1\s*\.?$`) // what a meter of three and a half digits shows
)

// most is where the range of a common meter ends, for a hint.
var most = map[quantity.Dim]string{quantity.Resistance: "40 MΩ", quantity.Capacitance: "200 µF", quantity.Voltage: "600 V"}

// rangeFault is the error of a display that says over range in other words than
// the format has; nil where it does not.
func rangeFault(text string, d quantity.Dim) error {
	said := strings.ToLower(strings.TrimSpace(text))
	write := "write OL as a meter does, or over " + most[d] + " where its range ends there"
	if loneOne().MatchString(said) {
		return &strict.Fault{Wrong: fmt.Sprintf("%q may be a value or a meter over its range", text), Right: fmt.Sprintf("%s; add the unit, like 1 %s, only if that was shown", write, d.Unit())}
	}
	bare := strings.TrimSpace(boundBefore().ReplaceAllString(said, ""))
	bare = strings.TrimSpace(ohmsBehind().ReplaceAllString(bare, ""))
	bare = strings.TrimSpace(strings.TrimLeft(bare, "+.> "))
	if d != quantity.Resistance {
		bare = strings.TrimSpace(strings.TrimSuffix(bare, strings.ToLower(d.Unit())))
	}
	over := bare == "" && said != "" && boundBefore().MatchString(said)
	if over || slices.Contains(overRange, bare) || d == quantity.Resistance && slices.Contains(noPath, bare) {
		return &strict.Fault{Wrong: fmt.Sprintf("%q is not how over range is written here", text), Right: write}
	}
	return nil
}
