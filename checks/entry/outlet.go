package entry

import (
	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
)

var outletTrue = &figure.Def{Name: "outlet-wired-true", Room: "entry", Of: part.Named(part.Feeds), Present: true,
	Says: "switched on, the outlet's hot hangs on hot and its neutral on neutral"}

// computeOutletTrue follows both line conductors to each outlet, switches
// closed, in every selector position that the sheet leaves open. Which of its
// contacts is which matters where the plug keeps its polarity; where it does
// not, each must still be on a conductor of its own.
func computeOutletTrue(b *bench.Bench) (out []figure.Figure) {
	fixed := b.Wired().Orientation != "both-ways"
	for _, p := range b.Parts(part.Feeds) {
		contacts := [2]string{p.Full("hot"), p.Full("neutral")}
		f := figure.Is(outletTrue, b.Of(p), true)
		for _, st := range positions(b, bench.State{}) {
			hot, neutral := follow(b, st, sheet.PlugHot), follow(b, st, sheet.PlugNeutral)
			straight := hot.Has(contacts[0]) && neutral.Has(contacts[1])
			crossed := hot.Has(contacts[1]) && neutral.Has(contacts[0])
			switch {
			case straight, crossed && !fixed:
				if f.Witness == nil && straight {
					f.Witness = path(hot, contacts[0])
				}
				continue
			case crossed:
				f = figure.Is(outletTrue, b.Of(p), false)
				f.Witness, f.Note = path(hot, contacts[1]), "its contacts are exchanged: "+contacts[1]+" is on hot"
			default:
				f = figure.NotKnown(outletTrue, b.Of(p), figure.Need{What: "how " + contacts[0] + " and " + contacts[1] + " come to the line conductors", How: "write their wires; delete the outlet only if the set does not have it"})
			}
			break
		}
		out = append(out, f)
	}
	return out
}
