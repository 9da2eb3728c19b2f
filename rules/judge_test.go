package rules

import (
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"

	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
	"firstvolt/checks/strict"
)

func def(name string) *figure.Def {
	for i := range defs {
		if defs[i].Name == name {
			return &defs[i]
		}
	}
	panic(name)
}

var chassis = figure.Subject{Name: "chassis", Kind: "chassis", Reach: "touchable", At: strict.Pos{Line: 3, Column: 1}}

func ohms(low, high float64) figure.Figure {
	return figure.Number(def("bond"), chassis, quantity.Range{Low: low, High: high, Dim: quantity.Resistance})
}

func ground(present bool) figure.Figure { return figure.Is(def("has-ground"), chassis, present) }

// set is a setting with the chassis alone and these facts, as words or spans.
func set(facts ...string) figure.Setting {
	s := figure.Setting{Subjects: []figure.Subject{chassis}, Facts: map[string]figure.Fact{}}
	for i := 0; i < len(facts); i += 2 {
		dim, ranged := factDims[facts[i]]
		if !ranged || facts[i+1] == none {
			s.Facts[facts[i]] = figure.Fact{Word: facts[i+1]}
			continue
		}
		r, err := quantity.Parse(facts[i+1], dim)
		if err != nil {
			panic(err)
		}
		s.Facts[facts[i]] = figure.Fact{Range: &r}
	}
	return s
}

// one is the only finding on x.
func one(t *testing.T, lines string, s figure.Setting, stage string, figures ...figure.Figure) *Finding {
	t.Helper()
	j := book(t, rule("x", lines)).Judge(s, figures, stage)
	switch len(j.Findings) {
	case 0:
		return nil
	case 1:
		return &j.Findings[0]
	}
	t.Fatalf("%d findings", len(j.Findings))
	return nil
}

const head = "group: readings\nof: chassis\nrisk: shock\n"

func TestOutcomes(t *testing.T) {
	inf, nan := math.Inf(1), math.NaN()
	const most = "clauses: [{figure: bond, must: {at_most: 0.1 Ω}, should: {at_most: 0.05 Ω}}]"
	const least = "clauses: [{figure: bond, must: {at_least: 1 MΩ}, should: {at_least: 2 MΩ}}]"
	const between = "clauses: [{figure: bond, must: {between: 10 Ω to 20 Ω}}]"
	const wish = "clauses: [{figure: bond, should: {at_most: 0.1 Ω}}]"
	for _, c := range []struct {
		name, clauses string
		figure        figure.Figure
		want          Outcome
	}{
		{"within both", most, ohms(0.01, 0.03), Pass},
		{"on the should", most, ohms(0.05, 0.05), Pass},
		{"between should and must", most, ohms(0.06, 0.07), Warn},
		{"astride the should", most, ohms(0.04, 0.06), Warn},
		{"on the must", most, ohms(0.06, 0.1), Warn},
		{"astride the must", most, ohms(0.05, 0.12), Unproven},
		{"touching the must from above", most, ohms(0.1, 0.12), Unproven},
		{"beyond", most, ohms(0.11, 0.12), Fail},
		{"on the must to six digits", most, ohms(0, 0.1+1e-9), Warn},
		{"past the must in the sixth digit", most, ohms(0.100001, 0.100001), Fail},
		{"lower bound only", most, ohms(0.01, inf), Unproven},
		{"lower bound beyond", most, ohms(0.2, inf), Fail},
		{"upper bound only", most, ohms(math.Inf(-1), 0.02), Pass},
		{"not a number", most, ohms(nan, nan), Unproven},
		{"upper end not a number", most, ohms(0.01, nan), Unproven},
		{"lower end not a number", most, ohms(nan, 0.01), Unproven},
		{"infinite", most, ohms(inf, inf), Unproven},
		{"minus infinite", most, ohms(math.Inf(-1), math.Inf(-1)), Unproven},
		{"turned round", most, ohms(0.02, 0.01), Unproven},
		{"nothing known", most, ohms(0, inf), Unproven},
		{"wrong unit", most, figure.Number(def("bond"), chassis, quantity.Exact(0.01, quantity.Voltage)), Unproven},
		{"missing", most, figure.NotKnown(def("bond"), chassis), Unproven},
		{"missing and a number", most, figure.Figure{Def: def("bond"), Of: chassis, Range: quantity.Exact(0, quantity.Resistance), Missing: []figure.Need{{What: "x"}}}, Unproven},
		{"presence for a number", most, figure.Is(def("bond"), chassis, true), Unproven},
		{"zero figure", most, figure.Figure{}, Unproven},
		{"another subject's", most, figure.Number(def("bond"), figure.Subject{Name: "S1"}, quantity.Exact(0.01, quantity.Resistance)), Unproven},
		{"another figure", most, ground(true), Unproven},

		{"floor met", least, ohms(3e6, inf), Pass},
		{"floor, caution", least, ohms(1e6, 1.5e6), Warn},
		{"floor, astride", least, ohms(0.9e6, 1.1e6), Unproven},
		{"floor, touching from below", least, ohms(0.5e6, 1e6), Unproven},
		{"floor, beyond", least, ohms(0, 0.9e6), Fail},
		{"floor, not a number", least, ohms(nan, inf), Unproven},

		{"span, inside", between, ohms(10, 20), Pass},
		{"span, below", between, ohms(1, 9), Fail},
		{"span, above", between, ohms(21, 22), Fail},
		{"span, across one end", between, ohms(9, 15), Unproven},
		{"span, across both ends", between, ohms(9, 21), Unproven},

		{"wish met", wish, ohms(0, 0.1), Pass},
		{"wish not met", wish, ohms(5, 6), Warn},
		{"wish astride", wish, ohms(0, 6), Warn},
		{"wish not known", wish, figure.NotKnown(def("bond"), chassis), Warn},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := one(t, head+c.clauses, set(), "bare", c.figure)
			if f.Outcome != c.want {
				t.Errorf("%s, want %s: %s", f.Outcome, c.want, f.Says)
			}
			if (f.Outcome == Unproven) != (len(f.Needs) > 0) && c.want != Warn {
				t.Errorf("%s with needs %v", f.Outcome, f.Needs)
			}
			if f.Says == "" || strings.Contains(f.Says, "NaN") || strings.Contains(f.Says, "Inf") {
				t.Errorf("says %q", f.Says)
			}
		})
	}
}

