// Package checks lists the rooms that say what is so, and runs them.
package checks

import (
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/entry"
	"firstvolt/checks/faults"
	"firstvolt/checks/figure"
	"firstvolt/checks/ratings"
	"firstvolt/checks/readings"
)

// all are the checks of every room, in the order of the rooms.
var all = slices.Concat(entry.Checks, entry.BenchChecks, ratings.Checks, readings.Checks, faults.Checks)

// Catalogue lists the definition of every figure that is computed.
func Catalogue() []figure.Def {
	var out []figure.Def
	for _, c := range all {
		out = append(out, *c.Def)
	}
	return out
}

// Run computes every figure of the set. Broken are internal faults; the
// figures they cost are there, as missing.
func Run(b *bench.Bench) (figures []figure.Figure, broken []string) {
	of := make([][]figure.Figure, len(all))
	for i, c := range all {
		fs, fault := c.Run(b)
		of[i] = fs
		if fault != "" {
			broken = append(broken, fault)
		}
	}
	return slices.Concat(of...), broken
}
