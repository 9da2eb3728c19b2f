package mistakes

import (
	"slices"

	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
)

var untold = []kind{
	{"winding-unread", "Nobody read the ohms of a winding.", windingUnread},
	{"volts-not-told", "The volts of a winding are not on the sheet.", voltsUntold},
}

// windingUnread takes away every reading of the ohms of one winding that is no
// primary: nobody owes them before the rail, and it is said.
func windingUnread(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	for _, p := range d.parts("transformer") {
		for _, w := range p.Windings {
			of := func(rd *sheet.Reading) bool { return rd.Kind == "resistance" && onWinding(rd, p, w) }
			if w.Role == "primary" || !slices.ContainsFunc(s.Readings, of) {
				continue
			}
			out = append(out, Slipped{Where: p.Full(w.Name), Outcome: Caution, Rules: []string{"winding-continuity"},
				Why: "before the rail nobody owes the ohms of a secondary", Tree: d.edit(func(root *strict.Node) {
					list := root.Get("readings").Get("resistance")
					var left []*strict.Node
					for i, item := range list.Items {
						if !slices.ContainsFunc(s.Readings, func(rd *sheet.Reading) bool {
							return of(rd) && rd.Node == s.Root.Get("readings").Get("resistance").Items[i]
						}) {
							left = append(left, item)
						}
					}
					list.Items = left
				})})
		}
	}
	return out
}

// onWinding tells a reading whose probes both lie on the winding.
func onWinding(rd *sheet.Reading, p *part.Part, w *part.Winding) bool {
	on := func(ts []string) bool {
		return len(ts) == 1 && slices.ContainsFunc(w.Order, func(t string) bool { return p.Full(t) == ts[0] })
	}
	return on(rd.A) && on(rd.B)
}

// voltsUntold: without its volts a primary is not known to fit the supply, and a
// secondary that was read against one not to have its turns.
func voltsUntold(root *strict.Node, s *sheet.Sheet) []Slipped {
	d := newDraft(root, s)
	var out []Slipped
	for _, p := range d.parts("transformer") {
		for _, w := range p.Windings {
			read := slices.ContainsFunc(s.Readings, func(rd *sheet.Reading) bool {
				return rd.Kind == "voltage" && (rd.AppliedW == w || onWinding(rd, p, w))
			})
			if w.Node.Get("voltage") == nil || w.Node.Get("taps") != nil || w.Node.Get("no-load") != nil || w.Role != "primary" && !read {
				continue
			}
			sl := d.change(p.Full(w.Name)+" voltage", "", Unproven, []string{"winding-voltage-fits-supply"}, "parts", p.Name, "windings", w.Name, "voltage")
			if w.Role != "primary" {
				sl.Rules = []string{"turns-ratio"}
			}
			out = append(out, sl)
		}
	}
	return out
}