func TestPresence(t *testing.T) {
	for _, c := range []struct {
		clause string
		figure figure.Figure
		want   Outcome
	}{
		{"must: present", ground(true), Pass}, {"must: present", ground(false), Fail},
		{"must: absent", ground(true), Fail}, {"must: absent", ground(false), Pass},
		{"should: present", ground(false), Warn}, {"should: absent", ground(false), Pass},
		{"must: absent", figure.NotKnown(def("has-ground"), chassis), Unproven},
		{"must: absent", figure.Figure{Def: def("has-ground"), Of: chassis}, Unproven},
		{"if-read: absent", figure.NotTaken(def("has-ground"), chassis), Warn},
		{"if-read: absent", figure.NotKnown(def("has-ground"), chassis), Unproven},
		{"if-read: absent", ground(true), Fail}, {"if-read: absent", ground(false), Pass},
	} {
		f := one(t, head+"clauses: [{figure: has-ground, "+c.clause+"}]", set(), "bare", c.figure)
		if f.Outcome != c.want {
			t.Errorf("%s: %s, want %s", c.clause, f.Outcome, c.want)
		}
		if (f.Figure.Present == nil) != (c.figure.Present == nil) {
			t.Errorf("%s: figure %v", c.clause, f.Figure)
		}
	}
}

