package faults_test

import (
	"strings"
	"testing"
)

// TestUncounted: a residual device that does not count says why, and what would
// make it count; one that would change nothing is not asked for.
func TestUncounted(t *testing.T) {
	const device, long = "{kind: gfci, form: receptacle, tested: 2026-11-20}", "length: 6 ft"
	for _, c := range []struct {
		what, unit, length string
		serves             bool
		need, note         string // need empty: it counts, or nothing on the sheet makes it
	}{
		{"tested on the day", device, "length: 60 ft", false, "", ""},
		{"tested before", "{kind: gfci, tested: 2026-11-19}", "length: 60 ft", true, "upstream 1 tested", "it was tested on 2026-11-19, before the latest reading on 2026-11-20"},
		{"no test on the sheet", "{kind: gfci}", "length: 60 ft", true, "upstream 1 tested", "does not say when it was tested"},
		{"no rating on the sheet", "{kind: rcd, tested: 2026-11-20}", "length: 60 ft", true, "upstream 1 rating", "its rating is not on the sheet"},
		{"the fuse is quick enough", "{kind: gfci}", long, false, "upstream 1 tested", "does not say when it was tested"},
		{"beside a transformer", device + "\n    - {kind: isolating-transformer, secondary: floating, earth: through}", "length: 60 ft", false, "", ""},
	} {
		text := sheetsOf(t)["larkfield-six-forty.yaml"]
		b := read(t, strings.Replace(strings.Replace(text, device, c.unit, 1), long, c.length, 1))
		if f := one(t, b, "residual-would-serve", "upstream 1"); f.Present == nil || *f.Present != c.serves {
			t.Errorf("%s: would serve %v", c.what, f.Present)
		}
		f := one(t, b, "residual-counts", "upstream 1")
		switch {
		case c.need == "" && (!f.Known() || *f.Present == strings.Contains(c.unit, "isolating")):
			t.Errorf("%s: counts %v, needs %v", c.what, f.Present, f.Missing)
		case c.need != "" && (f.Known() || f.Missing[0].What != c.need || !strings.Contains(f.Note, c.note)):
			t.Errorf("%s: needs %v, noted %q", c.what, f.Missing, f.Note)
		}
		touch := one(t, b, "touch-current-one-fault", "chassis")
		if (len(touch.Settle) > 0) != c.serves || strings.Contains(touch.Note, "does not count") != c.serves && !strings.Contains(c.unit, "isolating") {
			t.Errorf("%s: settled by %v, noted %q", c.what, touch.Settle, touch.Note)
		}
	}
}
