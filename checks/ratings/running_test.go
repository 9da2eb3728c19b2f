package ratings_test

import "testing"

// TestRunningCurrentCountsAll: what hangs across the line beside the load counts
// in what fuse, switch and cord carry, whatever kind of part it is.
func TestRunningCurrentCountsAll(t *testing.T) {
	across := func(part string, more ...string) []string {
		run := "- T1.4 -> chassis\n  - S1.2 -> X1 -> T1.2"
		return append([]string{"  C1: {kind", "  X1: {" + part + "}\n  C1: {kind", "- T1.4 -> chassis", run}, more...)
	}
	outlet := func(load string, more ...string) []string {
		return append([]string{"  C1: {kind", "  X1: {kind: outlet, load: " + load + "}\n  C1: {kind", "- T1.4 -> chassis", "- T1.4 -> chassis\n  - S1.2 -> X1.hot\n  - plug.neutral -> X1.neutral"}, more...)
	}
	frame := func(part string) []string {
		p := across(part)
		p[3] += "\n  - chassis -> X1.frame"
		return p
	}
	kinds := map[string]struct{ ten, tiny []string }{ // 11 A and more; 20 mA and less
		"motor":    {frame("kind: motor, voltage: 120 V, current: 11 A"), frame("kind: motor, voltage: 120 V, current: 20 mA")},
		"lamp":     {across("kind: lamp, voltage: 120 V, current: 11 A"), across("kind: lamp, voltage: 120 V, current: 20 mA")},
		"resistor": {across("kind: resistor, value: 10 Ω, tolerance: 5 %, power: 2 kW, voltage: 250 V"), across("kind: resistor, value: 22 kΩ, tolerance: 5 %, power: 2 W, voltage: 250 V")},
		"outlet":   {outlet("11 A"), outlet("20 mA")},
	}
	for kind, k := range kinds {
		tryChanges(t, larkfield(t), []change{
			{kind + " of 11 A behind a switch of 3 A", k.ten, "switch-rating S1", "fail"},
			{kind + " of 11 A on a cord of 10 A", k.ten, "cord-carries-load cord", "fail"},
			// 0.51 A to 0.60 A of the set alone: 8 A fails, and beside 11 A it is a fuse too small.
			{kind + " of 11 A before a fuse of 8 A", append([]string{"rating: 1 A", "rating: 8 A"}, k.ten...), "fuse-size F1", "caution"},
			{kind + " of 20 mA before a fuse of 8 A", append([]string{"rating: 1 A", "rating: 8 A"}, k.tiny...), "fuse-size F1", "fail"},
			{kind + " of 20 mA behind that switch", k.tiny, "switch-rating S1", "pass"},
			{kind + " of 20 mA on that cord", k.tiny, "cord-carries-load cord", "pass"},
		})
	}
}