// A must is required. An if-read is no more than a caution while nobody took
// the reading, and a must once one was taken, also where it proves nothing. A
// should is never more than a caution.
func TestMustIfReadShould(t *testing.T) {
	figures := map[string]figure.Figure{
		"not taken": figure.NotTaken(def("bond"), chassis), "not known": figure.NotKnown(def("bond"), chassis), "of no number": ohms(math.NaN(), 1),
		"within": ohms(0.2, 0.4), "astride": ohms(0.2, 5), "beyond": ohms(5, 5), "beyond the should": ohms(0.6, 0.7),
	}
	const must, ifRead, should = "must: {at_most: 1 Ω}", "if-read: {at_most: 1 Ω}", "should: {at_most: 0.5 Ω}"
	const atRail = ", limits: [{when: {stage: rail}, must: {at_most: 1 Ω}}]"
	for _, c := range []struct {
		clause string
		want   map[string]Outcome
	}{
		{must, map[string]Outcome{"not taken": Unproven, "not known": Unproven, "of no number": Unproven, "within": Pass, "astride": Unproven, "beyond": Fail}},
		{ifRead, map[string]Outcome{"not taken": Warn, "not known": Unproven, "of no number": Unproven, "within": Pass, "astride": Unproven, "beyond": Fail}},
		{should, map[string]Outcome{"not taken": Warn, "not known": Warn, "of no number": Warn, "within": Pass, "astride": Warn, "beyond": Warn}},
		{must + ", " + should, map[string]Outcome{"not taken": Unproven, "not known": Unproven, "beyond the should": Warn, "beyond": Fail}},
		{ifRead + ", " + should, map[string]Outcome{"not taken": Warn, "not known": Unproven, "beyond the should": Warn, "beyond": Fail}},
		{ifRead + ", limits: [{when: {stage: bare}, must: {at_most: 1 Ω}}]", map[string]Outcome{"not taken": Unproven, "not known": Unproven, "within": Pass}},
		{ifRead + atRail, map[string]Outcome{"not taken": Warn, "not known": Unproven, "beyond": Fail}},
		// Not known whether the bond is there: both limits bind.
		{ifRead + ", limits: [{when: {bonded: yes}, must: {at_most: 1 Ω}}]", map[string]Outcome{"not taken": Unproven, "beyond": Fail}},
		{must + ", limits: [{when: {bonded: yes}, if-read: {at_most: 2 Ω}}]", map[string]Outcome{"not taken": Unproven, "astride": Unproven, "within": Pass}},
	} {
		for name, want := range c.want {
			f := one(t, head+"clauses: [{figure: bond, "+c.clause+"}]", set(), "bare", figures[name])
			if f.Outcome != want {
				t.Errorf("%s, %s: %s, want %s", c.clause, name, f.Outcome, want)
			}
			if f.Outcome != Pass && f.Outcome != Fail && len(f.Needs) == 0 && name != "beyond the should" && name != "beyond" {
				t.Errorf("%s, %s: nothing would settle it", c.clause, name)
			}
		}
	}
	// Of several readings of one thing, one that proves nothing is not made good
	// by another that nobody took.
	two := []figure.Figure{figures["not taken"], figures["not known"]}
	if f := one(t, head+"clauses: [{figure: bond, "+ifRead+"}]", set(), "bare", two...); f.Outcome != Unproven {
		t.Errorf("two figures: %s", f.Outcome)
	}
	// A figure that nobody computed is no reading that nobody took.
	if f := one(t, head+"clauses: [{figure: bond, "+ifRead+"}]", set(), "bare"); f.Outcome != Unproven {
		t.Errorf("no figure: %s", f.Outcome)
	}
	if f := figure.NotTaken(def("leak"), chassis); f.Untaken {
		t.Error("what is no reading was not taken")
	}
	advice := "group: readings\nof: chassis\nrisk: advice\nclauses: [{figure: bond, should: {at_most: 0.1 Ω}}]"
	for name, x := range figures {
		if got := one(t, advice, set(), "bare", x); got.Outcome != Warn {
			t.Errorf("advice gives %s where %s", got.Outcome, name)
		}
	}
}

