package rules

import (
	"io/fs"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
	"firstvolt/checks/strict"
)

// defs are the figures of an invented program.
var defs = []figure.Def{
	{Name: "bond", Of: []string{"chassis", "body"}, Says: "resistance of the bond", Unit: quantity.Resistance, Reading: true},
	{Name: "leak", Of: []string{"chassis", "body", "set"}, Says: "touch current", Unit: quantity.Current},
	{Name: "ratio", Of: []string{"winding"}, Says: "how far the ratio is off", Unit: quantity.Number},
	{Name: "hot-early", Of: []string{"set"}, Says: "hot reaches something ahead of the fuse", Present: true},
	{Name: "has-ground", Of: []string{"chassis"}, Says: "there is a ground pin", Present: true, Reading: true},
	{Name: "inspection-good", Room: "inspection", Of: []string{"inspection"}, Says: "the answer is good", Present: true},
}

const tail = `
    why: it matters
    remedy: put it right
    basis: [{status: from-memory, source: a test}]
    example: {sound: "a", unsound: "b"}
`

// rule is a whole rule with these lines of its own.
func rule(name, lines string) string {
	return "  " + name + ":\n    " + strings.ReplaceAll(strings.TrimSpace(lines), "\n", "\n    ") + tail
}

const bondRule = `
group: readings
of: chassis
risk: shock
clauses: [{figure: bond, must: {at_most: 0.1 Ω}}]`

func book(t interface {
	Helper()
	Fatal(...any)
}, rules ...string) *Book {
	t.Helper()
	b, problems := load("rules:\n" + strings.Join(rules, ""))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return b
}

func load(text string) (*Book, []strict.Problem) {
	return Load(fstest.MapFS{"a.yaml": {Data: []byte(text)}}, defs)
}

// TestDefaultShape reads the program's own rulebook against an empty list of
// figures: nothing but the figures may be unknown. That the figures exist is
// tested where they are computed.
func TestDefaultShape(t *testing.T) {
	_, problems := Load(Default(), nil)
	for _, p := range problems {
		if !strings.HasPrefix(p.Wrong, "no figure is called") {
			t.Error(p)
		}
	}
}

// TestDefaultReasons forbids a rule or caution of ours that leaves a person
// without its reason, its remedy, its source or its examples.
func TestDefaultReasons(t *testing.T) {
	b := defaultBook(t)
	if len(b.Rules()) < 14 {
		t.Fatalf("only %d rules", len(b.Rules()))
	}
	for _, r := range b.Rules() {
		for what, text := range map[string]string{"why": r.Why, "remedy": r.Remedy, "asks": r.Asks} {
			if len(strings.Fields(text)) < 2 {
				t.Errorf("%s:%d: %s has no %s worth the name", r.File, r.At.Line, r.Name, what)
			}
		}
		for _, c := range r.Clauses { // a value or a stop of the finding's own follows
			for _, text := range []string{c.Says.Number, c.Says.Present, c.Says.Absent} {
				if strings.TrimRight(text, ":,;. ") != text {
					t.Errorf("%s: %q ends in a mark", r.Name, text)
				}
			}
		}
		if r.Example.Sound.String() == r.Example.Unsound.String() {
			t.Errorf("%s: both examples are the same", r.Name)
		}
		for _, x := range r.Basis {
			if x.Source == "" || x.Status == "" {
				t.Errorf("%s: a basis without source", r.Name)
			}
		}
	}
}

// defaultBook is our rulebook read against figures made to fit it: kinds and
// units as the rules use them.
func defaultBook(t testing.TB) *Book {
	t.Helper()
	b, problems := Load(Default(), harvest(t))
	for _, p := range problems {
		t.Error(p)
	}
	if b == nil {
		t.FailNow()
	}
	return b
}

