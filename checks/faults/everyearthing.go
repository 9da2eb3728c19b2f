package faults

import (
	"fmt"
	"strings"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
)

// earthed is c asked under each system of earthing that the supply may have: of
// a number all that it may be then; of what is present or absent not known,
// where one system has it otherwise than another. So what is good on all of them
// is good, and what is bad on all is bad.
func earthed(c bench.Check) bench.Check {
	return bench.Check{Def: c.Def, Compute: func(b *bench.Bench) []figure.Figure {
		systems := b.Earthings()
		if len(systems) == 1 {
			return c.Compute(b)
		}
		type key struct {
			subject string
			nth     int
		}
		at := map[key]int{}
		var out []figure.Figure
		for _, system := range systems {
			nth := map[string]int{}
			for _, f := range c.Compute(b.Earthed(system)) {
				f.Note = on(system, f.Note)
				k := key{f.Of.Name, nth[f.Of.Name]}
				nth[f.Of.Name]++
				if i, again := at[k]; again {
					out[i] = either(out[i], f)
					continue
				}
				at[k] = len(out)
				out = append(out, f)
			}
		}
		return out
	}}
}

// on says of which system a note speaks.
func on(system, note string) string {
	if note == "" {
		return ""
	}
	return fmt.Sprintf("on %s: %s", strings.ToUpper(system), note)
}

// either is what is so where one of two figures is, and nobody says which: the
// words are those of the worse.
func either(x, y figure.Figure) figure.Figure {
	switch {
	case !x.Known():
		return x
	case !y.Known():
		return y
	case x.Present != nil && *x.Present == *y.Present:
		return x
	case x.Present != nil:
		f := figure.NotKnown(x.Def, x.Of, bench.EarthingNeed)
		f.Note, f.At = x.Note, x.At
		if f.Note == "" {
			f.Note = y.Note
		}
		return f
	}
	worse := x
	if y.Range.High > x.Range.High {
		worse = y
	}
	if hull := x.Range.Hull(y.Range); hull != worse.Range {
		worse.Range, worse.Settle = hull, append([]figure.Need{bench.EarthingNeed}, worse.Settle...)
	}
	return worse
}
