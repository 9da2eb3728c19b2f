package ratings

import (
	"fmt"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
)

var (
	plugFusedDef = &figure.Def{
		Name: "plug-fused", Room: "ratings", Of: []string{"plug"}, Present: true,
		Says: "the plug holds a fuse.",
	}
	plugFuseCordDef = &figure.Def{
		Name: "plug-fuse-over-cord", Room: "ratings", Of: []string{"plug"}, Unit: quantity.Number,
		Says: "rating of the fuse in the plug, divided by what a conductor of the cord may carry.",
	}
	plugFuseAdvisedDef = &figure.Def{
		Name: "plug-fuse-over-advised", Room: "ratings", Of: []string{"plug"}, Unit: quantity.Number,
		Says: "rating of the fuse in the plug, divided by the one that serves a radio.",
	}
)

func thePlug(b *bench.Bench) figure.Subject { s, _ := b.Subject("plug", "plug"); return s }

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

func plugFused(b *bench.Bench) []figure.Figure {
	_, ok := plugFuse(b)
	return []figure.Figure{figure.Is(plugFusedDef, thePlug(b), ok)}
}

func plugFuseCord(b *bench.Bench) []figure.Figure {
	rating, ok := plugFuse(b)
	var needs []figure.Need
	if !ok {
		needs = []figure.Need{{What: "cord plug-fuse", How: "the plug holds no fuse"}}
	}
	return []figure.Figure{overAmpacity(b, plugFuseCordDef, thePlug(b), rating, needs)}
}

// serves is the plug fuse that serves a radio where plugs of the region are not
// sold with fuses to choose from, and somebody fitted one.
const serves = 3.0

var servesBasis = figure.Basis{Status: figure.CommonPractice, Source: "a fuse of 3 A or less in the plug of a radio, wherever plugs hold fuses"}

func plugFuseAdvised(b *bench.Bench) []figure.Figure {
	rating, ok := plugFuse(b)
	if !ok {
		return []figure.Figure{figure.NotKnown(plugFuseAdvisedDef, thePlug(b), figure.Need{What: "cord plug-fuse", How: "the plug holds no fuse"})}
	}
	advised, from := b.Sheet.Plug.Advised, b.Sheet.Region.From["plugs"]
	if !(advised > 0) {
		advised, from = serves, servesBasis
	}
	a := quantity.Exact(advised, quantity.Current)
	q := rating.Div(a, quantity.Number)
	f := figure.Number(plugFuseAdvisedDef, thePlug(b), q)
	f.Trace = []string{fmt.Sprintf("%s ÷ %s = %s", rating, a, q)}
	f.From = []figure.Basis{from}
	return []figure.Figure{f}
}