func harvest(t testing.TB) []figure.Def {
	found := map[string]*figure.Def{}
	see := func(name string, kinds []string, limits ...*strict.Node) {
		d := found[name]
		if d == nil {
			d = &figure.Def{Name: name, Says: "what " + name + " says", Reading: true}
			found[name] = d
		}
		for _, k := range kinds {
			if !slices.Contains(d.Of, k) {
				d.Of = append(d.Of, k)
			}
		}
		for _, l := range limits {
			switch {
			case l == nil:
			case l.Kind == strict.Text:
				d.Present = true
			default:
				text, _, _ := strings.Cut(l.Entries[0].Value.Str(), " to ")
				for dim := quantity.Number; dim <= quantity.Digits; dim++ {
					if _, err := bound(text, dim); err == nil {
						d.Unit = dim
					}
				}
			}
		}
	}
	names, _ := fs.Glob(Default(), "*.yaml")
	for _, name := range names {
		data, err := fs.ReadFile(Default(), name)
		if err != nil {
			t.Fatal(err)
		}
		root, _ := strict.Parse(data)
		rules := root.Get("rules")
		if rules == nil {
			continue
		}
		for _, e := range rules.Entries {
			kinds := words(e.Value.Get("of"))
			if f := e.Value.Get("asked_if"); f != nil {
				see(f.Str(), kinds)
				found[f.Str()].Present = true
			}
			for _, c := range e.Value.Get("clauses").Items {
				see(c.Word("figure"), kinds, c.Get("must"), c.Get("if-read"), c.Get("should"))
				if f := c.Get("asked_if"); f != nil {
					see(f.Str(), kinds)
					found[f.Str()].Present = true
				}
				for _, limits := range []*strict.Node{c.Get("limits"), e.Value.Get("limits")} {
					if limits != nil {
						for _, k := range limits.Items {
							see(c.Word("figure"), kinds, k.Get("must"), k.Get("if-read"), k.Get("should"))
						}
					}
				}
			}
		}
	}
	var out []figure.Def
	for _, d := range found {
		out = append(out, *d)
	}
	return out
}

