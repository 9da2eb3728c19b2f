package readings_test

import "testing"

// What is unknown lies beside what is known: together they are never more
// than the known part alone, and may be less.
func TestUnknownBesideKnown(t *testing.T) {
	motor := func(on string) []swap {
		return append(append(other(onLine, on), edit(acrossLine, "reads", "without: [M1], reads")...), swap{"  - S1.2 -> C1", "  - S1.2 -> M1 -> T1.2\n  - S1.2 -> C1"}, swap{"  C1: {kind", "  M1: {kind: motor}\n  C1: {kind"})
	}
	line := func(reads string) string {
		return "{between: [plug.hot, plug.neutral], switches: closed, reads: " + reads + ", with: dmm}"
	}
	runRows(t, "plug-on-resistance plug", []row{
		{"less than the winding", motor(line("6 Ω")), "unproven"},
		{"the motor read as well", append(motor(line("6 Ω")), more(offLine, "{across: M1, switches: open, without: [T1.2], reads: 16 Ω, with: dmm}")...), "pass"},
		{"the motor read, and another", append(motor(line("6 Ω")), more(offLine, "{across: M1, switches: open, without: [T1.2], reads: 160 Ω, with: dmm}")...), "fail"},
		{"more than the winding", motor(line("30 Ω")), "fail"},
	})
}
