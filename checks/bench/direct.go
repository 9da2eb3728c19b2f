package bench

import "firstvolt/checks/sheet"

// Direct tells whether a resistance reading measures a stretch of one winding
// by itself: probes on two of its terminals, nothing else that conducts
// between them. from and to are places in the winding's Order, from first.
func (b *Bench) Direct(rd *sheet.Reading) (w PartWinding, from, to int, ok bool) {
	return b.direct(rd)
}
