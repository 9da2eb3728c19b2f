package quantity

import (
	"regexp"
	"slices"
	"strings"
)

// names are the dimensions as a schema names them.
var names = [...]string{"number", "resistance", "voltage", "current", "power", "capacitance", "inductance",
	"frequency", "length", "area", "time", "temperature", "fraction", "digits"}

// Name is the dimension as a word: resistance.
func (d Dim) Name() string { return names[d] }

// Pattern is a regular expression, in the part of the language that Go and
// ECMA share, that takes the form of every text that Parse takes. It looks at
// the form only: a size or a bound that Parse refuses may fit it.
func (d Dim) Pattern() string {
	one := `(\d+(\.\d+)?|\.\d+)`
	if d == Temperature {
		one = "[-+\u2212]?" + one
	}
	if d != Number {
		var us []string
		for _, u := range units {
			if u.dim != d {
				continue
			}
			us = append(us, spelled(u.name))
			if u.prefixes != "" {
				us = append(us, "["+strings.ReplaceAll(u.prefixes, "µ", "µ\u03bcu")+"]"+spelled(u.name))
			}
		}
		if d == Temperature {
			us = append(us, "℃", "℉")
		}
		slices.Sort(us)
		one += "[ \u00a0\u202f\u2009]*(" + strings.Join(us, "|") + ")"
	}
	return "^ *((over |> *)?" + one + "|" + one + " +to +" + one + ") *$"
}

func spelled(unit string) string {
	if unit == "Ω" {
		return "[Ω\u2126]"
	}
	return regexp.QuoteMeta(unit)
}
