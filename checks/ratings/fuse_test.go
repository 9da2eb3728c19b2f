package ratings_test

import (
	"testing"

	"firstvolt/checks/trial"
	"firstvolt/rules"
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
		{"no standard", swap("F1: {kind: fuse, rating: 1 A, voltage: 250 V, speed: time-delay, holder: panel}"), "fuse-size F1", "caution"},
		{"far too large, no standard", swap("F1: {kind: fuse, rating: 5 A, voltage: 250 V, speed: time-delay, holder: panel}"), "fuse-size F1", "fail"},
		{"too large by one step", swap("F1: {kind: fuse, rating: 1.5 A, voltage: 250 V, speed: time-delay, standard: ul-248-14, holder: panel}"), "fuse-size F1", "caution"},
		{"next standard rating above twice", swap("F1: {kind: fuse, rating: 1.25 A, voltage: 250 V, speed: time-delay, standard: ul-248-14, holder: panel}"), "fuse-size F1", "pass"},
		{"too small", swap("F1: {kind: fuse, rating: 0.75 A, voltage: 250 V, speed: time-delay, standard: ul-248-14, holder: panel}"), "fuse-size F1", "caution"},
		// 60 W at 117 V is 0.51 A to 0.60 A by the power factor: 64 % to 75.4 % of it.
		{"about 75 % loaded, by the power factor", swap("F1: {kind: fuse, rating: 0.8 A, voltage: 250 V, speed: time-delay, standard: ul-248-14, holder: panel}"), "fuse-size F1", "caution"},
		{"the same, its amperes known", append(swap("F1: {kind: fuse, rating: 0.8 A, voltage: 250 V, speed: time-delay, standard: ul-248-14, holder: panel}"), "power: 60 W", "current: 0.53 A"), "fuse-size F1", "pass"},
		{"more than that, by its amperes", append(swap("F1: {kind: fuse, rating: 0.9 A, voltage: 250 V, speed: time-delay, standard: ul-248-14, holder: panel}"), "power: 60 W", "current: 0.7 A"), "fuse-size F1", "caution"},
		{"ceramic below 1 A, which no sheet tables", append(swap("F1: {kind: fuse, rating: 630 mA, voltage: 250 V, speed: time-delay, standard: iec-60127, body: ceramic, holder: panel}"), "power: 60 W", "power: 40 W"), "fuse-size F1", "pass"},
		{"ceramic below 1 A, too small", swap("F1: {kind: fuse, rating: 500 mA, voltage: 250 V, speed: time-delay, standard: iec-60127, body: ceramic, holder: panel}"), "fuse-size F1", "caution"},
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

// A fuse fails above three times the running current, or three times that of the
// transformer by its own watts, the next standard rating above passing; what is
// outside the window of one and a half to two times is a caution, below it one of
// the set: a small fuse is no fire.
func TestFuseWindow(t *testing.T) {
	const fuse, plate = "rating: 1 A, voltage: 250 V, speed: time-delay, standard: ul-248-14", "power: 60 W"
	set := func(rating, standard, watts string, more ...string) []string {
		return append([]string{fuse, "rating: " + rating + ", voltage: 250 V, speed: time-delay, standard: " + standard, plate, "power: " + watts}, more...)
	}
	transformer := func(watts string) []string {
		return []string{"    kind: transformer\n", "    kind: transformer\n    power: " + watts + "\n"}
	}
	const rule = "fuse-size F1"
	tryChanges(t, larkfield(t), []change{
		// 30 W at 117 V are 0.26 A to 0.30 A; three times 0.9 A, next 1 A.
		{"1 A on 30 W", set("1 A", "ul-248-14", "30 W"), rule, "caution"},
		{"1.25 A on 30 W", set("1.25 A", "ul-248-14", "30 W"), rule, "fail"},
		{"0.75 A on 30 W", set("0.75 A", "ul-248-14", "30 W"), rule, "pass"},
		{"0.5 A on 30 W", set("0.5 A", "ul-248-14", "30 W"), rule, "pass"},
		{"0.375 A on 30 W", set("0.375 A", "ul-248-14", "30 W"), rule, "caution"},
		{"0.125 A on 30 W, which opens", set("0.125 A", "ul-248-14", "30 W"), rule, "caution"},
		{"1 A IEC on 30 W", set("1 A", "iec-60127", "30 W"), rule, "caution"},
		{"1.25 A IEC on 30 W", set("1.25 A", "iec-60127", "30 W"), rule, "fail"},
		{"2 A on 60 W", set("2 A", "ul-248-14", "60 W"), rule, "caution"},
		{"2.25 A on 60 W", set("2.25 A", "ul-248-14", "60 W"), rule, "fail"},
		// A transformer of 35 W takes 0.3 A at 117 V; three times 0.9 A, next 1 A.
		{"1.25 A on 60 W", set("1.25 A", "ul-248-14", "60 W"), rule, "pass"},
		{"1.25 A, and a transformer of 35 W", set("1.25 A", "ul-248-14", "60 W", transformer("35 W")...), rule, "fail"},
		{"1 A, and a transformer of 35 W", set("1 A", "ul-248-14", "60 W", transformer("35 W")...), rule, "pass"},
		{"1.25 A, and a transformer of 60 W", set("1.25 A", "ul-248-14", "60 W", transformer("60 W")...), rule, "pass"},
		{"a transformer of nobody knows how many volts", append(transformer("60 W"), "primary:   {ends: [1, 2], voltage: 117 V}", "primary:   {ends: [1, 2]}"), rule, "unproven"},
		{"above every standard rating", set("40 A", "iec-60127", "1200 W"), rule, "fail"},
		{"large, and no more than three times", set("30 A", "iec-60127", "1200 W"), rule, "caution"},
	})
	for rating, risk := range map[string]rules.Risk{"0.25 A": rules.Set, "1 A": rules.Fire, "5 A": rules.Fire} {
		if f := outcomes(t, altered(t, larkfield(t), set(rating, "ul-248-14", "30 W")...))[rule]; f.Risk != risk {
			t.Errorf("%s on 30 W: %s, risk %s, want %s", rating, f.Outcome, f.Risk, risk)
		}
	}
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
		{"set to 127 V", span(set, "    set: 127\n"), "fuse-size Si1", "caution"},
		{"nobody says how it is set", span(set, ""), "fuse-size Si1", "caution"},
		{"a nameplate without the volts it is set to", []string{one, "voltage: 110 V to 220 V, frequency: 50 Hz, power: 58 W"}, "fuse-size Si1", "caution"},
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
