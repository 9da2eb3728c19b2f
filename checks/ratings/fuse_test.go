package ratings_test

import (
	"testing"

	"firstvolt/checks/trial"
)

func TestFuseMarks(t *testing.T) {
	const fuse = "F1: {kind: fuse, rating: 1 A, voltage: 250 V, speed: time-delay, standard: ul-248-14, holder: panel}"
	swap := func(to string) []string { return []string{fuse, to} }
	tryChanges(t, larkfield(t), []change{
		{"as it stands", nil, "fuse-voltage F1", "pass"},
		{"125 V serves 120 V", swap("F1: {kind: fuse, rating: 1 A, voltage: 125 V, speed: time-delay, standard: ul-248-14, holder: panel}"), "fuse-voltage F1", "pass"},
		{"32 V does not", swap("F1: {kind: fuse, rating: 1 A, voltage: 32 V, speed: time-delay, standard: ul-248-14, holder: panel}"), "fuse-voltage F1", "fail"},
		{"no voltage", swap("F1: {kind: fuse, rating: 1 A, speed: time-delay, standard: ul-248-14, holder: panel}"), "fuse-voltage F1", "unproven"},
		{"no rating", swap("F1: {kind: fuse, voltage: 250 V, speed: time-delay, standard: ul-248-14, holder: panel}"), "fuse-size F1", "unproven"},
		{"no standard", swap("F1: {kind: fuse, rating: 1 A, voltage: 250 V, speed: time-delay, holder: panel}"), "fuse-size F1", "unproven"},
		{"far too large, no standard", swap("F1: {kind: fuse, rating: 5 A, voltage: 250 V, speed: time-delay, holder: panel}"), "fuse-size F1", "fail"},
		{"too large by one step", swap("F1: {kind: fuse, rating: 1.5 A, voltage: 250 V, speed: time-delay, standard: ul-248-14, holder: panel}"), "fuse-size F1", "fail"},
		{"next standard rating above twice", swap("F1: {kind: fuse, rating: 1.25 A, voltage: 250 V, speed: time-delay, standard: ul-248-14, holder: panel}"), "fuse-size F1", "pass"},
		{"too small", swap("F1: {kind: fuse, rating: 0.75 A, voltage: 250 V, speed: time-delay, standard: ul-248-14, holder: panel}"), "fuse-size F1", "fail"},
		// 60 W at 117 V is 0.51 A to 0.60 A by the power factor: 64 % to 75.4 % of it.
		{"about 75 % loaded, by the power factor", swap("F1: {kind: fuse, rating: 0.8 A, voltage: 250 V, speed: time-delay, standard: ul-248-14, holder: panel}"), "fuse-size F1", "unproven"},
		{"the same, its amperes known", append(swap("F1: {kind: fuse, rating: 0.8 A, voltage: 250 V, speed: time-delay, standard: ul-248-14, holder: panel}"), "power: 60 W", "current: 0.53 A"), "fuse-size F1", "pass"},
		{"more than that, by its amperes", append(swap("F1: {kind: fuse, rating: 0.9 A, voltage: 250 V, speed: time-delay, standard: ul-248-14, holder: panel}"), "power: 60 W", "current: 0.7 A"), "fuse-size F1", "fail"},
		{"ceramic below 1 A, which no sheet tables", append(swap("F1: {kind: fuse, rating: 630 mA, voltage: 250 V, speed: time-delay, standard: iec-60127, body: ceramic, holder: panel}"), "power: 60 W", "power: 40 W"), "fuse-size F1", "pass"},
		{"ceramic below 1 A, too small", swap("F1: {kind: fuse, rating: 500 mA, voltage: 250 V, speed: time-delay, standard: iec-60127, body: ceramic, holder: panel}"), "fuse-size F1", "fail"},
		{"fast", swap("F1: {kind: fuse, rating: 1 A, voltage: 250 V, speed: fast, standard: ul-248-14, holder: panel}"), "fuse-speed F1", "caution"},
		{"speed not said", swap("F1: {kind: fuse, rating: 1 A, voltage: 250 V, standard: ul-248-14, holder: panel}"), "fuse-speed F1", "caution"},
		{"10 kA at 125 V", nil, "fuse-breaks-fault F1", "pass"},
		{"of glass, as those of 10 kA are", swap("F1: {kind: fuse, rating: 1 A, voltage: 250 V, speed: time-delay, standard: ul-248-14, body: glass, holder: panel}"), "fuse-breaks-fault F1", "pass"},
		{"marked low all the same", swap("F1: {kind: fuse, rating: 1 A, voltage: 250 V, speed: time-delay, standard: ul-248-14, breaking: low, body: glass, holder: panel}"), "fuse-breaks-fault F1", "caution"},
		{"glass, low breaking", swap("F1: {kind: fuse, rating: 1 A, voltage: 250 V, speed: time-delay, standard: iec-60127, body: glass, holder: panel}"), "fuse-breaks-fault F1", "caution"},
		{"ceramic, high breaking", swap("F1: {kind: fuse, rating: 1 A, voltage: 250 V, speed: time-delay, standard: iec-60127, body: ceramic, holder: panel}"), "fuse-breaks-fault F1", "pass"},
		{"amperes stamped", swap("F1: {kind: fuse, rating: 1 A, voltage: 250 V, speed: time-delay, breaking: 150 A, holder: panel}"), "fuse-breaks-fault F1", "caution"},
		{"nothing says what it breaks", swap("F1: {kind: fuse, rating: 1 A, voltage: 250 V, speed: time-delay, holder: panel}"), "fuse-breaks-fault F1", "caution"},
		{"no fuse voltage, no breaking capacity", swap("F1: {kind: fuse, rating: 1 A, speed: time-delay, standard: ul-248-14, holder: panel}"), "fuse-breaks-fault F1", "caution"},
		{"no watts", []string{", power: 60 W}", "}"}, "fuse-size F1", "unproven"},
		{"no volts on the nameplate", []string{"{voltage: 117 V, frequency", "{frequency"}, "fuse-size F1", "pass"},
	})
}