func TestWhenAsked(t *testing.T) {
	const ask = "clauses: [{figure: bond, must: {at_most: 1 Ω}}]"
	for _, c := range []struct {
		name, lines string
		set         figure.Setting
		stage       string
		want        bool
	}{
		{"always", ask, set(), "bare", true},
		{"holds", "when: {construction: transformer}\n" + ask, set("construction", "transformer"), "bare", true},
		{"does not hold", "when: {construction: transformer}\n" + ask, set("construction", "line-connected"), "bare", false},
		{"one of several", "when: {construction: [transformer, line-connected]}\n" + ask, set("construction", "line-connected"), "bare", true},
		{"not known", "when: {construction: transformer}\n" + ask, set(), "bare", true},
		{"a word of nobody's", "when: {construction: transformer}\n" + ask, set("construction", "Transformer"), "bare", true},
		{"one no among unknowns", "when: {construction: transformer, bonded: yes}\n" + ask, set("bonded", "no"), "bare", false},
		{"in the span", "when: {mains: 200 V to 260 V}\n" + ask, set("mains", "230 V"), "bare", true},
		{"out of the span", "when: {mains: 200 V to 260 V}\n" + ask, set("mains", "120 V"), "bare", false},
		{"across the span's end", "when: {mains: 200 V to 260 V}\n" + ask, set("mains", "120 V to 230 V"), "bare", true},
		{"at the span's end", "when: {mains: 200 V to 260 V}\n" + ask, set("mains", "200 V"), "bare", true},
		{"open above", "when: {branch-device: over 20 A}\n" + ask, set("branch-device", "32 A"), "bare", true},
		{"no device", "when: {plug-fuse: 0 A to 3 A}\n" + ask, set("plug-fuse", "none"), "bare", false},
		{"asks for no device", "when: {plug-fuse: [none, 5 A to 13 A]}\n" + ask, set("plug-fuse", "none"), "bare", true},
		{"a fuse where none is asked for", "when: {plug-fuse: none}\n" + ask, set("plug-fuse", "3 A"), "bare", false},
		{"stage asks", "stages: [heaters, rail]\n" + ask, set(), "heaters", true},
		{"stage does not ask", "stages: rail\n" + ask, set(), "heaters", false},
		{"no such stage asks all", "stages: rail\n" + ask, set(), "full", true},
		{"stage as fact", "when: {stage: bare}\n" + ask, set("stage", "bare"), "rail", false},
		{"reach", "when: {reach: enclosed}\n" + ask, set(), "bare", false},
		{"role not known", "when: {role: main}\n" + ask, set(), "bare", true},
		{"clause does not hold", "clauses: [{figure: bond, must: {at_most: 1 Ω}, when: {bonded: no}}]", set("bonded", "yes"), "bare", false},
		{"no limit holds", "clauses: [{figure: bond, limits: [{when: {bonded: no}, must: {at_most: 1 Ω}}]}]", set("bonded", "yes"), "bare", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := one(t, head+c.lines, c.set, c.stage); (got != nil) != c.want {
				t.Errorf("asked: %v, want %v", got != nil, c.want)
			}
		})
	}
	odd := set()
	odd.Facts["mains"] = figure.Fact{Range: &quantity.Range{Low: math.NaN(), High: 5, Dim: quantity.Voltage}}
	if one(t, head+"when: {mains: 200 V to 260 V}\n"+ask, odd, "bare") == nil {
		t.Error("a fact that is no number switched the rule off")
	}
	odd.Facts["mains"] = figure.Fact{Range: &quantity.Range{Low: 1, High: 1, Dim: quantity.Current}}
	if one(t, head+"when: {mains: 200 V to 260 V}\n"+ask, odd, "bare") == nil {
		t.Error("a fact in another unit switched the rule off")
	}
}

func TestAskedIf(t *testing.T) {
	lines := head + "asked_if: has-ground\nclauses: [{figure: bond, must: {at_most: 1 Ω}}]"
	for name, c := range map[string]struct {
		figures []figure.Figure
		want    bool
	}{
		"present":               {[]figure.Figure{ground(true)}, true},
		"absent":                {[]figure.Figure{ground(false)}, false},
		"not computed":          {nil, true},
		"not known":             {[]figure.Figure{figure.NotKnown(def("has-ground"), chassis)}, true},
		"absent, yet not known": {[]figure.Figure{{Def: def("has-ground"), Of: chassis, Present: new(bool), Missing: []figure.Need{{What: "a look"}}}}, true},
		"once of twice":         {[]figure.Figure{ground(false), ground(true)}, true},
	} {
		if got := one(t, lines, set(), "bare", c.figures...); (got != nil) != c.want {
			t.Errorf("%s: asked %v", name, got != nil)
		}
	}
}

