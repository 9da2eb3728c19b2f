//go:build unix

package main

import (
	"context"
	"fmt"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// hostile is a bonded set with so many of one thing besides.
func hostile(n int, part, run string) string {
	var parts, runs strings.Builder
	for i := range n {
		parts.WriteString(strings.ReplaceAll(part, "#", fmt.Sprint(i)))
		runs.WriteString("  - " + strings.ReplaceAll(run, "#", fmt.Sprint(i)) + "\n")
	}
	return "firstvolt: 1\nset: {name: Fenwick Nine, construction: transformer}\nsupply: {region: north-america, plug: nema-5-15}\nparts:\n" +
		"  F1: {kind: fuse}\n  T1: {kind: transformer, windings: {primary: {ends: [1, 2], voltage: 117 V}}}\n" + parts.String() +
		"wiring:\n  - plug.hot -> F1.1\n  - F1.2 -> T1.1\n  - plug.neutral -> T1.2\n  - plug.ground -> chassis\n" + runs.String()
}

// crowded are parts of every kind that has two ends or none, with these ends.
var crowded = []struct{ part, a, b string }{
	{"resistor, value: 10 kΩ, power: 2 W, voltage: 300 V", "1", "2"}, {"potentiometer, value: 1 MΩ", "1", "2"},
	{"capacitor, value: 1 nF, class: Y1, voltage: 250 V", "1", "2"}, {"electrolytic, value: 10 µF, voltage: 450 V", "plus", "minus"},
	{"fuse, rating: 1 A, voltage: 250 V, speed: fast", "1", "2"}, {"switch, poles: 1, rating: 3 A, voltage: 250 V", "1", "2"},
	{"lamp, voltage: 120 V, current: 0.1 A", "1", "2"}, {"neon, voltage: 65 V, resistor: 100 kΩ", "1", "2"},
	{"varistor, voltage: 150 V", "1", "2"}, {"arrester, voltage: 150 V", "1", "2"}, {"thermistor, cold: 10 Ω, hot: 1 Ω, current: 1 A", "1", "2"},
	{"choke, inductance: 1 H, resistance: 10 Ω", "1", "2"}, {"motor, current: 0.1 A, voltage: 120 V", "1", "2"},
	{"outlet, load: 1 A", "hot", "neutral"}, {"filter, current: 1 A, voltage: 250 V", "line-in", "line-out"}, {"connector, pins: [1]", "1", "1-mate"},
	{"barretter, current: 0.3 A, voltage: 100 V", "1", "2"}, {"rectifier, of: silicon, voltage: 1000 V, current: 1 A", "anode", "cathode"},
	{"tube, type: 6V6", "h1", "h2"}, {"speaker, resistance: 4 Ω", "1", "2"}, {"autotransformer, taps: {a: 0 V, b: 110 V}", "a", "b"},
	{"transformer, windings: {primary: {ends: [1, 2], voltage: 117 V}, heater: {ends: [3, 4], voltage: 6.3 V}}", "1", "2"},
}

// crowds are sheets with thirty of a part, and with as many as a mebibyte holds:
// side by side, one behind the other, from line to chassis, and each on a body of
// its own.
func crowds() map[string]string {
	out := map[string]string{}
	for _, c := range crowded {
		part, a, b := "  X#: {kind: "+c.part+"}\n", "X#."+c.a, "X#."+c.b
		for way, runs := range map[string]struct{ more, run string }{
			"side by side":     {"", "F1.2 -> " + a + "\n  - " + b + " -> T1.2"},
			"in a row":         {"  J#: {kind: tie}\n", "J# -> " + a + "\n  - " + b + " -> J+"},
			"to the chassis":   {"", "F1.2 -> " + a + "\n  - " + b + " -> chassis"},
			"each with a body": {"  B#: {kind: body}\n", "F1.2 -> " + a + "\n  - " + b + " -> B#"},
		} {
			each := len(hostile(2, part+runs.more, runs.run)) - len(hostile(1, part+runs.more, runs.run)) + 24 // digits
			for _, n := range []int{30, 1 << 20 / each} {
				text := hostile(n, part+runs.more, runs.run)
				if way == "in a row" {
					text = inARow(text)
				}
				out[fmt.Sprintf("%d %.12s %s", n, c.part, way)] = text
			}
		}
	}
	return out
}

// inARow joins the end of each to the next, and the first and last to the line.
func inARow(text string) string {
	pieces := strings.Split(text, "-> J+\n")
	var out strings.Builder
	for i, p := range pieces {
		out.WriteString(p)
		switch {
		case i+2 < len(pieces):
			fmt.Fprintf(&out, "-> J%d\n", i+1)
		case i+2 == len(pieces):
			out.WriteString("-> T1.2\n")
		}
	}
	return out.String() + "  - F1.2 -> J0\n"
}

// mostWork is ten times what the longest of these may take.
const mostWork = 10 * 10 * time.Second

// TestHostileSheetsAreBounded runs the program on sheets of far more than any
// set has: each ends with a status of its own, within a gigabyte. A status of a
// runtime that died of memory would be 2 too, so that the verdict is looked for.
func TestHostileSheetsAreBounded(t *testing.T) {
	program, err := exec.LookPath("firstvolt")
	if err != nil {
		t.Fatal(err)
	}
	const knob = "  S#: {kind: switch, poles: 1}\n  C#: {kind: capacitor, value: 1 nF, class: Y1}\n  B#: {kind: body}\n"
	var positions strings.Builder
	for i := range 400 {
		fmt.Fprintf(&positions, "%sP%d: [[a, b]]", map[bool]string{true: ", "}[i > 0], i)
	}
	sheets := map[string]string{
		"seven switches and knobs": hostile(7, knob, "F1.2 -> S# -> C# -> B#"),
		"twelve":                   hostile(12, knob, "F1.2 -> S# -> C# -> B#"),
		"switches side by side":    hostile(10, "  S#: {kind: switch, poles: 1}\n", "F1.2 -> S# -> T1.2"),
		"bodies":                   hostile(1000, "  B#: {kind: body}\n", "chassis -> B#"),
		"resistors":                hostile(1000, "  R#: {kind: resistor, value: 10 kΩ}\n", "F1.2 -> R# -> T1.2"),
		"connectors":               hostile(2000, "  J#: {kind: connector, pins: [1, 2]}\n", "F1.2 -> J#.1\n  - J#.1-mate -> T1.2"),
		"readings":                 hostile(0, "", "") + "readings:\n  insulation:\n" + strings.Repeat("    - {between: [plug.hot, chassis], test: 500 V, reads: 100 MΩ}\n", 8000),
		"a selector":               hostile(1, "  Z#: {kind: selector, positions: {"+positions.String()+"}}\n", "F1.2 -> Z#.a\n  - Z#.b -> T1.2"),
	}
	if *exhaustive {
		maps.Copy(sheets, crowds())
	}
	for name, text := range sheets {
		for _, command := range []string{"check", "faults"} {
			t.Run(name+", "+command, func(t *testing.T) {
				file := filepath.Join(t.TempDir(), "sheet.yaml")
				if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
					t.Fatal(err)
				}
				// Ten times and more what it takes: a bound for what never ends.
				ctx, cancel := context.WithTimeout(context.Background(), 5*time.Minute)
				defer cancel()
				run := exec.CommandContext(ctx, program, command, file)
				var out, errs strings.Builder
				run.Stdout, run.Stderr = &out, &errs
				run.Run() // the status tells
				code := run.ProcessState.ExitCode()
				if used := run.ProcessState.UserTime() + run.ProcessState.SystemTime(); used > mostWork {
					t.Errorf("%v of work", used)
				}
				if used, ok := run.ProcessState.SysUsage().(*syscall.Rusage); !ok || used.Maxrss > larger<<20 {
					t.Errorf("more than %d GiB: %d KiB", larger, used.Maxrss)
				}
				judged := command == "check" && code < exitUsage && strings.Contains(out.String(), ": UNPROVEN") || strings.Contains(out.String(), ": HOLD")
				refused := command == "faults" && (code == exitUsage && strings.Contains(strings.Join(strings.Fields(errs.String()), " "), "not computed: ") || code == 0)
				if !judged && !refused {
					t.Errorf("status %d\n%.300s\n%.300s", code, out.String(), errs.String())
				}
			})
		}
	}
}
