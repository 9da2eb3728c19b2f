package entry

import (
	"fmt"
	"slices"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
)

var (
	plugKeyed = &figure.Def{Name: "plug-keyed", Room: "entry", Of: []string{"plug"}, Present: true,
		Says: "the plug fits its receptacle one way only"}
	keyedExists = &figure.Def{Name: "keyed-two-pole-plug-exists", Room: "entry", Of: []string{"plug"}, Present: true,
		Says: "the region has a two-pole plug that fits one way only"}
	bothWaysJoint = &figure.Def{Name: "joint-fits-both-ways", Room: "entry", Of: []string{"set"}, Present: true,
		Says: "somewhere between receptacle and set a joint can be mated either way round"}
)

func plugSubject(b *bench.Bench) figure.Subject { s, _ := b.Subject("plug", "plug"); return s }

func computePlugKeyed(b *bench.Bench) []figure.Figure {
	return []figure.Figure{figure.Is(plugKeyed, plugSubject(b), b.Sheet.Plug.Fits == "one-way")}
}

func computeKeyedExists(b *bench.Bench) []figure.Figure {
	return []figure.Figure{figure.Is(keyedExists, plugSubject(b), b.Sheet.Region.KeyedTwoPole)}
}

func computeBothWaysJoint(b *bench.Bench) figure.Figure {
	f := figure.Is(bothWaysJoint, b.Set(), b.Wired().Orientation != "fixed")
	return f
}

var endOnCordSide = &figure.Def{Name: "end-contact-on-cord-side", Room: "entry", Of: part.Named(part.Fuses), Present: true,
	Says: "the cord side hangs on the end contact of the holder"}

var panelHolder = &figure.Def{Name: "panel-holder-on-mains", Room: "entry", Of: part.Named(part.Fuses), Present: true,
	Says: "the fuse sits in a panel holder of the mains entry"}

func computePanelHolder(b *bench.Bench) (out []figure.Figure) {
	for _, p := range b.Parts(part.Fuses) {
		out = append(out, figure.Is(panelHolder, b.Of(p), p.Word("holder") == "panel" && b.Of(p).Role == "mains"))
	}
	return out
}

// computeEndOnCordSide asks, fuses out and switches closed, which contact of
// the holder a finger comes to that follows the cord.
func computeEndOnCordSide(b *bench.Bench) (out []figure.Figure) {
	for _, p := range b.Parts(part.Fuses) {
		if p.Word("holder") != "panel" {
			continue
		}
		of := b.Of(p)
		f := figure.NotKnown(endOnCordSide, of, figure.Need{What: "a way from the cord to " + p.Name, How: "its wires"})
		for _, line := range b.Lines() {
			for _, st := range positions(b, bench.State{AllOut: true}) {
				r := follow(b, st, line)
				end, side := r.Has(p.Full("end")), r.Has(p.Full("side"))
				switch {
				case side:
					f = figure.Is(endOnCordSide, of, false)
					f.Witness = path(r, p.Full("side"))
					f.Note = fmt.Sprintf("the cord comes to the side contact of %s, where fingers are when the fuse is drawn", p.Name)
				case end && !f.Known():
					f = figure.Is(endOnCordSide, of, true)
					f.Witness = path(r, p.Full("end"))
				}
			}
		}
		out = append(out, f)
	}
	return out
}

var (
	calledTransformer = &figure.Def{Name: "called-transformer-but-on-line", Room: "entry", Of: []string{"set"}, Present: true,
		Says: "the sheet says transformer, but something joins a line conductor to the chassis or the set's own circuits"}
	calledOther = &figure.Def{Name: "called-on-line-but-transformer", Room: "entry", Of: []string{"set"}, Present: true,
		Says: "the sheet calls the set line-connected or floating, but the wiring is that of a transformer set"}
)

func computeCalledTransformer(b *bench.Bench) figure.Figure {
	w := b.Wired()
	called := b.Sheet.Construction == "transformer"
	f := figure.Is(calledTransformer, b.Set(), called && (w.Construction != "transformer" || w.LiveWinding != nil))
	f.Witness = w.LiveChassis
	switch {
	case called && w.Construction == "transformer" && w.LiveWinding != nil:
		f.Witness = w.LiveWinding
		f.Note = "a line conductor reaches a secondary winding"
	case *f.Present:
		f.Note = "by its wiring this is a " + w.Construction + " set"
	}
	return f
}

func computeCalledOther(b *bench.Bench) figure.Figure {
	w := b.Wired()
	return figure.Is(calledOther, b.Set(), b.Sheet.Construction != "transformer" && w.Construction == "transformer")
}

// live lists the terminals of a live chassis: the chassis, or the common rail
// of a floating one.
func live(b *bench.Bench) []string {
	if w := b.Wired(); w.Construction == "floating-chassis" {
		return w.Rail
	}
	return []string{"chassis"}
}

func reachedAny(r net, ts []string) (string, bool) {
	i := slices.IndexFunc(ts, r.Has)
	if i < 0 {
		return "", false
	}
	return ts[i], true
}