// Whether a rule applies at all may not be known: what would then fail is
// unproven, and names what would settle it; what passes passes either way.
func TestAskedIfNotKnown(t *testing.T) {
	const needed, ifRead = "clauses: [{figure: bond, must: {at_most: 1 Ω}}]", "clauses: [{figure: bond, if-read: {at_most: 1 Ω}}]"
	unseen := figure.NotKnown(def("has-ground"), chassis, figure.Need{What: "a look at the ground", How: "with a torch"})
	for _, c := range []struct {
		name, clause string
		figures      []figure.Figure
		want         Outcome
		need         string
	}{
		{"known to apply", needed, []figure.Figure{ohms(2, 2), ground(true)}, Fail, ""},
		{"not known, beyond", needed, []figure.Figure{ohms(2, 2), unseen}, Unproven, "a look at the ground"},
		{"not known, beyond, if read", ifRead, []figure.Figure{ohms(2, 2), unseen}, Unproven, "a look at the ground"},
		{"not computed, beyond", needed, []figure.Figure{ohms(2, 2)}, Unproven, "there is a ground pin"},
		{"known once of twice", needed, []figure.Figure{ohms(2, 2), unseen, ground(true)}, Fail, ""},
		{"not known, within", needed, []figure.Figure{ohms(0.5, 0.5), unseen}, Pass, ""},
		{"not known, astride", needed, []figure.Figure{ohms(0.5, 2), unseen}, Unproven, "a look at the ground"},
		{"not known, astride, if read", ifRead, []figure.Figure{ohms(0.5, 2), unseen}, Unproven, "a look at the ground"},
		{"not known, not taken", ifRead, []figure.Figure{figure.NotTaken(def("bond"), chassis), unseen}, Warn, ""},
	} {
		f := one(t, head+"asked_if: has-ground\n"+c.clause, set(), "bare", c.figures...)
		if f == nil || f.Outcome != c.want {
			t.Errorf("%s: %+v, want %s", c.name, f, c.want)
			continue
		}
		named := slices.ContainsFunc(f.Needs, func(n figure.Need) bool { return strings.Contains(n.What, c.need) })
		if c.need != "" && !named {
			t.Errorf("%s: needs %v, not %q", c.name, f.Needs, c.need)
		}
		if (c.need != "") != strings.Contains(f.Note, "not known whether it applies") {
			t.Errorf("%s: noted %q", c.name, f.Note)
		}
	}
}

// A clause may have its own asked_if: with it a clause in front words what a
// later one asks of every subject. Where both say the same, the first decides.
func TestClauseAskedIf(t *testing.T) {
	const lines = head + `clauses:
  - {figure: bond, must: {at_most: 1 Ω}, asked_if: has-ground, why: with ground, remedy: mend the ground}
  - {figure: bond, must: {at_most: 3 Ω}}`
	for _, c := range []struct {
		name    string
		figures []figure.Figure
		want    Outcome
		why     string
	}{
		{"so, beyond both", []figure.Figure{ohms(4, 4), ground(true)}, Fail, "with ground"},
		{"so, beyond its own", []figure.Figure{ohms(2, 2), ground(true)}, Fail, "with ground"},
		{"not so, beyond its own", []figure.Figure{ohms(2, 2), ground(false)}, Pass, "it matters"},
		{"not so, beyond both", []figure.Figure{ohms(4, 4), ground(false)}, Fail, "it matters"},
		{"not known, beyond its own", []figure.Figure{ohms(2, 2)}, Unproven, "with ground"},
		{"not known, beyond both", []figure.Figure{ohms(4, 4)}, Fail, "it matters"},
	} {
		f := one(t, lines, set(), "bare", c.figures...)
		if f == nil || f.Outcome != c.want || f.Why != c.why {
			t.Errorf("%s: %+v", c.name, f)
			continue
		}
		if doubted := strings.Contains(f.Note, "there is a ground pin"); doubted != (f.Outcome == Unproven) {
			t.Errorf("%s: noted %q", c.name, f.Note)
		}
	}
	alone := head + "clauses: [{figure: bond, must: {at_most: 1 Ω}, asked_if: has-ground}]"
	if one(t, alone, set(), "bare", ohms(2, 2), ground(false)) != nil {
		t.Error("asked though its only clause is not")
	}
}

