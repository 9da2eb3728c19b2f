package entry_test

import "testing"

func TestPartIdle(t *testing.T) {
	with := func(parts, runs string) []string {
		return []string{"  T1:\n", parts + "  T1:\n", switchRun, switchRun + runs}
	}
	// The filter stands between switch and primary, in both conductors.
	filter := func(hot, neutral, toLoad, toOther string) []string {
		return []string{"  T1:\n", "  Z1: {kind: filter}\n  T1:\n", "plug.neutral -> T1.2", "plug.neutral -> Z1." + neutral,
			switchRun, "  - F1.side -> S1 -> Z1." + hot + "\n  - Z1." + toLoad + " -> T1.1\n  - Z1." + toOther + " -> T1.2\n  - Z1.case -> chassis\n"}
	}
	const x = "  X1: {kind: capacitor, value: 10 nF, class: X2, voltage: 275 V}\n"
	for name, c := range map[string]struct {
		pairs []string
		want  string
	}{
		"as it stands":             {nil, "no"},
		"across the line":          {with(x, "  - S1.2 -> X1 -> T1.2\n"), "no"},
		"by one lead":              {with(x, "  - S1.2 -> X1.1\n"), "yes"},
		"by the other":             {with(x, "  - X1.2 -> T1.2\n"), "yes"},
		"both leads on one lug":    {with(x, "  - S1.2 -> X1 -> S1.2\n"), "yes"},
		"both leads on one wire":   {with(x, "  - S1.2 -> X1 -> T1.1\n"), "yes"},
		"across a contact":         {with(x, "  - S1.1 -> X1 -> S1.2\n"), "no"},
		"a neon by one lead":       {with("  N1: {kind: neon}\n", "  - S1.2 -> N1.1\n"), "yes"},
		"a choke with wire across": {with("  L1: {kind: choke}\n", "  - S1.2 -> L1 -> T1.1\n"), "yes"},
		"a spare pole":             {with("  S9: {kind: switch, poles: 2}\n", "  - S1.2 -> S9.1\n"), "no"},
		"a motor's switch":         {with("  S9: {kind: switch, poles: 1}\n", "  - S1.2 -> S9.1\n"), "yes"},
		"a filter passed by":       {with("  Z1: {kind: filter}\n", "  - S1.2 -> Z1.line-in\n  - Z1.line-out -> T1.1\n  - Z1.case -> chassis\n"), "yes"},
		"a filter straight":        {filter("line-in", "neutral-in", "line-out", "neutral-out"), "no"},
		"a filter turned round":    {filter("line-out", "neutral-out", "line-in", "neutral-in"), "no"},
		"its coils exchanged":      {filter("neutral-in", "line-in", "neutral-out", "line-out"), "no"},
		"one coil turned":          {filter("line-out", "neutral-in", "line-in", "neutral-out"), "yes"},
		"both coils in one":        {filter("line-in", "neutral-in", "line-in", "neutral-out"), "yes"},
		"one conductor past it": {[]string{"  T1:\n", "  Z1: {kind: filter}\n  T1:\n", switchRun,
			"  - F1.side -> S1 -> Z1.line-in\n  - Z1.line-out -> Z1.neutral-in\n  - Z1.neutral-out -> T1.1\n  - Z1.case -> chassis\n"}, "yes"},
		"a lead on a spare lug":   {with(x+"  L9: {kind: tie}\n", "  - S1.2 -> X1 -> L9\n"), "yes"},
		"a choke to a spare lug":  {with("  L1: {kind: choke, inductance: 1 mH}\n  L9: {kind: tie}\n", "  - S1.2 -> L1 -> L9\n"), "yes"},
		"a choke by a lug":        {[]string{"  T1:\n", "  L1: {kind: choke, inductance: 1 mH}\n  L9: {kind: tie}\n  T1:\n", switchRun, "  - F1.side -> S1 -> L1 -> L9 -> T1.1\n"}, "no"},
		"from an aerial":          {with(x+"  A9: {kind: body}\n", "  - A9 -> X1 -> chassis\n"), "no"},
		"a varistor on a contact": {with("  V1: {kind: varistor}\n", "  - S1.1 -> V1 -> S1.2\n"), "yes"},
		"a capacitor on a choke":  {[]string{"  T1:\n", x + "  L1: {kind: choke}\n  T1:\n", switchRun, "  - F1.side -> S1 -> L1 -> T1.1\n  - S1.2 -> X1 -> T1.1\n"}, "yes"},
		"a screen on nothing":     {[]string{"    kind: transformer\n", "    kind: transformer\n    shield: SH\n"}, "yes"},
	} {
		if got := says(computed(t, edit(t, example(t), c.pairs...))["part-idle set"]); got != c.want {
			t.Errorf("%s: %s, want %s", name, got, c.want)
		}
	}
}