func TestLoadRefuses(t *testing.T) {
	head := "group: readings\nof: chassis\nrisk: shock\n"
	for _, c := range []struct{ name, lines, at, wrong string }{
		{"unknown figure", head + "clauses: [{figure: bund, must: {at_most: 0.1 Ω}}]", "a.yaml:6:24", `no figure is called "bund"; did you mean bond?`},
		{"wrong unit", head + "clauses: [{figure: bond, must: {at_most: 0.1 V}}]", "a.yaml:6:46", `"V" is the wrong unit`},
		{"no unit", head + "clauses: [{figure: bond, must: {at_most: 0.1}}]", "a.yaml:6:46", "the unit is missing"},
		{"open span as limit", head + "clauses: [{figure: bond, must: {at_most: over 1 Ω}}]", "a.yaml:6:46", "a limit is one value"},
		{"one-ended between", head + "clauses: [{figure: bond, must: {between: 1 Ω}}]", "a.yaml:6:46", "between needs two values"},
		{"empty between", head + "clauses: [{figure: bond, must: {between: 2 Ω to 1 Ω}}]", "a.yaml:6:46", "leaves no room"},
		{"two limits", head + "clauses: [{figure: bond, must: {at_most: 1 Ω, at_least: 2 Ω}}]", "a.yaml:6:36", "a limit has one of"},
		{"present on a number", head + "clauses: [{figure: bond, must: present}]", "a.yaml:6:36", "bond is a number"},
		{"number on presence", head + "clauses: [{figure: has-ground, must: {at_most: 1 Ω}}]", "a.yaml:6:42", "has-ground is present or absent"},
		{"must no stricter", head + "clauses: [{figure: bond, must: {at_most: 1 Ω}, should: {at_most: 2 Ω}}]", "a.yaml:6:60", "no stricter than the must"},
		{"should the same", head + "clauses: [{figure: bond, must: {at_most: 1 Ω}, should: {at_most: 1 Ω}}]", "a.yaml:6:60", "no stricter than the must"},
		{"should apart", head + "clauses: [{figure: bond, must: {at_most: 1 Ω}, should: {at_least: 2 Ω}}]", "a.yaml:6:60", "no value meets both"},
		{"should against must", head + "clauses: [{figure: has-ground, must: present, should: absent}]", "a.yaml:6:59", "no value meets both"},
		{"no wanted any more", head + "needed: wanted\nclauses: [{figure: bond, must: {at_most: 1 Ω}}]", "a.yaml:6:5", "needed is not a key"},
		{"if-read of what is no reading", head + "clauses: [{figure: leak, if-read: {at_most: 1 A}}]", "a.yaml:6:39", "leak is no reading that may be left out"},
		{"if-read beside must", head + "clauses: [{figure: bond, must: {at_most: 1 Ω}, if-read: {at_most: 2 Ω}}]", "a.yaml:6:61", "a must and an if-read in one place"},
		{"if-read of advice", "group: readings\nof: chassis\nrisk: advice\nclauses: [{figure: bond, if-read: {at_most: 1 Ω}}]", "a.yaml:6:39", "advice has no if-read"},
		{"should no stricter than if-read", head + "clauses: [{figure: bond, if-read: {at_most: 1 Ω}, should: {at_most: 2 Ω}}]", "a.yaml:6:63", "no stricter than the must"},
		{"if-read both ways", head + "clauses: [{figure: has-ground, if-read: present, limits: [{when: {bonded: no}, if-read: absent}]}]", "a.yaml:6:15", "both to be present and to be absent"},
		{"no effect", head + "clauses: [{figure: bond}]", "a.yaml:6:15", "has no effect"},
		{"limit without effect", head + "clauses: [{figure: bond, limits: [{when: {bonded: yes}}]}]", "a.yaml:6:39", "a limit without effect"},
		{"limit without facts", head + "clauses: [{figure: bond, limits: [{when: {}, must: {at_most: 1 Ω}}]}]", "a.yaml:6:39", "a limit without facts"},
		{"both ways", head + "clauses: [{figure: has-ground, must: present, limits: [{when: {bonded: no}, must: absent}]}]", "a.yaml:6:15", "both to be present and to be absent"},
		{"advice with must", "group: readings\nof: chassis\nrisk: advice\nclauses: [{figure: bond, must: {at_most: 1 Ω}}]", "a.yaml:6:36", "advice has no must"},
		{"kind not computed", "group: readings\nof: [chassis, cord]\nrisk: shock\nclauses: [{figure: bond, must: {at_most: 1 Ω}}]", "a.yaml:6:24", "bond is not computed for a cord"},
		{"unknown fact", head + "when: {colour: red}\nclauses: [{figure: bond, must: {at_most: 1 Ω}}]", "a.yaml:6:12", "not a fact that a rule may name"},
		{"unknown word", head + "when: {construction: transfomer}\nclauses: [{figure: bond, must: {at_most: 1 Ω}}]", "a.yaml:6:26", `"transfomer" is not a word for construction`},
		{"word for a range", head + "when: {mains: high}\nclauses: [{figure: bond, must: {at_most: 1 Ω}}]", "a.yaml:6:19", `"high" is not a span for mains`},
		{"span in another unit", head + "when: {mains: 1 A to 2 A}\nclauses: [{figure: bond, must: {at_most: 1 Ω}}]", "a.yaml:6:19", "is not a span for mains"},
		{"asked_if a number", head + "asked_if: leak\nclauses: [{figure: bond, must: {at_most: 1 Ω}}]", "a.yaml:6:15", "asked_if needs a figure that is present or absent"},
		{"asked_if a number, on a clause", head + "clauses: [{figure: bond, must: {at_most: 1 Ω}, asked_if: leak}]", "a.yaml:6:62", "asked_if needs a figure that is present or absent"},
		{"asked_if of another kind, on a clause", "group: readings\nof: [chassis, body]\nrisk: shock\nclauses: [{figure: bond, must: {at_most: 1 Ω}, asked_if: has-ground}]", "a.yaml:6:62", "has-ground is not computed for a body"},
		{"unknown key", head + "severity: high\nclauses: [{figure: bond, must: {at_most: 1 Ω}}]", "a.yaml:6:5", "severity is not a key of"},
		{"unknown stage", head + "stages: [on]\nclauses: [{figure: bond, must: {at_most: 1 Ω}}]", "a.yaml:6:14", `"on" is not a word for stages`},
		{"unknown risk", "group: readings\nof: chassis\nrisk: grave\nclauses: [{figure: bond, must: {at_most: 1 Ω}}]", "a.yaml:5:11", `"grave" is not a word for risk`},
		{"one wording for presence", head + "clauses: [{figure: has-ground, must: present, says: it is}]", "a.yaml:6:57", "it has two wordings"},
		{"no clauses", head, "a.yaml:2:3", "has no clauses"},
		{"shop status", head + "clauses: [{figure: bond, must: {at_most: 1 Ω}, basis: [{status: shop, source: us}]}]", "a.yaml:6:69", "shop is the status of a shop's own rulebook"},
	} {
		t.Run(c.name, func(t *testing.T) {
			b, problems := load("rules:\n" + rule("x", c.lines))
			if b != nil {
				t.Error("a book in spite of the fault")
			}
			found := false
			for _, p := range problems {
				found = found || strings.HasPrefix(p.String(), c.at+": ") && strings.Contains(p.String(), c.wrong)
			}
			if !found {
				t.Errorf("want %s: … %s, got %v", c.at, c.wrong, problems)
			}
		})
	}
}

func TestLoadNeedsReasons(t *testing.T) {
	whole := "rules:\n" + rule("x", bondRule)
	for _, key := range []string{"why", "remedy", "basis", "example", "group", "of", "risk", "clauses"} {
		var lines []string
		for _, l := range strings.Split(whole, "\n") {
			if !strings.HasPrefix(l, "    "+key+":") {
				lines = append(lines, l)
			}
		}
		if b, problems := load(strings.Join(lines, "\n")); b != nil || !strings.Contains(problems[0].String(), "has no "+key) {
			t.Errorf("without %s: %v", key, problems)
		}
		if key == "why" || key == "remedy" {
			blank := strings.Replace(whole, "    "+key+": ", "    "+key+": \" \" # ", 1)
			if b, problems := load(blank); b != nil || len(problems) == 0 {
				t.Errorf("with a blank %s: %v", key, problems)
			}
		}
	}
}

