//go:build unix

package main

import (
	"context"
	"fmt"
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
	for name, text := range map[string]string{
		"seven switches and knobs": hostile(7, knob, "F1.2 -> S# -> C# -> B#"),
		"twelve":                   hostile(12, knob, "F1.2 -> S# -> C# -> B#"),
		"switches side by side":    hostile(10, "  S#: {kind: switch, poles: 1}\n", "F1.2 -> S# -> T1.2"),
		"bodies":                   hostile(1000, "  B#: {kind: body}\n", "chassis -> B#"),
		"resistors":                hostile(1000, "  R#: {kind: resistor, value: 10 kΩ}\n", "F1.2 -> R# -> T1.2"),
		"connectors":               hostile(2000, "  J#: {kind: connector, pins: [1, 2]}\n", "F1.2 -> J#.1\n  - J#.1-mate -> T1.2"),
		"readings":                 hostile(0, "", "") + "readings:\n  insulation:\n" + strings.Repeat("    - {between: [plug.hot, chassis], test: 500 V, reads: 100 MΩ}\n", 8000),
		"a selector":               hostile(1, "  Z#: {kind: selector, positions: {"+positions.String()+"}}\n", "F1.2 -> Z#.a\n  - Z#.b -> T1.2"),
	} {
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
