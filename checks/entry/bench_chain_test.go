package entry_test

import (
	"strings"
	"testing"

	"firstvolt/checks/bench"
	"firstvolt/checks/entry"
	"firstvolt/checks/figure"
	"firstvolt/checks/sheet"
	"firstvolt/checks/trial"
	"firstvolt/rules"
)

// chainOutcomes judges a sheet by the rules of the bench chain alone.
func chainOutcomes(t *testing.T, text string) map[string]rules.Finding {
	t.Helper()
	s, problems := sheet.Read("sheet.yaml", []byte(text))
	for _, p := range problems {
		t.Error(p)
	}
	if s == nil {
		t.FailNow()
	}
	b := bench.New(s)
	var defs []figure.Def
	var figures []figure.Figure
	for _, c := range entry.BenchChecks {
		defs = append(defs, *c.Def)
		fs, fault := c.Run(b)
		if fault != "" {
			t.Error(fault)
		}
		figures = append(figures, fs...)
	}
	// Whether a fault asks for the device is the faults' to say.
	serves := figure.Def{Name: "residual-would-serve", Of: []string{"link"}, Present: true, Says: "it would open a fault"}
	defs = append(defs, serves, figure.Def{Name: "residual-counts", Of: []string{"link"}, Present: true, Says: "it counts"})
	for _, s := range b.Subjects("link") {
		figures = append(figures, figure.Is(&serves, s, false))
	}
	var names []string
	for _, d := range defs {
		names = append(names, d.Name)
	}
	book, problems := rules.Load(trial.RulesOn(t, "firstpower.yaml", names), defs)
	for _, p := range problems {
		t.Errorf("%s:%d:%d %s; %s", p.File, p.Line, p.Column, p.Wrong, p.Right)
	}
	if book == nil {
		t.FailNow()
	}
	out := map[string]rules.Finding{}
	for _, f := range book.Judge(b.Setting(), figures, b.Stage).Findings {
		out[f.Rule+" "+f.Subject.Name] = f
	}
	return out
}

const (
	gfci = "- {kind: gfci, form: receptacle, tested: 2026-11-20}"
	box  = "- {kind: lamp-box, lamp: 60 W, voltage: 120 V, pole: hot, earth: through}"
	vari = "- {kind: variac, earth: through}"
	bond = "- {run: plug.ground -> chassis, color: green, joint: own-screw, slack: longest}"
)

