package rules

import (
	"slices"
	"strings"
	"testing"

	"firstvolt/checks/figure"
)

// every is a book with one rule of each group but those left out.
func every(t *testing.T, without ...string) *Book {
	var rules []string
	for _, g := range Groups {
		if !slices.Contains(without, g) {
			rules = append(rules, rule("r-"+g, "group: "+g+"\nof: chassis\nrisk: shock\nclauses: [{figure: bond, must: {at_most: 1 Ω}, should: {at_most: 0.5 Ω}}]"))
		}
	}
	return book(t, rules...)
}

func TestVerdict(t *testing.T) {
	good, fair, open, bad := ohms(0, 0.1), ohms(0.6, 0.7), ohms(0, 2), ohms(3, 4)
	bonded := []string{"construction", "transformer", "bonded", "yes", "plug-ground", "present"}
	with := func(name, word string) []string {
		out := slices.Clone(bonded)
		out[slices.Index(out, name)+1] = word
		return out
	}
	for _, c := range []struct {
		name    string
		without []string
		facts   []string
		stage   string
		figure  figure.Figure
		want    Verdict
		missing []string
	}{
		{"sound", nil, bonded, "heaters", good, Cleared, nil},
		{"cautions do not hold it up", nil, bonded, "heaters", fair, Cleared, nil},
		{"open", nil, bonded, "heaters", open, Open, nil},
		{"bad", nil, bonded, "heaters", bad, Hold, nil},
		{"sound, rail", nil, bonded, "rail", good, Cleared, nil},
		{"no faults, bare", []string{"faults", highTension}, bonded, "bare", good, Cleared, []string{"faults"}},
		{"no faults, heaters", []string{"faults", highTension}, bonded, "heaters", good, Cleared, []string{highTension, "faults"}},
		{"no faults, rail", []string{"faults", highTension}, bonded, "rail", good, Open, []string{highTension, "faults"}},
		{"no high tension, rail", []string{highTension}, bonded, "rail", good, Open, []string{highTension}},
		{"no faults, rail, bad", []string{"faults"}, bonded, "rail", bad, Hold, []string{"faults"}},
		{"no faults, not bonded", []string{"faults"}, with("bonded", "no"), "bare", good, Open, []string{"faults"}},
		{"no faults, two conductors", []string{"faults"}, with("plug-ground", "absent"), "bare", good, Open, []string{"faults"}},
		{"no faults, line-connected", []string{"faults"}, with("construction", "line-connected"), "bare", good, Open, []string{"faults"}},
		{"no faults, floating", []string{"faults"}, with("construction", "floating-chassis"), "heaters", good, Open, []string{"faults"}},
		{"no faults, nothing known", []string{"faults"}, nil, "bare", good, Open, []string{"faults"}},
		{"all rules, two conductors", nil, with("plug-ground", "absent"), "bare", good, Cleared, nil},
		{"no entry", []string{"entry"}, bonded, "bare", good, Open, []string{"entry"}},
		{"no inspection", []string{"inspection"}, bonded, "bare", good, Open, []string{"inspection"}},
		{"no first power", []string{"firstpower"}, bonded, "heaters", good, Open, []string{"firstpower"}},
		{"no readings, bad", []string{"readings"}, bonded, "heaters", bad, Hold, []string{"readings"}},
		{"a stage of nobody's", []string{"faults"}, bonded, "bright", good, Open, []string{"faults"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			j := every(t, c.without...).Judge(set(c.facts...), []figure.Figure{c.figure}, c.stage)
			if j.Verdict != c.want {
				t.Errorf("%s, want %s: %v", j.Verdict, c.want, j.Reasons)
			}
			if !slices.Equal(j.NotJudged, c.missing) {
				t.Errorf("not judged %v, want %v", j.NotJudged, c.missing)
			}
			if j.Verdict == Open && j.Counts.Unproven == 0 && len(j.Reasons) == 0 {
				t.Error("unproven without a reason")
			}
		})
	}
}

func TestVerdictAtBest(t *testing.T) {
	s := set("construction", "transformer", "bonded", "yes", "plug-ground", "present")
	s.AtBest = "the sheet has no wiring"
	for want, f := range map[Verdict]figure.Figure{Open: ohms(0, 0.1), Hold: ohms(3, 4)} {
		j := every(t).Judge(s, []figure.Figure{f}, "heaters")
		if j.Verdict != want || !slices.Contains(j.Reasons, s.AtBest) {
			t.Errorf("%s with %v", j.Verdict, j.Reasons)
		}
	}
	s.AtBest = ""
	s.Subjects = nil
	if j := every(t).Judge(s, nil, "heaters"); j.Verdict != Open || j.Counts.Asked != 0 {
		t.Errorf("nothing was asked, and the verdict is %s", j.Verdict)
	}
	if j := every(t).Judge(figure.Setting{}, nil, ""); j.Verdict != Open || j.Stage != "rail" {
		t.Errorf("an empty setting is %s at %s", j.Verdict, j.Stage)
	}
}

