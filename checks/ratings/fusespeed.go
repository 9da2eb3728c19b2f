package ratings

import (
	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
)

var fuseDelayDef = &figure.Def{
	Name: "fuse-waits", Room: "ratings", Of: []string{"fuse"}, Present: true,
	Says: "the fuse is of the time-delay kind.",
}

func fuseDelay(b *bench.Bench) []figure.Figure {
	var out []figure.Figure
	for _, p := range b.Parts("fuse") {
		f := figure.Is(fuseDelayDef, b.Of(p), p.Word("speed") == "time-delay")
		if p.Word("speed") == "" {
			f = figure.NotKnown(fuseDelayDef, b.Of(p), lacks(p, "speed", "the letters on its cap: T or a spiral wire for time-delay, F for fast"))
		}
		out = append(out, f)
	}
	return out
}