func TestBenchChain(t *testing.T) {
	loose := []string{bond, "- plug.ground -> T1.S", "kind: transformer\n", "kind: transformer\n    shield: S\n"}
	unbonded := func(more ...string) []string { return append(more, loose...) }
	live := func(more ...string) []string {
		return append(more, bond, "- plug.neutral -> chassis")
	}
	isolating := func(keys string) string { return "- {kind: isolating-transformer" + keys + "}" }
	chain := "  upstream:                          # the bench chain, supply end first\n    " + gfci + "\n    " + box + "\n    " + vari + "\n"
	for _, c := range []struct {
		name          string
		swap          []string
		finding, want string
	}{
		{"a lamp", nil, "limiter-present set", "pass"},
		{"no lamp", []string{"    " + box + "\n", ""}, "limiter-present set", "fail"},
		{"an empty chain", []string{chain, "  upstream: []\n"}, "limiter-present set", "fail"},
		{"no word of a chain", []string{chain, ""}, "limiter-present set", "unproven"},
		{"in hot", nil, "limiter-in-hot upstream 2", "pass"},
		{"only the lamp box is asked", nil, "limiter-in-hot upstream 3", ""},
		{"in neutral", []string{"pole: hot", "pole: neutral"}, "limiter-in-hot upstream 2", "fail"},
		{"pole not known", []string{"pole: hot", "pole: unknown"}, "limiter-in-hot upstream 2", "unproven"},
		{"pole not said", []string{", pole: hot", ""}, "limiter-in-hot upstream 2", "unproven"},
		{"in hot, an adaptor both ways", []string{vari, "- {kind: adaptor, fits: both-ways, earth: through}"}, "limiter-in-hot upstream 2", "caution"},
		{"in neutral, an adaptor both ways", []string{vari, "- {kind: adaptor, fits: both-ways, earth: through}", "pole: hot", "pole: neutral"}, "limiter-in-hot upstream 2", "caution"},
		{"pole not known, an adaptor both ways", []string{vari, "- {kind: adaptor, fits: both-ways, earth: through}", "pole: hot, ", ""}, "limiter-in-hot upstream 2", "caution"},
		{"60 W for 60 W", nil, "limiter-tells upstream 2", "pass"},
		{"150 W for 60 W", []string{"lamp: 60 W", "lamp: 150 W"}, "limiter-tells upstream 2", "caution"},
		{"300 W for 60 W", []string{"lamp: 60 W", "lamp: 300 W"}, "limiter-tells upstream 2", "caution"},
		// 60 W of 230 V give 60·(120/230)^1.55 = 21.9 W at 120 V.
		{"a lamp for 230 V", []string{"lamp: 60 W, voltage: 120 V", "lamp: 60 W, voltage: 230 V"}, "limiter-tells upstream 2", "caution"},
		{"a lamp without watts", []string{"lamp: 60 W, ", ""}, "limiter-tells upstream 2", "caution"},
		{"ground through all", nil, "bench-earth-runs-through chassis", "pass"},
		{"ground broken in the box", []string{"pole: hot, earth: through", "pole: hot, earth: broken"}, "bench-earth-runs-through chassis", "fail"},
		{"not known of the box", []string{"pole: hot, earth: through", "pole: hot, earth: unknown"}, "bench-earth-runs-through chassis", "unproven"},
		{"not said of the variac", []string{vari, "- {kind: variac}"}, "bench-earth-runs-through chassis", "unproven"},
		{"broken outweighs not said", []string{vari, "- {kind: variac}", "pole: hot, earth: through", "pole: hot, earth: broken"}, "bench-earth-runs-through chassis", "fail"},
		{"stopped by an isolating transformer", []string{vari, isolating(", secondary: floating, earth: stopped")}, "bench-earth-runs-through chassis", "fail"},
		{"no chain said", []string{chain, ""}, "bench-earth-runs-through chassis", "unproven"},
		{"straight to the receptacle", []string{chain, "  upstream: []\n"}, "bench-earth-runs-through chassis", "pass"},
		{"no bond, no matter", unbonded(), "bench-earth-runs-through chassis", ""},
		{"it floats", []string{vari, isolating(", secondary: floating")}, "isolation-floats upstream 3", "pass"},
		{"it is tied", []string{vari, isolating(", secondary: bonded")}, "isolation-floats upstream 3", "fail"},
		{"nobody knows", []string{vari, isolating(", secondary: unknown")}, "isolation-floats upstream 3", "unproven"},
		{"nobody says", []string{vari, isolating("")}, "isolation-floats upstream 3", "unproven"},
		{"a transformer set keeps its ground", []string{vari, isolating(", secondary: floating, earth: through")}, "isolation-not-defeated upstream 3", ""},
		{"a live chassis without ground", live(vari, isolating(", secondary: floating, earth: stopped")), "isolation-not-defeated upstream 3", "pass"},
		{"a live chassis with ground", live(vari, isolating(", secondary: floating, earth: through")), "isolation-not-defeated upstream 3", "fail"},
		{"a live chassis, ground not said", live(vari, isolating(", secondary: floating")), "isolation-not-defeated upstream 3", "unproven"},
		{"a bonded set relies on its fuse", nil, "residual-tested upstream 1", ""},
		{"no bond, tested today", unbonded(), "residual-tested upstream 1", "pass"},
		{"no bond, tested last year", unbonded("tested: 2026-11-20", "tested: 2025-11-20"), "residual-tested upstream 1", "fail"},
		{"no bond, not tested", unbonded(", tested: 2026-11-20", ""), "residual-tested upstream 1", "unproven"},
		{"no bond, a later reading", unbonded("reads: 9.9 Ω, with: dmm", "reads: 9.9 Ω, with: dmm, taken: 2026-11-21"), "residual-tested upstream 1", "fail"},
		{"no bond, no day of the readings", unbonded("  taken: 2026-11-20                  #", "  #"), "residual-tested upstream 1", "unproven"},
		{"a live chassis relies on it", live(), "residual-tested upstream 1", "pass"},
		{"beside an isolating transformer it sees nothing", live(vari, isolating(", secondary: floating, earth: stopped")), "residual-tested upstream 1", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			f, asked := chainOutcomes(t, edit(t, example(t), c.swap...))[c.finding]
			got := string(f.Outcome)
			if !asked {
				got = ""
			}
			if got != c.want {
				t.Errorf("%s is %q, want %q: %s %v", c.finding, got, c.want, f.Says, f.Needs)
			}
		})
	}
}

// TestLampAheadOfStepDown: a lamp ahead of a step-down unit is on the volts of
// the receptacle. 60 W of 230 V are 60 W there, and 60 W of 120 V would be
// 60·(230/120)^1.55 = 164.5 W, both over 50 W.
func TestLampAheadOfStepDown(t *testing.T) {
	const (
		down = "    - {kind: autotransformer, ratio: 0.5, fits: one-way, earth: through}\n"
		lamp = "    - {kind: lamp-box, lamp: 60 W, voltage: 120 V, pole: hot, earth: through}\n"
	)
	ahead := func(volts string) []string {
		return []string{down + lamp, strings.Replace(lamp, "120 V", volts, 1) + down}
	}
	for _, c := range []struct {
		name   string
		swap   []string
		number string
		want   string
	}{
		{"behind", nil, "3", "pass"},
		{"ahead, of the receptacle's volts", ahead("230 V"), "2", "pass"},
		{"ahead, of the set's volts", ahead("120 V"), "2", "caution"},
		{"behind a unit that does not say", []string{"ratio: 0.5, ", ""}, "3", "caution"},
	} {
		f := chainOutcomes(t, edit(t, trial.Sheet(t, "brightwater-import"), c.swap...))["limiter-tells upstream "+c.number]
		if string(f.Outcome) != c.want {
			t.Errorf("%s: %s, want %s: %s", c.name, f.Outcome, c.want, f.Says)
		}
	}
}
