// Package report prints judgements: as text for a person, in the trade words
// of the set's region, and as the machine output. Every format carries all of
// a finding: what, where, measured against limit, why, remedy and source. It
// judges nothing; drawings and records are other packages' work.
package report

import (
	"bytes"
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"firstvolt/checks/figure"
	"firstvolt/checks/handbook"
	"firstvolt/checks/pattern"
	"firstvolt/cmd/firstvolt/internal/judging"
	"firstvolt/rules"
)

// Text prints sheets for a person, 80 columns wide.
type Text struct {
	Painter Painter
	All     bool // passes in full too
	// Part leaves away the cautions and what stands under every judgement. It is
	// for pages that print these themselves, once for several sheets.
	Part bool
}

// page collects lines.
type page struct {
	bytes.Buffer
	Painter
	words Words
	file  string
}

func (p *page) line(text string) { fmt.Fprintln(p, text) }

// para prints a paragraph behind an indentation.
func (p *page) para(indent, text string) {
	for _, l := range wrap(text, indent, indent) {
		p.line(l)
	}
}

// item prints a label and its text, which hangs behind the label.
func (p *page) item(label, text string) {
	lead := "    " + columns.FillRight(label, 8) + " "
	for _, l := range wrap(text, lead, strings.Repeat(" ", columns.StringWidth(lead))) {
		p.line(l)
	}
}

// Sheet prints one sheet. Of an unreadable one the errors themselves belong to
// the diagnostics; here stands that it was not judged.
func (t Text) Sheet(s *judging.Sheet) []byte {
	p := &page{Painter: t.Painter, file: Clean(s.File)}
	if !s.Judged() {
		why := count(len(s.Problems), "error")
		if len(s.Problems) == 0 {
			why = "a fault of this program stopped it"
		}
		p.first(p.file+": ", "UNREADABLE", fmt.Sprintf(", not judged: %s.", why), "  ")
		return p.Bytes()
	}
	p.words = WordsOf(s)
	j := s.Judgement
	p.first(p.file+", "+stage(s)+": ", Verdict(j.Verdict), ". "+notJudged(j), "  ")
	p.para("", reason(j))
	if len(j.Reasons) > 0 {
		p.para("", p.words.sentence("Not cleared in any case: "+strings.Join(j.Reasons, "; ")))
	}
	c := j.Counts
	p.para("", fmt.Sprintf("%s: %d fail, %d unproven, %d caution, %d pass.", count(c.Asked, "finding"), c.Fail, c.Unproven, c.Caution, c.Pass))
	for _, o := range []rules.Outcome{rules.Fail, rules.Unproven, rules.Warn} {
		p.outcome(j, o)
	}
	p.passes(j, t.All)
	if !t.Part {
		p.standing(j.Carried)
	}
	return p.Bytes()
}

// WordsOf are the words of the set's region, its own names left alone.
func WordsOf(s *judging.Sheet) Words {
	names := []string{"upstream"} // "upstream 3" is a name too
	for _, part := range s.Read.Parts {
		names = append(names, part.Name)
		for _, w := range part.Windings {
			names = append(names, part.Name+"."+w.Name)
		}
	}
	return NewWords(spoken(s.Read.Region), names...)
}

// spoken are the words of a region, its usual residual device among them.
func spoken(r *handbook.RegionData) map[string]string {
	words := maps.Clone(r.Words)
	words["residual"] = strings.ToUpper(r.Residual)
	return words
}

// first prints a paragraph in which one word, the verdict or the outcome,
// stands out. It is painted after the lines are set, since paint has no width.
func (p *page) first(before, word, after, hang string) {
	done := false
	for _, l := range wrap(before+word+after, "", hang) {
		if i := strings.LastIndex(l, word); i >= 0 && !done {
			l, done = l[:i]+p.Strong(word)+l[i+len(word):], true
		}
		p.line(l)
	}
}

// Verdict is the verdict as a person reads it.
func Verdict(v rules.Verdict) string { return strings.ToUpper(string(v)) }

