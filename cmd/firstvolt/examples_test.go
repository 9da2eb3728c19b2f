package main

import (
	"fmt"
	"math"
	"strings"
	"sync"
	"testing"

	"firstvolt/checks"
	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
	"firstvolt/checks/sheet"
	"firstvolt/checks/trial"
	"firstvolt/rules"
)

// sampled is a sample's sheet with its figures, which no rule alters.
type sampled struct {
	set     figure.Setting
	stage   string
	figures []figure.Figure
}

// gallery keeps the figures of each sheet and its changes: they are made once.
type gallery struct {
	mu   sync.Mutex
	made map[string]sampled
}

func (g *gallery) of(t *testing.T, s rules.Sample) sampled {
	t.Helper()
	key := s.String()
	g.mu.Lock()
	defer g.mu.Unlock()
	if m, ok := g.made[key]; ok {
		return m
	}
	text := trial.Sheet(t, s.Sheet)
	for _, c := range s.Changes {
		text = trial.Altered(t, text, c.Was, c.Is)
	}
	read, problems := sheet.Read(s.Sheet+".yaml", []byte(text))
	for _, p := range problems {
		t.Errorf("%s: %s", key, p)
	}
	if read == nil {
		t.FailNow()
	}
	b := bench.ForStage(read, "")
	figures, broken := checks.Run(b)
	if len(broken) > 0 {
		t.Error(broken)
	}
	m := sampled{b.Setting(), b.Stage, figures}
	g.made[key] = m
	return m
}

// says is what a rule says of the sample's subject, of the worst where it names
// none; empty where it is not asked.
func (g *gallery) says(t *testing.T, book *rules.Book, rule string, s rules.Sample) (out rules.Outcome, why string) {
	t.Helper()
	m := g.of(t, s)
	rank := map[rules.Outcome]int{rules.Pass: 1, rules.Warn: 2, rules.Unproven: 3, rules.Fail: 4}
	for _, f := range book.Judge(m.set, m.figures, m.stage).Findings {
		if f.Rule == rule && (s.Of == "" || s.Of == f.Subject.Name) && rank[f.Outcome] > rank[out] {
			out, why = f.Outcome, f.Says+" "+f.Note
		}
	}
	return out, why
}

// ours is a rulebook of the test's own, which it may alter.
func ours(t *testing.T) *rules.Book {
	t.Helper()
	book, problems := rules.Load(rules.Default(), checks.Catalogue())
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return book
}

var shown = &gallery{made: map[string]sampled{}}

// TestExamplesOfRules makes every example of the rulebook and judges it whole:
// the sound sheet and the unsound one, and each edge of a limit.
func TestExamplesOfRules(t *testing.T) {
	book := ours(t)
	for _, r := range book.Rules() {
		t.Run(r.Name, func(t *testing.T) {
			if r.Example.Sound.Sheet == "" || r.Example.Unsound.Sheet == "" {
				t.Fatal("its example is words, no sheet")
			}
			if o := r.Example.Unsound.Outcome; o == rules.Pass || r.Example.Sound.Outcome != rules.Pass {
				t.Errorf("the sound sheet is to be %s, the unsound one %s", r.Example.Sound.Outcome, o)
			}
			samples := []rules.Sample{r.Example.Sound, r.Example.Unsound}
			for _, e := range r.Example.Edges {
				samples = append(samples, e.Inside, e.Outside)
			}
			for _, s := range samples {
				if got, why := shown.says(t, book, r.Name, s); got != s.Outcome {
					t.Errorf("%s of %s: %q, the book says %s; %s", s, s.Of, got, s.Outcome, why)
				}
			}
		})
	}
}

// end is one numeric end of a limit.
type end struct {
	figure, key string
	limit       *rules.Limit
	at          *float64
	step        float64 // one of the last digit that is written
}

// ends lists the numeric ends of every limit of a rule.
func ends(t *testing.T, r *rules.Rule) []end {
	t.Helper()
	var out []end
	for _, c := range r.Clauses {
		demands := []rules.Demand{c.Demand}
		for _, k := range c.Limits {
			demands = append(demands, k.Demand)
		}
		for _, d := range demands {
			for _, kind := range []struct {
				key   string
				limit *rules.Limit
			}{{"must", d.Must}, {"if-read", d.IfRead}, {"should", d.Should}} {
				l := kind.limit
				if l == nil || l.Present != nil {
					continue
				}
				texts := strings.Split(l.Written, " to ")
				if l.AtLeast != nil {
					out = append(out, end{c.Figure, kind.key + " at least", l, l.AtLeast, stepOf(t, texts[0], l.Dim)})
				}
				if l.AtMost != nil {
					out = append(out, end{c.Figure, kind.key + " at most", l, l.AtMost, stepOf(t, texts[len(texts)-1], l.Dim)})
				}
			}
		}
	}
	return out
}

