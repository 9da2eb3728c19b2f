package ratings_test

import "testing"

func TestCord(t *testing.T) {
	const cord = "cord: {conductors: 3, size: 18 AWG, length: 6 ft, insulation: double, inlet: none}"
	with := func(to string, more ...string) []string { return append([]string{cord, to}, more...) }
	outlet := func(load string) []string {
		return []string{"  C1: {kind", "  X1: {kind: outlet" + load + "}\n  C1: {kind", "- T1.4 -> chassis", "- T1.4 -> chassis\n  - S1.2 -> X1.hot\n  - plug.neutral -> X1.neutral"}
	}
	tryChanges(t, larkfield(t), []change{
		{"0.5 mm² carries 0.6 A", with("cord: {conductors: 3, size: 0.5 mm², length: 2 m, insulation: double, inlet: none}"), "cord-carries-load cord", "pass"},
		{"no size", with("cord: {conductors: 3, length: 6 ft, insulation: double, inlet: none}"), "cord-carries-load cord", "unproven"},
		{"a size that is none for cords", with("cord: {conductors: 3, size: 24 AWG, insulation: double, inlet: none}"), "cord-carries-load cord", "unproven"},
		{"a set that draws too much", []string{"power: 60 W", "power: 2000 W"}, "cord-carries-load cord", "fail"},
		{"a fuse beyond the cord", with("cord: {conductors: 3, size: 0.5 mm², length: 2 m, insulation: double, inlet: none}", "rating: 1 A", "rating: 4 A"), "cord-outlasts-fuse cord", "fail"},
		{"no size for the fuse", with("cord: {conductors: 3, insulation: double, inlet: none}"), "cord-outlasts-fuse cord", "unproven"},
		{"one layer", with("cord: {conductors: 3, size: 18 AWG, length: 6 ft, insulation: single, inlet: none}"), "cord-insulation cord", "fail"},
		{"insulation not said", with("cord: {conductors: 3, size: 18 AWG, length: 6 ft, inlet: none}"), "cord-insulation cord", "unproven"},
		{"no fuse in this plug", nil, "plug-fuse-fits-cord plug", ""},
		{"more than the fuse ahead carries", outlet(", load: 1 A"), "outlet-load-fits X1", "fail"}, // 1.6 A through a fuse of 1 A
		{"a small outlet", outlet(", load: 20 W"), "outlet-load-fits X1", "pass"},
		{"a heater on the outlet", outlet(", load: 1500 W"), "outlet-load-fits X1", "fail"},
		{"an outlet without load", outlet(""), "outlet-load-fits X1", "unproven"},
		{"an outlet counts for the fuse", outlet(", load: 1 A"), "fuse-size F1", "caution"},
		{"an outlet without load, for the fuse", outlet(""), "fuse-size F1", "unproven"},
	})
}

func TestPlugFuse(t *testing.T) {
	british := altered(t, larkfield(t), "region: north-america", "region: united-kingdom", "plug: nema-5-15", "plug: bs-1363",
		"voltage: 121 V                     #", "#", "size: 18 AWG, length: 6 ft", "size: 0.75 mm², length: 2 m, plug-fuse: 3 A")
	tryChanges(t, british, []change{
		{"3 A", nil, "plug-fuse-fits-cord plug", "pass"},
		{"5 A is within the cord", []string{"plug-fuse: 3 A", "plug-fuse: 5 A"}, "plug-fuse-fits-cord plug", "caution"},
		{"13 A is not", []string{"plug-fuse: 3 A", "plug-fuse: 13 A"}, "plug-fuse-fits-cord plug", "fail"},
		{"nobody looked", []string{", plug-fuse: 3 A", ""}, "plug-fuse-fits-cord plug", "unproven"},
	})
	// A plug that is not sold with a fuse, and holds one.
	const cord = "cord: {conductors: 3, "
	tryChanges(t, larkfield(t), []change{
		{"none", nil, "plug-fuse-fits-cord plug", ""},
		{"1 A", []string{cord, cord + "plug-fuse: 1 A, "}, "plug-fuse-fits-cord plug", "pass"},
		{"5 A", []string{cord, cord + "plug-fuse: 5 A, "}, "plug-fuse-fits-cord plug", "caution"},
		{"30 A", []string{cord, cord + "plug-fuse: 30 A, "}, "plug-fuse-fits-cord plug", "fail"},
	})
}