func stage(s *judging.Sheet) string {
	text := "stage " + s.Judgement.Stage
	own := cmp.Or(s.Own(), "rail by default")
	switch {
	case s.Asked != "" && s.Asked != s.Own():
		return text + " (asked by --stage; the sheet says " + own + ")"
	case s.Asked != "":
		return text + " (asked by --stage, as the sheet says)"
	case s.Own() == "":
		return text + " (the sheet names none)"
	}
	return text
}

func notJudged(j rules.Judgement) string {
	if len(j.NotJudged) == 0 {
		return "Every group of rules was judged."
	}
	var named []string
	for _, g := range j.NotJudged {
		named = append(named, cmp.Or(groupSays[g], g))
	}
	return "Not judged: " + strings.Join(named, "; ") + "."
}

// groupSays words the groups whose name alone does not say what they are about.
var groupSays = map[string]string{"high-tension": "high tension: rectifier, filter capacitors"}

// harms are what a failing finding of each risk means to the person, worst first.
var harms = []struct {
	risk rules.Risk
	says string
}{
	{rules.Shock, "it can give a shock"},
	{rules.Fire, "it can start a fire"},
	{rules.Set, "it can damage the set"},
}

// reason is the verdict in a sentence; a hold says what it can do, shock first.
func reason(j rules.Judgement) string {
	per := func(o rules.Outcome, r rules.Risk) (n int) {
		for _, f := range j.Findings {
			if f.Outcome == o && f.Risk == r {
				n++
			}
		}
		return n
	}
	switch j.Verdict {
	case rules.Cleared:
		return fmt.Sprintf("Nothing asked at this stage fails, and nothing required is unproven. That clears one current-limited first power-up at stage %s, and no more.", j.Stage)
	case rules.Hold:
		var parts []string
		for _, h := range harms {
			if n := per(rules.Fail, h.risk); n > 0 {
				parts = append(parts, fmt.Sprintf("%s (%s)", h.says, count(n, "finding")))
			}
		}
		if len(parts) == 0 {
			parts = []string{"a finding fails"}
		}
		return "No voltage yet: " + strings.Join(parts, "; ") + "."
	}
	var parts []string
	for _, h := range harms {
		if n := per(rules.Unproven, h.risk); n > 0 {
			parts = append(parts, fmt.Sprintf("%d on %s", n, map[rules.Risk]string{rules.Shock: "shock", rules.Fire: "fire", rules.Set: "damage to the set"}[h.risk]))
		}
	}
	if len(parts) == 0 {
		return "No voltage yet: nothing fails, but not everything was judged."
	}
	return fmt.Sprintf("No voltage yet: nothing fails, but %s not proved (%s).", isAre(j.Counts.Unproven, "finding"), strings.Join(parts, ", "))
}

func isAre(n int, what string) string {
	if n == 1 {
		return "1 " + what + " is"
	}
	return fmt.Sprintf("%d %ss are", n, what)
}

// outcomes are the words that findings begin with.
var outcomes = map[rules.Outcome]string{rules.Fail: "FAIL", rules.Unproven: "UNPROVEN", rules.Warn: "CAUTION", rules.Pass: "PASS"}

// outcome prints the findings of one outcome in full. Of one rule the reason,
// the remedy and the source stand with the first; the others point there.
func (p *page) outcome(j rules.Judgement, o rules.Outcome) {
	var first rules.Finding
	for _, f := range j.Findings {
		if f.Outcome != o {
			continue
		}
		same := f.Rule == first.Rule && f.Why == first.Why && f.Remedy == first.Remedy && slices.Equal(f.Basis, first.Basis)
		if same {
			p.finding(f, first.Subject.Name)
			continue
		}
		p.finding(f, "")
		first = f
	}
}