func TestStricterLimit(t *testing.T) {
	lines := head + `clauses:
  - figure: bond
    must: {at_most: 3 Ω}
    limits:
      - {when: {bonded: no}, must: {at_most: 1 Ω}}
      - {when: {mains: 200 V to 260 V}, must: {at_most: 2 Ω}, should: {at_most: 1.5 Ω}}
      - {when: {earthing: tt}, should: {at_most: 0.5 Ω}}`
	for _, c := range []struct {
		name string
		set  figure.Setting
		most float64
		want Outcome // of 1.2 Ω
	}{
		{"none holds", set("bonded", "yes", "mains", "120 V", "earthing", "tn"), 3, Pass},
		{"the first", set("bonded", "no", "mains", "230 V", "earthing", "tt"), 1, Fail},
		{"the second", set("bonded", "yes", "mains", "230 V", "earthing", "tt"), 1.5, Pass},
		{"a limit without must", set("bonded", "yes", "mains", "120 V", "earthing", "tt"), 0.5, Warn},
		{"first not known", set("mains", "230 V"), 1, Fail},
		{"mains across", set("bonded", "yes", "mains", "120 V to 230 V", "earthing", "tn"), 1.5, Pass},
		{"nothing known", set(), 1, Fail},
		{"earthing not known", set("bonded", "yes", "mains", "120 V"), 0.5, Warn},
	} {
		f := one(t, lines, c.set, "bare", ohms(1.2, 1.2))
		if *f.Limit.AtMost != c.most || f.Outcome != c.want {
			t.Errorf("%s: %s against %s, want %s against %v", c.name, f.Outcome, f.Limit, c.want, c.most)
		}
	}
	f := one(t, lines, set("mains", "230 V"), "bare", ohms(1.2, 1.2))
	if f.Note != "asked in its stricter form because this is not known for certain: whether the chassis is joined to the ground pin" {
		t.Errorf("note %q", f.Note)
	}
}

func TestWorstDecides(t *testing.T) {
	lines := head + "clauses: [{figure: bond, must: {at_most: 1 Ω}}, {figure: leak, must: {at_most: 0.5 mA}}, {figure: has-ground, must: present}]"
	leak := figure.Number(def("leak"), chassis, quantity.Exact(4e-3, quantity.Current))
	leak.Witness, leak.At = []string{"plug.hot", "chassis"}, strict.Pos{Line: 9, Column: 2}
	leak.From = []figure.Basis{{Status: figure.Computed, Source: "a sum"}, {Status: figure.FromMemory, Source: "a test"}}
	f := one(t, lines, set(), "bare", ohms(0, 0), leak)
	if f.Outcome != Fail || f.Figure.Name != "leak" || *f.Limit.AtMost != 0.5e-3 || f.At.Line != 9 || len(f.Basis) != 2 {
		t.Errorf("got %+v", f)
	}
	if len(f.Needs) != 1 || f.Needs[0].What != "there is a ground pin" {
		t.Errorf("the open clause's need is lost: %v", f.Needs)
	}
	if f.Says != "chassis: touch current: 4 mA, must be at most 0.5 mA" {
		t.Errorf("says %q", f.Says)
	}
	if f = one(t, lines, set(), "bare", ohms(0, 0)); f.Outcome != Unproven || f.At != chassis.At {
		t.Errorf("got %+v", f)
	}
	if f = one(t, lines, set(), "bare", ohms(0, 0), ohms(2, 2)); f.Outcome != Fail {
		t.Errorf("of two figures the worse must count, got %s", f.Outcome)
	}
	twice := set()
	twice.Subjects = append(twice.Subjects, chassis)
	if f = one(t, lines, twice, "bare"); f == nil {
		t.Error("a subject named twice is one subject")
	}
}

func TestCloser(t *testing.T) {
	for _, c := range []struct {
		low, high float64
		want      string
	}{
		{0.05, 0.13, "an instrument, or values on the sheet, good to 0.01 Ω near 0.1 Ω; now it is good to 0.04 Ω"},
		{0.05, 0.15, "it lies on the limit of 0.1 Ω, and no meter can tell; better the part, then measure again"},
		{0.05, math.Inf(1), "it is known from below only, as over 0.05 Ω; an instrument whose range reaches 0.1 Ω, or the values that are missing"},
	} {
		f := one(t, head+"clauses: [{figure: bond, must: {at_most: 0.1 Ω}}]", set(), "bare", ohms(c.low, c.high))
		if len(f.Needs) != 1 || f.Needs[0].How != c.want {
			t.Errorf("%v to %v: %v", c.low, c.high, f.Needs)
		}
	}
}

