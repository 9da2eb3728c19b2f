package ratings

import (
	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
)

var fuseVoltage = bench.EachPart(figure.Def{
	Name: "fuse-volts-over-supply", Of: part.Named(part.Fuses), Unit: quantity.Number,
	Says: "voltage stamped on the fuse, divided by the nominal voltage that a conductor may have to the other or to earth.",
}, markedToEarth)

// markedToEarth is the figure of a part's marked voltage over what a conductor
// may have to earth.
func markedToEarth(b *bench.Bench, p *part.Part) figure.Figure { return markedOver(b, p, toEarth(b)) }
