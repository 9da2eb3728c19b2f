package ratings

import (
	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
)

var fuseDelay = bench.EachPart(figure.Def{
	Name: "fuse-waits", Of: part.Named(part.Fuses), Present: true,
	Says: "the fuse is of the time-delay kind.",
}, func(_ *bench.Bench, p *part.Part) figure.Figure {
	if p.Word("speed") == "" {
		return figure.Lacking(lacks(p, "speed", "the letters on its cap: T or a spiral wire for time-delay, F for fast"))
	}
	return figure.So(p.Word("speed") == "time-delay")
})