// finding prints one finding; above, where not empty, is the subject whose
// finding just above gives the same reason, remedy and source.
func (p *page) finding(f rules.Finding, above string) {
	say := p.words.Say
	word := outcomes[f.Outcome]
	p.line("")
	about := ""
	if f.Subject.Name != f.Rule {
		about = ", " + say(f.Subject.Name)
	}
	p.line(p.Strong(word) + ", " + string(f.Risk) + ": " + p.Name(f.Rule) + about)
	// The heading has named the subject.
	p.para("    ", p.words.sentence(strings.TrimPrefix(f.Says, f.Subject.Name+": ")))
	if f.Note != "" && !repeats(f) {
		p.para("    ", p.words.sentence(f.Note))
	}
	if path := strings.Join(f.Witness, " → "); path != "" && !strings.Contains(f.Says+f.Note, path) {
		p.item("Path", say(path))
	}
	for i, l := range f.Trace {
		p.item(onlyFirst(i, "Sum"), say(l))
	}
	if above == "" {
		p.item("Why", say(f.Why))
	}
	for i, text := range settling(f.Needs) {
		p.item(onlyFirst(i, "Settle"), p.words.sentence(text))
	}
	switch {
	case above != "":
		p.item("Why", "and what to do, and the source: as for "+say(above)+" above")
	case f.Outcome != rules.Pass:
		p.item("Do this", say(f.Remedy))
		fallthrough
	default:
		p.sources(f.Basis)
	}
	p.item("Place", fmt.Sprintf("%s:%d:%d", p.file, f.At.Line, f.At.Column))
}

// settling words what would settle a finding. How it is done stands once, after
// all that is done so.
func settling(needs []figure.Need) []string {
	var out []string
	for i, n := range needs {
		end := n.How
		if i+1 < len(needs) && needs[i+1].How == n.How {
			end = ""
		}
		if end != "" {
			end = ": " + end
		}
		out = append(out, n.What+end)
	}
	return out
}

// repeats tells whether the note of a finding stands in its sentence or its sum
// already.
func repeats(f rules.Finding) bool {
	bare := func(text string) string { return strings.TrimRight(strings.ToLower(strings.TrimSpace(text)), ".") }
	note := bare(f.Note)
	for _, text := range append([]string{f.Says, strings.TrimPrefix(f.Says, f.Subject.Name+": ")}, f.Trace...) {
		if bare(text) == note {
			return true
		}
	}
	return false
}

func (p *page) sources(all []figure.Basis) {
	for i, b := range all {
		p.item(onlyFirst(i, "Source"), Source(b))
	}
}

// Source is a basis as a person reads it.
func Source(b figure.Basis) string {
	return strings.ReplaceAll(string(b.Status), "-", " ") + ": " + b.Source
}

func onlyFirst(i int, label string) string {
	if i == 0 {
		return label
	}
	return ""
}

// passes prints what passed: by group, or each in full.
func (p *page) passes(j rules.Judgement, all bool) {
	if all {
		p.outcome(j, rules.Pass)
		return
	}
	if j.Counts.Pass == 0 {
		return
	}
	var parts []string
	for _, g := range rules.Groups {
		n := 0
		for _, f := range j.Findings {
			if f.Group == g && f.Outcome == rules.Pass {
				n++
			}
		}
		if n > 0 {
			parts = append(parts, fmt.Sprintf("%s %d", g, n))
		}
	}
	p.line("")
	p.first("", outcomes[rules.Pass], ": "+strings.Join(parts, ", ")+". With --all each stands in full.", "")
}

// standing prints what every judgement carries.
func (p *page) standing(c rules.Carried) {
	if len(c.Cautions) > 0 {
		p.line("")
		p.line(p.Strong("When the voltage comes, and after"))
		for _, caution := range c.Cautions {
			for _, l := range wrap(p.words.Say(caution.Text), "  – ", "    ") {
				p.line(l)
			}
		}
	}
	p.line("")
	p.para("", p.words.Say(c.Owed.Text))
	p.para("", p.words.Say(c.Deferral.Text))
}

// sentence begins with a capital where its first word is a plain one, no name
// of the sheet, and ends in a stop.
func (w Words) sentence(text string) string {
	text = w.Say(strings.TrimSpace(text))
	if text == "" {
		return ""
	}
	if m := plainStart().FindStringSubmatch(text); m != nil && !w.keep[m[1]] {
		r, n := utf8.DecodeRuneInString(text)
		text = string(unicode.ToUpper(r)) + text[n:]
	}
	if !strings.ContainsAny(text[len(text)-1:], ".!?") {
		text += "."
	}
	return text
}

// plainStart is a first word of letters that a space or a mark ends.
var plainStart = pattern.Of(`^(\p{Ll}+)(?:[ ,?!]|$)`)

func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
