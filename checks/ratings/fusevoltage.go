package ratings

import (
	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
)

var fuseVoltageDef = &figure.Def{
	Name: "fuse-volts-over-supply", Room: "ratings", Of: []string{"fuse"}, Unit: quantity.Number,
	Says: "voltage stamped on the fuse, divided by the nominal voltage that a conductor may have to the other or to earth.",
}

func fuseVoltage(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	for _, p := range b.Parts("fuse") {
		out = append(out, markedOver(b, fuseVoltageDef, p, toEarth(b)))
	}
	return out
}
