package ratings_test

import "testing"

// TestTappedDropper: the ohms of its taps tell what a dropper leaves to a string,
// whichever tap the line comes to.
func TestTappedDropper(t *testing.T) {
	const set = `firstvolt: 1
set: {name: Marrick Universal, construction: line-connected, nameplate: {voltage: 200 V to 250 V, frequency: 50 Hz, power: 60 W}}
supply: {region: united-kingdom, plug: bs-1363, voltage: 240 V}
parts:
  R1: {kind: resistor, value: 1.13 kΩ, tolerance: 5 %, power: 25 W, voltage: 300 V, taps: {t220: 930 Ω}}
  V1: {kind: tube, type: 12BE6}
  V2: {kind: tube, type: 12BA6}
  V3: {kind: tube, type: 50B5}
wiring:
  - plug.hot -> R1 -> V3 -> V2 -> V1 -> plug.neutral
`
	const whole, tap = "plug.hot -> R1 -> V3", "plug.hot -> R1.t220\n  - R1.1 -> V3"
	for _, c := range []struct{ name, taps, run, want string }{
		{"all of it in use", "{t220: 930 Ω}", whole, "pass"},
		{"without the ohms of its tap", "[t220]", whole, "unproven"},
		{"at its tap", "{t220: 1.05 kΩ}", tap, "pass"},
		{"at a tap too low", "{t220: 300 Ω}", tap, "fail"},
	} {
		text := altered(t, set, "{t220: 930 Ω}", c.taps, whole, c.run)
		if got := bearing(t, text, "rail")["line-part-voltage V3"]; got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}