func TestSentences(t *testing.T) {
	lines := head + "clauses: [{figure: has-ground, must: absent, says: {present: 'a pin stands on {subject}', absent: no pin}}]"
	is := ground(true)
	is.Witness = []string{"plug.ground", "chassis"}
	for want, f := range map[string]figure.Figure{
		"a pin stands on chassis (plug.ground → chassis)": is,
		"chassis: no pin": ground(false),
		"not known whether a pin stands on chassis; it must not be so": figure.NotKnown(def("has-ground"), chassis),
	} {
		if got := one(t, lines, set(), "bare", f); got.Says != want {
			t.Errorf("%q, want %q", got.Says, want)
		}
	}
}

func TestOrder(t *testing.T) {
	at := func(name, risk string) string {
		return rule(name, "group: readings\nof: [chassis, body]\nrisk: "+risk+"\nclauses: [{figure: bond, should: {at_most: 1 Ω}}]")
	}
	b := book(t, at("a", "advice"), at("b", "set"), at("c", "fire"), at("z", "shock"), at("d", "shock"))
	s := set()
	s.Subjects = append(s.Subjects, figure.Subject{Name: "aerial", Kind: "body"}, figure.Subject{Name: "S1", Kind: "switch"})
	var got []string
	for _, f := range b.Judge(s, nil, "bare").Findings {
		got = append(got, f.Rule+" "+f.Subject.Name)
	}
	want := []string{"d aerial", "d chassis", "z aerial", "z chassis", "c aerial", "c chassis", "b aerial", "b chassis", "a aerial", "a chassis"}
	if !slices.Equal(got, want) {
		t.Errorf("got %v", got)
	}
}

func TestMachineForms(t *testing.T) {
	for want, f := range map[string]figure.Figure{
		`{"name":"bond","low":0.0123457,"high":0.05,"unit":"Ω"} {"at_most":0.1,"unit":"Ω"}`: ohms(0.01234567, 0.05),
		`{"name":"bond","low":0,"unit":"Ω"} {"at_most":0.1,"unit":"Ω"}`:                     ohms(0, math.Inf(1)),
		`{"name":"bond"} {"at_most":0.1,"unit":"Ω"}`:                                        figure.NotKnown(def("bond"), chassis),
	} {
		got := one(t, bondRule, set(), "bare", f)
		a, _ := json.Marshal(got.Figure)
		l, _ := json.Marshal(got.Limit)
		if string(a)+" "+string(l) != want {
			t.Errorf("%s %s, want %s", a, l, want)
		}
	}
	got := one(t, head+"clauses: [{figure: has-ground, must: present}]", set(), "bare", ground(false))
	a, _ := json.Marshal(got.Figure)
	if string(a) != `{"name":"has-ground","present":false}` {
		t.Errorf("%s", a)
	}
}

// TestLimitItself: a limit lets nothing through that is not plainly within,
// even where nobody looked at the value before.
func TestLimitItself(t *testing.T) {
	one, nan := 1.0, math.NaN()
	for _, l := range []*Limit{{AtMost: &one}, {AtLeast: &one}, {AtMost: &one, AtLeast: &one}, {}} {
		if got := l.of(quantity.Range{Low: nan, High: nan}); got != astride {
			t.Errorf("%s of no number is %d", l, got)
		}
	}
	if got := (&Limit{AtMost: &nan}).of(quantity.Exact(0, quantity.Number)); got != astride {
		t.Errorf("a limit that is no number is %d", got)
	}
	if got := (&Limit{AtMost: &one}).ofPresence(true); got != astride {
		t.Errorf("a number's limit on presence is %d", got)
	}
}

func TestWords(t *testing.T) {
	b := book(t, rule("x", head+"when: {bonded: yes, mains: [100 V, 200 V to 260 V]}\nclauses: [{figure: bond, must: {between: 1 Ω to 2 Ω}}, {figure: has-ground, should: absent}, {figure: leak, must: {at_least: 1 A}}]"))
	r, ok := b.Rule("x")
	if !ok || r.When.String() != "bonded: yes, mains: 100 V or 200 V to 260 V" {
		t.Errorf("when %q", r.When)
	}
	if want := "resistance of the bond: must be between 1 Ω and 2 Ω; there is a ground pin: should be absent; touch current: must be at least 1 A"; r.Asks != want {
		t.Errorf("asks %q", r.Asks)
	}
	if _, ok := b.Rule("y"); ok {
		t.Error("a rule that is not there was found")
	}
}

