package mistakes_test

import (
	"slices"
	"testing"

	"firstvolt/checks/mistakes"
)

// TestWeighed holds what a slip must come to against what a person says of it
// who has the sheet and the page of rules before him.
func TestWeighed(t *testing.T) {
	const asGood = "as-good"
	type row struct{ slip, where, want string }
	for name, rows := range map[string][]row{
		// One pole in hot, a capacitor behind it to the chassis, neutral straight.
		"larkfield-six-forty": {
			{"leads-exchanged", "plug.hot with plug.neutral", "fail"},
			{"leads-exchanged", "F1.end with F1.side", "fail"},
			{"lead-on-the-wrong-terminal", "S1.2 -> C1.1, on S1.1 for S1.2", asGood},
			{"part-one-lug-further", "S1.2 -> C1.1, on plug.neutral for S1.2", asGood},
			{"part-one-lug-further", "S1.2 -> C1.1, on plug.hot for S1.2", "caution"}, // class Y ahead of the fuse
			{"wire-left-out", "C1.2 -> chassis", "fail"},
			{"wire-left-out", "plug.ground -> chassis", "fail"},
			{"strand-across", "F1.side and S1.2", "fail"},
			{"lead-on-the-chassis", "S1.2 -> T1.1, on the chassis for S1.2", "fail"},
		},
		// Two poles, a neon across the load, a screen; the plug fits one way.
		"burrumbeet-cabinet": {
			{"pole-bridged", "S1.1 and S1.2", "fail"},
			{"pole-bridged", "S1.3 and S1.4", asGood},
			{"lead-on-the-wrong-terminal", "S1.2 -> T1.1, on S1.4 for S1.2", "fail"},
			{"lead-on-the-wrong-terminal", "N1.2 -> S1.4, on S1.3 for S1.4", asGood},
			{"lead-on-the-wrong-terminal", "N1.2 -> S1.4, on S1.2 for S1.4", "caution"}, // both leads on one lug
			{"wire-left-out", "S1.2 -> N1.1", "caution"},
			{"wire-left-out", "T1.s -> chassis", "caution"},
		},
		// Two fuses, two poles, a plug that fits both ways, bonded.
		"steinwald-super-61": {
			{"pole-bridged", "S1.1 and S1.2", "caution"},
			{"lugs-exchanged", "plug.hot with Si1.side", "caution"},
			{"wire-left-out", "Si1.side -> R-bleed.1", "fail"}, // 220 nF and no bleeder
			{"wire-left-out", "Si1.side -> CX.1", "caution"},
		},
		// The same on two conductors: a power transformer isolates that set too.
		"aoyane-table-set": {{"pole-bridged", "S1.1 and S1.2", "caution"}},
		// A varistor, a thermistor, a capacitor on the contact and an outlet.
		"tannerfold-88": {
			{"part-one-lug-further", "RV1.2 -> TS1-1, on F1.2 for TS1-1", "caution"}, // across a contact it limits nothing
			{"lead-on-the-wrong-terminal", "S1.2 -> RV1.1, on S1.1 for S1.2", asGood},
			{"varistor-ahead-of-fuse", "RV1.1", "fail"},
			{"leads-exchanged", "J1.hot with J1.neutral", "fail"},
			{"wire-left-out", "S1.2 -> J1.hot", "unproven"},
			{"wire-left-out", "chassis -> J1.ground", "unproven"},
			{"lead-on-the-wrong-terminal", "S1.2 -> RT1.1, on RT1.2 for RT1.1", "caution"},
		},
		// A filter behind the switch.
		"valmorel-orfeo": {
			{"leads-exchanged", "Filtre.line-in with Filtre.neutral-in", asGood},
			{"leads-exchanged", "Filtre.line-in with Filtre.line-out", "caution"}, // one coil against the other
			{"lead-on-the-wrong-terminal", "Filtre.line-out -> Tr.1, on Filtre.line-in for Filtre.line-out", "caution"},
			{"lead-on-the-wrong-terminal", "Filtre.line-out -> Tr.1, on Filtre.neutral-out for Filtre.line-out", "fail"},
		},
		// A motor with a switch of its own.
		"furkastein-truhe": {
			{"wire-left-out", "M1.2 -> NT.2", "caution"},
			{"lead-on-the-wrong-terminal", "S2.2 -> M1.1, on S2.1 for S2.2", "unproven"},
			{"strand-across", "plug.neutral and S2.2", "fail"},
			{"wire-left-out", "M1.frame -> chassis", "unproven"},
		},
		// On the line: behind the plates only the rules of the high tension can see.
		"copperbeck-five": {
			{"leads-exchanged", "V5.cathode with V5.plate", mistakes.NotJudged},
			{"wire-left-out", "J1 -> V5.plate", mistakes.NotJudged},
			{"wire-left-out", "plug.neutral -> chassis", "caution"},
			{"lead-on-the-chassis", "S1.2 -> J1, on the chassis for S1.2", "fail"},
		},
	} {
		all, err := soundSheets()
		if err != nil {
			t.Fatal(err)
		}
		s := all[slices.IndexFunc(all, func(s *sound) bool { return s.name == name })]
		s.read(t)
		for _, r := range rows {
			got := "not made"
			for _, m := range s.all() {
				if m.Name != r.slip {
					continue
				}
				for _, sl := range m.slips {
					if sl.Where == r.where {
						got = sl.Outcome
					}
				}
				for _, o := range m.others {
					if o.Where == r.where {
						got = asGood
					}
				}
			}
			if got != r.want {
				t.Errorf("%s: %s: %s: %s, want %s", name, r.slip, r.where, got, r.want)
			}
		}
	}
}