func TestGroupOnlyAtAnotherStage(t *testing.T) {
	b := book(t, rule("x", "group: high-tension\nof: chassis\nrisk: set\nstages: rail\nclauses: [{figure: bond, must: {at_most: 1 Ω}}]"))
	for stage, want := range map[string]bool{"bare": false, "heaters": true, "rail": false} {
		if got := slices.Contains(b.Judge(set("construction", "transformer"), nil, stage).NotJudged, highTension); got != want {
			t.Errorf("%s: high tension not judged is %v", stage, got)
		}
	}
	// What no stage takes out is energized at every stage.
	for _, facts := range [][]string{{"construction", "line-connected"}, {}, {"construction", "transformer", "soldered-supply", "present"}} {
		if !slices.Contains(b.Judge(set(facts...), nil, "bare").NotJudged, highTension) {
			t.Errorf("%v: the high tension is not missed at bare", facts)
		}
	}
}

func TestNext(t *testing.T) {
	need := func(fig string, what, how string) figure.Figure {
		return figure.NotKnown(def(fig), chassis, figure.Need{What: what, How: how})
	}
	b := book(t,
		rule("a-set", "group: readings\nof: chassis\nrisk: set\nclauses: [{figure: has-ground, must: present}]"),
		rule("a-wish", "group: readings\nof: chassis\nrisk: shock\nclauses: [{figure: leak, should: {at_most: 1 A}}]"),
		rule("z-shock", bondRule))
	figures := []figure.Figure{need("bond", "bond reading", ""), need("leak", "leak reading", "a meter"), need("has-ground", "bond reading", "an ohmmeter")}
	got := b.Judge(set(), figures, "bare").Next()
	want := []figure.Need{{What: "bond reading", How: "an ohmmeter"}, {What: "leak reading", How: "a meter"}}
	if !slices.Equal(got, want) {
		t.Errorf("got %v", got)
	}
	if n := b.Judge(set(), []figure.Figure{ohms(0, 0), figure.Is(def("has-ground"), chassis, true), need("leak", "x", "")}, "bare").Next(); len(n) != 1 {
		t.Errorf("what passed is asked again: %v", n)
	}
}

// TestCautions holds our cautions against every sort of set at every stage:
// at least three fit, and none that speaks of something that is not there.
func TestCautions(t *testing.T) {
	b := defaultBook(t)
	links := []string{"", "gfci", "rcd", "isolating-transformer", "autotransformer", "variac", "lamp-box", "adaptor"}
	for _, construction := range FactWords["construction"] {
		for _, bonded := range []string{"yes", "no"} {
			for _, stage := range Stages {
				for _, link := range links {
					s := set("construction", construction, "bonded", bonded, "plug-ground", map[string]string{"yes": "present", "no": "absent"}[bonded], "plug-fits", "one-way", "system", "neutral", "soldered-supply", "absent")
					if link != "" {
						s.Subjects = append(s.Subjects, figure.Subject{Name: "upstream 1", Kind: "link", Role: link})
					}
					j := b.Judge(s, nil, stage)
					if len(j.Cautions) < 3 {
						t.Errorf("%s, %s: only %d cautions", construction, stage, len(j.Cautions))
					}
					if j.Owed.Text == "" || j.Deferral.Text == "" || len(j.Owed.Basis) == 0 || len(j.Deferral.Basis) == 0 {
						t.Error("owed or deferral is missing")
					}
					for name, fits := range map[string]bool{
						"lamp-does-not-isolate": link == "lamp-box", "variac-does-not-isolate": link == "variac" || link == "autotransformer",
						"one-set-on-the-transformer": link == "isolating-transformer", "residual-has-blind-sides": link == "gfci" || link == "rcd",
						"chassis-is-mains": construction == "line-connected", "rail-is-mains": construction == "floating-chassis",
						"earth-fault-first": bonded == "yes", "keep-the-earth": bonded == "yes", "bond-again-after-repair": bonded == "yes",
						"discharge-before-touch": stage == "rail", "tubes-in": stage == "rail", "rectifier-out": stage == "heaters", "tubes-out": stage == "bare",
						"one-hand": true, "rectifier-soldered-in": false, "unplug-not-switch": true,
						"insulation-test-dead": false, "plug-goes-both-ways": false, "both-lines-hot": false,
					} {
						if got := slices.ContainsFunc(j.Cautions, func(c Caution) bool { return c.Name == name }); got != fits {
							t.Errorf("%s, bonded %s, %s, %s: %s is %v", construction, bonded, stage, link, name, got)
						}
					}
				}
			}
		}
	}
	for _, c := range b.cautions {
		for _, f := range c.Forms {
			if len(strings.Fields(f.Text)) < 5 || len(f.Text) > 260 || len(c.Basis) == 0 {
				t.Errorf("%s: %q", c.Name, f.Text)
			}
		}
	}
}