func TestLoadRefusesTheSameNameTwice(t *testing.T) {
	one, two := "rules:\n"+rule("hot-off", bondRule), "rules:\n"+rule("line-off", bondRule)
	b, problems := Load(fstest.MapFS{"a.yaml": {Data: []byte(one)}, "b.yaml": {Data: []byte(two)}}, defs)
	if b != nil || len(problems) != 1 || !strings.HasPrefix(problems[0].String(), "b.yaml:2:3: the rule line-off stands in the book already (a.yaml:2)") {
		t.Errorf("got %v", problems)
	}
	if _, problems := load(one + rule("hot-off", bondRule)); len(problems) != 1 || !strings.Contains(problems[0].Wrong, "a second time") {
		t.Errorf("got %v", problems)
	}
}

func TestLoadNothing(t *testing.T) {
	if b, problems := Load(fstest.MapFS{}, defs); b != nil || len(problems) != 1 {
		t.Errorf("an empty folder gave %v, %v", b, problems)
	}
	for _, text := range []string{"", " \n", "# only a comment\n", "- a\n", "rules: 3\n"} {
		b, problems := load(text)
		if b != nil || len(problems) == 0 {
			t.Errorf("%q gave a book", text)
		}
		for _, p := range problems {
			if strings.Contains(p.String(), "sheet") {
				t.Errorf("%q: a rulebook is no sheet: %s", text, p)
			}
		}
	}
}

func TestSignedLimits(t *testing.T) {
	b := book(t, rule("x", "group: readings\nof: winding\nrisk: set\nclauses: [{figure: ratio, must: {between: -1 to 1}, should: {between: \u22120.5 to 0.5}}]"))
	c := b.Rules()[0].Clauses[0]
	if *c.Must.AtLeast != -1 || *c.Must.AtMost != 1 || *c.Should.AtLeast != -0.5 {
		t.Errorf("got %v and %v", c.Must, c.Should)
	}
}

func TestDigest(t *testing.T) {
	a, z := "rules:\n"+rule("a", bondRule), "rules:\n"+rule("z", bondRule)
	digest := func(files map[string]string) string {
		m := fstest.MapFS{}
		for n, d := range files {
			m[n] = &fstest.MapFile{Data: []byte(d)}
		}
		b, problems := Load(m, defs)
		if b == nil {
			t.Fatal(problems)
		}
		return b.Digest()
	}
	first := digest(map[string]string{"a.yaml": a, "z.yaml": z})
	if !strings.HasPrefix(first, "sha256:") || len(first) != 7+64 {
		t.Errorf("digest %q", first)
	}
	if first != digest(map[string]string{"z.yaml": z, "a.yaml": a}) {
		t.Error("the digest depends on the order")
	}
	for _, other := range []map[string]string{{"a.yaml": a}, {"a.yaml": a, "z.yaml": z + "\n"}, {"a.yaml": z, "z.yaml": a}} {
		if first == digest(other) {
			t.Errorf("the digest does not see %v", other)
		}
	}
}

func FuzzLoad(f *testing.F) {
	f.Add([]byte("rules:\n" + rule("x", bondRule)))
	f.Add([]byte("rules:\n  bond-resistance:\n    clauses: [{figure: bond, must: {at_most: 50 mΩ}}]\n    basis: [{status: shop, source: us}]\n"))
	f.Add([]byte("rules: {x: {of: [], when: {mains: [none, 1 V to 2 V]}, clauses: [{}]}}"))
	f.Add([]byte("cautions:\n  a:\n    step: power\n    text: x\n    basis: [{status: computed, source: y}]\n"))
	f.Add([]byte("\xff\x00["))
	f.Add([]byte(strings.Repeat("[", 60)))
	base := book(f, rule("bond-resistance", bondRule))
	f.Fuzz(func(t *testing.T, data []byte) {
		b, problems := Load(fstest.MapFS{"a.yaml": {Data: data}}, defs)
		if (b == nil) != (len(problems) > 0) {
			t.Fatal("a book and problems, or neither")
		}
		if b != nil {
			b.Judge(figure.Setting{Subjects: []figure.Subject{{Name: "chassis", Kind: "chassis"}}}, nil, "rail")
		}
		if shop, problems := LoadShop(base, "shop.yaml", data); (shop == nil) != (len(problems) > 0) {
			t.Fatal("a shop's book and problems, or neither")
		}
	})
}