// stepOf is one of the last digit of a written value: 0.01 of 1.10, 1 MΩ of 20 MΩ.
func stepOf(t *testing.T, text string, d quantity.Dim) float64 {
	t.Helper()
	number, unit, _ := strings.Cut(strings.Trim(text, " -\u2212"), " ")
	_, decimals, _ := strings.Cut(number, ".")
	one := "1"
	if decimals != "" {
		one = "0." + strings.Repeat("0", len(decimals)-1) + "1"
	}
	r, err := quantity.Parse(strings.TrimSpace(one+" "+unit), d)
	if err != nil {
		t.Fatalf("%q: %v", text, err)
	}
	return r.Low
}

// counts are the figures that are whole numbers of things on every edge: between
// two of them there is nothing, so that a limit moved by a tenth is the same.
func counts(t *testing.T, book *rules.Book) map[string]bool {
	t.Helper()
	out := map[string]bool{}
	whole := func(x float64) bool { return x == math.Round(x) && x < 10 }
	for _, r := range book.Rules() {
		for _, e := range r.Example.Edges {
			for _, s := range []rules.Sample{e.Inside, e.Outside} {
				m := shown.of(t, s)
				for _, f := range m.figures {
					if f.Known() && f.Present == nil && f.Def.Unit == quantity.Number {
						is, seen := out[f.Def.Name]
						out[f.Def.Name] = (is || !seen) && f.Range.Low == f.Range.High && whole(f.Range.Low)
					}
				}
			}
		}
	}
	return out
}

// TestEveryLimitIsHeld alters each numeric limit of the rulebook, by its last
// digit and by a tenth, up and down. Each time some edge of its rule must come
// out otherwise than the book says. A limit that several clauses of a rule set
// on one figure is one limit: where another clause still holds it, all are moved.
func TestEveryLimitIsHeld(t *testing.T) {
	book := ours(t)
	held := 0
	counted := counts(t, book)
	for _, r := range book.Rules() {
		all := ends(t, r)
		for _, e := range all {
			for what, by := range map[string]float64{"last digit": e.step, "a tenth": 0.1 * *e.at} {
				for _, sign := range []float64{1, -1} {
					if by == 0 || what == "a tenth" && counted[e.figure] {
						continue
					}
					move := func(ends ...end) bool {
						for _, o := range ends {
							*o.at += sign * by
							defer func() { *o.at -= sign * by }()
						}
						return differs(t, book, r)
					}
					var alike []end
					for _, o := range all {
						if o.figure == e.figure && o.key == e.key && *o.at == *e.at {
							alike = append(alike, o)
						}
					}
					if !move(e) && !(len(alike) > 1 && move(alike...)) {
						t.Errorf("%s: %s %s of %s may move by %s (%+.3g) and no edge sees it", r.Name, e.key, e.limit, e.figure, what, sign*by)
						continue
					}
					held++
				}
			}
		}
	}
	t.Logf("%d changes of limits, each seen by an edge", held)
}

// differs tells whether some edge of the rule is not as the book says.
func differs(t *testing.T, book *rules.Book, r *rules.Rule) bool {
	t.Helper()
	for _, e := range r.Example.Edges {
		for _, s := range []rules.Sample{e.Inside, e.Outside} {
			if got, _ := shown.says(t, book, r.Name, s); got != s.Outcome {
				return true
			}
		}
	}
	return false
}

// TestStepOf: what one of the last digit is.
func TestStepOf(t *testing.T) {
	for text, want := range map[string]float64{"1": 1, "1.10": 0.01, "-1": 1, "0.7": 0.1} {
		if got := stepOf(t, text, quantity.Number); fmt.Sprintf("%.6g", got) != fmt.Sprintf("%.6g", want) {
			t.Errorf("%s: %g, want %g", text, got, want)
		}
	}
	if got := stepOf(t, "20 MΩ", quantity.Resistance); got != 1e6 {
		t.Errorf("20 MΩ: %g", got)
	}
	if got := stepOf(t, "0.5 mA", quantity.Current); fmt.Sprintf("%.6g", got) != "0.0001" {
		t.Errorf("0.5 mA: %g", got)
	}
}
