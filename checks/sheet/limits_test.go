package sheet

import (
	"bytes"
	"fmt"
	"strings"
	"testing"
	"time"

	"firstvolt/checks/strict"
)

const head = "firstvolt: 1\nset: {name: X, construction: transformer}\nsupply: {region: north-america, plug: nema-5-15}\n"

// big is a sheet of n parts, wired in a chain, each read across.
func big(n int) []byte {
	var b bytes.Buffer
	b.WriteString(head + "parts:\n")
	for i := range n {
		fmt.Fprintf(&b, "  R%d: {kind: resistor, value: 1 kΩ, tolerance: 5 %%}\n", i)
	}
	b.WriteString("wiring:\n")
	for i := range n {
		fmt.Fprintf(&b, "  - {run: plug.hot -> R%d -> chassis, color: black}\n", i)
	}
	b.WriteString("readings:\n  resistance:\n")
	for i := range n {
		fmt.Fprintf(&b, "    - {across: R%d, reads: 1 kΩ}\n", i)
	}
	return b.Bytes()
}

// Sizes at which something quadratic would show; each must be read, or
// refused, at once: within a tenth of a second where this was written. The
// bound is fifty times that, for a slow machine that is busy.
func TestHostileSizesAreQuick(t *testing.T) {
	const mib = strict.MaxBytes
	fill := func(s string, n int) []byte { return []byte(strings.Repeat(s, n/len(s))) }
	with := func(s string, n int) []byte { return append([]byte(head), fill(s, n-len(head))...) }
	for name, c := range map[string]struct {
		data  []byte
		reads bool
	}{
		"a thousand parts":     {big(1000), true},
		"brackets":             {fill("[", mib), false},
		"braces":               {fill("{a: ", mib), false},
		"dashes":               {fill("- ", mib), false},
		"question marks":       {fill("? ", mib), false},
		"quotes":               {fill("\"", mib), false},
		"open quote":           {append([]byte("a: \""), fill("x\n", mib/8)...), false},
		"blank lines":          {fill("\n", mib), false},
		"hashes":               {with("#a\n", mib/8), false},
		"aliases":              {with("- *a\n", 20000), false},
		"aliases of all names": {[]byte(head + "parts: [" + strings.Join(numbered("*a%d", 5000), ", ") + "]\n"), false},
		"keys":                 {[]byte(head + strings.Join(numbered("k%d: 1", 10000), "\n") + "\n"), false},
		"unknown parts":        {append(big(300), []byte("  insulation:\n"+strings.Join(numbered("    - {across: X%d, reads: OL}", 1000), "\n")+"\n")...), false},
		"minus signs":          {[]byte(head + "cord: {length: " + strings.Repeat("-", 500000) + "1 m}\n"), false},
		"one long run":         {[]byte(head + "wiring:\n  - " + strings.Repeat("plug.hot -> chassis -> ", 20000) + "plug.hot\n"), true},
		"too large":            {fill("a", mib+1), false},
		"bad end of 1 MiB":     {append(with("# line\n", mib-2000), []byte("cord: {a")...), false},
		"deep blocks":          {[]byte(staircase(1200)), false},
		"directives":           {fill("%a\n", mib/8), false},
		"zero width":           {with("\u200b: 1\n", 100000), false},
	} {
		t.Run(name, func(t *testing.T) {
			start := time.Now()
			s, problems := Read("sheet.yaml", c.data)
			took := time.Since(start)
			if (s != nil) != c.reads || (len(problems) == 0) != c.reads {
				t.Errorf("reads: %v with %d problems (%.300v)", s != nil, len(problems), problems[:min(2, len(problems))])
			}
			if took > slower*5*time.Second {
				t.Errorf("took %v", took)
			}
		})
	}
}

func numbered(format string, n int) []string {
	out := make([]string, n)
	for i := range out {
		out[i] = fmt.Sprintf(format, i)
	}
	return out
}

func staircase(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(strings.Repeat(" ", i) + "a:\n")
	}
	return b.String()
}
