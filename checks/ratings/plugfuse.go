package ratings

import (
	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
)

// plugFuse is the fuse in the plug: as the sheet says, else any that the plug
// may hold. ok is false where there is none.
func plugFuse(b *bench.Bench) (rating quantity.Range, ok bool) {
	if v, said := b.Sheet.CordValue("plug-fuse"); said {
		return v, true
	}
	if b.Sheet.Plug.Fuse != nil {
		return *b.Sheet.Plug.Fuse, true
	}
	return quantity.Range{}, false
}

var plugFused = bench.EachSubject(figure.Def{
	Name: "plug-fused", Of: []string{"plug"}, Present: true,
	Says: "the plug holds a fuse.",
}, func(b *bench.Bench, _ figure.Subject) figure.Figure {
	_, ok := plugFuse(b)
	return figure.So(ok)
})

var noPlugFuse = figure.Need{What: "cord plug-fuse", How: "the plug holds no fuse"}

var plugFuseCord = bench.EachSubject(figure.Def{
	Name: "plug-fuse-over-cord", Of: []string{"plug"}, Unit: quantity.Number,
	Says: "rating of the fuse in the plug, divided by what a conductor of the cord may carry.",
}, func(b *bench.Bench, _ figure.Subject) figure.Figure {
	rating, ok := plugFuse(b)
	if !ok {
		return overAmpacity(b, rating, noPlugFuse)
	}
	return overAmpacity(b, rating)
})

// serves is the plug fuse that serves a radio where plugs of the region are not
// sold with fuses to choose from, and somebody fitted one.
const serves = 3.0

var servesBasis = figure.Basis{Status: figure.CommonPractice, Source: "a fuse of 3 A or less in the plug of a radio, wherever plugs hold fuses"}

var plugFuseAdvised = bench.EachSubject(figure.Def{
	Name: "plug-fuse-over-advised", Of: []string{"plug"}, Unit: quantity.Number,
	Says: "rating of the fuse in the plug, divided by the one that serves a radio.",
}, func(b *bench.Bench, _ figure.Subject) figure.Figure {
	rating, ok := plugFuse(b)
	if !ok {
		return figure.Lacking(noPlugFuse)
	}
	advised, from := b.Sheet.Plug.Advised, b.Sheet.Region.From["plugs"]
	if !(advised > 0) {
		advised, from = serves, servesBasis
	}
	f := figure.Over(rating, quantity.Exact(advised, quantity.Current))
	f.From = []figure.Basis{from}
	return f
})