// What is not known is asked in the words of its limit; of a reading that nobody
// took it is said that it was not.
func TestNotKnownSays(t *testing.T) {
	untaken := []figure.Figure{figure.NotTaken(def("bond"), chassis), figure.NotTaken(def("has-ground"), chassis)}
	for clause, want := range map[string]string{
		"figure: bond, must: {at_most: 1 Ω}":    "not known, must be at most 1 Ω",
		"figure: bond, if-read: {at_most: 1 Ω}": "not read; where it is, it must be at most 1 Ω",
		"figure: bond, should: {at_most: 1 Ω}":  "not known, should be at most 1 Ω",
		"figure: has-ground, must: present":     "it must be so",
		"figure: has-ground, if-read: present":  "no reading tells whether there is a ground pin; where one is taken, it must be so",
		"figure: has-ground, if-read: absent":   "where one is taken, it must not be so",
		"figure: has-ground, should: absent":    "it should not be so",
	} {
		if f := one(t, head+"clauses: [{"+clause+"}]", set(), "heaters", untaken...); !strings.HasSuffix(f.Says, want) {
			t.Errorf("%s: %s", clause, f.Says)
		}
	}
}

// A clause with a why and a remedy of its own gives them where it decides.
func TestRemedyOfTheDecidingClause(t *testing.T) {
	const clauses = "clauses:\n  - {figure: bond, must: {at_most: 1 Ω}}\n  - {figure: has-ground, should: present, why: no pin, remedy: fit another plug}"
	for _, c := range []struct {
		bond, ground figure.Figure
		why, remedy  string
	}{
		{ohms(0, 0.5), ground(false), "no pin", "fit another plug"},
		{ohms(2, 3), ground(false), "it matters", "put it right"},
		{ohms(0, 0.5), ground(true), "it matters", "put it right"},
	} {
		if f := one(t, head+clauses, set(), "rail", c.bond, c.ground); f.Why != c.why || f.Remedy != c.remedy {
			t.Errorf("%s: %q, %q, want %q, %q", f.Outcome, f.Why, f.Remedy, c.why, c.remedy)
		}
	}
}

// A value that fails prints with as many digits as tell it from its limit.
func TestDigitsTellApart(t *testing.T) {
	for _, c := range []struct {
		low, high float64
		want      string
	}{
		{0.104, 0.104, "0.104 Ω, must be at most 0.1 Ω"},
		{0.1004, 0.1004, "0.1004 Ω, must be at most 0.1 Ω"},
		{0.100002, 0.2, "0.100002 Ω to 0.2 Ω, must be at most 0.1 Ω"},
		{0.05, 0.10004, "0.05 Ω to 0.10004 Ω, must be at most 0.1 Ω"},
		{0.1, 0.1, "0.1 Ω, must be at most 0.1 Ω"},
		{0.12345, 0.12345, "0.123 Ω, must be at most 0.1 Ω"},
	} {
		f := one(t, head+"clauses: [{figure: bond, must: {at_most: 0.1 Ω}}]", set(), "rail", ohms(c.low, c.high))
		if !strings.HasSuffix(f.Says, c.want) {
			t.Errorf("%q, want %q", f.Says, c.want)
		}
	}
	f := one(t, head+"clauses: [{figure: bond, must: {between: 0.99 Ω to 1.1 Ω}}]", set(), "rail", ohms(0.9899, 1.1004))
	if !strings.HasSuffix(f.Says, "0.9899 Ω to 1.1004 Ω, must be between 0.99 Ω and 1.1 Ω") {
		t.Errorf("%q", f.Says)
	}
	if !strings.Contains(f.Needs[0].How, "1.1 Ω") {
		t.Errorf("%q", f.Needs[0].How)
	}
}

// Every fact that a rule may name has plain words.
func TestFactsInPlainWords(t *testing.T) {
	for name := range figure.FactNames {
		if factSays[name] == "" {
			t.Errorf("%s has none", name)
		}
	}
}