// TestFuseOfASetForManyVolts: of a nameplate for several voltages the one counts
// that the set is connected for.
func TestFuseOfASetForManyVolts(t *testing.T) {
	const one, set = "voltage: 240 V, frequency: 50 Hz, power: 58 W", "    set: 240\n"
	span := func(more ...string) []string {
		return append([]string{one, "voltage: 127 V to 240 V, frequency: 50 Hz, power: 58 W"}, more...)
	}
	// 58 W are 0.24 A to 0.28 A at 240 V, and 0.46 A to 0.54 A at 127 V.
	tryChanges(t, trial.Sheet(t, "morgenfels-3w"), []change{
		{"one voltage", nil, "fuse-size Si1", "pass"},
		{"set to 240 V", span(), "fuse-size Si1", "pass"},
		{"set to 127 V", span(set, "    set: 127\n"), "fuse-size Si1", "fail"},
		{"nobody says how it is set", span(set, ""), "fuse-size Si1", "unproven"},
		{"a nameplate without the volts it is set to", []string{one, "voltage: 110 V to 220 V, frequency: 50 Hz, power: 58 W"}, "fuse-size Si1", "unproven"},
	})
}

// The sizing table of bench practice: every rating in it must pass, for the
// watts beside it, at 120 V by UL and at 230 V by IEC ratings (trade table,
// derived and common practice).
func TestFuseSizingTable(t *testing.T) {
	for _, row := range []struct{ region, plug, volts, watts, standard, rating string }{
		{"north-america", "nema-5-15", "120 V", "30 W", "ul-248-14", "0.5 A"},
		{"north-america", "nema-5-15", "120 V", "50 W", "ul-248-14", "0.75 A"},
		{"north-america", "nema-5-15", "120 V", "50 W", "ul-248-14", "1 A"},
		{"north-america", "nema-5-15", "120 V", "70 W", "ul-248-14", "1 A"},
		{"north-america", "nema-5-15", "120 V", "70 W", "ul-248-14", "1.25 A"},
		{"north-america", "nema-5-15", "120 V", "100 W", "ul-248-14", "1.5 A"},
		{"north-america", "nema-5-15", "120 V", "100 W", "ul-248-14", "2 A"},
		{"north-america", "nema-5-15", "120 V", "150 W", "ul-248-14", "2 A"},
		{"north-america", "nema-5-15", "120 V", "150 W", "ul-248-14", "3 A"},
		{"united-kingdom", "bs-1363", "230 V", "50 W", "iec-60127", "400 mA"},
		{"united-kingdom", "bs-1363", "230 V", "50 W", "iec-60127", "500 mA"},
		{"united-kingdom", "bs-1363", "230 V", "70 W", "iec-60127", "630 mA"},
		{"united-kingdom", "bs-1363", "230 V", "100 W", "iec-60127", "800 mA"},
		{"united-kingdom", "bs-1363", "230 V", "100 W", "iec-60127", "1 A"},
		{"united-kingdom", "bs-1363", "230 V", "150 W", "iec-60127", "1.25 A"},
		{"united-kingdom", "bs-1363", "230 V", "150 W", "iec-60127", "1.6 A"},
	} {
		t.Run(row.volts+" "+row.watts+" "+row.rating, func(t *testing.T) {
			text := altered(t, larkfield(t),
				"region: north-america", "region: "+row.region, "plug: nema-5-15", "plug: "+row.plug,
				"voltage: 121 V                     #", "#", "voltage: 117 V, frequency: 60 Hz, power: 60 W", "voltage: "+row.volts+", frequency: 60 Hz, power: "+row.watts,
				"rating: 1 A, voltage: 250 V, speed: time-delay, standard: ul-248-14", "rating: "+row.rating+", voltage: 250 V, speed: time-delay, standard: "+row.standard)
			expect(t, outcomes(t, text), "fuse-size F1", "pass")
		})
	}
}
