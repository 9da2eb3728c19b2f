package readings_test

import "testing"

// TestTappedReadWhole: one reading over several sections of a winding predicts
// what runs through all of them, as long as no current can turn off between.
func TestTappedReadWhole(t *testing.T) {
	tapped := func(more ...swap) []swap {
		return append([]swap{{"primary:   {ends: [1, 2], voltage: 117 V}", "primary:   {ends: [1, 2], voltage: 125 V, taps: {105v: 105 V, 115v: 115 V}}"}}, more...)
	}
	onSelector := []swap{
		{"  T1:\n", "  VS: {kind: selector, positions: {105: [[C, A]], 115: [[C, B]], 125: [[C, D]]}, set: 125}\n  T1:\n"},
		{"{run: plug.neutral -> T1.2, color: white}", "{run: plug.neutral -> VS.C, color: white}\n  - VS.A -> T1.105v\n  - VS.B -> T1.115v\n  - VS.D -> T1.2"},
	}
	at115 := append([]swap{onSelector[0], {"set: 125", "set: 115"}}, onSelector[1])
	runRows(t, "plug-on-resistance plug", []row{
		{"whole read, taps bare", tapped(), "pass"},
		{"whole read, plug off by a half", tapped(edit(onLine, "9.9 Ω", "15 Ω")...), "fail"},
		{"whole read, taps on a selector that leaves them", tapped(onSelector...), "pass"},
		{"whole read, fed at a tap", tapped(at115...), "unproven"},
		{"read as far as the tap that is fed", tapped(append(at115, edit(acrossLine, "across: T1.primary", "between: [T1.1, T1.115v]")...)...), "pass"},
		{"the same, plug off by a half", tapped(append(append(at115, edit(acrossLine, "across: T1.primary", "between: [T1.1, T1.115v]")...), edit(onLine, "9.9 Ω", "15 Ω")...)...), "fail"},
		{"whole read, something hung on a tap", tapped(
			swap{"  T1:\n", "  R9: {kind: resistor, value: 100 Ω, tolerance: 5 %, power: 5 W, voltage: 350 V}\n  T1:\n"},
			swap{"  - T1.4 -> chassis", "  - T1.4 -> chassis\n  - T1.105v -> R9 -> T1.2"}), "unproven"},
	})
}