func TestCautionsByStep(t *testing.T) {
	b := defaultBook(t)
	at := func(step string) []string {
		var out []string
		for _, c := range b.Cautions(set(), "bare", step) {
			out = append(out, c.Name)
		}
		return out
	}
	if !slices.Contains(at("measure"), "insulation-test-dead") || slices.Contains(at("measure"), "one-hand") {
		t.Errorf("measure: %v", at("measure"))
	}
	if !slices.Contains(at("power"), "one-hand") || slices.Contains(at("power"), "insulation-test-dead") {
		t.Errorf("power: %v", at("power"))
	}
	if !slices.Contains(at("power"), "chassis-is-mains") {
		t.Error("of a set whose construction is not known the caution must stand")
	}
}

// TestInspections asks our inspection rules of every answer, and of those
// only that belong to the construction.
func TestInspections(t *testing.T) {
	b := defaultBook(t)
	d := b.known["inspection-good"]
	keys := map[string]struct {
		rule          string
		constructions string
	}{
		"mains-side-traced": {rule: "mains-side-traced"}, "cord-jacket": {rule: "cord-sound"}, "strain-relief": {rule: "cord-anchored"},
		"bushing": {rule: "cord-bushed"}, "conductor-bright": {rule: "conductor-bright"}, "mains-wiring-flexes": {rule: "mains-wiring-flexes"},
		"clearances": {rule: "clearances"}, "no-loose-hardware": {rule: "no-loose-hardware"},
		"old-line-capacitor-gone": {rule: "old-line-capacitor-gone"},
		"knobs-insulated":         {rule: "knobs-insulated", constructions: "line-connected"}, "grub-screws-covered": {rule: "grub-screws-covered", constructions: "line-connected"},
		"back-fitted":            {rule: "back-fitted", constructions: "line-connected floating-chassis"},
		"chassis-screws-covered": {rule: "chassis-screws-covered", constructions: "line-connected"},
	}
	for key, want := range keys {
		s := figure.Subject{Name: key, Kind: "inspection", Role: key}
		for _, construction := range FactWords["construction"] {
			setting := set("construction", construction)
			setting.Subjects = []figure.Subject{s}
			asked := want.constructions == "" || strings.Contains(want.constructions, construction)
			for _, c := range []struct {
				figures []figure.Figure
				want    Outcome
			}{
				{[]figure.Figure{figure.Is(d, s, true)}, Pass}, {[]figure.Figure{figure.Is(d, s, false)}, Fail},
				{[]figure.Figure{figure.NotKnown(d, s)}, Unproven}, {nil, Unproven},
			} {
				var got []Finding
				for _, f := range b.Judge(setting, c.figures, "bare").Findings {
					if f.Group == "inspection" {
						got = append(got, f)
					}
				}
				if !asked && len(got) > 0 || asked && (len(got) != 1 || got[0].Rule != want.rule || got[0].Outcome != c.want) {
					t.Errorf("%s, %s, %v: %+v, want %s", key, construction, c.figures, got, c.want)
				}
			}
		}
	}
}

// The groups that were not judged are named in one reason, once.
func TestOneReasonForWhatWasNotJudged(t *testing.T) {
	bonded := []string{"construction", "transformer", "bonded", "yes", "plug-ground", "present"}
	for _, c := range []struct {
		facts []string
		stage string
		want  string
	}{
		{bonded, "rail", "no rail is cleared"},
		{nil, "heaters", "only a transformer set on a bonded chassis is cleared"},
		{nil, "rail", "no further than its heaters"},
	} {
		j := every(t, "faults", highTension).Judge(set(c.facts...), []figure.Figure{ohms(0, 0.1)}, c.stage)
		if len(j.Reasons) != 1 || !strings.Contains(j.Reasons[0], c.want) {
			t.Errorf("%v at %s: %q", c.facts, c.stage, j.Reasons)
		}
	}
}
